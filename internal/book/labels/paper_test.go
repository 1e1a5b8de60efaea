package labels

import (
	"bytes"
	"math"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"
	"time"

	"pgregory.net/rapid"

	"matchmark/internal/machine"
	"matchmark/internal/trade/traymark"
)

var evening = time.Date(2026, 11, 24, 17, 0, 0, 0, time.UTC)

const home = "http://192.168.178.120:7462"

// marked gives n labels of trays with made marks and a code each.
func marked(n int) []Label {
	var out []Label
	for _, m := range traymark.Next(n, "codlin", func(string) bool { return false }) {
		out = append(out, Label{Mark: m, Name: "Cylinder head, valve gear", Machine: "Wendle Codlin 18", Serial: "0418", Date: evening,
			Link: Link(home, "wendle-codlin-18", m), Dots: 3, Inside: []string{"Rocker shaft", "8 × valve", "4 × M10x1.25, rocker bracket 1"}})
	}
	return out
}

// tagged gives one tag of each call.
func tagged() []Label {
	var out []Label
	for i, c := range []machine.Call{machine.GoesBack, machine.MakeGood, machine.Renew, machine.NotJudged} {
		out = append(out, Label{Tag: true, Mark: "14", Name: "Connecting rod, cylinder 2", Machine: "Wendle Codlin 18", Date: evening,
			Link: Link(home, "wendle-codlin-18", "part:conrod.2"), Call: c, Number: 117 + i, Dots: 2})
	}
	return out
}

func setup(id string) Setup {
	s, _ := SizeOf(id)
	return Setup{Size: s, Start: 1, AsOf: evening, Arrow: Right, Toward: "front"}
}

func lay(t testing.TB, s Setup, labels ...Label) Layout {
	t.Helper()
	l, err := Lay(labels, s)
	if err != nil {
		t.Fatal(err)
	}
	return l
}

func pdf(t testing.TB, l Layout) []byte {
	t.Helper()
	data, err := l.PDF()
	if err != nil {
		t.Fatal(err)
	}
	return data
}

var mediaBox = regexp.MustCompile(`/MediaBox \[0 0 ([0-9.]+) ([0-9.]+)\]`)

// TestPagesAreThePaper: each page of the PDF is of the size chosen, to a
// hundredth of a millimetre; the roll is 62 mm wide.
func TestPagesAreThePaper(t *testing.T) {
	for _, want := range []struct {
		id           string
		w, h         float64
		labels, pags int
	}{{"sheet", 210, 297, 25, 2}, {"roll29", 62, 29, 3, 3}, {"roll40", 62, 40, 3, 3}, {"roll60", 62, 60, 3, 3}} {
		data := pdf(t, lay(t, setup(want.id), marked(want.labels)...))
		boxes := mediaBox.FindAllSubmatch(data, -1)
		sizes := 0
		for _, b := range boxes {
			w, _ := strconv.ParseFloat(string(b[1]), 64)
			h, _ := strconv.ParseFloat(string(b[2]), 64)
			w, h = w*25.4/72, h*25.4/72
			if math.Abs(w-want.w) < 0.01 && math.Abs(h-want.h) < 0.01 {
				sizes++
			} else if !(math.Abs(w-210) < 0.01 && math.Abs(h-297) < 0.01) { // the default of the whole file
				t.Errorf("%s: a page of %.3f × %.3f mm", want.id, w, h)
			}
		}
		if n := bytes.Count(data, []byte("/Type /Page\n")); n != want.pags || sizes < 1 {
			t.Errorf("%s: %d pages, want %d; %d of the size", want.id, n, want.pags, sizes)
		}
	}
}

// TestSameLabelsSameBytes and nothing in them says when they were made.
func TestSameLabelsSameBytes(t *testing.T) {
	for _, s := range Sizes() {
		labels := append(marked(5), tagged()...)
		a, b := lay(t, setup(s.ID), labels...), lay(t, setup(s.ID), labels...)
		if !bytes.Equal(pdf(t, a), pdf(t, b)) || !bytes.Equal(a.Pages[0].SVG(), b.Pages[0].SVG()) {
			t.Errorf("%s: two runs differ", s.ID)
		}
	}
}

// TestPrintsUnscaled: the PDF asks to be printed at its size.
func TestPrintsUnscaled(t *testing.T) {
	data := string(pdf(t, lay(t, setup("sheet"), marked(1)...)))
	at := strings.Index(data, "/Type /Catalog")
	if at < 0 || !strings.Contains(data[at:at+300], "/ViewerPreferences << /PrintScaling /None >>") {
		t.Error("the catalogue of the PDF does not forbid scaling")
	}
}

// TestStartsAtLabel: labels begin where the sheet was left off, go on to the
// next sheet, and a start that is not there is refused.
func TestStartsAtLabel(t *testing.T) {
	s := setup("sheet")
	s.Start = 23
	l := lay(t, s, marked(3)...)
	if len(l.Pages) != 2 || len(l.Pages[0].Cells) != 2 || len(l.Pages[1].Cells) != 1 {
		t.Fatalf("%d pages", len(l.Pages))
	}
	for i, want := range []Point{{70, 259.5}, {140, 259.5}, {0, 0.5}} {
		c := append(l.Pages[0].Cells, l.Pages[1].Cells...)[i]
		if c.X != want.X || c.Y != want.Y {
			t.Errorf("label %d at %.1f, %.1f, want %v", i+1, c.X, c.Y, want)
		}
	}
	for _, bad := range []int{0, 25, -3} {
		s.Start = bad
		if _, err := Lay(marked(1), s); err == nil {
			t.Errorf("begins at %d", bad)
		}
	}
	roll := setup("roll40")
	roll.Start = 2
	if _, err := Lay(marked(1), roll); err == nil {
		t.Error("a roll begins at its second label")
	}
	roll.Start, roll.OffX = 1, 5.1
	if _, err := Lay(marked(1), roll); err == nil {
		t.Error("an offset of 5.1 mm is taken")
	}
	if _, err := Lay(nil, Setup{Start: 1}); err == nil {
		t.Error("no size is taken")
	}
}

// anyText draws words that people write: short and long, with letters that no
// face here has.
func anyText(t *rapid.T, name string) string {
	return rapid.OneOf(rapid.SampledFrom([]string{"", "Liner", "14", "crank stand", "Kurbelwelle, Lagerdeckel und Öldüsen der Spritzkühlung", "前蓋 と ボルト",
		"Donaudampfschifffahrtselektrizitätenhauptbetriebswerk"}), rapid.StringN(0, 60, -1)).Draw(t, name)
}

func anyLabel(t *rapid.T) Label {
	l := Label{Mark: anyText(t, "mark"), Name: anyText(t, "name"), Machine: anyText(t, "machine"), Serial: anyText(t, "serial"), Dots: rapid.IntRange(0, 9).Draw(t, "dots"),
		Tag: rapid.Bool().Draw(t, "tag"), Call: rapid.SampledFrom([]machine.Call{"", machine.NotJudged, machine.GoesBack, machine.MakeGood, machine.Renew}).Draw(t, "call"),
		Number: rapid.IntRange(0, 9999).Draw(t, "number"), Inside: rapid.SliceOfN(rapid.Just("8 × M12x1.25x70, main cap 2"), 0, 20).Draw(t, "inside")}
	if rapid.Bool().Draw(t, "dated") {
		l.Date = evening
	}
	if rapid.Bool().Draw(t, "code") {
		l.Link = Link(home, machine.MachineID(rapid.SampledFrom([]string{"m", "wendle-codlin-18"}).Draw(t, "machine id")), l.Mark)
	}
	return l
}

// TestNothingLeavesItsLabel: whatever stands on a label stays within what a
// printer reaches of it, so that no label runs into the next.
func TestNothingLeavesItsLabel(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := setup(rapid.SampledFrom(Sizes()).Draw(t, "size").ID)
		s.OffX, s.OffY = rapid.Float64Range(-5, 5).Draw(t, "x"), rapid.Float64Range(-5, 5).Draw(t, "y")
		s.Start = rapid.IntRange(1, s.Size.On()).Draw(t, "start")
		s.Arrow, s.Toward = rapid.SampledFrom(Arrows()).Draw(t, "arrow"), anyText(t, "toward")
		var labels []Label
		for range rapid.IntRange(1, 4).Draw(t, "labels") {
			labels = append(labels, anyLabel(t))
		}
		l, err := Lay(labels, s)
		if err != nil {
			t.Fatal(err)
		}
		const slack = 0.3 // a letter's own overhang at either end of a line
		for _, page := range l.Pages {
			for _, c := range page.Cells {
				low, high := c.Drawing.Bounds()
				left, top := c.X+s.Size.InX+s.OffX-slack, c.Y+s.Size.InY+s.OffY-slack
				right, foot := c.X+c.W-s.Size.InX+s.OffX+slack, c.Y+c.H-s.Size.InY+s.OffY+slack
				if low.X < left || low.Y < top || high.X > right || high.Y > foot {
					t.Fatalf("%+v: drawn from %.2f to %.2f, the room is %.2f %.2f to %.2f %.2f", c.Label, low, high, left, top, right, foot)
				}
				if c.X < 0 || c.Y < 0 || c.X+c.W > page.W+1e-9 || c.Y+c.H > page.H+1e-9 {
					t.Fatalf("a label at %.1f, %.1f leaves its page", c.X, c.Y)
				}
			}
		}
	})
}

// TestLabelsDoNotOverlap: no two labels of a full sheet share any area.
func TestLabelsDoNotOverlap(t *testing.T) {
	cells := lay(t, setup("sheet"), marked(24)...).Pages[0].Cells
	for i, a := range cells {
		for _, b := range cells[:i] {
			if a.X < b.X+b.W && b.X < a.X+a.W && a.Y < b.Y+b.H && b.Y < a.Y+a.H {
				t.Errorf("labels at %.1f, %.1f and %.1f, %.1f overlap", a.X, a.Y, b.X, b.Y)
			}
		}
	}
}

// TestWordsKeepApart: on the labels of every day, no text runs into another or
// into the code and its empty margin.
func TestWordsKeepApart(t *testing.T) {
	for _, size := range Sizes() {
		labels := append(marked(3), tagged()...)
		labels[1].Mark, labels[1].Name, labels[1].Dots = "crank stand", "Crankshaft with its counterweights, main caps and thrust washers", 9
		for _, page := range lay(t, setup(size.ID), labels...).Pages {
			for _, c := range page.Cells {
				keepApart(t, size.ID, c)
			}
		}
	}
}

func keepApart(t *testing.T, size string, c Cell) {
	t.Helper()
	type held struct {
		what      string
		low, high Point
	}
	var all []held
	for _, it := range c.Drawing {
		low, high := Drawing{it}.Bounds()
		switch {
		case it.Text != "":
			all = append(all, held{it.Text, low, high})
		case it.Fill && len(it.Path) > 500: // the code
			unit := (high.X - low.X) / 41
			all = append(all, held{"the code", Point{low.X - quiet*unit, low.Y}, Point{high.X + quiet*unit, high.Y + quiet*unit}})
		}
	}
	for i, a := range all {
		for _, b := range all[:i] {
			if a.low.X < b.high.X-0.05 && b.low.X < a.high.X-0.05 && a.low.Y < b.high.Y-0.05 && b.low.Y < a.high.Y-0.05 {
				t.Errorf("%s, %s: “%s” runs into “%s”: %.2f %.2f and %.2f %.2f", size, c.Label.Mark, a.what, b.what, a.low, a.high, b.low, b.high)
			}
		}
	}
}

// TestTagsAreCutApart: the four calls differ in outline, and each bears its
// word in letters.
func TestTagsAreCutApart(t *testing.T) {
	for _, size := range Sizes() {
		seen := map[string]machine.Call{}
		for _, page := range lay(t, setup(size.ID), tagged()...).Pages {
			for _, c := range page.Cells {
				d := c.Drawing.shifted(-c.X, -c.Y)
				edge := pathData(d[0].Path)
				if d[0].Dash > 0 {
					edge += " dashed"
				}
				if was, twice := seen[edge]; twice {
					t.Errorf("%s: %s and %s have one outline", size.ID, was, c.Label.Call)
				}
				seen[edge] = c.Label.Call
				if !slices.ContainsFunc(d, func(it Item) bool { return it.Text == string(c.Label.Call) }) {
					t.Errorf("%s: the tag of a part that %s does not say so", size.ID, c.Label.Call)
				}
			}
		}
	}
}

// TestNothingIsDroppedInSilence: what is cut, shrunk or cannot be written is
// named.
func TestNothingIsDroppedInSilence(t *testing.T) {
	for _, c := range []struct {
		label Label
		says  string
	}{
		{Label{Mark: "14", Name: "前蓋"}, "前 蓋"},
		{Label{Mark: "crank stand"}, "instead of 14"},
		{Label{Mark: "14", Name: strings.Repeat("counterweight ", 20)}, "too long for this label and is cut"},
		{Label{Mark: "14", Link: home + "/t/" + strings.Repeat("long", 60)}, "too long for a code"},
		{Label{Mark: "14", Link: home + "/t/" + strings.Repeat("long", 2000)}, "does not go into a code"},
		{Label{Mark: "14", Machine: "Wendle Codlin 18", Serial: "0418 (plate worn)", Link: home + "/t/m/14"}, "number 0418 (plate worn) is left out"},
		{Label{Mark: "14", Machine: strings.Repeat("Wendle ", 30)}, "the machine's name"},
	} {
		if notes := strings.Join(lay(t, setup("roll29"), c.label).Notes, "\n"); !strings.Contains(notes, c.says) {
			t.Errorf("%q: the notes say %q, want %q", clippedFor(c.label), notes, c.says)
		}
	}
	if l := lay(t, setup("roll29"), marked(2)...); len(l.Notes) != 0 {
		t.Errorf("nothing is wrong, and still: %v", l.Notes)
	}
	if odd := Unprintable("Łódź, Öldüse, façade, ½ Ø 12, “x”, Ωμ 前"); string(odd) != "Ł前" {
		t.Errorf("cannot be written: %q", string(odd))
	}
}

func clippedFor(l Label) string { return l.Mark + " " + l.Name[:min(len(l.Name), 20)] }

// TestProofShowsEveryLabel: the page to try with has the outline and the number
// of each label.
func TestProofShowsEveryLabel(t *testing.T) {
	l, err := Proof(setup("sheet"))
	if err != nil || len(l.Pages) != 1 || len(l.Pages[0].Cells) != 24 {
		t.Fatalf("%d pages, %v", len(l.Pages), err)
	}
	if n := len(pdf(t, l)); n < 1000 {
		t.Errorf("a PDF of %d bytes", n)
	}
}
