package acceptance_test

import (
	"strings"
	"testing"

	"github.com/chromedp/cdproto/network"
	"github.com/chromedp/chromedp"

	"matchmark/internal/trial"
	"matchmark/tools/pictures/tour"
)

// onTheWire adds up what came for the page that is open, by the browser's own
// count, heads of answers included and photos left out; scripts apart.
const onTheWire = `(() => {
  const came = performance.getEntriesByType('resource').filter(r => !r.name.includes('/p/'))
  const sum = list => list.reduce((n, r) => n + r.transferSize, 0)
  return { all: sum(performance.getEntriesByType('navigation')) + sum(came), scripts: sum(came.filter(r => r.name.endsWith('.js'))) }
})()`

type weight struct{ All, Scripts int }

// TestCheck17: First visit <= 90 KB on the wire without photos; repeat <= 15
// KB; JS <= 20 KB gz. Each page is the first this browser ever sees; then the
// list of machines is, and the page again.
func TestCheck17(t *testing.T) {
	holds(t, 17)
	t.Parallel()
	s := trial.Serve(t, t.TempDir())
	heaviest := map[string]int{}
	for _, path := range tour.Pages() {
		tab := trial.NewTab(t, 390, 844)
		if _, err := chromedp.Call(tab.Ctx, network.SetBypassServiceWorker, network.SetBypassServiceWorkerParams{Bypass: true}); err != nil {
			t.Fatal(err) // what a service worker hands on is counted unpacked
		}
		at := strings.TrimSuffix(s.URL, "/") + path
		tab.Open(at)
		first := trial.Ask[weight](tab, onTheWire)
		tab.Open(s.URL)
		tab.Open(at)
		again := trial.Ask[weight](tab, onTheWire)
		tab.Open("about:blank")
		for what, got := range map[string][2]int{"first visit": {first.All, 90 << 10}, "repeat": {again.All, 15 << 10}, "scripts": {first.Scripts, 20 << 10}} {
			heaviest[what] = max(heaviest[what], got[0])
			if got[0] > got[1] {
				t.Errorf("%s: %s %.1f KB, want at most %d", path, what, float64(got[0])/1024, got[1]>>10)
			}
		}
		if first.All < 5<<10 || again.All == 0 || again.All >= first.All {
			t.Errorf("%s: %d bytes, then %d: the count has gone blind", path, first.All, again.All)
		}
	}
	t.Logf("heaviest, bytes: %v", heaviest)
}
