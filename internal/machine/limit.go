package machine

// Provenance says where a limit or a size comes from. The better one rules;
// two that disagree are both shown.
type Provenance string

const (
	Paperwork      Provenance = "paperwork"       // read in the maker's or rebuilder's paper for this machine
	Standard       Provenance = "standard"        // a published standard
	Handbook       Provenance = "handbook"        // a printed general handbook
	Unworn         Provenance = "unworn"          // measured on an unworn surface of this machine
	CommonPractice Provenance = "common practice" // known in the trade, no source
	OwnDecision    Provenance = "own decision"    // the restorer's
)

// Rank orders provenances, the best first from 0; an unknown word ranks last.
func (p Provenance) Rank() int {
	for i, q := range Provenances() {
		if p == q {
			return i
		}
	}
	return len(Provenances())
}

// Provenances lists the known words, best first.
func Provenances() []Provenance {
	return []Provenance{Paperwork, Standard, Handbook, Unworn, CommonPractice, OwnDecision}
}

// Limit bounds the value of a check. Bounds are formulas of the check's size
// ("0.0014*d") or plain figures, in the check's unit; an empty bound is none.
type Limit struct {
	NewLow    string     `json:"newLow,omitempty"`    // a rebuilt fit below this is too tight
	NewHigh   string     `json:"newHigh,omitempty"`   // up to here as good as new
	Low       string     `json:"low,omitempty"`       // below this it is worn or spent
	High      string     `json:"high,omitempty"`      // above this it is worn
	NewWords  string     `json:"newWords,omitempty"`  // for checks judged by eye: what sound looks like
	WornWords string     `json:"wornWords,omitempty"` // and what worn looks like
	From      Provenance `json:"from"`
	Source    string     `json:"source,omitempty"` // standard, page, or "no source"
	Find      string     `json:"find,omitempty"`   // no bounds known: how to find the limit
}

// Known tells whether the limit has any bound or words to judge by.
func (l Limit) Known() bool {
	return l.NewLow+l.NewHigh+l.Low+l.High+l.NewWords+l.WornWords != ""
}

// SizeSource tells where the variable of a limit's formulas gets its value:
// from a feature of the machine or from a datum the user enters.
type SizeSource struct {
	Symbol  string    `json:"symbol"`            // "D" in "0.002*D"
	Feature FeatureID `json:"feature,omitempty"` // its nominal, else its measured size
	Datum   string    `json:"datum,omitempty"`   // a Datum id, such as "system-volts"
	Meaning string    `json:"meaning,omitempty"` // "bore", for the person asked for it
}

// Datum is a named figure of the machine that formulas use: system volts,
// module of a gear, a stated pressure. Value is nil until somebody enters it.
type Datum struct {
	ID     string     `json:"id"`
	Name   string     `json:"name"`
	Unit   string     `json:"unit"`
	Value  *float64   `json:"value,omitempty"`
	Typed  string     `json:"typed,omitempty"`
	From   Provenance `json:"from,omitempty"`
	Source string     `json:"source,omitempty"`
}
