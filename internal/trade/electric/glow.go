package electric

import (
	"fmt"
	"math"
	"slices"

	"matchmark/internal/trade/metrology"
)

// Wiring is how glow plugs are joined.
type Wiring string

const (
	Parallel Wiring = "parallel"
	Series   Wiring = "series"
)

// Seen is what the resistance at the bus says of a bank of glow plugs.
type Seen struct {
	Wiring Wiring
	Good   int // plugs that take current
}

// SeenAtBus tells from the cold resistance at the bus (Ω) and that of one
// plug how so many plugs are joined and how many are whole: in parallel
// R/k for k whole ones, in series n·R, and nothing at all with one open. An
// open bus is +Inf. Within 15 %; past five plugs that may count one wrong. Errors: RangeError; BusError where
// nothing fits, or both do, as with one plug.
func SeenAtBus(bus, plug float64, n int) (Seen, error) {
	if err := metrology.Positive("resistance of one plug, Ω", plug); err != nil {
		return Seen{}, err
	}
	if err := metrology.Within("number of plugs", float64(n), 2, 12, "2 to 12; one plug shows no wiring"); err != nil {
		return Seen{}, err
	}
	if math.IsInf(bus, 1) {
		return Seen{}, BusError{Bus: bus, Plug: plug, Plugs: n}
	}
	if err := metrology.Positive("resistance at the bus, Ω", bus); err != nil {
		return Seen{}, err
	}
	near := func(want float64) bool { return math.Abs(bus-want) <= 0.15*want }
	if near(float64(n) * plug) {
		return Seen{Series, n}, nil
	}
	best, off := 0, 0.15
	for k := 1; k <= n; k++ {
		want := plug / float64(k)
		if d := math.Abs(bus-want) / want; d <= off {
			best, off = k, d
		}
	}
	if best == 0 {
		return Seen{}, BusError{Bus: bus, Plug: plug, Plugs: n}
	}
	return Seen{Parallel, best}, nil
}

// BusError says that a bus resistance fits neither wiring.
type BusError struct {
	Bus, Plug float64
	Plugs     int
}

func (e BusError) Error() string {
	if math.IsInf(e.Bus, 1) {
		return fmt.Sprintf("the bus is open; with %d plugs either a series bank has an open plug or none is joined: read each plug by itself", e.Plugs)
	}
	return fmt.Sprintf("the bus reads %g Ω; about %.3g in parallel or %.3g in series was wanted of %d plugs of %g Ω", e.Bus, e.Plug/float64(e.Plugs), e.Plug*float64(e.Plugs), e.Plugs, e.Plug)
}

// BankAmps is the current of so many equal plugs in parallel: n·U/R. Errors:
// RangeError.
func BankAmps(volts, plug float64, n int) (float64, error) {
	return metrology.Unless(metrology.Positives("volts at the bus", volts, "resistance of one plug, Ω", plug, "number of plugs", float64(n)),
		float64(n)*volts/plug)
}

// Resistor is what stands in a series circuit beside the plugs.
type Resistor struct{ Volts, Ohm, Watts float64 }

// SeriesResistor is what must stand in series with so many plugs of so many
// volts and amperes: U − n·u, over I. Errors: RangeError where the plugs
// alone want more than the system has.
func SeriesResistor(system, plugVolts, amps float64, n int) (Resistor, error) {
	if err := metrology.Positives("volts of one plug", plugVolts, "current, A", amps, "number of plugs", float64(n)); err != nil {
		return Resistor{}, err
	}
	if err := metrology.Within("volts of the system", system, plugVolts*float64(n), 48, "at least what the plugs want together"); err != nil {
		return Resistor{}, err
	}
	u := system - float64(n)*plugVolts
	return Resistor{Volts: u, Ohm: u / amps, Watts: u * amps}, nil
}

// MayTake is nil where plugs marked for so many volts may hang on a system:
// each sees the system's volts in parallel and its share in series; 10 % more
// than marked is let pass. Errors: BurnError, RangeError.
func MayTake(marked, system float64, w Wiring, n int) error {
	if err := metrology.Positives("volts marked on the plug", marked, "volts of the system", system, "number of plugs", float64(n)); err != nil {
		return err
	}
	at := system
	if w == Series {
		at = system / float64(n)
	}
	if at > 1.1*marked {
		return BurnError{Marked: marked, At: at}
	}
	return nil
}

// BurnError says that a plug would get more volts than it is made for.
type BurnError struct{ Marked, At float64 }

func (e BurnError) Error() string {
	return fmt.Sprintf("a plug marked %g V would get %.3g V; no more than it is marked for was wanted: it burns out in seconds", e.Marked, e.At)
}

// ColdAmps is about what a plug of so many volts and ohms takes cold; as it
// heats it takes less. U/R. Errors: RangeError.
func ColdAmps(volts, ohm float64) (float64, error) {
	return metrology.Unless(metrology.Positives("volts at the plug", volts, "resistance cold, Ω", ohm),
		volts/ohm)
}

// Spread judges plug currents (A) read one by one: (largest − smallest)/mean,
// 15 % at most, common practice. Errors: RangeError.
func Spread(amps []float64) (Finding, error) {
	if err := metrology.Within("number of plugs read", float64(len(amps)), 2, 12, "2 to 12"); err != nil {
		return Finding{}, err
	}
	sum := 0.0
	for i, a := range amps {
		if err := metrology.Within(fmt.Sprintf("current of plug %d, A", i+1), a, 0, 200, "0 to 200 A"); err != nil {
			return Finding{}, err
		}
		sum += a
	}
	if sum == 0 {
		return Finding{}, metrology.RangeError{Field: "current of all plugs, A", Got: 0, Want: "more than 0: the bus is dead"}
	}
	share := (slices.Max(amps) - slices.Min(amps)) / (sum / float64(len(amps)))
	return most("spread of the plugs' currents", share, 0.15, "the plug that takes least is on its way out; one that takes most is shorted"), nil
}
