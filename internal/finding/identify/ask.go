package identify

import (
	"fmt"
	"math"
	"strings"

	"matchmark/internal/trade/catalogue"
)

// Measured is one reading of a dimension with its standard uncertainty.
// Worn says that the place shows wear: the dimension may then have moved in the
// direction in which use moves it. Mate says that it was taken on the part that
// runs against the item (the shaft seat for the bore of a bearing), where wear
// goes the other way.
type Measured struct {
	Dim      string
	Value, U float64
	Worn     bool
	Mate     bool
}

// Ask is a question. Among nil looks through the whole catalogue of Kind.
// Prior weighs items by designation; an item that is not named weighs 1.
// WearMean is the mean wear of a worn surface, mm; 0 takes DefaultWear.
// NonePrior is the probability beforehand that the part is in no table; 0 takes
// DefaultNone.
type Ask struct {
	Kind      catalogue.Kind
	Measured  []Measured
	Among     []catalogue.Item
	Prior     map[string]float64
	WearMean  float64
	NonePrior float64
}

// DefaultWear (mm) and DefaultNone are what an Ask takes when it says nothing.
// Common practice, no source.
const (
	DefaultWear = 0.05
	DefaultNone = 0.05
)

// AskError says what in a question cannot be used.
type AskError struct {
	Field string
	Got   string
	Want  string
}

func (e AskError) Error() string {
	return fmt.Sprintf("identify: %s is %s, want %s", e.Field, e.Got, e.Want)
}

// PitchOver is the pitch from a length taken over a number of turns: both the
// length and its standard uncertainty are divided. Errors: AskError for no
// turns, a length or u that is not above 0.
func PitchOver(length, u float64, turns int) (Measured, error) {
	if turns < 1 {
		return Measured{}, AskError{"number of turns", fmt.Sprint(turns), "1 or more"}
	}
	m := Measured{Dim: "pitch", Value: length / float64(turns), U: u / float64(turns)}
	if !positive(m.Value) || !positive(m.U) {
		return Measured{}, AskError{"pitch", fmt.Sprintf("%g ± %g", m.Value, m.U), "finite and above 0"}
	}
	return m, nil
}

func positive(v float64) bool { return v > 0 && !math.IsInf(v, 0) }

// check refuses a question that no part can answer.
func (a Ask) check(specs []catalogue.Spec) error {
	if len(specs) == 0 {
		return AskError{"kind", fmt.Sprintf("%q", a.Kind), "one of " + kindList()}
	}
	if len(a.Measured) == 0 {
		return AskError{"what was measured on the " + string(a.Kind), "nothing", "at least one of " + dimList(specs)}
	}
	if a.NonePrior < 0 || a.NonePrior >= 1 || math.IsNaN(a.NonePrior) {
		return AskError{"prior of none", fmt.Sprint(a.NonePrior), "0 or more and below 1"}
	}
	if a.WearMean != 0 && !positive(a.WearMean) {
		return AskError{"mean wear", fmt.Sprint(a.WearMean), "above 0, in mm"}
	}
	for name, w := range a.Prior {
		if w < 0 || math.IsNaN(w) || math.IsInf(w, 0) {
			return AskError{"prior of " + name, fmt.Sprint(w), "0 or more"}
		}
	}
	return a.checkMeasured(specs)
}

func (a Ask) checkMeasured(specs []catalogue.Spec) error {
	seen := map[string]float64{}
	for _, m := range a.Measured {
		if specIndex(specs, m.Dim) < 0 {
			return AskError{"dimension of the " + string(a.Kind), fmt.Sprintf("%q", m.Dim), "one of " + dimList(specs)}
		}
		if _, twice := seen[m.Dim]; twice {
			return AskError{"dimension " + m.Dim, "given twice", "one value; take the mean of repeats first"}
		}
		if math.IsNaN(m.Value) || math.IsInf(m.Value, 0) {
			return AskError{m.Dim, fmt.Sprint(m.Value), "a finite number"}
		}
		if !positive(m.U) && !(a.Kind == catalogue.GearRack && counted[m.Dim]) {
			return AskError{"standard uncertainty of " + m.Dim, fmt.Sprint(m.U), "above 0"}
		}
		seen[m.Dim] = m.Value
	}
	// A taper of 0 can read a little below 0; no part is refused for that.
	got, want := catalogue.Impossible(a.Kind, func(name string) (float64, bool) {
		v, ok := seen[name]
		return v, ok && name != "taper"
	})
	if want != "" {
		return AskError{"the " + string(a.Kind), "not possible: " + got, want}
	}
	return nil
}

func specIndex(specs []catalogue.Spec, name string) int {
	for i, s := range specs {
		if s.Name == name {
			return i
		}
	}
	return -1
}

func dimList(specs []catalogue.Spec) string {
	names := make([]string, len(specs))
	for i, s := range specs {
		names[i] = s.Name + " (" + s.Words + ")"
	}
	return strings.Join(names, ", ")
}
