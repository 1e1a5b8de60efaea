package web

import (
	"net/http"
	"slices"
	"strings"

	"matchmark/internal/bench"
	"matchmark/internal/finding/sequence"
	"matchmark/internal/machine"
	"matchmark/internal/trade/spelling"
)

// donePost records that a chosen remedy was carried out. What it touches
// begins anew: the checks it opens are to be made again.
func donePost(v *visit) error {
	c := v.view.Machine.Check(machine.CheckID(v.typed("check")))
	if c == nil {
		return missing("the check", v.typed("check"))
	}
	if n := len(c.Done); c.Chosen == nil && n > 0 && v.kept(&c.Done[n-1].RemedyDone) {
		return v.go303(v.back(v.base() + "/fits"))
	}
	if c.Chosen == nil {
		return plight{http.StatusUnprocessableEntity, "No remedy was chosen for " + c.Name, "Nothing was kept. Choose the remedy first, then say that it is done."}
	}
	r := c.Remedy(c.Chosen.Key)
	if r == nil {
		return plight{http.StatusUnprocessableEntity, "The remedy chosen for " + c.Name + " is none of its own", "Nothing was kept. Choose one of its own."}
	}
	body := &machine.RemedyDone{Check: c.ID, Key: r.Key, Step: c.Chosen.Step, Renewed: r.Renews, Reworked: r.Reworks, Opens: r.Opens, Note: clip(v.typed("note"), 400)}
	if _, err := v.record(body); err != nil {
		return err
	}
	return v.go303(v.back(v.base() + "/fits"))
}

// receivedPost records the arrival of an order.
func receivedPost(v *visit) error {
	id := machine.OrderID(v.typed("order"))
	if v.view.Machine.Order(id) == nil {
		return missing("the order", string(id))
	}
	if _, err := v.record(&machine.Received{Order: id, Note: clip(v.typed("note"), 400)}); err != nil {
		return err
	}
	return v.go303(v.back(v.base() + "/trays"))
}

// proveView lists the proving tests in their order.
type proveView struct {
	Base   string
	Tests  []proveRow
	Sounds soundList
	Fault  string
}

type proveRow struct {
	ID, Name, Do, Pass, From, Caution string
	Care                              []careRow
	Needs                             []string
	Runs                              []string
	Life                              bool
	Tool                              string
	Worked                            *workedView
	Value, Note                       string // typed, shown again
}

func provePage(v *visit) error { return v.showProve("", http.StatusOK) }

func (v *visit) showProve(fault string, status int) error {
	pv := proveView{Base: v.base(), Fault: fault, Sounds: soundsOf(v.view.Machine, v.base(), "")}
	tests := slices.Clone(v.view.Machine.Tests)
	slices.SortStableFunc(tests, func(a, b *machine.Test) int { return a.Order - b.Order })
	desk := v.view.Reckoner()
	for _, t := range tests {
		row := proveRow{ID: string(t.ID), Name: t.Name, Do: t.Do, Pass: t.Pass, From: sourceWords(t.From, t.TestAdded.Source),
			Caution: t.Caution, Care: careFor(t.Hazards, sequence.Test), Runs: testRuns(t), Life: t.Life, Tool: t.Tool,
			Worked: workedOf(desk, pv.Base, t.Reckon)}
		for _, id := range t.Needs {
			if q := v.view.Machine.Test(id); q != nil && !passedLast(q) {
				row.Needs = append(row.Needs, q.Name)
			}
		}
		if v.typed("test") == row.ID {
			row.Value, row.Note = v.typed("value"), v.typed("note")
		}
		pv.Tests = append(pv.Tests, row)
	}
	return v.show("prove", status, frame{Title: "Proving", Here: "Proving", Back: v.base(), Data: pv})
}

func testRuns(t *machine.Test) []string {
	var out []string
	for _, r := range t.Runs {
		out = append(out, spelling.Head(passWord(r.Passed))+behind(", ", amountWords(r.Value))+", "+day(r.At)+", "+r.By+behind(": ", r.Note))
	}
	return out
}

func passedLast(t *machine.Test) bool {
	n := len(t.Runs)
	return n > 0 && t.Runs[n-1].Passed
}

// provePost keeps one run of a test.
func provePost(v *visit) error {
	t := v.view.Machine.Test(machine.TestID(v.typed("test")))
	if t == nil {
		return missing("the test", v.typed("test"))
	}
	answer := v.typed("answer")
	if answer != "passed" && answer != "not" {
		return v.showProve("No answer was chosen, so nothing was kept. Press Passed or Not passed.", http.StatusUnprocessableEntity)
	}
	body := &machine.TestRun{Test: t.ID, Passed: answer == "passed", Note: clip(v.typed("note"), 400)}
	if text := v.typed("value"); text != "" {
		a, err := bench.Amount(text, unitTyped(text))
		if err != nil {
			return v.showProve(spelling.Head(err.Error())+". Nothing was kept; correct the value.", http.StatusUnprocessableEntity)
		}
		body.Value = &a
	}
	if _, err := v.record(body); err != nil {
		return err
	}
	return v.go303(v.base() + "/prove#" + string(t.ID))
}

// unitTyped is the unit behind a figure: a test does not say which it wants.
func unitTyped(text string) string {
	return strings.TrimSpace(strings.TrimLeft(strings.TrimSpace(text), "+-−0123456789.,"))
}
