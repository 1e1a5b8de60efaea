package reckoned

import (
	"fmt"
	"slices"
	"strconv"
	"strings"

	"matchmark/internal/finding/judge"
	"matchmark/internal/machine"
)

// value is an input with its sources filled in, where it comes from, and what
// is to be done about sources that nobody knows yet.
type value struct {
	text  string
	from  string
	wants []string
	maybe bool // the answer can do without it
}

// value fills in the sources of an input.
func (d *Desk) value(text string) value {
	var out value
	var parts, froms []string
	pieces := machine.Pieces(text)
	for _, p := range pieces {
		if p.Kind == "" {
			parts = append(parts, p.Text)
			continue
		}
		one := d.source(p)
		if len(pieces) > 1 { // within a text a space may part things
			one.text = strings.ReplaceAll(one.text, " ", "")
		}
		parts = append(parts, one.text)
		out.maybe = out.maybe || p.Maybe
		for _, w := range one.wants {
			if !slices.Contains(out.wants, w) {
				out.wants = append(out.wants, w)
			}
		}
		if one.from != "" && !slices.Contains(froms, one.from) {
			froms = append(froms, one.from)
		}
	}
	if len(froms) == 0 {
		froms = []string{fromKit}
	}
	out.text, out.from = strings.Join(parts, ""), strings.Join(froms, "; ")
	return out
}

func want(format string, args ...any) value {
	return value{wants: []string{fmt.Sprintf(format, args...)}}
}

func (d *Desk) source(p machine.Piece) value {
	switch p.Kind {
	case machine.FromDatum:
		return d.datum(p.ID)
	case machine.FromFeature:
		return d.size(machine.FeatureID(p.ID))
	case machine.FromMade:
		return d.made(machine.FeatureID(p.ID))
	case machine.FromEach:
		return d.each(machine.FeatureID(p.ID))
	case machine.FromCount:
		return d.places(machine.Family(p.ID))
	case machine.FromReading:
		return d.reading(machine.CheckID(p.ID), 1)
	case machine.FromRepeats:
		return d.repeats(machine.CheckID(p.ID))
	case machine.FromLess:
		return d.reading(machine.CheckID(p.ID), -1)
	case machine.FromEvery:
		return d.every(machine.CheckID(p.ID))
	case machine.FromTight:
		return d.tight(machine.CheckID(p.ID))
	}
	return d.joint(p.Kind, machine.JointID(p.ID))
}

func (d *Desk) datum(id string) value {
	f := d.m.Datum(id)
	switch {
	case f == nil:
		return want("figure %q is not on this machine", id)
	case f.Value == nil:
		return want("enter “%s” among the figures of the machine%s", f.Name, in(f.Unit))
	}
	from := f.Name
	if f.From != "" {
		from += ", " + string(f.From)
	}
	if f.Source != "" {
		from += ", " + f.Source
	}
	return value{text: shown(*f.Value, f.Unit), from: from}
}

// size is a surface's nominal, else the mean of what was read of it as it is
// now, without its unworn band.
func (d *Desk) size(id machine.FeatureID) value {
	ft := d.m.Feature(id)
	if ft == nil {
		return want("surface %q is not on this machine", id)
	}
	name := ft.Called()
	if ft.Nominal != nil {
		return value{text: shown(ft.Nominal.MM, "mm"), from: name + ", nominal, " + string(ft.Nominal.From)}
	}
	switch mean, n := asRead(ft); n {
	case 0:
		return want("measure %s, or enter its nominal size at the part", name)
	case 1:
		return value{text: shown(mean, "mm"), from: name + ", as read"}
	default:
		return value{text: shown(mean, "mm"), from: fmt.Sprintf("%s, mean of %d readings", name, n)}
	}
}

// made is the size a surface was made to: its nominal, else the one that its
// unworn surface tells surely. A worn size is no substitute for it.
func (d *Desk) made(id machine.FeatureID) value {
	ft := d.m.Feature(id)
	if ft == nil {
		return want("surface %q is not on this machine", id)
	}
	name := ft.Called()
	if ft.Nominal != nil {
		return value{text: shown(ft.Nominal.MM, "mm"), from: name + ", nominal, " + string(ft.Nominal.From)}
	}
	if p, ok := judge.Nominal(d.m, ft); ok {
		if best, sure := p.Best(); sure {
			return value{text: shown(best.Size(), "mm"), from: name + ", from the " + p.Place}
		}
	}
	return want("enter the size that %s was made to, at the part", name)
}

// asRead is the mean of the present readings of a surface, and how many there
// are.
func asRead(ft *machine.Feature) (mean float64, n int) {
	for _, r := range ft.Current() {
		if !r.Unworn {
			mean, n = mean+r.Amount.Value, n+1
		}
	}
	return mean / float64(max(n, 1)), n
}

// each lists a surface of every place as it was read.
func (d *Desk) each(typ machine.FeatureID) value {
	var list []string
	var out value
	for _, p := range d.m.Parts {
		ft := d.m.Feature(machine.FeatureOf(p.ID, typ.Name()))
		if p.Type != typ.Part() || ft == nil {
			continue
		}
		mean, n := asRead(ft)
		if n == 0 {
			out.wants = append(out.wants, "measure "+ft.Called())
		}
		list = append(list, shown(mean, "mm"))
		out.from = ft.Name + " of each " + strings.ReplaceAll(string(typ.Part()), "-", " ") + ", mean of what was read"
	}
	if len(list) == 0 {
		return want("surface %q is not on this machine", typ)
	}
	out.text = strings.Join(list, "; ")
	return out
}

func (d *Desk) places(family machine.Family) value {
	for _, p := range d.m.Places {
		if p.Family == family {
			return value{text: strconv.Itoa(len(p.Labels)), from: "counted on this machine: " + p.Name}
		}
	}
	return want("places %q are not on this machine", family)
}

// shown writes a figure with its unit; a bare number has none, nothing no sign.
func shown(v float64, unit string) string {
	text := strconv.FormatFloat(v+0, 'g', 10, 64)
	if strings.Contains(text, "e") {
		text = strconv.FormatFloat(v, 'f', -1, 64)
	}
	if bare(unit) {
		return text
	}
	return text + " " + unit
}

// bare tells the units of a bare number.
func bare(unit string) bool { return unit == "" || unit == "ratio" || unit == "count" }

func in(unit string) string {
	if bare(unit) {
		return ""
	}
	return ", in " + unit
}
