package remedy

import (
	"testing"

	"matchmark/internal/machine"
)

func TestCalls(t *testing.T) {
	var l log
	l.crank([]machine.Remedy{regrind(0.25, 0.50)}, 0.10, 0.005)
	l.add(&machine.PartAdded{ID: "rod", Name: "Rod", Assembly: "engine"}, &machine.PartAdded{ID: "tab", Name: "Tab washer", OneUse: true},
		&machine.PartAdded{ID: "cover", Name: "Cover"}, &machine.PartAdded{ID: "seal", Name: "Seal", OneUse: true},
		&machine.JointAdded{ID: "cap", Name: "Rod cap", Parts: []machine.PartID{"rod", "tab"}},
		&machine.CheckAdded{ID: "bend", Name: "Rod bend", When: machine.Apart, By: machine.ByEye, Parts: []machine.PartID{"rod"},
			Limits: []machine.Limit{{NewWords: "straight", From: machine.CommonPractice}}},
		&machine.LookTaken{Check: "bend", OK: true}, &machine.JointOpened{Joint: "cap", Off: []machine.PartID{"tab"}})
	m, f := l.fold(t)
	calls := Calls(m, Decide(m, f, Cheapest))
	for id, want := range map[machine.PartID]Proposal{
		"crankshaft": {machine.MakeGood, "“Regrind all crankpins”, for Crankpin wear, pin 1."},
		"shell.1":    {machine.Renew, "“Regrind all crankpins”, for Crankpin wear, pin 1."},
		"shell.2":    {machine.Renew, "“Regrind all crankpins”, for Crankpin wear, pin 1."},
		"rod":        {machine.GoesBack, "Its one check is sound."},
		"tab":        {machine.Renew, "It came off, and is used once only."},
		"seal":       {machine.NotJudged, "No check of it has been made."},
		"cover":      {machine.NotJudged, "No check of it has been made."},
	} {
		if calls[id] != want {
			t.Errorf("%s: %+v, want %+v", id, calls[id], want)
		}
	}
	if len(calls) != len(m.Parts) {
		t.Errorf("%d calls for %d parts", len(calls), len(m.Parts))
	}
}
