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
// Taking the ends of noisy readings makes the most a little large and the
// least a little small: on the safe side at either limit.
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
	m.pair("most", s, largest(outer.spots), smallest(inner.spots))
	if len(outer.spots)+len(inner.spots) > 2 {
		m.pair("least", s, smallest(outer.spots), largest(inner.spots))
	}
	return m
}

// pair adds the clearance between one point of the bore and one of the journal.
func (m *measured) pair(which string, s scale, bore, journal spot) {
	e, shared, err := less(bore, journal)
	if err != nil {
		m.wanted = fmt.Sprintf("the clearance cannot be worked out: %v", err)
		return
	}
	at := ""
	if bore.point != (machine.Point{}) || journal.point != (machine.Point{}) {
		at = "bore " + orOnly(bore.point) + ", journal " + orOnly(journal.point)
	}
	cand := s.candidate(coarser(bore, journal), at, e)
	m.list = append(m.list, cand)
	d := decimals(m.step, cand.est.U)
	line := fmt.Sprintf("%s clearance %s%s, u %s", which, figure(cand.est.Value, d), space(s.unit), tiny(cand.est.U))
	if shared > 0 {
		line += fmt.Sprintf("; an error of %s common to both gauges cancels", tiny(shared*s.factor))
	}
	m.note(line)
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
