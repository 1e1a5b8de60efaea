package acceptance_test

import (
	"html"
	"io/fs"
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"

	"matchmark/internal/trial"
	"matchmark/tools/pictures/tour"
)

var (
	avoided   = regexp.MustCompile(`(?i)\b(assets?|work orders?|tickets?|item status|workflows?|dashboards?|sync(ed|ing|s)?|submit(s|ted|ting)?)\b`)
	aTag      = regexp.MustCompile(`<[^>]*>`)
	spoken    = regexp.MustCompile(`\s(?:aria-label|title|alt|placeholder|value|content)="([^"]*)"`)
	scriptSrc = regexp.MustCompile(`<(?:script|style)\b[^>]*>[^<]*</(?:script|style)>`)
	jsWords   = regexp.MustCompile("'([^'\n]* [^'\n]*)'|\"([^\"\n]* [^\"\n]*)\"|`([^`]* [^`]*)`")
)

// wordsOf are all words of a page, those for screen readers among them.
func wordsOf(page string) string {
	page = scriptSrc.ReplaceAllString(page, " ")
	var out strings.Builder
	for _, m := range spoken.FindAllStringSubmatch(page, -1) {
		out.WriteString(m[1] + " | ")
	}
	out.WriteString(aTag.ReplaceAllString(page, " "))
	return html.UnescapeString(out.String())
}

// TestCheck28: Word list: avoided words absent from all pages. What scripts say
// counts too.
func TestCheck28(t *testing.T) {
	holds(t, 28)
	s := trial.Serve(t, t.TempDir())
	for _, path := range tour.Pages() {
		words := wordsOf(get(t, s.URL, path).body)
		if len(words) < 100 {
			t.Errorf("%s has %d letters; the search has gone blind", path, len(words))
		}
		for _, at := range avoided.FindAllStringIndex(words, -1) {
			t.Errorf("%s says “%s”", path, strings.TrimSpace(words[max(0, at[0]-30):min(len(words), at[1]+30)]))
		}
	}
	err := filepath.WalkDir("../internal/web/assets", func(path string, _ fs.DirEntry, err error) error {
		if err != nil || filepath.Ext(path) != ".js" {
			return err
		}
		text, err := os.ReadFile(path)
		for _, m := range jsWords.FindAllString(string(text), -1) {
			if avoided.MatchString(m) {
				t.Errorf("%s says %s", path, m)
			}
		}
		return err
	})
	if err != nil {
		t.Fatal(err)
	}
}

// TestAvoidedWordsBite: the search sees words in text and in names, and leaves
// trade words alone.
func TestAvoidedWordsBite(t *testing.T) {
	for page, want := range map[string]bool{"<p>Submit it</p>": true, `<a aria-label="work order 3">x</a>`: true, "<p>synchro cone</p>": false,
		`<input type="submit" value="Keep">`: false, "<script src=/a/assets/x.js></script>": false} {
		if got := avoided.MatchString(wordsOf(page)); got != want {
			t.Errorf("%s: found %v, want %v", page, got, want)
		}
	}
}
