package acceptance_test

import (
	_ "embed"
	"regexp"
	"slices"
	"strings"
	"testing"

	"github.com/chromedp/cdproto/accessibility"
	"github.com/chromedp/chromedp"

	"matchmark/internal/trial"
	"matchmark/tools/pictures/tour"
)

var (
	//go:embed marks.js
	marksScript string
	//go:embed focus.js
	focusScript string
)

// mapName is how an item of the map is called.
var mapName = regexp.MustCompile(`^\d+ .+, (still to strip|off\b.*|measured and judged|judged\b.*|held\b.*|away\b.*|built in|in place\b.*)`)

// TestCheck20: Every verdict mark has its word in the accessible name; map
// items named "12 Crankshaft, measured and judged".
func TestCheck20(t *testing.T) {
	holds(t, 20)
	t.Parallel()
	s := trial.Serve(t, t.TempDir())
	tab := trial.NewTab(t, 1440, 900)
	marks := 0
	for _, path := range tour.Pages() {
		tab.Open(strings.TrimSuffix(s.URL, "/") + path)
		found := trial.Ask[struct {
			Marks int      `json:"marks"`
			Wrong []string `json:"wrong"`
		}](tab, marksScript)
		marks += found.Marks
		for _, w := range found.Wrong {
			t.Errorf("%s: %s", path, w)
		}
	}
	if marks < 100 {
		t.Errorf("only %d marks were seen on all pages", marks)
	}
	tab.Open(s.URL + "m/codlin/machine")
	drawn := trial.Ask[int](tab, "document.querySelectorAll('main svg a').length")
	named := slices.DeleteFunc(linkNames(t, tab), func(name string) bool { return !mapName.MatchString(name) })
	if drawn == 0 || len(named) < drawn {
		t.Errorf("the map draws %d items; %d links are named like “12 Crankshaft, measured and judged”", drawn, len(named))
	}
}

// linkNames are the names of all links as a screen reader says them.
func linkNames(t *testing.T, tab *trial.Tab) []string {
	t.Helper()
	tree, err := chromedp.Call(tab.Ctx, accessibility.GetFullAXTree, accessibility.GetFullAXTreeParams{})
	if err != nil {
		t.Fatal(err)
	}
	var out []string
	for _, n := range tree.Nodes {
		if n.Role != nil && n.Name != nil && string(n.Role.Value) == `"link"` {
			out = append(out, strings.Trim(string(n.Name.Value), `"`))
		}
	}
	return out
}

// TestCheck21: prefers-reduced-motion: no animation. Focus outline >= 3 px, >=
// 3:1. Nothing moves as the page comes up or after a reading is kept; the focus
// is given to everything that takes it, on both grounds.
func TestCheck21(t *testing.T) {
	holds(t, 21)
	t.Parallel()
	s := trial.Serve(t, t.TempDir())
	tab := trial.NewTab(t, 1024, 768)
	tab.Media("prefers-reduced-motion", "reduce")
	const moving = `[...document.querySelectorAll('*')].filter(e => { const s = getComputedStyle(e);
		return s.animationName !== 'none' || s.transitionDuration.split(',').some(d => parseFloat(d) > 0) || s.scrollBehavior === 'smooth' }).map(e => e.localName + '.' + e.className)`
	seen := 0
	for _, ground := range grounds {
		tab.Ground(s.URL, ground)
		for _, path := range tour.Pages() {
			tab.Open(strings.TrimSuffix(s.URL, "/") + path)
			for _, m := range trial.Ask[[]string](tab, moving) {
				t.Errorf("%s: %s moves", path, m)
			}
			if n := trial.Ask[int](tab, "document.getAnimations().length"); n > 0 {
				t.Errorf("%s: %d animations run", path, n)
			}
			found := trial.Ask[struct {
				Seen  int      `json:"seen"`
				Wrong []string `json:"wrong"`
			}](tab, focusScript)
			seen += found.Seen
			for _, w := range found.Wrong {
				t.Errorf("%s, %s: %s", path, ground, w)
			}
		}
	}
	if seen < 1000 {
		t.Errorf("only %d elements took the focus on all pages", seen)
	}
	tab.Open(s.URL + "m/codlin/run/f/liner/bore")
	tab.Until("the reading field", "document.activeElement.id === 'reading'")
	figure := trial.Ask[string](tab, "(document.querySelector('.cells .num')||{}).innerText||'75.03'")
	tab.SelectAll()
	tab.Keys(figure + "\r")
	tab.Until("the reading in the book", "document.body.innerText.includes('In the book')")
	if n := trial.Ask[int](tab, "document.getAnimations().length"); n > 0 {
		t.Errorf("after a reading %d animations run", n)
	}
}
