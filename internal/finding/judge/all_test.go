package judge

import (
	"fmt"
	"testing"

	"matchmark/internal/machine"
)

// shop is a synthetic machine with about n checks of every kind, all read.
func shop(n int) *log {
	l := &log{}
	label := make([]machine.Place, n/10)
	for i := range label {
		label[i] = machine.Place(fmt.Sprint(i + 1))
	}
	l.add(&machine.PlacesSet{Places: machine.Places{Family: "cylinder", Name: "cylinder", Labels: label}},
		&machine.PartAdded{ID: "liner", Name: "Liner", Qty: 1, Material: "cast iron", Places: "cylinder"},
		&machine.PartAdded{ID: "shaft", Name: "Shaft", Qty: 1, Material: "steel", Places: "cylinder"},
		&machine.FeatureAdded{Part: "liner", Feature: "bore", Name: "bore", Sort: machine.Bore, Tool: "bore-gauge-ring", Nominal: 50,
			Levels: []string{"top", "middle", "low"}, Axes: []string{"along", "across"}},
		&machine.FeatureAdded{Part: "shaft", Feature: "journal", Name: "journal", Sort: machine.Shaft, Tool: "micrometer", Axes: []string{"along", "across"}})
	names := []string{machine.ByClearance, machine.BySize, machine.ByOval, machine.ByTaper, machine.ByWear,
		machine.ByReading, machine.ByReading, machine.ByReading, machine.ByEye, machine.ByPassage}
	for i, by := range names {
		c := &machine.CheckAdded{ID: machine.CheckID(fmt.Sprintf("c%d", i)), Name: "Check " + by, When: machine.Apart, By: by, Places: "cylinder",
			Outer: bore, Unit: "mm", Tool: "feeler", Size: &machine.SizeSource{Symbol: "d", Feature: journal},
			Limits: []machine.Limit{{NewHigh: "0.0005*d", High: "0.0014*d", From: machine.Handbook}, common(machine.Limit{High: "0.06"})}}
		switch by {
		case machine.ByClearance:
			c.Inner = journal
		case machine.BySize:
			c.Limits = []machine.Limit{common(machine.Limit{High: "1.001*d"})}
		case machine.ByReading:
			c.Outer = ""
			c.Unit = []string{"mm", "bar", "of the best"}[i%3]
		}
		l.add(c)
	}
	for k, at := range label {
		for i := range 6 {
			r := bores(50, 50, 50, 50, 50, 50)[i].(*machine.ReadingTaken)
			r.Feature = machine.FeatureOf(machine.Instance(machine.PartID("liner"), at), "bore")
			r.Amount.Value += float64((k*7+i*11)%60) / 1000
			l.add(r)
		}
		for _, axis := range []string{"along", "across"} {
			l.add(size(machine.FeatureOf(machine.Instance(machine.PartID("shaft"), at), "journal"), "", axis, 49.98))
		}
		for i, by := range names {
			id := machine.Instance(machine.CheckID(fmt.Sprintf("c%d", i)), at)
			switch by {
			case machine.ByReading:
				unit := []string{"mm", "MPa", ""}[i%3]
				for n := range 2 {
					l.add(&machine.ReadingTaken{Check: id, Amount: machine.Amount{Value: 0.04 + float64(n)/100, Unit: unit, Step: 0.01}})
				}
			case machine.ByEye, machine.ByPassage:
				l.add(&machine.LookTaken{Check: id, OK: k%3 > 0})
			}
		}
	}
	return l
}

func TestAll(t *testing.T) {
	m := shop(100).fold(t)
	all := All(m)
	if len(all.List) != len(m.Checks) || all.Of("nothing") != nil {
		t.Fatalf("%d findings of %d checks", len(all.List), len(m.Checks))
	}
	seen := map[Verdict]int{}
	for i, c := range m.Checks {
		f := all.List[i]
		if f.Check != c || all.Of(c.ID) != f {
			t.Fatalf("finding %d is not of check %s", i, c.ID)
		}
		if one := One(m, c); one.Sentence != f.Sentence || one.P != f.P {
			t.Errorf("%s: alone %q, among all %q", c.ID, one.Sentence, f.Sentence)
		}
		seen[f.Verdict]++
	}
	if seen[Sound] == 0 || seen[Worn] == 0 || seen[Doubtful] == 0 {
		t.Errorf("the machine shows too little: %v", seen)
	}
}

// Budget: 300 checks with readings within 20 ms.
func BenchmarkAll300(b *testing.B) {
	m := shop(300).fold(b)
	if len(m.Checks) != 300 {
		b.Fatalf("%d checks", len(m.Checks))
	}
	b.ReportAllocs()
	for b.Loop() {
		All(m)
	}
}
