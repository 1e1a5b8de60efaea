package cli

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"matchmark/internal/finding/judge"
	"matchmark/internal/machine"
)

type judgeCmd struct {
	Checks  []string `arg:"" optional:"" help:"Checks, by id or the beginning of one; all that were read when left out."`
	All     bool     `help:"Those not read as well."`
	Working bool     `short:"w" help:"Show how each verdict came about."`
}

func (c *judgeCmd) Run(r *run) error {
	v, done, err := r.view()
	if err != nil {
		return err
	}
	defer done()
	found := []*judge.Finding{}
	for _, f := range v.Judged().List {
		if c.wants(f) {
			found = append(found, f)
		}
	}
	if len(found) == 0 && len(c.Checks) > 0 {
		return fmt.Errorf("no check begins with %s; `matchmark judge --all` lists them", strings.Join(c.Checks, " or "))
	}
	slices.SortStableFunc(found, func(a, b *judge.Finding) int { return gravity(a.Verdict) - gravity(b.Verdict) })
	if r.json {
		out := []findingJSON{}
		for _, f := range found {
			out = append(out, findingJSONOf(f))
		}
		return r.print(out)
	}
	for _, f := range found {
		fmt.Fprintf(r.Out, "%-26s %s\n", f.Check.ID, f.Sentence)
		if f.Settle != "" {
			fmt.Fprintf(r.Out, "%26s %s\n", "", f.Settle)
		}
		if c.Working {
			for _, w := range f.Working {
				fmt.Fprintf(r.Out, "%28s %s\n", "", w)
			}
		}
	}
	if len(found) == 0 {
		fmt.Fprintln(r.Out, "No check was read yet. `matchmark next` says what can be measured now.")
	}
	return nil
}

func (c *judgeCmd) wants(f *judge.Finding) bool {
	if len(c.Checks) == 0 {
		return c.All || f.Verdict != judge.NotRead
	}
	return slices.ContainsFunc(c.Checks, func(p string) bool { return strings.HasPrefix(string(f.Check.ID), p) })
}

// gravity orders verdicts, the gravest first.
func gravity(v judge.Verdict) int {
	return slices.Index([]judge.Verdict{judge.Worn, judge.Doubtful, judge.NoLimit, judge.NotRead, judge.Sound}, v)
}

type boundsJSON struct {
	NewLow  *float64           `json:"newLow,omitempty"`
	NewHigh *float64           `json:"newHigh,omitempty"`
	Low     *float64           `json:"low,omitempty"`
	High    *float64           `json:"high,omitempty"`
	Words   string             `json:"words,omitempty"`
	From    machine.Provenance `json:"from"`
	Source  string             `json:"source,omitempty"`
	Missing string             `json:"missing,omitempty"`
}

type findingJSON struct {
	Check       machine.CheckID `json:"check"`
	Name        string          `json:"name"`
	Verdict     judge.Verdict   `json:"verdict"`
	Value       *float64        `json:"value,omitempty"`
	Uncertainty *float64        `json:"standardUncertainty,omitempty"`
	Unit        string          `json:"unit"`
	Probability *float64        `json:"probabilityConforming,omitempty"`
	Read        int             `json:"pointsRead"`
	Points      int             `json:"points"`
	Limit       boundsJSON      `json:"limit"`
	Disagree    bool            `json:"limitsDisagree,omitempty"`
	Sentence    string          `json:"sentence"`
	Settle      string          `json:"settle,omitempty"`
	Working     []string        `json:"working,omitempty"`
}

func findingJSONOf(f *judge.Finding) findingJSON {
	out := findingJSON{Check: f.Check.ID, Name: f.Check.Name, Verdict: f.Verdict, Unit: f.Check.Unit, Read: f.Read,
		Points: f.Points, Disagree: f.Disagree, Sentence: f.Sentence, Settle: f.Settle, Working: f.Working}
	b := f.Limit
	out.Limit = boundsJSON{finite(b.NewLow), finite(b.NewHigh), finite(b.Low), finite(b.High), b.Words, b.From, b.Source, b.Missing}
	if f.Read > 0 {
		out.Value, out.Uncertainty, out.Probability = finite(f.Value), finite(f.U), finite(f.P)
	}
	return out
}

// finite is nil for a bound that is not there: JSON has no infinity.
func finite(x float64) *float64 {
	if math.IsInf(x, 0) || math.IsNaN(x) {
		return nil
	}
	return &x
}
