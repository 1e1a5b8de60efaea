package electric

import (
	"fmt"

	"matchmark/internal/trade/metrology"
)

// Blade is a blade fuse. Source: ISO8820-3, colours from memory.
type Blade struct {
	Amps   float64
	Colour string
}

// Blades lists the usual blade fuses.
func Blades() []Blade {
	return []Blade{{3, "violet"}, {5, "tan"}, {7.5, "brown"}, {10, "red"}, {15, "blue"}, {20, "yellow"}, {25, "clear"}, {30, "green"}, {40, "orange/amber"}}
}

// continuous is the share of its rating that a fuse carries for good, common
// practice, no source.
const continuous = 0.8

// Fuse picks the blade fuse for a load (A): the smallest not under load/0.8,
// and never above what the wire carries (A). Errors: RangeError; WireError
// where the wire carries less than the fuse that the load needs: a larger
// wire is the only cure; RangeError for a load past the largest blade.
func Fuse(load, wire float64) (Blade, error) {
	if err := metrology.Positives("load, A", load, "what the wire carries, A", wire); err != nil {
		return Blade{}, err
	}
	const dust = 1e-9
	for _, b := range Blades() {
		if b.Amps < load/continuous-dust {
			continue
		}
		if b.Amps > wire {
			return Blade{}, WireError{Load: load, Wire: wire, Fuse: b.Amps}
		}
		return b, nil
	}
	return Blade{}, metrology.RangeError{Field: "load, A", Got: load, Want: "no more than 32 A on one blade fuse"}
}

// WireError says that no fuse fits between load and wire.
type WireError struct{ Load, Wire, Fuse float64 }

func (e WireError) Error() string {
	return fmt.Sprintf("wire carries %g A; a load of %g A wants a fuse of %g A, and a fuse is never above its wire: larger cable", e.Wire, e.Load, e.Fuse)
}

// Blow is how long a blade fuse stands a multiple of its rating, seconds.
// High is 0 where there is no upper bound.
type Blow struct{ Times, Low, High float64 }

// Blows lists the operating times of a blade fuse. A fuse does not blow at
// its rating. Source: ISO8820-3 type C, from memory; editions differ.
func Blows() []Blow {
	return []Blow{{1.10, 360000, 0}, {1.35, 0.75, 600}, {2.00, 0.15, 5}, {3.50, 0.08, 0.5}, {6.00, 0.03, 0.1}}
}
