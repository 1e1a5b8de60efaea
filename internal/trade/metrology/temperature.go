package metrology

import "math"

// Reference is the temperature at which sizes are stated, °C. Source: ISO 1.
const Reference = 20.0

// Material is a metal of the trade with its coefficient of expansion.
type Material struct {
	ID     string
	Name   string
	PerK   float64 // 1/K
	UPerK  float64 // standard uncertainty, 1/K
	Source string
}

// Materials lists the usual metals in a fixed order. The spread of each is
// our own judgement of how far alloys of one name differ: ±1e-6/K as a
// rectangle, the half-width that GUM H.1 uses for steel gauges being 2e-6.
func Materials() []Material {
	const source = "common practice, no source"
	u := FromHalfWidth(1e-6)
	return []Material{
		{"steel", "steel", 11.5e-6, u, source},
		{"cast-iron", "cast iron", 10.5e-6, u, source},
		{"aluminium", "aluminium alloy", 23e-6, u, source},
		{"bronze", "bronze", 17.5e-6, u, source},
		{"brass", "brass", 18.5e-6, u, source},
	}
}

// MaterialByID finds a material; ok is false for an unknown one.
func MaterialByID(id string) (m Material, ok bool) {
	for _, m := range Materials() {
		if m.ID == id {
			return m, true
		}
	}
	return Material{}, false
}

// Expansion is the growth of a length (mm) with coefficient perK (1/K) from
// 20 °C to celsius: perK·length·(celsius − 20). Method: ISO 1, linear.
func Expansion(length, perK, celsius float64) float64 {
	return perK * length * (celsius - Reference)
}

// ToReference brings a length that was read at a temperature to 20 °C, where
// the scale was right at its own temperature: L/(1 + α(t − 20)). The
// uncertainties of temperature and coefficient are added:
// u² = u_L² + (Lα·u_t)² + (L(t−20)·u_α)².
// Units: mm, °C. Method: ISO 1; GUM 5.1.2. Errors: RangeError.
func ToReference(length Estimate, m Material, celsius Estimate) (Estimate, error) {
	return correct(length, m, Material{}, celsius)
}

// ToReferenceWithScale is ToReference where the instrument has the same
// temperature as the part and grows with it: only the difference of the
// coefficients counts. L·(1 + α_scale·Δt)/(1 + α_part·Δt).
// Units, method, errors: as ToReference.
func ToReferenceWithScale(length Estimate, part, scale Material, celsius Estimate) (Estimate, error) {
	return correct(length, part, scale, celsius)
}

func correct(length Estimate, part, scale Material, celsius Estimate) (Estimate, error) {
	for _, e := range []Estimate{length, celsius} {
		if err := e.Check(); err != nil {
			return Estimate{}, err
		}
	}
	if celsius.Value < -273.15 || celsius.Value > 1500 {
		return Estimate{}, RangeError{"temperature", celsius.Value, "from -273.15 to 1500 °C"}
	}
	dt := celsius.Value - Reference
	size := length.Value * (1 + scale.PerK*dt) / (1 + part.PerK*dt)
	parts := []Part{
		{"reading", length.U, length.Dof},
		{"temperature", math.Abs(length.Value*(part.PerK-scale.PerK)) * celsius.U, celsius.Dof},
		{"coefficient", math.Abs(length.Value*dt) * math.Hypot(part.UPerK, scale.UPerK), 0},
	}
	e := Estimate{Value: size, U: SumSquares(parts[0].U, parts[1].U, parts[2].U), Dof: EffectiveDof(parts)}
	return e, e.Check()
}
