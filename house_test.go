package matchmark_test

import (
	"encoding/json"
	"go/ast"
	"go/parser"
	"go/token"
	"io/fs"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"strings"
	"testing"
)

// mayImport is the one rule of dependency: for each wing, the wings of this
// module it may lean on. docs/ARCHITECTURE.md draws it.
var mayImport = map[string][]string{
	"internal/trade":     {"internal/trade", "reference"},
	"internal/machine":   {"internal/trade", "internal/machine"},
	"internal/kit":       {"internal/trade", "internal/machine", "internal/kit"},
	"internal/finding":   {"internal/trade", "internal/machine", "internal/finding"},
	"internal/store":     {"internal/machine", "internal/store"},
	"internal/bench":     {"internal/trade", "internal/machine", "internal/kit", "internal/finding", "internal/store", "internal/bench"},
	"internal/book":      {"internal/trade", "internal/machine", "internal/finding", "internal/book"},
	"internal/demo":      {"internal/machine", "internal/store", "internal/demo"},
	"internal/door":      {"internal/store", "internal/door"},
	"internal/benchlock": {"internal/benchlock"},
	"internal/web":       {"internal/trade", "internal/machine", "internal/kit", "internal/finding", "internal/store", "internal/bench", "internal/book", "internal/demo", "internal/door", "internal/benchlock", "internal/web", "docs"},
	"internal/cli":       {"internal/trade", "internal/machine", "internal/kit", "internal/finding", "internal/store", "internal/bench", "internal/book", "internal/demo", "internal/door", "internal/benchlock", "internal/cli"},
	"internal/reftest":   {"internal/reftest"},
	"internal/trial":     {"internal/trial"},
	"reference":          {},
	"docs":               {},
	"cmd/matchmark":      {"internal/cli", "internal/web", "internal/machine", "internal/bench", "internal/demo", "internal/store", "internal/kit"},
	"tools":              {"internal/trade", "internal/machine", "internal/kit", "internal/finding", "internal/store", "internal/bench", "internal/demo", "internal/web", "tools"},
}

// pure wings have no input or output and no clock.
var pure = []string{"internal/trade", "internal/machine", "internal/kit", "internal/finding", "internal/book"}

// forTests are wings that only tests may lean on.
var forTests = []string{"internal/reftest", "internal/trial"}

// closedToPure are the packages a pure wing may not import.
var closedToPure = map[string]bool{"os": true, "net": true, "net/http": true, "database/sql": true, "log": true,
	"log/slog": true, "os/exec": true, "math/rand": true, "io/ioutil": true, "syscall": true}

// closedCalls are functions that would make a pure result depend on the moment.
var closedCalls = map[string]bool{"time.Now": true, "time.Since": true, "rand.Int": true, "rand.IntN": true, "rand.Float64": true}

type listed struct {
	ImportPath string
	Dir        string
	Imports    []string
	GoFiles    []string
}

func packages(t *testing.T) []listed {
	t.Helper()
	out, err := exec.Command("go", "list", "-json=ImportPath,Dir,Imports,GoFiles", "./...").Output()
	if err != nil {
		t.Fatalf("go list: %v", err)
	}
	var all []listed
	for dec := json.NewDecoder(strings.NewReader(string(out))); dec.More(); {
		var p listed
		if err := dec.Decode(&p); err != nil {
			t.Fatal(err)
		}
		all = append(all, p)
	}
	return all
}

// wing is the longest rule that a package path falls under.
func wing(path string) string {
	best := ""
	for w := range mayImport {
		if (path == w || strings.HasPrefix(path, w+"/")) && len(w) > len(best) {
			best = w
		}
	}
	return best
}

func TestArrowsGoOneWay(t *testing.T) {
	for _, p := range packages(t) {
		from := strings.TrimPrefix(strings.TrimPrefix(p.ImportPath, "matchmark"), "/")
		w := wing(from)
		if w == "" {
			if len(p.GoFiles) > 0 {
				t.Errorf("%s stands in no wing of the house; add it to the rule or move it", p.ImportPath)
			}
			continue
		}
		for _, imp := range p.Imports {
			to, ours := strings.CutPrefix(imp, "matchmark/")
			if ours && !allowed(w, to) {
				t.Errorf("%s imports %s: %s may lean on %v only", from, to, w, mayImport[w])
			}
		}
	}
}

func allowed(from, to string) bool {
	for _, w := range mayImport[from] {
		if to == w || strings.HasPrefix(to, w+"/") {
			return true
		}
	}
	return false
}

// TestTestWingsStayWithTests: nothing that is released leans on a wing made for
// tests, and no rule allows it.
func TestTestWingsStayWithTests(t *testing.T) {
	for w := range mayImport {
		for _, test := range forTests {
			if w != test && allowed(w, test) {
				t.Errorf("the rule lets %s lean on %s, which is for tests", w, test)
			}
		}
	}
}

func TestPureWingsArePure(t *testing.T) {
	for _, p := range packages(t) {
		path := strings.TrimPrefix(p.ImportPath, "matchmark/")
		isPure := false
		for _, w := range pure {
			isPure = isPure || path == w || strings.HasPrefix(path, w+"/")
		}
		if !isPure {
			continue
		}
		for _, imp := range p.Imports {
			if closedToPure[imp] {
				t.Errorf("%s imports %s; a pure wing has no input, output or clock", path, imp)
			}
		}
		for _, name := range p.GoFiles {
			lookForCalls(t, filepath.Join(p.Dir, name), path)
		}
	}
}

func lookForCalls(t *testing.T, file, path string) {
	t.Helper()
	tree, err := parser.ParseFile(token.NewFileSet(), file, nil, 0)
	if err != nil {
		t.Fatal(err)
	}
	ast.Inspect(tree, func(n ast.Node) bool {
		sel, ok := n.(*ast.SelectorExpr)
		if !ok {
			return true
		}
		if x, ok := sel.X.(*ast.Ident); ok && closedCalls[x.Name+"."+sel.Sel.Name] {
			t.Errorf("%s: %s calls %s.%s; give the time or the seed as an argument", path, filepath.Base(file), x.Name, sel.Sel.Name)
		}
		return true
	})
}

// TestFilesStaySmall: 600 lines for a file, 800 for a test; data is free.
func TestFilesStaySmall(t *testing.T) {
	walk(t, func(path string, text string) {
		most := 600
		if strings.HasSuffix(path, "_test.go") {
			most = 800
		}
		if !strings.HasSuffix(path, ".go") {
			return
		}
		if n := strings.Count(text, "\n"); n > most {
			t.Errorf("%s has %d lines, more than %d; part it", path, n, most)
		}
	})
}

var pathIn = regexp.MustCompile("`((?:internal|cmd|docs|tools|reference|\\.ci)/[A-Za-z0-9_./-]+)`")

// TestArchitectureNamesRealPaths: each path the architecture page names exists.
func TestArchitectureNamesRealPaths(t *testing.T) {
	text, err := os.ReadFile("docs/ARCHITECTURE.md")
	if err != nil {
		t.Fatal(err)
	}
	found := pathIn.FindAllStringSubmatch(string(text), -1)
	if len(found) < 10 {
		t.Fatalf("docs/ARCHITECTURE.md names %d paths; the page has lost its map", len(found))
	}
	for _, m := range found {
		if _, err := os.Stat(m[1]); err != nil {
			t.Errorf("docs/ARCHITECTURE.md names %s, which is not there", m[1])
		}
	}
}

// walk reads the project's own text files.
func walk(t *testing.T, see func(path, text string)) {
	t.Helper()
	err := filepath.WalkDir(".", func(path string, d fs.DirEntry, err error) error {
		if err != nil {
			return err
		}
		if d.IsDir() {
			if path == ".git" {
				return fs.SkipDir
			}
			return nil
		}
		text, err := os.ReadFile(path)
		if err != nil {
			return err
		}
		see(path, string(text))
		return nil
	})
	if err != nil {
		t.Fatal(err)
	}
}
