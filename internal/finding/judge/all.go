package judge

import (
	"matchmark/internal/finding/nominal"
	"matchmark/internal/machine"
	"matchmark/internal/trade/metrology"
)

// Findings holds the verdict on every check of a machine, in the machine's
// check order.
type Findings struct {
	List []*Finding
	byID map[machine.CheckID]*Finding
}

// Of gives the finding on a check, nil for a check that is not there.
func (f Findings) Of(id machine.CheckID) *Finding { return f.byID[id] }

// All judges every check. The order in which readings were taken changes
// nothing, and one machine always gives the same findings.
// Cost: linear in checks and readings; a spread close past its limit adds the
// simulation of metrology.RangeEstimate.
func All(m *machine.Machine) Findings {
	out := Findings{byID: make(map[machine.CheckID]*Finding, len(m.Checks))}
	b := newBench(m)
	for _, c := range m.Checks {
		f := b.judge(c)
		out.List = append(out.List, f)
		out.byID[c.ID] = f
	}
	return out
}

// One judges a single check of a machine.
func One(m *machine.Machine, c *machine.Check) *Finding { return newBench(m).judge(c) }

// bench is what judging needs beside the check: the machine, the instruments,
// and the units, surfaces and formulas met so far. It lives for one call of
// All or One.
type bench struct {
	m      *machine.Machine
	rack   []metrology.Instrument
	tools  map[string]metrology.Instrument // of the rack, by id
	scales map[string]scale
	metals []metrology.Material

	surfaces map[surfaceKey]surface
	formulas map[string]parsed

	corrections map[correctionKey]*correction
	proposals   map[surfaceKey]nominal.Proposal
	factors     map[float64]float64 // of U (95 %), by degrees of freedom
}

func newBench(m *machine.Machine) *bench {
	b := &bench{m: m, tools: map[string]metrology.Instrument{}, scales: map[string]scale{},
		metals: metrology.Materials(), surfaces: map[surfaceKey]surface{}, formulas: map[string]parsed{},
		corrections: map[correctionKey]*correction{}, proposals: map[surfaceKey]nominal.Proposal{},
		factors: map[float64]float64{}}
	b.rack = Instruments(m)
	for _, in := range b.rack {
		b.tools[in.ID] = in
	}
	return b
}

// judge gives the finding on one check.
func (b *bench) judge(c *machine.Check) *Finding {
	f := &Finding{Check: c, Verdict: NotRead}
	if c.By == machine.ByEye || c.By == machine.ByPassage {
		b.byEye(f)
		return f
	}
	s := b.scaleOf(c.Unit)
	got := b.measure(c, s)
	f.Read, f.Points = got.read, got.points
	f.Working = append(f.Working, got.working...)
	limits := b.limits(c, s, got.step)
	f.Limit, f.Others = limits.shown()
	f.Working = append(f.Working, limits.working...)
	b.decide(f, s, got, limits)
	f.Sentence += b.clashed(c)
	return f
}
