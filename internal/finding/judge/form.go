package judge

import (
	"cmp"
	"fmt"
	"math"
	"slices"

	"matchmark/internal/machine"
	"matchmark/internal/trade/metrology"
)

// form adds ovality (over the directions at each height) or taper (over the
// heights in each direction): largest less smallest diameter. An error common
// to all readings, such as the gauge's setting, cancels.
// Source of the convention: difference of diameters, as in engine machining
// practice; twice a radial roundness figure.
func form(m *measured, by string, ft *machine.Feature, surf surface, s scale) {
	key := func(p machine.Point) string { return p.Level }
	across, along := "directions", "height"
	if by == machine.ByTaper {
		key = func(p machine.Point) string { return p.Axis }
		across, along = "heights", "direction"
	}
	var order []string
	groups := map[string][]*spot{}
	for _, sp := range surf.spots {
		k := key(sp.point)
		if groups[k] == nil {
			order = append(order, k)
		}
		groups[k] = append(groups[k], sp)
	}
	for _, k := range order {
		if len(groups[k]) < 2 {
			continue
		}
		list, err := pairs(k, groups[k], s)
		if err != nil {
			m.note(fmt.Sprintf("%snot used: %v", lead(k), err))
			continue
		}
		m.list = append(m.list, list...)
		most := slices.MaxFunc(list, func(a, b candidate) int { return cmp.Compare(a.est.Value, b.est.Value) })
		line := fmt.Sprintf("%slargest less smallest %s%s, u %s", lead(k), figure(most.est.Value, decimals(m.step, most.est.U)), space(s.unit), tiny(most.est.U))
		if by == machine.ByTaper {
			line += profileWords(ft, groups[k], most.est.U/math.Abs(s.factor))
		}
		m.note(line)
	}
	if len(m.list) == 0 && len(m.missing) == 0 {
		m.wanted = fmt.Sprintf("needs readings in two %s at one %s; %s names fewer points: add them", across, along, ft.Called())
	}
}

// pairs makes one candidate of the distance of every two points: the spread
// of some points is the largest of them.
func pairs(at string, list []*spot, s scale) ([]candidate, error) {
	whole := &spread{}
	common := math.Inf(1)
	for _, a := range list {
		common = min(common, list[0].shared(a))
	}
	sum := 0.0
	for _, a := range list {
		whole.values = append(whole.values, math.Abs(s.factor)*a.est.Value)
		sum += (a.est.U*a.est.U - common*common) / float64(len(list))
	}
	whole.u = math.Abs(s.factor) * math.Sqrt(math.Max(0, sum))
	var out []candidate
	for i, a := range list {
		for _, b := range list[i+1:] {
			high, low := a, b
			if b.est.Value > a.est.Value {
				high, low = b, a
			}
			e, err := less(high, low)
			if err != nil {
				return nil, err
			}
			c := s.candidate(at, e, term{1, high, pointWords(high.point)}, term{-1, low, pointWords(low.point)})
			c.spread = whole
			out = append(out, c)
		}
	}
	return out, nil
}

// seed of the simulation behind a corrected spread; fixed, so that the same
// readings always give the same verdict.
const seed = 1

// spread is what some points have in common: their values and the standard
// uncertainty of one of them without what all share, in the check's unit.
type spread struct {
	values []float64
	u      float64
	known  *metrology.Estimate // the true spread, once it was asked for
}

// withoutNoise keeps the noise in a spread from calling it worn, and gives the
// spread without it where that made a difference.
//
// The plain distance never makes a bad part sound too readily: the two points
// that are truly farthest apart are among the pairs. But the largest of many
// noisy distances is too ready to call a good part worn. So worn takes both
// the plain distance and the corrected spread; where only the first says so,
// the probability is just above the level of worn.
func (c candidate) withoutNoise(p, low, high float64) (float64, *metrology.Estimate) {
	if c.spread == nil || p > metrology.DefaultReject || c.tooFar(high) {
		return p, nil
	}
	if c.spread.known == nil {
		e, err := metrology.RangeEstimate(c.spread.values, c.spread.u, seed)
		if err != nil {
			return p, nil
		}
		c.spread.known = &e
	}
	q, err := metrology.Conform(*c.spread.known, low, high)
	if err != nil || q <= p {
		return p, nil
	}
	return min(q, math.Nextafter(metrology.DefaultReject, 1)), c.spread.known
}

// tooFar tells that noise cannot matter at a limit: there is none, or it could
// not have brought the points so far past, or there are but two points, whose
// mean distance |normal| is off by less than a hundred-thousandth of itself
// from four uncertainties upwards.
func (c candidate) tooFar(high float64) bool {
	n := float64(len(c.spread.values))
	// The largest of n normal deviates is √(2 ln n) at most, on average.
	noise := 2 * math.Sqrt(2*math.Log(n)) * c.spread.u
	return c.spread.u == 0 || c.est.Value-high > noise+3*c.est.U || n == 2 && c.est.Value > 4*c.est.U
}
