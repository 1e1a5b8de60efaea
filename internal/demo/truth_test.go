package demo_test

import (
	"strings"
	"testing"

	"matchmark/internal/demo"
	"matchmark/internal/finding/judge"
	"matchmark/internal/finding/remedy"
	"matchmark/internal/finding/sequence"
	"matchmark/internal/machine"
)

func TestTruthIsFound(t *testing.T) {
	truth, err := demo.Truth()
	if err != nil {
		t.Fatal(err)
	}
	m := machine.Fold(entries(t))
	found := judge.All(m)
	told := map[machine.CheckID]bool{}
	count := map[string]int{}
	for _, p := range truth {
		f := found.Of(p.Check)
		if f == nil {
			t.Errorf("the truth names %s, which is not on the machine", p.Check)
			continue
		}
		told[p.Check] = true
		count[p.Verdict]++
		if string(f.Verdict) != p.Verdict {
			t.Errorf("%s was planted %s (%s), found %s: %s", p.Check, p.Verdict, p.Because, f.Verdict, f.Sentence)
		}
		if f.Verdict == judge.Doubtful && f.Settle == "" {
			t.Errorf("%s is doubtful without a word on what would settle it", p.Check)
		}
	}
	for _, f := range found.List {
		if f.Verdict != judge.NotRead && !told[f.Check.ID] {
			t.Errorf("%s was found %s, but the truth does not tell of it: %s", f.Check.ID, f.Verdict, f.Sentence)
		}
	}
	t.Log(count)
	if count["worn"] < 12 || count["doubtful"] < 5 || count["sound"] < 200 {
		t.Errorf("the truth tells of %v; too few to be worth a look", count)
	}
}

// TestIntendedQuestions: the log asks about one thing that nobody can place.
func TestIntendedQuestions(t *testing.T) {
	m := machine.Fold(entries(t))
	for _, q := range m.Questions {
		t.Log(q.Text)
	}
	if len(m.Questions) != 1 || m.Questions[0].About != machine.RefPart("brass-collar") {
		t.Errorf("%d questions, want the one about the brass collar", len(m.Questions))
	}
}

// TestTheContradiction: the two people cannot both be right about three joints,
// and all else can go on.
func TestTheContradiction(t *testing.T) {
	m := machine.Fold(entries(t))
	plan := sequence.Make(m, judge.All(m))
	if len(plan.Contradictions) != 1 {
		t.Fatalf("%d contradictions, want one", len(plan.Contradictions))
	}
	c := plan.Contradictions[0]
	t.Log(c.Words)
	for _, id := range []machine.JointID{"oil-filter-fit", "oil-switch-fit", "relief-fit"} {
		if name := m.Joint(id).Name; !strings.Contains(strings.ToLower(c.Words), strings.ToLower(name)) {
			t.Errorf("the words do not name %s", name)
		}
	}
	closings := 0
	for _, s := range plan.Stuck {
		if s.Act == sequence.Close {
			closings++
		}
	}
	if closings != 3 {
		t.Errorf("%d closings are stuck, want the three of the contradiction", closings)
	}
	if len(plan.Breaches) != 0 || len(plan.Passed) != 1 {
		t.Errorf("%d breaches and %d holds passed, want none and one", len(plan.Breaches), len(plan.Passed))
	}
	if len(plan.Free) < 100 {
		t.Errorf("only %d steps are free; the contradiction should touch a corner", len(plan.Free))
	}
}

// TestAimsDiffer: the cheapest, the soonest and the longest-lived set are
// three, and all bores are worked together where bore 2 is rebored.
func TestAimsDiffer(t *testing.T) {
	m := machine.Fold(entries(t))
	found := judge.All(m)
	sets := map[string]remedy.Aim{}
	together := false
	for _, aim := range remedy.Aims() {
		p := remedy.Decide(m, found, aim)
		if !p.Proved || len(p.Infeasible) > 0 {
			t.Errorf("%s: not proved, or some checks cannot be made good: %v", aim, p.Infeasible)
		}
		var keys []string
		for _, j := range p.Jobs {
			keys = append(keys, j.Remedy+" "+j.Name+" "+strings.Join(ids(j.For), ","))
		}
		set := strings.Join(keys, "\n")
		if other, same := sets[set]; same {
			t.Errorf("%s and %s give the same set", aim, other)
		}
		sets[set] = aim
		for _, f := range p.Forced {
			t.Log(aim, f.Says)
			together = together || f.Group == "all-bores" && len(f.Members) == 3
		}
	}
	if !together {
		t.Error("no aim rebores all three bores together")
	}
}

func ids(list []machine.CheckID) (out []string) {
	for _, id := range list {
		out = append(out, string(id))
	}
	return out
}

// TestMishapsAreInTheLog looks for each thing that went wrong.
func TestMishapsAreInTheLog(t *testing.T) {
	m := machine.Fold(entries(t))
	seen := map[string]bool{}
	for _, e := range entries(t) {
		switch b := e.Body.(type) {
		case *machine.JointOpened:
			seen["a removal without a photo"] = seen["a removal without a photo"] || len(b.Photos) == 0 && len(b.Off) > 0
			for _, f := range b.Fasteners {
				seen["a "+f.State+" fastener"] = true
			}
		case *machine.JointClosed:
			seen["a closing "+b.As] = true
		case *machine.ReadingTaken:
			seen["a reading in inches"] = seen["a reading in inches"] || strings.HasSuffix(b.Amount.Typed, " in") && b.Amount.Value > 51.9 && b.Amount.Value < 52.1
		case *machine.HoldPassed:
			seen["a hold passed"] = b.Initials != "" && b.Why != ""
		case *machine.EntryWithdrawn:
			seen["an entry withdrawn"] = true
		case *machine.LimitSet:
			seen["a paper limit"] = b.Limit.From == machine.Paperwork
		}
		seen["a correction"] = seen["a correction"] || e.Supersedes != ""
	}
	for _, o := range m.Orders {
		seen["a late order"] = seen["a late order"] || o.Received == nil && o.DueBy().After(o.Due)
	}
	for _, f := range judge.All(m).List {
		seen["limits that disagree"] = seen["limits that disagree"] || f.Disagree
	}
	by := map[string]int{}
	for _, r := range m.Feature("liner.3/bore").Readings {
		if r.Level == "top of ring travel" && r.Axis == "pin" && !r.Unworn {
			by[r.By]++
		}
	}
	seen["one point read by both"] = len(by) == 2
	for _, want := range []string{"a removal without a photo", "a broken fastener", "a missing fastener", "a closing trial", "a closing final",
		"a reading in inches", "a hold passed", "an entry withdrawn", "a correction", "a late order", "a paper limit", "limits that disagree",
		"one point read by both"} {
		if !seen[want] {
			t.Errorf("the log should show %s", want)
		}
	}
}
