package main_test

import (
	"strings"
	"testing"

	"github.com/chromedp/chromedp/kb"

	"matchmark/internal/trial"
)

const active = "document.activeElement.id === 'reading'"

// TestMeasureByKeyboardOnAPhone: from the bench into a measuring run, a wrong
// figure refused, a right one kept, all by keys.
func TestMeasureByKeyboardOnAPhone(t *testing.T) {
	s := trial.Serve(t, t.TempDir())
	tab := trial.NewTab(t, 390, 844)
	tab.Open(s.URL + "m/codlin")
	if wide := trial.Ask[int](tab, "document.documentElement.scrollWidth"); wide > 390 {
		t.Errorf("the bench is %d px wide on a 390 px phone", wide)
	}
	run := trial.Ask[string](tab, "(document.querySelector('a[href*=\"/run/\"]')||{}).href||''")
	if run == "" {
		t.Fatal("the bench offers nothing to measure")
	}
	tab.Open(run)
	tab.Until("the reading field", active)
	tab.Keys("abc" + kb.Enter)
	tab.Until("the refusal", "document.querySelector('[role=alert]')")
	if text := trial.Ask[string](tab, "document.querySelector('[role=alert]').innerText"); !strings.Contains(text, "abc") {
		t.Errorf("the refusal does not name what was typed: %q", text)
	}
	if typed := trial.Ask[string](tab, "document.querySelector('#reading').value"); typed != "abc" {
		t.Errorf("what was typed is lost: %q", typed)
	}
	tab.Until("the field again", active)
	figure := trial.Ask[string](tab, "(document.querySelector('.cells .num')||{}).innerText||'52.03'")
	tab.SelectAll()
	tab.Keys(figure + kb.Enter)
	tab.Until("the reading in the book", "document.body.innerText.includes('In the book') && "+active)
	tab.Quiet()
}
