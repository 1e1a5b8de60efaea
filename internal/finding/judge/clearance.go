package judge

import (
	"strings"

	"matchmark/internal/machine"
)

// byClearance takes bore less journal as a fitter does: the most is the
// largest bore less the smallest journal, the least the smallest bore less the
// largest journal. The most answers for wear, the least for tightness; a mean
// would hide both. What two gauges share, such as a setting, cancels.
func (b *bench) byClearance(c *machine.Check, s, length scale) measured {
	if c.Outer == nil || c.Inner == nil {
		return measured{wanted: "a clearance needs a bore and a journal, and the check does not name both: correct the check"}
	}
	return b.sum("clearance", s, []member{
		{times: 1, role: "bore", feature: c.Outer, surface: b.surface(c.Outer, c.Tool, length)},
		{times: -1, role: "journal", feature: c.Inner, surface: b.surface(c.Inner, c.Tool, length)}})
}

// pairWords names the points of a sum: "bore top along, journal across"; empty
// where each surface has but one unnamed point.
func pairWords(terms []term) string {
	var out []string
	named := false
	for _, t := range terms {
		named = named || t.spot.point != machine.Point{}
		out = append(out, t.role+" "+orOnly(t.spot.point))
	}
	if !named {
		return ""
	}
	return strings.Join(out, ", ")
}

// largest is the point with the greatest size, the first of equals.
func largest(list []*spot) *spot {
	best := list[0]
	for _, sp := range list[1:] {
		if sp.est.Value > best.est.Value {
			best = sp
		}
	}
	return best
}

// smallest is the point with the least size, the first of equals.
func smallest(list []*spot) *spot {
	best := list[0]
	for _, sp := range list[1:] {
		if sp.est.Value < best.est.Value {
			best = sp
		}
	}
	return best
}
