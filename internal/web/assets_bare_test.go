package web

import (
	"io/fs"
	"path"
	"regexp"
	"strings"
	"testing"
)

// TestBare: what is for readers goes, what runs stays.
func TestBare(t *testing.T) {
	for from, want := range map[string]string{
		"// a\n// b\nconst x = 1; // c\n\tfoo();\n":                         "const x = 1;foo();",
		"/**\n * @param {string} a\n */\nfunction f(a) {}\n":                "function f(a) {}",
		"/** @type {A} */ let a;\nlet b;\n/** two\n ** lines **/\nlet c;\n": "let a;let b;let c;",
		"/** @type {A} */ let a;\n":                                         "let a;",
		"f(/** @type {HTMLElement} */ (el), 1 /* one */);":                  "f((el), 1 /* one */);",
		`at("http://here/" + x); at("a // b"); // end` + "\n":               `at("http://here/" + x); at("a // b");`,
		`at("http://here/" + x); say("a // b"); // don't` + "\n":            `at("http://here/" + x); say("a // b"); // don't`,
		"a = (b) => b && c;\nreturn d\n}\nelse f\n":                         "a = (b)=>b&&c;return d\n}\nelse f",
		"const s = `/* not one */`;":                                        "const s = `/* not one */`;",
		"x = a.replace(/\\/\\*/g, \"\");":                                   "x = a.replace(/\\/\\*/g, \"\");",
	} {
		if got := string(bare([]byte(from))); got != want {
			t.Errorf("%q is bared to %q, want %q", from, got, want)
		}
	}
}

// everyPage are the modules that each page of a machine asks for.
var everyPage = map[string]bool{"page.js": true, "outbox.js": true, "kept.js": true, "live.js": true}

// TestModulesCanBeBared: no text of a module runs over lines, where an indent
// or a comment would be part of it, and no text looks like a type.
func TestModulesCanBeBared(t *testing.T) {
	names, _ := fs.Glob(assetFiles, "assets/*.js")
	texts := regexp.MustCompile("\"[^\"\n]*\"|'[^'\n]*'|`[^`\n]*`")
	total, always := 0, 0
	for _, name := range names {
		data, err := assetFiles.ReadFile(name)
		if err != nil {
			t.Fatal(err)
		}
		small := bare(data)
		total += len(pack(small))
		if everyPage[path.Base(name)] {
			always += len(pack(small))
		}
		for i, line := range strings.Split(string(small), "\n") {
			if strings.Count(line, "`")%2 != 0 {
				t.Errorf("%s, line %d of what is left: a text runs over lines: %s", path.Base(name), i+1, line)
			}
			for _, text := range texts.FindAllString(line, -1) {
				if strings.Contains(text, "/** @") {
					t.Errorf("%s: a text looks like a type: %s", path.Base(name), text)
				}
			}
		}
	}
	t.Logf("all modules together: %d bytes on the wire; those of every page: %d", total, always)
	if always > 8<<10 {
		t.Errorf("the modules of every page are %d bytes on the wire, want at most %d", always, 8<<10)
	}
}

func TestBareStyles(t *testing.T) {
	from := "/* a\n * b */\n.x > a{\n  color : red; }\n\n@media (a) { .y{content:\"Sheet \" counter(page)} }\n"
	if got, want := string(bareStyles([]byte(from))), `.x > a{color : red;}@media (a){.y{content:"Sheet " counter(page)}}`; got != want {
		t.Errorf("bared to %q, want %q", got, want)
	}
}

// TestStylesCanBeBared: no text in a style sheet holds what baring changes.
func TestStylesCanBeBared(t *testing.T) {
	names, _ := fs.Glob(assetFiles, "assets/*.css")
	texts := regexp.MustCompile("\"[^\"\n]*\"|'[^'\n]*'")
	for _, name := range names {
		data, err := assetFiles.ReadFile(name)
		if err != nil {
			t.Fatal(err)
		}
		for _, text := range texts.FindAllString(string(styleNote.ReplaceAll(data, nil)), -1) {
			if strings.ContainsAny(text, "{};") || strings.Contains(text, "/*") || strings.Contains(text, "  ") {
				t.Errorf("%s: %s would be changed", name, text)
			}
		}
	}
}
