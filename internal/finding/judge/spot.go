package judge

import (
	"cmp"
	"fmt"
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
	gauge  *gauge
	step   float64          // finest step typed
	parts  []metrology.Part // what est.U is made of
	warm   warmth
	apart  string // a repeat that stands apart, with its unit
}

// warmth is what bringing a point to 20 °C adds to its uncertainty.
type warmth struct {
	part    machine.PartID // whose metal it is, where it is a surface of one
	celsius float64
	noted   bool    // one temperature was noted for all readings of the point
	heat    float64 // from the thermometer
	alloy   float64 // from the metal's coefficient
}

// take is one usable reading.
type take struct {
	value float64
	step  float64
	point machine.Point
	gauge *gauge
	temp  *float64
	typed string
}

// usable turns readings into takes and says which could not be used and why.
// Takes come out in an order that does not depend on when they were taken.
func (b *bench) usable(readings []*machine.Reading, usual string, s scale, size bool) (good []take, lines []string) {
	good = make([]take, 0, len(readings))
	for _, r := range readings {
		v, step, err := s.hold(r.Amount)
		if k := b.correction(r, usual, s); k != nil {
			v -= k.shift.Value
			if !slices.Contains(lines, k.words) {
				lines = append(lines, k.words)
			}
		}
		switch {
		case err != nil:
			lines = append(lines, fmt.Sprintf("not used: %v", err))
			continue
		case size && !(v > 0):
			lines = append(lines, fmt.Sprintf("not used: %s is no size; a size is above zero", typed(r.Amount)))
			continue
		}
		good = append(good, take{v, step, machine.Point{Level: r.Level, Axis: r.Axis}, b.gaugeOf(r, usual, s, v, step), r.TempC, r.Amount.Typed})
	}
	slices.Sort(lines)
	slices.SortStableFunc(good, func(a, b take) int {
		return cmp.Or(strings.Compare(a.point.Level, b.point.Level), strings.Compare(a.point.Axis, b.point.Axis),
			strings.Compare(a.gauge.ID, b.gauge.ID), strings.Compare(a.gauge.setting, b.gauge.setting), strings.Compare(a.gauge.setEntry(), b.gauge.setEntry()),
			cmp.Compare(a.value, b.value), cmp.Compare(a.step, b.step), compareTemps(a.temp, b.temp), strings.Compare(a.typed, b.typed))
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
func (b *bench) spots(takes []take, points []machine.Point, mat *metrology.Material, s scale) (list []*spot, lines []string) {
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
func average(at []take, mat *metrology.Material, s scale) (*spot, []string, error) {
	var parts []*spot
	var lines []string
	for len(at) > 0 {
		n := 1
		for n < len(at) && at[n].gauge.ID == at[0].gauge.ID && at[n].gauge.setting == at[0].gauge.setting &&
			at[n].gauge.set == at[0].gauge.set && at[n].gauge.Name == at[0].gauge.Name {
			n++
		}
		sp, more, err := repeats(at[:n], mat, s)
		lines = append(lines, more...)
		if err != nil {
			return nil, lines, err
		}
		parts, at = append(parts, sp), at[n:]
	}
	if len(parts) == 1 {
		return parts[0], lines, nil
	}
	sp, more, err := weigh(parts)
	return sp, append(lines, more...), err
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
