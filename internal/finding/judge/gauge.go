package judge

import (
	"cmp"
	"math"
	"slices"

	"matchmark/internal/machine"
	"matchmark/internal/trade/metrology"
	"matchmark/internal/trade/quantity"
)

// gauge is the instrument a reading is taken to be made with.
type gauge struct {
	metrology.Instrument
	setting string           // what it was set in, where said
	set     *machine.Setting // the reading of that piece, where it was read
	setU    float64          // standard uncertainty of the correction by it
	assumed string           // why it had to be assumed; empty for a known instrument
	coarse  bool             // typed to fewer figures than the instrument shows
}

// Instruments lists the instruments that readings of a machine may name: the
// usual ones, with the workshop's own figures where it gave any, then the
// workshop's others.
func Instruments(m *machine.Machine) []metrology.Instrument {
	rack := metrology.Instruments()
	for _, own := range m.Tools {
		in := metrology.Instrument{ID: own.ID, Name: cmp.Or(own.Name, own.ID), Kind: own.Looks, Unit: own.Unit, Step: own.Step,
			HalfWidth: own.HalfWidth, Relative: own.Relative, Repeat: own.Repeat, SetBy: own.SetBy, Source: own.Source}
		i := slices.IndexFunc(rack, func(usual metrology.Instrument) bool { return usual.ID == own.ID })
		if i < 0 {
			rack = append(rack, in)
			continue
		}
		in.Kind = cmp.Or(in.Kind, rack[i].Kind)
		rack[i] = in
	}
	return rack
}

// gaugeOf finds the instrument of a reading: the one named, else the one usual
// for the check, else a cautious stand-in. The step is the instrument's or the
// last figure typed, whichever is coarser: figures not typed were not read.
func (b *bench) gaugeOf(r *machine.Reading, usual string, s scale, value, step float64) *gauge {
	g := b.pick(r.Tool, usual, s)
	g.setting = r.Setting
	if k := b.correction(r, usual, s); k != nil && k.err == nil {
		g.set, g.setU = r.Set, k.shift.U
	}
	if s.plain() {
		if step != 1 || value != math.Trunc(value) { // a count is exact
			g.Step = step
		}
		return &g
	}
	g.coarse = g.Step > 0 && step > 1.001*g.Step
	g.Instrument = g.ReadTo(max(g.Step, step))
	return &g
}

// pick chooses by name; an instrument that measures another kind of thing is
// not believed.
func (b *bench) pick(named, usual string, s scale) gauge {
	for _, id := range []string{named, usual} {
		if in, ok := b.tools[id]; ok && !s.word && in.Unit == s.inside {
			g := gauge{Instrument: in}
			if id == usual && named != "" && named != usual {
				g.assumed = "instrument " + quote(named) + " is not known for this; taken as " + in.Name
			}
			return g
		}
	}
	return standIn(s, named)
}

// standIn is a cautious instrument for a reading that names none.
// Source: common practice, no source; figures our own. Lengths: U (95 %)
// 0.02 mm, of which a quarter by squares is the hand.
func standIn(s scale, named string) gauge {
	why := "no instrument named"
	if named != "" {
		why = "instrument " + quote(named) + " is not known for this"
	}
	g := gauge{Instrument: metrology.Instrument{Unit: s.inside}}
	switch {
	case s.plain():
		g.Name = "no instrument"
		return g
	case s.dim == quantity.Length:
		g.Step, g.Repeat = 0.01, 0.005
		g.HalfWidth = math.Sqrt(3 * (0.01*0.01 - 0.005*0.005 - 0.01*0.01/12))
		why += "; ±0.02 mm is assumed"
	case s.dim == quantity.Temperature, s.dim == quantity.TempDifference:
		g.HalfWidth = 2
		why += "; ±2 °C is assumed"
	case s.dim == quantity.Angle:
		g.HalfWidth = 1
		why += "; ±1 deg is assumed"
	default:
		g.Relative = 0.05
		why += "; ±5 % of the reading is assumed"
	}
	g.Name, g.assumed = "instrument not named", why
	return g
}

// sharedWith is the standard uncertainty of the error that two gauges have in
// common: set in the same piece, or one and the same instrument. Two settings
// that differ share nothing.
func (g *gauge) sharedWith(h *gauge) float64 {
	if g.setting != "" && h.setting != "" {
		if g.setting != h.setting {
			return 0
		}
		return min(metrology.FromHalfWidth(g.HalfWidth), metrology.FromHalfWidth(h.HalfWidth))
	}
	return metrology.SharedError(g.Instrument, h.Instrument)
}
