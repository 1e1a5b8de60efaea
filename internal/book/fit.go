package book

import (
	"fmt"
	"slices"
	"strings"

	"matchmark/internal/finding/judge"
	"matchmark/internal/machine"
	"matchmark/internal/trade/spelling"
)

// Fit is what a worked surface must be to the part that runs in or on it.
type Fit struct {
	Check  machine.CheckID  `json:"check"`
	Name   string           `json:"name"`
	Wanted Limit            `json:"wanted"` // as new
	Mates  []machine.PartID `json:"mates"`
	With   string           `json:"with"`           // the mating parts in words, new ones called new
	Mate   *Measured        `json:"mate,omitempty"` // where one mating surface stays as it is and was measured
	Low    float64          `json:"lowMm,omitempty"`
	High   float64          `json:"highMm,omitempty"`
	Window string           `json:"window,omitempty"` // the size that Mate asks for, in words
}

// fits lists what is known of a surface's fits: clearances worked out of it and
// a mate, and clearances read directly whose limits follow its size and that
// work on it makes good.
func (s *sheet) fits(ft *machine.Feature) []Fit {
	out := []Fit{}
	for _, c := range s.m.Checks {
		f := s.judged.Of(c.ID)
		if f == nil || c.Unit != "mm" {
			continue
		}
		switch {
		case c.By == machine.ByClearance && c.Outer != nil && c.Inner != nil && (c.Outer == ft || c.Inner == ft):
			mate := c.Inner
			if c.Inner == ft {
				mate = c.Outer
			}
			out = append(out, s.clearance(ft, mate, f))
		case c.By == machine.ByReading && c.Size != nil && c.Size.Feature == ft.ID && workedFor(c, ft):
			if l, ok := bothNew(f); ok {
				out = append(out, s.readFit(ft, c, l))
			}
		}
	}
	return out
}

// workedFor tells whether a remedy of a check works on a surface.
func workedFor(c *machine.Check, ft *machine.Feature) bool {
	return slices.ContainsFunc(c.Remedies, func(r machine.Remedy) bool { return slices.Contains(r.Reworks, ft.ID) })
}

// bothNew is the limit of a fit with a tightest and a loosest as new.
func bothNew(f *judge.Finding) (Limit, bool) {
	b, ok := newBounds(f)
	if !ok {
		return Limit{}, false
	}
	return Limit{span(b.NewLow, b.NewHigh, f.Check.Unit), b.From, b.Source}, true
}

// newBounds is the best limit that says both how tight and how loose a new fit
// may be.
func newBounds(f *judge.Finding) (judge.Bounds, bool) {
	for _, b := range append([]judge.Bounds{f.Limit}, f.Others...) {
		if b.Missing == "" && bounded(b.NewLow) && bounded(b.NewHigh) {
			return b, true
		}
	}
	return judge.Bounds{}, false
}

func (s *sheet) clearance(ft, mate *machine.Feature, f *judge.Finding) Fit {
	fit := Fit{Check: f.Check.ID, Name: f.Check.Name, Mates: []machine.PartID{}}
	fit.Wanted, _ = asNew(f)
	if mate.Part != nil {
		fit.Mates = []machine.PartID{mate.Part.ID}
		fit.With = s.called(mate.Part)
	}
	if s.changes(mate) {
		return fit
	}
	got := measured(s.m, mate)
	if !got.Known {
		return fit
	}
	fit.Mate = &got
	if b, ok := newBounds(f); ok {
		fit.window(ft, got, b)
	}
	return fit
}

// window is the size of a surface for which its whole fit lies within new
// limits: a bore is at least the largest journal and the tightest fit, at most
// the smallest journal and the loosest. A journal the other way round.
func (fit *Fit) window(ft *machine.Feature, mate Measured, b judge.Bounds) {
	low, high := mate.MostMM+b.NewLow, mate.LeastMM+b.NewHigh
	if ft.Sort == machine.Shaft {
		low, high = mate.MostMM-b.NewHigh, mate.LeastMM-b.NewLow
	}
	if low > high {
		fit.Window = fmt.Sprintf("the mating part varies by %s mm, more than a new fit allows: no one size suits all of it", size(mate.MostMM-mate.LeastMM))
		return
	}
	fit.Low, fit.High = low, high
	fit.Window = fmt.Sprintf("%s to %s mm for the mating part as measured (%s)", size(low), size(high), mate.Words)
}

// readFit is a clearance that is read directly; the mates are the other parts
// of its joints.
func (s *sheet) readFit(ft *machine.Feature, c *machine.Check, l Limit) Fit {
	fit := Fit{Check: c.ID, Name: c.Name, Wanted: l, Mates: []machine.PartID{}}
	var names []string
	for _, j := range c.Joints {
		for _, p := range j.Parts {
			if p != ft.Part && !slices.Contains(fit.Mates, p.ID) && slices.Contains(j.Parts, ft.Part) {
				fit.Mates = append(fit.Mates, p.ID)
				names = append(names, s.called(p))
			}
		}
	}
	fit.With = strings.Join(names, "; ")
	return fit
}

// changes tells whether the plan renews or reworks a surface.
func (s *sheet) changes(ft *machine.Feature) bool {
	if ft.Part != nil && s.renewed[ft.Part.ID] {
		return true
	}
	return s.reworked[ft.ID]
}

// called names a mating part; one that the plan renews is the new one.
func (s *sheet) called(p *machine.Part) string {
	if s.renewed[p.ID] {
		return "new " + p.Name
	}
	return p.Name
}

// tolerance puts the fits of a surface together. It never states a tolerance
// as given: the shop agrees to one.
func tolerance(fits []Fit) string {
	if len(fits) == 0 {
		return "to be agreed; no fit of this surface is known here"
	}
	var parts []string
	for _, f := range fits {
		text := fmt.Sprintf("%s wanted %s", spelling.Inside(f.Name), f.Wanted)
		if f.Wanted.Text == "" {
			text = spelling.Inside(f.Name) + ": no limit known"
		}
		if f.With != "" {
			text += " with " + f.With
		}
		if f.Window != "" {
			text += ": " + f.Window
		}
		parts = append(parts, text)
	}
	return "to be agreed; " + strings.Join(parts, "; ")
}
