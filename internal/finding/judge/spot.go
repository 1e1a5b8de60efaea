package judge

import (
	"cmp"
	"fmt"
	"math"
	"slices"
	"strings"

	"matchmark/internal/machine"
	"matchmark/internal/trade/metrology"
)

// spot is one point as measured: the repeats at it averaged, at 20 °C where a
// temperature was noted, in the unit held inside.
type spot struct {
	point  machine.Point
	listed bool // one of the points the run asks for
	est    metrology.Estimate
	random float64 // standard deviation of one reading
	count  int
	gauge  gauge
	step   float64 // finest step typed
}

// take is one usable reading.
type take struct {
	value float64
	step  float64
	point machine.Point
	gauge *gauge
	temp  *float64
}

// usable turns readings into takes and says which could not be used and why.
// Takes come out in an order that does not depend on when they were taken.
func (b *bench) usable(readings []*machine.Reading, usual string, s scale, size bool) (good []take, lines []string) {
	good = make([]take, 0, len(readings))
	for _, r := range readings {
		v, step, err := s.hold(r.Amount)
		switch {
		case err != nil:
			lines = append(lines, fmt.Sprintf("not used: %v", err))
			continue
		case size && !(v > 0):
			lines = append(lines, fmt.Sprintf("not used: %s is no size; a size is above zero", typed(r.Amount)))
			continue
		}
		good = append(good, take{v, step, machine.Point{Level: r.Level, Axis: r.Axis}, b.gaugeOf(r, usual, s, v, step), r.TempC})
	}
	slices.Sort(lines)
	slices.SortStableFunc(good, func(a, b take) int {
		return cmp.Or(strings.Compare(a.point.Level, b.point.Level), strings.Compare(a.point.Axis, b.point.Axis),
			strings.Compare(a.gauge.ID, b.gauge.ID), strings.Compare(a.gauge.setting, b.gauge.setting),
			cmp.Compare(a.value, b.value), cmp.Compare(a.step, b.step), compareTemps(a.temp, b.temp))
	})
	return good, lines
}

// compareTemps puts readings without a temperature first.
func compareTemps(a, b *float64) int {
	switch {
	case a == nil && b == nil:
		return 0
	case a == nil:
		return -1
	case b == nil:
		return 1
	}
	return cmp.Compare(*a, *b)
}

// spots averages takes point by point: the points asked for first, in bench
// order, then any others.
func (b *bench) spots(takes []take, points []machine.Point, mat *metrology.Material, s scale) (list []spot, lines []string) {
	byPoint := map[machine.Point][]take{} // takes come sorted by point
	var extra []machine.Point
	for len(takes) > 0 {
		p, n := takes[0].point, 1
		for n < len(takes) && takes[n].point == p {
			n++
		}
		if !slices.Contains(points, p) {
			extra = append(extra, p)
		}
		byPoint[p], takes = takes[:n], takes[n:]
	}
	for i, p := range slices.Concat(points, extra) {
		at := byPoint[p]
		if len(at) == 0 {
			continue
		}
		sp, more, err := average(at, mat, s)
		lines = append(lines, more...)
		if err != nil {
			lines = append(lines, fmt.Sprintf("%s: not used: %v", pointWords(p), err))
			continue
		}
		sp.point, sp.listed = p, i < len(points)
		if !sp.listed && len(points) > 0 {
			lines = append(lines, pointWords(p)+": not one of the points asked for; used beside them")
		}
		list = append(list, sp)
	}
	return list, lines
}

// average joins the repeats at one point; readings with several instruments
// are joined by weight.
func average(at []take, mat *metrology.Material, s scale) (spot, []string, error) {
	var parts []spot
	var lines []string
	for len(at) > 0 {
		n := 1
		for n < len(at) && at[n].gauge.ID == at[0].gauge.ID && at[n].gauge.setting == at[0].gauge.setting &&
			at[n].gauge.Name == at[0].gauge.Name {
			n++
		}
		sp, more, err := repeats(at[:n], mat, s)
		lines = append(lines, more...)
		if err != nil {
			return spot{}, lines, err
		}
		parts, at = append(parts, sp), at[n:]
	}
	if len(parts) == 1 {
		return parts[0], lines, nil
	}
	sp, more, err := weigh(parts, s)
	return sp, append(lines, more...), err
}

// repeats averages readings of one point with one instrument.
func repeats(at []take, mat *metrology.Material, s scale) (spot, []string, error) {
	g, finest := *at[0].gauge, 0.0
	values := make([]float64, len(at))
	warmth, shift, corrected := 0.0, 0.0, false
	for i, t := range at {
		if t.gauge.Step > g.Step {
			g = *t.gauge
		}
		finest, values[i] = finer(finest, t.step), t.value
		if t.temp == nil || mat == nil {
			continue
		}
		e, err := metrology.ToReference(metrology.Estimate{Value: t.value}, *mat, metrology.Estimate{Value: *t.temp, U: tempU})
		if err != nil {
			return spot{}, nil, err
		}
		shift += (e.Value - t.value) / float64(len(at))
		values[i], warmth, corrected = e.Value, max(warmth, e.U), true
	}
	slices.Sort(values)
	r, err := metrology.Combine(values, g.Instrument)
	if err != nil {
		return spot{}, nil, err
	}
	e := r.Estimate
	e.U = metrology.SumSquares(e.U, warmth) // all repeats share the temperature's error
	if r.U > 0 {
		e.Dof *= math.Pow(e.U/r.U, 4) // what is added has no limit of freedom
	}
	var warm *float64
	if corrected {
		warm = &shift
	}
	sp := spot{est: e, random: r.Random, count: len(at), gauge: g, step: finest}
	return sp, repeatWords(at, r, e, g, s, warm), nil
}

// tempU is the standard uncertainty of a temperature noted at the bench:
// within ±1 °C. Source: common practice, no source.
var tempU = metrology.FromHalfWidth(1)

// weigh joins means with several instruments, each by 1/u²; where they
// disagree by more than their uncertainties allow, the uncertainty is
// stretched by the ratio (Birge).
func weigh(parts []spot, s scale) (spot, []string, error) {
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
		return spot{}, nil, err
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
	ratio := math.Sqrt(chi / float64(len(parts)-1))
	lines := []string{fmt.Sprintf("%d instruments at one point, weighed by their uncertainty", len(parts))}
	if ratio > 1 {
		e.U *= ratio
		lines = append(lines, fmt.Sprintf("they disagree; uncertainty stretched %.1f times", ratio))
	}
	g := best.gauge
	g.Instrument.ID, g.setting = "", "" // a mixture shares its error with nothing
	return spot{est: e, random: best.random, count: n, gauge: g, step: best.step}, lines, nil
}

// metal finds the one known material of some parts, nil if it is unknown or
// they differ.
func (b *bench) metal(parts ...*machine.Part) *metrology.Material {
	var found *metrology.Material
	for _, p := range parts {
		if p == nil {
			return nil
		}
		mat := b.metalNamed(p.Material)
		if mat == nil || found != nil && found.ID != mat.ID {
			return nil
		}
		found = mat
	}
	return found
}

// metalNamed reads a material as a kit writes it: "cast iron", "grey iron",
// "steel, hardened". A name that speaks of two metals is neither.
func (b *bench) metalNamed(words string) *metrology.Material {
	words = strings.ReplaceAll(strings.ToLower(words), "-", " ")
	words = strings.ReplaceAll(words, "grey iron", "cast iron")
	var found *metrology.Material
	for i := range b.metals {
		if strings.Contains(words, strings.ReplaceAll(b.metals[i].ID, "-", " ")) {
			if found != nil {
				return nil
			}
			found = &b.metals[i]
		}
	}
	return found
}
