package shim

import (
	"cmp"
	"fmt"
	"math"
	"slices"
	"strings"

	"matchmark/internal/trade/metrology"
)

// Bounds of what is taken for a shim.
const (
	thickest = 20.0 // mm
	mostKind = 1000 // pieces of one thickness
)

// Shim is one thickness in the drawer, or in a pack, and how many there are.
// Thickness is taken to the nearest µm.
type Shim struct {
	MM    float64
	Count int
}

// kind is a Shim in whole µm.
type kind struct{ um, count int }

// readStock merges equal thicknesses and puts the thickest first.
// Errors: no shim; RangeError for a thickness outside 0.001 to 20 mm or a
// count outside 0 to 1000.
func readStock(stock []Shim) ([]kind, error) {
	sum := map[int]int{}
	for _, s := range stock {
		if !(s.MM >= 0.001) || s.MM > thickest {
			return nil, metrology.RangeError{Field: "thickness of a shim, mm", Got: s.MM, Want: "0.001 to 20"}
		}
		if s.Count < 0 || s.Count > mostKind {
			return nil, metrology.RangeError{Field: fmt.Sprintf("number of shims of %g mm", s.MM), Got: float64(s.Count), Want: "0 to 1000"}
		}
		sum[int(math.Round(s.MM*1000))] += s.Count
	}
	var kinds []kind
	for um, count := range sum {
		if count > 0 {
			kinds = append(kinds, kind{um, count})
		}
	}
	if len(kinds) == 0 {
		return nil, fmt.Errorf("stock of shims is empty; one shim or more was wanted")
	}
	slices.SortFunc(kinds, func(a, b kind) int { return cmp.Compare(b.um, a.um) })
	return kinds, nil
}

// Pack is a pile of shims, the thickest first.
type Pack struct{ Shims []Shim }

// packOf makes a pack of uses, which name the thickest kind first.
func packOf(kinds []kind, uses []use) Pack {
	var p Pack
	for _, u := range uses {
		p.Shims = append(p.Shims, Shim{MM: float64(kinds[u.kind].um) / 1000, Count: u.n})
	}
	return p
}

// UM is the thickness of the pack in whole µm.
func (p Pack) UM() int {
	sum := 0
	for _, s := range p.Shims {
		sum += s.Count * int(math.Round(s.MM*1000))
	}
	return sum
}

// MM is the thickness of the pack in mm.
func (p Pack) MM() float64 { return float64(p.UM()) / 1000 }

// Count is the number of shims in the pack.
func (p Pack) Count() int {
	n := 0
	for _, s := range p.Shims {
		n += s.Count
	}
	return n
}

// Lay is the pack in the order to lay it: the thickest at the two outsides and
// the thin ones between, where they cannot curl. Common practice, no source.
func (p Pack) Lay() []float64 {
	var front, back []float64
	for _, s := range p.Shims {
		for range s.Count {
			if len(front) <= len(back) {
				front = append(front, s.MM)
			} else {
				back = append(back, s.MM)
			}
		}
	}
	slices.Reverse(back)
	return append(front, back...)
}

func (p Pack) String() string {
	if len(p.Shims) == 0 {
		return "no shim"
	}
	var words []string
	for _, s := range p.Shims {
		if s.Count == 1 {
			words = append(words, fmt.Sprintf("%.3f", s.MM))
		} else {
			words = append(words, fmt.Sprintf("%d × %.3f", s.Count, s.MM))
		}
	}
	return strings.Join(words, " + ")
}

// thickFirst orders packs by their thickest shims, and by more of them.
func thickFirst(a, b Pack) int {
	return slices.CompareFunc(b.Shims, a.Shims, func(x, y Shim) int {
		return cmp.Or(cmp.Compare(x.MM, y.MM), cmp.Compare(x.Count, y.Count))
	})
}
