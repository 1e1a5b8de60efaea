package electric

import (
	"math"

	"matchmark/internal/trade/metrology"
)

// Charged is one line of a table of rested volts: per cent, and volts of six
// cells.
type Charged struct{ Percent, Volts float64 }

// RestTable is one printed table of a flooded battery's rested volts.
type RestTable struct {
	Source string
	Lines  []Charged // from full down
}

// RestTables lists the tables at hand. They part by 0.15 V at a quarter and
// 0.3 V at empty: one table would feign a certainty that is not there.
func RestTables() []RestTable {
	return []RestTable{
		{"common table at 25 °C, from memory", []Charged{{100, 12.65}, {75, 12.45}, {50, 12.24}, {25, 12.06}, {0, 11.89}}},
		{"table in a published question and answer", []Charged{{100, 12.66}, {75, 12.45}, {50, 12.3}, {25, 12.15}}},
		{"rule of thumb for flooded cells", []Charged{{100, 12.6}, {75, 12.4}, {50, 12.2}, {25, 12.0}, {0, 11.6}}},
	}
}

// at reads a table straight between its lines, full above the first; ok is
// false below the last.
func (t RestTable) at(volts float64) (percent float64, ok bool) {
	if volts >= t.Lines[0].Volts {
		return 100, true
	}
	for i := 1; i < len(t.Lines); i++ {
		a, b := t.Lines[i-1], t.Lines[i]
		if volts <= a.Volts && volts >= b.Volts {
			return b.Percent + (a.Percent-b.Percent)*(volts-b.Volts)/(a.Volts-b.Volts), true
		}
	}
	return 0, false
}

// Charge is how full a battery is: the least and the most of the tables, per
// cent.
type Charge struct{ Low, High float64 }

// StateOf reads a flooded battery's charge from its volts after four hours of
// rest or with the surface charge taken off, in a system of 6, 12 or 24 V.
// Errors: SizeError for another system; RangeError under 10.5 V (of 12: a
// dead cell, not a charge) and over 13.2 V (not rested).
func StateOf(volts, system float64) (Charge, error) {
	cells, err := cellsOf(system)
	if err != nil {
		return Charge{}, err
	}
	twelve := volts * 6 / cells
	if err := metrology.Within("rested volts, as of 12 V", twelve, 10.5, 13.2, "10.5 to 13.2; below a cell is dead, above it has not rested"); err != nil {
		return Charge{}, err
	}
	c := Charge{Low: 100}
	for _, t := range RestTables() {
		p, ok := t.at(twelve)
		if last := t.Lines[len(t.Lines)-1]; !ok && last.Percent > 0 {
			p = last.Percent // the table only says: no more than this
		}
		c.Low, c.High = min(c.Low, p), max(c.High, p)
	}
	return c, nil
}

func cellsOf(system float64) (float64, error) {
	switch system {
	case 6, 12, 24:
		return system / 2, nil
	}
	return 0, SizeError{What: "volts of the system", Got: system, Want: "6, 12 or 24"}
}

// OpenVolts is the rested voltage of cells of a specific gravity at 25 °C:
// n·(gravity + 0.84). Textbook rule. Errors: RangeError.
func OpenVolts(gravity float64, cells int) (float64, error) {
	if err := gravityRange(gravity); err != nil {
		return 0, err
	}
	if err := metrology.Within("number of cells", float64(cells), 1, 12, "1 to 12"); err != nil {
		return 0, err
	}
	return float64(cells) * (gravity + 0.84), nil
}

func gravityRange(gravity float64) error {
	return metrology.Within("specific gravity of the acid", gravity, 1.05, 1.35, "1.05 to 1.35")
}

// GravityAt25 brings a hydrometer reading at a temperature (°C) to 25 °C:
// + 0.0007 a kelvin above. Cold acid reads high. Errors: RangeError.
func GravityAt25(read, c float64) (float64, error) {
	if err := gravityRange(read); err != nil {
		return 0, err
	}
	return metrology.Unless(metrology.Within("temperature of the acid, °C", c, -30, 60, "-30 to 60 °C"),
		read+0.0007*(c-25))
}

// Inner is the inner resistance (Ω) of a battery from its volts open and
// under a current: (U₀ − U)/I. Errors: RangeError, also for volts that rise
// under load.
func Inner(open, loaded, amps float64) (float64, error) {
	if err := metrology.Positives("volts open", open, "current, A", amps); err != nil {
		return 0, err
	}
	if err := metrology.Within("volts under load", loaded, 0, open, "no more than open"); err != nil {
		return 0, err
	}
	return (open - loaded) / amps, nil
}

// ChargeHours is how long charging takes: Ah·(1 − share)/(I·acceptance), with
// the share of charge that is there and the share of the current that stays.
// Errors: RangeError.
func ChargeHours(ah, share, amps, acceptance float64) (float64, error) {
	if err := metrology.Positives("capacity, Ah", ah, "charging current, A", amps); err != nil {
		return 0, err
	}
	if err := metrology.Within("share of charge", share, 0, 1, "0 to 1"); err != nil {
		return 0, err
	}
	if err := metrology.Within("acceptance", acceptance, 0.3, 1, "0.3 to 1"); err != nil {
		return 0, err
	}
	return ah * (1 - share) / (amps * acceptance), nil
}

// Charging judges the volts at the battery at 2000 rpm, loads on and off: per
// 12 V 13.8 to 14.6, of 24 V 26.8 to 29. Common practice, no source; a dynamo
// with a mechanical regulator runs lower. Errors: SizeError, RangeError.
func Charging(volts, system float64) (Finding, error) {
	if _, err := cellsOf(system); err != nil {
		return Finding{}, err
	}
	if err := metrology.Within("volts at the battery", volts, 0, 2*system, "0 to twice the system"); err != nil {
		return Finding{}, err
	}
	low, high := 13.8*system/12, 14.6*system/12
	if system == 24 {
		low, high = 26.8, 29
	}
	f := Finding{What: "volts at the battery, charging", Got: volts, Low: low, High: high, Good: volts >= low && volts <= high}
	switch {
	case volts < low:
		f.Points = "belt, brushes, regulator, or a drop on the way to the battery"
	case volts > high:
		f.Points = "regulator or its sense wire and earth: it boils the battery"
	}
	return f, nil
}

// Finding is one reading held against what is wanted. High is +Inf where
// there is no upper bound.
type Finding struct {
	What      string
	Got       float64
	Low, High float64
	Good      bool
	Points    string // what it points to; empty where good
}

// Source is where every limit of the findings comes from.
func (Finding) Source() string { return "common practice, no source" }

func least(what string, got, low float64, points string) Finding {
	return bounded(what, got, low, math.Inf(1), points)
}

func most(what string, got, high float64, points string) Finding {
	return bounded(what, got, 0, high, points)
}

func bounded(what string, got, low, high float64, points string) Finding {
	f := Finding{What: what, Got: got, Low: low, High: high, Good: got >= low && got <= high}
	if !f.Good {
		f.Points = points
	}
	return f
}
