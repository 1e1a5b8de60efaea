package coolant

import (
	"math"

	"matchmark/internal/trade/metrology"
)

// The coefficients of IAPWS-IF97 region 4, equation 29.
const (
	n1, n2, n3  = 0.11670521452767e4, -0.72421316703206e6, -0.17073846940092e2
	n4, n5, n6  = 0.12020824702470e5, -0.32325550322333e7, 0.14915108613530e2
	n7, n8      = -0.48232657361591e4, 0.40511340542057e6
	n9, n10     = -0.23855557567849, 0.65017534844798e3
	kelvin      = 273.15
	seaLevelBar = 1.01325
)

// Saturation is the pressure (MPa, absolute) at which water boils at a
// temperature (K). Method: IAPWS-IF97 equation 30, to 0.025 %. Errors:
// RangeError outside 273.15 to 647.096 K.
func Saturation(k float64) (float64, error) {
	if err := metrology.Within("temperature of the water, K", k, kelvin, 647.096, "273.15 to 647.096 K"); err != nil {
		return 0, err
	}
	th := k + n9/(k-n10)
	a := (th+n1)*th + n2
	b := (n3*th+n4)*th + n5
	c := (n6*th+n7)*th + n8
	return math.Pow(2*c/(-b+math.Sqrt(b*b-4*a*c)), 4), nil
}

// Boiling is the temperature (K) at which water boils under a pressure (MPa,
// absolute). Method: IAPWS-IF97 equation 31. Errors: RangeError outside
// 611.213 Pa to 22.064 MPa.
func Boiling(mpa float64) (float64, error) {
	if err := metrology.Within("pressure over the water, MPa absolute", mpa, 611.213e-6, 22.064, "0.000611213 to 22.064 MPa"); err != nil {
		return 0, err
	}
	beta := math.Pow(mpa, 0.25)
	e := (beta+n3)*beta + n6
	f := (n1*beta+n4)*beta + n7
	g := (n2*beta+n5)*beta + n8
	d := 2 * g / (-f - math.Sqrt(f*f-4*e*g))
	return (n10 + d - math.Sqrt((n10+d)*(n10+d)-4*(n9+n10*d))) / 2, nil
}

// Atmosphere is the pressure of the standard atmosphere (bar) at a height
// over the sea (m): 1.01325·(1 − 0.0065·h/288.15)^5.25588. Source: ISO2533.
// Errors: RangeError outside −500 to 11000 m.
func Atmosphere(height float64) (float64, error) {
	if err := metrology.Within("height over the sea, m", height, -500, 11000, "-500 to 11000 m"); err != nil {
		return 0, err
	}
	const g, r, lapse, t0 = 9.80665, 287.05287, 0.0065, 288.15
	return seaLevelBar * math.Pow(1-lapse*height/t0, g/(r*lapse)), nil
}

// Cap is what a pressure cap does: where plain water boils with and without
// it, °C. Half ethylene glycol boils seven or eight kelvin higher, from
// memory.
type Cap struct {
	OpenC, UnderCapC float64
}

// Rise is what the cap gains, K.
func (c Cap) Rise() float64 { return c.UnderCapC - c.OpenC }

// UnderCap tells where water boils under a cap of so many bar gauge, in air
// of so many bar absolute. Method: Boiling at the sum. Errors: RangeError for
// a cap outside 0 to 2 bar and air outside 0.5 to 1.1 bar.
func UnderCap(capBar, airBar float64) (Cap, error) {
	if err := metrology.Within("pressure of the cap, bar gauge", capBar, 0, 2, "0 to 2 bar over the air outside"); err != nil {
		return Cap{}, err
	}
	if err := metrology.Within("pressure of the air, bar", airBar, 0.5, 1.1, "0.5 to 1.1 bar"); err != nil {
		return Cap{}, err
	}
	openK, err := Boiling(airBar / 10)
	if err != nil {
		return Cap{}, err
	}
	underK, err := Boiling((airBar + capBar) / 10)
	return Cap{OpenC: openK - kelvin, UnderCapC: underK - kelvin}, err
}
