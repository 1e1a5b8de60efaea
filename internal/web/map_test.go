package web

import (
	"encoding/xml"
	"net/url"
	"strings"
	"testing"

	"matchmark/internal/finding/sequence"
	"matchmark/internal/machine"
)

// linksOn are the links of the drawing by their names.
func (p *page) mapLinks() map[string]string {
	out := map[string]string{}
	for _, e := range p.elements {
		name, named := attr(e, "aria-label")
		to, _ := attr(e, "href")
		if e.Name.Local == "a" && named && strings.Contains(to, "#panel") {
			out[name] = to
		}
	}
	return out
}

// TestMapNames: every part is a link on the sheet of its assembly, named by
// number, name and state (acceptance check 20), and the link opens its panel.
func TestMapNames(t *testing.T) {
	h := newHouse(t)
	v := h.view()
	number := partNumbers(v.Machine)
	seen := 0
	for _, a := range v.Machine.Assemblies {
		p := h.ask("GET", "/m/codlin/machine?a="+string(a.ID), nil).is(200)
		links := p.mapLinks()
		for _, part := range v.Machine.Parts {
			if part.Assembly != a.ID {
				continue
			}
			want := number[part.ID] + " " + part.Name + ", still to strip"
			if links[want] == "" {
				t.Errorf("sheet %s has no link %q", a.ID, want)
			}
			seen++
		}
	}
	if seen != len(v.Machine.Parts) {
		t.Errorf("%d parts on the sheets of %d", seen, len(v.Machine.Parts))
	}
	all := h.ask("GET", "/m/codlin/machine", nil).is(200).mapLinks()
	if want := number["piston.1"] + " Piston, " + number["piston.1"] + "–" + number["piston.3"] + ", still to strip"; all[want] == "" {
		t.Errorf("the general arrangement has no link %q", want)
	}
	to := all[number["crankshaft"]+" Crankshaft, still to strip"]
	path, _, _ := strings.Cut(to, "#")
	p := h.ask("GET", path, nil).is(200)
	p.says("General arrangement", "you are here", "Tray label", "Photo and one line")
	if n := p.count("a", "aria-current", "true"); n != 1 {
		t.Errorf("%d links say they are the one chosen", n)
	}
}

// count is how many elements have an attribute of a value.
func (p *page) count(name, key, value string) int {
	n := 0
	for _, e := range p.elements {
		if got, ok := attr(e, key); ok && got == value && e.Name.Local == name {
			n++
		}
	}
	return n
}

// TestMapStates: what a part's line is, is what its record says.
func TestMapStates(t *testing.T) {
	h := newHouse(t)
	sheet := func() map[string]string {
		return h.ask("GET", "/m/codlin/machine?a=engine-lub", nil).is(200).mapLinks()
	}
	number := partNumbers(h.view().Machine)
	is := func(id machine.PartID, word string) {
		t.Helper()
		if name := number[id] + " " + h.view().Machine.Part(id).Name + ", " + word; sheet()[name] == "" {
			t.Errorf("no link %q", name)
		}
	}
	is("sump", "still to strip")
	for range 12 {
		for _, s := range h.view().Plan().Free {
			if s.Act == sequence.Open && s.Joint.Assembly == "engine-lub" {
				o := &machine.JointOpened{Joint: s.Joint.ID, Tray: "14"}
				for _, p := range s.Joint.Parts {
					if p.Assembly == "engine-lub" {
						o.Off = append(o.Off, p.ID)
					}
				}
				h.record(o)
			}
		}
	}
	is("sump-plug", "off, on a tray")
	h.record(&machine.Ordered{Order: "o1", Out: true, What: "sump plug", From: "the shop", Parts: []machine.PartID{"sump-plug"}})
	is("sump-plug", "away")
}

// TestLineTypes: each state has a line of its own in the legend, in the marks
// and in the style of the drawing.
func TestLineTypes(t *testing.T) {
	style, err := assetFiles.ReadFile("assets/scribe-map.css")
	if err != nil {
		t.Fatal(err)
	}
	marks, err := templateFiles.ReadFile("templates/_marks.html")
	if err != nil {
		t.Fatal(err)
	}
	rules := map[string]string{}
	for _, l := range legend() {
		_, rest, ok := strings.Cut(string(style), "use.s-"+l.Line+"{")
		rule, _, _ := strings.Cut(rest, "}")
		if !ok || rule == "" {
			t.Errorf("no line is drawn for %q", l.Word)
		}
		if strings.Contains(rule, "#") && !strings.Contains(rule, "url(#hatch)") || strings.Contains(rule, "--here") {
			t.Errorf("%q is told by colour: %s", l.Word, rule)
		}
		if other, twice := rules[rule]; twice {
			t.Errorf("%q and %q are drawn alike", l.Word, other)
		}
		rules[rule] = l.Word
		if !strings.Contains(string(marks), `eq . "`+l.Line+`"`) {
			t.Errorf("the legend has no sample for %q", l.Word)
		}
	}
	for line, want := range map[string]string{"on": "--dash:9", "off": "--wide:1.5", "judged": "--wide:3.6", "held": "url(#hatch)", "built": "--inner:var(--text)", "away": "--dash:7"} {
		_, rest, _ := strings.Cut(string(style), "use.s-"+line+"{")
		if rule, _, _ := strings.Cut(rest, "}"); !strings.Contains(rule, want) {
			t.Errorf("%s is drawn with %s, want %s", line, rule, want)
		}
	}
}

// TestMapFinds: the field finds parts, trays and joints; one find alone is
// opened at once.
func TestMapFinds(t *testing.T) {
	h := newHouse(t)
	h.strip()
	ask := func(words string) *page { return h.ask("GET", "/m/codlin/machine?q="+url.QueryEscape(words), nil) }
	ask("tray 14").is(200).says("Tray 14", "Found for")
	ask("main cap").is(200).says("main 1", "main 4", "Joints")
	ask("no such thing").is(200).says("Nothing answers to that")
	number := partNumbers(h.view().Machine)["camshaft"]
	p := ask(number).is(303)
	if to := p.header.Get("Location"); to != "/m/codlin/machine?part=camshaft#panel" {
		t.Errorf("number %s opens %s", number, to)
	}
	h.ask("GET", "/m/codlin/machine?part=none", nil).is(404)
	h.ask("GET", "/m/codlin/machine?a=none", nil).is(200).says("General arrangement")
}

// TestMapPanel: the panel says what the part's page says, in short.
func TestMapPanel(t *testing.T) {
	h := newHouse(t)
	h.strip()
	h.record(&machine.CallMade{Part: "liner.2", Call: machine.MakeGood, Why: "bore it to the next size"})
	p := h.ask("GET", "/m/codlin/machine?part=liner.2", nil).is(200)
	p.says("Liner", "Make good", "bore it to the next size", "Fits", "At the other places", "Sheet", "Tray 14", "Read ")
	labels := 0
	for _, e := range p.elements {
		if to, _ := attr(e, "href"); to == "/m/codlin/labels?part=liner.2" {
			labels++
		}
	}
	if labels != 1 {
		t.Errorf("%d links to the tray label", labels)
	}
}

// TestMapWeighsLittle: no sheet weighs more than 60 KB on the wire, with a
// part chosen and all of the machine apart.
func TestMapWeighsLittle(t *testing.T) {
	h := newHouse(t)
	h.strip()
	heaviest := 0
	paths := []string{"", "?part=crankshaft&sheet=1", "?part=crankshaft", "?q=bolt", "?large=1"}
	for _, a := range h.view().Machine.Assemblies {
		paths = append(paths, "?a="+string(a.ID))
	}
	for _, path := range paths {
		p := h.ask("GET", "/m/codlin/machine"+path, nil).is(200)
		heaviest = max(heaviest, len(pack(p.raw)))
		if got := len(pack(p.raw)); got > 60<<10 {
			t.Errorf("%s: %d bytes, want at most %d", path, got, 60<<10)
		}
		wellFormed(t, path, p.raw)
	}
	t.Logf("the heaviest sheet has %d bytes on the wire", heaviest)
}

// wellFormed holds every drawing of a page to XML.
func wellFormed(t *testing.T, name string, raw []byte) {
	t.Helper()
	rest := string(raw)
	for n := 0; ; n++ {
		at := strings.Index(rest, "<svg")
		if at < 0 {
			if n == 0 {
				t.Errorf("%s: no drawing", name)
			}
			return
		}
		end := strings.Index(rest[at:], "</svg>") + at + len("</svg>")
		var all struct {
			XMLName xml.Name
			Inner   string `xml:",innerxml"`
		}
		if err := xml.Unmarshal([]byte(rest[at:end]), &all); err != nil {
			t.Fatalf("%s: a drawing is not well-formed: %v", name, err)
		}
		rest = rest[end:]
	}
}
