package fit

import (
	"fmt"
	"math"

	"matchmark/internal/trade/metrology"
)

// Heated is a kind of part that is opened by heat, with what it stands.
type Heated string

const (
	HardGear Heated = "hardened gear or ring gear"
	Bearing  Heated = "rolling bearing"
	Plain    Heated = "plain steel or iron part"
)

// Ceiling is the temperature in °C that a heated part must not pass, with its
// provenance.
type Ceiling struct {
	Celsius float64
	Source  string
}

// ceilingOf: common practice, no source. A plain part has none of its own
// here; it gets the lower of the two that spoil steel unseen.
func ceilingOf(k Heated) (Ceiling, bool) {
	switch k {
	case HardGear, Plain:
		return Ceiling{230, "never over 230 °C: hardened steel is let down above it (common practice, no source)"}, true
	case Bearing:
		return Ceiling{110, "110 to 120 °C at most: steel and grease of a bearing suffer above it; the lower is taken (common practice, no source)"}, true
	}
	return Ceiling{}, false
}

// DefaultGap is what a heated part needs beside the interference to drop on
// without sticking half way, mm. Source: common practice, no source.
const DefaultGap = 0.05

// HeatRise is how much hotter than the shaft a ring must be to clear it, in K:
// (interference + gap)/(perK·diameter); lengths in mm, perK in 1/K.
// Method: linear expansion, ISO 1. Errors: RangeError for a diameter or
// coefficient that is not above zero, an interference or gap below zero.
func HeatRise(diameter, interference, gap, perK float64) (float64, error) {
	for _, c := range []struct {
		name string
		got  float64
		ok   bool
		want string
	}{
		{"diameter, mm", diameter, diameter > 0, "above zero"},
		{"interference, mm", interference, interference >= 0, "zero or more"},
		{"gap to slip on, mm", gap, gap >= 0, "zero or more"},
		{"expansion, 1/K", perK, perK > 0, "above zero"},
	} {
		if !c.ok || math.IsInf(c.got, 0) {
			return 0, metrology.RangeError{Field: c.name, Got: c.got, Want: c.want}
		}
	}
	return (interference + gap) / (perK * diameter), nil
}

// Shrink is a ring to be heated and dropped on a shaft.
type Shrink struct {
	Kind         Heated
	Diameter     float64 // mm
	Interference float64 // mm, the largest that may be met
	Gap          float64 // mm
	PerK         float64 // 1/K, of the ring
	ShaftPerK    float64 // 1/K, of the shaft; below room temperature it is less
	Room         float64 // °C, shaft and ring before heating
}

// Heating says how a Shrink can be done.
type Heating struct {
	RiseK   float64
	Celsius float64 // temperature of the ring if heat alone does it
	Ceiling Ceiling
	Enough  bool    // heat alone stays below the ceiling
	ShaftK  float64 // where it does not: how far the shaft must be cooled beside
	Advice  string
}

// Plan gives the temperature of the ring, or the ring at its ceiling and the
// shaft cooled for the rest. Errors: RangeError as HeatRise; an unknown Kind;
// a room at or above the ceiling.
func (s Shrink) Plan() (Heating, error) {
	top, ok := ceilingOf(s.Kind)
	if !ok {
		return Heating{}, fmt.Errorf("heated part %q is not known; %s, %s or %s was wanted", s.Kind, HardGear, Bearing, Plain)
	}
	rise, err := HeatRise(s.Diameter, s.Interference, s.Gap, s.PerK)
	if err != nil {
		return Heating{}, err
	}
	if !(s.Room < top.Celsius) || math.IsInf(s.Room, 0) {
		return Heating{}, metrology.RangeError{Field: "room temperature, °C", Got: s.Room, Want: fmt.Sprintf("below %g", top.Celsius)}
	}
	h := Heating{RiseK: rise, Celsius: s.Room + rise, Ceiling: top, Enough: s.Room+rise <= top.Celsius}
	if h.Enough {
		h.Advice = fmt.Sprintf("heat evenly to %.0f °C, measured, never by colour or flame, and drop it on at once", math.Ceil(h.Celsius))
		return h, nil
	}
	cold, err := HeatRise(s.Diameter, s.Interference+s.Gap-s.PerK*s.Diameter*(top.Celsius-s.Room), 0, s.ShaftPerK)
	if err != nil {
		return Heating{}, fmt.Errorf("shaft to be cooled: %w", err)
	}
	h.ShaftK = cold
	h.Advice = fmt.Sprintf("heat alone would need %.0f °C: heat to %.0f °C and cool the shaft by %.0f K, or press", h.Celsius, top.Celsius, math.Ceil(cold))
	return h, nil
}
