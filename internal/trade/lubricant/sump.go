package lubricant

import "matchmark/internal/trade/metrology"

// Sump is a pan with straight sloping walls: the plan at the floor and at the
// rim, and the height between, mm. A box has both plans alike. What stands in
// it (baffles, pick-up) and a domed floor are not seen: mark the stick by a
// measured fill.
type Sump struct {
	FloorLength, FloorWidth float64
	RimLength, RimWidth     float64
	Height                  float64
}

// Check reports why a sump cannot be reckoned with, or nil. Errors:
// RangeError.
func (s Sump) Check() error {
	return metrology.Positives("length of the floor, mm", s.FloorLength, "width of the floor, mm", s.FloorWidth,
		"length of the rim, mm", s.RimLength, "width of the rim, mm", s.RimWidth, "height, mm", s.Height)
}

// Litres is the oil below a depth (mm) over the floor: h/6·(A₀ + 4Aₘ + A₁),
// the prismoidal rule, exact for straight walls. Errors: RangeError for a
// depth below 0 or over the rim.
func (s Sump) Litres(depth float64) (float64, error) {
	if err := s.Check(); err != nil {
		return 0, err
	}
	if err := metrology.Within("depth of the oil, mm", depth, 0, s.Height, "0 to the height of the pan"); err != nil {
		return 0, err
	}
	return depth / 6 * (s.plan(0) + 4*s.plan(depth/2) + s.plan(depth)) / 1e6, nil
}

// plan is the area at a height over the floor, mm².
func (s Sump) plan(h float64) float64 {
	f := h / s.Height
	return (s.FloorLength + f*(s.RimLength-s.FloorLength)) * (s.FloorWidth + f*(s.RimWidth-s.FloorWidth))
}

// Depth is where a filling (litres) stands over the floor, mm: Litres turned
// round by halving, to 1e-9 mm. Errors: RangeError where it runs over.
func (s Sump) Depth(litres float64) (float64, error) {
	full, err := s.Litres(s.Height)
	if err != nil {
		return 0, err
	}
	if err := metrology.Within("oil, litres", litres, 0, full, "no more than the pan holds"); err != nil {
		return 0, err
	}
	low, high := 0.0, s.Height
	for high-low > 1e-9 {
		mid := (low + high) / 2
		if v, _ := s.Litres(mid); v < litres {
			low = mid
		} else {
			high = mid
		}
	}
	return (low + high) / 2, nil
}
