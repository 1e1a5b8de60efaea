package web

import (
	"net/url"
	"strings"
	"testing"

	"matchmark/internal/finding/sequence"
	"matchmark/internal/machine"
)

// strip opens the whole machine, joint by joint as the plan frees them.
func (h *house) strip() {
	h.t.Helper()
	for range 40 {
		var bodies []machine.Body
		for _, s := range h.view().Plan().Free {
			if s.Act == sequence.Open {
				o := &machine.JointOpened{Joint: s.Joint.ID, Tray: "14", Fasteners: []machine.Fastener{{Size: "M10x1.25", Count: 4}}}
				for _, p := range s.Joint.Parts[1:] {
					o.Off = append(o.Off, p.ID)
				}
				bodies = append(bodies, o)
			}
		}
		if len(bodies) == 0 {
			return
		}
		h.record(bodies...)
	}
	h.t.Fatal("the strip-down did not come to an end")
}

// shapeOf is an address without its last word: which kind of page it leads to.
func shapeOf(to string) string {
	path, _, _ := strings.Cut(to, "?")
	return path[:strings.LastIndexByte(path, '/')+1]
}

// TestEveryPageOpens walks every page twice: as the machine came, and with all
// of it apart, and follows some links of each kind that it finds on them.
func TestEveryPageOpens(t *testing.T) {
	h := newHouse(t)
	pages := []string{"/", "/start", "/m/codlin", "/m/codlin/machine", "/m/codlin/machine?q=liner", "/m/codlin/trays", "/m/codlin/fits",
		"/m/codlin/fits?v=unread", "/m/codlin/fits?v=sound", "/m/codlin/build", "/m/codlin/build?all=1", "/m/codlin/book",
		"/m/codlin/decide", "/m/codlin/buy", "/m/codlin/buy?aim=soonest", "/m/codlin/buy/list", "/m/codlin/part/gen-bearing/what",
		"/m/codlin/questions", "/m/codlin/figures", "/m/codlin/photo", "/m/codlin/photo?q=cap", "/m/codlin/prove"}
	seen := map[string]bool{}
	shape := map[string]int{}
	walk := func() {
		for _, path := range pages {
			p := h.ask("GET", path, nil).is(200)
			for _, e := range p.elements {
				to, ok := attr(e, "href")
				to, _, _ = strings.Cut(to, "#")
				kind := path + " " + shapeOf(to)
				if !ok || e.Name.Local != "a" || seen[to] || to == "" || shape[kind] > 3 {
					continue
				}
				seen[to] = true
				shape[kind]++
				h.ask("GET", to, nil).is(200)
			}
		}
	}
	walk()
	h.strip()
	seen, shape = map[string]bool{}, map[string]int{}
	walk()
	if len(seen) < 80 {
		t.Errorf("only %d links were followed", len(seen))
	}
}

// TestPagesStayLight: a first visit, with style, fonts and script, stays under
// 90 KB on the wire, on a machine all apart.
func TestPagesStayLight(t *testing.T) {
	h := newHouse(t)
	h.strip()
	assets := loadAssets()
	fixed := 0
	for _, f := range assets.by {
		if f.packed != nil {
			fixed += len(f.packed)
		} else {
			fixed += len(f.plain)
		}
	}
	for _, path := range []string{"", "/machine?a=engine-block", "/trays", "/fits?v=unread", "/build?all=1", "/book", "/prove", "/run/f/liner/bore", "/decide", "/buy", "/close/head-block",
		"/part/gen-bearing/what?d:d=25"} {
		p := h.ask("GET", "/m/codlin"+path, nil).is(200)
		if got := fixed + len(pack(p.raw)); got > 90<<10 {
			t.Errorf("%s: %d bytes on a first visit, want at most %d", path, got, 90<<10)
		}
	}
}

// TestRunByKeys reads a bore through the page: each reading goes to the next
// point, a bad one is refused and shown again, undo brings the point back.
func TestRunByKeys(t *testing.T) {
	h := newHouse(t)
	run := "/m/codlin/run/f/liner/bore"
	p := h.ask("GET", run, nil).is(200)
	p.says("Cylinder 1", "0 read")
	first := p.value("point")
	keep := func(text string, extra ...string) *page {
		form := url.Values{"point": {p.value("point")}, "reading": {text}}
		for i := 0; i+1 < len(extra); i += 2 {
			form.Set(extra[i], extra[i+1])
		}
		return h.ask("POST", run, form)
	}
	for _, bad := range []struct{ typed, say string }{{"abc", "abc"}, {"", ""}, {"12 kg", "12 kg"}, {"92.1 92.2", "92.1 92.2"}} {
		q := keep(bad.typed).is(422)
		q.says("Nothing was kept")
		if q.value("reading") != bad.typed || q.value("point") != first {
			t.Errorf("after %q the page holds %q at %q", bad.typed, q.value("reading"), q.value("point"))
		}
	}
	if n := len(h.view().Machine.Feature("liner.1/bore").Readings); n != 0 {
		t.Fatalf("%d readings kept of four bad ones", n)
	}
	var points []string
	for _, typed := range []string{"92,08", "3.6264 in", "92.06mm"} {
		points = append(points, p.value("point"))
		r := keep(typed).is(303)
		p = h.ask("GET", r.header.Get("Location"), nil).is(200)
	}
	p.says("3 read", "In the book: 92.06 mm")
	got := h.view().Machine.Feature("liner.1/bore").Readings
	want := []float64{92.08, 92.11056, 92.06}
	for i, r := range got {
		if d := r.Amount.Value - want[i]; d > 1e-9 || d < -1e-9 {
			t.Errorf("reading %d at %s is %v, want %v", i, points[i], r.Amount.Value, want[i])
		}
	}
	if got[0].Amount.Typed != "92,08" || got[1].Amount.Typed != "3.6264 in" {
		t.Errorf("typed words are %q and %q", got[0].Amount.Typed, got[1].Amount.Typed)
	}
	r := h.ask("POST", "/m/codlin/withdraw", url.Values{"entry": {p.value("entry")}, "back": {run}}).is(303)
	p = h.ask("GET", r.header.Get("Location"), nil).is(200)
	p.says("2 read")
	if p.value("point") != points[2] {
		t.Errorf("after undo the point is %q, want %q", p.value("point"), points[2])
	}
}

// TestDoubtedReading: a figure far from its fellows is held and asked about;
// it is on inches, or it is kept as it is.
func TestDoubtedReading(t *testing.T) {
	h := newHouse(t)
	run := "/m/codlin/run/f/liner/bore"
	p := h.ask("GET", run, nil)
	h.ask("POST", run, url.Values{"point": {p.value("point")}, "reading": {"92.08"}}).is(303)
	p = h.ask("GET", run, nil)
	form := url.Values{"point": {p.value("point")}, "reading": {"3.626"}}
	q := h.ask("POST", run, form).is(422)
	q.says("on inches", "Keep it", "Measure again")
	if q.value("reading") != "3.626" {
		t.Errorf("what was typed is lost: %q", q.value("reading"))
	}
	form.Set("answer", "in")
	h.ask("POST", run, form).is(303)
	form.Set("point", h.ask("GET", run, nil).value("point"))
	form.Set("answer", "keep")
	h.ask("POST", run, form).is(303)
	reads := h.view().Machine.Feature("liner.1/bore").Readings
	if a, b := reads[1].Amount, reads[2].Amount; a.Value != 3.626*25.4 || b.Value != 3.626 || a.Typed != "3.626" || b.Typed != "3.626" {
		t.Errorf("answered “inches” and “keep” gave %+v and %+v", a, b)
	}
}

// TestUnknownThings answers what is not there with a page, not a fault.
func TestUnknownThings(t *testing.T) {
	h := newHouse(t)
	for _, path := range []string{"/nowhere", "/m/none", "/m/codlin/part/none", "/m/codlin/joint/none", "/m/codlin/run/f/none", "/m/codlin/run/x/liner",
		"/m/codlin/why/none", "/m/codlin/close/none", "/m/codlin/part/none/what", "/m/codlin/buy/order/none", "/m/codlin/photo?joint=none", "/m/codlin/run/look/none", "/m/codlin/p/" + strings.Repeat("0", 64), "/a/0000000000/scribe.css"} {
		h.ask("GET", path, nil).is(404)
	}
	for path, form := range map[string]url.Values{
		"/m/codlin/fits/call":   {"part": {"none"}, "call": {"renew"}},
		"/m/codlin/fits/remedy": {"check": {"none"}},
		"/m/codlin/joint/none":  {"do": {"leave"}},
		"/m/codlin/close/none":  {"as": {"final"}},
		"/m/codlin/photo":       {"joint": {"none"}},
		"/m/codlin/received":    {"order": {"none"}},
	} {
		h.ask("POST", path, form).is(404)
	}
	h.ask("POST", "/m/codlin/fits/call", url.Values{"part": {"crankshaft"}, "call": {"scrap"}}).is(422).says("goes back")
}
