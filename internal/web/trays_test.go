package web

import (
	"bytes"
	"net/url"
	"regexp"
	"slices"
	"strings"
	"testing"

	"matchmark/internal/book/labels"
	"matchmark/internal/machine"
	"matchmark/internal/trade/traymark"
)

// halfApart opens two main caps into tray 14 and stands the crankshaft on its
// stand.
func (h *house) halfApart() {
	h.t.Helper()
	caps := []machine.JointID{"main-cap-block.1", "main-cap-block.2"}
	m := h.view().Machine
	for _, id := range caps {
		j := m.Joint(id)
		if j == nil {
			h.t.Fatalf("no joint %s", id)
		}
		h.record(&machine.JointOpened{Joint: id, Tray: "14", Off: []machine.PartID{j.Parts[0].ID}, MatchMark: "two dots on each",
			Fasteners: []machine.Fastener{{Size: "M12x1.25x70", Count: 2, Where: "both sides"}}, Shims: []machine.Shim{{ThicknessMM: 0.15, Count: 1}}})
	}
	h.record(&machine.PartMoved{Part: "crankshaft", Tray: "crank stand"})
}

// TestNoTrays: a machine that nobody touched says what makes the first tray.
func TestNoTrays(t *testing.T) {
	h := newHouse(t)
	h.ask("GET", "/m/codlin/trays", nil).is(200).says("No trays. The first removal makes one.")
	h.ask("GET", "/m/codlin/labels", nil).is(200).says("No label is chosen")
	h.ask("GET", "/m/codlin/labels.pdf", nil).is(404).says("No label was chosen")
}

// TestFindByMark: one field leads to the tray by its mark however it is typed,
// offers what a slip may have meant, and else finds parts.
func TestFindByMark(t *testing.T) {
	h := newHouse(t)
	h.halfApart()
	made := traymark.Next(1, "x", func(string) bool { return false })[0]
	h.record(&machine.TrayMade{Mark: made, Name: "Valve gear"})
	for typed, want := range map[string]string{"14": "14", "tray 14": "14", "Tray 14": "14", "CRANK STAND": "crank%20stand", strings.ToLower(made): made, made[:1] + " " + made[1:]: made} {
		p := h.ask("GET", "/m/codlin/trays?tray="+url.QueryEscape(typed), nil).is(303)
		if at := p.header.Get("Location"); at != "/m/codlin/tray/"+want {
			t.Errorf("%q leads to %s", typed, at)
		}
	}
	h.ask("GET", "/m/codlin/trays?tray=15", nil).is(200).says("There is no tray “15”", "Tray 14")
	h.ask("GET", "/m/codlin/trays?tray=flywheel", nil).is(200).says("Parts", "Flywheel")
	h.ask("GET", "/m/codlin/trays?tray=qqq", nil).is(200).says("No part answers to that either")
	h.ask("GET", "/m/codlin/trays", nil).is(200).says("2 pieces, 4 fasteners, 2 shims", "Elsewhere", "crank stand", "Valve gear")
}

// TestCodeLeads: the address in a code leads to the tray, part or joint, and
// one that is unknown to the list, with what may have been meant.
func TestCodeLeads(t *testing.T) {
	h := newHouse(t)
	h.halfApart()
	for what, want := range map[string]string{"14": "/m/codlin/tray/14", "crank%20stand": "/m/codlin/tray/crank%20stand", "part:liner.2": "/m/codlin/part/liner.2",
		"joint:main-cap-block.1": "/m/codlin/joint/main-cap-block.1", "15": "/m/codlin/trays?tray=15", "part:none": "/m/codlin/trays?tray=part%3Anone"} {
		p := h.ask("GET", "/t/codlin/"+what, nil).is(303)
		if at := p.header.Get("Location"); at != want {
			t.Errorf("%s leads to %s, want %s", what, at, want)
		}
	}
	h.ask("GET", "/t/none/14", nil).is(404)
}

// TestTrayPage: what lies in a tray, the dots and places of its fasteners, what
// goes out with which closing; a part is laid into it, and it gets a name.
func TestTrayPage(t *testing.T) {
	h := newHouse(t)
	h.halfApart()
	h.ask("GET", "/m/codlin/tray/14", nil).is(200).says("2 pieces, 4 fasteners, 2 shims", "both sides", "0.15 mm", "Goes out with", "Label to print")
	h.ask("GET", "/m/codlin/tray/99", nil).is(404).says("There is no tray “99”")
	p := h.ask("GET", "/m/codlin/tray/14?find=flywheel", nil).is(200)
	p.says("Flywheel", "Lay it here")
	h.ask("POST", "/m/codlin/tray/14", url.Values{"do": {"lay"}, "part": {"flywheel"}}).is(303)
	if got := h.view().Machine.Part("flywheel").Tray; got != "14" {
		t.Errorf("the flywheel lies in %q", got)
	}
	h.ask("POST", "/m/codlin/tray/14", url.Values{"do": {"lay"}, "part": {"none"}}).is(422).says("nothing was kept")
	h.ask("POST", "/m/codlin/tray/14", url.Values{"do": {"name"}, "name": {"Bottom end"}}).is(303)
	h.ask("POST", "/m/codlin/tray/14", url.Values{"do": {"name"}, "name": {" "}}).is(422).says("nothing was kept")
	h.ask("POST", "/m/codlin/tray/14", url.Values{"do": {"photo"}, "line": {"after the wash"}}).is(422).says("There was no photo")
	sum, err := h.shop.Log().PutBlob(t.Context(), []byte("a picture"), "image/jpeg")
	if err != nil {
		t.Fatal(err)
	}
	h.ask("POST", "/m/codlin/tray/14", url.Values{"do": {"photo"}, "sum": {string(sum)}, "line": {"after the wash"}}).is(303)
	h.ask("GET", "/m/codlin/tray/14", nil).is(200).says("Bottom end: 3 pieces", "after the wash")
	h.record(&machine.PartMoved{Part: "flywheel", Tray: "bench"})
	h.ask("GET", "/m/codlin/tray/14", nil).is(200).says("Of 3 parts that lay here, 1 went back")
}

// TestCountOut: before a closing its page says what it takes out of each tray
// and what is to be left there.
func TestCountOut(t *testing.T) {
	h := newHouse(t)
	h.halfApart()
	h.ask("GET", "/m/codlin/close/main-cap-block.1", nil).is(200).says("Out of tray 14", "2 × M12x1.25x70, both sides", "Left in it then: 1 piece, 2 fasteners, 1 shim", "Main cap, main 2")
}

// TestEmptyTraysAreMadeOnce: a form sent twice makes its trays once, another
// form makes others, and a number that is none makes nothing.
func TestEmptyTraysAreMadeOnce(t *testing.T) {
	h := newHouse(t)
	p := h.ask("GET", "/m/codlin/labels", nil).is(200)
	form := url.Values{"do": {"make"}, "n": {"3"}, "marks": {p.value("marks")}, "once": {"one"}, "size": {"roll40"}}
	first := h.ask("POST", "/m/codlin/labels", form).is(303).header.Get("Location")
	if again := h.ask("POST", "/m/codlin/labels", form).is(303).header.Get("Location"); again != first || len(h.view().Machine.Trays) != 3 {
		t.Errorf("%s, then %s; %d trays", first, again, len(h.view().Machine.Trays))
	}
	form.Set("once", "two") // a page of the same moment, on another device
	h.ask("POST", "/m/codlin/labels", form).is(303)
	seen := map[string]bool{}
	for _, tray := range h.view().Machine.Trays {
		if !traymark.Made(tray.Mark) || seen[tray.Mark] {
			t.Errorf("tray %q made, or twice", tray.Mark)
		}
		seen[tray.Mark] = true
	}
	if len(seen) != 6 {
		t.Errorf("%d trays, want 6", len(seen))
	}
	h.ask("GET", first, nil).is(200).says("3 labels, as they come out")
	for _, bad := range []string{"0", "49", "x", ""} {
		form.Set("n", bad)
		h.ask("POST", "/m/codlin/labels", form).is(422).says("none was made")
	}
	if n := len(h.view().Machine.Trays); n != 6 {
		t.Errorf("%d trays after bad numbers", n)
	}
}

// TestLabelsToPrint: the page shows each sheet, the PDF and the pictures are of
// the choice, and what does not go on paper is said.
func TestLabelsToPrint(t *testing.T) {
	h := newHouse(t)
	h.halfApart()
	h.record(&machine.CallMade{Part: "liner.2", Call: machine.Renew}, &machine.TrayMade{Mark: "7", Name: "前蓋"})
	p := h.ask("GET", "/m/codlin/labels?size=roll40", nil).is(200)
	p.says("3 labels, as they come out", "All 3 trays", "Tags of 1 part with a call", "letters that these faces do not have (前 蓋)", "A phone cannot open http://localhost:8080")
	pictures := 0
	for _, e := range p.elements {
		if at, _ := attr(e, "src"); e.Name.Local == "img" {
			pictures++
			svg := h.ask("GET", at, nil).is(200)
			if svg.header.Get("Content-Type") != "image/svg+xml" || !bytes.Contains(svg.raw, []byte(`width="62mm" height="40mm"`)) {
				t.Errorf("%s: %s %.80s", at, svg.header.Get("Content-Type"), svg.raw)
			}
		}
	}
	if pictures != 2 || !strings.Contains(p.text, "Show all") {
		t.Errorf("%d pictures of 3 labels, want the first 2 and a way to all", pictures)
	}
	if all := h.ask("GET", "/m/codlin/labels?size=roll40&all=1", nil).is(200); strings.Count(string(all.raw), "labels.svg?") != 3 {
		t.Error("all labels were asked for and are not shown")
	}
	for query, pages := range map[string]int{"?size=roll40": 3, "?what=parts&size=roll60": 1, "?what=chosen&tray=14&tray=7&size=roll29": 2, "?size=sheet&start=23": 2, "?part=liner.2&part=crankshaft": 1, "?proof=1": 1} {
		pdf := h.ask("GET", "/m/codlin/labels.pdf"+query, nil).is(200)
		if n := len(regexp.MustCompile(`/Type /Page\n`).FindAll(pdf.raw, -1)); n != pages || !bytes.HasPrefix(pdf.raw, []byte("%PDF-")) {
			t.Errorf("%s: %d pages, want %d", query, n, pages)
		}
	}
	h.ask("GET", "/m/codlin/labels?size=sheet&start=25", nil).is(200).says("There is no label 25 on a sheet of 24")
	h.ask("GET", "/m/codlin/labels.pdf?size=sheet&start=25", nil).is(422).says("begin at 1 to 24")
	h.ask("GET", "/m/codlin/labels.svg?page=9", nil).is(404)
	h.ask("GET", "/m/codlin/labels?what=parts", nil).is(200).says("1 label, as they come out")
}

// TestShopSettings: the address and the offsets are kept for the shop, by size;
// what cannot be is refused with what was typed.
func TestShopSettings(t *testing.T) {
	h := newHouse(t)
	h.halfApart()
	form := url.Values{"do": {"keep"}, "address": {"bench.home.arpa:7462"}, "offx": {"0,5 mm"}, "offy": {"-1"}, "size": {"roll40"}}
	h.ask("POST", "/m/codlin/labels", form).is(303)
	p := h.ask("GET", "/m/codlin/labels", nil).is(200) // the size last kept comes first
	if p.value("address") != "http://bench.home.arpa:7462" || p.value("offx") != "0.5" || p.value("offy") != "-1" {
		t.Errorf("kept: %q, %q, %q", p.value("address"), p.value("offx"), p.value("offy"))
	}
	if strings.Contains(p.text, "A phone cannot open") {
		t.Error("the shop's own address is said to be this computer's")
	}
	if p := h.ask("GET", "/m/codlin/labels?size=sheet", nil).is(200); p.value("offx") != "0" || p.value("address") != "http://bench.home.arpa:7462" {
		t.Errorf("sheet: %q, %q", p.value("offx"), p.value("address"))
	}
	for field, bad := range map[string]string{"address": "ftp://x", "offx": "9", "offy": "left"} {
		form := url.Values{"do": {"keep"}, "address": {"box"}, "offx": {"0"}, "offy": {"0"}, "size": {"roll40"}}
		form.Set(field, bad)
		p := h.ask("POST", "/m/codlin/labels", form).is(422)
		p.says("Nothing was kept")
		if p.value(field) != bad {
			t.Errorf("%s: typed %q, shown %q", field, bad, p.value(field))
		}
	}
	data, err := h.shop.Log().Paper(t.Context(), labels.SettingsPaper)
	if s, err2 := labels.ReadSettings(data); err != nil || err2 != nil || s.Offsets["roll40"] != (labels.Offset{X: 0.5, Y: -1}) {
		t.Errorf("on the shelf: %+v, %v %v", s, err, err2)
	}
	h.ask("POST", "/m/codlin/labels", url.Values{"do": {"x"}}).is(422)
}

// TestCodeIsReached: where nobody gave an address, the codes carry one that
// other devices open.
func TestCodeIsReached(t *testing.T) {
	h := newHouse(t)
	h.halfApart()
	h.site = New(h.shop, Options{By: "R.", Now: fixed, Reach: func() []string { return []string{"http://192.168.1.5:7462"} }})
	p := h.ask("GET", "/m/codlin/labels", nil).is(200)
	if p.value("address") != "http://192.168.1.5:7462" || strings.Contains(p.text, "A phone cannot open") {
		t.Errorf("the address is %q", p.value("address"))
	}
}

// TestMarkMeant: a mark is kept as it stands on its label.
func TestMarkMeant(t *testing.T) {
	h := newHouse(t)
	h.halfApart()
	m := h.view().Machine
	made := traymark.Next(1, "x", func(string) bool { return false })[0]
	for typed, want := range map[string]string{"14": "14", "tray 14": "14", "Crank Stand": "crank stand", "15": "15", "shelf 2": "shelf 2", strings.ToLower(made): made} {
		if got := markMeant(m, typed); got != want {
			t.Errorf("%q is kept as %q, want %q", typed, got, want)
		}
	}
	if !slices.Contains([]string{trayWords(made)}, "tray "+made) {
		t.Errorf("a made mark is called %q", trayWords(made))
	}
}
