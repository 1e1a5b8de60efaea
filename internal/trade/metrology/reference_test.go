package metrology

import (
	"fmt"
	"math"
	"testing"

	"matchmark/internal/reftest"
)

// TestSharedMetrology walks the rows of 10_metrology.csv that this package
// covers. Rows MET001 to MET021 quote JCGM 100:2008 annex H.1, MET022 to
// MET024 JCGM 106:2012 clause 7, all from memory in that file.
func TestSharedMetrology(t *testing.T) {
	tab := reftest.Load(t, "reference/10_metrology.csv")
	sharedEndGauge(t, tab)
	sharedConformity(t, tab)
	sharedDivisors(t, tab)
	sharedBudgets(t, tab)
	sharedTemperature(t, tab)
	sharedStudent(t, tab)
	sharedGrubbs(t, tab)
	sharedForm(t, tab)
	tab.List(t, "a term of second order of one end gauge; no sum here has one", "MET020")
	tab.List(t, "a quotient of two half-widths, which the caller of TrapezoidFactor gives", "MET065")
	tab.List(t, "wants an allowance per side beyond the deepest wear; package remedy takes the size that covers the deepest point", "MET138", "MET139", "MET140", "MET141")
	tab.Report(t)
}

func sharedEndGauge(t *testing.T, tab *reftest.Table) {
	f := reftest.Must[float64](t)
	tab.Compare(t, "MET001", 1000*FromExpanded(0.075, 3))
	tab.Compare(t, "MET002", 13/math.Sqrt(5))
	tab.Compare(t, "MET003", 10/f(CoverageFactor(0.95, 5)))
	tab.Compare(t, "MET004", 1000*FromExpanded(0.02, 3))
	tab.Compare(t, "MET005", SumSquares(5.8, 3.9, 6.7))
	// The row puts the rounded 9.7 above the line; the parts give 9.6819.
	tab.Compare(t, "MET006", EffectiveDof([]Part{{"", 5.8, 24}, {"", 3.9, 5}, {"", 6.7, 8}})*
		math.Pow(9.7/SumSquares(5.8, 3.9, 6.7), 4))
	tab.Compare(t, "MET007", FromHalfWidth(2e-6))
	tab.Compare(t, "MET008", FromHalfWidth(1e-6))
	gauge := Material{PerK: 11.5e-6, UPerK: 0.58e-6}
	only := func(m Material, celsius Estimate) float64 {
		return 1e6 * reftest.Must[Estimate](t)(ToReference(Estimate{Value: 50}, m, celsius)).U
	}
	tab.Compare(t, "MET009", only(Material{UPerK: 0.58e-6}, Estimate{Value: 19.9}))
	tab.Compare(t, "MET010", FromHalfWidth(0.05))
	tab.Compare(t, "MET011", only(gauge, Estimate{Value: 20, U: 0.029}))
	tab.Compare(t, "MET012", FromCycle(0.5))
	tab.Compare(t, "MET013", SumSquares(0.2, 0.35))
	u := SumSquares(25, 9.7, 2.9, 16.6)
	tab.Compare(t, "MET014", u*u)
	tab.Compare(t, "MET015", u)
	dof := EffectiveDof([]Part{{"", 25, 18}, {"", 9.7, 25.6}, {"", 2.9, 50}, {"", 16.6, 2}})
	tab.Compare(t, "MET016", dof)
	tab.Compare(t, "MET017", f(CoverageFactor(0.99, dof))) // dof 16.7 must be cut to 16
	tab.Compare(t, "MET018", f(Estimate{U: 31.7, Dof: dof}.Expanded(0.99)))
	tab.Compare(t, "MET019", reftest.Must[Estimate](t)(Sum(Estimate{Value: 50.000623}, Estimate{Value: 215e-6}, 0)).Value)
	tab.Compare(t, "MET021", SumSquares(31.7, 11.7, 1.7))
}

func sharedConformity(t *testing.T, tab *reftest.Table) {
	f := reftest.Must[float64](t)
	open := math.Inf(1)
	for _, c := range []struct {
		id           string
		y, u, lo, hi float64
	}{
		{"MET022", -5.47, 0.05, -open, -5.40}, {"MET023", 509.7, 8.6, 490, open}, {"MET024", 13.6, 1.8, 12.5, 16.3},
		{"MET025", 82.035, 0.005, 82, 82.05}, {"MET026", 82.048, 0.005, 82, 82.05}, {"MET027", 82.05, 0.005, 82, 82.05},
		{"MET028", 82.055, 0.005, 82, 82.05}, {"MET029", 0.18, 0.02, 0.15, 0.3},
	} {
		tab.Compare(t, c.id, f(ConformProbability(c.y, c.u, c.lo, c.hi)))
	}
	tab.Compare(t, "MET030", f(Capability(0, 0.05, 0.005)))
	tab.Compare(t, "MET031", reftest.Must[Zone](t)(AcceptanceLimits(-open, 82.05, 0.01, 1)).High)
	tab.Compare(t, "MET032", f(ConformProbability(82.05, 0.005, 82.06, open)))
	tab.Compare(t, "MET033", DefaultGuard)
	for _, c := range []struct {
		id, want  string
		lo, hi, u float64
		guard     float64
	}{
		{"MET034", "82.0100..82.0400", 82, 82.05, 0.01, 1}, {"MET035", "82.0082..82.0418", 82, 82.05, 0.005, DefaultGuard},
		{"MET036", "empty", 25, 25.021, 0.012, 1}, {"MET037", "25.0099..25.0111", 25, 25.021, 0.006, DefaultGuard},
	} {
		zone, err := AcceptanceLimits(c.lo, c.hi, c.u, c.guard)
		got := fmt.Sprintf("%.4f..%.4f", zone.Low, zone.High)
		if zone.Empty() {
			got = "empty"
		}
		expected := tab.Row(t, c.id)["expected"]
		if err != nil || got != c.want || expected[:len(c.want)] != c.want {
			tab.Fail(t, c.id, "got "+got)
		}
	}
	for _, c := range []struct {
		id   string
		y    float64
		want Verdict
	}{{"MET038", 82.045, Doubtful}, {"MET039", 82.039, Sound}, {"MET040", 82.061, Worn}} {
		// U = 2u guards both ways: accept at Φ(2), reject at 1 − Φ(2).
		p := f(ConformProbability(c.y, 0.005, 82, 82.05))
		level := 0.5 * math.Erfc(-2/math.Sqrt2)
		if got := Decide(p, level, 1-level); got != c.want {
			tab.Fail(t, c.id, fmt.Sprintf("got %s, want %s, p = %g", got, c.want, p))
		}
		tab.Row(t, c.id)
	}
}

func sharedDivisors(t *testing.T, tab *reftest.Table) {
	f := reftest.Must[float64](t)
	tab.Compare(t, "MET041", 1/FromHalfWidth(1))
	tab.Compare(t, "MET042", 1/FromTrapezoid(1, 0))
	tab.Compare(t, "MET043", 1/FromCycle(1))
	tab.Compare(t, "MET044", 1/FromStep(1))
	tab.Compare(t, "MET045", 1/FromExpanded(1, 2))
	tab.Compare(t, "MET046", f(CoverageFactor(0.95, 0)))
	tab.Compare(t, "MET047", 1/FromExpanded(1, 3))
	tab.Compare(t, "MET048", FromTrapezoid(1, 0.5))
	for id, q := range map[string]float64{"MET049": 0.01, "MET050": 0.001, "MET051": 0.02, "MET052": 0.05} {
		tab.Compare(t, id, FromStep(q))
	}
	tab.Compare(t, "MET066", f(TrapezoidFactor(0.95, 1./3)))
	// 33 µm is MET064 as printed, two of its lines rectangles of 25 and 50 µm.
	if got := f(TrapezoidFactor(0.95, 1./3)) * 0.033; tab.Row(t, "MET067")["expected"] != fmt.Sprintf("%.2f", got) {
		tab.Fail(t, "MET067", fmt.Sprintf("got %g", got))
	}
	tab.Compare(t, "MET068", f(TrapezoidFactor(0.95, 1)))
}

func sharedBudgets(t *testing.T, tab *reftest.Table) {
	micrometer := Instrument{ID: "row", Step: 10, HalfWidth: 4, Repeat: 2}
	tab.Compare(t, "MET053", SumSquares(micrometer.Single(0).U, FromHalfWidth(3)))
	d := reftest.Must[Estimate](t)(Difference(Estimate{50.045, 0.004, 0}, Estimate{49.985, 0.003, 0}, 0))
	if tab.Row(t, "MET054"); !reftest.Near(d.Value, 0.060, 1e-6) || !reftest.Near(d.U, 0.005, 1e-6) {
		tab.Fail(t, "MET054", fmt.Sprintf("got %+v", d))
	}
	a := reftest.Must[Estimate](t)(TypeA([]float64{82.03, 82.04, 82.03, 82.05, 82.04}))
	if tab.Row(t, "MET055"); !reftest.Near(a.Value, 82.038, 1e-6) || !reftest.Near(a.U, 0.0037417, 1e-6) {
		tab.Fail(t, "MET055", fmt.Sprintf("got %+v", a))
	}
	lines := []float64{FromExpanded(30, 2), FromHalfWidth(30), 12 / math.Sqrt(5), FromHalfWidth(32),
		FromHalfWidth(0.05) * 575, 0.236 * 50, FromHalfWidth(6.7)}
	for i, u := range lines {
		tab.Compare(t, fmt.Sprintf("MET%03d", 56+i), u)
	}
	tab.Compare(t, "MET063", SumSquares(lines...))
	tab.Compare(t, "MET064", SumSquares(FromHalfWidth(25), FromHalfWidth(50), 0.46, 1.7))
}

func sharedTemperature(t *testing.T, tab *reftest.Table) {
	for _, c := range []struct {
		grown, corrected string
		id               string
		length, celsius  float64
	}{
		{"MET069", "MET070", "steel", 100, 30}, {"MET071", "MET072", "aluminium", 82, 35},
		{"MET073", "MET074", "cast-iron", 82, 35}, {"MET075", "MET076", "steel", 50, 5},
	} {
		m, ok := MaterialByID(c.id)
		if !ok {
			t.Fatalf("no material %s", c.id)
		}
		tab.Compare(t, c.grown, Expansion(c.length, m.PerK, c.celsius))
		tab.Compare(t, c.corrected, reftest.Must[Estimate](t)(ToReference(Estimate{Value: c.length}, m, Estimate{Value: c.celsius})).Value)
	}
	steel, _ := MaterialByID("steel")
	aluminium, _ := MaterialByID("aluminium")
	tab.Compare(t, "MET079", 0.08/Expansion(60, steel.PerK, Reference+1)) // growth is linear in the heat
	warm := Estimate{Value: 30}
	same := reftest.Must[Estimate](t)(ToReferenceWithScale(Estimate{Value: 100}, steel, steel, warm))
	tab.Compare(t, "MET077", same.Value-100)
	// The row is to first order; the exact quotient differs by 2.6e-6 mm of
	// second order, so the row is checked on the difference of expansions.
	tab.Compare(t, "MET078", Expansion(100, aluminium.PerK, 30)-Expansion(100, steel.PerK, 30))
	apart := reftest.Must[Estimate](t)(ToReferenceWithScale(Estimate{Value: 100}, aluminium, steel, warm))
	if !reftest.Near(100-apart.Value, 0.0115, 3e-6) {
		t.Errorf("MET078 by the quotient: %g", 100-apart.Value)
	}
}

func sharedStudent(t *testing.T, tab *reftest.Table) {
	f := reftest.Must[float64](t)
	for i, dof := range []float64{1, 2, 3, 4, 5, 8, 9, 10, 20, 30, 50} {
		tab.Compare(t, fmt.Sprintf("MET%03d", 80+i), f(CoverageFactor(0.95, dof)))
	}
	for i, dof := range []float64{1, 2, 3, 5, 10, 20, 50} {
		tab.Compare(t, fmt.Sprintf("MET%03d", 91+i), f(CoverageFactor(0.9545, dof)))
	}
	for i, dof := range []float64{1, 5, 10, 16} {
		tab.Compare(t, fmt.Sprintf("MET%03d", 98+i), f(CoverageFactor(0.99, dof)))
	}
}

func sharedGrubbs(t *testing.T, tab *reftest.Table) {
	f := reftest.Must[float64](t)
	for i, n := range []int{3, 5, 6, 8, 9, 10, 12, 20} {
		tab.Compare(t, fmt.Sprintf("MET%03d", 102+3*i), f(GrubbsCritical(n, 0.05, true)))
		tab.Compare(t, fmt.Sprintf("MET%03d", 103+3*i), f(GrubbsCritical(n, 0.05, false)))
		tab.Compare(t, fmt.Sprintf("MET%03d", 104+3*i), f(GrubbsCritical(n, 0.01, true)))
	}
	for id, readings := range map[string][]float64{
		"MET126": {82.03, 82.04, 82.03, 82.05, 82.04, 82.14},
		"MET127": {82.03, 82.04, 82.03, 82.05, 82.04, 82.06},
		"MET128": {568, 570, 570, 570, 572, 572, 572, 578, 584, 596},
	} {
		o := reftest.Must[Outlier](t)(FindOutlier(readings, 0.05))
		word := map[bool]string{true: "outlier", false: "keep"}[o.Suspect]
		if got := fmt.Sprintf("G=%.4f; crit=%.4f; %s", o.Distance, o.Critical, word); got != tab.Row(t, id)["expected"] {
			tab.Fail(t, id, "got "+got)
		}
	}
}

func sharedForm(t *testing.T, tab *reftest.Table) {
	f := reftest.Must[float64](t)
	for i, c := range []struct {
		levels  [][]float64
		nominal float64
	}{
		{[][]float64{{82.14, 82.06}, {82.08, 82.04}, {82.03, 82.02}}, 82},
		{[][]float64{{100.02, 100.01}, {100.05, 100.02}, {100.01, 100.01}}, 100},
		{[][]float64{{76.2, 76.2}, {76.2, 76.2}, {76.2, 76.2}}, 76.2},
	} {
		form := Form{c.levels}
		tab.Compare(t, fmt.Sprintf("MET%03d", 129+3*i), f(form.OutOfRound()))
		tab.Compare(t, fmt.Sprintf("MET%03d", 130+3*i), f(form.Taper()))
		_, high, err := form.Extremes()
		tab.Compare(t, fmt.Sprintf("MET%03d", 131+3*i), f(high, err)-c.nominal)
	}
}

// TestSharedMethodChecks holds rows C3a and C3b of method-checks.csv.
func TestSharedMethodChecks(t *testing.T) {
	tab := reftest.Load(t, "reference/method-checks.csv")
	p := reftest.Must[float64](t)(ConformProbability(13.6, 1.8, 12.5, 16.3))
	if tab.Row(t, "C3a"); !reftest.Near(p, 0.6626, 0.0005) {
		tab.Fail(t, "C3a", fmt.Sprintf("got %g", p))
	}
	zone, err := AcceptanceLimits(math.Inf(-1), 0.100, 0.010, DefaultGuard)
	if tab.Row(t, "C3b"); err != nil || zone.Empty() || !reftest.Near(zone.High, 0.08355, 1e-5) {
		tab.Fail(t, "C3b", fmt.Sprintf("got %+v, %v", zone, err))
	}
}
