package web

import (
	"fmt"
	"net/http"
	"slices"
	"strings"

	"matchmark/internal/bench"
	"matchmark/internal/finding/remedy"
	"matchmark/internal/machine"
	"matchmark/internal/trade/spelling"
)

// decideView sets the three sets of remedies side by side.
type decideView struct {
	Base    string
	None    bool // nothing fails
	Failed  int  // checks
	Same    bool // the three sets are one
	Settled bool // because each remedy in it was chosen
	Taken   []takenSet
	Sets    []setView
	Differ  []differRow
	Common  []placeJobs // what every set does
	Jobs    int         // in Common
}

// setView is one set of remedies.
type setView struct {
	Key, Name, About string
	Figures          []setFigure
	Cut              string // what the search was cut short by
	NoWay            []noWay
	Own              []placeJobs // what not every set does
	Forced           []string
	Flips            []string
	Others           []string
	Doubt            []string
	Proof            []string
	Proved           bool
	Notes            []string
	Record           []string // what taking it records
	Stays            int      // checks on which the person said a word already
	Digest           string
}

// setFigure is one figure of a set, with how it stands to the others'.
type setFigure struct {
	Name, Value, Unit string
	Best              string // "least of the three"
	Width             int    // of its line, in percent of the longest
}

// noWay is a set of checks that nothing makes good together.
type noWay struct {
	Says    string
	Reasons []string
}

// takenSet is a set that was taken whole, and can be taken back whole.
type takenSet struct {
	Name    string
	Count   int
	Entries []string
}

// differRow is a job that not every set does.
type differRow struct {
	Name, Words, For string
	Cells            []differCell
}

type differCell struct {
	Set  string
	In   bool
	Word string
}

// abouts say what each aim is for, in a few words.
var abouts = map[remedy.Aim]string{
	remedy.Cheapest:     "Least money and work.",
	remedy.Soonest:      "Back together first.",
	remedy.LongestLived: "Most fits as new.",
}

func decidePage(v *visit) error {
	return v.show("decide", http.StatusOK, frame{Title: "Decide", Here: "Decide", Back: v.base() + "/fits", Data: viewDecide(v.view, v.base())})
}

func viewDecide(v *bench.View, base string) decideView {
	dv := decideView{Base: base, Taken: takenSets(v.Machine)}
	var plans []remedy.Plan
	for _, aim := range remedy.Aims() {
		plans = append(plans, v.Choices(aim))
	}
	dv.Failed = len(plans[0].Choices) + stuck(plans[0])
	dv.None = dv.Failed == 0
	if dv.None {
		return dv
	}
	jobs := make([][]setJob, len(plans))
	for i, p := range plans {
		jobs[i] = jobsOfSet(v.Machine, p)
	}
	dv.Same = sameJobs(jobs)
	if dv.Same {
		plans, jobs = plans[:1], jobs[:1]
	}
	for i, p := range plans {
		s := setOf(v.Machine, p)
		if !dv.Same {
			s.Own = byPlace(slices.DeleteFunc(slices.Clone(jobs[i]), func(j setJob) bool { return everySet(jobs, j.key) }))
		}
		dv.Sets = append(dv.Sets, s)
	}
	if dv.Same {
		dv.Sets[0].Key, dv.Sets[0].Name, dv.Sets[0].About = string(remedy.Cheapest), "One set is cheapest, soonest and longest-lived", "Nothing else that was listed does better by any of the three."
		if dv.Settled = len(dv.Sets[0].Record) == 0; dv.Settled {
			dv.Sets[0].Name, dv.Sets[0].About = "As chosen", "Every remedy is your own word. Take some of it back to compare again."
		}
	}
	dv.Common = byPlace(slices.DeleteFunc(slices.Clone(jobs[0]), func(j setJob) bool { return !everySet(jobs, j.key) }))
	for _, p := range dv.Common {
		dv.Jobs += len(p.Jobs)
	}
	dv.Differ = differOf(jobs, dv.Sets)
	compareFigures(dv.Sets)
	return dv
}

// stuck counts the checks that cannot be made good.
func stuck(p remedy.Plan) int {
	n := 0
	for _, c := range p.Infeasible {
		n += len(c.Checks)
	}
	return n
}

func setOf(m *machine.Machine, p remedy.Plan) setView {
	s := setView{Key: string(p.Aim), Name: spelling.Head(string(p.Aim)), About: abouts[p.Aim], Cut: p.Incomplete, Proof: p.Proof, Proved: p.Proved, Notes: p.Notes, Digest: digestOf(m, p)}
	asNew := 0
	for _, c := range p.Choices {
		if c.Life >= 0.9995 {
			asNew++
		}
	}
	s.Figures = []setFigure{
		{Name: "Price", Value: figure(p.Cost, "h"), Unit: "bench hours' worth", Width: int(100 * p.Cost)},
		{Name: "Longest wait", Value: figure(p.Days, "d"), Unit: "days", Width: int(100 * p.Days)},
		{Name: "As new afterwards", Value: fmt.Sprint(asNew), Unit: fmt.Sprintf("of %s", plural(len(p.Choices), "worn fit", "worn fits")), Width: 100 * asNew},
	}
	for _, c := range p.Infeasible {
		s.NoWay = append(s.NoWay, noWay{c.Says, c.Reasons})
	}
	for _, f := range p.Forced {
		s.Forced = append(s.Forced, f.Says)
	}
	for _, f := range p.Flips {
		s.Flips = append(s.Flips, f.Says)
	}
	for _, a := range p.Alternatives {
		s.Others = append(s.Others, a.Says)
	}
	for _, w := range p.IfWorn {
		s.Doubt = append(s.Doubt, w.Says)
	}
	for _, b := range toRecord(m, p) {
		s.Record = append(s.Record, checkName(m, b.Check)+": "+spelling.Inside(remedyName(m, b.Check, b.Key))+sizeWords(b.Step))
	}
	for _, c := range p.Choices {
		if k := m.Check(c.Check); k != nil && k.Chosen != nil {
			s.Stays++
		}
	}
	return s
}

// compareFigures gives each figure its line and says which set is best by it:
// least price, least wait, most as new.
func compareFigures(sets []setView) {
	for k := range sets[0].Figures {
		most, least := 0, -1
		for _, s := range sets {
			w := s.Figures[k].Width
			most = max(most, w)
			if least < 0 || w < least {
				least = w
			}
		}
		for i := range sets {
			f := &sets[i].Figures[k]
			best, word := f.Width == least, "least"
			if k == 2 {
				best, word = f.Width == most, "most"
			}
			if best && most != least {
				f.Best = word
			}
			if most > 0 {
				f.Width = max(100*f.Width/most, 1)
			}
		}
	}
}

// takenSets lists the sets taken whole that still stand.
func takenSets(m *machine.Machine) []takenSet {
	var out []takenSet
	for _, aim := range remedy.Aims() {
		t := takenSet{Name: string(aim)}
		for _, c := range m.Checks {
			if c.Chosen != nil && strings.HasPrefix(c.Chosen.Why, takenWhy(aim)) {
				t.Count++
				t.Entries = append(t.Entries, string(c.Chosen.Entry))
			}
		}
		if t.Count > 0 {
			out = append(out, t)
		}
	}
	return out
}

// takenWhy begins the reason of a remedy that came with a whole set.
func takenWhy(aim remedy.Aim) string { return string(aim) + " set" }
