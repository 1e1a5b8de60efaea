package catalogue

import (
	"fmt"
	"regexp"
	"strings"
	"testing"

	"matchmark/internal/reftest"
)

var minorIn = regexp.MustCompile(`D1=([\d.]+)`)

func TestSharedThreads(t *testing.T) {
	tab := reftest.Load(t, "reference/2_threads.csv")
	c := tables(t)
	for _, id := range ids("THR", 1, 25) { // "M3 (P=0.5)" or "M8x1"
		r := tab.Row(t, id)
		name, _, _ := strings.Cut(r["inputs"], " ")
		it, ok := c.Find(Thread, name)
		in := figures(r["inputs"])
		want := figures(minorIn.FindStringSubmatch(r["expected"])[1])
		check(t, tab, id, it, ok, []string{"d", "pitch"}, in, 1e-9)
		check(t, tab, id, it, ok, []string{"minor"}, want, 0.0015)
	}
	tab.Row(t, "THR-028")
	for _, name := range []string{"M10x1.25", "M10x1", "M12x1.5", "M12x1.25"} {
		if _, ok := c.Find(Thread, name); !ok {
			tab.Fail(t, "THR-028", name+" is missing")
		}
	}
	for _, id := range ids("THR", 53, 68) { // "1/4-20": that size and pitch must exist
		r := tab.Row(t, id)
		found := false
		for _, tail := range []string{" UNC", " UNF"} {
			_, ok := c.Find(Thread, r["inputs"]+tail)
			found = found || ok
		}
		if !found {
			tab.Fail(t, id, "no thread "+r["inputs"])
		}
	}
	for _, id := range ids("THR", 69, 74) { // "size 1/8, 28 tpi, 1:16 taper, 55 deg"
		r := tab.Row(t, id)
		size, rest, _ := strings.Cut(strings.TrimPrefix(r["inputs"], "size "), ",")
		it, ok := c.Find(Thread, "R "+size)
		want := figures(r["expected"])
		check(t, tab, id, it, ok, []string{"d"}, want[:1], 0.001)
		check(t, tab, id, it, ok, []string{"minor"}, want[2:3], 0.0015) // the row prints three decimals, rounded on the way
		check(t, tab, id, it, ok, []string{"pitch"}, []float64{25.4 / figures(rest)[0]}, 1e-4)
		check(t, tab, id, it, ok, []string{"taper", "angle"}, []float64{1. / 16, 55}, 1e-9)
	}
	it, ok := c.Find(Thread, "G 1/2")
	check(t, tab, "THR-075", it, ok, []string{"minor"}, figures(tab.Row(t, "THR-075")["expected"])[:1], 0.002)
	tab.Row(t, "THR-076")
	for name, tpi := range map[string]float64{"R 1/8": 28, "R 1/4": 19, "NPT 1/4": 18} {
		it, ok := c.Find(Thread, name)
		check(t, tab, "THR-076", it, ok, []string{"pitch"}, []float64{25.4 / tpi}, 1e-4)
	}
	tab.Report(t)
}

func TestSharedGearSeries(t *testing.T) {
	tab := reftest.Load(t, "reference/5_gears.csv")
	c := tables(t)
	r := tab.Row(t, "GER-001")
	for _, m := range figures(r["expected"]) {
		it, ok := c.Find(GearRack, fmt.Sprintf("module %g, 20 deg", m))
		if m > 10 {
			continue // the table ends at module 10; larger ones are not on small tractors
		}
		check(t, tab, "GER-001", it, ok, []string{"m", "angle"}, []float64{m, 20}, 1e-9)
	}
	r = tab.Row(t, "GER-002")
	dps, want := figures(r["inputs"]), figures(r["expected"])
	for i, dp := range dps {
		it, ok := c.Find(GearRack, fmt.Sprintf("DP %g, 20 deg", dp))
		check(t, tab, "GER-002", it, ok, []string{"m"}, want[i:], 1e-4)
	}
	tab.Report(t)
}
