// Package judge says of every check of a machine whether it is sound, worn or
// doubtful, with the probability, the ruling limit and its provenance, and the
// sentence that explains it. It is pure.
//
// What it cannot detect: a wrong instrument named, a reading taken at the
// wrong place, a limit that does not fit this machine.
package judge

import "matchmark/internal/machine"

// Verdict of a check.
type Verdict string

const (
	Sound    Verdict = "sound"
	Worn     Verdict = "worn"
	Doubtful Verdict = "doubtful"
	NotRead  Verdict = "not read"
	NoLimit  Verdict = "limit unknown" // read, but nothing to judge it by
)

// Open tells whether a check with this verdict still holds a closing: all but
// sound ones do. A doubtful or worn check is cleared by a remedy, a better
// reading, or a hold passed by hand.
func (v Verdict) Open() bool { return v != Sound }

// Finding is the verdict on one check, with its working.
type Finding struct {
	Check    *machine.Check
	Verdict  Verdict
	Value    float64  // in the check's unit, worst point; 0 while not read
	U        float64  // combined standard uncertainty, same unit
	P        float64  // probability that the true value is within the ruling limit
	Read     int      // points read of the present version
	Points   int      // points wanted
	Limit    Bounds   // the ruling limit
	Others   []Bounds // further limits, by falling rank
	Disagree bool     // another limit would give another verdict
	Sentence string   // "Ring gap, cylinder 2: 0.62 mm. Limit 0.50, common practice. Worn."
	Settle   string   // what would settle a doubtful verdict, or what is wanted to judge
	Working  []string // lines: readings, budget, size used, formula, probability
	At       string   // the worst point: "top, along"; empty where there is one
}

// Bounds is a limit with its formulas worked out. Absent bounds are ±Inf.
type Bounds struct {
	NewLow, NewHigh float64
	Low, High       float64 // what the verdict is made against
	Words           string  // for checks by eye
	From            machine.Provenance
	Source          string
	Size            string // "d = 41.990 mm, measured": what the formulas used; empty for plain figures
	Missing         string // why the formulas could not be worked out, with what to enter
}
