package gear

import (
	"fmt"
	"math/big"

	"matchmark/internal/trade/metrology"
)

// Mesh is one engagement, in the direction of drive. Internal is a ring gear,
// which does not turn the sense of rotation round.
type Mesh struct {
	Driver, Driven int
	Internal       bool
}

// Path is the meshes from input to output, in order; each driven gear sits on
// the shaft of the next driver. An idler is the driven gear of one mesh and
// the driver of the next. An empty path is a direct drive.
type Path []Mesh

// Ratio is turns of the input for one of the output, In/Out in lowest terms.
type Ratio struct {
	In, Out  int64
	Reversed bool // output turns against the input
}

// Value is the ratio as a number.
func (r Ratio) Value() float64 { return float64(r.In) / float64(r.Out) }

func (r Ratio) String() string {
	sense := ""
	if r.Reversed {
		sense = ", reversed"
	}
	return fmt.Sprintf("%.4g (%d/%d%s)", r.Value(), r.In, r.Out, sense)
}

// Ratio is exact: the product of driven over driver teeth.
// Errors: RangeError for a tooth count outside 5 to 1000, or a ratio whose
// lowest terms do not fit 63 bits.
func (p Path) Ratio() (Ratio, error) {
	turns, err := p.turns()
	if err != nil {
		return Ratio{}, err
	}
	last := new(big.Rat).Inv(turns[len(turns)-1])
	if !last.Num().IsInt64() || !last.Denom().IsInt64() {
		return Ratio{}, metrology.RangeError{Field: "number of meshes in a path", Got: float64(len(p)), Want: "fewer: the ratio has too many digits"}
	}
	r := Ratio{In: last.Num().Int64(), Out: last.Denom().Int64()}
	for _, m := range p {
		r.Reversed = r.Reversed != !m.Internal
	}
	return r, nil
}

// turns is the turns of each shaft, input first, for one of the input.
func (p Path) turns() ([]*big.Rat, error) {
	all := []*big.Rat{big.NewRat(1, 1)}
	for i, m := range p {
		for _, z := range []int{m.Driver, m.Driven} {
			if z < leastTeeth || z > mostTeeth {
				return nil, metrology.RangeError{Field: fmt.Sprintf("teeth in mesh %d", i+1), Got: float64(z), Want: fmt.Sprintf("%d to %d", leastTeeth, mostTeeth)}
			}
		}
		all = append(all, new(big.Rat).Mul(all[i], big.NewRat(int64(m.Driver), int64(m.Driven))))
	}
	return all, nil
}

// Orders is what a path is heard at, in multiples of a reference speed: Shaft
// has one figure more than Mesh.
type Orders struct{ Shaft, Mesh []float64 }

// Orders gives speeds of shafts and meshes when the input turns at an order.
// A mesh sounds at its driver's order times its driver's teeth.
// Errors: as Ratio; RangeError for an order that is not above zero.
func (p Path) Orders(input float64) (Orders, error) {
	turns, err := p.turns()
	if err != nil {
		return Orders{}, err
	}
	if !(input > 0) {
		return Orders{}, metrology.RangeError{Field: "order of the input", Got: input, Want: "above zero"}
	}
	var o Orders
	for i, t := range turns {
		v, _ := t.Float64()
		o.Shaft = append(o.Shaft, v*input)
		if i < len(p) {
			o.Mesh = append(o.Mesh, v*input*float64(p[i].Driver))
		}
	}
	return o, nil
}

// Hunt is how two gears meet tooth by tooth.
type Hunt struct {
	Teeth    int  // tooth engagements until the same two teeth meet again
	TurnsA   int  // turns of the first gear until then
	TurnsB   int  // and of the second
	Partners int  // different teeth of B that one tooth of A meets
	Hunting  bool // every tooth meets every other: no common factor
}

// HuntingTooth is the repeat of a pair: lcm(z₁, z₂) teeth. A pair that does not
// hunt wears each tooth into its few partners, so a match mark matters.
// Errors: RangeError for a count outside 5 to 1000.
func HuntingTooth(a, b int) (Hunt, error) {
	for _, z := range []int{a, b} {
		if z < leastTeeth || z > mostTeeth {
			return Hunt{}, metrology.RangeError{Field: "number of teeth", Got: float64(z), Want: fmt.Sprintf("%d to %d", leastTeeth, mostTeeth)}
		}
	}
	g := gcd(a, b)
	return Hunt{Teeth: a / g * b, TurnsA: b / g, TurnsB: a / g, Partners: b / g, Hunting: g == 1}, nil
}

func gcd(a, b int) int {
	for b != 0 {
		a, b = b, a%b
	}
	return a
}

// MarksMeet is how many turns of the input bring every match mark of a path
// together again: the smallest count for which every shaft has made whole
// turns. Timing gears 24 and 48 meet every 2 turns of the crank.
// Errors: as Ratio; RangeError where the count does not fit 63 bits.
func (p Path) MarksMeet() (int64, error) {
	turns, err := p.turns()
	if err != nil {
		return 0, err
	}
	all := big.NewInt(1)
	for _, t := range turns {
		g := new(big.Int).GCD(nil, nil, all, t.Denom())
		all.Mul(all, new(big.Int).Quo(t.Denom(), g))
	}
	if !all.IsInt64() {
		return 0, metrology.RangeError{Field: "number of meshes in a path", Got: float64(len(p)), Want: "fewer: the marks practically never meet"}
	}
	return all.Int64(), nil
}
