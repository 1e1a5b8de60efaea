package sequence

import "matchmark/internal/machine"

// Dir says on which side of its alternatives a step lies.
type Dir string

const (
	After  Dir = "after"
	Before Dir = "before"
)

// Certainty of a rule, as said on screen.
type Certainty string

const (
	Proved  Certainty = "proved"  // seen, said, or part of what the words mean
	Assumed Certainty = "assumed" // the kit's word for machines of this sort
	Unknown Certainty = "unknown" // a reversal that need not hold: press, stake, crush
)

// Rule is one reason why a step waits or goes first: Step comes after, or
// before, all steps of at least one alternative. An After rule without any
// alternative can never be met. All steps named are still to be done.
type Rule struct {
	Step      StepID
	Dir       Dir
	Any       [][]StepID
	Evidence  machine.Evidence
	Certainty Certainty
	Stamp     machine.Stamp // of the entry that says so
	Photo     machine.Sum
	Source    string // "in the way, 12 May", "kit geometry, assumed"
	Words     string // "Cover waits for shaft (in the way, 12 May)"
}

// rule is a Rule in step numbers. An After rule with an empty any can never be
// met.
type rule struct {
	step   int
	before bool
	any    [][]int
	reason
}

// reason is what a rule leans on. note is a closing remark for the words. word
// numbers what was recorded: rules of one word (opening and its reverse) stand
// and fall together; 0 is a rule that nobody recorded.
type reason struct {
	evidence  machine.Evidence
	certainty Certainty
	stamp     machine.Stamp
	photo     machine.Sum
	note      string
	word      int
}

// strength ranks reasons, the weakest highest: by certainty, then by kind of
// evidence. What follows from the meaning of the words (process) is stronger
// than anything that was written down.
func (r reason) strength() int {
	rank := 20
	switch r.certainty {
	case Proved:
		rank = 0
	case Assumed:
		rank = 10
	}
	switch r.evidence {
	case machine.Process:
		return rank
	case machine.Observed:
		return rank + 1
	case machine.SaidSo:
		return rank + 2
	case machine.Geometry:
		return rank + 3
	case machine.Hides:
		return rank + 4
	}
	return rank + 5
}
