package judge

import (
	"fmt"
	"math"

	"matchmark/internal/machine"
	"matchmark/internal/trade/metrology"
)

// term is one point of a sum of sizes, with how many times it counts and what
// it is in the sum: "bore", "journal".
type term struct {
	times float64
	spot  *spot
	role  string
}

// total is Σ times·spot: a clearance, a difference of two points, a stack of
// sizes. What the points share cancels or adds up by its sign.
// Method: GUM 5.2.2.
func total(terms ...term) (metrology.Estimate, error) {
	list, times := make([]metrology.Estimate, len(terms)), make([]float64, len(terms))
	for i, t := range terms {
		list[i], times[i] = t.spot.est, t.times
	}
	return metrology.Linear(list, times, func(i, j int) float64 { return terms[i].spot.shared(terms[j].spot) })
}

// less is a − b for two points.
func less(a, b *spot) (metrology.Estimate, error) {
	return total(term{times: 1, spot: a}, term{times: -1, spot: b})
}

// sharing is what two points have in common, as variances by their cause.
type sharing struct{ scale, setting, heat, alloy float64 }

// common takes the scale error of one gauge, or of one that set the other; the
// reading of one setting piece; and on one part at one temperature the
// thermometer and the metal.
func (sp *spot) common(other *spot) (out sharing) {
	if sp.gauge == nil || other.gauge == nil {
		return out
	}
	out.scale = square(sp.gauge.sharedWith(other.gauge))
	if sp.gauge.set != nil && sp.gauge.set == other.gauge.set {
		out.setting = square(min(sp.gauge.setU, other.gauge.setU))
	}
	a, b := sp.warm, other.warm
	if a.noted && b.noted && a.part != "" && a.part == b.part && a.celsius == b.celsius {
		out.heat, out.alloy = square(min(a.heat, b.heat)), square(min(a.alloy, b.alloy))
	}
	return out
}

// shared is the standard uncertainty of all that two points have in common.
func (sp *spot) shared(other *spot) float64 {
	c := sp.common(other)
	return min(math.Sqrt(c.scale+c.setting+c.heat+c.alloy), sp.est.U, other.est.U)
}

func square(v float64) float64 { return v * v }

// member is one surface of a sum.
type member struct {
	times   float64
	role    string
	feature *machine.Feature
	surface surface
	few     []*spot // the points that can give the worst
}

// byStack adds sizes up, each so many times: deck height less throw, rod and
// crown height.
func (b *bench) byStack(c *machine.Check, s, length scale) measured {
	var members []member
	for _, t := range c.Terms {
		if t.Feature == nil || t.Times == 0 || math.IsNaN(t.Times) || math.Abs(t.Times) > farOut {
			return measured{wanted: "one of the sizes it is made of is not known here: correct the check"}
		}
		members = append(members, member{times: t.Times, role: t.Feature.Called(), feature: t.Feature, surface: b.surface(t.Feature, c.Tool, length)})
	}
	if len(members) == 0 {
		return measured{wanted: "the check does not name the sizes it is made of: correct the check"}
	}
	return b.sum("sum", s, members)
}

// sum works out a sum of surfaces. Every point of one is held with every point
// of the others, for a point read roughly can leave more doubt than one a
// little larger; points that cannot be the worst are passed over. Taking the
// ends of noisy readings errs on the safe side at either limit.
func (b *bench) sum(what string, s scale, members []member) measured {
	m := measured{}
	whole := true
	for i, k := range members {
		m.read += k.surface.read
		m.points += len(k.surface.points)
		m.step = finer(m.step, math.Abs(s.factor)*k.surface.step)
		m.missing = append(m.missing, k.surface.missing...)
		m.note(prefixed(k.feature, k.surface.lines)...)
		members[i].few = ends(k.surface.spots)
		whole = whole && len(k.surface.spots) > 0
	}
	if !whole {
		return m
	}
	m.endWords(what, s, members)
	for _, terms := range choices(members) {
		e, err := total(terms...)
		if err != nil {
			m.wanted = fmt.Sprintf("the %s cannot be worked out: %v", what, err)
			return m
		}
		m.list = append(m.list, s.candidate(pairWords(terms), e, terms...))
	}
	return m
}

// endWords is the working of the most and, where it differs, the least.
func (m *measured) endWords(what string, s scale, members []member) {
	most, least := extremes(members)
	points := 0
	for _, k := range members {
		points += len(k.surface.spots)
	}
	m.note(m.endLine("most "+what, s, most))
	if points > len(members) {
		m.note(m.endLine("least "+what, s, least))
	}
}

func (m *measured) endLine(what string, s scale, terms []term) string {
	e, err := total(terms...)
	if err != nil {
		return fmt.Sprintf("%s: %v", what, err)
	}
	c := s.candidate("", e, terms...)
	line := fmt.Sprintf("%s %s%s, u %s", what, figure(c.est.Value, decimals(m.step, c.est.U)), space(s.unit), tiny(c.est.U))
	if len(terms) == 2 && terms[0].times*terms[1].times < 0 {
		if shared := terms[0].spot.shared(terms[1].spot); shared > 0 {
			line += fmt.Sprintf("; an error of %s common to both gauges cancels", tiny(shared*math.Abs(s.factor)))
		}
	}
	return line
}

// ends keeps the points of a surface that can give the worst of a sum: of those
// read equally well the largest and the smallest, the first of equals.
func ends(spots []*spot) []*spot {
	var out []*spot
	for i, sp := range spots {
		low, high := true, true
		for j, other := range spots {
			if j == i || !equallyRead(sp, other) {
				continue
			}
			a, b := other.est.Value, sp.est.Value
			low = low && (a > b || a == b && j > i)
			high = high && (a < b || a == b && j > i)
		}
		if low || high {
			out = append(out, sp)
		}
	}
	return out
}

// equallyRead tells whether two points differ in nothing but their size.
func equallyRead(a, b *spot) bool {
	return a.est.U == b.est.U && a.est.Dof == b.est.Dof && a.count == b.count && a.warm == b.warm &&
		a.gauge.ID == b.gauge.ID && a.gauge.setting == b.gauge.setting && a.gauge.set == b.gauge.set
}

// mostChoices bounds the work on a sum of many surfaces.
const mostChoices = 1000

// choices takes one point of every surface in every way; where that is too many
// ways, only the most and the least.
func choices(members []member) [][]term {
	ways := 1
	for _, k := range members {
		ways = min(ways*len(k.few), mostChoices+1)
	}
	if ways > mostChoices {
		most, least := extremes(members)
		return [][]term{most, least}
	}
	out := [][]term{nil}
	for _, k := range members {
		var next [][]term
		for _, head := range out {
			for _, sp := range k.few {
				next = append(next, append(head[:len(head):len(head)], term{k.times, sp, k.role}))
			}
		}
		out = next
	}
	return out
}

// extremes takes every surface at the end that makes the sum most, and least.
func extremes(members []member) (most, least []term) {
	for _, k := range members {
		high, low := largest(k.surface.spots), smallest(k.surface.spots)
		if k.times < 0 {
			high, low = low, high
		}
		most, least = append(most, term{k.times, high, k.role}), append(least, term{k.times, low, k.role})
	}
	return most, least
}
