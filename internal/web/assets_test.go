package web

import (
	"fmt"
	"io/fs"
	"os"
	"regexp"
	"strings"
	"testing"
)

var addressCall = regexp.MustCompile(`\.address\("([^"]*)"\)`)

// TestCheck29: Missing asset name fails a Go test, not a page. Each name in a
// template, in a handler and in a module is there; with any one file that a
// template names taken away, the pages refuse to be made and say which.
func TestCheck29(t *testing.T) {
	whole := loadAssets()
	loadPages(whole)
	names := map[string]bool{}
	texts, err := fs.Glob(templateFiles, "templates/*.html")
	if err != nil {
		t.Fatal(err)
	}
	for _, name := range texts {
		text, err := templateFiles.ReadFile(name)
		if err != nil {
			t.Fatal(err)
		}
		for _, m := range assetCall.FindAllSubmatch(text, -1) {
			names[string(m[1])] = true
		}
	}
	if len(names) < 3 {
		t.Fatalf("the templates name %d assets; the search has gone blind", len(names))
	}
	for name := range names {
		less := loadAssets()
		delete(less.at, name)
		if said := panics(func() { loadPages(less) }); !strings.Contains(said, name) {
			t.Errorf("without %s the pages are made all the same; said %q", name, said)
		}
	}
	files, err := os.ReadDir(".")
	if err != nil {
		t.Fatal(err)
	}
	for _, f := range files {
		if !strings.HasSuffix(f.Name(), ".go") || strings.HasSuffix(f.Name(), "_test.go") {
			continue
		}
		text, err := os.ReadFile(f.Name())
		if err != nil {
			t.Fatal(err)
		}
		for _, m := range addressCall.FindAllSubmatch(text, -1) {
			if _, err := whole.address(string(m[1])); err != nil {
				t.Errorf("%s: %v", f.Name(), err)
			}
		}
	}
}

// panics runs do and gives what it panicked with, empty where it did not.
func panics(do func()) (said string) {
	defer func() {
		if r := recover(); r != nil {
			said = fmt.Sprint(r)
		}
	}()
	do()
	return ""
}
