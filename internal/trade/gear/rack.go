package gear

import (
	"fmt"
	"math"

	"matchmark/internal/trade/metrology"
)

// Rack is what a gear was cut by. Addendum and Dedendum are in modules.
type Rack struct {
	ModuleMM           float64
	AngleDeg           float64
	Addendum, Dedendum float64
}

// Standard is the basic rack of [ISO53] at 20°: addendum 1, dedendum 1.25.
// Stub teeth (0.8 and 1) and old 14.5° racks are given by hand.
func Standard(moduleMM float64) Rack { return Rack{moduleMM, 20, 1, 1.25} }

// ModuleOf is the module in mm of a diametral pitch in teeth per inch,
// 25.4/DP; PitchOf is the same the other way.
// Errors: RangeError for a figure that is not above zero.
func ModuleOf(diametralPitch float64) (float64, error) {
	return over("diametral pitch, 1/in", diametralPitch)
}

// PitchOf is the diametral pitch of a module in mm. See ModuleOf.
func PitchOf(moduleMM float64) (float64, error) { return over("module, mm", moduleMM) }

func over(name string, x float64) (float64, error) {
	if !(x > 0) || math.IsInf(x, 0) {
		return 0, metrology.RangeError{Field: name, Got: x, Want: "above zero"}
	}
	return 25.4 / x, nil
}

// Least and most teeth of a spur gear that the formulas are used for.
const leastTeeth, mostTeeth = 5, 1000

// Gear is an external spur gear.
type Gear struct {
	Rack
	Teeth int
	Shift float64 // profile shift x in modules, outward above zero
}

// Sizes are the theoretical sizes of a gear without backlash.
type Sizes struct {
	PitchMM     float64 // reference diameter m·z
	BaseMM      float64 // m·z·cos α
	TipMM       float64 // m(z + 2·addendum + 2x)
	RootMM      float64 // m(z − 2·dedendum + 2x)
	BasePitchMM float64 // π·m·cos α
	ThicknessMM float64 // tooth on the arc of the reference circle, m(π/2 + 2x·tan α)
}

// Check says why a gear cannot be, or nil. Errors: RangeError.
func (g Gear) Check() error {
	for _, c := range []struct {
		name string
		got  float64
		ok   bool
		want string
	}{
		{"module, mm", g.ModuleMM, g.ModuleMM >= 0.1 && g.ModuleMM <= 50, "0.1 to 50"},
		{"pressure angle, degrees", g.AngleDeg, g.AngleDeg >= 10 && g.AngleDeg <= 35, "10 to 35"},
		{"addendum in modules", g.Addendum, g.Addendum > 0 && g.Addendum <= 1.6, "above 0 to 1.6"},
		{"dedendum in modules", g.Dedendum, g.Dedendum > 0 && g.Dedendum <= 2, "above 0 to 2"},
		{"number of teeth", float64(g.Teeth), g.Teeth >= leastTeeth && g.Teeth <= mostTeeth, fmt.Sprintf("%d to %d", leastTeeth, mostTeeth)},
		{"profile shift in modules", g.Shift, g.Shift >= -1.5 && g.Shift <= 1.5, "-1.5 to 1.5"},
	} {
		if !c.ok {
			return metrology.RangeError{Field: c.name, Got: c.got, Want: c.want}
		}
	}
	return nil
}

// Sizes are tip, base and root and the rest. Method: [ISO21771].
// Errors: RangeError as Check; a root that falls to nothing.
func (g Gear) Sizes() (Sizes, error) {
	if err := g.Check(); err != nil {
		return Sizes{}, err
	}
	s := g.sizes()
	if s.RootMM <= 0 {
		return Sizes{}, metrology.RangeError{Field: "root diameter, mm", Got: s.RootMM, Want: "above zero"}
	}
	return s, nil
}

func (g Gear) sizes() Sizes {
	z, a := float64(g.Teeth), rad(g.AngleDeg)
	return Sizes{
		PitchMM: g.ModuleMM * z, BaseMM: g.ModuleMM * z * math.Cos(a),
		TipMM:       g.ModuleMM * (z + 2*g.Addendum + 2*g.Shift),
		RootMM:      g.ModuleMM * (z - 2*g.Dedendum + 2*g.Shift),
		BasePitchMM: BasePitch(g.ModuleMM, g.AngleDeg),
		ThicknessMM: g.ModuleMM * (math.Pi/2 + 2*g.Shift*math.Tan(a)),
	}
}

// Undercut is the number of teeth, as the formula gives it, below which a rack
// of full addendum 1 digs into the foot of a gear with profile shift x:
// 2(1 − x)/sin² α. Whole teeth: round to the nearest; one fewer does no harm.
// Errors: RangeError for an angle outside 10 to 35 or a shift outside −1.5 to 1.
func Undercut(angleDeg, shift float64) (float64, error) {
	if !(angleDeg >= 10 && angleDeg <= 35) {
		return 0, metrology.RangeError{Field: "pressure angle, degrees", Got: angleDeg, Want: "10 to 35"}
	}
	if !(shift >= -1.5 && shift <= 1) {
		return 0, metrology.RangeError{Field: "profile shift in modules", Got: shift, Want: "-1.5 to 1"}
	}
	s := math.Sin(rad(angleDeg))
	return 2 * (1 - shift) / (s * s), nil
}
