package engine

import (
	"fmt"
	"math"

	"matchmark/internal/trade/metrology"
)

// Swept is the displacement in cm³: π/4·bore²·stroke·cylinders, sizes in mm.
// Errors: RangeError for a size that is not above zero or no cylinder.
func Swept(boreMM, strokeMM float64, cylinders int) (float64, error) {
	if err := aboveZero(amount{"bore, mm", boreMM}, amount{"stroke, mm", strokeMM}, amount{"number of cylinders", float64(cylinders)}); err != nil {
		return 0, err
	}
	return disc(boreMM, strokeMM) * float64(cylinders), nil
}

// disc is the volume in cm³ of a round of a diameter and a height in mm.
func disc(diameterMM, heightMM float64) float64 {
	return math.Pi / 4 * diameterMM * diameterMM * heightMM / 1000
}

// PistonSpeed is the mean speed in m/s: 2·stroke·n/60.
// Errors: RangeError for a figure that is not above zero.
func PistonSpeed(strokeMM, rpm float64) (float64, error) {
	if err := aboveZero(amount{"stroke, mm", strokeMM}, amount{"speed, rev/min", rpm}); err != nil {
		return 0, err
	}
	return 2 * strokeMM / 1000 * rpm / 60, nil
}

// RatedSpeed is the range of rated speed in rev/min that a stroke in mm allows
// at 6.5 to 9 m/s, the custom of this class of engine (common practice, no
// source): a bound for a lost plate, not a setting.
// Errors: RangeError for a stroke that is not above zero.
func RatedSpeed(strokeMM float64) (Range, error) {
	if err := aboveZero(amount{"stroke, mm", strokeMM}); err != nil {
		return Range{}, err
	}
	return Range{Lo: 30 * 6.5 / strokeMM * 1000, Hi: 30 * 9 / strokeMM * 1000}, nil
}

// Ratio is the compression ratio (swept + clearance)/clearance of one
// cylinder, volumes in one unit. It is not swept over clearance.
// Errors: RangeError for a volume that is not above zero.
func Ratio(swept, clearance float64) (float64, error) {
	if err := aboveZero(amount{"swept volume", swept}, amount{"clearance volume", clearance}); err != nil {
		return 0, err
	}
	return (swept + clearance) / clearance, nil
}

// Volume is a part of the clearance volume in cm³ as it was measured or
// reckoned; below zero for what fills it, as a raised crown.
type Volume struct {
	Name string
	CM3  metrology.Estimate
}

// GasketVolume is the ring of room in cm³ within a gasket: its fire ring's
// bore and its thickness when crushed, both in mm with their uncertainty.
// The same serves for a piston that stops below the deck.
// Errors: RangeError for a size that is not above zero.
func GasketVolume(boreMM, thickMM metrology.Estimate) (Volume, error) {
	if err := firstErr(boreMM.Check(), thickMM.Check(), aboveZero(amount{"bore of the gasket, mm", boreMM.Value}, amount{"crushed thickness, mm", thickMM.Value})); err != nil {
		return Volume{}, err
	}
	v := disc(boreMM.Value, thickMM.Value)
	return Volume{"gasket", metrology.Estimate{Value: v, U: v * math.Hypot(2*boreMM.U/boreMM.Value, thickMM.U/thickMM.Value)}}, nil
}

func firstErr(errs ...error) error {
	for _, err := range errs {
		if err != nil {
			return err
		}
	}
	return nil
}

// Compression is a compression ratio found by fluid.
type Compression struct {
	Ratio     metrology.Estimate
	SweptCM3  metrology.Estimate
	Clearance metrology.Estimate
	PerCM3    float64 // what one cm³ more clearance does to the ratio, below zero
}

// ByFluid gives the compression ratio of one cylinder from bore and stroke in
// mm and all parts of its clearance volume, with its standard uncertainty by
// the first-order rule (GUM 5.1.2); what is shared between parts is not known
// of. At 22:1 a half cm³ in 17 moves the ratio by 0.6: use a burette.
// Errors: RangeError for an estimate that cannot be used, a size or a sum of
// volumes that is not above zero; no volumes.
func ByFluid(boreMM, strokeMM metrology.Estimate, parts []Volume) (Compression, error) {
	if len(parts) == 0 {
		return Compression{}, metrology.RangeError{Field: "number of clearance volumes", Got: 0, Want: "one or more"}
	}
	if err := firstErr(boreMM.Check(), strokeMM.Check(), aboveZero(amount{"bore, mm", boreMM.Value}, amount{"stroke, mm", strokeMM.Value})); err != nil {
		return Compression{}, err
	}
	list, ones := make([]metrology.Estimate, 0, len(parts)), make([]float64, 0, len(parts))
	for _, p := range parts {
		if err := p.CM3.Check(); err != nil {
			return Compression{}, fmt.Errorf("volume %q: %w", p.Name, err)
		}
		list, ones = append(list, p.CM3), append(ones, 1)
	}
	vc, err := metrology.Weighted(list, ones)
	if err != nil {
		return Compression{}, err
	}
	if err := aboveZero(amount{"sum of clearance volumes, cm³", vc.Value}); err != nil {
		return Compression{}, err
	}
	c := Compression{Clearance: vc}
	c.SweptCM3.Value = disc(boreMM.Value, strokeMM.Value)
	c.SweptCM3.U = c.SweptCM3.Value * math.Hypot(2*boreMM.U/boreMM.Value, strokeMM.U/strokeMM.Value)
	share := c.SweptCM3.Value / vc.Value
	c.Ratio = metrology.Estimate{Value: 1 + share, U: share * math.Hypot(c.SweptCM3.U/c.SweptCM3.Value, vc.U/vc.Value)}
	c.PerCM3 = -share / vc.Value
	return c, nil
}
