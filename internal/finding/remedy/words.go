package remedy

import (
	"fmt"
	"slices"
	"strings"

	"matchmark/internal/finding/judge"
	"matchmark/internal/machine"
)

// why says in words why a check gets its remedy.
func (w *writer) why(c *Choice) string {
	n := w.at[c.Check]
	job := w.plan.Jobs[c.Job]
	switch {
	case c.ByHand:
		by := w.word[c.Check]
		return "Chosen by " + orSomebody(by.By) + because(by.Why)
	case c.Of != c.Check:
		return fmt.Sprintf("Made good by %s, done for %s.", quoted(c.Name), w.m.Check(c.Of).Name)
	case job.Group != "":
		return fmt.Sprintf("Worked with its size group, %s, which takes %s.", groupWords(job.Group), size(c.Step))
	case len(job.Serves) > 1:
		return fmt.Sprintf("One job, paid once, serves %d failing checks.", len(job.Serves))
	}
	others := 0
	next := ""
	least := far
	for _, o := range w.options {
		if o.need != n || o.remedy.Key == c.Remedy {
			continue
		}
		others++
		if cost := w.shops[o.job].cost; cost < least && w.usable(o.act) {
			least, next = cost, o.remedy.Name
		}
	}
	if others == 0 {
		return "The only remedy listed."
	}
	if next == "" {
		return fmt.Sprintf("The only one of %d remedies that serves.", others+1)
	}
	return fmt.Sprintf("%s: %s against %s for %s.", w.reason(others+1), costWords(hundredths(job.Cost)), costWords(least), quoted(next))
}

func (w *writer) reason(of int) string {
	switch w.plan.Aim {
	case Soonest:
		return fmt.Sprintf("Of %d remedies, the cheapest set that is ready in %s", of, days(w.plan.Days))
	case LongestLived:
		return fmt.Sprintf("Of %d remedies, the cheapest set that lasts as long", of)
	}
	return fmt.Sprintf("Of %d remedies, part of the cheapest set", of)
}

// writeForced says what each shared size forces.
func (w *writer) writeForced(acts []int) {
	for _, a := range acts {
		if !w.acts[a].family {
			continue
		}
		f := Forced{Group: w.decided[a].group, Step: w.stepOf(a), Members: w.decided[a].members, Cost: hours(w.priceOf([]int{a}))}
		f.Says = forcedWords(f, w.asked(a))
		w.plan.Forced = append(w.plan.Forced, f)
	}
}

// asked is whose word fixed the size of a family; empty for nobody's.
func (w *writer) asked(a int) string {
	for n, c := range w.checks {
		if w.needs[n].word == a && w.needs[n].size > 0 {
			return orSomebody(w.word[c.ID].By)
		}
	}
	return ""
}

// forcedWords is "All 3 crankpins take 0.50 mm because Crankshaft, crankpin 3
// needs it (0.28 worn)."
func forcedWords(f Forced, by string) string {
	all := fmt.Sprintf("All %d %s take %s", len(f.Members), groupWords(f.Group), size(f.Step))
	if len(f.Members) == 1 {
		all = fmt.Sprintf("%s takes %s", f.Members[0].Name, size(f.Step))
	}
	needed, worst, drivers := 0.0, Member{}, 0
	var unread []string
	for _, m := range f.Members {
		switch {
		case !m.Known:
			unread = append(unread, m.Name)
		case m.StepNeeded > needed:
			needed, worst, drivers = m.StepNeeded, m, 1
		case m.StepNeeded == needed && needed > 0:
			drivers++
			if m.WearMM > worst.WearMM {
				worst = m
			}
		}
	}
	switch {
	case by != "" && f.Step > needed:
		all += fmt.Sprintf(": chosen by %s", by)
	case drivers == 0:
		all += ": the smallest size"
	case drivers == 1:
		all += fmt.Sprintf(" because %s needs it (%s worn)", worst.Name, figure(worst.WearMM))
	default:
		all += fmt.Sprintf(" because %d of them need it, %s most (%s worn)", drivers, worst.Name, figure(worst.WearMM))
	}
	if len(unread) > 0 {
		all += fmt.Sprintf("; assumed to clean up, with no figure: %s", listed(unread))
	}
	return all + "."
}

// writeAlternatives compares the next-best sets with the best.
func (w *writer) writeAlternatives() {
	best := w.ans.best
	for _, s := range w.ans.others {
		alt := Alternative{Cost: hours(s.cost), Days: hours(w.daysOf(s.acts)), More: hours(s.cost - best.cost),
			Life: w.leastLife(s.acts), With: w.picks(s.acts, best.acts), Without: w.picks(best.acts, s.acts)}
		alt.Says = fmt.Sprintf("%s, %s more: %s instead of %s.", costWords(s.cost), costWords(s.cost-best.cost), pickWords(w.m, alt.With), pickWords(w.m, alt.Without))
		w.plan.Alternatives = append(w.plan.Alternatives, alt)
	}
}

func (w *writer) leastLife(acts []int) float64 {
	least := int64(1000)
	for n, life := range w.lives(acts) {
		if w.needs[n].must && !w.drop[n] {
			least = min(least, life)
		}
	}
	return float64(max(least, 0)) / 1000
}

// picks lists what acts take that others do not.
func (w *writer) picks(acts, others []int) []Pick {
	var out []Pick
	for _, a := range acts {
		if slices.Contains(others, a) {
			continue
		}
		o := w.options[w.decided[a].options[0]]
		for _, i := range w.decided[a].options {
			if w.needs[w.options[i].need].must {
				o = w.options[i]
				break
			}
		}
		p := Pick{Check: o.check.ID, Remedy: o.remedy.Key, Name: o.remedy.Name}
		if w.acts[a].family {
			p.Step = w.stepOf(a)
		}
		out = append(out, p)
	}
	return out
}

// pickWords says what is taken: each remedy with its checks, or with their
// number where there are more than three.
func pickWords(m *machine.Machine, picks []Pick) string {
	var names, out []string
	checks := map[string][]string{}
	for _, p := range picks {
		name := quoted(p.Name)
		if p.Step > 0 {
			name += ", " + size(p.Step) + ","
		}
		if checks[name] == nil {
			names = append(names, name)
		}
		checks[name] = append(checks[name], m.Check(p.Check).Name)
	}
	for _, name := range names {
		if n := len(checks[name]); n > 3 {
			out = append(out, fmt.Sprintf("%s for %d checks", name, n))
		} else {
			out = append(out, name+" for "+listed(checks[name]))
		}
	}
	if len(out) == 0 {
		return "nothing"
	}
	return listed(out)
}

// writeFlips gives the price at which each shared decision changes.
func (w *writer) writeFlips() {
	best := w.ans.best.acts
	for _, f := range w.ans.flips {
		out := Flip{Cost: hours(f.own), Never: f.never}
		for _, j := range w.acts[f.act].jobs {
			out.Jobs = append(out.Jobs, w.jobAt[j])
		}
		name := w.options[w.decided[f.act].options[0]].remedy.Name
		if g := w.decided[f.act].group; g != "" {
			name += " (" + groupWords(g) + ")"
		}
		if f.never {
			out.Says = fmt.Sprintf("%s, %s: nothing else makes its checks good, at any price.", quoted(name), costWords(f.own))
		} else {
			out.Price = hours(f.own + f.more)
			out.Instead = w.picks(f.instead, best)
			out.Says = fmt.Sprintf("%s, %s, stays the choice up to %s; above that %s.", quoted(name), costWords(f.own),
				costWords(f.own+f.more), pickWords(w.m, out.Instead))
		}
		w.plan.Flips = append(w.plan.Flips, out)
	}
}

// writeLooseGroups notes groups without sizes of which only some are worked.
func (w *writer) writeLooseGroups() {
	for _, j := range w.plan.Jobs {
		for _, id := range j.For {
			r := w.remedyOf(id, j.Remedy)
			if r.Group == "" || sized(&r) {
				continue
			}
			var rest []string
			for _, c := range w.m.Checks {
				same := c.Remedy(j.Remedy)
				if same != nil && same.Group == r.Group && !slices.Contains(j.For, c.ID) && !w.inPlan(c.ID, j.Remedy) {
					rest = append(rest, c.Name)
				}
			}
			if len(rest) > 0 {
				slices.Sort(rest)
				w.plan.Notes = append(w.plan.Notes, fmt.Sprintf("%s is usually done to the whole group %s at once; not in the plan: %s.",
					quoted(j.Name), groupWords(r.Group), listed(rest)))
			}
			break
		}
	}
	slices.Sort(w.plan.Notes)
	w.plan.Notes = slices.Compact(w.plan.Notes)
}

func (w *writer) inPlan(id machine.CheckID, key string) bool {
	return slices.ContainsFunc(w.plan.Jobs, func(j Job) bool { return j.Remedy == key && slices.Contains(j.For, id) })
}

func groupWords(g machine.SizeGroup) string {
	return strings.ReplaceAll(strings.TrimPrefix(string(g), "all-"), "-", " ")
}

func costWords(h int64) string { return fmt.Sprintf("%.2f hours", hours(h)) }

func days(d float64) string {
	if d == 1 {
		return "1 day"
	}
	return strings.TrimSuffix(strings.TrimRight(fmt.Sprintf("%.2f", d), "0"), ".") + " days"
}

// size is a step as the trade says it: "0.25 mm".
func size(mm float64) string { return fmt.Sprintf("%.2f mm", mm) }

// figure prints a value with up to three decimals, two at least.
func figure(v float64) string {
	text := fmt.Sprintf("%.3f", v)
	return strings.TrimSuffix(text, "0")
}

func quoted(name string) string { return "“" + name + "”" }

func orSomebody(by string) string {
	if by == "" {
		return "hand"
	}
	return by
}

func because(why string) string {
	if why == "" {
		return "."
	}
	return ": " + strings.TrimRight(why, ".") + "."
}

// listed joins words: "a, b and c".
func listed(words []string) string {
	if len(words) < 2 {
		return strings.Join(words, "")
	}
	return strings.Join(words[:len(words)-1], ", ") + " and " + words[len(words)-1]
}

// withUnit puts a check's unit behind a figure.
func withUnit(f *judge.Finding, v float64) string {
	if f.Check.Unit == "" {
		return figure(v)
	}
	return figure(v) + " " + f.Check.Unit
}
