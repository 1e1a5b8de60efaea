package electric

import (
	"fmt"
	"math"

	"matchmark/internal/trade/metrology"
)

// Cranking is what was read while the starter turned the engine, stop pulled.
// What was not read is 0.
type Cranking struct {
	System    float64 // 6, 12 or 24 V
	Battery   float64 // V across the battery's posts
	Starter   float64 // V from the starter's stud to its body
	PlusDrop  float64 // V from battery post to stud
	EarthDrop float64 // V from starter body to battery post
	Rpm       float64 // of the engine
	Amps      float64
}

// JudgeCranking holds the readings against common practice for 12 V, scaled
// by the system: 9.6 V at battery and stud, 0.5 V plus drop, 0.2 V earth
// drop, 200 rpm. Only what was read is judged, in that order.
// Errors: SizeError; RangeError for figures that cannot be;
// ContradictionError where battery less starter is not the drops, within
// 0.2 V.
func JudgeCranking(c Cranking) ([]Finding, error) {
	if err := c.check(); err != nil {
		return nil, err
	}
	scale := c.System / 12
	var out []Finding
	add := func(read float64, f Finding) {
		if read > 0 {
			out = append(out, f)
		}
	}
	add(c.Battery, least("volts at the battery", c.Battery, 9.6*scale, "battery low or worn: charge it, then try it under load"))
	add(c.Starter, least("volts at the starter", c.Starter, 9.6*scale, "battery, or the drops on the way"))
	add(c.PlusDrop, most("plus drop", c.PlusDrop, 0.5*scale, "plus cable, its clamps, switch or solenoid contact"))
	add(c.EarthDrop, most("earth drop", c.EarthDrop, 0.2*scale, "earth strap, paint or rust under it"))
	add(c.Rpm, least("cranking speed", c.Rpm, 200, c.slow()))
	return out, nil
}

// slow says what a low speed points to, by the volts and the current.
func (c Cranking) slow() string {
	weak := c.Starter > 0 && c.Starter < 9.6*c.System/12
	switch {
	case weak && c.Amps > 0:
		return "low volts: cure the battery and the drops first"
	case c.Amps == 0:
		return "read the current: much with few turns is drag, little is a bad contact"
	case c.Amps > 25*c.System:
		return "much current and few turns: tight engine, thick oil, starter dragging or shorted"
	}
	return "good volts and little current: brushes, commutator or a joint inside the starter"
}

func (c Cranking) check() error {
	if _, err := cellsOf(c.System); err != nil {
		return err
	}
	for _, in := range []struct {
		field string
		got   float64
		high  float64
	}{{"volts at the battery", c.Battery, 1.2 * c.System}, {"volts at the starter", c.Starter, 1.2 * c.System},
		{"plus drop, V", c.PlusDrop, c.System}, {"earth drop, V", c.EarthDrop, c.System},
		{"cranking speed, rpm", c.Rpm, 1000}, {"starter current, A", c.Amps, 3000}} {
		if err := metrology.Within(in.field, in.got, 0, in.high, fmt.Sprintf("0 to %g", in.high)); err != nil {
			return err
		}
	}
	if c.Battery > 0 && c.Starter > 0 && c.PlusDrop > 0 && c.EarthDrop > 0 {
		if gap := c.Battery - c.Starter - c.PlusDrop - c.EarthDrop; math.Abs(gap) > 0.2*c.System/12 {
			return ContradictionError{Gap: gap}
		}
	}
	return nil
}

// ContradictionError says that four readings of one circuit do not add up.
type ContradictionError struct{ Gap float64 }

func (e ContradictionError) Error() string {
	return fmt.Sprintf("battery less starter less both drops leaves %.2f V; about 0 was wanted: read them again, all while cranking", e.Gap)
}

// StarterPower is what a starter takes in (kW), and what it gives with an
// efficiency of 0 to 1: U·I/1000, times that. About half comes out. Errors:
// RangeError.
func StarterPower(volts, amps, efficiency float64) (in, out float64, err error) {
	if err := metrology.Positives("volts at the starter", volts, "current, A", amps); err != nil {
		return 0, 0, err
	}
	if err := metrology.Within("efficiency", efficiency, 0, 1, "0 to 1"); err != nil {
		return 0, 0, err
	}
	in = volts * amps / 1000
	return in, in * efficiency, nil
}

// MostPowerAmps is the current at which battery and cables give the most:
// U₀/(2R); the volts at the starter are then half. Errors: RangeError.
func MostPowerAmps(open, ohm float64) (float64, error) {
	return metrology.Unless(metrology.Positives("volts open", open, "resistance of battery and cables, Ω", ohm),
		open/(2*ohm))
}

// CrankSpeed is the engine's speed (rpm) from the starter's: n·pinion/ring.
// Errors: RangeError.
func CrankSpeed(starter float64, pinion, ring int) (float64, error) {
	return metrology.Unless(metrology.Positives("starter speed, rpm", starter, "teeth of the pinion", float64(pinion), "teeth of the ring", float64(ring)),
		starter*float64(pinion)/float64(ring))
}
