package judge

import (
	"math"
	"strings"
	"testing"

	"matchmark/internal/machine"
	"matchmark/internal/reftest"
	"matchmark/internal/trade/metrology"
)

func formCheck(by string, limits ...machine.Limit) *machine.CheckAdded {
	return &machine.CheckAdded{ID: "form", Name: "Bore", By: by, Outer: bore, Limits: limits}
}

func made(of machine.FeatureID, mm float64) machine.Body {
	return &machine.NominalSet{Feature: of, From: machine.Paperwork, Amount: machine.Amount{Value: mm, Unit: "mm"}}
}

// Out-of-round, taper and wear of the shared metrology table, through judge.
func TestFormTable(t *testing.T) {
	tab := reftest.Load(t, "reference/10_metrology.csv")
	defer tab.Report(t)
	worn := []float64{82.14, 82.06, 82.08, 82.04, 82.03, 82.02}
	mild := []float64{100.02, 100.01, 100.05, 100.02, 100.01, 100.01}
	flat := []float64{76.2, 76.2, 76.2, 76.2, 76.2, 76.2}
	for _, c := range []struct {
		id, by  string
		mm      []float64
		nominal float64
	}{
		{"MET129", machine.ByOval, worn, 82}, {"MET130", machine.ByTaper, worn, 82}, {"MET131", machine.ByWear, worn, 82},
		{"MET132", machine.ByOval, mild, 100}, {"MET133", machine.ByTaper, mild, 100}, {"MET134", machine.ByWear, mild, 100},
		{"MET135", machine.ByOval, flat, 76.2}, {"MET136", machine.ByTaper, flat, 76.2}, {"MET137", machine.ByWear, flat, 76.2},
	} {
		f := fit(formCheck(c.by, common(machine.Limit{NewLow: "0", High: "0.5"}))).add(bores(c.mm...)...).add(made(bore, c.nominal)).one(t, "form")
		if f.Verdict != Sound {
			t.Errorf("%s: %s %q", c.id, f.Verdict, f.Sentence)
		}
		tab.Compare(t, c.id, f.Value)
	}
}

func TestWhereItIsWorst(t *testing.T) {
	mm := []float64{82.14, 82.06, 82.08, 82.04, 82.03, 82.02}
	for by, at := range map[string]string{machine.ByOval: "top", machine.ByTaper: "along", machine.ByWear: "top, along", machine.BySize: "top, along"} {
		high := "0.05"
		if by == machine.BySize {
			high = "82.10"
		}
		f := fit(formCheck(by, common(machine.Limit{High: high}))).add(bores(mm...)...).add(made(bore, 82)).one(t, "form")
		if f.At != at || f.Verdict != Worn {
			t.Errorf("by %s: %s at %q, want worn at %q", by, f.Verdict, f.At, at)
		}
	}
}

// The setting of the one gauge cancels in a form error: only the hand and the
// step are left, twice (GUM 5.2.2).
func TestFormBudget(t *testing.T) {
	f := fit(formCheck(machine.ByOval, common(machine.Limit{High: "0.05"}))).add(bores(82.04, 82.00, 82, 82, 82, 82)...).one(t, "form")
	ring, _ := metrology.InstrumentByID("bore-gauge-ring")
	want := math.Sqrt2 * math.Hypot(ring.Repeat, ring.Step/math.Sqrt(12))
	if !reftest.Near(f.U, want, 1e-9) {
		t.Errorf("u %.6f, want %.6f", f.U, want)
	}
}

func TestFormNotAllRead(t *testing.T) {
	check := formCheck(machine.ByOval, common(machine.Limit{High: "0.03"}))
	part := fit(check).add(bores(82.01, 82.00)...).one(t, "form")
	if part.Verdict != NotRead || part.Read != 2 || part.Points != 6 {
		t.Errorf("%s, %d of %d", part.Verdict, part.Read, part.Points)
	}
	gone := fit(formCheck(machine.ByOval, common(machine.Limit{High: "0.03"}))).add(bores(82.11, 82.00)...).one(t, "form")
	if gone.Verdict != Worn {
		t.Errorf("%s %q", gone.Verdict, gone.Sentence)
	}
	// A journal read in two directions at one height has no taper.
	taper := &machine.CheckAdded{ID: "form", Name: "Journal taper", By: machine.ByTaper, Outer: journal, Limits: []machine.Limit{common(machine.Limit{High: "0.02"})}}
	f := fit(taper).add(size(journal, "", "along", 50), size(journal, "", "across", 50)).one(t, "form")
	if f.Verdict != NotRead || !strings.Contains(f.Settle, "Needs readings in two heights") {
		t.Errorf("%s %q", f.Verdict, f.Settle)
	}
}

func TestWear(t *testing.T) {
	limit := common(machine.Limit{High: "0.100"})
	band := func(mm float64) *machine.ReadingTaken {
		r := size(bore, "", "", mm)
		r.Unworn = true
		return r
	}
	mm := bores(82.05, 82.04, 82.03, 82.02, 82.01, 81.999)
	// The unworn band is believed before the nominal, and the gauge's own error cancels against it.
	f := fit(formCheck(machine.ByWear, limit)).add(mm...).add(made(bore, 81.0), band(82.0)).one(t, "form")
	ring, _ := metrology.InstrumentByID("bore-gauge-ring")
	want := math.Sqrt2 * math.Hypot(ring.Repeat, ring.Step/math.Sqrt(12))
	if !reftest.Near(f.Value, 0.05, 1e-9) || !reftest.Near(f.U, want, 1e-9) || f.Verdict != Sound || f.Read != 6 {
		t.Errorf("%g ± %g (want %g) %s, %d read", f.Value, f.U, want, f.Verdict, f.Read)
	}
	if !contains(f.Working, "read on the unworn surface") || !contains(f.Working, "taken as no wear") {
		t.Errorf("%q", f.Working)
	}
	// Against the nominal, which is taken as exact, it does not cancel.
	f = fit(formCheck(machine.ByWear, limit)).add(mm...).add(made(bore, 82)).one(t, "form")
	if !reftest.Near(f.U, ring.Single(82).U, 1e-9) {
		t.Errorf("u %g, want %g", f.U, ring.Single(82).U)
	}
	// A journal shrinks.
	shrink := &machine.CheckAdded{ID: "form", Name: "Journal wear", By: machine.ByWear, Outer: journal, Limits: []machine.Limit{limit}}
	f = fit(shrink).add(size(journal, "", "along", 49.80), size(journal, "", "across", 49.99), made(journal, 50)).one(t, "form")
	if !reftest.Near(f.Value, 0.20, 1e-9) || f.Verdict != Worn || f.At != "along" {
		t.Errorf("%g %s at %q", f.Value, f.Verdict, f.At)
	}
	// Nothing to count from.
	f = fit(formCheck(machine.ByWear, limit)).add(mm...).one(t, "form")
	if f.Verdict != NotRead || f.Settle != "Read the unworn surface (above the ring travel) or enter the nominal size of bore of Liner." {
		t.Errorf("%s %q", f.Verdict, f.Settle)
	}
	// A bore that reads smaller than unworn contradicts itself.
	f = fit(formCheck(machine.ByWear, limit)).add(bores(81.9, 81.9, 81.9, 81.9, 81.9, 81.9)...).add(made(bore, 82)).one(t, "form")
	if f.Verdict != Doubtful || !strings.Contains(f.Settle, "maller than unworn by 0.100 mm") {
		t.Errorf("%s %q", f.Verdict, f.Settle)
	}
}

// After a rebore wear counts from the new size, and old readings are gone.
func TestWearAfterRework(t *testing.T) {
	check := formCheck(machine.ByWear, common(machine.Limit{High: "0.100"}))
	check.Remedies = []machine.Remedy{{Key: "rebore", Name: "Rebore"}}
	l := fit(check).add(made(bore, 82)).add(bores(82.4, 82.4, 82.4, 82.4, 82.4, 82.4)...).
		add(&machine.RemedyDone{Check: "form", Key: "rebore", Step: 0.5, Reworked: []machine.FeatureID{bore}})
	if f := l.one(t, "form"); f.Verdict != NotRead || f.Read != 0 {
		t.Errorf("old readings count: %s %q", f.Verdict, f.Sentence)
	}
	f := l.add(bores(82.50, 82.502, 82.51, 82.505, 82.50, 82.50)...).one(t, "form")
	if !reftest.Near(f.Value, 0.01, 1e-9) || f.Verdict != Sound || !contains(f.Working, "reworked by 0.50") {
		t.Errorf("%g %s %q", f.Value, f.Verdict, f.Working)
	}
}

// MET070 and its like: a size read warm is brought to 20 °C.
func TestTemperature(t *testing.T) {
	tab := reftest.Load(t, "reference/10_metrology.csv")
	for id, c := range map[string]struct {
		material string
		mm, temp float64
	}{"MET070": {"steel", 100, 30}, "MET072": {"aluminium", 82, 35}, "MET074": {"grey iron", 82, 35}, "MET076": {"steel", 50, 5}} {
		temp := c.temp
		l := (&log{}).add(&machine.PartAdded{ID: "liner", Name: "Part", Qty: 1, Material: c.material},
			&machine.FeatureAdded{Part: "liner", Feature: "bore", Name: "bore", Sort: machine.Bore, Tool: "micrometer"},
			&machine.CheckAdded{ID: "form", Name: "Size", When: machine.Apart, By: machine.BySize, Unit: "mm", Outer: bore, Limits: []machine.Limit{common(machine.Limit{High: "200"})}})
		r := size(bore, "", "", c.mm)
		r.TempC = &temp
		f := l.add(r).one(t, "form")
		tab.Compare(t, id, f.Value)
		if !contains(f.Working, "to 20 °C") {
			t.Errorf("%s: %q", id, f.Working)
		}
	}
	temp := 40.0
	r := size(bore, "", "", 82)
	r.TempC = &temp
	l := (&log{}).add(&machine.PartAdded{ID: "liner", Name: "Part", Qty: 1, Material: "wood"},
		&machine.FeatureAdded{Part: "liner", Feature: "bore", Name: "bore", Sort: machine.Bore, Tool: "micrometer"},
		&machine.CheckAdded{ID: "form", Name: "Size", When: machine.Apart, By: machine.BySize, Unit: "mm", Outer: bore, Limits: []machine.Limit{common(machine.Limit{High: "200"})}}, r)
	if f := l.one(t, "form"); f.Value != 82 || !contains(f.Working, "not brought to 20 °C") {
		t.Errorf("unknown material: %g %q", f.Value, f.Working)
	}
}

// Noise alone spreads equal readings: a taper past its limit by no more than
// noise makes is doubtful, not worn, and the working says so.
func TestNoiseIsNotTaper(t *testing.T) {
	check := formCheck(machine.ByTaper, common(machine.Limit{High: "0.002"}))
	f := fit(check).add(bores(50.009, 50.004, 50.000, 50.004, 50.004, 50.004)...).one(t, "form")
	plain, err := metrology.ConformProbability(f.Value, f.U, math.Inf(-1), 0.002)
	if err != nil || plain > 0.05 {
		t.Fatalf("the example is not past its limit: %g, %v", plain, err)
	}
	if f.Verdict != Doubtful || f.P <= plain || !contains(f.Working, "without the noise in it") {
		t.Errorf("%s, P %.4f against %.4f without the correction: %q", f.Verdict, f.P, plain, f.Working)
	}
}
