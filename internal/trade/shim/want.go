package shim

import (
	"fmt"
	"math"

	"matchmark/internal/trade/metrology"
)

// Aim says which of the packs that do is best.
type Aim string

const (
	Fewest  Aim = "fewest"  // the fewest shims within the limits
	Nearest Aim = "nearest" // nearest to the target, then the fewest
	Surest  Aim = "surest"  // most likely to land in the limits, then the fewest
)

// Want is the thickness of pack that is wanted, in mm.
type Want struct {
	Lo, Target, Hi float64
	MaxShims       int     // 0 is no limit
	Aim            Aim     // empty is Fewest
	U              float64 // standard uncertainty of what is wanted, mm
	ShimU          float64 // standard uncertainty of each shim, mm
}

func (w Want) check() error {
	for _, c := range []struct {
		name string
		got  float64
		ok   bool
		want string
	}{
		{"upper limit of the pack, mm", w.Hi, w.Hi >= 0 && w.Hi <= 10*thickest, "0 to 200"},
		{"lower limit of the pack, mm", w.Lo, w.Lo <= w.Hi && !math.IsInf(w.Lo, 0), "at most the upper limit"},
		{"target of the pack, mm", w.Target, w.Target >= w.Lo && w.Target <= w.Hi, "within the limits"},
		{"most shims in a pack", float64(w.MaxShims), w.MaxShims >= 0, "zero (no limit) or more"},
		{"uncertainty of the gap, mm", w.U, w.U >= 0 && !math.IsInf(w.U, 0), "zero or more"},
		{"uncertainty of a shim, mm", w.ShimU, w.ShimU >= 0 && !math.IsInf(w.ShimU, 0), "zero or more"},
	} {
		if !c.ok {
			return metrology.RangeError{Field: c.name, Got: c.got, Want: c.want}
		}
	}
	return w.Aim.check()
}

func (a Aim) check() error {
	switch a {
	case "", Fewest, Nearest, Surest:
		return nil
	}
	return fmt.Errorf("aim %q is not known; %s, %s or %s was wanted", a, Fewest, Nearest, Surest)
}

// chance is the probability that a pack of um with n shims is what is wanted.
func (w Want) chance(um, n int) float64 {
	u := math.Sqrt(w.U*w.U + float64(n)*w.ShimU*w.ShimU)
	// whole µm may miss a limit by the rounding of a float only
	p, err := metrology.ConformProbability(float64(um)/1000, u, w.Lo-1e-9, w.Hi+1e-9)
	if err != nil {
		return 0 // check saw to the inputs
	}
	return p
}

// Sense says what a thicker pack does to the float that is read. The two occur
// side by side on one machine: ask, never assume.
type Sense string

const (
	Closes Sense = "closes" // under a thrust face or bucket: thicker is tighter
	Opens  Sense = "opens"  // under a cover or cap: thicker is looser
)

// Thickness is the pack that brings a float to its target, mm: fitted +
// measured − target where shims close it, fitted − measured + target where
// they open it. Float below zero is preload, so preload 0.03 is target −0.03.
// Errors: an unknown Sense; RangeError for a number that is not finite and for
// a fitted pack or an answer below zero.
func Thickness(fitted, measured, target float64, s Sense) (float64, error) {
	for name, v := range map[string]float64{"float, mm": measured, "target, mm": target} {
		if math.IsNaN(v) || math.IsInf(v, 0) {
			return 0, metrology.RangeError{Field: name, Got: v, Want: "a finite number"}
		}
	}
	if !(fitted >= 0) || math.IsInf(fitted, 0) {
		return 0, metrology.RangeError{Field: "pack as fitted, mm", Got: fitted, Want: "zero or more"}
	}
	pack := 0.0
	switch s {
	case Closes:
		pack = fitted + measured - target
	case Opens:
		pack = fitted - measured + target
	default:
		return 0, fmt.Errorf("sense of the shims is %q; %s or %s was wanted", s, Closes, Opens)
	}
	if pack < 0 {
		return 0, metrology.RangeError{Field: "pack that is wanted, mm", Got: pack, Want: "zero or more: even without shims the target is not met, so look for what stands wrong"}
	}
	return pack, nil
}

// Float is an end float, or below zero a preload, that is wanted, in mm.
type Float struct{ Lo, Target, Hi float64 }

// ForFloat turns the reading of a trial build into the pack that is wanted:
// fitted is the pack in the trial, measured the float read with it.
// Errors: as Thickness, for the target and the side of the thicker pack; a
// float with limits out of order.
func ForFloat(fitted float64, measured metrology.Estimate, f Float, s Sense, shimU float64) (Want, error) {
	if !(f.Lo <= f.Target) || !(f.Target <= f.Hi) {
		return Want{}, metrology.RangeError{Field: "target float, mm", Got: f.Target, Want: fmt.Sprintf("within its limits %g to %g", f.Lo, f.Hi)}
	}
	if err := measured.Check(); err != nil {
		return Want{}, fmt.Errorf("float as read: %w", err)
	}
	target, err := Thickness(fitted, measured.Value, f.Target, s)
	if err != nil {
		return Want{}, err
	}
	w := Want{Target: target, U: measured.U, ShimU: shimU}
	if s == Closes {
		w.Lo, w.Hi = target-(f.Hi-f.Target), target+(f.Target-f.Lo)
	} else {
		w.Lo, w.Hi = target-(f.Target-f.Lo), target+(f.Hi-f.Target)
	}
	return w, w.check()
}
