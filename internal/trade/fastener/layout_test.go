package fastener

import (
	"errors"
	"math"
	"slices"
	"strings"
	"testing"

	"pgregory.net/rapid"
)

func TestLayouts(t *testing.T) {
	for _, c := range []struct {
		text  string
		n     int
		want  int // bolts
		order string
	}{
		{"circle 6", 0, 6, "1-4-2-5-3-6"},
		{"circle 4", 0, 4, "1-3-2-4"},
		{"circle", 5, 5, "1-3-5-2-4"}, // steps of ⌊5/2⌋
		{"circle 6", 5, 5, "1-3-5-2-4"},
		{"rows 2x5", 0, 10, ""}, // held in pattern_test
		{"rows 1x2", 0, 2, "1-2"},
		{"rows 2", 12, 12, ""},
		{"edge 300x180 10", 0, 10, ""},
		{"edge 200x200 4", 0, 4, "1-3-2-4"},
		{"field 0,0; 40,0; 40,-12.5", 0, 3, ""},
	} {
		l, err := ParseLayout(c.text)
		if err != nil {
			t.Errorf("%s: %v", c.text, err)
			continue
		}
		bolts, err := l.Bolts(c.n)
		if err != nil || len(bolts) != c.want {
			t.Errorf("%s with %d: %d bolts, %v; want %d", c.text, c.n, len(bolts), err, c.want)
			continue
		}
		p, err := PatternOf(bolts, Rules{})
		if err != nil || c.order != "" && p.String() != c.order {
			t.Errorf("%s: order %s, %v; want %s", c.text, p, err, c.order)
		}
	}
}

func TestLayoutsRefused(t *testing.T) {
	for _, text := range []string{"", "ring 6", "circle six", "circle 0", "circle -3", "circle 501", "rows", "rows 2x", "rows 0x5",
		"rows 400x400", "edge 300 10", "edge 0x10 4", "edge NaNx10 4", "edge 1e300x1e300 8", "edge 300x180 3", "field", "field 1;2", "field 0,0; 0,0", "field NaN,0"} {
		if l, err := ParseLayout(text); err == nil {
			t.Errorf("%q: read as %+v; an error was wanted", text, l)
		}
	}
	for text, n := range map[string]int{"circle": 0, "rows 2x5": 11, "field 0,0; 10,0": 3, "edge 100x50": 3, "circle 4": 501} {
		l, err := ParseLayout(text)
		if err != nil {
			t.Fatal(err)
		}
		var want CountError
		if _, err := l.Bolts(n); !errors.As(err, &want) || want.Got != n {
			t.Errorf("%s with %d: %v; a CountError was wanted", text, n, err)
		}
	}
}

// TestEdge: any number of four or more lies on the edge, corners taken, none
// in one place, opposite sides alike but for one over.
func TestEdge(t *testing.T) {
	rapid.Check(t, func(r *rapid.T) {
		n, wide, high := rapid.IntRange(4, 60).Draw(r, "n"), rapid.Float64Range(1, 900).Draw(r, "wide"), rapid.Float64Range(1, 900).Draw(r, "high")
		bolts := edge(n, wide, high)
		if len(bolts) != n {
			t.Fatalf("%d bolts, want %d", len(bolts), n)
		}
		corners := 0
		for _, b := range bolts {
			onX, onY := near6(b.X, 0) || near6(b.X, wide), near6(b.Y, 0) || near6(b.Y, high)
			if !onX && !onY {
				t.Fatalf("bolt %d at %g, %g is off the edge", b.Number, b.X, b.Y)
			}
			if onX && onY {
				corners++
			}
		}
		if corners != 4 {
			t.Fatalf("%d corners taken", corners)
		}
		p, err := PatternOf(bolts, Rules{})
		if err != nil {
			t.Fatal(err)
		}
		turned := slices.Clone(bolts)
		slices.Reverse(turned)
		again, err := PatternOf(turned, Rules{})
		if err != nil || again.String() != p.String() {
			t.Fatalf("given in another sequence: %s, %v; want %s", again, err, p)
		}
	})
}

func near6(a, b float64) bool { return math.Abs(a-b) < 1e-6*(1+math.Abs(b)) }

func TestSizes(t *testing.T) {
	list, err := Threads()
	if err != nil {
		t.Fatal(err)
	}
	for _, c := range []struct {
		text, thread string
		pitch        float64
		guessed      bool
		length       float64
		mark, words  string
	}{
		{"M10x1.25x60", "M10x1.25", 1.25, false, 60, "", ""},
		{"M8x35", "M8", 1.25, true, 35, "", ""},
		{"M8", "M8", 1.25, true, 0, "", ""},
		{"M10x1.5x40", "M10", 1.5, false, 40, "", ""}, // the coarse pitch written out
		{"M10 x 1,25 x 26 10.9", "M10x1.25", 1.25, false, 26, "10.9", ""},
		{"m6×20, 8.8", "M6", 1, true, 20, "8.8", ""},
		{"M8x1.25 brass nut", "M8", 1.25, false, 0, "", "brass nut"},
		{"M9x1x46", "M9x1", 1, false, 46, "", ""},
		{"M24x1.5 nut", "M24x1.5", 1.5, false, 0, "", "nut"},
		{"M6x6", "M6", 1, true, 6, "", ""},
		{"M64x6x120", "M64", 6, false, 120, "", ""},
		{"1/2-13 UNC x 2", "1/2-13 UNC", 25.4 / 13, false, 0, "", ""},
		{"7/16-20 UNF grade 5", "7/16-20 UNF", 1.27, false, 0, "grade 5", ""},
	} {
		s, err := list.Size(c.text)
		if err != nil {
			t.Errorf("%s: %v", c.text, err)
			continue
		}
		if s.Thread.Designation != c.thread || math.Abs(s.Thread.Pitch-c.pitch) > 1e-9 || s.Guessed != c.guessed || s.LengthMM != c.length || s.Mark != c.mark || s.Words != c.words {
			t.Errorf("%s: %s pitch %g guessed %v length %g mark %q words %q; want %+v", c.text, s.Thread.Designation, s.Thread.Pitch, s.Guessed, s.LengthMM, s.Mark, s.Words, c)
		}
	}
	for _, text := range []string{"", "dowel 12", "lock plate", "split pin 3.2x30", "M10-M12", "M8.8", "Mx1", "M99", "hose clip"} {
		if s, err := list.Size(text); err == nil {
			t.Errorf("%q: read as %s; an error was wanted", text, s.Thread.Designation)
		}
	}
}

func FuzzLayoutAndSize(f *testing.F) {
	list, err := Threads()
	if err != nil {
		f.Fatal(err)
	}
	for _, s := range []string{"circle 6", "rows 2x5", "edge 3x4 8", "field 0,0;1,1", "M10x1.25x60 8.8"} {
		f.Add(s, 7)
	}
	f.Fuzz(func(t *testing.T, text string, n int) {
		if l, err := ParseLayout(text); err == nil {
			if bolts, err := l.Bolts(n % 60); err == nil {
				if _, err := PatternOf(bolts, Rules{}); err != nil {
					t.Fatalf("%q laid out but not ordered: %v", text, err)
				}
			}
		}
		if s, err := list.Size(text); err == nil && strings.TrimSpace(s.Thread.Designation) == "" {
			t.Fatalf("%q has no thread", text)
		}
	})
}
