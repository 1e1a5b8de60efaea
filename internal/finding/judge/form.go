package judge

import (
	"fmt"
	"math"

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
	groups := map[string][]spot{}
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
		c, err := rangeOf(k, groups[k], s)
		if err != nil {
			m.note(fmt.Sprintf("%s: not used: %v", k, err))
			continue
		}
		m.list = append(m.list, c)
		m.note(fmt.Sprintf("%slargest less smallest %s%s, u %s", lead(k), figure(c.est.Value, decimals(m.step, c.est.U)), space(s.unit), tiny(c.est.U)))
	}
	if len(m.list) == 0 && len(m.missing) == 0 {
		m.wanted = fmt.Sprintf("needs readings in two %s at one %s; %s names fewer points: add them", across, along, featureWords(ft))
	}
}

// rangeOf is the largest less the smallest of some points.
func rangeOf(at string, list []spot, s scale) (candidate, error) {
	high, low := largest(list), smallest(list)
	if high.point == low.point { // all alike
		low = list[len(list)-1]
	}
	e, _, err := less(high, low)
	if err != nil {
		return candidate{}, err
	}
	c := s.candidate(coarser(high, low), at, e)
	common := math.Inf(1)
	for _, a := range list {
		common = min(common, high.gauge.sharedWith(a.gauge), a.est.U)
	}
	c.spread = &spread{}
	sum := 0.0
	for _, a := range list {
		c.spread.values = append(c.spread.values, a.est.Value*s.factor)
		sum += (a.est.U*a.est.U - common*common) / float64(len(list))
	}
	c.spread.u = math.Abs(s.factor) * math.Sqrt(math.Max(0, sum))
	return c, nil
}

// seed of the simulation behind a corrected spread; fixed, so that the same
// readings always give the same verdict.
const seed = 1

// corrected is the spread with what noise alone adds to it taken out, and ok
// false where that cannot make a difference at a limit.
//
// The plain spread is never surer than it may be that a good part is good: the
// true largest and smallest points differ by the true spread, and the spread
// seen is at least the difference seen between those two. It is too ready to
// call a good part worn, so only that verdict is checked against this.
func (c candidate) corrected(high float64) (e metrology.Estimate, ok bool) {
	n := float64(len(c.spread.values))
	// The largest of n normal deviates is √(2 ln n) at most, on average.
	noise := 2 * math.Sqrt(2*math.Log(n)) * c.spread.u
	// The mean of two points' distance, |normal|, is off by less than a
	// hundred-thousandth of it from four uncertainties upwards.
	clear := n == 2 && c.est.Value > 4*c.est.U
	if clear || c.spread.u == 0 || c.est.Value-high > noise+3*c.est.U {
		return c.est, false
	}
	e, err := metrology.RangeEstimate(c.spread.values, c.spread.u, seed)
	return e, err == nil
}
