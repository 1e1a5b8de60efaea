package coolant

import (
	"fmt"

	"matchmark/internal/trade/metrology"
)

// Glycol is what a coolant is made of.
type Glycol string

const (
	Ethylene  Glycol = "ethylene glycol"
	Propylene Glycol = "propylene glycol"
)

// Point is one line of a freezing table: per cent by volume, and °C.
type Point struct{ Percent, C float64 }

// Table is one printed table of freezing points, by rising strength from
// water on.
type Table struct {
	Glycol Glycol
	Source string
	Points []Point
}

// Tables lists the tables at hand. Those of propylene glycol part by up to
// 1.4 K at low strength. They end where laboratories stop agreeing: past
// about 60 % more concentrate freezes sooner, not later; pure ethylene glycol
// at −13 °C.
func Tables() []Table {
	return []Table{
		{Ethylene, "ASHRAE Handbook Fundamentals, from memory", []Point{{0, 0}, {4.4, -1.4}, {8.9, -3.2}, {13.6, -5.4},
			{18.1, -7.8}, {22.9, -10.7}, {27.7, -14.1}, {32.6, -17.9}, {37.5, -22.3}, {42.5, -27.5}, {47.5, -33.8},
			{52.7, -41.1}, {57.8, -48.3}}},
		{Propylene, "ASHRAE Handbook Fundamentals, from memory", []Point{{0, 0}, {4.8, -1.6}, {9.6, -3.3}, {14.5, -5.1},
			{19.4, -7.1}, {24.4, -9.6}, {29.4, -12.7}, {34.4, -16.4}, {39.6, -21.1}, {44.7, -26.7}, {49.9, -33.5},
			{55, -41.6}, {60, -51.1}}},
		{Propylene, "Lange's Handbook of Chemistry, 15th edition, table 5.13", []Point{{0, 0}, {5, -1.1}, {10, -2.2}, {15, -3.9},
			{20, -6.7}, {25, -8.9}, {30, -12.8}, {35, -16.1}, {40, -20.6}, {45, -26.7}, {50, -33.3}}},
	}
}

// Freezing is where a coolant begins to freeze, °C: the warmer and the colder
// of the tables that reach that strength. The warmer one is the one to count
// on.
type Freezing struct {
	WarmC, ColdC float64
	Sources      []string
}

// Freeze reads the tables of a glycol at a strength (per cent by volume),
// straight between their lines. Errors: RangeError past the end of the
// tables: nothing is guessed there; GlycolError.
func Freeze(g Glycol, percent float64) (Freezing, error) {
	end, err := reach(g)
	if err != nil {
		return Freezing{}, err
	}
	if err := metrology.Within("strength, % by volume", percent, 0, end, fmt.Sprintf("0 to %g; beyond it more %s does not freeze lower", end, g)); err != nil {
		return Freezing{}, err
	}
	var f Freezing
	for _, t := range Tables() {
		c, ok := t.at(percent)
		if t.Glycol != g || !ok {
			continue
		}
		if len(f.Sources) == 0 {
			f.WarmC, f.ColdC = c, c
		}
		f.WarmC, f.ColdC = max(f.WarmC, c), min(f.ColdC, c)
		f.Sources = append(f.Sources, t.Source)
	}
	return f, nil
}

// Strength is the strength (per cent by volume) that freezes at a temperature
// (°C) by the table that asks for most. It has no margin in it. Errors:
// RangeError above 0 °C and below what the tables reach; GlycolError.
func Strength(g Glycol, c float64) (float64, error) {
	end, err := reach(g)
	if err != nil {
		return 0, err
	}
	last, err := Freeze(g, end)
	if err != nil {
		return 0, err
	}
	if err := metrology.Within("freezing point, °C", c, last.WarmC, 0, fmt.Sprintf("%g to 0 °C", last.WarmC)); err != nil {
		return 0, err
	}
	most := 0.0
	for _, t := range Tables() {
		if t.Glycol != g {
			continue
		}
		if p, ok := t.strength(c); ok {
			most = max(most, p)
		}
	}
	return most, nil
}

// reach is the strength at which the longest table of a glycol ends.
func reach(g Glycol) (float64, error) {
	end := 0.0
	for _, t := range Tables() {
		if t.Glycol == g {
			end = max(end, t.Points[len(t.Points)-1].Percent)
		}
	}
	if end == 0 {
		return 0, GlycolError{Got: g}
	}
	return end, nil
}

// at reads a table straight between its lines; ok is false past its end.
func (t Table) at(percent float64) (c float64, ok bool) {
	for i := 1; i < len(t.Points); i++ {
		a, b := t.Points[i-1], t.Points[i]
		if percent >= a.Percent && percent <= b.Percent {
			return a.C + (b.C-a.C)*(percent-a.Percent)/(b.Percent-a.Percent), true
		}
	}
	return 0, false
}

// strength turns at round.
func (t Table) strength(c float64) (percent float64, ok bool) {
	for i := 1; i < len(t.Points); i++ {
		a, b := t.Points[i-1], t.Points[i]
		if c <= a.C && c >= b.C {
			return a.Percent + (b.Percent-a.Percent)*(c-a.C)/(b.C-a.C), true
		}
	}
	return 0, false
}

// GlycolError says that nothing is known of a base.
type GlycolError struct{ Got Glycol }

func (e GlycolError) Error() string {
	return fmt.Sprintf("coolant base is %q; ethylene glycol or propylene glycol was wanted", string(e.Got))
}
