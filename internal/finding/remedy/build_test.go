package remedy

import (
	"fmt"
	"testing"
	"time"

	"matchmark/internal/finding/judge"
	"matchmark/internal/machine"
)

// log collects facts, one a minute, and folds them.
type log struct {
	entries []machine.Entry
}

func (l *log) add(bodies ...machine.Body) {
	for _, b := range bodies {
		n := len(l.entries)
		l.entries = append(l.entries, machine.Entry{ID: machine.EntryID(fmt.Sprintf("e%06d", n)),
			At: time.Date(2026, 5, 1, 8, n, 0, 0, time.UTC), By: "fitter", Body: b})
	}
}

func (l *log) fold(t testing.TB) (*machine.Machine, judge.Findings) {
	t.Helper()
	m := machine.Fold(l.entries)
	for _, q := range m.Questions {
		t.Fatalf("the test's own log raises a question: %s", q.Text)
	}
	return m, judge.All(m)
}

func mm(v float64) machine.Amount { return machine.Amount{Value: v, Unit: "mm", Step: 0.001} }

// crank declares a shaft with pins of 42 mm nominal, each with a wear check
// whose remedies are given, and reads the pins worn by so much.
func (l *log) crank(remedies []machine.Remedy, wear ...float64) {
	var labels []machine.Place
	for i := range wear {
		labels = append(labels, machine.Place(fmt.Sprint(i+1)))
	}
	l.add(&machine.PlacesSet{Places: machine.Places{Family: "pin", Name: "pin", Labels: labels}},
		&machine.AssemblyAdded{ID: "engine", Name: "Engine"},
		&machine.PartAdded{ID: "crankshaft", Name: "Crankshaft", Assembly: "engine"},
		&machine.PartAdded{ID: "shell", Name: "Big-end shell", Assembly: "engine", Places: "pin"})
	for i := range wear {
		l.add(&machine.FeatureAdded{Part: "crankshaft", Feature: fmt.Sprintf("pin-%d", i+1), Name: fmt.Sprintf("crankpin %d", i+1),
			Sort: machine.Shaft, Tool: "micrometer"},
			&machine.NominalSet{Feature: machine.FeatureID(fmt.Sprintf("crankshaft/pin-%d", i+1)), Amount: mm(42), From: machine.Paperwork})
	}
	l.add(&machine.CheckAdded{ID: "pin-wear", Name: "Crankpin wear", Assembly: "engine", Places: "pin", When: machine.Apart,
		By: machine.ByWear, Outer: "crankshaft/pin", Unit: "mm",
		Limits:   []machine.Limit{{NewHigh: "0.008", High: "0.030", From: machine.CommonPractice}},
		Remedies: remedies})
	for i, w := range wear {
		if w >= 0 {
			l.add(&machine.ReadingTaken{Feature: machine.FeatureID(fmt.Sprintf("crankshaft/pin-%d", i+1)), Amount: mm(42 - w)})
		}
	}
}

// regrind is the usual remedy of a pin: one size for all of them.
func regrind(steps ...float64) machine.Remedy {
	return machine.Remedy{Key: "regrind-pin", Name: "Regrind all crankpins", Cost: 9, Days: 15, Where: "machine shop",
		Group: "all-crankpins", Steps: steps, Renews: []machine.PartID{"shell"}, Reworks: []machine.FeatureID{"crankshaft/pin"}}
}

var otherCrank = machine.Remedy{Key: "crank-used", Name: "Another crank, measured", Cost: 15, Days: 30, Where: "buy",
	Renews: []machine.PartID{"crankshaft", "shell"}}

// eye declares a check by eye and, where it is worn, says so.
func (l *log) eye(id machine.CheckID, worn bool, remedies ...machine.Remedy) {
	l.add(&machine.CheckAdded{ID: id, Name: "Check " + string(id), When: machine.Apart, By: machine.ByEye,
		Limits: []machine.Limit{{NewWords: "whole", WornWords: "cracked", From: machine.CommonPractice}}, Remedies: remedies})
	l.add(&machine.LookTaken{Check: id, OK: !worn})
}

// gap declares a check read directly in mm.
func (l *log) gap(id machine.CheckID, value float64, low, high string, remedies ...machine.Remedy) {
	l.add(&machine.CheckAdded{ID: id, Name: "Check " + string(id), When: machine.Apart, By: machine.ByReading, Unit: "mm",
		Limits: []machine.Limit{{Low: low, High: high, From: machine.CommonPractice}}, Remedies: remedies})
	if value >= 0 {
		l.add(&machine.ReadingTaken{Check: id, Amount: mm(value), Tool: "micrometer"})
	}
}

func single(key string, cost float64) machine.Remedy {
	return machine.Remedy{Key: key, Name: "Single " + key, Cost: cost, Days: 1, Where: "bench"}
}

// verdicts fails the test unless the checks have the verdict they were built for.
func verdicts(t *testing.T, f judge.Findings, want judge.Verdict, ids ...machine.CheckID) {
	t.Helper()
	for _, id := range ids {
		if got := f.Of(id); got == nil || got.Verdict != want {
			t.Fatalf("%s was to be %s: %+v", id, want, got)
		}
	}
}

func choice(p Plan, id machine.CheckID) Choice {
	for _, c := range p.Choices {
		if c.Check == id {
			return c
		}
	}
	return Choice{}
}
