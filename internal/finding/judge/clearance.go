package judge

import (
	"fmt"

	"matchmark/internal/machine"
	"matchmark/internal/trade/metrology"
)

// byClearance takes bore less journal as a fitter does: the most is the
// largest bore less the smallest journal, the least the smallest bore less the
// largest journal. The most answers for wear, the least for tightness; a mean
// would hide both. What two gauges share, such as a setting, cancels.
//
// Every point of the bore is held against every point of the journal, for a
// point read roughly can leave more doubt than one a little larger. Taking the
// ends of noisy readings errs on the safe side at either limit.
func (b *bench) byClearance(c *machine.Check, s, length scale) measured {
	if c.Outer == nil || c.Inner == nil {
		return measured{wanted: "a clearance needs a bore and a journal, and the check does not name both: correct the check"}
	}
	outer, inner := b.surface(c.Outer, c.Tool, length), b.surface(c.Inner, c.Tool, length)
	m := measured{read: outer.read + inner.read, points: len(outer.points) + len(inner.points),
		step: s.factor * finer(outer.step, inner.step)}
	m.missing = append(append(m.missing, outer.missing...), inner.missing...)
	m.note(prefixed(c.Outer, outer.lines)...)
	m.note(prefixed(c.Inner, inner.lines)...)
	if len(outer.spots) == 0 || len(inner.spots) == 0 {
		return m
	}
	m.note(m.ends("most", s, largest(outer.spots), smallest(inner.spots)))
	if len(outer.spots)+len(inner.spots) > 2 {
		m.note(m.ends("least", s, smallest(outer.spots), largest(inner.spots)))
	}
	for _, bore := range outer.spots {
		for _, journal := range inner.spots {
			e, _, err := less(bore, journal)
			if err != nil {
				m.wanted = fmt.Sprintf("the clearance cannot be worked out: %v", err)
				return m
			}
			m.list = append(m.list, s.candidate(coarser(bore, journal), pairWords(bore.point, journal.point), e))
		}
	}
	return m
}

// ends is the working of the most or the least clearance.
func (m *measured) ends(which string, s scale, bore, journal spot) string {
	e, shared, err := less(bore, journal)
	if err != nil {
		return fmt.Sprintf("%s clearance: %v", which, err)
	}
	c := s.candidate(bore, "", e)
	line := fmt.Sprintf("%s clearance %s%s, u %s", which, figure(c.est.Value, decimals(m.step, c.est.U)), space(s.unit), tiny(c.est.U))
	if shared > 0 {
		line += fmt.Sprintf("; an error of %s common to both gauges cancels", tiny(shared*s.factor))
	}
	return line
}

// pairWords names a point of the bore and one of the journal.
func pairWords(bore, journal machine.Point) string {
	if bore == (machine.Point{}) && journal == (machine.Point{}) {
		return ""
	}
	return "bore " + orOnly(bore) + ", journal " + orOnly(journal)
}

// less is a − b for two points, with what their gauges share taken out.
func less(a, b spot) (e metrology.Estimate, shared float64, err error) {
	shared = min(a.gauge.sharedWith(b.gauge), a.est.U, b.est.U)
	e, err = metrology.Difference(a.est, b.est, shared)
	return e, shared, err
}

// coarser stands for a pair when asking what would settle it: the less exact
// gauge, the random parts of both.
func coarser(a, b spot) spot {
	if b.est.U > a.est.U {
		a, b = b, a
	}
	a.random = metrology.SumSquares(a.random, b.random)
	a.count = min(a.count, b.count)
	if b.gauge.assumed != "" && a.gauge.assumed == "" {
		a.gauge.assumed = b.gauge.assumed
	}
	a.gauge.coarse = a.gauge.coarse || b.gauge.coarse
	return a
}

// largest is the point with the greatest size, the first of equals.
func largest(list []spot) spot {
	best := list[0]
	for _, sp := range list[1:] {
		if sp.est.Value > best.est.Value {
			best = sp
		}
	}
	return best
}

// smallest is the point with the least size, the first of equals.
func smallest(list []spot) spot {
	best := list[0]
	for _, sp := range list[1:] {
		if sp.est.Value < best.est.Value {
			best = sp
		}
	}
	return best
}
