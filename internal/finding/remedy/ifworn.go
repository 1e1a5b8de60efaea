package remedy

import (
	"fmt"
	"slices"

	"matchmark/internal/finding/judge"
	"matchmark/internal/machine"
)

// writeIfWorn prices each doubtful check by itself, on top of the plan. It is
// the most that would be added; together with others it may be less.
func (w *writer) writeIfWorn() {
	for _, f := range w.f.List {
		if f.Verdict != judge.Doubtful || w.failed[f.Check.ID] || waiting(f.Check) {
			continue
		}
		w.plan.IfWorn = append(w.plan.IfWorn, w.ifWorn(f.Check))
	}
	slices.SortFunc(w.plan.IfWorn, func(a, b IfWorn) int { return compareIDs(a.Check, b.Check) })
}

func (w *writer) ifWorn(c *machine.Check) IfWorn {
	out := IfWorn{Check: c.ID}
	p := prover{writer: w}
	if j, ok := p.served(c.ID); ok {
		out.Remedy, out.Name, out.Covered = j.Remedy, j.Name, true
		out.Says = fmt.Sprintf("%s: %s makes it good already.", c.Name, quoted(j.Name))
		return out
	}
	least := far
	for i := range c.Remedies {
		r := &c.Remedies[i]
		if leavesAlone(r) {
			continue
		}
		cost := w.onTop(c, r)
		if cost < least || cost == least && r.Key < out.Remedy {
			least, out.Remedy, out.Name = cost, r.Key, r.Name
		}
	}
	if least == far {
		out.Says = fmt.Sprintf("%s: no remedy is listed, should it be worn.", c.Name)
		return out
	}
	out.Cost, out.Covered = hours(least), least == 0
	out.Says = fmt.Sprintf("%s: should it be worn, %s is needed, at most %s more.", c.Name, quoted(out.Name), costWords(least))
	return out
}

// onTop is what a remedy adds to the plan: nothing where its job is done
// already, the jobs of the whole group where it has sizes. A group with a
// member that no size cleans up is not refused here.
func (w *writer) onTop(c *machine.Check, r *machine.Remedy) int64 {
	cost, seen := int64(0), map[string]bool{}
	for _, other := range w.m.Checks {
		for i := range other.Remedies {
			o := &other.Remedies[i]
			mine := other == c && o == r
			grouped := sized(r) && sized(o) && o.Group == r.Group
			if !mine && !grouped || w.doneBy(o) {
				continue
			}
			key := o.Key + fmt.Sprint(worked(w.m, o))
			if len(worked(w.m, o)) == 0 {
				key = o.Key + string(other.ID)
			}
			if !seen[key] {
				seen[key] = true
				cost += hundredths(o.Cost)
			}
		}
	}
	return cost
}

// doneBy tells whether a job of the plan is the job of a remedy.
func (w *writer) doneBy(r *machine.Remedy) bool {
	parts := worked(w.m, r)
	return slices.ContainsFunc(w.plan.Jobs, func(j Job) bool {
		if j.Remedy != r.Key {
			return false
		}
		mine := worked(w.m, &machine.Remedy{Renews: j.Renews, Reworks: j.Reworks})
		return slices.ContainsFunc(parts, func(p machine.PartID) bool { return slices.Contains(mine, p) })
	})
}
