package coolant

import (
	"errors"
	"fmt"
	"math"
	"strings"
	"testing"

	"matchmark/internal/reftest"
	"matchmark/internal/trade/metrology"
)

func id(n int) string { return fmt.Sprintf("COO%03d", n) }

// TestSharedCoolant walks 12_coolant.csv. The ASHRAE tables (COO001-024), the
// steam verification values (054-059) and some indexes are from memory in
// that file; Lange (025-034), steam at 60 to 95 °C (084-086), most indexes
// and two freezing points (117, 118) were read.
func TestSharedCoolant(t *testing.T) {
	tab := reftest.Load(t, "reference/12_coolant.csv")
	sharedFreeze(t, tab)
	sharedMix(t, tab)
	sharedSteam(t, tab)
	sharedMetals(t, tab)
	sharedHeat(t, tab)
	tab.Report(t)
}

func sharedFreeze(t *testing.T, tab *reftest.Table) {
	next := 1
	for _, table := range Tables() {
		for _, p := range table.Points[1:] {
			row := tab.Row(t, id(next))
			var percent float64
			if _, err := fmt.Sscanf(row["inputs"], "%g %% by volume", &percent); err != nil || percent != p.Percent || !strings.Contains(row["quantity"], string(table.Glycol)) {
				tab.Fail(t, id(next), fmt.Sprintf("got %+v of %s", p, table.Source))
			}
			tab.Compare(t, id(next), p.C)
			f := reftest.Must[Freezing](t)(Freeze(table.Glycol, p.Percent))
			if f.WarmC < p.C || f.ColdC > p.C || f.WarmC-f.ColdC > 1.5 {
				tab.Fail(t, id(next), fmt.Sprintf("range %+v leaves the table out", f))
			}
			next++
		}
	}
	refused := func(row int, g Glycol, percent float64) {
		t.Helper()
		tab.Row(t, id(row))
		if _, err := Freeze(g, percent); !errors.As(err, new(metrology.RangeError)) {
			tab.Fail(t, id(row), fmt.Sprintf("%g %% gave %v, want a refusal", percent, err))
		}
	}
	// Pure glycol freezes near −13 °C; a table carried on would say −100.
	refused(35, Ethylene, 100)
	refused(117, Ethylene, 100)
	refused(119, Ethylene, 62)
	tables := Tables()
	for row, in := range map[int]struct {
		table   int
		percent float64
	}{36: {0, 33.3}, 37: {0, 50}, 38: {0, 40}, 39: {1, 33.3}, 40: {1, 40}, 118: {0, 50}} {
		c, ok := tables[in.table].at(in.percent)
		if !ok {
			t.Fatalf("no value at %g", in.percent)
		}
		tab.Compare(t, id(row), c)
	}
	for row, c := range map[int]float64{41: -10, 42: -20, 43: -35} {
		tab.Compare(t, id(row), reftest.Must[float64](t)(Strength(Ethylene, c)))
	}
}

func sharedMix(t *testing.T, tab *reftest.Table) {
	f := reftest.Must[float64](t)
	for row, in := range map[int][4]float64{44: {12, 25, 50, 100}, 45: {10, 30, 45, 95}, 46: {8, 0, 40, 100}, 47: {14, 50, 33, 0}} {
		litres := f(Change(Fill{in[0], in[1]}, in[2], in[3]))
		tab.Compare(t, id(row), litres)
		// Second route: pour it and mix.
		got := reftest.Must[Fill](t)(Mix(Fill{in[0] - litres, in[1]}, Fill{litres, in[3]}))
		if !reftest.Near(got.Percent, in[2], 1e-9) || !reftest.Near(got.Litres, in[0], 1e-9) {
			tab.Fail(t, id(row), fmt.Sprintf("poured together it is %+v", got))
		}
	}
	for row, in := range map[int][2]Fill{48: {{5, 50}, {3, 0}}, 49: {{4, 33}, {4, 100}}, 50: {{2, 0}, {7, 60}}} {
		tab.Compare(t, id(row), reftest.Must[Fill](t)(Mix(in[0], in[1])).Percent)
	}
	tab.Compare(t, "COO051", f(Cycles(Fill{12, 40}, 3, 0, 3)))
	n, left, err := Fills(12, 8, 0.05)
	if got := fmt.Sprintf("%d (%.1f %% left)", n, 100*left); err != nil || got != tab.Row(t, "COO052")["expected"] {
		tab.Fail(t, "COO052", got)
	}
	glycol, water, err := AfterFlush(12, 3, 50, 100)
	if got := fmt.Sprintf("%g and %g", glycol, water); err != nil || got != tab.Row(t, "COO053")["expected"] {
		tab.Fail(t, "COO053", got)
	}
}

func sharedSteam(t *testing.T, tab *reftest.Table) {
	f := reftest.Must[float64](t)
	for row, mpa := range map[int]float64{54: 0.1, 55: 1, 56: 10} {
		tab.Compare(t, id(row), f(Boiling(mpa)))
	}
	for row, k := range map[int]float64{57: 300, 58: 500, 59: 600} {
		tab.Compare(t, id(row), f(Saturation(k)))
	}
	for i, bar := range []float64{0, 0.28, 0.4826, 0.5, 0.6895, 0.7, 0.8963, 1.0, 1.1} {
		tab.Compare(t, id(60+i), reftest.Must[Cap](t)(UnderCap(bar, 1.01325)).UnderCapC)
	}
	for i, height := range []float64{0, 500, 1000, 2000, 3000} {
		air := f(Atmosphere(height))
		tab.Compare(t, id(69+3*i), 1e5*air)
		c := reftest.Must[Cap](t)(UnderCap(0.5, air))
		tab.Compare(t, id(70+3*i), c.OpenC)
		tab.Compare(t, id(71+3*i), c.UnderCapC)
	}
	for i, c := range []float64{60, 80, 95, 100, 105, 110, 120} {
		tab.Compare(t, id(84+i), 10*f(Saturation(c+273.15)))
	}
}

func sharedMetals(t *testing.T, tab *reftest.Table) {
	for i, m := range Metals() {
		row := tab.Row(t, id(91+i))
		if row["quantity"] != "anodic index, "+m.Name || m.Memory != (row["provenance"] == "from-memory") {
			tab.Fail(t, id(91+i), fmt.Sprintf("got %+v", m))
		}
		tab.Compare(t, id(91+i), m.Index)
	}
	for row, pair := range map[int][2]string{109: {"copper", "cast Al-Si"}, 110: {"brass", "grey iron"}, 111: {"grey iron", "cast Al-Si"},
		112: {"chromium stainless", "cast Al-Si"}, 113: {"hot-dip zinc", "grey iron"}, 114: {"copper", "solder"}} {
		a, b := reftest.Must[Metal](t)(MetalNamed(pair[0])), reftest.Must[Metal](t)(MetalNamed(pair[1]))
		rec := tab.Row(t, id(row))
		for _, c := range []Contact{Touch(a, b), Touch(b, a)} {
			eaten := strings.TrimPrefix(rec["note"], "anode (corrodes): ")
			if got := fmt.Sprintf("%.2f; %s", c.Volts, c.Class); got != rec["expected"] || !strings.Contains(c.Corrodes, eaten) {
				tab.Fail(t, id(row), fmt.Sprintf("got %s, %s corrodes", got, c.Corrodes))
			}
		}
	}
}

func sharedHeat(t *testing.T, tab *reftest.Table) {
	tab.Compare(t, "COO115", reftest.Must[float64](t)(HeatFlow(0.8, 1.06, 3.4, 6)))
	tab.Compare(t, "COO116", reftest.Must[float64](t)(Expansion(12, 998.2, 961.9)))
}

// TestVolumeIsNotMass: half by mass is 47.5 % by volume and freezes 3.5 K
// sooner than half by volume (COO010 and COO118).
func TestVolumeIsNotMass(t *testing.T) {
	byVolume := reftest.Must[Freezing](t)(Freeze(Ethylene, 50)).WarmC
	byMass := reftest.Must[Freezing](t)(Freeze(Ethylene, 47.5)).WarmC
	if d := byMass - byVolume; math.Abs(d-3.5) > 0.5 {
		t.Errorf("half by mass and half by volume part by %.2f K", d)
	}
}
