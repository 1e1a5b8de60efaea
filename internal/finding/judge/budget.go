package judge

import (
	"fmt"
	"math"
	"slices"

	"matchmark/internal/trade/metrology"
)

// share is one line of a budget: a cause, its standard uncertainty in the
// check's unit, and whether it is in all points alike and so cancels.
type share struct {
	name    string
	u       float64
	cancels bool
}

// causes of error that points may have in common.
var causes = []string{byScale, bySetting, byHeat, byAlloy}

// budget lists what the uncertainty of a value is made of. What the points of a
// sum may have in common is one line for all of them, with the sign it comes
// out with; the rest is a line for each gauge.
// The squares sum to the square of the value's uncertainty, apart from what was
// bounded to keep a shared error within its reading's.
func (c candidate) budget() []share {
	var out []share
	add := func(name string, variance, before float64) {
		if before > 0 {
			u := c.factor * math.Sqrt(max(0, variance))
			out = append(out, share{name, u, variance < 1e-9*before})
		}
	}
	for _, cause := range causes {
		add(cause, c.variance(cause), c.plainVariance(cause))
	}
	var names []string
	own := map[string]float64{}
	for _, t := range c.terms {
		for _, p := range t.spot.parts {
			if slices.Contains(causes, p.Name) || p.U == 0 {
				continue
			}
			name := p.Name
			if g := t.spot.gauge; g.Name != "" && (p.Name == "repeats" || p.Name == "step") {
				name += ", " + g.Name
			}
			if !slices.Contains(names, name) {
				names = append(names, name)
			}
			own[name] += square(t.times * p.U)
		}
	}
	for _, name := range names {
		add(name, own[name], own[name])
	}
	slices.SortStableFunc(out, func(a, b share) int {
		switch {
		case a.u > b.u:
			return -1
		case a.u < b.u:
			return 1
		}
		return 0
	})
	return out
}

// plainVariance is Σ times²·u² of one cause, as if nothing were in common.
func (c candidate) plainVariance(cause string) float64 {
	sum := 0.0
	for _, t := range c.terms {
		for _, p := range t.spot.parts {
			if p.Name == cause {
				sum += square(t.times * p.U)
			}
		}
	}
	return sum
}

// variance is plainVariance with what the points have in common.
func (c candidate) variance(cause string) float64 {
	sum := c.plainVariance(cause)
	for i, a := range c.terms {
		for _, b := range c.terms[i+1:] {
			with := a.spot.common(b.spot)
			sum += 2 * a.times * b.times * with.of(cause)
		}
	}
	return sum
}

// of is the variance that two points share by one cause.
func (c sharing) of(cause string) float64 {
	switch cause {
	case byScale:
		return c.scale
	case bySetting:
		return c.setting
	case byHeat:
		return c.heat
	}
	return c.alloy
}

// budgetWords prints a budget, the largest share first, and what it sums to.
func (b *bench) budgetWords(c candidate, s scale) []string {
	var out []string
	for _, cause := range c.budget() {
		switch {
		case cause.cancels:
			out = append(out, fmt.Sprintf("u from %s: none, it is the same in both and cancels", cause.name))
		case c.est.U > 0:
			out = append(out, fmt.Sprintf("u from %s: %s%s, %s", cause.name, tiny(cause.u), space(s.unit), shareWords(square(cause.u/c.est.U))))
		}
	}
	k := b.coverage(c.est.Dof)
	if c.est.U == 0 || k == 0 {
		return out
	}
	line := fmt.Sprintf("u in all: %s%s; U (95 %%) %s%s", tiny(c.est.U), space(s.unit), tiny(k*c.est.U), space(s.unit))
	if c.est.Dof > 0 && c.est.Dof < 200 {
		line += fmt.Sprintf(", %d degrees of freedom", max(1, int(c.est.Dof)))
	}
	return append(out, line)
}

// coverage is the factor of U (95 %) for some degrees of freedom, which count
// in whole numbers; 0 where there is none.
func (b *bench) coverage(dof float64) float64 {
	whole := max(1, math.Floor(dof))
	if dof == 0 {
		whole = 0
	}
	k, known := b.factors[whole]
	if !known {
		k, _ = metrology.CoverageFactor(0.95, whole)
		b.factors[whole] = k
	}
	return k
}

func shareWords(of float64) string {
	if of < 0.005 {
		return "under 1 %"
	}
	return fmt.Sprintf("%.0f %%", 100*of)
}
