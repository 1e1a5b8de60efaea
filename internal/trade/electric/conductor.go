package electric

import (
	"fmt"
	"math"

	"matchmark/internal/trade/metrology"
)

// Class is how a conductor is stranded.
type Class int

const (
	Stiff    Class = 2 // classes 1 and 2: solid and stranded
	Flexible Class = 5 // class 5: what vehicles use
)

// conductor is one line of IEC 60228: mm², and Ω/km at 20 °C by class. At
// 50 mm² the flexible one lies below the stiff one; it is so in the table.
type conductor struct{ mm2, stiff, flexible float64 }

var conductors = []conductor{
	{0.5, 36, 39}, {0.75, 24.5, 26}, {1, 18.1, 19.5}, {1.5, 12.1, 13.3}, {2.5, 7.41, 7.98}, {4, 4.61, 4.95}, {6, 3.08, 3.3},
	{10, 1.83, 1.91}, {16, 1.15, 1.21}, {25, 0.727, 0.78}, {35, 0.524, 0.554}, {50, 0.387, 0.386}, {70, 0.268, 0.272},
	{95, 0.193, 0.206}, {120, 0.153, 0.161},
}

// Sizes lists the cross-sections of the table, mm².
func Sizes() []float64 {
	out := make([]float64, len(conductors))
	for i, c := range conductors {
		out[i] = c.mm2
	}
	return out
}

// PerKm is the largest resistance (Ω/km) at 20 °C of a copper conductor of a
// cross-section (mm²). Source: IEC60228 tables 2 and 3. Errors: SizeError for
// one that is not in the table: nothing is read in between.
func PerKm(mm2 float64, class Class) (float64, error) {
	for _, c := range conductors {
		if c.mm2 == mm2 {
			switch class {
			case Stiff:
				return c.stiff, nil
			case Flexible:
				return c.flexible, nil
			}
			return 0, SizeError{What: "class of the conductor", Got: float64(class), Want: "2 or 5"}
		}
	}
	return 0, SizeError{What: "cross-section, mm²", Got: mm2, Want: fmt.Sprintf("one of %v", Sizes())}
}

// SizeError says that something is not in a table.
type SizeError struct {
	What string
	Got  float64
	Want string
}

func (e SizeError) Error() string {
	return fmt.Sprintf("%s is %g; %s was wanted", e.What, e.Got, e.Want)
}

// CopperPerK is the temperature coefficient of annealed copper at 20 °C, 1/K.
// Source: IEC 60028, from memory.
const CopperPerK = 0.00393

// Warm is a resistance at a temperature (°C) from that at 20 °C:
// R·(1 + 0.00393·(t − 20)). Errors: RangeError outside −50 to 200 °C.
func Warm(at20, c float64) (float64, error) {
	if err := metrology.Within("temperature of the conductor, °C", c, -50, 200, "-50 to 200 °C"); err != nil {
		return 0, err
	}
	if err := metrology.Positive("resistance at 20 °C", at20); err != nil {
		return 0, err
	}
	return at20 * (1 + CopperPerK*(c-20)), nil
}

// ToTwenty is the factor that brings a resistance measured at a temperature
// (°C) to 20 °C: 254.5/(234.5 + t). Source: IEC60228 annex, exact form.
// Errors: RangeError outside −50 to 200 °C.
func ToTwenty(c float64) (float64, error) {
	return metrology.Unless(metrology.Within("temperature of the conductor, °C", c, -50, 200, "-50 to 200 °C"),
		254.5/(234.5+c))
}

// Gauge is what an AWG number means: diameter mm, area mm², Ω/km at 20 °C of
// solid annealed copper; stranded is about 2 % more.
type Gauge struct{ MM, MM2, OhmKm float64 }

// AWG gives a wire gauge; 0 is 1/0, −1 is 2/0, −3 is 4/0.
// d = 0.127·92^((36−n)/39), ρ = 1.7241e−8 Ω·m. Source: ASTMB258. Errors:
// SizeError outside 4/0 to 40.
func AWG(n int) (Gauge, error) {
	if n < -3 || n > 40 {
		return Gauge{}, SizeError{What: "AWG number", Got: float64(n), Want: "-3 (which is 4/0) to 40"}
	}
	d := 0.127 * math.Pow(92, float64(36-n)/39)
	area := math.Pi / 4 * d * d
	return Gauge{MM: d, MM2: area, OhmKm: 17.241 / area}, nil
}
