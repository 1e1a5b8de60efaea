package remedy

import (
	"matchmark/internal/finding/judge"
	"matchmark/internal/machine"
)

// Aim is what a set of remedies is judged by.
type Aim string

const (
	Cheapest     Aim = "cheapest"      // least cost
	Soonest      Aim = "soonest"       // least longest lead time, then least cost
	LongestLived Aim = "longest-lived" // greatest least life, then least cost
)

// Aims lists the aims in the order in which they are offered.
func Aims() []Aim { return []Aim{Cheapest, Soonest, LongestLived} }

// Plan is the set of remedies for an aim, with its proof and what would change
// it. Costs are bench hours' worth, to hundredths; days are calendar days.
type Plan struct {
	Aim     Aim
	From    judge.Findings // what the plan was made from
	Choices []Choice       // one for each failing check that is made good, by check id
	Jobs    []Job          // what is paid for, each once, by place and key
	Cost    float64
	Days    float64 // longest lead time: jobs run side by side
	Life    float64 // least life of the failing checks, 0 to 1; 1 when none fails

	Forced       []Forced      // what each shared size forces
	Flips        []Flip        // prices at which a shared decision changes
	Alternatives []Alternative // up to three next-best different sets, with the same aim
	IfWorn       []IfWorn      // doubtful checks: what would be needed if they are worn
	Infeasible   []Conflict    // checks that cannot be made good; the rest of the plan leaves them out
	Again        []machine.CheckID
	Proof        []string // one line for each thing shown
	Proved       bool     // every line of the proof holds and nothing was left out
	Notes        []string

	Incomplete string  // "incomplete" with what was cut short; empty when the search was exhausted
	Bound      float64 // no set can cost less
	Nodes      int     // points of the search looked at
}

// Choice is what is done about one failing check.
type Choice struct {
	Check  machine.CheckID
	Remedy string          // key
	Of     machine.CheckID // the check whose remedy it is; another than Check where it is mended by that
	Name   string
	Step   float64 // mm on diameter, where the remedy has sizes
	Job    int     // index into Plan.Jobs
	Life   float64
	ByHand bool // the person's word
	Why    string
}

// Job is one remedy on one part instance.
type Job struct {
	Remedy  string
	Name    string
	Where   string
	Cost    float64
	Days    float64
	Beware  string
	Group   machine.SizeGroup
	Step    float64
	Renews  []machine.PartID
	Reworks []machine.FeatureID
	Serves  []machine.CheckID // failing checks it makes good
	For     []machine.CheckID // checks whose remedy it is, sound ones included that share its surface or size group
	Opens   []machine.CheckID // to be made again after it
}

// Forced is what one size for a group means for its members.
type Forced struct {
	Group   machine.SizeGroup
	Step    float64
	Members []Member
	Cost    float64 // of all members together
	Says    string  // "All three crankpins take 0.50 because crankpin 3 needs it …"
}

// Member is one surface of a size group.
type Member struct {
	Feature    machine.FeatureID // empty where a check is judged by its excess
	Name       string
	Checks     []machine.CheckID
	WearMM     float64 // on diameter, worst point; 0 where not known
	Known      bool
	StepNeeded float64 // smallest size that cleans it up; 0 where none does or none is needed
	TooFar     bool    // no size cleans it up
	How        string  // "from nominal 42.000", "not read: assumed to clean up"
}

// Flip is the price at which a shared decision changes. Price is of the
// decision's own jobs; Never tells that nothing else makes the checks good.
type Flip struct {
	Jobs    []int // indexes into Plan.Jobs
	Cost    float64
	Price   float64
	Never   bool
	Instead []Pick
	Says    string
}

// Pick names a remedy of a check.
type Pick struct {
	Check  machine.CheckID
	Remedy string
	Name   string
	Step   float64
}

// Alternative is a further set that makes every failing check good.
type Alternative struct {
	Cost, Days, Life float64
	More             float64 // cost above the plan's
	With, Without    []Pick  // what it takes instead of what
	Says             string
}

// IfWorn is a doubtful check and the least that would be added for it.
type IfWorn struct {
	Check   machine.CheckID
	Remedy  string
	Name    string
	Cost    float64 // at most this on top; 0 where the plan makes it good already
	Covered bool
	Says    string
}

// Conflict is an irreducible set of checks that cannot be made good together:
// any one of them left out, the others can.
type Conflict struct {
	Checks  []machine.CheckID
	Says    string
	Reasons []string // for each remedy of each check, why it does not serve
}
