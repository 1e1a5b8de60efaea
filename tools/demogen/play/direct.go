package play

import (
	"fmt"
	"math"
	"math/rand/v2"
	"strconv"

	"matchmark/internal/finding/judge"
	"matchmark/internal/machine"
	"matchmark/internal/trade/metrology"
)

// direct are the figures, as typed, of checks that are read directly and that
// the story is exact about; several are repeats.
var direct = map[machine.CheckID][]string{
	"head-flat":         {"0.14", "0.14"},
	"manifold-flat":     {"0.16"},
	"inj-pressure.1":    {"117 bar"},
	"inj-pressure.2":    {"121 bar"},
	"inj-pressure.3":    {"100 bar", "99.5 bar"},
	"inj-balance":       {"21 bar"},
	"stat-open":         {"3.2"},
	"brush-len":         {"0.38"},
	"pulley-seal-track": {"0.17", "0.16"},
	"crank-seal-track":  {"0.04"},
	"glow-res.1":        {"0.9"},
	"glow-res.2":        {"61.4"},
	"glow-res.3":        {"1.0"},
	"ring-gap.1":        {"0.90"},
	"ring-gap.2":        {"0.86"},
	"ring-gap.3":        {"0.74"},
	"ring-gap-second.1": {"0.62"},
	"ring-gap-second.2": {"0.80"},
	"ring-gap-second.3": {"0.66"},
	"ring-gap-oil.1":    {"0.58"},
	"ring-gap-oil.2":    {"0.76"},
	"ring-gap-oil.3":    {"0.60"},
	"crank-runout":      {"0.05", "0.06"},
	"comp-volume.1":     {"21.6"},
	"comp-volume.2":     {"21.1"},
	"comp-volume.3":     {"21.5"},
	"comp-spread":       {"0.5"},
	"flywheel-surface":  {"0.06"},
	"cover-flat":        {"0.08"},
	"cap-press":         {"0.48 bar"},
	"crank-float":       {"0.22", "0.21", "0.22"},
	"main-clear.1":      {"0.051", "0.051"},
	"main-clear.2":      {"0.064", "0.076"},
	"main-clear.3":      {"0.051", "0.064"},
	"main-clear.4":      {"0.064", "0.064"},
	"rim-true.left":     {"2.5"},
	"rim-true.right":    {"1.5"},
	"wp-play":           {"0.09"},
}

// tools are the instruments used where the check names none that measures it.
var tools = map[machine.CheckID]string{"inj-pressure": "hydraulic-gauge", "inj-balance": "hydraulic-gauge"}

// looksBad are the answers by eye that were no.
var looksBad = map[machine.CheckID]string{
	"inj-spray.3":    "one-sided, wet at the tip, no chatter",
	"hp-pipe-cond.2": "cone mushroomed at the pump end, bore closed to half",
	"tank-clean":     "flakes still come after the third rinse",
}

// check makes every check of some types: a figure, or an answer by eye.
func (s *story) check(types ...machine.CheckID) {
	m := s.whole()
	for _, t := range types {
		found := false
		for _, c := range m.Checks {
			if c.Type == t {
				found = true
				s.minutes(5)
				s.checkOne(m, c)
			}
		}
		if !found {
			s.fail("the story makes check %q, which the kits do not have", t)
		}
	}
}

func (s *story) checkOne(m *machine.Machine, c *machine.Check) {
	switch c.By {
	case machine.ByEye, machine.ByPassage:
		words, bad := looksBad[c.ID]
		if !bad && len(c.Limits) > 0 {
			words = c.Limits[0].NewWords
		}
		s.say(&machine.LookTaken{Check: c.ID, OK: !bad, Words: words})
	case machine.ByReading:
		tool := c.Tool
		if other := tools[c.Type]; other != "" {
			tool = other
		}
		for _, typed := range figures(m, c, tool) {
			s.say(&machine.ReadingTaken{Check: c.ID, Amount: *s.amount(typed, c.Unit), Tool: tool})
		}
	default:
		s.fail("check %q is made from surfaces, not directly", c.ID)
	}
}

// figures are what a check reads: what the story is exact about, else a sound
// one, as of a part that has run.
func figures(m *machine.Machine, c *machine.Check, tool string) []string {
	if list := direct[c.ID]; list != nil {
		return list
	}
	step := stepOf(c, tool)
	v := math.Round(soundValue(judge.One(m, c).Limit, c.Unit, luck(string(c.ID)))/step) * step
	return []string{strconv.FormatFloat(v, 'f', decimals(step), 64)}
}

// stepOf is the step a direct figure is read to.
func stepOf(c *machine.Check, tool string) float64 {
	if in, ok := metrology.InstrumentByID(tool); ok && in.Unit == c.Unit {
		return in.Step
	}
	switch c.Unit {
	case "count":
		return 1
	case "mm", "ratio", "bar", "µm":
		return 0.01
	}
	return 0.1
}

// soundValue lies between the limits of a new part, or a little past them
// towards the limit of a worn one.
func soundValue(b judge.Bounds, unit string, by *rand.Rand) float64 {
	low, high := b.NewLow, b.NewHigh
	if math.IsInf(low, 0) {
		low = b.Low
	}
	if math.IsInf(high, 0) {
		high = b.High
	}
	k := 0.35 + 0.4*by.Float64()
	switch noLow, noHigh := math.IsInf(low, 0), math.IsInf(high, 0); {
	case noLow && noHigh:
		return 0
	case noLow:
		return math.Max(high, 0) * k
	case noHigh && unit == "ratio":
		return low + (1-low)*k
	case noHigh:
		return low * (1 + 0.3*k)
	}
	return low + (high-low)*k
}

// word adds a remark of the person at the machine to a check.
func (s *story) word(c machine.CheckID, text string) {
	s.say(&machine.Noted{Of: machine.RefCheck(c), Text: text})
}

// clean records that a part was cleaned by a permitted way: the first that the
// kit lists for it.
func (s *story) clean(minutes float64, parts ...machine.PartID) {
	for _, id := range parts {
		p := s.machine().Part(id)
		if p == nil {
			s.fail("the story cleans %q, which the kits do not have", id)
			continue
		}
		s.minutes(minutes)
		s.say(&machine.PartCleaned{Part: id, Method: s.method(p)})
	}
}

func (s *story) method(p *machine.Part) string {
	for _, k := range s.machine().Cleaning {
		for _, f := range k.For {
			if f == p.Type && len(k.Permitted) > 0 {
				return k.Permitted[s.rng.IntN(min(2, len(k.Permitted)))]
			}
		}
	}
	return "paraffin and brush, wiped dry"
}

// places joins a type and its places: "liner", "1", "2" gives liner.1, liner.2.
func places[T ~string](typ T, at ...machine.Place) (out []T) {
	for _, p := range at {
		out = append(out, machine.Instance(typ, p))
	}
	return out
}

var (
	cylinders = []machine.Place{"1", "2", "3"}
	mains     = []machine.Place{"1", "2", "3", "4"}
	valves    = []machine.Place{"in-1", "ex-1", "in-2", "ex-2", "in-3", "ex-3"}
)

// surface names a surface of a part.
func surface(part machine.PartID, name string, args ...any) machine.FeatureID {
	return machine.FeatureOf(part, fmt.Sprintf(name, args...))
}
