package web

import (
	"net/http/httptest"
	"net/url"
	"strings"
	"testing"

	"matchmark/internal/machine"
)

// onDevice sends a request with the cookies of a device; a form makes it a
// post.
func (h *house) onDevice(cookies, path string, form url.Values) *page {
	h.t.Helper()
	method := "GET"
	if form != nil {
		method = "POST"
	}
	r := httptest.NewRequest(method, "http://localhost:8080"+path, strings.NewReader(form.Encode()))
	if form != nil {
		r.Header.Set("Content-Type", "application/x-www-form-urlencoded")
	}
	r.Header.Set("Cookie", cookies)
	return h.send(r)
}

// TestTeachATool: two readings show what the tool types, in words and in
// fields to mend; what teaches nothing is said and nothing typed is lost.
func TestTeachATool(t *testing.T) {
	h := newHouse(t)
	h.ask("GET", "/tools", nil).is(200).says("Teach a tool", "Jaws closed", "Thick gloves")
	lesson := url.Values{"closed": {"01A+0000.010"}, "closed-end": {"enter"}, "size": {"25 mm"}, "piece": {"01A+0025.030"}, "piece-end": {"enter"}}
	p := h.ask("POST", "/tools/teach", lesson).is(200)
	p.says("0 1 A + 0 0 2 5 . 0 3 0 Enter", "Before each figure stands ##A", "Its decimal mark is a point", "Enter ends a reading",
		"Jaws closed it shows 0.01 mm too much", "At 25.00 mm it shows 0.03 mm too much", "note the piece as a setting piece", "Wendle Codlin 18")
	if p.value("prefix") != "##A" {
		t.Errorf("the prefix to mend is %q", p.value("prefix"))
	}
	lesson.Set("piece", "Err")
	p = h.ask("POST", "/tools/teach", lesson).is(422)
	p.says("not a reading")
	if p.value("piece") != "Err" || p.value("size") != "25 mm" || p.value("closed") != "01A+0000.010" {
		t.Error("what was typed is lost")
	}
	lesson.Set("size", "soon")
	h.ask("POST", "/tools/teach", lesson).is(422).says("size of the known piece")
	p = h.ask("POST", "/tools", url.Values{"name": {"box"}, "unit": {"mm"}, "end": {"enter"}, "prefix": {"##"}}).is(422)
	p.says("A prefix needs a letter")
}

// TestAToolInARun without scripts: the kept tool is taken in hand on this
// device, its text is read by its profile and kept as it came, keying in goes
// round it, and a tool that was forgotten refuses what it typed.
func TestAToolInARun(t *testing.T) {
	h := newHouse(t)
	r := h.ask("POST", "/tools", url.Values{"name": {"Long calliper"}, "unit": {"in"}, "mark": {"point"}, "end": {"enter"}, "prefix": {"##A"}, "instrument": {"digital-calliper"}}).is(303)
	if c := r.header.Get("Set-Cookie"); !strings.HasPrefix(c, "tool=long-calliper;") {
		t.Fatalf("the kept tool is not taken in hand: %q", c)
	}
	const hand, run = "tool=long-calliper", "/m/codlin/run/f/liner/bore"
	p := h.onDevice(hand, run, nil).is(200)
	p.says("Key in", "Long calliper types here")
	if p.value("by") != "long-calliper" {
		t.Fatalf("the form names the tool %q", p.value("by"))
	}
	form := url.Values{"point": {p.value("point")}, "by": {"long-calliper"}, "reading": {"01A+03.62205"}, "tool": {"digital-calliper"}}
	h.onDevice(hand, run, form).is(303)
	p = h.onDevice(hand, run+"?key=in", nil).is(200)
	if p.value("by") != "" || p.value("key") != "in" {
		t.Error("after Key in the tool still types")
	}
	keyed := h.onDevice(hand, run, url.Values{"point": {p.value("point")}, "key": {"in"}, "reading": {"92,03"}}).is(303)
	if at := keyed.header.Get("Location"); !strings.HasSuffix(at, "&key=in") {
		t.Errorf("keying in ends after one figure: %q", at)
	}
	reads := h.view().Machine.Feature("liner.1/bore").Readings
	if a := reads[0].Amount; a.Typed != "01A+03.62205" || a.Value != 3.62205*25.4 || reads[0].Tool != "digital-calliper" {
		t.Errorf("the tool's reading is %+v with %s", a, reads[0].Tool)
	}
	if a := reads[1].Amount; a.Typed != "92,03" || a.Value != 92.03 {
		t.Errorf("the figure keyed in is %+v", a)
	}
	h.onDevice(hand, "/tools/drop", url.Values{"tool": {"long-calliper"}}).is(303)
	p = h.onDevice(hand, run, form).is(422)
	p.says("not on the shelf any more", "01A+03.62205")
	if n := len(h.view().Machine.Feature("liner.1/bore").Readings); n != 2 {
		t.Errorf("%d readings are kept, want 2", n)
	}
}

// TestWhatADeviceRemembers: tool, click and gloves, one device each.
func TestWhatADeviceRemembers(t *testing.T) {
	h := newHouse(t)
	r := h.ask("POST", "/tools/device", url.Values{"tool": {"none such"}, "gloves": {"thick"}}).is(303)
	set := strings.Join(r.header.Values("Set-Cookie"), " ")
	for _, want := range []string{"tool=;", "sound=off;", "gloves=thick;"} {
		if !strings.Contains(set, want) {
			t.Errorf("the device keeps %q, want %s", set, want)
		}
	}
	if raw := string(h.onDevice("gloves=thick", "/m/codlin", nil).is(200).raw); !strings.Contains(raw, `data-gloves="thick"`) {
		t.Error("a page does not know of the gloves")
	}
	if raw := string(h.onDevice("sound=off", "/m/codlin/run/f/liner/bore", nil).is(200).raw); !strings.Contains(raw, "data-silent") {
		t.Error("a run does not know that the click is off")
	}
	back := h.ask("POST", "/tools/device", url.Values{"run": {"yes"}, "sound": {"on"}, "back": {"/m/codlin/run/f/liner/bore"}}).is(303)
	if set := strings.Join(back.header.Values("Set-Cookie"), " "); strings.Contains(set, "gloves") || back.header.Get("Location") != "/m/codlin/run/f/liner/bore" {
		t.Errorf("the run's own form sets %q and leads to %s", set, back.header.Get("Location"))
	}
}

// TestInstrumentsPage: an own instrument and a setting piece are kept and
// shown; what is wrong is said with what was typed; readings may name both.
func TestInstrumentsPage(t *testing.T) {
	h := newHouse(t)
	at := "/m/codlin/instruments"
	own := url.Values{"do": {"instrument"}, "name": {"Two-point gauge"}, "looks": {"bore"}, "unit": {"mm"}, "step": {"0.001"}, "limit": {"soon"}}
	p := h.ask("POST", at, own).is(422)
	p.says("soon", "Nothing was kept")
	if p.value("name") == "" && p.value("step") == "" {
		t.Error("what was typed is lost")
	}
	own.Set("limit", "4 µm")
	h.ask("POST", at, own).is(303)
	set := url.Values{"do": {"setting"}, "tool": {"two-point-gauge"}, "setting": {"ring 92"}, "nominal": {"92"}, "read": {"2.99"}}
	h.ask("POST", at, set).is(422).says("Read the piece again")
	set.Set("read", "92.010")
	h.ask("POST", at, set).is(303)
	h.ask("GET", at, nil).is(200).says("Two-point gauge", "own figures", "ring 92: 92.00 mm, read as 92.01 mm with Two-point gauge")
	h.ask("GET", at+"?own=digital-calliper", nil).is(200).says("An instrument of your own")
	run := "/m/codlin/run/f/liner/bore"
	p = h.ask("GET", run, nil).is(200)
	p.says("Two-point gauge", "ring 92, with Two-point gauge")
	h.ask("POST", run, url.Values{"point": {p.value("point")}, "reading": {"92.03"}, "tool": {"two-point-gauge"}, "setting": {"ring 92"}}).is(303)
	var read *machine.Reading
	for _, r := range h.view().Machine.Feature("liner.1/bore").Readings {
		read = r
	}
	if read == nil || read.Set == nil || read.Tool != "two-point-gauge" {
		t.Errorf("the reading does not go by its setting piece: %+v", read)
	}
}

// TestUndoByRecord: a page undoes a reading of its own by the word of its
// record, before it knows the entry; the figure stays, struck through.
func TestUndoByRecord(t *testing.T) {
	h := newHouse(t)
	run := "/m/codlin/run/f/liner/bore"
	p := h.ask("GET", run, nil).is(200)
	h.ask("POST", run, url.Values{"point": {p.value("point")}, "reading": {"92.08"}, onceField: {"word-1"}}).is(303)
	h.ask("POST", "/m/codlin/withdraw", url.Values{"record": {"word-2"}}).is(422).says("not in the book")
	h.ask("POST", "/m/codlin/withdraw", url.Values{"record": {"word-1"}, "entry": {""}, "back": {run}}).is(303)
	if n := len(h.view().Machine.Feature("liner.1/bore").Readings); n != 0 {
		t.Errorf("%d readings count after the undo", n)
	}
	p = h.ask("GET", run, nil).is(200)
	if !strings.Contains(string(p.raw), "<s>92.08 mm at Cylinder 1") {
		t.Error("the run does not strike the reading through")
	}
	if book := string(h.ask("GET", "/m/codlin/book", nil).is(200).raw); !strings.Contains(book, "<s>Read 92.08 mm at Cylinder liner or bore, cylinder 1") {
		t.Error("the book does not strike the reading through")
	}
}
