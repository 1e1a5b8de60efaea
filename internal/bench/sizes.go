package bench

import (
	"fmt"
	"slices"
	"strings"

	"matchmark/internal/finding/identify"
	"matchmark/internal/machine"
	"matchmark/internal/trade/catalogue"
	"matchmark/internal/trade/metrology"
	"matchmark/internal/trade/quantity"
	"matchmark/internal/trade/spelling"
)

// TypedSizes is what was measured on a standard part, as a person types it.
type TypedSizes struct {
	Kind  string   // "ball bearing", or a part of it that fits one kind only
	Sizes []string // "d=25.02", "d=25,02±0.02", "D=2.0477 in", "d=23.5~" where worn
	Tool  string   // instrument id; empty takes what is usual for each dimension
	Worn  []string // dimensions that show wear, beside those marked ~
	Mate  []string // dimensions read on the part that runs against it
}

// Size is one dimension as read: what it means and what was typed.
type Size struct {
	identify.Measured
	Amount machine.Amount
	UFrom  string // where the standard uncertainty comes from
}

// coarsest is the widest step a reading in mm is taken to have: nobody reads a
// standard part coarser than half a millimetre, even who types "25".
const coarsest = 0.5

// Read gives the kind and the sizes. The uncertainty of a size is what stands
// behind its ±, else that of the instrument, else what is usual for the
// dimension; a size typed in mm with few decimals is no better than its step.
// Errors: *InputError. Whether the sizes can belong together identify says.
func (in TypedSizes) Read() (catalogue.Kind, []Size, error) {
	kind, err := kindOf(in.Kind)
	if err != nil {
		return "", nil, err
	}
	specs := identify.Dims(kind)
	var tool *metrology.Instrument
	if in.Tool != "" {
		t, known := metrology.InstrumentByID(in.Tool)
		if !known || t.Unit != "mm" {
			return "", nil, &InputError{Field: "tool", Typed: in.Tool, Say: fmt.Sprintf("%q is no instrument for lengths; choose one of %s", in.Tool, lengthTools())}
		}
		tool = &t
	}
	var out []Size
	for _, typed := range in.Sizes {
		s, err := readSize(kind, specs, typed, tool)
		if err != nil {
			return "", nil, err
		}
		s.Worn = s.Worn || slices.Contains(in.Worn, s.Dim)
		s.Mate = slices.Contains(in.Mate, s.Dim)
		out = append(out, s)
	}
	for _, name := range append(slices.Clone(in.Worn), in.Mate...) {
		if !slices.ContainsFunc(out, func(s Size) bool { return s.Dim == name }) {
			return "", nil, &InputError{Field: "worn", Typed: name, Say: fmt.Sprintf("%q is said to be worn or read on the mating part, but it was not measured; give its size, or leave it out", name)}
		}
	}
	return kind, out, nil
}

// kindOf finds a kind by its name, or by a part that only one name has.
func kindOf(typed string) (catalogue.Kind, error) {
	plain := func(s string) string { return strings.NewReplacer("-", "", " ", "").Replace(strings.ToLower(s)) }
	var near []string
	var hit catalogue.Kind
	for _, k := range identify.Kinds() {
		if plain(string(k)) == plain(typed) {
			return k, nil
		}
		if plain(typed) != "" && strings.Contains(plain(string(k)), plain(typed)) {
			near, hit = append(near, string(k)), k
		}
	}
	switch len(near) {
	case 1:
		return hit, nil
	case 0:
		for _, k := range identify.Kinds() {
			near = append(near, string(k))
		}
		return "", &InputError{Field: "kind", Typed: typed, Say: fmt.Sprintf("%q is no kind of standard part; choose one of %s", typed, strings.Join(near, ", "))}
	}
	return "", &InputError{Field: "kind", Typed: typed, Say: fmt.Sprintf("%q may be %s; say which", typed, strings.Join(near, " or "))}
}

func lengthTools() string {
	var ids []string
	for _, t := range metrology.Instruments() {
		if t.Unit == "mm" && (t.Kind == "outside" || t.Kind == "bore" || t.Kind == "depth") {
			ids = append(ids, t.ID)
		}
	}
	return strings.Join(ids, ", ")
}

// readSize reads "key=value", "key=value±u", with ~ behind for worn.
func readSize(kind catalogue.Kind, specs []catalogue.Spec, typed string, tool *metrology.Instrument) (Size, error) {
	key, text, ok := strings.Cut(typed, "=")
	key = strings.TrimSpace(key)
	i := slices.IndexFunc(specs, func(s catalogue.Spec) bool { return s.Name == key })
	if !ok || i < 0 {
		return Size{}, &InputError{Field: "size", Typed: typed, Say: fmt.Sprintf("%q is no size of %s; write NAME=VALUE with one of %s", typed, spelling.An(string(kind)), keys(specs))}
	}
	spec := specs[i]
	text, worn := strings.CutSuffix(strings.TrimSpace(text), "~")
	value, spread := cutSpread(text)
	q, u, err := bothRead(value, spread, spec)
	if err != nil {
		return Size{}, &InputError{Field: key, Typed: typed, Say: fmt.Sprintf("%s (%s): %v", key, spec.Words, err)}
	}
	out := Size{Amount: machine.Amount{Value: q.Value, Unit: quantity.Inside(q.Dim), Typed: strings.TrimSpace(text), Step: q.Step},
		Measured: identify.Measured{Dim: key, Value: q.Value, Worn: worn}}
	out.U, out.UFrom = uncertainty(q, spec, tool)
	if spread != "" {
		out.U, out.UFrom = u, "as typed"
	}
	return out, nil
}

// cutSpread parts a value from what stands behind ±, also written +- and +/-.
func cutSpread(text string) (value, spread string) {
	for _, sign := range []string{"±", "+/-", "+-"} {
		if v, s, ok := strings.Cut(text, sign); ok {
			return strings.TrimSpace(v), strings.TrimSpace(s)
		}
	}
	return strings.TrimSpace(text), ""
}

// bothRead reads a value and its uncertainty. A unit behind either counts for
// the other, where that has none of its own.
func bothRead(value, spread string, spec catalogue.Spec) (q quantity.Quantity, u float64, err error) {
	dim, deflt := dimensionOf(spec)
	if spread == "" {
		q, err = quantity.Parse(value, dim, deflt)
		return q, 0, err
	}
	if dim == quantity.Pitch { // an uncertainty is a length, whatever the pitch is typed in
		dim = quantity.Length
	}
	if own, err := quantity.Parse(spread, dim, ""); err == nil && own.Unit != "" {
		deflt = own.Unit
	}
	dimOf, _ := dimensionOf(spec)
	if q, err = quantity.Parse(value, dimOf, deflt); err != nil {
		return q, 0, err
	}
	unit := q.Unit
	if dimOf == quantity.Pitch {
		unit = "mm"
	}
	w, err := quantity.Parse(spread, dim, unit)
	return q, w.Value, err
}

// dimensionOf tells what a size measures and in which unit when none is typed.
func dimensionOf(spec catalogue.Spec) (quantity.Dimension, string) {
	switch {
	case spec.Name == "pitch":
		return quantity.Pitch, "mm"
	case spec.Unit == "mm":
		return quantity.Length, "mm"
	case spec.Unit == "°":
		return quantity.Angle, "deg"
	case spec.Name == "z" || spec.Name == "k":
		return quantity.Count, ""
	}
	return quantity.Ratio, ""
}

// uncertainty of one reading, with where it comes from.
func uncertainty(q quantity.Quantity, spec catalogue.Spec, tool *metrology.Instrument) (u float64, from string) {
	u, from = spec.UsualU, "usual for it, common practice"
	switch q.Dim {
	case quantity.Count:
		return 0, "counted"
	case quantity.Length:
	default:
		return u, from
	}
	step := 0.0
	if q.Unit == "mm" { // a fraction of an inch says nothing of how closely it was read
		step = min(q.Step, coarsest)
	}
	switch {
	case tool != nil:
		return tool.ReadTo(max(tool.Step, step)).Single(q.Value).U, tool.Name
	case metrology.FromStep(step) > u:
		return metrology.FromStep(step), "the last figure typed"
	}
	return u, from
}

func keys(specs []catalogue.Spec) string {
	var out []string
	for _, s := range specs {
		out = append(out, s.Name+" ("+s.Words+")")
	}
	return strings.Join(out, ", ")
}
