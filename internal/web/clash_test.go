package web

import (
	"net/url"
	"strings"
	"testing"

	"matchmark/internal/machine"
)

const boreRun = "/m/codlin/run/f/liner/bore"

// clashedRun is a house where two devices read one point of a bore, each
// before it heard of the other.
func clashedRun(t *testing.T) *house {
	h := newHouse(t)
	first := h.ask("GET", boreRun, nil).is(200)
	for i, reading := range []string{"92.08", "92.05"} {
		h.ask("POST", boreRun, url.Values{"once": {string(rune('a' + i))}, "point": {first.value("point")}, "seen": {first.value("seen")}, "reading": {reading}}).is(303)
	}
	return h
}

// TestTwoReadingsOfOnePoint: both are kept, the run page and the questions ask
// which counts, and one tap answers.
func TestTwoReadingsOfOnePoint(t *testing.T) {
	for answer, row := range map[string]struct {
		counts     string
		kind, left string
	}{
		"the first":  {"92.08", "entry-withdrawn", "92.08"},
		"the second": {"92.05", "entry-withdrawn", "92.05"},
		"both":       {"all", "readings-agreed", "92.08 92.05"},
	} {
		h := clashedRun(t)
		if n := len(h.view().Machine.Clashes); n != 1 {
			t.Fatalf("%d clashes, want 1", n)
		}
		h.ask("GET", "/m/codlin/questions", nil).is(200).says("Both kept. Which counts?")
		h.ask("GET", "/m/codlin", nil).is(200).says("Questions 1")
		p := h.ask("GET", boreRun, nil).is(200)
		p.says("Two readings for the same point,", "Both kept. Which counts?")
		form := url.Values{"once": {p.formOn("/m/codlin/clash")}, "back": {boreRun}, "counts": {row.counts}}
		for _, r := range h.view().Machine.Clashes[0].Readings {
			form.Add("entry", string(r.Entry))
			if r.Amount.Typed == row.counts {
				form.Set("counts", string(r.Entry))
			}
		}
		for range 2 { // a form sent twice is answered alike
			if to := h.ask("POST", "/m/codlin/clash", form).is(303).header.Get("Location"); to != boreRun {
				t.Errorf("%s leads to %q", answer, to)
			}
		}
		if p := h.ask("GET", boreRun, nil).is(200); strings.Contains(p.text, "Which counts?") {
			t.Errorf("%s: the run still asks", answer)
		}
		m := h.view().Machine
		left := ""
		for _, r := range m.Feature("liner.1/bore").Current() {
			left += " " + r.Amount.Typed
		}
		if len(m.Clashes) != 0 || strings.TrimSpace(left) != row.left {
			t.Errorf("%s: %d clashes, readings%s; want %s", answer, len(m.Clashes), left, row.left)
		}
		if kind := lastKind(t, h); string(kind) != row.kind {
			t.Errorf("%s is kept as %s, want %s", answer, kind, row.kind)
		}
		late := url.Values{"once": {"late"}, "counts": {"all"}, "entry": form["entry"]}
		if row.counts != "all" {
			h.ask("POST", "/m/codlin/clash", late).is(409).says("not the question any more")
		}
	}
}

// TestADeviceKnowsItsOwnReadings: a point read again on one device before it
// heard from the box is a repeat, not a clash; neither is one that the page
// showed.
func TestADeviceKnowsItsOwnReadings(t *testing.T) {
	h := newHouse(t)
	p := h.ask("GET", boreRun, nil).is(200)
	point := p.value("point")
	h.ask("POST", boreRun, url.Values{"once": {"a"}, "point": {point}, "seen": {""}, "reading": {"92.08"}}).is(303)
	h.ask("POST", boreRun, url.Values{"once": {"b"}, "point": {point}, "seen": {""}, "mine": {"a"}, "reading": {"92.05"}}).is(303)
	now := h.ask("GET", boreRun, nil).is(200)
	h.ask("POST", boreRun, url.Values{"once": {"c"}, "point": {point}, "seen": {now.value("seen")}, "reading": {"92.06"}}).is(303)
	h.ask("POST", boreRun, url.Values{"once": {"d"}, "point": {point}, "reading": {"92.06"}}).is(303) // a form without the word
	if n := len(h.view().Machine.Clashes); n != 0 {
		t.Errorf("%d clashes, want none", n)
	}
	h.ask("POST", boreRun, url.Values{"once": {"e"}, "point": {point}, "seen": {now.value("seen")}, "reading": {"92.06"}}).is(303)
	if n := len(h.view().Machine.Clashes); n != 1 {
		t.Errorf("%d clashes after a page that had not heard of two readings, want 1", n)
	}
}

func lastKind(t *testing.T, h *house) machine.Kind {
	t.Helper()
	log, err := h.b.Entries(t.Context())
	if err != nil || len(log) == 0 {
		t.Fatal(err)
	}
	return log[len(log)-1].Kind()
}
