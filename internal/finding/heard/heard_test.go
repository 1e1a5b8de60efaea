package heard

import (
	"math"
	"strings"
	"testing"
	"unicode/utf8"

	"matchmark/internal/machine"
)

// TestPieces: the line falls into pieces without a gap, each named.
func TestPieces(t *testing.T) {
	h := ear().Hear("4 M8x25 front cover, 2 shims 0.3 left, tray 14, spotty on the dowel side")
	var got []string
	for _, p := range h.Pieces {
		if p.Sort != Between {
			got = append(got, string(p.Sort)+"="+h.Line[p.From:p.To])
		}
	}
	want := "fasteners=4 M8x25|name=front cover|shims=2 shims 0.3 left|tray=tray 14|left=spotty|left=dowel"
	if s := strings.Join(got, "|"); s != want {
		t.Errorf("pieces %s\nwant   %s", s, want)
	}
	if s := strings.Join(h.Unheard(), "|"); s != "spotty|dowel" {
		t.Errorf("unheard %s", s)
	}
}

// TestShims: thicknesses in the units people use, worked by hand: 1 thou is
// 0.0254 mm.
func TestShims(t *testing.T) {
	for line, want := range map[string][]machine.Shim{
		"2 shims 0.3 left":                    {{ThicknessMM: 0.3, Count: 2, Where: "left", Typed: "0.3"}},
		"two shims point three":               {{ThicknessMM: 0.3, Count: 2, Typed: "0.3"}},
		"shim nought point one five":          {{ThicknessMM: 0.15, Count: 1, Typed: "0.15"}},
		"shims 0,3 and 0,15 right":            {{ThicknessMM: 0.3, Count: 1, Typed: "0,3"}, {ThicknessMM: 0.15, Count: 1, Where: "right", Typed: "0,15"}},
		"12 thou shim":                        {{ThicknessMM: 0.3048, Count: 1, Typed: "12 thou"}},
		"three shims of 5 thou":               {{ThicknessMM: 0.127, Count: 3, Typed: "5 thou"}},
		"1 x 0.5 and 2 x 0.1 shims":           {{ThicknessMM: 0.5, Count: 1, Typed: "0.5"}, {ThicknessMM: 0.1, Count: 2, Typed: "0.1"}},
		"shim pack 0.85 on the right side":    {{ThicknessMM: 0.85, Count: 1, Where: "right side", Typed: "0.85"}},
		"two 0.3 mm shims each side":          {{ThicknessMM: 0.3, Count: 2, Where: "each side", Typed: "0.3 mm"}},
		"0.012 in shim":                       {{ThicknessMM: 0.3048, Count: 1, Typed: "0.012 in"}},
		"2 shims 0.3 left, 1 shim 0.15 right": {{ThicknessMM: 0.3, Count: 2, Where: "left", Typed: "0.3"}, {ThicknessMM: 0.15, Count: 1, Where: "right", Typed: "0.15"}},
		"to shims 0.3":                        {{ThicknessMM: 0.3, Count: 2, Typed: "0.3"}},
		"no shims at all":                     nil,
		"2 shims":                             nil,
		"shim 25":                             nil,
		"shims point two five and point one":  {{ThicknessMM: 0.25, Count: 1, Typed: "0.25"}, {ThicknessMM: 0.1, Count: 1, Typed: "0.1"}},
		"shims 0.3, 4 bolts M8":               {{ThicknessMM: 0.3, Count: 1, Typed: "0.3"}},
	} {
		got := ear().Hear(line).Shims
		if len(got) != len(want) {
			t.Errorf("%q: %+v, want %+v", line, got, want)
			continue
		}
		for i := range want {
			g := got[i]
			if math.Abs(g.ThicknessMM-want[i].ThicknessMM) > 1e-9 || g.Count != want[i].Count || g.Where != want[i].Where || g.Typed != want[i].Typed {
				t.Errorf("%q: %+v, want %+v", line, g, want[i])
			}
		}
	}
}

// TestFasteners: one spelling for every way of saying a size.
func TestFasteners(t *testing.T) {
	for line, want := range map[string]string{
		"4 M8x25":                             "4 M8x25",
		"4 M8 x 1.25 x 25":                    "4 M8x1.25x25",
		"4 off m8×1,25×25":                    "4 M8x1.25x25",
		"four M8 by twenty five":              "4 M8x25",
		"four m eight by twenty five":         "4 M8x25",
		"for M8 by 25":                        "4 M8x25",
		"M8x25 x4":                            "4 M8x25",
		"M8x25 4 off":                         "4 M8x25",
		"bolts M8x25 (6)":                     "6 M8x25",
		"six bolts 13mm heads":                "6 bolt, 13 mm head",
		"2 bolts 1/2 AF":                      "2 bolt, 1/2 in head",
		"two 5/16 UNC x 1":                    "2 5/16 UNC x 1",
		"3 five sixteenths unc by 1":          "3 5/16 UNC x 1",
		"4 5/16-18 x 3/4 bolts":               "4 5/16-18 x 3/4",
		"three 3/8 whit":                      "3 3/8 BSW",
		"6 2BA screws":                        "6 2BA screw",
		"4 M10 studs":                         "4 M10 stud",
		"two studs":                           "2 stud",
		"4 M8x25, one broken":                 "3 M8x25|1 M8x25 broken",
		"4 M8x25 one of them is missing":      "3 M8x25|1 M8x25 missing",
		"4 bolts M8x25, one bolt sheared off": "3 M8x25|1 M8x25 broken",
		"4 M8x25 plus one broken":             "4 M8x25|1 M8x25 broken",
		"2 M8x25 both bent":                   "2 M8x25 bent",
		"4 M8x25 stretched":                   "4 M8x25 stretched",
		"one stud broken":                     "1 stud broken",
		"1 split pin":                         "1 split pin",
		"a pair of M6 bolts":                  "2 M6",
		"half a dozen M6x12":                  "6 M6x12",
		"2 M8x60 long and 4 M8x25 short":      "2 M8x60 long|4 M8x25 short",
		"M8x1 nut":                            "1 M8x1 nut",
		"12 head nuts M10":                    "12 M10 head nut",
		"bolts M8x25":                         "",
		"no 2 bolt":                           "",
		"M8":                                  "",
	} {
		var got []string
		for _, f := range ear().Hear(line).Fasteners {
			text := itoa(f.Count) + " " + f.Size
			for _, s := range []string{f.Where, f.State} {
				if s != "" {
					text += " " + s
				}
			}
			got = append(got, text)
		}
		if s := strings.Join(got, "|"); s != want {
			t.Errorf("%q: %q, want %q", line, s, want)
		}
	}
}

// TestTorque: in the units people use; 1 ft·lbf is 1.3558 N·m and 1 kgf·m
// 9.80665 (NIST SP 811, B.8).
func TestTorque(t *testing.T) {
	for line, want := range map[string]float64{"let go at 45 Nm": 45, "let go at forty five newton metres": 45, "broke loose at 60 ft lb": 81.349, "cracked off at 5.5 kgf·m": 53.937,
		"45 N·m": 45, "let go at 45": 45, "60 foot pounds": 81.349, "came undone at 30 newton meters": 30, "let go at 6 mm": 0, "45": 0, "breakaway 45,5 Nm": 45.5} {
		got := 0.0
		if a := ear().Hear(line).LetGo; a != nil {
			got = a.Value
		}
		if math.Abs(got-want) > 0.001 {
			t.Errorf("%q: %g N·m, want %g", line, got, want)
		}
	}
}

// TestTrays: a mark of one's own, a made one, a place that is no tray.
func TestTrays(t *testing.T) {
	for line, want := range map[string]string{"tray 14": "14", "in tray a7": "A7", "tray fourteen": "14", "into box 3": "box 3", "steering box 4 bolts M8": "", "fuse box 2": "",
		"tray of bolts": "", "tray 14,2 shims 0.3": "14", "put it in bag 2": "bag 2", "tray no. 9": "9", "tray to": "2", "Tray K7P": "K7P"} {
		if got := ear().Hear(line).Tray; got != want {
			t.Errorf("%q: tray %q, want %q", line, got, want)
		}
	}
}

// TestAbout: a joint that the person named stands first with the whole weight.
func TestAbout(t *testing.T) {
	j := whole().Joint("sump-block")
	h := ear().HearOf("4 M8x25 front cover, tray 14", j)
	if h.Joint() != j || h.Joints[0].Weight != 1 || h.Tray != "14" || len(h.Joints) < 2 || h.Joints[1].Joint.ID != "timing-cover-block" {
		t.Errorf("%+v", h.Joints)
	}
}

// TestWeights: they sum to 1 with None where all are listed, and never pass it.
func TestWeights(t *testing.T) {
	for _, s := range append(linesOf(t, "corpus.tsv"), linesOf(t, "fresh.tsv")...) {
		h := ear().Hear(s.line)
		sum := h.None
		for i, c := range h.Joints {
			sum += c.Weight
			if i > 0 && c.Weight > h.Joints[i-1].Weight {
				t.Errorf("%q: not in order", s.line)
			}
		}
		if sum > 1+1e-9 || math.IsNaN(sum) {
			t.Errorf("%q: weights sum to %g", s.line, sum)
		}
	}
}

// FuzzHear: no text makes it panic, the pieces are the line again, every fact
// stands inside it, and no figure is out of reason.
func FuzzHear(f *testing.F) {
	for _, s := range []string{"", "4 M8x25 front cover, 2 shims 0.3 left, tray 14", "\xff\xfe", "shims shims 0.3 0.3", "one one one hundred and", "m m8xx", "½ inch whit",
		"had to take had to take off first in the way", "tray tray", "marked marked 2 dots", strings.Repeat("4 M8x25 ", 400), "#2 no. 2nd 2 dots 2 x 2 off", "0.3 shim + + + 0.1"} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, line string) {
		h := ear().Hear(line)
		at := 0
		for _, p := range h.Pieces {
			if p.From != at || p.To <= p.From {
				t.Fatalf("%q: piece %+v begins not at %d", line, p, at)
			}
			at = p.To
		}
		if at != len(line) {
			t.Fatalf("%q: the pieces end at %d of %d", line, at, len(line))
		}
		for _, c := range h.Facts {
			if c.From < 0 || c.To > len(line) || c.From >= c.To || c.Text == "" || !utf8.ValidString(c.Text) && utf8.ValidString(line) {
				t.Fatalf("%q: fact %+v", line, c)
			}
		}
		for _, s := range h.Shims {
			if !(s.ThicknessMM > 0 && s.ThicknessMM <= thickest) || s.Count < 1 {
				t.Fatalf("%q: shim %+v", line, s)
			}
		}
		for _, s := range h.Fasteners {
			if s.Count < 1 || s.Size == "" {
				t.Fatalf("%q: fastener %+v", line, s)
			}
		}
	})
}

func BenchmarkFor(b *testing.B) {
	for b.Loop() {
		For(whole(), nil)
	}
}

func BenchmarkHear(b *testing.B) {
	for b.Loop() {
		ear().Hear("4 M8x25 front cover, 2 shims 0.3 left, tray 14")
	}
}
