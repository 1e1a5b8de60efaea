package power

import (
	"fmt"
	"math"
	"strings"

	"matchmark/internal/trade/coating"
	"matchmark/internal/trade/metrology"
)

// The reference state of ISO 1585: 99 kPa dry and 25 °C, with T = t + 273.
const (
	ReferenceKPa    = 99.0
	ReferenceVapour = 1.0 // kPa; 100 kPa in all
	ReferenceC      = 25.0
	zeroC           = 273.0
)

// Intake is how a diesel breathes.
type Intake string

const (
	Natural Intake = "natural" // also a mechanical charger
	Turbo   Intake = "turbo"   // without charge air cooler
)

// Edition names where the bounds of the engine factor come from.
type Edition string

// The formula is one, its bounds are not: between them f_m = 0.036·q_c − 1.14.
const (
	Bounds40 Edition = "ISO 1585:1992, bounds 40 and 65 mg/(L·cycle), from memory"
	Bounds37 Edition = "later editions, bounds 37.2 and 65 mg/(L·cycle), read in a service manual of a diesel's maker"
)

// Air is the air of a test: barometer in kPa, °C, relative humidity in %.
type Air struct{ Barometer, Celsius, Humidity float64 }

// Dry is the pressure of the dry air, kPa: barometer less vapour. Method:
// Magnus for the vapour, see coating.Vapour. Errors: RangeError.
func (a Air) Dry() (float64, error) {
	if err := metrology.Within("barometer, kPa", a.Barometer, 60, 110, "60 to 110 kPa"); err != nil {
		return 0, err
	}
	if err := metrology.Within("relative humidity, %", a.Humidity, 0, 100, "0 to 100 %"); err != nil {
		return 0, err
	}
	hPa, err := coating.Vapour(a.Celsius)
	if err != nil {
		return 0, err
	}
	return a.Barometer - a.Humidity/100*hPa/10, nil
}

// AirFactor is f_a of ISO 1585 for a diesel from dry pressure (kPa) and
// temperature (°C): (99/p)·(T/298)^0.7, and with a turbocharger
// (99/p)^0.7·(T/298)^1.5. Errors: RangeError; IntakeError.
func AirFactor(dryKPa, celsius float64, in Intake) (float64, error) {
	if err := metrology.Within("dry pressure, kPa", dryKPa, 60, 110, "60 to 110 kPa, the vapour taken off"); err != nil {
		return 0, err
	}
	if err := metrology.Within("temperature of the intake air, °C", celsius, -20, 50, "-20 to 50 °C"); err != nil {
		return 0, err
	}
	p, t := ReferenceKPa/dryKPa, (celsius+zeroC)/(ReferenceC+zeroC)
	switch in {
	case Natural:
		return p * math.Pow(t, 0.7), nil
	case Turbo:
		return math.Pow(p, 0.7) * math.Pow(t, 1.5), nil
	}
	return 0, IntakeError{Got: in}
}

// IntakeError says that an intake is not that of a diesel known here.
type IntakeError struct{ Got Intake }

func (e IntakeError) Error() string {
	return fmt.Sprintf("intake is %q; natural or turbo, of a diesel, was wanted", string(e.Got))
}

// FuelPerCycle is q, mg of fuel for each litre and cycle of a four-stroke:
// 120000·(g/s)/(L·rpm). With a turbocharger it is divided by the boost ratio.
// Errors: RangeError.
func FuelPerCycle(gramsPerSecond, litres, rpm float64) (float64, error) {
	err := metrology.Positives("fuel, g/s", gramsPerSecond, "displacement, L", litres, "engine speed, rpm", rpm)
	return metrology.Unless(err, 120000*gramsPerSecond/(litres*rpm))
}

// EngineFactor is f_m of ISO 1585 from q_c (mg/(L·cycle)): 0.036·q_c − 1.14
// between the bounds of an edition, constant outside: 0.3 below 40 or 0.2
// below 37.2, 1.2 above 65. Errors: RangeError; EditionError.
func EngineFactor(qc float64, ed Edition) (float64, error) {
	if err := metrology.Within("fuel per litre and cycle, mg", qc, 1, 200, "1 to 200 mg"); err != nil {
		return 0, err
	}
	bound, below := 40.0, 0.3
	switch ed {
	case Bounds40:
	case Bounds37:
		bound, below = 37.2, 0.2
	default:
		return 0, EditionError{Got: ed}
	}
	switch {
	case qc < bound:
		return below, nil
	case qc > 65:
		return 1.2, nil
	}
	return 0.036*qc - 1.14, nil
}

// EditionError says that no such bounds are known.
type EditionError struct{ Got Edition }

func (e EditionError) Error() string {
	return fmt.Sprintf("edition is %q; %q or %q was wanted", string(e.Got), string(Bounds40), string(Bounds37))
}

// Corrected is a power brought to the standard atmosphere.
type Corrected struct {
	KW     float64
	Factor float64 // α
	Air    float64 // f_a
	Engine float64 // f_m
	Doubts []string
}

// Test is a power test of a diesel.
type Test struct {
	KW      float64
	DryKPa  float64
	Celsius float64
	QC      float64 // fuel per litre and cycle, mg
	Intake  Intake
	Edition Edition
}

// Correct brings a diesel's power to the standard atmosphere: P·f_a^f_m.
// Method: ISO1585. Outside α 0.9 to 1.1, 10 to 40 °C or 80 to 110 kPa the
// figure stands with a doubt beside it. Errors: RangeError, IntakeError,
// EditionError.
func (t Test) Correct() (Corrected, error) {
	if err := metrology.Positive("power measured, kW", t.KW); err != nil {
		return Corrected{}, err
	}
	fa, err := AirFactor(t.DryKPa, t.Celsius, t.Intake)
	if err != nil {
		return Corrected{}, err
	}
	fm, err := EngineFactor(t.QC, t.Edition)
	if err != nil {
		return Corrected{}, err
	}
	alpha := math.Pow(fa, fm)
	c := Corrected{KW: t.KW * alpha, Factor: alpha, Air: fa, Engine: fm}
	if alpha < 0.9 || alpha > 1.1 {
		c.Doubts = append(c.Doubts, fmt.Sprintf("factor %.3f is outside 0.9 to 1.1", alpha))
	}
	if t.Celsius < 10 || t.Celsius > 40 {
		c.Doubts = append(c.Doubts, fmt.Sprintf("air of %g °C is outside 10 to 40 °C", t.Celsius))
	}
	if t.DryKPa < 80 {
		c.Doubts = append(c.Doubts, fmt.Sprintf("dry pressure of %g kPa is under 80 kPa", t.DryKPa))
	}
	return c, nil
}

// Says is the doubts as one sentence, empty where there are none.
func (c Corrected) Says() string { return strings.Join(c.Doubts, "; ") }

// Thinner is the density of the standard atmosphere at a height over the sea
// (m) as a share of that at the sea: (1 − 0.0065·h/288.15)^4.25588. Source:
// ISO2533. Errors: RangeError outside −500 to 11000 m.
func Thinner(height float64) (float64, error) {
	if err := metrology.Within("height over the sea, m", height, -500, 11000, "-500 to 11000 m"); err != nil {
		return 0, err
	}
	const g, r, lapse, t0 = 9.80665, 287.05287, 0.0065, 288.15
	return math.Pow(1-lapse*height/t0, g/(r*lapse)-1), nil
}
