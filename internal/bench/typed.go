package bench

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"matchmark/internal/finding/judge"
	"matchmark/internal/machine"
	"matchmark/internal/trade/metrology"
	"matchmark/internal/trade/quantity"
	"matchmark/internal/trade/wedge"
)

// Typed is a reading as a person enters it.
type Typed struct {
	Feature machine.FeatureID // either a surface
	Check   machine.CheckID   // or a check that is read directly
	Level   string
	Axis    string
	Unworn  bool
	Text    string         // as it came: "52.013", "2.0477 in", "5,5 kgf·m", "01A+0052.013\r\n"
	Unit    string         // of a bare figure; empty is the unit of the tool that typed it, or of the point
	Wedge   *wedge.Profile // of the tool that typed it; nil is keyed in
	Tool    string         // instrument id; empty is the one usual for the point
	Setting string         // name of the setting piece that the instrument was read on
	Temp    string         // of the part: "23", "75 °F"; empty is not known
	Note    string
	Sure    bool // keep it although it is doubted
}

// InputError says what was wrong with something typed, where, and what to do.
type InputError struct {
	Field string // which field: "reading", "tool", "temperature", …
	Typed string
	Say   string
	Doubt bool   // it may be right: asking again with Sure keeps it
	Fits  string // unit, mm or in, under which the figure would be in its place; empty is none
}

func (e *InputError) Error() string { return e.Say }

// Reading turns what was typed into the fact to record.
// Errors: *InputError; one with Doubt set is answered by Sure.
func (v *View) Reading(in Typed) (*machine.ReadingTaken, error) {
	unit, tool, err := v.wanted(in)
	if err != nil {
		return nil, err
	}
	amount, err := in.amount(unit)
	if err != nil {
		return nil, &InputError{Field: "reading", Typed: in.Text, Say: err.Error()}
	}
	if in.Tool != "" {
		tool = in.Tool
	}
	if _, known := v.Instrument(tool); tool != "" && !known {
		return nil, &InputError{Field: "tool", Typed: tool, Say: fmt.Sprintf("%q is no instrument of this shop; choose one of the list", tool)}
	}
	r := &machine.ReadingTaken{Feature: in.Feature, Check: in.Check, Level: in.Level, Axis: in.Axis, Unworn: in.Unworn,
		Amount: amount, Tool: tool, Setting: in.Setting, Note: in.Note}
	if strings.TrimSpace(in.Temp) != "" {
		t, err := quantity.Parse(in.Temp, quantity.Temperature, "°C")
		if err != nil {
			return nil, &InputError{Field: "temperature", Typed: in.Temp, Say: err.Error()}
		}
		r.TempC = &t.Value
	}
	if doubt := v.doubt(in, amount.Value); doubt != nil && !in.Sure {
		return nil, doubt
	}
	return r, nil
}

// Instrument finds an instrument that readings of this machine may name.
func (v *View) Instrument(id string) (metrology.Instrument, bool) {
	rack := judge.Instruments(v.Machine)
	i := slices.IndexFunc(rack, func(in metrology.Instrument) bool { return in.ID == id })
	if i < 0 {
		return metrology.Instrument{}, false
	}
	return rack[i], true
}

// amount reads the text for a point that is read in unit. A tool's text is
// read by its profile. One keyed in may be written in any unit; where that
// cannot be read, it may be what a tool nobody taught has typed.
func (in Typed) amount(unit string) (machine.Amount, error) {
	dim, _ := DimensionOf(unit)
	if in.Wedge != nil && dim == quantity.Length {
		return typedBy(*in.Wedge, in, unit)
	}
	a, err := amountIn(in.Text, unit, in.Unit)
	if err != nil && dim == quantity.Length {
		if b, sent := typedBy(wedge.Profile{Unit: wedge.MM}, in, unit); sent == nil && unit == wedge.MM {
			return b, nil
		}
	}
	return a, err
}

// typedBy reads what a tool has typed. A unit given by the person goes before
// the profile's, not before one that was sent.
func typedBy(p wedge.Profile, in Typed, unit string) (machine.Amount, error) {
	if in.Unit != "" {
		p.Unit = in.Unit
	}
	f, err := p.Read(in.Text)
	if err != nil {
		return machine.Amount{}, err
	}
	a, err := Amount(f.String(), unit)
	a.Typed = in.Text
	return a, err
}

// wanted finds the unit a point is read in and its usual instrument.
func (v *View) wanted(in Typed) (unit, tool string, err error) {
	if in.Feature != "" {
		ft := v.Machine.Feature(in.Feature)
		if ft == nil {
			return "", "", &InputError{Field: "surface", Typed: string(in.Feature),
				Say: fmt.Sprintf("%q is no surface of this machine; choose the surface that was measured", in.Feature)}
		}
		return "mm", ft.Tool, nil
	}
	c := v.Machine.Check(in.Check)
	if c == nil {
		return "", "", &InputError{Field: "check", Typed: string(in.Check),
			Say: fmt.Sprintf("%q is no check of this machine; choose the check that was made", in.Check)}
	}
	if c.By == machine.ByEye || c.By == machine.ByPassage {
		return "", "", &InputError{Field: "check", Typed: string(in.Check),
			Say: fmt.Sprintf("%s is answered yes or no, not with a figure", c.Name)}
	}
	return c.Unit, c.Tool, nil
}

// Amount reads a figure of a check's unit, keeping what was typed. A unit that
// is a word, such as "ratio" or "drops", takes a plain number.
func Amount(text, unit string) (machine.Amount, error) { return amountIn(text, unit, "") }

// amountIn takes a bare figure to be in the unit assumed; empty is the check's.
func amountIn(text, unit, assumed string) (machine.Amount, error) {
	dim, deflt := DimensionOf(unit)
	if assumed != "" && deflt != "" {
		deflt = assumed
	}
	q, err := quantity.Parse(text, dim, deflt)
	if err != nil {
		return machine.Amount{}, err
	}
	inside := quantity.Inside(dim)
	if deflt == "" {
		inside = unit
	}
	return machine.Amount{Value: q.Value, Unit: inside, Typed: text, Step: q.Step}, nil
}

// InUnit reads a figure typed in any unit of a dimension and gives it in the
// unit asked for. Errors: those of quantity.Parse.
func InUnit(text, unit string) (float64, error) {
	a, err := Amount(text, unit)
	if err != nil {
		return 0, err
	}
	dim, deflt := DimensionOf(unit)
	if deflt == "" {
		return a.Value, nil
	}
	return quantity.Convert(a.Value, dim, "", unit)
}

// In gives a kept amount in a unit of its dimension, such as a pressure in the
// bar that a check is read in. Where the unit is not of that dimension it comes
// back as it is kept.
func In(a machine.Amount, unit string) machine.Amount {
	dim, deflt := DimensionOf(unit)
	if deflt == "" || a.Unit == unit || a.Unit != quantity.Inside(dim) {
		return a
	}
	if v, err := quantity.Convert(a.Value, dim, "", unit); err == nil {
		a.Value, a.Unit = v, unit
	}
	return a
}

// DimensionOf tells the dimension of a check's unit and the unit to assume
// when none is typed.
func DimensionOf(unit string) (quantity.Dimension, string) {
	q, err := quantity.Parse("1 "+unit, quantity.AnyDimension, "")
	if err != nil || unit == "" || q.Dim == quantity.Number || q.Dim == quantity.Count || q.Dim == quantity.Ratio {
		return quantity.Number, ""
	}
	return q.Dim, unit
}

// Plausible is how far from what is expected a reading of a surface may lie, as
// a share of it, before it is asked about.
const Plausible = 0.05

// doubt compares a reading with what the surface should be: its nominal, else
// what its fellows read. nil is no doubt.
func (v *View) doubt(in Typed, value float64) *InputError {
	about := v.Expected(in.Feature)
	near := func(x float64) bool { return math.Abs(x-about) <= Plausible*about }
	if about == 0 || near(value) {
		return nil
	}
	e := &InputError{Field: "reading", Typed: in.Text, Doubt: true}
	switch {
	case near(value * 25.4):
		e.Fits, e.Say = wedge.Inch, fmt.Sprintf("%s reads %.3f mm, but about %.2f was expected. Is the tool on inches? Say so, keep it as it is, or measure again", strings.TrimSpace(in.Text), value, about)
	case near(value / 25.4):
		e.Fits, e.Say = wedge.MM, fmt.Sprintf("%s reads %.3f mm, but about %.2f was expected. Is the tool on millimetres? Say so, keep it as it is, or measure again", strings.TrimSpace(in.Text), value, about)
	default:
		e.Say = fmt.Sprintf("%s reads %.3f mm, but about %.2f was expected. Keep it, or measure again", strings.TrimSpace(in.Text), value, about)
	}
	return e
}

// Expected is about what a surface should read, mm; 0 when nothing is known.
func (v *View) Expected(id machine.FeatureID) float64 {
	if ft := v.Machine.Feature(id); ft != nil {
		return expected(ft)
	}
	return 0
}

// expected is a surface's nominal, else the middle of its readings, else of
// the readings of like surfaces at other places; 0 when nothing is known.
func expected(ft *machine.Feature) float64 {
	if ft.Nominal != nil {
		return ft.Nominal.MM
	}
	sum, n := 0.0, 0
	for _, r := range ft.Current() {
		sum += r.Amount.Value
		n++
	}
	if n == 0 {
		return 0
	}
	return sum / float64(n)
}
