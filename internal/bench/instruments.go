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
)

// TypedInstrument is an instrument of the workshop as a person enters it.
// Figures may carry a unit; a bare one is in Unit.
type TypedInstrument struct {
	ID      string // of one on the list, to give it its own figures; empty is a new one
	Name    string
	Looks   string // what it looks at: outside, bore, gap …
	Unit    string // mm, N·m, V …
	Step    string // smallest step read off
	Limit   string // limit of error ± of scale and setting
	Share   string // limit of error ± as a share of the reading: "4 %"
	Repeats string // the same piece read several times: "25.00 25.01 25.00"
	SetBy   string // id of the instrument it is set with
	Source  string // certificate and date
}

// Instrument turns what was typed into the fact to record.
// Errors: *InputError naming the field.
func (in TypedInstrument) Instrument(m *machine.Machine) (*machine.InstrumentSet, error) {
	out := machine.Instrument{ID: in.ID, Name: strings.TrimSpace(in.Name), Looks: strings.TrimSpace(in.Looks), SetBy: in.SetBy, Source: strings.TrimSpace(in.Source)}
	if out.Name == "" {
		return nil, &InputError{Field: "name", Say: "an instrument needs a name"}
	}
	if out.ID == "" {
		out.ID = slug(out.Name)
	}
	dim, deflt := DimensionOf(in.Unit)
	if deflt == "" {
		return nil, &InputError{Field: "unit", Typed: in.Unit, Say: fmt.Sprintf("%q is no unit that an instrument measures in; write mm, N·m, V or another", in.Unit)}
	}
	out.Unit = quantity.Inside(dim)
	for _, f := range []struct {
		field, text, unit string
		into              *float64
		must              bool
	}{{"step", in.Step, in.Unit, &out.Step, true}, {"limit", in.Limit, in.Unit, &out.HalfWidth, false}, {"share", in.Share, "ratio", &out.Relative, false}} {
		if strings.TrimSpace(f.text) == "" && !f.must {
			continue
		}
		a, err := Amount(f.text, f.unit)
		if err == nil && !(a.Value >= 0) {
			err = fmt.Errorf("%q is below nothing", f.text)
		}
		if err != nil {
			return nil, &InputError{Field: f.field, Typed: f.text, Say: err.Error()}
		}
		*f.into = a.Value
	}
	if rack := judge.Instruments(m); out.SetBy != "" && !slices.ContainsFunc(rack, func(i metrology.Instrument) bool { return i.ID == out.SetBy }) {
		return nil, &InputError{Field: "set-by", Typed: in.SetBy, Say: fmt.Sprintf("%q is no instrument of this shop; choose one of the list", in.SetBy)}
	}
	repeat, err := in.repeat()
	if err != nil {
		return nil, err
	}
	out.Repeat = repeat
	return &machine.InstrumentSet{Instrument: out}, nil
}

// repeat is the standard deviation of the repeats, in the unit held inside; 0
// where none were read. Method: GUM 4.2.2.
func (in TypedInstrument) repeat() (float64, error) {
	words := strings.Fields(strings.ReplaceAll(in.Repeats, ";", " "))
	if len(words) == 0 {
		return 0, nil
	}
	var values []float64
	for _, w := range words {
		a, err := Amount(w, in.Unit)
		if err != nil {
			return 0, &InputError{Field: "repeats", Typed: in.Repeats, Say: err.Error()}
		}
		values = append(values, a.Value)
	}
	if len(values) < 3 {
		return 0, &InputError{Field: "repeats", Typed: in.Repeats, Say: "the hand is known from three readings of one piece or more; write them with spaces between"}
	}
	e, err := metrology.TypeA(values)
	if err != nil {
		return 0, &InputError{Field: "repeats", Typed: in.Repeats, Say: err.Error()}
	}
	return e.U * math.Sqrt(float64(len(values))), nil // of one reading, not of their mean
}

// TypedSetting is a setting piece as read, as a person enters it.
type TypedSetting struct {
	Tool    string // instrument id
	Setting string // name that readings carry: "ring 76.00"
	Nominal string // size as marked
	Read    string // what the instrument showed
	Temp    string
	Note    string
}

// Setting turns what was typed into the fact to record. A reading more than a
// twentieth off the piece is refused: it is another piece, or another unit.
// Errors: *InputError naming the field.
func (v *View) Setting(in TypedSetting) (*machine.SettingTaken, error) {
	gauge, known := v.Instrument(in.Tool)
	if !known {
		return nil, &InputError{Field: "tool", Typed: in.Tool, Say: "choose the instrument that the piece was read with"}
	}
	out := &machine.SettingTaken{Tool: in.Tool, Setting: strings.TrimSpace(in.Setting), Note: in.Note}
	if out.Setting == "" {
		return nil, &InputError{Field: "setting", Say: "a setting piece needs a name, such as ring 76.00"}
	}
	var err error
	if out.Nominal, err = Amount(in.Nominal, gauge.Unit); err != nil {
		return nil, &InputError{Field: "nominal", Typed: in.Nominal, Say: err.Error()}
	}
	if out.Read, err = Amount(in.Read, gauge.Unit); err != nil {
		return nil, &InputError{Field: "read", Typed: in.Read, Say: err.Error()}
	}
	if !(out.Nominal.Value > 0) {
		return nil, &InputError{Field: "nominal", Typed: in.Nominal, Say: "the size of a piece is above zero"}
	}
	if math.Abs(out.Read.Value-out.Nominal.Value) > Plausible*out.Nominal.Value {
		return nil, &InputError{Field: "read", Typed: in.Read, Say: fmt.Sprintf("%s was read on a piece of %s. Read the piece again, or mend its size", in.Read, in.Nominal)}
	}
	if strings.TrimSpace(in.Temp) != "" {
		t, err := quantity.Parse(in.Temp, quantity.Temperature, "°C")
		if err != nil {
			return nil, &InputError{Field: "temperature", Typed: in.Temp, Say: err.Error()}
		}
		out.TempC = &t.Value
	}
	return out, nil
}
