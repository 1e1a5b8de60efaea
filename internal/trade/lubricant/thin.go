package lubricant

import (
	"math"

	"matchmark/internal/trade/metrology"
)

// Thinning is how an oil thins with heat: log log (v + 0.7) = A − B·log T
// with T in kelvin and logarithms to base 10. Lo and Hi are the temperatures
// (°C) it was drawn through. Source: D341, short form, for 2 mm²/s and above.
type Thinning struct {
	A, B   float64
	Lo, Hi float64
}

const (
	kelvin   = 273.15
	thinnest = 2.0 // mm²/s; below it D341 wants its long form
	coldest  = -40 // °C; colder, and hotter than hottest, nothing is given
	hottest  = 200
)

// Through draws the line through two measured viscosities (mm²/s) at two
// temperatures (°C). Errors: RangeError for a viscosity under 2, equal or
// far-off temperatures, and an oil that would thicken with heat.
func Through(t1, v1, t2, v2 float64) (Thinning, error) {
	if t1 > t2 {
		t1, v1, t2, v2 = t2, v2, t1, v1
	}
	for _, err := range []error{temperature("first temperature, °C", t1), temperature("second temperature, °C", t2),
		metrology.Within("viscosity at the first temperature, mm²/s", v1, thinnest, 1e7, "2 to 10 million"),
		metrology.Within("viscosity at the second temperature, mm²/s", v2, thinnest, 1e7, "2 to 10 million")} {
		if err != nil {
			return Thinning{}, err
		}
	}
	if t2-t1 < 5 {
		return Thinning{}, metrology.RangeError{Field: "distance of the temperatures, K", Got: t2 - t1, Want: "5 or more"}
	}
	if v2 >= v1 {
		return Thinning{}, metrology.RangeError{Field: "viscosity at the higher temperature, mm²/s", Got: v2, Want: "less than at the lower"}
	}
	w1, w2 := loglog(v1), loglog(v2)
	l1, l2 := math.Log10(t1+kelvin), math.Log10(t2+kelvin)
	b := (w1 - w2) / (l2 - l1)
	return Thinning{A: w1 + b*l1, B: b, Lo: t1, Hi: t2}, nil
}

// Pair draws the line through the usual two figures of a data sheet: mm²/s
// at 40 and at 100 °C. Errors: as Through.
func Pair(kv40, kv100 float64) (Thinning, error) { return Through(40, kv40, 100, kv100) }

func temperature(field string, c float64) error {
	return metrology.Within(field, c, coldest, hottest, "-40 to 200 °C")
}

func loglog(v float64) float64 { return math.Log10(math.Log10(v + 0.7)) }

// Thickness is a viscosity with how far outside the measured temperatures it
// was reckoned; Beyond is 0 between them.
type Thickness struct {
	MM2S   float64
	Beyond float64 // K
}

// Marked tells whether the figure lies outside what was measured: true oils
// thicken faster than the line near their pour point.
func (t Thickness) Marked() bool { return t.Beyond > 0 }

// At gives the kinematic viscosity at a temperature (°C). Errors: RangeError
// outside −40 to 200 °C and where the oil gets thinner than 2 mm²/s.
func (th Thinning) At(c float64) (Thickness, error) {
	if err := temperature("temperature, °C", c); err != nil {
		return Thickness{}, err
	}
	v := math.Pow(10, math.Pow(10, th.A-th.B*math.Log10(c+kelvin))) - 0.7
	if math.IsInf(v, 0) || math.IsNaN(v) || v < thinnest {
		return Thickness{}, metrology.RangeError{Field: "viscosity at that temperature, mm²/s", Got: finite(v), Want: "2 or more, where the short form of D341 holds"}
	}
	return Thickness{MM2S: v, Beyond: max(th.Lo-c, c-th.Hi, 0)}, nil
}

func finite(v float64) float64 {
	if math.IsInf(v, 0) || math.IsNaN(v) {
		return math.MaxFloat64
	}
	return v
}

// Temperature is where the oil has a viscosity (mm²/s): At turned round.
// Errors: RangeError, also where that would be outside −40 to 200 °C.
func (th Thinning) Temperature(v float64) (float64, error) {
	if err := metrology.Within("viscosity, mm²/s", v, thinnest, 1e7, "2 to 10 million"); err != nil {
		return 0, err
	}
	c := math.Pow(10, (th.A-loglog(v))/th.B) - kelvin
	return c, temperature("temperature of that viscosity, °C", c)
}

// Dynamic is the dynamic viscosity (mPa·s) of a kinematic one (mm²/s) and a
// density (g/cm³) at the same temperature: their product. Errors: RangeError.
func Dynamic(mm2s, density float64) (float64, error) {
	if err := metrology.Positive("viscosity, mm²/s", mm2s); err != nil {
		return 0, err
	}
	if err := metrology.Within("density, g/cm³", density, 0.7, 1.2, "0.7 to 1.2, as oils have"); err != nil {
		return 0, err
	}
	return mm2s * density, nil
}

// Density is an oil's density (g/cm³) at a temperature, from that at 15 °C:
// ρ·(1 − 0.00065·(t − 15)). Common practice, no source; mineral oils keep to
// it within a hundredth from 0 to 150 °C. Errors: RangeError.
func Density(at15, c float64) (float64, error) {
	if err := metrology.Within("density at 15 °C, g/cm³", at15, 0.7, 1.2, "0.7 to 1.2, as oils have"); err != nil {
		return 0, err
	}
	if err := temperature("temperature, °C", c); err != nil {
		return 0, err
	}
	return at15 * (1 - 0.00065*(c-15)), nil
}
