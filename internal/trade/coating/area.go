package coating

import (
	"math"

	"matchmark/internal/trade/metrology"
)

// The shapes take millimetres and give m², outside only unless said. Each
// refuses lengths that are not above 0 with a RangeError.

// Tube is the outside of a pipe or a rim: π·d·l.
func Tube(diameter, length float64) (float64, error) {
	return shape(math.Pi*diameter*length, "diameter, mm", diameter, "length, mm", length)
}

// Disc is both sides of a disc with a hole: π/2·(d² − h²). The hole may be 0.
func Disc(diameter, hole float64) (float64, error) {
	if err := metrology.Within("hole, mm", hole, 0, diameter, "0 to the diameter"); err != nil {
		return 0, err
	}
	return shape(math.Pi/2*(diameter*diameter-hole*hole), "diameter, mm", diameter)
}

// Drum is a closed cylinder: π·d·l + π/2·d².
func Drum(diameter, length float64) (float64, error) {
	return shape(math.Pi*diameter*length+math.Pi/2*diameter*diameter, "diameter, mm", diameter, "length, mm", length)
}

// Box is all six faces.
func Box(length, width, height float64) (float64, error) {
	return shape(2*(length*width+width*height+height*length), "length, mm", length, "width, mm", width, "height, mm", height)
}

// Cone is the side of a frustum: π/2·(D + d)·slant.
func Cone(large, small, height float64) (float64, error) {
	slant := math.Hypot((large-small)/2, height)
	return shape(math.Pi/2*(large+small)*slant, "large diameter, mm", large, "small diameter, mm", small, "height, mm", height)
}

// Fender is both sides of a bent sheet: 2·r·angle·width, the angle in degrees.
func Fender(radius, degrees, width float64) (float64, error) {
	if err := metrology.Within("arc, degrees", degrees, 1, 360, "1 to 360"); err != nil {
		return 0, err
	}
	return shape(2*radius*degrees*math.Pi/180*width, "radius, mm", radius, "width, mm", width)
}

// Dome is the outside of half a ball: π/2·d².
func Dome(diameter float64) (float64, error) {
	return shape(math.Pi/2*diameter*diameter, "diameter, mm", diameter)
}

// Sheet is both sides of a plate.
func Sheet(length, width float64) (float64, error) {
	return shape(2*length*width, "length, mm", length, "width, mm", width)
}

// Ring is a steering wheel's rim: 4π²·R·r, R to the middle of the rim, r its
// half thickness.
func Ring(middle, half float64) (float64, error) {
	if err := metrology.Within("half thickness, mm", half, 0, middle, "0 to the radius of the ring"); err != nil {
		return 0, err
	}
	return shape(4*math.Pi*math.Pi*middle*half, "radius of the ring, mm", middle, "half thickness, mm", half)
}

func shape(mm2 float64, lengths ...any) (float64, error) {
	return metrology.Unless(metrology.Positives(lengths...), mm2/1e6)
}
