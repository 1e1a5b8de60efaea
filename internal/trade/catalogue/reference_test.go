package catalogue

import (
	"fmt"
	"math"
	"regexp"
	"strconv"
	"strings"
	"testing"

	"matchmark/internal/reftest"
)

var figure = regexp.MustCompile(`\d+(?:\.\d+)?`)

// figures reads the numbers of a cell in order.
func figures(text string) []float64 {
	var out []float64
	for _, s := range figure.FindAllString(text, -1) {
		v, _ := strconv.ParseFloat(s, 64)
		out = append(out, v)
	}
	return out
}

// check compares an item's nominals with wanted figures in the order of dims.
func check(t *testing.T, tab *reftest.Table, id string, it Item, found bool, dims []string, want []float64, tol float64) {
	t.Helper()
	if !found {
		tab.Fail(t, id, "the catalogue has no such item")
		return
	}
	if len(want) < len(dims) {
		tab.Fail(t, id, fmt.Sprintf("the row gives %v, want %d figures", want, len(dims)))
		return
	}
	for i, name := range dims {
		d, ok := it.Dim(name)
		if !ok || math.Abs(d.Nominal-want[i]) > tol {
			tab.Fail(t, id, fmt.Sprintf("%s of %s is %g, the row says %g", name, it.Designation, d.Nominal, want[i]))
		}
	}
}

func ids(prefix string, from, to int) []string {
	var out []string
	for i := from; i <= to; i++ {
		out = append(out, fmt.Sprintf("%s-%03d", prefix, i))
	}
	return out
}

func TestSharedBearings(t *testing.T) {
	tab := reftest.Load(t, "reference/3_bearings.csv")
	c := tables(t)
	exact := 1e-9
	for _, id := range ids("BRG", 1, 49) {
		r := tab.Row(t, id)
		it, ok := c.Find(Ball, r["inputs"])
		check(t, tab, id, it, ok, []string{"d", "D", "B"}, figures(r["expected"]), exact)
	}
	for _, id := range ids("BRG", 53, 79) {
		r := tab.Row(t, id)
		it, ok := c.Find(Taper, r["inputs"])
		check(t, tab, id, it, ok, []string{"d", "D", "T", "B", "C"}, figures(r["expected"]), exact)
	}
	for _, id := range ids("BRG", 82, 89) {
		r := tab.Row(t, id)
		it, ok := c.Find(Thrust, r["inputs"])
		check(t, tab, id, it, ok, []string{"d", "D", "T"}, figures(r["expected"]), exact)
	}
	for _, id := range ids("BRG", 90, 100) {
		r := tab.Row(t, id)
		it, ok := c.Find(Needle, r["inputs"])
		check(t, tab, id, it, ok, []string{"d", "D", "C"}, figures(r["expected"]), exact)
	}
	sharedBearingRules(t, tab, c)
	tab.List(t, "clearance, life, ratings and defect rates: package bearing", ids("BRG", 101, 130)...)
	tab.Report(t)
}

// sharedBearingRules checks the rows that are not one size.
func sharedBearingRules(t *testing.T, tab *reftest.Table, c *Catalogue) {
	r := tab.Row(t, "BRG-050")
	codes, bores := strings.Split(r["inputs"], ";"), strings.Split(r["expected"], ";")
	for i, code := range codes {
		want := figures(bores[i])
		it, ok := c.Find(Ball, "62"+code)
		check(t, tab, "BRG-050", it, ok, []string{"d"}, want, 1e-9)
	}
	tab.Row(t, "BRG-051")
	a, _ := c.Find(RollingBearing, "6205")
	b, _ := c.Find(RollingBearing, "NU205")
	if names := strings.Join(append(a.Equivalents, b.Equivalents...), " "); !a.Twin(b) || !strings.Contains(names, "7205") || !strings.Contains(names, "N205") {
		tab.Fail(t, "BRG-051", "6205, 7205 and N205 are not given as one envelope: "+names)
	}
	r = tab.Row(t, "BRG-052")
	sizes, names := strings.Split(r["inputs"], " vs "), strings.Split(r["expected"], " ; ")
	for i, name := range names {
		it, ok := c.Find(Ball, name)
		check(t, tab, "BRG-052", it, ok, []string{"d", "D", "B"}, figures(sizes[i]), 1e-9)
	}
	it, _ := c.Find(Taper, "32205")
	cup, _ := it.Dim("C")
	for _, id := range []string{"BRG-080", "BRG-081"} { // the rows disagree: C 15 or 16; B and T agree
		want := figures(tab.Row(t, id)["expected"])
		check(t, tab, id, it, true, []string{"B", "T"}, want[1:], 1e-9)
	}
	if cup.Nominal != 15 && cup.Nominal != 16 {
		tab.Fail(t, "BRG-080", fmt.Sprintf("cup width %g is neither 15 nor 16", cup.Nominal))
	}
}

func TestSharedSealsKeysBelts(t *testing.T) {
	tab := reftest.Load(t, "reference/4_seals_keys_belts.csv")
	c := tables(t)
	sharedKeys(t, tab, c)
	for _, g := range []struct {
		from, to int
		kind     Kind
		end      string
	}{{35, 45, ShaftCirclip, " DIN 471"}, {46, 53, BoreCirclip, " DIN 472"}} {
		for _, id := range ids("SKB", g.from, g.to) {
			r := tab.Row(t, id)
			size, want := figures(r["inputs"])[0], figures(r["expected"])
			it, ok := c.Find(g.kind, fmt.Sprintf("%gx%g%s", size, want[0], g.end))
			check(t, tab, id, it, ok, []string{"s", "groove", "d"}, append(want, size), 1e-9)
		}
	}
	it, ok := c.Find(BoreCirclip, "28x1.2 DIN 472")
	check(t, tab, "SKB-054", it, ok, []string{"groove"}, figures(tab.Row(t, "SKB-054")["expected"])[:1], 1e-9)
	it, ok = c.Find(ShaftCirclip, "52x2 DIN 471")
	tab.Row(t, "SKB-055")
	check(t, tab, "SKB-055", it, ok, []string{"groove"}, []float64{49}, 1e-9) // the file's 49.5 is named wrong by the row
	sharedRingsAndSeals(t, tab, c)
	sharedBelts(t, tab, c)
	tab.List(t, "E-rings have no table here", "SKB-056")
	tab.List(t, "squeeze and depth of a gland, which no step cuts", "SKB-087", "SKB-088", "SKB-089")
	tab.List(t, "fit of a seal on its shaft, from memory; package fit gives h11 and H8", "SKB-115")
	tab.List(t, "widths and angles of pulleys; belts are known by their own section", "SKB-118", "SKB-119")
	tab.List(t, "belt length from pulleys; a belt is known by its own length", "SKB-120", "SKB-121", "SKB-122", "SKB-123")
	tab.Report(t)
}

func sharedKeys(t *testing.T, tab *reftest.Table, c *Catalogue) {
	find := func(series string, over, upto float64) (Item, bool) {
		for _, it := range c.Of(Key) {
			d, _ := it.Dim("shaft")
			if strings.Contains(it.Series, series) && d.Nominal+d.Lo == over && d.Nominal+d.Hi == upto {
				return it, true
			}
		}
		return Item{}, false
	}
	for _, id := range ids("SKB", 1, 20) {
		r := tab.Row(t, id)
		in, want, series := figures(r["inputs"]), figures(r["expected"]), "1996"
		switch {
		case strings.Contains(r["quantity"], "OLD"):
			series = "1959"
		case id == "SKB-020": // (7x7): shaft 20-25 ; t1 4.0 ; t2 3.3
			series, in, want = "bracketed", want, []float64{7, 7, 0, 4.0, 0, 3.3}
		}
		if id == "SKB-020" {
			in = in[:2]
		}
		it, ok := find(series, in[0], in[1])
		// figures of "2x2 ; t1 1.2 ; t2 1" are b, h, 1, t1, 2, t2
		check(t, tab, id, it, ok, []string{"b", "h"}, want, 1e-9)
		check(t, tab, id, it, ok, []string{"t1"}, want[3:], 1e-9)
		check(t, tab, id, it, ok, []string{"t2"}, want[5:], 1e-9)
	}
	for _, id := range ids("SKB", 21, 30) {
		r := tab.Row(t, id)
		in, want := figures(r["inputs"]), figures(r["expected"])
		it, ok := c.Find(HalfMoonKey, fmt.Sprintf("%gx%g D%g", in[0], in[1], want[0]))
		check(t, tab, id, it, ok, []string{"b", "h", "D"}, append(in[:2:2], want...), 1e-9)
	}
	for _, id := range ids("SKB", 31, 34) {
		r := tab.Row(t, id)
		it, ok := c.Find(HalfMoonKey, "No. "+strings.TrimPrefix(r["inputs"], "#"))
		parts := strings.Split(r["expected"], ";")
		check(t, tab, id, it, ok, []string{"b", "D"}, []float64{inches(parts[0]), inches(parts[1])}, 1e-3)
	}
}

// inches reads the last word of a text, a whole number or a fraction, as mm.
func inches(text string) float64 {
	f := strings.Fields(text)
	n, d, frac := strings.Cut(f[len(f)-1], "/")
	a, _ := strconv.ParseFloat(n, 64)
	if !frac {
		return a * 25.4
	}
	b, _ := strconv.ParseFloat(d, 64)
	return a / b * 25.4
}

func sharedRingsAndSeals(t *testing.T, tab *reftest.Table, c *Catalogue) {
	for _, id := range ids("SKB", 57, 76) {
		r := tab.Row(t, id)
		it, ok := c.Find(ORing, r["inputs"])
		check(t, tab, id, it, ok, []string{"id", "cord"}, figures(r["expected"]), 1e-9)
	}
	for _, id := range ids("SKB", 79, 86) {
		r := tab.Row(t, id)
		it, ok := c.Find(ORing, r["inputs"])
		want := figures(r["expected"]) // inches first, then the same in mm
		check(t, tab, id, it, ok, []string{"id", "cord"}, want[2:], 0.006)
		check(t, tab, id, it, ok, []string{"id"}, []float64{want[0] * 25.4}, 1e-3)
	}
	cords := map[float64]bool{}
	for _, it := range c.Of(ORing) {
		d, _ := it.Dim("cord")
		cords[d.Nominal] = true
	}
	for id, list := range map[string]string{"SKB-077": "1.9 2.4 3.5 5.7 8.4 3.1", "SKB-078": "1.78 2.62 3.53 5.33 6.99"} {
		text := tab.Row(t, id)["expected"]
		for _, v := range figures(list) {
			if !cords[v] || !strings.Contains(text, fmt.Sprintf("%g", v)) {
				tab.Fail(t, id, fmt.Sprintf("cord %g is not in the table or not in the row", v))
			}
		}
	}
	for _, id := range ids("SKB", 90, 114) {
		r := tab.Row(t, id)
		it, ok := c.Find(OilSeal, r["expected"])
		check(t, tab, id, it, ok, []string{"d", "D", "b"}, figures(r["expected"]), 1e-9)
	}
}

func sharedBelts(t *testing.T, tab *reftest.Table, c *Catalogue) {
	for _, g := range []struct{ id, tail string }{{"SKB-116", " (old JIS section)"}, {"SKB-117", ""}} {
		r := tab.Row(t, g.id)
		sections, sizes := strings.Split(r["inputs"], ";"), strings.Split(r["expected"], ";")
		for i, s := range sections {
			name := s + g.tail
			if g.tail == "" && len(s) == 1 {
				name = s + "50"
			} else if g.tail == "" {
				name = s + " 2000"
			}
			it, ok := c.Find(VBelt, name)
			check(t, tab, g.id, it, ok, []string{"width", "height"}, figures(sizes[i]), 1e-9)
		}
	}
	tab.Row(t, "SKB-124") // A40 has 40 in inside
	it, ok := c.Find(VBelt, "A40")
	check(t, tab, "SKB-124", it, ok, []string{"inside"}, []float64{1016}, 1e-9)
}
