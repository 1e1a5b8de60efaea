package web

import (
	"math"
	"net/http/httptest"
	"net/url"
	"strings"
	"testing"

	"matchmark/docs"
	"matchmark/internal/finding/judge"
	"matchmark/internal/machine"
)

// TestFigures: millimetres to the micron, the rest to four figures.
func TestFigures(t *testing.T) {
	for _, row := range []struct {
		v    float64
		unit string
		want string
	}{
		{92, "mm", "92.00 mm"}, {0.62, "mm", "0.62 mm"}, {75.082, "mm", "75.082 mm"}, {0.0644, "mm", "0.064 mm"}, {-0.1, "mm", "-0.10 mm"},
		{12.36, "V", "12.36 V"}, {11.42, "V", "11.42 V"}, {225.1, "N·m", "225.1 N·m"}, {84, "N·m", "84 N·m"}, {1234.6, "rpm", "1235 rpm"},
		{0.38, "ratio", "0.38"}, {0, "bar", "0 bar"}, {math.Inf(1), "mm", "none mm"},
	} {
		if got := withUnit(row.v, row.unit); got != row.want {
			t.Errorf("%v %s prints as %q, want %q", row.v, row.unit, got, row.want)
		}
	}
}

// TestWindow lays limits out in order, hatch only past a limit, and the
// pointer where the reading is.
func TestWindow(t *testing.T) {
	inf := math.Inf(1)
	check := &machine.Check{By: machine.ByReading, Unit: "mm"}
	for name, row := range map[string]struct {
		limit        judge.Bounds
		value        float64
		below, above bool
		limits       int
		solid        bool
	}{
		"high only":  {judge.Bounds{NewLow: 92, NewHigh: 92.03, Low: -inf, High: 92.15}, 92.09, false, true, 1, true},
		"low only":   {judge.Bounds{NewLow: 7, NewHigh: inf, Low: 5, High: inf}, 3.2, true, false, 1, true},
		"both":       {judge.Bounds{NewLow: 0.1, NewHigh: 0.2, Low: 0.05, High: 0.4}, 0.15, true, true, 2, true},
		"plain high": {judge.Bounds{NewLow: -inf, NewHigh: inf, Low: -inf, High: 1}, 0.5, false, true, 1, false},
	} {
		w := drawWindow(&judge.Finding{Check: check, Verdict: judge.Sound, Value: row.value, U: 0.003, Read: 1, Limit: row.limit})
		if w == nil || (w.Below != nil) != row.below || (w.Above != nil) != row.above || len(w.Limits) != row.limits || (w.New != nil) != row.solid || !w.Read {
			t.Errorf("%s: %+v", name, w)
		}
	}
	none := judge.Bounds{NewLow: -inf, NewHigh: inf, Low: -inf, High: inf}
	if w := drawWindow(&judge.Finding{Check: check, Verdict: judge.NoLimit, Limit: none}); w != nil {
		t.Errorf("no limit gives a drawing: %+v", w)
	}
	s := scaleOver([]float64{10, 20})
	if a, b := s.percent(10), s.percent(20); a <= 0 || b >= 100 || a >= b {
		t.Errorf("10 lies at %v %%, 20 at %v %%", a, b)
	}
}

// TestOwnAddress: only paths of this site are gone back to.
func TestOwnAddress(t *testing.T) {
	for to, want := range map[string]string{"/m/a?x=1#y": "/m/a?x=1#y", "": "/", "m/a": "/", "http://a/": "/", "//a": "/", "/\\a": "/", "/a\nb": "/"} {
		if got := ownAddress(to, "/"); got != want {
			t.Errorf("%q goes to %q, want %q", to, got, want)
		}
	}
}

// TestPointsTogether: a surface not read at all, read in part, read but for a
// few, of one point.
func TestPointsTogether(t *testing.T) {
	ft := &machine.Feature{Levels: []string{"top", "middle", "low"}, Axes: []string{"thrust", "pin"}}
	read := func(n int) *machine.Feature {
		f := *ft
		f.Readings = nil
		for _, p := range ft.Points()[:n] {
			f.Readings = append(f.Readings, &machine.Reading{Level: p.Level, Axis: p.Axis})
		}
		return &f
	}
	for n, want := range map[int]string{0: "6 points, top, middle and low, each thrust and pin", 2: "4 points left of 6", 4: "2 points left, low thrust and low pin", 5: "1 point left, low pin"} {
		f := read(n)
		if got := pointsTogether(f, pointsLeft(f)); got != want {
			t.Errorf("%d read: %q, want %q", n, got, want)
		}
	}
	one := &machine.Feature{}
	if got := pointsTogether(one, pointsLeft(one)); got != "not read" {
		t.Errorf("one point: %q", got)
	}
}

// TestGlossary shows every term of the glossary with its meaning.
func TestGlossary(t *testing.T) {
	h := newHouse(t)
	p := h.ask("GET", "/words", nil).is(200)
	p.says("Hold, hold point", "Life gate", "Reading", "Size group")
	if got := len(terms(docs.Glossary)); got < 30 || got != strings.Count(docs.Glossary, "\n|")-2 {
		t.Errorf("%d terms are shown", got)
	}
}

// TestLanguage: a device that chose a language gets pages in it, and every
// other device its own.
func TestLanguage(t *testing.T) {
	h := newHouse(t)
	set := h.ask("POST", "/language", url.Values{"to": {"de"}, "back": {"/m/codlin"}}).is(303).header.Get("Set-Cookie")
	r := httptest.NewRequest("GET", "http://localhost/m/codlin/run/f/liner/bore", nil)
	r.Header.Set("Cookie", set)
	p := h.send(r).is(200)
	if lang, _ := attr(p.elements[0], "lang"); lang != "de" {
		t.Errorf("the page says it is in %q", lang)
	}
	p.says("Behalten", "English")
	if lang, _ := attr(h.ask("GET", "/m/codlin", nil).is(200).elements[0], "lang"); lang != "en" {
		t.Errorf("another device gets %q", lang)
	}
	r.Header.Set("Cookie", languageCookie+"=xx")
	if lang, _ := attr(h.send(r).is(200).elements[0], "lang"); lang != "en" {
		t.Errorf("a language that is not there gives %q", lang)
	}
}
