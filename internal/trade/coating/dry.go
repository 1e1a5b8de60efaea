package coating

import (
	"fmt"
	"math"

	"matchmark/internal/trade/metrology"
)

// Hours is a span, from the quick to the slow paint of a kind.
type Hours struct{ Low, High float64 }

func (h Hours) times(f float64) Hours { return Hours{h.Low * f, h.High * f} }

// Paint is a kind of paint with its hours at 20 °C in one usual film: dust
// no longer sticks, it can be handled with care, it bears fitting. The next
// coat goes on after RecoatFrom and before RecoatTo; 0 is no end. Past the
// end it must be keyed by sanding first.
type Paint struct {
	Kind       string
	DustFree   Hours
	Handle     Hours
	Fit        Hours
	RecoatFrom Hours
	RecoatTo   float64
	LeastC     float64 // colder it does not dry, or not harden, at all
}

// Source is where the hours come from.
func (Paint) Source() string {
	return "common practice, no source; the sheet of the paint in hand replaces it"
}

// Paints lists kinds of paint of a farm workshop.
func Paints() []Paint {
	return []Paint{
		{"alkyd primer", Hours{0.5, 1}, Hours{4, 8}, Hours{24, 48}, Hours{6, 16}, 0, 5},
		{"alkyd enamel", Hours{1, 4}, Hours{16, 24}, Hours{72, 168}, Hours{16, 24}, 0, 5},
		{"alkyd enamel with hardener", Hours{0.5, 2}, Hours{8, 16}, Hours{24, 72}, Hours{2, 8}, 24, 10},
		{"two-pack epoxy primer", Hours{0.5, 2}, Hours{6, 12}, Hours{24, 72}, Hours{2, 12}, 72, 10},
		{"two-pack filler primer", Hours{0.3, 1}, Hours{2, 4}, Hours{12, 24}, Hours{2, 4}, 24, 10},
		{"two-pack enamel", Hours{0.3, 1}, Hours{6, 16}, Hours{24, 72}, Hours{4, 16}, 24, 10},
		{"nitro lacquer", Hours{0.1, 0.3}, Hours{0.5, 2}, Hours{12, 24}, Hours{0.3, 1}, 0, 5},
		{"water-thinned enamel", Hours{0.5, 1}, Hours{4, 12}, Hours{48, 120}, Hours{4, 12}, 0, 10},
		{"zinc-rich primer", Hours{0.2, 0.5}, Hours{1, 4}, Hours{24, 48}, Hours{4, 24}, 0, 5},
		{"wax for cavities", Hours{2, 6}, Hours{12, 24}, Hours{12, 48}, Hours{12, 24}, 0, 5},
	}
}

// PaintOf finds a kind. Errors: PaintError.
func PaintOf(kind string) (Paint, error) {
	var kinds []string
	for _, p := range Paints() {
		if p.Kind == kind {
			return p, nil
		}
		kinds = append(kinds, p.Kind)
	}
	return Paint{}, PaintError{Got: kind, Want: kinds}
}

// PaintError says that a kind of paint is not in the table.
type PaintError struct {
	Got  string
	Want []string
}

func (e PaintError) Error() string {
	return fmt.Sprintf("paint is %q; one of %q was wanted", e.Got, e.Want)
}

// Doubling is the temperature rule: drying takes twice as long for each 10 K
// colder, half for each 10 K warmer. A rule of thumb, no source.
const Doubling = 10.0

// At gives the hours at another temperature (°C), and whether the rule of
// thumb was used: at 20 °C the table stands by itself. The end of the recoat
// window shrinks and grows alike. Errors: RangeError colder than the paint
// takes and hotter than 40 °C, where skinning and dust rule.
func (p Paint) At(c float64) (at Paint, byRule bool, err error) {
	if err := metrology.Within("temperature while it dries, °C", c, p.LeastC, 40, fmt.Sprintf("%g to 40 °C for %s", p.LeastC, p.Kind)); err != nil {
		return Paint{}, false, err
	}
	f := math.Pow(2, (20-c)/Doubling)
	at = p
	at.DustFree, at.Handle, at.Fit = p.DustFree.times(f), p.Handle.times(f), p.Fit.times(f)
	at.RecoatFrom, at.RecoatTo = p.RecoatFrom.times(f), p.RecoatTo*f
	return at, c != 20, nil
}

// Window is where the next coat stands.
type Window string

const (
	TooSoon Window = "too soon"
	Perhaps Window = "perhaps: try by thumb in a corner"
	Now     Window = "now"
	TooLate Window = "too late: sand first"
)

// Recoat says how the next coat stands so many hours after the last, at a
// temperature (°C). Errors: RangeError, as At.
func (p Paint) Recoat(hours, c float64) (Window, error) {
	at, _, err := p.At(c)
	if err != nil {
		return "", err
	}
	if err := metrology.Within("hours since the last coat", hours, 0, 1e6, "0 or more"); err != nil {
		return "", err
	}
	switch {
	case hours < at.RecoatFrom.Low:
		return TooSoon, nil
	case at.RecoatTo > 0 && hours > at.RecoatTo:
		return TooLate, nil
	case hours < at.RecoatFrom.High:
		return Perhaps, nil
	}
	return Now, nil
}

// Cure is how long a job of coats takes until it can be handled: each coat
// but the last waits for the next, the last for handling. Hours, low to high,
// at a temperature (°C). Errors: RangeError, as At.
func (p Paint) Cure(coats int, c float64) (hours Hours, byRule bool, err error) {
	if err := metrology.Within("coats", float64(coats), 1, 20, "1 to 20"); err != nil {
		return Hours{}, false, err
	}
	at, byRule, err := p.At(c)
	if err != nil {
		return Hours{}, false, err
	}
	n := float64(coats - 1)
	return Hours{n*at.RecoatFrom.Low + at.Handle.Low, n*at.RecoatFrom.High + at.Handle.High}, byRule, nil
}
