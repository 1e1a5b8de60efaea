package coolant

import (
	"fmt"
	"math"

	"matchmark/internal/trade/metrology"
)

// Fill is some coolant: litres, and per cent by volume.
type Fill struct{ Litres, Percent float64 }

func percent(field string, p float64) error {
	return metrology.Within(field, p, 0, 100, "0 to 100 % by volume")
}

// Mix is what fills give together: Σ V·c / Σ V. Volumes are taken as adding
// up. Errors: RangeError, also for nothing at all.
func Mix(fills ...Fill) (Fill, error) {
	var sum Fill
	for i, f := range fills {
		if err := metrology.Within(fmt.Sprintf("litres of fill %d", i+1), f.Litres, 0, 1e6, "0 or more"); err != nil {
			return Fill{}, err
		}
		if err := percent(fmt.Sprintf("strength of fill %d", i+1), f.Percent); err != nil {
			return Fill{}, err
		}
		sum.Litres += f.Litres
		sum.Percent += f.Litres * f.Percent
	}
	if err := metrology.Positive("litres together", sum.Litres); err != nil {
		return Fill{}, err
	}
	sum.Percent /= sum.Litres
	return sum, nil
}

// Change is how many litres to drain and refill so that a full system comes
// from its strength to the wanted one: V·(want − now)/(refill − now). Water
// is a refill of 0. Errors: RangeError, and UnreachableError where the refill
// lies on the wrong side or is not strong enough.
func Change(system Fill, want, refill float64) (float64, error) {
	if err := metrology.Positive("litres of the system", system.Litres); err != nil {
		return 0, err
	}
	for _, in := range []struct {
		field string
		p     float64
	}{{"strength now", system.Percent}, {"strength wanted", want}, {"strength of the refill", refill}} {
		if err := percent(in.field, in.p); err != nil {
			return 0, err
		}
	}
	if want == system.Percent {
		return 0, nil
	}
	share := (want - system.Percent) / (refill - system.Percent)
	if math.IsNaN(share) || math.IsInf(share, 0) || share < 0 || share > 1 {
		return 0, UnreachableError{Now: system.Percent, Want: want, Refill: refill}
	}
	return system.Litres * share, nil
}

// UnreachableError says that no refill of that strength gives what is wanted.
type UnreachableError struct{ Now, Want, Refill float64 }

func (e UnreachableError) Error() string {
	return fmt.Sprintf("refill of %g %% cannot bring %g %% to %g %%; a refill on the far side of what is wanted was wanted", e.Refill, e.Now, e.Want)
}

// Cycles is the strength after n times draining so many litres of a full
// system and filling up with a refill, mixed well in between:
// refill + (now − refill)·(1 − drained/V)ⁿ. Errors: RangeError.
func Cycles(system Fill, drained, refill float64, n int) (float64, error) {
	if err := cyclable(system, drained); err != nil {
		return 0, err
	}
	if err := percent("strength of the refill", refill); err != nil {
		return 0, err
	}
	if err := metrology.Within("number of fills", float64(n), 0, 1000, "0 to 1000"); err != nil {
		return 0, err
	}
	return refill + (system.Percent-refill)*math.Pow(1-drained/system.Litres, float64(n)), nil
}

// Fills is how many fills of water leave less than a share (0 to 1) of the
// old coolant, when so many litres drain each time, and what share is left
// then. Errors: RangeError.
func Fills(litres, drained, share float64) (n int, left float64, err error) {
	if err := cyclable(Fill{Litres: litres}, drained); err != nil {
		return 0, 0, err
	}
	if err := metrology.Within("share of old coolant left", share, 0.001, 1, "0.001 to 1"); err != nil {
		return 0, 0, err
	}
	for left = 1; left >= share; n++ {
		left *= 1 - drained/litres
		if n > 10000 {
			return 0, 0, metrology.RangeError{Field: "litres drained", Got: drained, Want: "more of the system"}
		}
	}
	return n, left, nil
}

func cyclable(system Fill, drained float64) error {
	if err := metrology.Positive("litres of the system", system.Litres); err != nil {
		return err
	}
	if err := percent("strength now", system.Percent); err != nil {
		return err
	}
	if err := metrology.Positive("litres drained", drained); err != nil {
		return err
	}
	return metrology.Within("litres drained", drained, 0, system.Litres, "no more than the system holds")
}

// AfterFlush is what to pour into a system that was flushed with water and
// drained but for some litres that stay in the block: concentrate and water,
// litres. What stays counts as water. Errors: RangeError where the block
// holds too much for the wanted strength.
func AfterFlush(litres, stays, want, concentrate float64) (glycol, water float64, err error) {
	if err := metrology.Positive("litres of the system", litres); err != nil {
		return 0, 0, err
	}
	if err := metrology.Within("litres that stay in the block", stays, 0, litres, "0 to what the system holds"); err != nil {
		return 0, 0, err
	}
	if err := metrology.Within("strength of the concentrate", concentrate, 1, 100, "1 to 100 % by volume"); err != nil {
		return 0, 0, err
	}
	if err := metrology.Within("strength wanted", want, 0, concentrate*(litres-stays)/litres, "what fits beside the water that stays"); err != nil {
		return 0, 0, err
	}
	glycol = litres * want / concentrate
	return glycol, max(litres-stays-glycol, 0), nil
}
