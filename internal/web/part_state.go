package web

import (
	"slices"

	"matchmark/internal/bench"
	"matchmark/internal/finding/judge"
	"matchmark/internal/machine"
)

// mark is a state by line type and word; colour has no part in it.
type mark struct{ Line, Word string }

// legend lists the line types in the order a part goes through them.
func legend() []mark {
	return []mark{{"on", "still to strip"}, {"off", "off, on a tray"}, {"judged", "measured and judged"},
		{"held", "held"}, {"away", "away"}, {"built", "built in"}}
}

// stateOf tells how far a part is, with where it lies. due are the joints held
// by checks alone.
func stateOf(v *bench.View, p *machine.Part, due map[machine.JointID]bool) mark {
	opened, closed, blocked := 0, 0, false
	for _, j := range p.Joints {
		switch j.State {
		case machine.Open, machine.OnTrial:
			opened++
			blocked = blocked || due[j.ID]
		case machine.Closed:
			closed++
		}
	}
	switch {
	case p.Away != "":
		return mark{"away", awayWord(v.Machine, p)}
	case opened == 0 && closed > 0 && p.Tray == "":
		return mark{"built", "built in"}
	case p.Tray == "" && opened == 0:
		return mark{"on", "still to strip"}
	case blocked:
		return mark{"held", "held" + behind(", ", offWord(p))}
	case judged(v, p):
		return mark{"judged", "judged" + behind(", ", offWord(p))}
	case p.Tray == "":
		return mark{"off", "in place, joints open"}
	}
	return mark{"off", offWord(p)}
}

func awayWord(m *machine.Machine, p *machine.Part) string {
	if o := m.Order(p.Away); o != nil && o.From != "" {
		return "away, at " + o.From
	}
	return "away"
}

func offWord(p *machine.Part) string {
	if p.Tray == "" {
		return ""
	}
	return trayWords(p.Tray)
}

// judged tells a part whose every check before closing was read, and on which
// the restorer said a word.
func judged(v *bench.View, p *machine.Part) bool {
	if p.Call == machine.NotJudged {
		return false
	}
	for _, c := range checksOf(v.Machine, p) {
		if f := v.Judged().Of(c.ID); c.When == machine.Apart && f != nil && f.Verdict == judge.NotRead {
			return false
		}
	}
	return true
}

// checksOf lists the checks that look at a part itself: on the part, or
// through one of its surfaces.
func checksOf(m *machine.Machine, p *machine.Part) []*machine.Check {
	var out []*machine.Check
	for _, c := range m.Checks {
		if looksAt(c, p) {
			out = append(out, c)
		}
	}
	return out
}

func looksAt(c *machine.Check, p *machine.Part) bool {
	for _, q := range c.Parts {
		if q == p {
			return true
		}
	}
	return slices.ContainsFunc(c.Surfaces(), func(ft *machine.Feature) bool { return ft.Part == p })
}

// partsOf lists the parts a check looks at, each once, in the check's order.
func partsOf(c *machine.Check) []*machine.Part {
	var out []*machine.Part
	add := func(p *machine.Part) {
		for _, q := range out {
			if q == p {
				return
			}
		}
		out = append(out, p)
	}
	for _, ft := range c.Surfaces() {
		add(ft.Part)
	}
	for _, p := range c.Parts {
		add(p)
	}
	if len(out) == 0 {
		for _, j := range c.Joints {
			for _, p := range j.Parts {
				add(p)
			}
		}
	}
	return out
}
