package web

import (
	"matchmark/internal/bench"
	"matchmark/internal/finding/caution"
	"matchmark/internal/finding/sequence"
	"matchmark/internal/machine"
	"matchmark/internal/trade/spelling"
)

// careRow is one warning as shown with a step.
type careRow struct{ Hazard, Text, Defer, Source string }

// careFor gives the warnings of a step, the worst first.
func careFor(hazards []string, act sequence.Act) []careRow {
	var out []careRow
	for _, c := range caution.For(hazards, string(act)) {
		out = append(out, careRow{spelling.Head(c.Hazard), c.Text, c.DeferTo, c.Publication})
	}
	return out
}

// careOfJoint gives the warnings of opening or closing a joint: its own, and
// those of its parts as the plan has them.
func careOfJoint(v *bench.View, j *machine.Joint, act sequence.Act) []careRow {
	id := sequence.CloseID(j.ID)
	if act == sequence.Open {
		id = sequence.OpenID(j.ID)
	}
	hazards := j.Hazards
	if s, ok := v.Plan().Step(id); ok {
		hazards = s.Hazards
	}
	rows := careFor(hazards, act)
	if j.Life {
		rows = append([]careRow{{Hazard: "Life gate", Text: caution.LifeWords}}, rows...)
	}
	return rows
}

// refusals are the figures nobody can read off worn metal.
func refusals() []string {
	var out []string
	for _, r := range caution.Refusals() {
		out = append(out, r.Answer())
	}
	return out
}
