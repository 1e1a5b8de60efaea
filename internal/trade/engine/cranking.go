package engine

import (
	"fmt"
	"math"

	"matchmark/internal/trade/metrology"
)

// AirPressure is the pressure in bar of the standard atmosphere at a height in
// m: 1.01325·(1 − 2.25577e-5·h)^5.25588; some 11 % less each 1000 m. Weather
// moves it by 3 %. Source: ISO 2533 standard atmosphere, from memory.
// Errors: RangeError outside −500 to 5000 m.
func AirPressure(heightM float64) (float64, error) {
	if !(heightM >= -500 && heightM <= 5000) {
		return 0, metrology.RangeError{Field: "height above the sea, m", Got: heightM, Want: "-500 to 5000"}
	}
	return 1.01325 * math.Pow(1-2.25577e-5*heightM, 5.25588), nil
}

// Polytropic is p₀·r^n, absolute, p₀ in any unit. It is the ideal figure: what
// a gauge shows at cranking is well below it. Textbook.
// Errors: RangeError for a pressure that is not above zero, a ratio of 1 or
// less, an exponent outside 1 to 1.4.
func Polytropic(p0, ratio, n float64) (float64, error) {
	if err := aboveZero(amount{"pressure at the start", p0}); err != nil {
		return 0, err
	}
	if !(ratio > 1) || ratio > 40 {
		return 0, metrology.RangeError{Field: "compression ratio", Got: ratio, Want: "above 1 to 40"}
	}
	if !(n >= 1 && n <= 1.4) {
		return 0, metrology.RangeError{Field: "exponent", Got: n, Want: "1 to 1.4"}
	}
	return p0 * math.Pow(ratio, n), nil
}

// Bands of what is not known at cranking. Common practice, no source.
var (
	warmExponent = Range{1.25, 1.32}
	coldExponent = Range{1.20, 1.32} // cold walls take more of the heat
	leakShare    = Range{0.75, 0.90} // what rings and valves in order still hold
	strokeShare  = Range{0.80, 0.98} // of the stroke that compresses, inlet closing unknown
)

// warmFromC is the temperature of the metal from which it counts as warm.
const warmFromC = 40

// Cranking is a cylinder on the starter.
type Cranking struct {
	Ratio          float64 // geometric compression ratio
	HeightM        float64 // above the sea
	AirC           float64
	EngineC        float64 // of the metal
	InletClosesDeg float64 // after bottom dead centre; 0 where it is not known
	RodOverStroke  float64 // rod length between centres over stroke; needed with InletClosesDeg
}

// Expected is what to look for. There is no single figure: compare cylinders
// with one another first.
type Expected struct {
	GaugeBar  Range
	EndC      Range // of the air at the end of the stroke, leakage left aside
	Effective Range // ratio that really compresses
	Exponent  Range
	Leak      Range
	AirBar    float64
	Source    string
}

// Expect gives a range of cranking pressure: leak·p₀·r^n − p₀ with p₀ from the
// height, r from where the inlet closes, and n and leak as bands. Temperature
// of the air does not move the pressure, only that of its end; the metal's
// does, and widens the band downward when cold.
// Errors: RangeError for a ratio outside 8 to 26, temperatures outside −30 to
// 50 (air) or 120 °C (metal), an inlet that closes outside 0 to 90, a rod
// outside 1.2 to 3 strokes; AirPressure's.
func (c Cranking) Expect() (Expected, error) {
	for _, v := range []struct {
		name   string
		got    float64
		lo, hi float64
	}{
		{"compression ratio", c.Ratio, 8, 26}, {"air, °C", c.AirC, -30, 50}, {"engine, °C", c.EngineC, -30, 120},
		{"inlet closes after bottom, degrees", c.InletClosesDeg, 0, 90},
	} {
		if !(v.got >= v.lo && v.got <= v.hi) {
			return Expected{}, metrology.RangeError{Field: v.name, Got: v.got, Want: fmt.Sprintf("%g to %g", v.lo, v.hi)}
		}
	}
	p0, err := AirPressure(c.HeightM)
	if err != nil {
		return Expected{}, err
	}
	share := strokeShare
	if c.InletClosesDeg > 0 {
		left, err := StrokeLeft(c.InletClosesDeg, c.RodOverStroke)
		if err != nil {
			return Expected{}, err
		}
		share = Range{left, left}
	}
	e := Expected{Exponent: warmExponent, Leak: leakShare, AirBar: p0, Source: "polytropic compression, bands by common practice, no source"}
	if c.EngineC < warmFromC {
		e.Exponent = coldExponent
	}
	e.Effective = Range{1 + share.Lo*(c.Ratio-1), 1 + share.Hi*(c.Ratio-1)}
	e.GaugeBar.Lo = p0 * (e.Leak.Lo*math.Pow(e.Effective.Lo, e.Exponent.Lo) - 1)
	e.GaugeBar.Hi = p0 * (e.Leak.Hi*math.Pow(e.Effective.Hi, e.Exponent.Hi) - 1)
	const zero = 273.15
	e.EndC.Lo = (c.AirC+zero)*math.Pow(e.Effective.Lo, e.Exponent.Lo-1) - zero
	e.EndC.Hi = (c.AirC+zero)*math.Pow(e.Effective.Hi, e.Exponent.Hi-1) - zero
	return e, nil
}

// StrokeLeft is the share of the stroke that is left when the inlet closes, an
// angle after bottom dead centre. Method: crank and rod, no offset.
// Errors: RangeError for an angle outside 0 to 90, a rod outside 1.2 to 3
// strokes.
func StrokeLeft(afterBottomDeg, rodOverStroke float64) (float64, error) {
	if !(afterBottomDeg >= 0 && afterBottomDeg <= 90) {
		return 0, metrology.RangeError{Field: "inlet closes after bottom, degrees", Got: afterBottomDeg, Want: "0 to 90"}
	}
	if !(rodOverStroke >= 1.2 && rodOverStroke <= 3) {
		return 0, metrology.RangeError{Field: "rod length over stroke", Got: rodOverStroke, Want: "1.2 to 3"}
	}
	phi, l := math.Pi+afterBottomDeg*math.Pi/180, 2*rodOverStroke // lengths in crank radii
	return (1 + l - math.Cos(phi) - math.Sqrt(l*l-math.Sin(phi)*math.Sin(phi))) / 2, nil
}
