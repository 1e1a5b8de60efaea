package fit

import (
	"math"

	"matchmark/internal/trade/metrology"
)

// Band is a range of a figure that is not known to a point.
type Band struct{ Lo, Hi float64 }

// Elastic is what a metal gives way by: modulus E in MPa and Poisson's ratio.
type Elastic struct{ E, Nu float64 }

// Press is a hub pressed or shrunk on a shaft. Lengths in mm; Bore is the bore
// of the shaft, 0 for a solid one. Friction is a band, for it is never known
// to a point: dry steel on steel 0.10 to 0.20, oiled 0.06 to 0.14 (common
// practice, no source).
type Press struct {
	Diameter, Outer, Bore, Length float64
	Hub, Shaft                    Elastic
	Friction                      Band
}

// Pressed is what an interference does to a Press.
type Pressed struct {
	PressureMPa float64
	ForceN      Band    // to push it home or off, the whole length engaged
	TorqueNM    Band    // at which it slips
	HubHoopMPa  float64 // pull round the bore of the hub
	HubMisesMPa float64 // its equivalent at the bore, to hold against the yield
	ShaftMPa    float64 // largest pressure round in the shaft, below zero
	Source      string
}

// At gives pressure, force and stress at a diametral interference in mm.
// Method: thick ring of Lamé, plane stress:
// p = δ / (d·[((D²+d²)/(D²−d²)+ν_h)/E_h + ((d²+b²)/(d²−b²)−ν_s)/E_s]),
// F = µ·p·π·d·L, M = F·d/2; source key [SHIGLEY] eq. 3-56 and 3-57.
// Range: elastic only: once HubMisesMPa passes the yield of the hub, the real
// pressure is lower. A thin ring is the same formula at its limit.
// Errors: RangeError for an interference below 0, diameters out of order, a
// length, modulus or friction that is not above 0 and finite.
func (p Press) At(interference float64) (Pressed, error) {
	if err := p.check(interference); err != nil {
		return Pressed{}, err
	}
	d2, o2, b2 := p.Diameter*p.Diameter, p.Outer*p.Outer, p.Bore*p.Bore
	ring, core := (o2+d2)/(o2-d2), (d2+b2)/(d2-b2)
	give := p.Diameter * ((ring+p.Hub.Nu)/p.Hub.E + (core-p.Shaft.Nu)/p.Shaft.E)
	out := Pressed{PressureMPa: interference / give, Source: "Lamé's thick ring [SHIGLEY] eq. 3-56, elastic"}
	out.HubHoopMPa = out.PressureMPa * ring
	radial := -out.PressureMPa
	out.HubMisesMPa = math.Sqrt(out.HubHoopMPa*out.HubHoopMPa - out.HubHoopMPa*radial + radial*radial)
	out.ShaftMPa = -out.PressureMPa * core
	if p.Bore > 0 { // largest at its bore
		out.ShaftMPa = -out.PressureMPa * 2 * d2 / (d2 - b2)
	}
	n := out.PressureMPa * math.Pi * p.Diameter * p.Length
	out.ForceN = Band{p.Friction.Lo * n, p.Friction.Hi * n}
	out.TorqueNM = Band{out.ForceN.Lo * p.Diameter / 2000, out.ForceN.Hi * p.Diameter / 2000}
	return out, nil
}

func (p Press) check(interference float64) error {
	for _, c := range []struct {
		name string
		got  float64
		ok   bool
		want string
	}{
		{"interference, mm", interference, interference >= 0, "zero or more"},
		{"bore of the shaft, mm", p.Bore, p.Bore >= 0 && p.Bore < p.Diameter, "zero or more and below the joint"},
		{"diameter of the joint, mm", p.Diameter, p.Diameter > 0, "above zero"},
		{"outside of the hub, mm", p.Outer, p.Outer > p.Diameter, "above the joint"},
		{"length of the joint, mm", p.Length, p.Length > 0, "above zero"},
		{"modulus of the hub, MPa", p.Hub.E, p.Hub.E > 0, "above zero"},
		{"modulus of the shaft, MPa", p.Shaft.E, p.Shaft.E > 0, "above zero"},
		{"Poisson's ratio of the hub", p.Hub.Nu, p.Hub.Nu >= 0 && p.Hub.Nu <= 0.5, "0 to 0.5"},
		{"Poisson's ratio of the shaft", p.Shaft.Nu, p.Shaft.Nu >= 0 && p.Shaft.Nu <= 0.5, "0 to 0.5"},
		{"lower friction", p.Friction.Lo, p.Friction.Lo > 0, "above zero"},
		{"upper friction", p.Friction.Hi, p.Friction.Hi >= p.Friction.Lo, "at least the lower"},
	} {
		if !c.ok || math.IsInf(c.got, 0) {
			return metrology.RangeError{Field: c.name, Got: c.got, Want: c.want}
		}
	}
	return nil
}

// Range gives a Press at the least and the most interference of a fit.
// Errors: as At; a clearance counts as no interference.
func (p Press) Range(f Fit) (least, most Pressed, err error) {
	if least, err = p.At(f.MinInterference()); err != nil {
		return Pressed{}, Pressed{}, err
	}
	most, err = p.At(f.MaxInterference())
	return least, most, err
}
