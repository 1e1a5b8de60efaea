package oilfilm

import (
	"math"

	"matchmark/internal/trade/metrology"
)

// Regime says what carries the load.
type Regime string

const (
	Touching Regime = "metal touches metal" // λ below 1
	Mixed    Regime = "tops still touch"    // 1 to 3
	Floating Regime = "oil carries it all"  // 3 and more
)

// Roughness is the finish of both surfaces, Ra in µm.
type Roughness struct{ JournalUM, BearingUM float64 }

// RqPerRa turns Ra into the root mean square roughness for a finish without
// pattern, √(π/2); a turned finish has about 1.11.
const RqPerRa = 1.2533141373155

// Margin is a film held against the roughness under it.
type Margin struct {
	Lambda float64
	Regime Regime
	Source string
}

// Over is λ = h/√(Rq₁² + Rq₂²) for the least film in µm. The bounds 1 and 3
// are textbook custom (from memory), no limit of any maker: at start and stop
// every plain bearing touches.
// Errors: RangeError for a film or roughness that is not above zero.
func (r Roughness) Over(leastUM float64) (Margin, error) {
	for _, c := range []struct {
		name string
		got  float64
	}{{"least film, µm", leastUM}, {"roughness Ra of the journal, µm", r.JournalUM}, {"roughness Ra of the bearing, µm", r.BearingUM}} {
		if !(c.got > 0) || math.IsInf(c.got, 0) {
			return Margin{}, metrology.RangeError{Field: c.name, Got: c.got, Want: "above zero"}
		}
	}
	m := Margin{Lambda: leastUM / (RqPerRa * math.Hypot(r.JournalUM, r.BearingUM)), Regime: Touching,
		Source: "least film over combined roughness; bounds 1 and 3 from memory"}
	switch {
	case m.Lambda >= 3:
		m.Regime = Floating
	case m.Lambda >= 1:
		m.Regime = Mixed
	}
	return m, nil
}

// Trumpler is the least film in µm that a designer of new bearings asks for at
// a journal of a diameter in mm: 0.0002 in + 0.00004·d.
// Source: [SHIGLEY] section 12-7 after Trumpler, from memory. It is a rule of
// design for steady loads, not a wear limit. Errors: RangeError for a
// diameter that is not above zero.
func Trumpler(diameterMM float64) (float64, error) {
	if !(diameterMM > 0) || math.IsInf(diameterMM, 0) {
		return 0, metrology.RangeError{Field: "journal diameter, mm", Got: diameterMM, Want: "above zero"}
	}
	return 0.0002*25400 + 0.04*diameterMM, nil
}
