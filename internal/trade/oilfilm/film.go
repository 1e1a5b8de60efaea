package oilfilm

import (
	"fmt"
	"math"

	"matchmark/internal/trade/metrology"
)

// Journal is a shaft in its plain bearing.
type Journal struct {
	DiameterMM  float64
	LengthMM    float64 // of bearing surface under load; a groove in the middle halves it: ask each half
	ClearanceMM float64 // diametral: bore less journal
}

// Duty is what the bearing has to do.
type Duty struct {
	RPM           float64
	LoadN         float64 // steady
	ViscosityMPaS float64 // dynamic, of the oil at the temperature of the film
}

// Film is the oil under a journal.
type Film struct {
	S            float64 // Sommerfeld number
	LengthRatio  float64 // L/D
	Eccentricity float64
	LeastUM      float64 // thickness at the closest place
	AttitudeDeg  float64 // from the load to the closest place, with the turning
	Friction     float64 // coefficient
	TorqueNM     float64
	LossW        float64
	FlowMM3S     float64 // oil drawn through the wedge
	SideMM3S     float64 // of it lost at the ends
	MeanMPa      float64 // load over diameter times length
	PeakMPa      float64
	Method       string
}

// BeyondError says that a film lies outside the table, and on which side.
type BeyondError struct {
	S          float64
	Low, High  float64 // Sommerfeld numbers that the table spans at this L/D
	ClearUM    float64 // radial clearance
	EndOfTable float64 // least film over radial clearance where the table ends
}

// Thick says that the film is thicker than the table reaches, not thinner.
func (e BeyondError) Thick() bool { return e.S > e.High }

func (e BeyondError) Error() string {
	side := "thinner"
	if e.Thick() {
		side = "thicker"
	}
	return fmt.Sprintf("Sommerfeld number is %.3g; %.3g to %.3g was wanted: the least film is %s than %.3g µm, and the table ends there",
		e.S, e.Low, e.High, side, e.EndOfTable*e.ClearUM)
}

const method = "Raimondi and Boyd 1958 [RB58], read between points; steady load, one viscosity, full round bearing"

// Film gives the oil film of a journal at a duty.
// Method: [RB58]; between its points see curve; S = (R/c)²·µ·N/P, c half the
// clearance. Accuracy, held by a test against Reynolds' equation solved by
// differences, at and between the points: S and friction 1.5 %, flow 1 %,
// attitude 0.6°, peak pressure 4 %.
// Errors: RangeError for a size, speed, load or viscosity that is not above
// zero, a clearance below 0.0002 or above 0.01 of the diameter (a radial
// clearance, or a wrong unit), L/D outside 1/4 to 1; BeyondError.
// Cost: some 10 µs.
func (j Journal) Film(d Duty) (Film, error) {
	if err := j.check(d); err != nil {
		return Film{}, err
	}
	if ratio := j.LengthMM / j.DiameterMM; ratio < LeastLengthRatio || ratio > MostLengthRatio {
		return Film{}, metrology.RangeError{Field: "length over diameter", Got: ratio, Want: "0.25 to 1, where the table reaches"}
	}
	f := Film{S: j.sommerfeld(d), LengthRatio: j.LengthMM / j.DiameterMM, Method: method}
	f.MeanMPa = d.LoadN / (j.DiameterMM * j.LengthMM)
	c, radialUM := curveAt(f.LengthRatio), j.ClearanceMM*500
	high, low := c.s(LeastEccentricity), c.s(MostEccentricity)
	const border = 1e-9 // a point of the table itself is within it
	if f.S > high*(1+border) || f.S < low*(1-border) {
		end := 1 - LeastEccentricity
		if f.S < low {
			end = 1 - MostEccentricity
		}
		return Film{}, BeyondError{S: f.S, Low: low, High: high, ClearUM: radialUM, EndOfTable: end}
	}
	p := c.point(c.eccentricity(f.S))
	f.Eccentricity, f.AttitudeDeg = p.Eccentricity, p.AttitudeDeg
	f.LeastUM = (1 - p.Eccentricity) * radialUM
	f.Friction = p.Friction * j.ClearanceMM / j.DiameterMM
	f.TorqueNM = f.Friction * d.LoadN * j.DiameterMM / 2000
	f.LossW = f.TorqueNM * 2 * math.Pi * d.RPM / 60
	f.FlowMM3S = p.Flow * j.DiameterMM / 2 * j.ClearanceMM / 2 * d.RPM / 60 * j.LengthMM
	f.SideMM3S = f.FlowMM3S * p.SideShare
	f.PeakMPa = f.MeanMPa / p.PressureShare
	return f, nil
}

// sommerfeld is (R/c)²·µ·N/P, a pure number, of inputs that passed check.
func (j Journal) sommerfeld(d Duty) float64 {
	wide := j.DiameterMM / j.ClearanceMM // R/c, both halved
	return wide * wide * d.ViscosityMPaS * 1e-9 * d.RPM / 60 / (d.LoadN / (j.DiameterMM * j.LengthMM))
}

func (j Journal) check(d Duty) error {
	for _, c := range []struct {
		name string
		got  float64
	}{
		{"journal diameter, mm", j.DiameterMM}, {"bearing length, mm", j.LengthMM},
		{"diametral clearance, mm", j.ClearanceMM}, {"speed, rev/min", d.RPM},
		{"load, N", d.LoadN}, {"viscosity, mPa·s", d.ViscosityMPaS},
	} {
		if !(c.got > 0) || math.IsInf(c.got, 0) {
			return metrology.RangeError{Field: c.name, Got: c.got, Want: "above zero"}
		}
	}
	if share := j.ClearanceMM / j.DiameterMM; share < 0.0002 || share > 0.01 {
		return metrology.RangeError{Field: "diametral clearance, mm", Got: j.ClearanceMM,
			Want: fmt.Sprintf("%.4g to %.4g for a journal of %g mm (bore less journal, not half of it)", 0.0002*j.DiameterMM, 0.01*j.DiameterMM, j.DiameterMM)}
	}
	return nil
}
