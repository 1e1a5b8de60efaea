package remedy

import (
	"fmt"
	"math"
	"slices"

	"matchmark/internal/machine"
)

// writeProof goes over the finished plan once more, from the machine's own
// remedies and findings and not from the search: every failing check has a
// remedy, every member of a size group is cleaned up, every value that a job
// moves stays within its limits.
func (w *writer) writeProof() {
	p := prover{writer: w, holds: len(w.plan.Infeasible) == 0 && len(w.ans.unknown) == 0}
	for _, c := range w.checks {
		if w.failed[c.ID] {
			p.made(c)
		}
	}
	for _, f := range w.plan.Forced {
		for _, m := range f.Members {
			p.cleaned(f, m)
		}
	}
	p.moved()
	w.plan.Proof, w.plan.Proved = p.lines, p.holds
}

type prover struct {
	*writer
	lines []string
	holds bool
}

func (p *prover) say(ok bool, format string, args ...any) {
	p.lines = append(p.lines, fmt.Sprintf(format, args...))
	p.holds = p.holds && ok
}

// served tells by which job a check is made good: one that carries its remedy
// or a remedy that mends it.
func (p *prover) served(id machine.CheckID) (Job, bool) {
	for _, j := range p.plan.Jobs {
		if slices.Contains(j.For, id) {
			return j, true
		}
	}
	for _, j := range p.plan.Jobs {
		for _, from := range j.For {
			if slices.Contains(p.remedyOf(from, j.Remedy).Mends, id) {
				return j, true
			}
		}
	}
	return Job{}, false
}

func (p *prover) made(c *machine.Check) {
	if j, ok := p.served(c.ID); ok {
		p.say(true, "%s: made good by %s.", c.Name, quoted(j.Name))
		return
	}
	p.say(false, "%s: NOT made good.", c.Name)
}

// cleaned holds the size against the wear of one member.
func (p *prover) cleaned(f Forced, m Member) {
	switch {
	case !m.Known:
		p.say(false, "%s, %s: not shown that it cleans up (%s).", m.Name, size(f.Step), m.How)
	case m.WearMM <= f.Step+1e-9:
		p.say(true, "%s: %s worn, cleaned up by %s (%s).", m.Name, figure(m.WearMM), size(f.Step), m.How)
	default:
		p.say(false, "%s: %s worn, NOT cleaned up by %s (%s).", m.Name, figure(m.WearMM), size(f.Step), m.How)
	}
}

// moved predicts every value that the jobs shift.
func (p *prover) moved() {
	sum, from := map[machine.CheckID]float64{}, map[machine.CheckID][]string{}
	for _, j := range p.plan.Jobs {
		once := map[machine.CheckID]float64{}
		for _, id := range j.For {
			for _, s := range p.remedyOf(id, j.Remedy).Shifts {
				if old := once[s.Check]; math.Abs(s.By) > math.Abs(old) || s.By == -math.Abs(old) {
					once[s.Check] = s.By
				}
			}
		}
		for id, by := range once {
			sum[id] += by
			from[id] = append(from[id], fmt.Sprintf("%s by %s", signed(by), quoted(j.Name)))
		}
	}
	var ids []machine.CheckID
	for id := range sum {
		ids = append(ids, id)
	}
	sortIDs(&ids)
	for _, id := range ids {
		if c := p.m.Check(id); c != nil {
			p.predicted(c, sum[id], from[id])
		}
	}
}

func (p *prover) predicted(c *machine.Check, by float64, from []string) {
	f := p.f.Of(c.ID)
	if _, ok := p.served(c.ID); ok {
		p.say(true, "%s: moved %s; it gets a remedy, and is set after that.", c.Name, listed(from))
		return
	}
	low, high, now, ok := rejudged(f)
	if !ok {
		p.say(false, "%s: moved %s, and cannot be predicted: read it before metal is cut.", c.Name, listed(from))
		return
	}
	then := now + by
	within, words := then >= low-1e-6 && then <= high+1e-6, "within"
	if !within {
		words = "PAST"
	}
	p.say(within, "%s: %s now, %s: %s predicted, %s: %s.", c.Name, figure(now), listed(from), withUnit(f, then), limitWords(f), words)
}
