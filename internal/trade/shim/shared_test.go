package shim

import (
	"fmt"
	"math"
	"regexp"
	"strconv"
	"strings"
	"testing"

	"matchmark/internal/reftest"
	"matchmark/internal/trade/metrology"
)

var decimal = regexp.MustCompile(`[0-9]*\.?[0-9]+`)

func numbersIn(t *testing.T, text string) (out []float64) {
	t.Helper()
	for _, s := range decimal.FindAllString(text, -1) {
		v, err := strconv.ParseFloat(s, 64)
		if err != nil {
			t.Fatal(err)
		}
		out = append(out, v)
	}
	return out
}

// drawer is the stock of rows STK-011 to 013, one of each.
func drawer() (stock []Shim) {
	for _, mm := range []float64{0.1, 0.15, 0.2, 0.3, 0.5, 1.0} {
		stock = append(stock, Shim{mm, 1})
	}
	return stock
}

// TestSharedShimRows walks the shim rows of 9_stacks.csv, all worked from the
// formulas named in the file.
func TestSharedShimRows(t *testing.T) {
	tab := reftest.Load(t, "reference/9_stacks.csv")
	check := func(id, what string, got, want float64) {
		t.Helper()
		if math.Abs(got-want) > 1e-9 {
			tab.Fail(t, id, fmt.Sprintf("%s is %g, want %g", what, got, want))
		}
	}
	for _, id := range []string{"STK-011", "STK-012", "STK-013"} { // float, pack, target | ideal, pack …, sum, float
		in, want := numbersIn(t, tab.Row(t, id)["inputs"]), numbersIn(t, tab.Row(t, id)["expected"])
		w, err := ForFloat(in[1], metrology.Estimate{Value: in[0]}, Float{in[2] - 0.1, in[2], in[2] + 0.1}, Closes, 0)
		if err != nil {
			t.Fatal(err)
		}
		check(id, "ideal", w.Target, want[0])
		w.Aim, w.MaxShims = Nearest, 3
		a, err := OneGap(drawer(), w)
		if err != nil {
			t.Fatal(err)
		}
		n := len(want)
		if len(a.Picks) != 1 {
			tab.Fail(t, id, fmt.Sprintf("%d picks", len(a.Picks)))
		}
		check(id, "pack", a.Picks[0].Pack.MM(), want[n-2])
		check(id, "float", in[2]-a.Picks[0].OffMM, want[n-1])
		if a.Picks[0].Pack.Count() != n-3 {
			tab.Fail(t, id, a.Picks[0].Pack.String())
		}
	}
	var buckets []Shim
	for um := 2500; um <= 3300; um += 50 {
		buckets = append(buckets, Shim{float64(um) / 1000, 1})
	}
	for _, id := range []string{"STK-014", "STK-015"} { // measured, shim, target
		in, want := numbersIn(t, tab.Row(t, id)["inputs"]), numbersIn(t, tab.Row(t, id)["expected"])
		w, err := ForFloat(in[1], metrology.Estimate{Value: in[0]}, Float{in[2] - 0.05, in[2], in[2] + 0.05}, Closes, 0)
		if err != nil {
			t.Fatal(err)
		}
		w.Aim, w.MaxShims = Nearest, 1
		a, err := OneGap(buckets, w)
		if err != nil {
			t.Fatal(err)
		}
		check(id, "ideal", w.Target, want[0])
		check(id, "stocked", a.Picks[0].Pack.MM(), want[1])
	}
	for id, sign := range map[string]float64{"STK-016": -1, "STK-017": 1, "STK-018": 1} { // play, pack, wanted play or preload
		in, want := numbersIn(t, tab.Row(t, id)["inputs"]), numbersIn(t, tab.Row(t, id)["expected"])
		got, err := Thickness(in[1], in[0], sign*in[2], Opens)
		if err != nil {
			t.Fatal(err)
		}
		check(id, "pack", got, want[0])
	}
	t.Log("STK-020 not used: a backlash formula for straight bevels; here the influence is learned from trial builds. The chains are tested in package fit")
	tab.Report(t)
}

// C5b and C5c: computed by enumeration.
func TestSharedMethodRows(t *testing.T) {
	tab := reftest.Load(t, "reference/method-checks.csv")
	tab.Row(t, "C5b")
	a, err := OneGap([]Shim{{.05, 2}, {.10, 3}, {.15, 1}, {.20, 2}, {.30, 2}, {.50, 1}}, Want{Lo: .425, Target: .450, Hi: .475})
	if err != nil {
		t.Fatal(err)
	}
	if len(a.Picks) != 1 || a.Picks[0].Pack.String() != "0.300 + 0.150" {
		tab.Fail(t, "C5b", fmt.Sprintf("%v", a.Picks))
	}
	tab.Row(t, "C5c")
	if got := sets(t, carrier(2)); got != "0.350/0.350 (0.150, 0.080); 0.350/0.300 (0.185, 0.030)" {
		tab.Fail(t, "C5c", got)
	}
	if got := sets(t, carrier(1)); got != "0.350/0.300 (0.185, 0.030)" {
		tab.Fail(t, "C5c", "with one .35: "+got)
	}
	tab.Report(t)
}

// carrier is row C5c with a number of shims of 0.35.
func carrier(of35 int) Coupled {
	c := Coupled{Positions: []Position{{"left", 1}, {"right", 1}}, Aim: Surest}
	for _, mm := range []float64{.10, .15, .20, .25, .30, .35, .40} {
		n := 2
		if mm == .35 {
			n = of35
		}
		c.Stock = append(c.Stock, Shim{mm, n})
	}
	zero := []float64{0, 0}
	backlash, _ := Stated("backlash", zero, metrology.Estimate{Value: .15, U: .005}, []float64{.7, -.7})
	preload, _ := Stated("preload", zero, metrology.Estimate{Value: -.62, U: .005}, []float64{1, 1})
	c.Outcomes = []Outcome{{backlash, .13, .20}, {preload, .02, .09}}
	return c
}

// sets prints an answer with the larger left pack and then the larger right
// pack first, as the row has it.
func sets(t *testing.T, c Coupled) string {
	t.Helper()
	out, err := c.Solve()
	if err != nil {
		t.Fatal(err)
	}
	var words []string
	for _, s := range out.List {
		words = append(words, fmt.Sprintf("%.3f/%.3f (%.3f, %.3f)", s.Packs[0].MM(), s.Packs[1].MM(), s.Readings[0].Value, s.Readings[1].Value))
	}
	if len(words) > 1 && words[0] < words[1] {
		words[0], words[1] = words[1], words[0]
	}
	return strings.Join(words, "; ")
}
