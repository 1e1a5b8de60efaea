package remedy

import (
	"cmp"
	"fmt"
	"slices"
	"strings"

	"matchmark/internal/finding/judge"
	"matchmark/internal/machine"
)

// Search says how much work a decision may be. The zero value is the usual
// amount.
type Search struct {
	Nodes int // points of search that may be looked at; 0 is 200,000
}

const usualNodes = 200_000

// Decide finds the set of remedies that makes every failing check good and
// suits an aim best, with the usual amount of search. See the package comment
// for how remedies are read. It never fails: what cannot be made good is named
// in Infeasible and left out of the rest.
// Cost: some 5 to 30 ms for 60 failing checks with 15 shared decisions; see
// TestSixtyChecks and TestWorn60.
func Decide(m *machine.Machine, f judge.Findings, aim Aim) Plan {
	return Search{}.Decide(m, f, aim)
}

// Decide is Decide with a chosen amount of search. Cut short, it gives the
// best set so far, the bound, and the word incomplete.
func (s Search) Decide(m *machine.Machine, f judge.Findings, aim Aim) Plan {
	d := newDraft(m, f)
	ans := decide(d.problem, aim, cmp.Or(s.Nodes, usualNodes))
	w := &writer{draft: d, ans: ans, plan: Plan{Aim: aim, From: f, Nodes: ans.nodes, Bound: hours(ans.bound), Notes: d.notes}}
	w.write()
	return w.plan
}

// writer turns an answer into a plan.
type writer struct {
	*draft
	ans   answer
	plan  Plan
	jobAt map[int]int // index in plan.Jobs of a shop
	drop  []bool      // needs left out
}

func (w *writer) write() {
	w.drop = make([]bool, len(w.needs))
	for _, core := range w.ans.conflicts {
		for _, n := range core {
			w.drop[n] = true
		}
	}
	for _, n := range w.ans.unknown {
		w.drop[n] = true
		w.plan.Notes = append(w.plan.Notes, w.checks[n].Name+": no set was found within the search allowed.")
	}
	best := w.ans.best
	w.writeJobs(best.acts)
	w.writeChoices(best.acts)
	w.plan.Cost, w.plan.Days = hours(best.cost), hours(w.daysOf(best.acts))
	w.writeForced(best.acts)
	w.writeAlternatives()
	w.writeFlips()
	w.writeConflicts()
	w.writeIfWorn()
	w.writeAgain()
	w.writeLooseGroups()
	w.writeProof()
	w.writeEnd(best.cost)
}

// writeEnd says whether the search was exhausted.
func (w *writer) writeEnd(cost int64) {
	if !w.ans.cut {
		return
	}
	w.plan.Incomplete = fmt.Sprintf("incomplete: the search was cut at %d points", w.ans.nodes)
	switch {
	case len(w.ans.unknown) > 0:
		w.plan.Incomplete += "; some checks have no remedy yet"
	case w.ans.bound < cost:
		w.plan.Incomplete += fmt.Sprintf("; a set may exist that costs down to %s", costWords(w.ans.bound))
	default:
		w.plan.Incomplete += "; the set itself is the best, the alternatives may not be"
	}
}

// writeJobs lists what is paid for, by place, key and part.
func (w *writer) writeJobs(acts []int) {
	taken := map[int][]option{}
	var shops []int
	for _, a := range acts {
		for _, i := range w.decided[a].options {
			j := w.options[i].job
			if taken[j] == nil {
				shops = append(shops, j)
			}
			taken[j] = append(taken[j], w.options[i])
		}
	}
	slices.SortFunc(shops, func(x, y int) int {
		a, b := taken[x][0], taken[y][0]
		return cmp.Or(strings.Compare(a.remedy.Where, b.remedy.Where), strings.Compare(a.remedy.Key, b.remedy.Key), compareIDs(a.check.ID, b.check.ID))
	})
	w.jobAt = map[int]int{}
	for _, j := range shops {
		w.jobAt[j] = len(w.plan.Jobs)
		w.plan.Jobs = append(w.plan.Jobs, w.jobOf(j, taken[j]))
	}
}

func (w *writer) jobOf(j int, options []option) Job {
	r := options[0].remedy
	job := Job{Remedy: r.Key, Name: r.Name, Where: r.Where, Beware: r.Beware, Group: w.shops[j].group,
		Cost: hours(w.shops[j].cost), Days: hours(w.shops[j].days)}
	if w.shops[j].group != "" {
		job.Step = w.stepOf(options[0].act)
	}
	for _, o := range options {
		job.For = append(job.For, o.check.ID)
		job.Renews = append(job.Renews, o.remedy.Renews...)
		job.Reworks = append(job.Reworks, o.remedy.Reworks...)
		job.Opens = append(job.Opens, o.remedy.Opens...)
	}
	sortIDs(&job.For)
	sortIDs(&job.Renews)
	sortIDs(&job.Reworks)
	sortIDs(&job.Opens)
	return job
}

// stepOf is the size a family takes, in mm.
func (w *writer) stepOf(a int) float64 {
	size, _ := w.sizeFor(a)
	return float64(size) / 1e6
}

// writeChoices says for each failing check what makes it good.
func (w *writer) writeChoices(acts []int) {
	least, lives := int64(1000), w.lives(acts)
	for n, c := range w.checks {
		if !w.needs[n].must || w.drop[n] {
			continue
		}
		o, ok := w.maker(acts, n)
		if !ok {
			continue
		}
		least = min(least, lives[n])
		ch := Choice{Check: c.ID, Remedy: o.remedy.Key, Of: o.check.ID, Name: o.remedy.Name,
			Job: w.jobAt[o.job], Life: float64(lives[n]) / 1000, ByHand: w.needs[n].word == o.act && o.need == n}
		if w.acts[o.act].family {
			ch.Step = w.stepOf(o.act)
		}
		w.plan.Choices = append(w.plan.Choices, ch)
		job := &w.plan.Jobs[ch.Job]
		job.Serves = append(job.Serves, c.ID)
	}
	w.plan.Life = float64(least) / 1000
	for i := range w.plan.Choices {
		w.plan.Choices[i].Why = w.why(&w.plan.Choices[i])
	}
}

// maker is the option among taken acts that makes a need good: the person's
// word, else one of the check's own that lasts longest, else one that mends it.
func (w *writer) maker(acts []int, n int) (option, bool) {
	var best option
	rank, found := [2]int64{}, false
	for _, a := range acts {
		for _, i := range w.decided[a].options {
			o := w.options[i]
			var r [2]int64
			switch {
			case o.need == n && w.needs[n].word == a:
				r[0] = 3
			case o.need == n:
				r[0] = 2
			case slices.Contains(o.remedy.Mends, w.checks[n].ID):
				r[0] = 1
			default:
				continue
			}
			r[1] = lifeOf(w.m, w.f.Of(w.checks[n].ID), o.remedy)
			if !found || r[0] > rank[0] || r[0] == rank[0] && r[1] > rank[1] {
				best, rank, found = o, r, true
			}
		}
	}
	return best, found
}

// writeAgain lists the checks to be made again: those that jobs open, and
// those whose value they shift.
func (w *writer) writeAgain() {
	for _, j := range w.plan.Jobs {
		w.plan.Again = append(w.plan.Again, j.Opens...)
		for _, id := range j.For {
			for _, s := range w.remedyOf(id, j.Remedy).Shifts {
				w.plan.Again = append(w.plan.Again, s.Check)
			}
		}
	}
	sortIDs(&w.plan.Again)
}

// remedyOf finds a remedy of a check; one that the check has not is empty.
func (w *writer) remedyOf(id machine.CheckID, key string) machine.Remedy {
	if c := w.m.Check(id); c != nil && c.Remedy(key) != nil {
		return *c.Remedy(key)
	}
	return machine.Remedy{Key: key, Name: key}
}

// sortIDs puts ids in order and drops repeats.
func sortIDs[T ~string](ids *[]T) {
	slices.SortFunc(*ids, compareIDs[T])
	*ids = slices.Compact(*ids)
}

func hours(h int64) float64 { return float64(h) / 100 }
