package identify

import (
	"fmt"
	"math"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"

	"matchmark/internal/reftest"
	"matchmark/internal/trade/catalogue"
	spur "matchmark/internal/trade/gear"
)

var figure = regexp.MustCompile(`-?\d*\.?\d+`)

func figures(text string) []float64 {
	var out []float64
	for _, s := range figure.FindAllString(text, -1) {
		v, _ := strconv.ParseFloat(s, 64)
		out = append(out, v)
	}
	return out
}

func balls(t testing.TB, names ...string) []catalogue.Item {
	t.Helper()
	c, err := catalogue.Standard()
	if err != nil {
		t.Fatal(err)
	}
	var items []catalogue.Item
	for _, n := range names {
		it, ok := c.Find(catalogue.Ball, n)
		if !ok {
			t.Fatalf("no %s in the catalogue", n)
		}
		items = append(items, it)
	}
	return items
}

// TestMethodChecks: rows C9a and C9b. C9a is a posterior within the list, so
// the probabilities are taken on the condition that it is one of them.
func TestMethodChecks(t *testing.T) {
	tab := reftest.Load(t, "reference/method-checks.csv")
	r := tab.Row(t, "C9a") // d=23.5 D=51.0 B=14.6, sd 1.0/1.0/0.5
	in, want := figures(r["inputs"]), regexp.MustCompile(`([\d/]+) (\.\d+)`).FindAllStringSubmatch(r["expected"], -1)
	a := Ask{Kind: catalogue.Ball, Among: balls(t, "6204", "62/22", "6205", "62/28", "6206", "6305", "6005", "6304"),
		Measured: []Measured{{Dim: "d", Value: in[0], U: in[3]}, {Dim: "D", Value: in[1], U: in[4]}, {Dim: "B", Value: in[2], U: in[5]}}}
	with, err := Part(a)
	if err != nil {
		t.Fatal(err)
	}
	t.Logf("C9a with the width tolerance of ISO 492, which the row leaves out: %s", with.Sentence)
	for i := range a.Among { // the row's densities have no tolerances
		a.Among[i].Dims = slices.Clone(a.Among[i].Dims)
		for j := range a.Among[i].Dims {
			a.Among[i].Dims[j].Lo, a.Among[i].Dims[j].Hi = 0, 0
		}
	}
	ans, err := Part(a)
	if err != nil {
		t.Fatal(err)
	}
	if len(want) != 3 {
		t.Fatalf("row C9a: read %v from %q", want, r["expected"])
	}
	for i, w := range want {
		p, _ := strconv.ParseFloat(w[2], 64)
		c := ans.Ranked[i]
		got := c.P / (1 - ans.None)
		t.Logf("C9a: %s %.4f, row says %s %g", c.Item.Designation, got, w[1], p)
		if c.Item.Designation != w[1] || !reftest.Near(got, p, 0.001) {
			tab.Fail(t, "C9a", fmt.Sprintf("place %d is %s with %.4f", i+1, c.Item.Designation, got))
		}
	}
	if ans.Settled || !strings.HasPrefix(ans.Sentence, "Not settled") {
		tab.Fail(t, "C9a", "want it reported as ambiguous: "+ans.Sentence)
	}
	t.Log(ans.Sentence)
	if got := spur.Span(2, 20, 20, 3, 0); !reftest.Near(got, figures(tab.Row(t, "C9b")["expected"])[0], 0.001) {
		tab.Fail(t, "C9b", fmt.Sprintf("span %.4f", got))
	}
	tab.Report(t)
}

func TestSharedSpans(t *testing.T) {
	tab := reftest.Load(t, "reference/5_gears.csv")
	for _, id := range []string{"GER-023", "GER-024", "GER-025", "GER-026", "GER-027"} {
		f := figures(tab.Row(t, id)["inputs"]) // m z k x alpha
		tab.Compare(t, id, spur.Span(f[0], f[4], int(f[1]), int(f[2]), f[3]))
	}
	tab.Row(t, "GER-028")
	step := spur.Span(25.4/8, 14.5, 30, 5, 0.3) - spur.Span(25.4/8, 14.5, 30, 4, 0.3)
	tab.Corrected(t, "GER-028", step, 9.65684, 1e-5, "DP 8 at 14.5 degrees is printed 9.6566; pi * 3.175 * cos 14.5 = 9.974557 * 0.968148 = 9.65684")
	for _, c := range []struct{ m, alpha, want float64 }{{3, 20, 8.8564}, {25.4 / 8, 20, 9.3730}} {
		if got := spur.Span(c.m, c.alpha, 30, 5, 0.3) - spur.Span(c.m, c.alpha, 30, 4, 0.3); math.Abs(got-c.want) > 1e-4 {
			tab.Fail(t, "GER-028", fmt.Sprintf("m %g, %g degrees: spans differ by %.4f, row says %g", c.m, c.alpha, got, c.want))
		}
	}
	tab.Report(t)
}

// TestPaperworkGear: module 2 at 20° has spans 5.904 apart (no-paperwork list,
// section 4; ISO 21771). A shifted gear must be found all the same.
func TestPaperworkGear(t *testing.T) {
	w := func(k int) Measured {
		return Measured{Dim: map[int]string{4: "Wk", 5: "Wk1"}[k], Value: spur.Span(2, 20, 29, k, 0.3) - 0.04, U: 0.01}
	}
	if d := w(5).Value - w(4).Value; math.Abs(d-5.904) > 5e-4 {
		t.Errorf("spans of module 2 differ by %.4f, want 5.904", d)
	}
	ans, err := Part(Ask{Kind: catalogue.GearRack, Measured: []Measured{{Dim: "z", Value: 29}, {Dim: "k", Value: 4}, w(4), w(5), {Dim: "da", Value: 63.15, U: 0.03}}})
	if err != nil {
		t.Fatal(err)
	}
	top := ans.Ranked[0]
	t.Log(ans.Sentence, top.Why)
	if top.Item.Designation != "module 2, 20 deg" || top.P < 0.95 {
		t.Errorf("found %s (%.3f), want module 2, 20 deg", top.Item.Designation, top.P)
	}
	if len(top.Found) != 1 || math.Abs(top.Found[0].Value-0.3) > 0.05 {
		t.Errorf("shift %+v, want 0.3 within 0.05", top.Found)
	}
}
