package fastener

import (
	"cmp"
	"fmt"
	"math"
	"slices"

	"matchmark/internal/trade/metrology"
)

// Bolt is the place of a bolt, in any unit of length, x to the right and y up.
// Number is its name in the field and breaks ties: the lower one first.
// Bolts of one Group are tightened together; leave it empty where all are
// alike.
type Bolt struct {
	Number int
	X, Y   float64
	Group  string
}

// Circle is n bolts evenly on a circle of diameter d, numbered clockwise from
// the top.
func Circle(n int, d float64) []Bolt {
	var out []Bolt
	for i := range n {
		sin, cos := math.Sincos(2 * math.Pi * float64(i) / float64(n))
		out = append(out, Bolt{Number: i + 1, X: d / 2 * sin, Y: d / 2 * cos})
	}
	return out
}

// Rows is r rows of c bolts, pitch apart both ways, numbered down each column
// from the left: two rows of five have 1 at the top left, 2 below it.
func Rows(r, c int, pitch float64) []Bolt {
	var out []Bolt
	for col := range c {
		for row := range r {
			out = append(out, Bolt{Number: col*r + row + 1, X: float64(col) * pitch, Y: float64(r-1-row) * pitch})
		}
	}
	return out
}

// near is the share of the size of a field within which distances are equal.
const near = 1e-6

// mostBolts is the largest field that is taken.
const mostBolts = 500

// field is one group of bolts about its centroid, with its size as unit, so
// that place and unit of the drawing do not matter.
type field struct {
	bolts []Bolt // by number; X, Y from the centroid over the size
}

// fieldOf centres the bolts. Errors: none, more than mostBolts, a place that
// is not finite, two on one place, a number used twice.
func fieldOf(bolts []Bolt) (field, error) {
	if len(bolts) == 0 || len(bolts) > mostBolts {
		return field{}, metrology.RangeError{Field: "number of bolts", Got: float64(len(bolts)), Want: fmt.Sprintf("1 to %d", mostBolts)}
	}
	f := field{bolts: slices.Clone(bolts)}
	slices.SortFunc(f.bolts, func(a, b Bolt) int { return cmp.Compare(a.Number, b.Number) })
	x, y := 0.0, 0.0
	for i, b := range f.bolts {
		if !finite(b.X) || !finite(b.Y) {
			return field{}, fmt.Errorf("bolt %d lies at %g, %g; a finite place was wanted", b.Number, b.X, b.Y)
		}
		if i > 0 && f.bolts[i-1].Number == b.Number {
			return field{}, fmt.Errorf("bolt number %d is used twice; a number for each bolt was wanted", b.Number)
		}
		x, y = x+b.X/float64(len(bolts)), y+b.Y/float64(len(bolts))
	}
	size := 0.0
	for _, b := range f.bolts {
		size = max(size, math.Hypot(b.X-x, b.Y-y))
	}
	if len(bolts) > 1 && !(size > 0) || !finite(size) {
		return field{}, fmt.Errorf("bolts lie all in one place or beyond all floats; places apart were wanted")
	}
	for i := range f.bolts {
		if size > 0 {
			f.bolts[i].X, f.bolts[i].Y = (f.bolts[i].X-x)/size, (f.bolts[i].Y-y)/size
		}
	}
	for i, b := range f.bolts {
		for _, o := range f.bolts[:i] {
			if math.Hypot(b.X-o.X, b.Y-o.Y) <= near {
				return field{}, fmt.Errorf("bolts %d and %d lie in one place; places apart were wanted", o.Number, b.Number)
			}
		}
	}
	return f, nil
}

func finite(x float64) bool { return !math.IsNaN(x) && !math.IsInf(x, 0) && math.Abs(x) < 1e12 }

// out is the distance of a bolt from the centroid.
func (b Bolt) out() float64 { return math.Hypot(b.X, b.Y) }

func apart(a, b Bolt) float64 { return math.Hypot(a.X-b.X, a.Y-b.Y) }

// onCircle: all bolts lie equally far from the centroid.
func (f field) onCircle() bool {
	for _, b := range f.bolts {
		if math.Abs(b.out()-1) > near {
			return false
		}
	}
	return true
}

// collinear: all bolts lie on one line through the centroid.
func (f field) collinear() bool {
	far := slices.MaxFunc(f.bolts, func(a, b Bolt) int { return cmp.Compare(a.out(), b.out()) })
	for _, b := range f.bolts {
		if math.Abs(far.X*b.Y-far.Y*b.X) > near {
			return false
		}
	}
	return true
}

// round gives the bolts in order round the centroid from the first by number,
// clockwise, and whether they are evenly spaced on a circle.
func (f field) round() (order []int, even bool) {
	n := len(f.bolts)
	turn := func(i int) float64 { // clockwise from the first bolt, 0 to 2π
		a := math.Atan2(f.bolts[0].Y, f.bolts[0].X) - math.Atan2(f.bolts[i].Y, f.bolts[i].X)
		a = math.Mod(a+4*math.Pi, 2*math.Pi)
		if 2*math.Pi-a < near {
			a = 0
		}
		return a
	}
	for i := range n {
		order = append(order, i)
	}
	slices.SortFunc(order, func(a, b int) int { return cmp.Compare(turn(a), turn(b)) })
	even = f.onCircle()
	for k, i := range order {
		if math.Abs(turn(i)-2*math.Pi*float64(k)/float64(n)) > 2*near {
			even = false
		}
	}
	return order, even
}
