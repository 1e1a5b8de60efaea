package book

import (
	"fmt"
	"testing"
	"time"

	"matchmark/internal/finding/judge"
	"matchmark/internal/finding/remedy"
	"matchmark/internal/machine"
)

// log collects facts, one a minute, and folds them.
type log struct{ entries []machine.Entry }

func (l *log) add(bodies ...machine.Body) {
	for _, b := range bodies {
		n := len(l.entries)
		l.entries = append(l.entries, machine.Entry{ID: machine.EntryID(fmt.Sprintf("e%06d", n)),
			At: time.Date(2026, 5, 1, 8, n, 0, 0, time.UTC), By: "fitter", Body: b})
	}
}

// papers folds the log and draws up both papers of the cheapest set.
func (l *log) papers(t testing.TB) ([]Shop, List) {
	t.Helper()
	m := machine.Fold(l.entries)
	for _, q := range m.Questions {
		t.Fatalf("the test's own log raises a question: %s", q.Text)
	}
	f := judge.All(m)
	p := remedy.Decide(m, f, remedy.Cheapest)
	return ShopOrder(m, f, p), BuyingList(m, f, p)
}

func mm(v float64) machine.Amount { return machine.Amount{Value: v, Unit: "mm", Step: 0.001} }

func read(ft machine.FeatureID, v float64) machine.Body {
	return &machine.ReadingTaken{Feature: ft, Amount: mm(v), Tool: "micrometer-digital"}
}

// engine is two worn bores of 90 mm that share a size, their pistons, a bush
// that is reamed to a pin which stays, and a gasket that is used once.
func engine() *log {
	l := &log{}
	rebore := machine.Remedy{Key: "rebore", Name: "Rebore", Cost: 9, Days: 15, Where: "machine shop", Group: "all-bores", Steps: []float64{0.25, 0.5},
		Renews: []machine.PartID{"piston"}, Reworks: []machine.FeatureID{"liner/bore"}, Beware: "pistons first", Opens: []machine.CheckID{"squish"}}
	ream := machine.Remedy{Key: "ream", Name: "Ream the bush", Cost: 1, Days: 2, Where: "machine shop", Reworks: []machine.FeatureID{"bush/bore"}}
	pump := machine.Remedy{Key: "overhaul", Name: "Overhaul", Cost: 5, Days: 9, Where: "pump shop"}
	l.add(&machine.MachineNamed{Name: "Tractor", Serial: "12"},
		&machine.PlacesSet{Places: machine.Places{Family: "cylinder", Name: "cylinder", Labels: []machine.Place{"1", "2"}}},
		&machine.AssemblyAdded{ID: "engine", Name: "Engine"},
		&machine.PartAdded{ID: "liner", Name: "Liner", Assembly: "engine", Places: "cylinder"},
		&machine.PartAdded{ID: "piston", Name: "Piston", Assembly: "engine", Places: "cylinder"},
		&machine.PartAdded{ID: "bush", Name: "Bush", Assembly: "engine"},
		&machine.PartAdded{ID: "pin", Name: "Pin", Assembly: "engine"},
		&machine.PartAdded{ID: "pump", Name: "Pump", Assembly: "engine"},
		&machine.PartAdded{ID: "gasket", Name: "Head gasket", Assembly: "engine", OneUse: true},
		&machine.PartAdded{ID: "clip", Name: "Clip", Assembly: "engine", Qty: 6},
		&machine.PartAdded{ID: "bearing", Name: "Bearing", Assembly: "engine"},
		&machine.FeatureAdded{Part: "liner", Feature: "bore", Name: "bore", Sort: machine.Bore, Levels: []string{"top", "low"}},
		&machine.FeatureAdded{Part: "piston", Feature: "skirt", Name: "skirt", Sort: machine.Shaft},
		&machine.FeatureAdded{Part: "bush", Feature: "bore", Name: "bore", Sort: machine.Bore},
		&machine.FeatureAdded{Part: "pin", Feature: "dia", Name: "diameter", Sort: machine.Shaft, Levels: []string{"left", "right"}},
		&machine.JointAdded{ID: "head", Name: "Head", Assembly: "engine", Sort: "gasket", Parts: []machine.PartID{"gasket"}},
		&machine.CheckAdded{ID: "bore-wear", Name: "Bore wear", Assembly: "engine", Places: "cylinder", When: machine.Apart, By: machine.ByWear, Outer: "liner/bore", Unit: "mm",
			Limits: []machine.Limit{{NewHigh: "0.015", High: "0.10", From: machine.CommonPractice, Source: "no source"}}, Remedies: []machine.Remedy{rebore}},
		&machine.CheckAdded{ID: "skirt-clear", Name: "Piston to bore", Assembly: "engine", Places: "cylinder", When: machine.Apart, By: machine.ByClearance, Outer: "liner/bore", Inner: "piston/skirt", Unit: "mm",
			Limits: []machine.Limit{{NewLow: "0.05", NewHigh: "0.09", High: "0.30", From: machine.Handbook, Source: "page 7"}}},
		&machine.CheckAdded{ID: "squish", Name: "Squish", Assembly: "engine", Places: "cylinder", When: machine.Made, By: machine.ByReading, Unit: "mm",
			Limits: []machine.Limit{{Low: "0.6", High: "1.0", From: machine.Paperwork, Source: "sheet 2"}}},
		&machine.CheckAdded{ID: "bush-clear", Name: "Pin in bush", Assembly: "engine", When: machine.Apart, By: machine.ByClearance, Outer: "bush/bore", Inner: "pin/dia", Unit: "mm",
			Limits: []machine.Limit{{NewLow: "0.010", NewHigh: "0.040", High: "0.10", From: machine.Standard, Source: "a fit of ISO 286"}}, Remedies: []machine.Remedy{ream}},
		&machine.CheckAdded{ID: "spray", Name: "Spray", Assembly: "engine", Parts: []machine.PartID{"pump"}, When: machine.Apart, By: machine.ByEye,
			Limits: []machine.Limit{{NewWords: "even fog", WornWords: "a streak"}}, Remedies: []machine.Remedy{pump}})
	for _, at := range []machine.FeatureID{"liner.1", "liner.2"} {
		l.add(&machine.NominalSet{Feature: at + "/bore", Amount: mm(90), From: machine.Unworn, Source: "ring top"})
	}
	for i, v := range []float64{90.17, 90.06, 90.12, 90.03} {
		l.add(&machine.ReadingTaken{Feature: machine.FeatureID(fmt.Sprintf("liner.%d/bore", i/2+1)), Level: []string{"top", "low"}[i%2], Amount: mm(v), Tool: "bore-gauge-ring"})
	}
	l.add(read("bush/bore", 20.150),
		&machine.ReadingTaken{Feature: "pin/dia", Level: "left", Amount: mm(19.980), Tool: "micrometer"},
		&machine.ReadingTaken{Feature: "pin/dia", Level: "right", Amount: mm(19.990), Tool: "micrometer"},
		&machine.LookTaken{Check: "spray"},
		&machine.JointOpened{Joint: "head", Tray: "4", Off: []machine.PartID{"gasket"},
			Fasteners: []machine.Fastener{{Size: "M10x1.25x60", Count: 8}, {Size: "M10x1.25x60", Count: 2, State: "stretched"}}},
		&machine.PartCounted{Part: "clip", Found: 4})
	return l
}
