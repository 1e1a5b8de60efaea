package coating

import (
	"fmt"
	"math"

	"matchmark/internal/trade/metrology"
)

// Magnus over water. Source: WMO8 (Sonntag 1990); good from −45 to 60 °C.
const magnusA, magnusB, magnusE = 17.62, 243.12, 6.112

func air(field string, c float64) error {
	return metrology.Within(field, c, -45, 60, "-45 to 60 °C")
}

func humidity(percent float64) error {
	return metrology.Within("relative humidity, %", percent, 0.1, 100, "0.1 to 100 %")
}

// Vapour is the saturation pressure of water vapour (hPa) over water at a
// temperature (°C): 6.112·exp(17.62 t/(243.12 + t)). Source: WMO8. Errors:
// RangeError outside −45 to 60 °C.
func Vapour(c float64) (float64, error) {
	if err := air("temperature, °C", c); err != nil {
		return 0, err
	}
	return vapour(c), nil
}

func vapour(c float64) float64 { return magnusE * math.Exp(magnusA*c/(magnusB+c)) }

// DewPoint is the temperature (°C) at which air of a temperature and a
// relative humidity (%) begins to wet a surface. Method: Magnus turned round.
// Errors: RangeError.
func DewPoint(c, percent float64) (float64, error) {
	if err := air("temperature of the air, °C", c); err != nil {
		return 0, err
	}
	if err := humidity(percent); err != nil {
		return 0, err
	}
	g := math.Log(percent/100) + magnusA*c/(magnusB+c)
	return magnusB * g / (magnusA - g), nil
}

// FromWetBulb is the relative humidity (%) from the dry and the wet
// thermometer (°C) of a ventilated psychrometer and the air pressure (hPa):
// e = e_s(t_w) − 6.53e−4·(1 + 0.000944 t_w)·p·(t − t_w). Source: WMO8.
// Errors: RangeError, also for a wet bulb warmer than the dry one or too cold
// to be true.
func FromWetBulb(dry, wet, hPa float64) (float64, error) {
	if err := air("dry bulb, °C", dry); err != nil {
		return 0, err
	}
	if err := metrology.Within("wet bulb, °C", wet, 0, dry, "0 °C to the dry bulb"); err != nil {
		return 0, err
	}
	if err := metrology.Within("air pressure, hPa", hPa, 500, 1100, "500 to 1100 hPa"); err != nil {
		return 0, err
	}
	e := vapour(wet) - 6.53e-4*(1+0.000944*wet)*hPa*(dry-wet)
	percent := 100 * e / vapour(dry)
	if percent <= 0 {
		return 0, metrology.RangeError{Field: "wet bulb, °C", Got: wet, Want: "nearer to the dry bulb: no air is that dry"}
	}
	return percent, nil
}

// Weather is whether paint may go on.
type Weather struct {
	DewC   float64
	Margin float64 // steel over dew point, K
	May    bool
	Why    string // what forbids it, empty where nothing does
}

// The rules of MayPaint: the surface at least 3 K over the dew point
// (ISO8502-4), and air of no more than 85 % (common practice, no source).
const (
	LeastMargin  = 3.0
	MostHumidity = 85.0
)

// MayPaint judges air (°C, %) and the steel's own temperature (°C): it is the
// steel that is measured, not the air. Errors: RangeError.
func MayPaint(airC, percent, steelC float64) (Weather, error) {
	dew, err := DewPoint(airC, percent)
	if err != nil {
		return Weather{}, err
	}
	if err := air("temperature of the steel, °C", steelC); err != nil {
		return Weather{}, err
	}
	w := Weather{DewC: dew, Margin: steelC - dew}
	switch {
	case w.Margin < LeastMargin:
		w.Why = fmt.Sprintf("steel is %.1f K over the dew point, at least %g wanted (ISO 8502-4)", w.Margin, LeastMargin)
	case percent > MostHumidity:
		w.Why = fmt.Sprintf("air of %.0f %%, at most %g wanted (common practice)", percent, MostHumidity)
	case steelC <= 0:
		w.Why = "ice may sit on the steel (common practice)"
	}
	w.May = w.Why == ""
	return w, nil
}

// DampestAir is the highest relative humidity (%) at which steel as warm as
// the air (°C) keeps 3 K over the dew point: e_s(t − 3)/e_s(t). Up to
// 37 °C it is below the 85 % of habit. Errors: RangeError.
func DampestAir(c float64) (float64, error) {
	if err := metrology.Within("temperature of the air, °C", c, -40, 60, "-40 to 60 °C"); err != nil {
		return 0, err
	}
	return 100 * vapour(c-LeastMargin) / vapour(c), nil
}
