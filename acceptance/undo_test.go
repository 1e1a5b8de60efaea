package acceptance_test

import (
	"fmt"
	"strings"
	"testing"

	"github.com/chromedp/chromedp/kb"

	"matchmark/internal/trial"
)

// TestCheck10: five readings undone give back the five states before them, the
// button says what it undoes, and the log holds both records of each.
func TestCheck10(t *testing.T) {
	holds(t, 10)
	s := trial.Serve(t, t.TempDir())
	tab := trial.NewTab(t, 390, 844)
	tab.Open(s.URL + drumRun)
	tab.Until("the field", `document.activeElement.id === "reading"`)
	before := logSize(t, s)
	type state struct{ cells, point string }
	var states []state
	for i := range 5 {
		states = append(states, state{cells(tab), pointNow(tab)})
		tab.Burst(fmt.Sprintf("180.%02d", 11+i)+kb.Enter, gap)
		settled(tab)
	}
	for i := 4; i >= 0; i-- {
		if name := trial.Ask[string](tab, `document.getElementById("undo").innerText`); !strings.Contains(name, fmt.Sprintf("180.%02d", 11+i)) {
			t.Errorf("the button that undoes reading %d says %q", i+1, name)
		}
		press(tab, "#undo")
		settled(tab)
		if got := (state{cells(tab), pointNow(tab)}); got != states[i] {
			t.Errorf("undo %d gives %v, want %v", 5-i, got, states[i])
		}
	}
	kinds, _ := since(t, s, before)
	if got := strings.Join(kinds, " "); got != strings.TrimSpace(strings.Repeat("reading-taken ", 5)+strings.Repeat("entry-withdrawn ", 5)) {
		t.Errorf("the log has %s", got)
	}
	struck := trial.Ask[int](tab, `document.querySelectorAll("main s").length`)
	if struck != 5 {
		t.Errorf("%d readings are struck through on the page, want 5", struck)
	}
	tab.Quiet()
}

// TestCheck10OutOfReach: readings and their undoing while the box is out of
// reach: both are sent when it is back, and the page shows the same throughout.
func TestCheck10OutOfReach(t *testing.T) {
	holds(t, 10)
	s := trial.Serve(t, t.TempDir())
	tab := trial.NewTab(t, 390, 844)
	tab.Allow("ERR_INTERNET_DISCONNECTED", "Failed to fetch", "Failed to load")
	tab.Open(s.URL + drumRun)
	tab.Until("the field", `document.activeElement.id === "reading"`)
	before := logSize(t, s)
	tab.Offline(true)
	states := []string{cells(tab)}
	points := []string{pointNow(tab)}
	for i := range 6 {
		tab.Burst(fmt.Sprintf("180.%02d", 11+i)+kb.Enter, gap)
		tab.Until("the figure", fmt.Sprintf(`[...document.querySelectorAll("td.kepthere")].length === %d`, i+1))
		states, points = append(states, cells(tab)), append(points, pointNow(tab))
		if i > 0 && points[i] == points[i+1] {
			t.Errorf("after reading %d the point is still %s", i+1, points[i])
		}
	}
	for i := 5; i >= 1; i-- {
		press(tab, "#undo")
		tab.Until("the undo", fmt.Sprintf(`[...document.querySelectorAll("td.kepthere")].length === %d`, i))
		if got := cells(tab); got != states[i] || pointNow(tab) != points[i] {
			t.Errorf("undo out of reach gives %s at %s, want %s at %s", got, pointNow(tab), states[i], points[i])
		}
	}
	tab.Burst("180.99"+kb.Enter, gap)
	tab.Until("the figure", `[...document.querySelectorAll("td.kepthere")].length === 2`)
	want := cells(tab)
	tab.Offline(false)
	trial.Ask[bool](tab, `dispatchEvent(new Event("online"))`)
	settled(tab)
	if got := cells(tab); got != want {
		t.Errorf("with the box back the table has %s, want %s", got, want)
	}
	kinds, _ := since(t, s, before)
	reads, undone := 0, 0
	for _, k := range kinds {
		reads += map[bool]int{true: 1}[k == "reading-taken"]
		undone += map[bool]int{true: 1}[k == "entry-withdrawn"]
	}
	if reads != 7 || undone != 5 || len(kinds) != 12 {
		t.Errorf("the log has %d readings and %d withdrawals: %v; want 7 and 5", reads, undone, kinds)
	}
	tab.Quiet()
}

// TestARunLeftAsksWhere: a run left for more than ten minutes asks which point
// is meant before it takes a reading.
func TestARunLeftAsksWhere(t *testing.T) {
	s := trial.Serve(t, t.TempDir())
	tab := trial.NewTab(t, 390, 844)
	tab.Open(s.URL + drumRun)
	tab.Until("the field", `document.activeElement.id === "reading"`)
	before := logSize(t, s)
	trial.Ask[bool](tab, `(() => { const real = Date.now; Date.now = () => real() + 11 * 60e3; return true; })()`)
	tab.Burst("180.02"+kb.Enter, gap)
	tab.Until("the question", `document.getElementById("ask").innerText.includes("was left for 11 minutes. Which point")`)
	if n := logSize(t, s); n != before {
		t.Error("a reading was taken before it was said where")
	}
	third := trial.Ask[string](tab, `[...document.querySelectorAll("td[data-key]")].find((c) => c.dataset.nth === "2").dataset.key`)
	press(tab, `td[data-nth="2"] a`)
	settled(tab)
	if got := strings.Split(cells(tab), "|")[2]; got != "180.02" {
		t.Errorf("the reading is not at %s: %s", third, cells(tab))
	}
	tab.Burst("180.04"+kb.Enter, gap)
	settled(tab)
	if _, bodies := since(t, s, before); len(bodies) != 2 {
		t.Errorf("after the answer the run does not go on: %+v", bodies)
	}
	tab.Quiet()
}
