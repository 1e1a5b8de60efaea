package nominal

import (
	"fmt"
	"math"
	"strconv"
	"strings"

	"matchmark/internal/finding/identify"
	"matchmark/internal/machine"
	"matchmark/internal/trade/catalogue"
	"matchmark/internal/trade/metrology"
)

// Settled is the probability from which a proposal is taken for the size.
// Source: the level of a sure verdict.
const Settled = metrology.DefaultAccept

// Evidence is what is known of a surface: its sort (machine.Bore or
// machine.Shaft), the size of an unworn place of it in mm, and that place in
// words: "unworn top of bore 1".
type Evidence struct {
	Sort   string
	Unworn metrology.Estimate
	Place  string
}

// Option is one size it may have been made to.
type Option struct {
	Nominal float64 // mm, as first made
	Rework  float64 // mm added by rework; below 0 for what a journal lost
	P       float64
	Name    string   // "76 mm, 0.25 mm oversize"
	Same    []string // other names of the same size
}

// Size is what the surface was last made to, mm.
func (o Option) Size() float64 { return o.Nominal + o.Rework }

// Proposal ranks the sizes a surface may have been made to. None is the
// probability of no preferred size; the options' and None sum to 1 or a little
// less, for the unlikely are left out.
type Proposal struct {
	Options []Option
	None    float64
	Place   string
	Next    string // what to measure to tell more; empty where nothing would
}

// least is the probability below which an option is not worth a word.
const least = 0.01

// Propose ranks the sizes that a surface of this machine may have been made to.
// Method: Bayes over preferred sizes and rework steps, identify.Part.
// Errors: identify.AskError for a size that is none or an uncertainty of 0;
// SortError for a surface without a sense of wear.
func Propose(e Evidence) (Proposal, error) {
	kind, known := map[string]catalogue.Kind{machine.Bore: identify.WornBore, machine.Shaft: identify.WornJournal}[e.Sort]
	if !known {
		return Proposal{}, SortError{e.Sort}
	}
	ans, err := identify.Part(identify.Ask{Kind: kind, Measured: []identify.Measured{{Dim: "unworn", Value: e.Unworn.Value, U: e.Unworn.U}}})
	if err != nil {
		return Proposal{}, err
	}
	p := Proposal{None: ans.None, Place: e.Place, Next: ans.Next}
	for _, c := range ans.Ranked {
		if c.P < least && len(p.Options) > 0 {
			break
		}
		o := Option{P: c.P, Name: c.Item.Designation, Same: c.Equivalents}
		for _, f := range c.Found {
			switch f.Name {
			case identify.FoundNominal:
				o.Nominal = f.Value
			case identify.FoundRework:
				o.Rework = f.Value
			}
		}
		p.Options = append(p.Options, o)
	}
	return p, nil
}

// SortError says that a surface has no nominal bore or journal size.
type SortError struct{ Sort string }

func (e SortError) Error() string {
	return fmt.Sprintf("nominal size: a surface of sort %q has no sense of wear; want a bore or a journal", e.Sort)
}

// Best is the likeliest option; ok tells whether it is sure enough to be taken.
func (p Proposal) Best() (best Option, ok bool) {
	if len(p.Options) == 0 {
		return Option{}, false
	}
	return p.Options[0], p.Options[0].P >= Settled && p.Options[0].P > p.None
}

// Words says a proposal: "76.00 + 0.25 mm, probability 0.97; or 76.00 mm, 0.02;
// no usual size 0.01".
func (p Proposal) Words() string {
	var parts []string
	for _, o := range p.Options {
		text := sizeWords(o) + ", "
		if len(parts) == 0 {
			text += "probability "
		} else {
			text = "or " + text
		}
		parts = append(parts, text+Chance(o.P))
	}
	if p.None >= least {
		parts = append(parts, "no usual size "+Chance(p.None))
	}
	return strings.Join(parts, "; ")
}

// sizeWords prints nominal and rework: whole hundredths as such, inch sizes to
// the micrometre with their name.
func sizeWords(o Option) string {
	text := mm(o.Nominal)
	switch {
	case o.Rework > 0:
		text += " + " + mm(o.Rework)
	case o.Rework < 0:
		text += " − " + mm(-o.Rework)
	}
	text += " mm"
	if strings.Contains(o.Name, " in") {
		text += " (" + o.Name + ")"
	}
	return text
}

// mm prints at least two places, and three where two would round.
func mm(v float64) string {
	if math.Abs(v*100-math.Round(v*100)) < 1e-6 {
		return strconv.FormatFloat(v, 'f', 2, 64)
	}
	return strconv.FormatFloat(v, 'f', 3, 64)
}

// Chance prints a probability to two places, never 1.00 for what is not
// certain.
func Chance(p float64) string {
	if p > 0.995 {
		return "over 0.99"
	}
	return strconv.FormatFloat(p, 'f', 2, 64)
}
