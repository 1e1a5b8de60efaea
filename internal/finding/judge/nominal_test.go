package judge

import (
	"strings"
	"testing"

	"matchmark/internal/machine"
	"matchmark/internal/reftest"
)

// liners are two cylinders with a bore each, judged by a formula of its size.
func liners(unworn ...float64) *log {
	l := (&log{}).add(&machine.PlacesSet{Places: machine.Places{Family: "cylinder", Name: "cylinder", Labels: []machine.Place{"1", "2"}}},
		&machine.PartAdded{ID: "liner", Name: "Liner", Qty: 1, Places: "cylinder"},
		&machine.FeatureAdded{Part: "liner", Feature: "bore", Name: "bore", Sort: machine.Bore, Tool: "bore-gauge-ring", Unworn: "above the ring travel"},
		&machine.CheckAdded{ID: "wear", Name: "Bore wear", Places: "cylinder", When: machine.Apart, By: machine.ByReading, Unit: "mm", Tool: "feeler",
			Size: &machine.SizeSource{Symbol: "D", Feature: bore}, Limits: []machine.Limit{common(machine.Limit{High: "0.002*D"})}},
		&machine.ReadingTaken{Check: "wear.1", Amount: machine.Amount{Value: 0.1, Unit: "mm", Step: 0.01}},
		&machine.ReadingTaken{Check: "wear.2", Amount: machine.Amount{Value: 0.1, Unit: "mm", Step: 0.01}},
		size("liner.1/bore", "", "", 76.31), size("liner.2/bore", "", "", 76.33))
	for _, mm := range unworn {
		r := size("liner.1/bore", "", "", mm)
		r.Unworn = true
		l.add(r)
	}
	return l
}

// By hand: 0.002·76.25 = 0.1525.
func TestSizeFromUnworn(t *testing.T) {
	l := liners(76.262)
	for id, words := range map[machine.CheckID]string{"wear.1": "Liner, cylinder 1", "wear.2": "Liner, cylinder 1"} {
		f := l.one(t, id)
		if !reftest.Near(f.Limit.High, 0.1525, 1e-12) || !strings.HasPrefix(f.Limit.Size, "D = 76.250 mm, from the unworn surface of bore of "+words+" (above the ring travel), probability 0.9") {
			t.Errorf("%s: %g %q", id, f.Limit.High, f.Limit.Size)
		}
	}
	// Paperwork is better.
	f := liners(76.262).add(made("liner.1/bore", 76)).one(t, "wear.1")
	if f.Limit.Size != "D = 76.000 mm, nominal, paperwork" {
		t.Errorf("%q", f.Limit.Size)
	}
	// Nothing unworn: what was measured.
	if f = liners().one(t, "wear.1"); f.Limit.Size != "D = 76.310 mm, measured" {
		t.Errorf("%q", f.Limit.Size)
	}
	// No usual size: what was measured, and the working says why.
	f = liners(76.13).one(t, "wear.1")
	if f.Limit.Size != "D = 76.220 mm, measured" || !contains(f.Working, "not sure enough to go by") {
		t.Errorf("%q %q", f.Limit.Size, f.Working)
	}
	// A like part that is not read itself, as a new one, is measured first.
	f = liners(76.262).add(&machine.RemedyDone{Check: "wear.2", Renewed: []machine.PartID{"liner.2"}},
		&machine.ReadingTaken{Check: "wear.2", Amount: machine.Amount{Value: 0.1, Unit: "mm", Step: 0.01}}).one(t, "wear.2")
	if f.Verdict != NoLimit || f.Settle != "Enter or measure bore of Liner, cylinder 2." {
		t.Errorf("%s %q %q", f.Verdict, f.Settle, f.Limit.Size)
	}
	// A like part of quite another size is not gone by.
	f = liners(90.01).one(t, "wear.2")
	if f.Limit.Size != "D = 76.330 mm, measured" || !contains(f.Working, "has another size: not gone by") {
		t.Errorf("%q %q", f.Limit.Size, f.Working)
	}
}

func TestNominalOfFeature(t *testing.T) {
	m := liners(76.262).fold(t)
	p, ok := Nominal(m, m.Feature("liner.1/bore"))
	if best, sure := p.Best(); !ok || !sure || best.Nominal != 76 || best.Rework != 0.25 {
		t.Errorf("%v %v %s", ok, sure, p.Words())
	}
	m = liners().fold(t)
	if p, ok := Nominal(m, m.Feature("liner.1/bore")); ok {
		t.Errorf("nothing unworn was read, yet %s", p.Words())
	}
}
