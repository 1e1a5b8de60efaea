package play

import (
	"fmt"
	"hash/fnv"
	"math"
	"math/rand/v2"
	"slices"
	"strconv"
	"strings"

	"matchmark/internal/machine"
	"matchmark/internal/trade/metrology"
)

// session is a run of measuring by one person with one set of gauges.
type session struct {
	tool    map[string]string // in place of the usual instrument
	setting map[string]string // by instrument: what it was set in
	tempC   float64           // of the parts; 0 is not noted
	inches  bool              // the unworn surface is read with a micrometer in inches
}

// measure reads surfaces at every point, and where they are unworn first.
func (s *story) measure(in session, surfaces ...machine.FeatureID) {
	for _, id := range surfaces {
		ft := s.machine().Feature(id)
		if ft == nil {
			s.fail("the story measures %q, which the kits do not have", id)
			continue
		}
		if s.measured[id] {
			continue
		}
		s.minutes(5)
		if ft.Unworn != "" {
			s.say(s.reading(in, ft, machine.Point{}, true))
		}
		for _, p := range ft.Points() {
			s.say(s.reading(in, ft, p, false))
		}
		s.measured[id] = true
	}
}

// reading is one figure at one point: the true size, what temperature adds to
// it, and what the gauge and the hand add to that.
func (s *story) reading(in session, ft *machine.Feature, p machine.Point, unworn bool) *machine.ReadingTaken {
	return s.readingNoted(in, ft, p, unworn, "")
}

// readingNoted is a reading with a remark, which may be of a point read before.
func (s *story) readingNoted(in session, ft *machine.Feature, p machine.Point, unworn bool, note string) *machine.ReadingTaken {
	tool := ft.Tool
	if other := in.tool[tool]; other != "" {
		tool = other
	}
	gauge, ok := metrology.InstrumentByID(tool)
	if !ok {
		s.fail("%s is measured with %q, which is no instrument", ft.ID, tool)
	}
	size := trueSize(ft, p)
	if unworn {
		size = shapeOf(ft.ID).nominal
	}
	r := &machine.ReadingTaken{Feature: ft.ID, Level: p.Level, Axis: p.Axis, Unworn: unworn, Tool: tool, Setting: in.setting[tool], Note: note}
	if in.tempC != 0 {
		t := in.tempC
		r.TempC = &t
		size *= 1 + expansionOf(ft.Part.Material)*(t-20)
	}
	typed := s.asRead(size, gauge, fmt.Sprint(ft.ID, p, unworn, r.Note))
	if in.inches && unworn {
		typed = fmt.Sprintf("%.4f in", size/25.4)
	}
	r.Amount = *s.amount(typed, "mm")
	return r
}

// asRead is a size as a gauge shows it to a careful hand: the gauge's own
// error, which is the same for every reading of it, the hand's scatter, and the
// step it is read to. The scatter is drawn by what is read, so that a change
// elsewhere in the story leaves the figure as it is.
func (s *story) asRead(size float64, gauge metrology.Instrument, what string) string {
	v := size + bias(gauge) + gauge.Repeat*luck(what).NormFloat64()
	v = math.Round(v/gauge.Step) * gauge.Step
	return strconv.FormatFloat(v, 'f', decimals(gauge.Step), 64)
}

// bias is what this shop's gauge is out, within half its limit.
func bias(gauge metrology.Instrument) float64 {
	return (luck(gauge.ID).Float64() - 0.5) * gauge.HalfWidth
}

// luck is a source of chance of its own for a thing.
func luck(of string) *rand.Rand {
	h := fnv.New64a()
	h.Write([]byte(of))
	return rand.New(rand.NewPCG(seed, h.Sum64()))
}

// decimals is how many places a step needs.
func decimals(step float64) int {
	text := strconv.FormatFloat(step, 'f', -1, 64)
	if _, after, ok := strings.Cut(text, "."); ok {
		return len(after)
	}
	return 0
}

// expansionOf is a metal's coefficient, by the words of the kit.
func expansionOf(words string) float64 {
	for _, m := range []struct{ word, id string }{{"alumin", "aluminium"}, {"bronze", "bronze"}, {"cast iron", "cast-iron"}, {"steel", "steel"}} {
		if strings.Contains(words, m.word) {
			if metal, ok := metrology.MaterialByID(m.id); ok {
				return metal.PerK
			}
		}
	}
	return 0
}

// surfacesOf lists the surfaces that some checks are made from, each once.
func (s *story) surfacesOf(types ...machine.CheckID) (out []machine.FeatureID) {
	for _, t := range types {
		found := false
		for _, c := range s.machine().Checks {
			if c.Type != t {
				continue
			}
			found = true
			for _, ft := range []*machine.Feature{c.Outer, c.Inner} {
				if ft != nil && !slices.Contains(out, ft.ID) {
					out = append(out, ft.ID)
				}
			}
		}
		if !found {
			s.fail("the story makes check %q, which the kits do not have", t)
		}
	}
	return out
}

// nominal notes the size as made, read off where nothing has worn.
func (s *story) nominal(id machine.FeatureID) {
	s.minutes(1)
	mm := shapeOf(id).nominal
	s.say(&machine.NominalSet{Feature: id, Amount: *s.amount(fmt.Sprintf("%.3f", mm), "mm"), From: machine.Unworn,
		Source: "unworn surface, rounded to the nearest even size"})
}
