package remedy

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"matchmark/internal/finding/judge"
)

// writeConflicts explains what cannot be made good.
func (w *writer) writeConflicts() {
	for _, core := range w.ans.conflicts {
		var c Conflict
		var names []string
		for _, n := range core {
			c.Checks = append(c.Checks, w.checks[n].ID)
			names = append(names, w.checks[n].Name)
			c.Reasons = append(c.Reasons, w.whyNot(n)...)
		}
		slices.Sort(c.Reasons)
		c.Reasons = slices.Compact(c.Reasons)
		head := listed(names) + " cannot be made good"
		if len(core) > 1 {
			head += " together"
		}
		c.Says = head + ": " + strings.Join(c.Reasons, "; ") + "."
		w.plan.Infeasible = append(w.plan.Infeasible, c)
	}
}

// whyNot gives, for each way to make a check good, what stands against it.
func (w *writer) whyNot(n int) []string {
	c := w.checks[n]
	var ways []option
	for _, o := range w.options {
		mine := o.need == n || slices.Contains(o.remedy.Mends, c.ID) && w.needs[o.need].must
		if mine && (w.needs[n].word < 0 || w.needs[n].word == o.act) {
			ways = append(ways, o)
		}
	}
	if len(ways) == 0 {
		for i := range c.Remedies {
			if leavesAlone(&c.Remedies[i]) {
				return []string{fmt.Sprintf("the only remedy listed for %s, %s, leaves it as it is: choose it yourself, or add another", c.Name, quoted(c.Remedies[i].Name))}
			}
		}
		return []string{fmt.Sprintf("no remedy is listed for %s", c.Name)}
	}
	var out []string
	for _, o := range ways {
		why := w.against(o)
		if w.needs[n].word == o.act {
			why = fmt.Sprintf("%s was chosen for %s, and %s", quoted(o.remedy.Name), c.Name, why)
		}
		out = append(out, why)
	}
	return out
}

// against says what stands against taking an option.
func (w *writer) against(o option) string {
	if w.acts[o.act].family {
		if _, ok := w.sizeFor(o.act); !ok {
			return w.noSize(o.act)
		}
	}
	var moves []string
	for _, e := range w.acts[o.act].effects {
		n := w.effects[e].need
		f := w.f.Of(w.checks[n].ID)
		now, by := f.Value, float64(w.effects[e].by)/1e6
		way := fmt.Sprintf("%s moves %s by %s: %s now, %s then, %s", quoted(o.remedy.Name), w.checks[n].Name, signed(by), figure(now),
			withUnit(f, now+by), limitWords(f))
		if v := w.needs[n].value + w.effects[e].by; v < w.needs[n].low || v > w.needs[n].high {
			way += ", past it"
			if !w.hasRemedy(n) {
				way += ", and no remedy is listed for that"
			}
		}
		moves = append(moves, way)
	}
	if len(moves) == 0 {
		return fmt.Sprintf("%s is excluded by the others", quoted(o.remedy.Name))
	}
	return strings.Join(moves, "; ")
}

func (w *writer) hasRemedy(n int) bool {
	return slices.ContainsFunc(w.options, func(o option) bool { return o.need == n })
}

// noSize says why no size of a group will do: "no size of the group crankpins
// cleans up Crankshaft, crankpin 2: 0.62 worn, largest step 0.50".
func (w *writer) noSize(a int) string {
	group := groupWords(w.decided[a].group)
	asked := map[int64][]string{}
	var sizes []int64
	for n, c := range w.checks {
		if w.needs[n].word == a && w.needs[n].size > 0 {
			asked[w.needs[n].size] = append(asked[w.needs[n].size], c.Name)
			sizes = append(sizes, w.needs[n].size)
		}
	}
	slices.Sort(sizes)
	sizes = slices.Compact(sizes)
	if len(sizes) > 1 {
		var words []string
		for _, s := range sizes {
			words = append(words, fmt.Sprintf("%s for %s", size(float64(s)/1e6), listed(asked[s])))
		}
		return fmt.Sprintf("the group %s takes one size, and %s were chosen", group, listed(words))
	}
	largest, what := int64(-1), "largest step"
	for _, s := range w.acts[a].sizes {
		largest = max(largest, s)
	}
	if len(sizes) == 1 {
		largest, what = sizes[0], "the size chosen is"
	}
	if largest < 0 {
		return fmt.Sprintf("the members of the group %s have no size in common", group)
	}
	var worst []string
	for _, m := range w.decided[a].members {
		if units(m.WearMM) > largest {
			worst = append(worst, fmt.Sprintf("%s: %s worn", m.Name, figure(m.WearMM)))
		}
	}
	return fmt.Sprintf("no size of the group %s cleans up %s, %s %s", group, listed(worst), what, figure(float64(largest)/1e6))
}

// limitWords is "limits 0.60 to 1.10 mm", "limit 0.50 mm" or "no limit".
func limitWords(f *judge.Finding) string {
	low, high := math.Max(f.Limit.Low, f.Limit.NewLow), f.Limit.High
	switch {
	case math.IsInf(low, -1) && math.IsInf(high, 1):
		return "no limit"
	case math.IsInf(low, -1):
		return "limit " + withUnit(f, high)
	case math.IsInf(high, 1):
		return "not below " + withUnit(f, low)
	}
	return fmt.Sprintf("limits %s to %s", figure(low), withUnit(f, high))
}

func signed(v float64) string {
	if v < 0 {
		return "−" + figure(-v)
	}
	return "+" + figure(v)
}
