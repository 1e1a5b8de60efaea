package acceptance_test

import (
	"go/ast"
	"go/parser"
	"go/token"
	"io"
	"io/fs"
	"net/http"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"testing"

	"matchmark/internal/trial"
	"matchmark/tools/pictures/tour"
)

// TestEveryRouteIsListed: an address pattern in the sources of the pages that
// is not among the routes is one that no check looks at.
func TestEveryRouteIsListed(t *testing.T) {
	served := patterns(t)
	if len(served) < 20 {
		t.Fatalf("only %d address patterns found in internal/web; the search has gone blind", len(served))
	}
	listed := slices.Clone(tour.Unlisted)
	for _, r := range tour.Routes {
		listed = append(listed, r.Pattern)
	}
	for _, p := range served {
		if !slices.Contains(listed, p) {
			t.Errorf("%s is not among the routes of tools/pictures/tour; give it demo values there", p)
		}
	}
	for _, p := range listed {
		if !slices.Contains(served, p) {
			t.Errorf("%s is among the routes and is not served any more", p)
		}
	}
}

// patterns are the words "GET /…" in the sources of the pages.
func patterns(t *testing.T) []string {
	t.Helper()
	var out []string
	err := filepath.WalkDir("../internal/web", func(path string, _ fs.DirEntry, err error) error {
		if err != nil || filepath.Ext(path) != ".go" || strings.HasSuffix(path, "_test.go") {
			return err
		}
		tree, err := parser.ParseFile(token.NewFileSet(), path, nil, 0)
		if err != nil {
			return err
		}
		ast.Inspect(tree, func(n ast.Node) bool {
			if lit, ok := n.(*ast.BasicLit); ok && lit.Kind == token.STRING {
				if text, err := strconv.Unquote(lit.Value); err == nil && strings.HasPrefix(text, "GET /") {
					out = append(out, text)
				}
			}
			return true
		})
		return nil
	})
	if err != nil {
		t.Fatal(err)
	}
	return out
}

// TestEveryRouteAnswers: the demo values lead to what they say they lead to.
func TestEveryRouteAnswers(t *testing.T) {
	s := trial.Serve(t, t.TempDir())
	for _, r := range tour.Routes {
		for _, path := range r.Paths {
			answer := get(t, s.URL, path)
			isPage := strings.HasPrefix(answer.Header.Get("Content-Type"), "text/html") && strings.HasSuffix(strings.TrimSpace(answer.body), "</html>")
			if answer.StatusCode != http.StatusOK || !isPage && !r.Data {
				t.Errorf("%s answers %s, %s", path, answer.Status, answer.Header.Get("Content-Type"))
			}
		}
	}
	for _, path := range tour.Astray {
		if answer := get(t, s.URL, path); answer.StatusCode != http.StatusNotFound {
			t.Errorf("%s answers %s, want 404", path, answer.Status)
		}
	}
}

// answer is what came back, read whole.
type answer struct {
	*http.Response
	body string
}

// get asks for an address as it came, without going where it sends.
func get(t *testing.T, base, path string) answer {
	t.Helper()
	r, err := plainClient.Get(strings.TrimSuffix(base, "/") + path)
	if err != nil {
		t.Fatal(err)
	}
	defer r.Body.Close()
	body, err := io.ReadAll(r.Body)
	if err != nil {
		t.Fatal(err)
	}
	return answer{r, string(body)}
}

var plainClient = &http.Client{CheckRedirect: func(*http.Request, []*http.Request) error { return http.ErrUseLastResponse }}
