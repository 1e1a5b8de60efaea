package gear

import (
	"fmt"
	"math"

	"matchmark/internal/trade/metrology"
)

// StandardPTO is the speed of the usual rear power take-off, rev/min.
// Source: [ISO500] part 1, from memory.
const StandardPTO = 540.0

// Choice is one selection of levers: its name and the path it drives through.
type Choice struct {
	Name string
	Path Path
}

// Selected is what a choice does.
type Selected struct {
	Name     string
	Ratio    Ratio
	Backward bool    // turns the wheels against the first choice of the list
	KMH      float64 // on the road, 0 where no tyre was given
}

// Road is what stands between engine and road for every choice.
type Road struct {
	EngineRPM       float64
	Final           Path    // behind the gearbox: crown wheel, bull gears
	RollingRadiusMM float64 // 0 where the tyre is not known
}

// Drive lists ratio and road speed of every choice, in the order given, a
// forward gear first: which way that drives lies in parts that no count shows.
// Errors: a choice that cannot be, naming it; RangeError as RoadSpeed; a name
// used twice.
func (r Road) Drive(choices []Choice) ([]Selected, error) {
	seen, out := map[string]bool{}, make([]Selected, 0, len(choices))
	for _, c := range choices {
		if seen[c.Name] {
			return nil, fmt.Errorf("gear %q is given twice", c.Name)
		}
		seen[c.Name] = true
		whole := append(append(Path{}, c.Path...), r.Final...)
		ratio, err := whole.Ratio()
		if err != nil {
			return nil, fmt.Errorf("gear %q: %w", c.Name, err)
		}
		s := Selected{Name: c.Name, Ratio: ratio}
		if r.RollingRadiusMM != 0 {
			if s.KMH, err = RoadSpeed(r.EngineRPM, ratio.Value(), r.RollingRadiusMM); err != nil {
				return nil, fmt.Errorf("gear %q: %w", c.Name, err)
			}
		}
		s.Backward = len(out) > 0 && ratio.Reversed != out[0].Ratio.Reversed
		out = append(out, s)
	}
	return out, nil
}

// RoadSpeed is km/h without slip: engine speed over ratio, times the way of one
// turn. A pulling wheel slips 5 to 15 % of it (common practice, no source).
// Errors: RangeError for a figure that is not above zero.
func RoadSpeed(engineRPM, ratio, rollingRadiusMM float64) (float64, error) {
	if err := above(amount{"engine speed, rev/min", engineRPM}, amount{"ratio", ratio}, amount{"rolling radius, mm", rollingRadiusMM}); err != nil {
		return 0, err
	}
	return engineRPM / ratio * 2 * math.Pi * rollingRadiusMM * 60 / 1e6, nil
}

// RollingRadius is mm, from the way in mm that the tractor went, rolled by
// hand on hard ground, in some turns of the wheel: way/(2π·turns). It is less
// than half the diameter of the free tyre.
// Errors: RangeError for a figure that is not above zero.
func RollingRadius(wayMM, turns float64) (float64, error) {
	if err := above(amount{"way, mm", wayMM}, amount{"turns of the wheel", turns}); err != nil {
		return 0, err
	}
	return wayMM / (2 * math.Pi * turns), nil
}

// PTOSpeed is the speed of the power take-off at an engine speed, rev/min.
// Errors: RangeError for a figure that is not above zero.
func PTOSpeed(engineRPM, ratio float64) (float64, error) {
	if err := above(amount{"engine speed, rev/min", engineRPM}, amount{"ratio", ratio}); err != nil {
		return 0, err
	}
	return engineRPM / ratio, nil
}

// EngineFor is the engine speed that gives a speed of the power take-off, as
// StandardPTO. Errors: RangeError for a figure that is not above zero.
func EngineFor(ptoRPM, ratio float64) (float64, error) {
	if err := above(amount{"power take-off speed, rev/min", ptoRPM}, amount{"ratio", ratio}); err != nil {
		return 0, err
	}
	return ptoRPM * ratio, nil
}

// amount is a figure with the name an error gives it.
type amount struct {
	name string
	got  float64
}

func above(list ...amount) error {
	for _, a := range list {
		if !(a.got > 0) || math.IsInf(a.got, 0) {
			return metrology.RangeError{Field: a.name, Got: a.got, Want: "above zero"}
		}
	}
	return nil
}
