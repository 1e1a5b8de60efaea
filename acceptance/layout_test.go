package acceptance_test

import (
	"strings"
	"testing"

	"matchmark/internal/trial"
	"matchmark/tools/pictures/tour"
)

// TestCheck02: Every interactive box >= 44x44; in .thumb/.bar >= 64, main >=
// 76; gaps >= 8. The larger figures are heights; the first is both ways, and a
// main one is at least 100 wide.
func TestCheck02(t *testing.T) {
	holds(t, 2)
	surveyed(t).holdTo(t, 2)
}

// TestCheck03: scrollWidth <= innerWidth at 320 and 360, except .scroll
// regions; text 200 % loses nothing.
func TestCheck03(t *testing.T) {
	holds(t, 3)
	surveyed(t).holdTo(t, 3)
	s := trial.Serve(t, t.TempDir())
	big := trial.OwnBrowser(t, map[string]any{"blink-settings": "defaultFontSize=32"})
	tab := big.Tab(t, 390, 844)
	for _, path := range tour.Pages() {
		tab.Size(390, 844)
		tab.Open(strings.TrimSuffix(s.URL, "/") + path)
		if got := trial.Ask[string](tab, "getComputedStyle(document.querySelector('main')).fontSize"); got != "36px" {
			t.Fatalf("%s: text of 18 px became %s when the reader asked for twice its size", path, got)
		}
		for _, width := range []int64{390, 1024} {
			tab.Size(width, heights[width])
			for _, f := range audit(tab) {
				if f.Check == 3 {
					t.Errorf("%s, text 200 %%, %d: %s", path, width, f.What)
				}
			}
		}
	}
}

// TestCheck04: No rendered text < 16 px (SVG included, after scaling); reading
// >= 56.
func TestCheck04(t *testing.T) {
	holds(t, 4)
	surveyed(t).holdTo(t, 4)
}

// TestAuditBites: the ruler finds what is wrong with a page made wrong.
func TestAuditBites(t *testing.T) {
	tab := trial.NewTab(t, 360, 740)
	tab.Open(`data:text/html,<body style="margin:0"><button style="width:30px;height:30px">a</button><button style="width:90px;height:50px">b</button>
<p style="width:500px">wide</p><div style="width:40px;overflow:hidden;white-space:nowrap">cut off words</div><small style="font-size:12px">small</small>
<svg width="50" height="50" viewBox="0 0 100 100"><text y="50" font-size="20">x</text></svg><input id="reading" style="font-size:30px">`)
	found := map[int]string{}
	for _, f := range audit(tab) {
		found[f.Check] += f.What + "\n"
	}
	for check, wants := range map[int][]string{2: {"30 × 30", "apart"}, 3: {"500 wide", "cuts its words"}, 4: {"12.0 px", "10.0 px", "the reading"}} {
		for _, want := range wants {
			if !strings.Contains(found[check], want) {
				t.Errorf("check %d does not find %q on a page made wrong; it found\n%s", check, want, found[check])
			}
		}
	}
}
