package draw

import (
	"encoding/xml"
	"fmt"
	"io"
	"slices"
	"strings"
	"testing"

	"matchmark/internal/machine"
)

// sheetsOf draws every assembly of a machine.
func sheetsOf(m *machine.Machine, d Machine) map[string]Sheet {
	out := map[string]Sheet{}
	for _, a := range m.Assemblies {
		out[string(a.ID)] = d.Assembly(string(a.ID))
	}
	return out
}

// TestEveryPartOnOneSheet: on a machine of 1 to 4 cylinders every part stands
// on exactly one sheet of an assembly.
func TestEveryPartOnOneSheet(t *testing.T) {
	for n := 1; n <= 4; n++ {
		m, d := library(t, n)
		seen := map[string]int{}
		for _, s := range sheetsOf(m, d) {
			for _, k := range s.Marks {
				seen[k.Item.ID]++
			}
		}
		for _, p := range m.Parts {
			if seen[string(p.ID)] != 1 {
				t.Errorf("%d cylinders: %s stands on %d sheets", n, p.ID, seen[string(p.ID)])
			}
		}
		pistons := 0
		for _, k := range d.Assembly("engine-piston").Marks {
			if k.Item.Type == "piston" {
				pistons++
			}
		}
		if pistons != n {
			t.Errorf("%d cylinders: %d pistons are drawn", n, pistons)
		}
	}
}

// TestNothingOverlaps holds every sheet of machines of 1 to 4 cylinders to the
// order of a drawing.
func TestNothingOverlaps(t *testing.T) {
	for n := 1; n <= 4; n++ {
		m, d := library(t, n)
		for id, s := range sheetsOf(m, d) {
			orderly(t, fmt.Sprintf("%s of %d", id, n), s)
		}
		orderly(t, fmt.Sprintf("general arrangement of %d", n), d.General())
	}
}

// orderly: no symbol covers another, balloons and words cover neither symbols
// nor one another, what can be pressed is large enough and apart, and all of
// it lies within the frame.
func orderly(t *testing.T, name string, s Sheet) {
	t.Helper()
	symbolsClear(t, name, s)
	for _, as := range []showing{{1, apart, ""}, shownSmall, shownLarge} {
		outlines, targets := balloonsClear(t, name, s, as)
		if as.class == "" {
			for _, k := range s.Marks {
				if k.Target.w > 0 {
					targets = append(targets, k.Target)
				}
			}
			wordsClear(t, name, s, outlines)
		}
		targetsApart(t, name, targets, as)
	}
}

// frameOf is the room inside a sheet's frame.
func frameOf(s Sheet) box { return box{margin, margin, Width - 2*margin, s.Height - 2*margin} }

func symbolsClear(t *testing.T, name string, s Sheet) {
	t.Helper()
	for i, a := range s.Marks {
		if !frameOf(s).holds(a.At) {
			t.Errorf("%s: %s lies outside the frame: %+v", name, a.Item.ID, a.At)
		}
		for _, b := range s.Marks[:i] {
			if a.At.meets(b.At) {
				t.Errorf("%s: %s lies on %s", name, a.Item.ID, b.Item.ID)
			}
		}
	}
}

// balloonsClear looks at the balloons of one showing, and gives their outlines
// and what of them can be pressed.
func balloonsClear(t *testing.T, name string, s Sheet, as showing) (outlines, targets []box) {
	t.Helper()
	for _, b := range s.Balloons {
		if b.Shown != as.class {
			continue
		}
		outline, press := b.sized(as.size)
		if b.Target.w > 0 {
			targets = append(targets, press)
		}
		if !frameOf(s).holds(outline) {
			t.Errorf("%s: balloon %s lies outside the frame", name, b.Text())
		}
		for _, k := range s.Marks {
			if outline.meets(k.At) {
				t.Errorf("%s: balloon %s lies on %s", name, b.Text(), k.Item.ID)
			}
		}
		if anyMeets(outlines, outline) {
			t.Errorf("%s: balloon %s lies on another", name, b.Text())
		}
		outlines = append(outlines, outline)
	}
	return outlines, targets
}

func targetsApart(t *testing.T, name string, targets []box, as showing) {
	t.Helper()
	for i, a := range targets {
		if a.w < as.size*target-1e-9 || a.h < as.size*target-1e-9 {
			t.Errorf("%s: a target of %.1f by %.1f", name, a.w, a.h)
		}
		if anyMeets(targets[:i], a.grown(as.gap-1e-6)) {
			t.Errorf("%s: a target at %+v is nearer than %.1f to another", name, a, as.gap)
		}
	}
}

// noteBoxes are the rooms of the words on a sheet.
func noteBoxes(s Sheet) []box {
	var out []box
	for _, n := range s.Notes {
		w := TextWidth(n.Text, lettering)
		b := about(n.At, w, lettering)
		if n.Left {
			b.x = n.At.x
		}
		out = append(out, b)
	}
	return out
}

// wordsClear: words lie on nothing.
func wordsClear(t *testing.T, name string, s Sheet, outlines []box) {
	t.Helper()
	boxes := noteBoxes(s)
	for i, b := range boxes {
		for k, c := range boxes[:i] {
			if b.meets(c) {
				t.Errorf("%s: the word %q lies on %q", name, s.Notes[i].Text, s.Notes[k].Text)
			}
		}
		for _, k := range s.Marks {
			if b.meets(k.At) {
				t.Errorf("%s: the word %q lies on %s", name, s.Notes[i].Text, k.Item.ID)
			}
		}
		for _, o := range outlines {
			if b.meets(o) {
				t.Errorf("%s: the word %q lies on a balloon", name, s.Notes[i].Text)
			}
		}
	}
}

// TestGeneralArrangement: every part on it can be opened from a large sheet,
// there are 40 to 60 balloons, and leaders cross neither one another nor other
// parts.
func TestGeneralArrangement(t *testing.T) {
	for n := 1; n <= 4; n++ {
		_, d := library(t, n)
		s := d.General()
		has, count := map[string]bool{}, map[string]int{}
		for _, b := range s.Balloons {
			count[b.Shown]++
			for _, it := range b.Items {
				has[b.Shown+it.ID] = true
			}
		}
		for _, k := range s.Marks {
			if !has[shownLarge.class+k.Item.ID] {
				t.Errorf("%d cylinders: %s has no balloon", n, k.Item.ID)
			}
		}
		if c := count[shownLarge.class]; c < 40 || c > 60 {
			t.Errorf("%d cylinders: %d balloons", n, c)
		}
		if c := count[shownSmall.class]; c < 20 {
			t.Errorf("%d cylinders: %d balloons on a small sheet", n, c)
		}
		leadersClear(t, s)
	}
}

func leadersClear(t *testing.T, s Sheet) {
	t.Helper()
	for i, b := range s.Balloons {
		for _, c := range s.Balloons[:i] {
			if b.Shown == c.Shown && cross(b.At, b.To, c.At, c.To) {
				t.Errorf("the leaders of %s and %s cross", b.Text(), c.Text())
			}
		}
		for _, k := range s.Marks {
			own := slices.ContainsFunc(b.Items, func(it Item) bool { return it.ID == k.Item.ID })
			if !own && k.At.cuts(b.At, b.To) {
				t.Errorf("the leader of %s runs through %s", b.Text(), k.Item.ID)
			}
		}
	}
}

// TestOneKitAlone: a machine of one kit is drawn in order and in the middle.
func TestOneKitAlone(t *testing.T) {
	for _, id := range []string{"engine", "gearbox", "rear-axle", "electrics", "wheels"} {
		m, d := one(t, id)
		for name, s := range sheetsOf(m, d) {
			orderly(t, name, s)
		}
		s := d.General()
		orderly(t, id, s)
		leadersClear(t, s)
		if id == "engine" {
			all := s.Marks[0].At
			for _, k := range s.Marks {
				all = all.spanning(k.At)
			}
			if x := all.middle().x; x < 400 || x > 600 {
				t.Errorf("the engine stands at %.0f of %.0f", x, Width)
			}
		}
	}
}

// strange is a machine of a kit that nobody here knows.
func strange(parts int) (*machine.Machine, Machine) {
	bodies := []machine.Body{&machine.AssemblyAdded{ID: "works", Name: "The works"}, &machine.AssemblyAdded{ID: "bits", Name: "Bits"}}
	for i := range parts {
		bodies = append(bodies, &machine.PartAdded{ID: machine.PartID(fmt.Sprintf("p%d", i)), Name: fmt.Sprintf("Whatsit %c<%d>", 'A'+i%26, i), Assembly: []machine.AssemblyID{"works", "bits"}[i%2], Qty: 1 + i%3})
	}
	return folded(bodies)
}

// TestStrangeMachines: machines with nothing, or only unknown parts, draw in
// order as well.
func TestStrangeMachines(t *testing.T) {
	for _, n := range []int{0, 1, 2, 7, 60} {
		m, d := strange(n)
		for id, s := range sheetsOf(m, d) {
			orderly(t, id, s)
		}
		s := d.General()
		orderly(t, "general", s)
		if want := min(n, 2); len(s.Marks) != want {
			t.Errorf("%d unknown parts: the general arrangement shows %d, want one of each assembly", n, len(s.Marks))
		}
	}
}

// TestSVG: a sheet is well-formed, the same twice, and names every link.
func TestSVG(t *testing.T) {
	m, d := library(t, 3)
	page := func() Page {
		return Page{Title: "A & B", Here: "piston.2", Shapes: &Shapes{}, Href: func(items []Item) string { return "?a=1&part=" + items[0].ID }, Say: func(items []Item) string { return items[0].Name + ` <"x">` }}
	}
	for _, a := range m.Assemblies {
		p, q := page(), page()
		s := d.Assembly(string(a.ID))
		text := s.SVG(p)
		if text != s.SVG(q) || p.Shapes.Definitions() != q.Shapes.Definitions() {
			t.Errorf("%s: drawn twice it differs", a.ID)
		}
		links := 0
		dec := xml.NewDecoder(strings.NewReader("<all>" + p.Shapes.Definitions() + text + "</all>"))
		for {
			tok, err := dec.Token()
			if err == io.EOF {
				break
			}
			if err != nil {
				t.Fatalf("%s: %v", a.ID, err)
			}
			e, ok := tok.(xml.StartElement)
			if !ok || e.Name.Local != "a" {
				continue
			}
			links++
			if !slices.ContainsFunc(e.Attr, func(at xml.Attr) bool { return at.Name.Local == "aria-label" && at.Value != "" }) {
				t.Errorf("%s: a link without a name", a.ID)
			}
		}
		if links != len(s.Marks) {
			t.Errorf("%s: %d links for %d parts", a.ID, links, len(s.Marks))
		}
	}
}

// TestKept: what is remembered is what would be drawn afresh, with the states
// of now, and another machine is not taken for it.
func TestKept(t *testing.T) {
	var k Kept
	_, d := library(t, 3)
	k.General(d)
	for i := range d.Items {
		d.Items[i].State = []string{"off", "held", "built"}[i%3]
	}
	for _, m := range []Machine{d, second(t)} {
		p, q := Page{Shapes: &Shapes{}}, Page{Shapes: &Shapes{}}
		p.Href = func([]Item) string { return "" }
		p.Say = func(items []Item) string { return items[0].Name + items[0].State }
		q.Href, q.Say = p.Href, p.Say
		if k.General(m).SVG(p) != m.General().SVG(q) {
			t.Error("the remembered arrangement is not the one drawn afresh")
		}
	}
}

func second(t *testing.T) Machine {
	_, d := library(t, 2)
	return d
}
