package draw

import (
	"math"
	"slices"
)

// centreLines draws the axes of the general arrangement through the parts that
// are there; one that stands runs through every place of those parts.
func (s *Sheet) centreLines() {
	for _, line := range generalAxes {
		var on []Mark
		for _, m := range s.Marks {
			if slices.Contains(line.sorts, SortOf(m.Item)) {
				on = append(on, m)
			}
		}
		if line.stand {
			s.standing(on)
		} else {
			s.lying(on)
		}
	}
}

// lying draws one level line through marks of about one height.
func (s *Sheet) lying(on []Mark) {
	if len(on) < 2 {
		return
	}
	y, from, to := 0.0, math.Inf(1), math.Inf(-1)
	for _, m := range on {
		y += m.At.middle().y / float64(len(on))
		from, to = min(from, m.At.x), max(to, m.At.right())
	}
	s.Axes = append(s.Axes, Axis{point{from - 14, y}, point{to + 14, y}})
}

// standing draws an upright line through each place of the family that stands,
// from the highest mark to the lowest.
func (s *Sheet) standing(on []Mark) {
	if len(on) < 2 {
		return
	}
	from, to := math.Inf(1), math.Inf(-1)
	var at []float64
	for _, m := range on {
		from, to = min(from, m.At.y), max(to, m.At.bottom())
		if x := math.Round(m.At.middle().x); m.Turned && !slices.Contains(at, x) {
			at = append(at, x)
		}
	}
	for _, x := range at {
		s.Axes = append(s.Axes, Axis{point{x, from - 12}, point{x, to + 8}})
	}
}
