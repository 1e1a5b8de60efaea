package judge

import (
	"cmp"
	"fmt"
	"math"
	"slices"

	"matchmark/internal/trade/metrology"
)

// Names of what an uncertainty is made of, beside those of metrology.Combine.
const (
	byScale   = "limit of error"
	bySetting = "reading of the setting piece"
	byHeat    = "temperature noted"
	byAlloy   = "expansion of the metal"
)

// repeats averages readings of one point with one instrument.
func repeats(at []take, mat *metrology.Material, s scale) (*spot, []string, error) {
	g, finest := at[0].gauge, 0.0
	values := make([]float64, len(at))
	warm, shift := warmth{noted: true}, 0.0
	for i, t := range at {
		if t.gauge.Step > g.Step {
			g = t.gauge
		}
		finest = finer(finest, t.step)
		v, err := warm.bring(t, mat)
		if err != nil {
			return nil, nil, err
		}
		values[i] = v
		shift += (v - t.value) / float64(len(at))
	}
	warm.noted = warm.noted && !slices.ContainsFunc(at, func(t take) bool { return *t.temp != *at[0].temp })
	slices.Sort(values)
	r, err := metrology.Combine(values, g.Instrument)
	if err != nil {
		return nil, nil, err
	}
	sp := &spot{est: r.Estimate, random: r.Random, count: len(at), gauge: g, step: finest, warm: warm, parts: r.Parts}
	for _, p := range []metrology.Part{{Name: bySetting, U: g.setU}, {Name: byHeat, U: warm.heat}, {Name: byAlloy, U: warm.alloy}} {
		if p.U > 0 {
			sp.parts = append(sp.parts, p) // what points may share is taken as known: no limit of freedom
		}
	}
	sp.est.U = metrology.SumSquares(r.U, g.setU, warm.heat, warm.alloy)
	sp.est.Dof = metrology.EffectiveDof(sp.parts)
	lines := repeatWords(at, r, sp.est, g, s, warm.heat > 0, shift)
	if sp.apart = apartFrom(at, s); sp.apart != "" {
		lines = append(lines, sp.apart+" stands apart from its repeats; used all the same: measure again, and withdraw it if it was a slip")
	}
	return sp, lines, nil
}

// bring gives a reading at 20 °C, where temperature and metal are known, and
// keeps what that adds to the uncertainty: all repeats share it.
func (w *warmth) bring(t take, mat *metrology.Material) (float64, error) {
	if t.temp == nil || mat == nil {
		w.noted = false
		return t.value, nil
	}
	e, err := metrology.ToReference(metrology.Estimate{Value: t.value}, *mat, metrology.Estimate{Value: *t.temp, U: tempU})
	if err != nil {
		return 0, err
	}
	w.celsius = *t.temp
	w.heat = max(w.heat, math.Abs(t.value*mat.PerK)*tempU)
	w.alloy = max(w.alloy, math.Abs(t.value*(*t.temp-metrology.Reference))*mat.UPerK)
	return e.Value, nil
}

// tempU is the standard uncertainty of a temperature noted at the bench:
// within ±1 °C. Source: common practice, no source.
var tempU = metrology.FromHalfWidth(1)

// weigh joins means with several instruments, each by 1/u²; where they
// disagree by more than their uncertainties allow, the uncertainty is
// stretched by the ratio (Birge).
func weigh(parts []*spot) (*spot, []string, error) {
	total, n := 0.0, 0
	list, weights := make([]metrology.Estimate, len(parts)), make([]float64, len(parts))
	for i, p := range parts {
		list[i], n = p.est, n+p.count
		weights[i] = 1 / math.Max(p.est.U*p.est.U, 1e-18)
		total += weights[i]
	}
	for i := range weights {
		weights[i] /= total
	}
	e, err := metrology.Weighted(list, weights)
	if err != nil {
		return nil, nil, err
	}
	chi := 0.0
	best := parts[0]
	for _, p := range parts {
		d := p.est.Value - e.Value
		chi += d * d / math.Max(p.est.U*p.est.U, 1e-18)
		if p.est.U < best.est.U {
			best = p
		}
	}
	ratio := max(1, math.Sqrt(chi/float64(len(parts)-1)))
	e.U *= ratio
	lines := []string{fmt.Sprintf("%d instruments at one point, weighed by their uncertainty", len(parts))}
	if ratio > 1 {
		lines = append(lines, fmt.Sprintf("they disagree; uncertainty stretched %.1f times", ratio))
	}
	g := *best.gauge
	g.Instrument.ID, g.setting, g.set = "", "", nil // a mixture shares its error with nothing
	sp := &spot{est: e, random: best.random, count: n, gauge: &g, step: best.step}
	for i, p := range parts {
		sp.apart = cmp.Or(sp.apart, p.apart)
		sp.parts = append(sp.parts, metrology.Part{Name: "readings with " + p.gauge.Name, U: ratio * weights[i] * p.est.U, Dof: p.est.Dof})
	}
	return sp, lines, nil
}
