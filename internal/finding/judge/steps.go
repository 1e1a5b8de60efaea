package judge

import (
	"math"

	"matchmark/internal/trade/metrology"
)

// againstSteps keeps a spread from being called sound by the luck of where the
// gauge's lines stand, and gives the probability that forbade it.
//
// Two readings of one gauge differ by whole steps, and so does the limit from
// them where it lies on a line. Of parts exactly at the limit, those read so
// low or lower are then more than the normal distribution says: what was read
// as d is anything up to d and a step, evenly. Sound takes that too; where only
// the normal distribution says so, the probability is just below the level of
// sound. Single readings are not held to it: the error of the scale, which is
// another for every gauge, moves the lines about.
func (c candidate) againstSteps(p, low, high float64) (float64, float64) {
	if c.spread == nil || p < metrology.DefaultAccept {
		return p, 0
	}
	shift, variance := 0.0, 0.0
	for _, t := range c.terms {
		q := c.factor * t.spot.lineStep()
		shift += math.Abs(t.times) * q / 4
		variance += square(t.times*q) / 24
	}
	e := c.est
	e.U = math.Sqrt(max(0, e.U*e.U-variance))
	worst := p
	for _, way := range []float64{shift, -shift} {
		e.Value = c.est.Value + way
		q, err := metrology.Conform(e, low, high)
		if err == nil {
			worst = min(worst, q)
		}
	}
	if worst >= metrology.DefaultAccept {
		return p, 0
	}
	return math.Nextafter(metrology.DefaultAccept, 0), worst
}

// lineStep is the step in which a point's mean moves: the gauge's, or that over
// the number of repeats where the hand is rough enough to fall on several
// lines.
func (sp *spot) lineStep() float64 {
	if sp.gauge == nil {
		return 0
	}
	q := sp.gauge.Step
	if 3*sp.random >= q {
		q /= float64(max(1, sp.count))
	}
	return q
}
