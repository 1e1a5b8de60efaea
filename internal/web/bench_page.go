package web

import (
	"fmt"
	"net/http"
	"net/url"
	"slices"
	"strings"

	"matchmark/internal/bench"
	"matchmark/internal/finding/judge"
	"matchmark/internal/finding/sequence"
	"matchmark/internal/machine"
	"matchmark/internal/trade/spelling"
)

// benchView answers: what can I do now, what frees most, what must I not do.
type benchView struct {
	Base     string
	Jobs     []jobRow
	More     int // further free steps
	Held     []holdRow
	HeldMore int
	Away     []orderRow
	Stages   []stage
	Empty    bool
	Breaches []string
	Clash    int // contradictions
	Worn     int // fits
	Last     string
	LastAt   string
	Undo     string
}

// jobRow is one thing to do now: a run, a joint, the parts of an assembly to
// clean.
type jobRow struct {
	Name, Words, At string
	Waits           int
	act             sequence.Act
	begun           bool
	steps           int
	after           map[sequence.StepID]bool
}

// How much of each list the page shows.
const (
	mostJobs = 8
	mostHeld = 4
)

func benchPage(v *visit) error {
	return v.show("bench", http.StatusOK, frame{Title: "On the bench now", Here: "Bench", Data: viewBench(v.view, v.base())})
}

func viewBench(v *bench.View, base string) benchView {
	bv := benchView{Base: base, Stages: progressOf(v), Away: awayOf(v), Empty: len(v.Machine.Events) == 0, Clash: len(v.Plan().Contradictions)}
	for _, f := range v.Judged().List {
		if f.Verdict == judge.Worn {
			bv.Worn++
		}
	}
	jobs := jobsOf(v, base)
	bv.Jobs = mixed(jobs)
	bv.More = len(jobs) - len(bv.Jobs)
	bv.hold(v, base)
	for _, b := range v.Plan().Breaches {
		bv.Breaches = append(bv.Breaches, spelling.Head(b.Why))
	}
	if n := len(v.Machine.Events); n > 0 {
		e := v.Machine.Events[n-1]
		bv.Last, bv.LastAt, bv.Undo = clip(say(v.Machine, e.Body), 60), lately(e.At, v.AsOf), string(e.Entry)
	}
	return bv
}

// hold lists the first holds, one for joints that are alike, such as the mains.
func (bv *benchView) hold(v *bench.View, base string) {
	at, like := map[string]int{}, map[string]int{}
	for _, h := range heldByJoint(v) {
		kind, _, _ := strings.Cut(string(h.Joint.ID), ".")
		_, shown := at[kind]
		switch {
		case shown:
			like[kind]++
		case len(bv.Held) < mostHeld:
			at[kind] = len(bv.Held)
			row := holdOf(base, h)
			if why, _, long := strings.Cut(row.Why, "; "); long { // what would come of it stands with the hold itself
				row.Why = why + "."
			}
			bv.Held = append(bv.Held, row)
		default:
			bv.HeldMore++
		}
	}
	for kind, n := range like {
		bv.Held[at[kind]].Why += " " + plural(n, "more like it is held.", "more like it are held.")
	}
}

// heldByJoint takes one hold of each joint, those due now first: a closing
// that waits for nothing but its checks.
func heldByJoint(v *bench.View) []sequence.Hold {
	seen := map[machine.JointID]bool{}
	var due, later []sequence.Hold
	for _, h := range v.Plan().Held {
		if seen[h.Joint.ID] {
			continue
		}
		seen[h.Joint.ID] = true
		if h.Due {
			due = append(due, h)
		} else {
			later = append(later, h)
		}
	}
	return append(due, later...)
}

// jobsOf gathers the free steps into jobs: what is begun comes first, then
// what most waits on; the plan's own order breaks ties.
func jobsOf(v *bench.View, base string) []jobRow {
	waits := dependents(v.Plan())
	at := map[string]int{}
	var jobs []jobRow
	for _, s := range v.Plan().Free {
		key, job := jobOf(v, base, s)
		i, ok := at[key]
		if !ok {
			i = len(jobs)
			at[key] = i
			job.act, job.after = s.Act, map[sequence.StepID]bool{}
			jobs = append(jobs, job)
		}
		for _, id := range waits[s.ID] {
			jobs[i].after[id] = true
		}
		jobs[i].Waits = len(jobs[i].after)
		jobs[i].steps++
	}
	for i := range jobs {
		if jobs[i].act == sequence.Clean {
			jobs[i].Words = plural(jobs[i].steps, "part waits for it.", "parts wait for it.")
		}
	}
	slices.SortStableFunc(jobs, func(a, b jobRow) int {
		if a.begun != b.begun {
			if a.begun {
				return -1
			}
			return 1
		}
		return b.Waits - a.Waits
	})
	return jobs
}

// mixed takes the first jobs, but of one act no more than three.
func mixed(jobs []jobRow) []jobRow {
	var out []jobRow
	count := map[sequence.Act]int{}
	for _, j := range jobs {
		if count[j.act]++; count[j.act] <= 3 && len(out) < mostJobs {
			out = append(out, j)
		}
	}
	return out
}

// jobOf names the job a free step belongs to; steps with one key are one job.
func jobOf(v *bench.View, base string, s *sequence.Step) (string, jobRow) {
	job := jobRow{Name: s.Name, At: stepAddress(base, s)}
	switch s.Act {
	case sequence.Check:
		return checkJob(v, base, s)
	case sequence.Clean:
		key := "clean " + string(s.Assembly)
		job.Name = "Clean the parts of " + spelling.Inside(assemblyName(v.Machine, s.Assembly))
		job.At = base + "/machine?a=" + url.QueryEscape(string(s.Assembly))
		return key, job
	case sequence.Collect:
		if what, ok := strings.CutPrefix(s.Name, "Collect "); ok {
			job.Name = "Collect " + spelling.Inside(what)
		}
	case sequence.Open, sequence.Undo:
		job.Words = strings.Join(nonEmpty(behind("Before it, take ", strings.Join(s.Joint.AsFound, ", ")), careWords(s.Hazards)), ". ")
	case sequence.Close, sequence.Trial:
		job.Words = strings.Join(nonEmpty(s.Joint.Plan.Tighten, careWords(s.Hazards)), ". ")
	}
	return string(s.ID), job
}

// checkJob is the run that a check to be made belongs to.
func checkJob(v *bench.View, base string, s *sequence.Step) (string, jobRow) {
	c := s.Check
	to := measureLinks(base, c)[0].At
	if byWord(c) {
		return to, jobRow{Name: "Look at " + spelling.Inside(plainName(c.Name, c.Place)), At: to, Words: clip(c.How, 110)}
	}
	sort, what := "c", string(c.Type)
	if !direct(c) {
		for _, ft := range c.Surfaces() { // the first that is not read through
			sort, what = "f", runOfFeature(ft)
			if len(ft.Current()) < len(ft.Points()) {
				break
			}
		}
		to = runAddress(base, sort, what)
	}
	r, ok := findRun(v.Machine, sort, what)
	if !ok {
		return to, jobRow{Name: s.Name, At: to}
	}
	done := r.done()
	job := jobRow{Name: "Measure " + spelling.Inside(r.Name), At: to, begun: done > 0 && done < len(r.Points)}
	job.Words = fmt.Sprintf("%d of %s read.", done, plural(len(r.Points), "point", "points"))
	if job.begun {
		job.Words += " Carry on at " + spelling.Inside(r.Points[r.now("", "")].Words()) + "."
	}
	return to, job
}

func careWords(hazards []string) string {
	return behind("Take care: ", strings.Join(hazards, ", "))
}

func assemblyName(m *machine.Machine, id machine.AssemblyID) string {
	for _, a := range m.Assemblies {
		if a.ID == id {
			return a.Name
		}
	}
	return string(id)
}
