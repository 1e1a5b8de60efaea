package cli

import (
	"fmt"
	"math"
	"slices"
	"strconv"
	"strings"

	"matchmark/internal/bench"
	"matchmark/internal/finding/identify"
	"matchmark/internal/machine"
	"matchmark/internal/trade/catalogue"
)

type identifyCmd struct {
	Kind  string   `arg:"" optional:"" help:"Kind of standard part, such as ball-bearing; left out, the kinds and their sizes are listed."`
	Sizes []string `arg:"" optional:"" name:"name=value" help:"What was measured: d=25.02, d=25.02±0.02 (standard uncertainty), D=\"2.0477 in\"; ~ behind it where the place is worn."`
	Tool  string   `help:"Instrument that the sizes were read with." placeholder:"ID"`
	Worn  []string `help:"Sizes that show wear, parted by commas." placeholder:"NAME,…"`
	Mate  []string `help:"Sizes read on the part that runs against it, where wear goes the other way." placeholder:"NAME,…"`
	Part  string   `help:"Part of the machine that it is." placeholder:"ID"`
	Keep  bool     `help:"Record the likeliest answer for --part."`
}

// shown is how many candidates an answer lists, and leastShown how likely the
// last of them has to be.
const (
	shown      = 10
	leastShown = 0.001
)

func (c *identifyCmd) Run(r *run) error {
	if c.Kind == "" {
		return c.list(r)
	}
	kind, sizes, err := bench.TypedSizes{Kind: c.Kind, Sizes: c.Sizes, Tool: c.Tool, Worn: c.Worn, Mate: c.Mate}.Read()
	if err != nil {
		return err
	}
	ask := identify.Ask{Kind: kind}
	for _, s := range sizes {
		ask.Measured = append(ask.Measured, s.Measured)
	}
	answer, err := identify.Part(ask)
	if err != nil {
		return err
	}
	kept, err := c.keep(r, answer, sizes)
	if err != nil {
		return err
	}
	out := answerJSONOf(answer, sizes, kept)
	if r.json {
		return r.print(out)
	}
	out.write(r)
	return nil
}

// keep records the likeliest answer for a part, where that is asked for. An
// answer that says "in no table" cannot be kept.
func (c *identifyCmd) keep(r *run, a identify.Answer, sizes []bench.Size) (kept machine.PartID, err error) {
	if c.Part == "" {
		if c.Keep {
			return "", fmt.Errorf("--keep needs the part that it is: --part ID")
		}
		return "", nil
	}
	b, done, err := r.bench()
	if err != nil {
		return "", err
	}
	defer done()
	v, err := b.View(r.ctx)
	if err != nil {
		return "", err
	}
	p := v.Machine.Part(machine.PartID(c.Part))
	if p == nil {
		return "", unknownPart(v.Machine, c.Part)
	}
	if !c.Keep {
		return "", nil
	}
	if len(a.Ranked) == 0 || a.None >= a.Ranked[0].P {
		return "", fmt.Errorf("nothing is kept for %s: %s", p.Name, a.Sentence)
	}
	_, err = b.Record(r.ctx, r.who(), bench.IdentifiedAs(p.ID, a, a.Ranked[0], sizes))
	return p.ID, err
}

// unknownPart says which parts may be meant.
func unknownPart(m *machine.Machine, typed string) error {
	var near []string
	for _, p := range m.Parts {
		if strings.HasPrefix(string(p.ID), typed) || strings.Contains(strings.ToLower(p.Name), strings.ToLower(typed)) {
			near = append(near, string(p.ID))
		}
	}
	if len(near) == 0 {
		return fmt.Errorf("%q is no part of this machine", typed)
	}
	return fmt.Errorf("%q is no part of this machine (near: %s)", typed, strings.Join(near[:min(6, len(near))], " "))
}

type kindJSON struct {
	Kind  catalogue.Kind `json:"kind"`
	Sizes []specJSON     `json:"sizes"`
}

type specJSON struct {
	Name   string  `json:"name"`
	Words  string  `json:"words"`
	Unit   string  `json:"unit,omitempty"`
	Wears  string  `json:"wears"` // grows, shrinks, keeps
	UsualU float64 `json:"usualUncertainty,omitempty"`
	How    string  `json:"how"`
}

// list gives the kinds with what can be measured on each.
func (c *identifyCmd) list(r *run) error {
	out := []kindJSON{}
	for _, k := range identify.Kinds() {
		j := kindJSON{Kind: k}
		for _, s := range identify.Dims(k) {
			j.Sizes = append(j.Sizes, specJSON{s.Name, s.Words, s.Unit, wearWord(s.Wears), s.UsualU, s.How})
		}
		out = append(out, j)
	}
	if r.json {
		return r.print(out)
	}
	for _, k := range out {
		var names []string
		for _, s := range k.Sizes {
			names = append(names, s.Name+" ("+s.Words+")")
		}
		fmt.Fprintf(r.Out, "%-17s %s\n", strings.ReplaceAll(string(k.Kind), " ", "-"), strings.Join(names, ", "))
	}
	return nil
}

func wearWord(w catalogue.Wear) string {
	switch w {
	case catalogue.Grows:
		return "grows"
	case catalogue.Shrinks:
		return "shrinks"
	}
	return "keeps"
}

type readJSON struct {
	Name  string  `json:"name"`
	Value float64 `json:"value"`
	Unit  string  `json:"unit,omitempty"`
	Typed string  `json:"typed"`
	U     float64 `json:"standardUncertainty"`
	UFrom string  `json:"uncertaintyFrom"`
	Worn  bool    `json:"worn,omitempty"`
	Mate  bool    `json:"onMate,omitempty"`
}

type foundJSON struct {
	Name  string  `json:"name"`
	Value float64 `json:"value"`
	U     float64 `json:"standardUncertainty"`
}

type candidateJSON struct {
	Designation string      `json:"designation"`
	Series      string      `json:"series,omitempty"`
	P           float64     `json:"probability"`
	Equivalents []string    `json:"equivalents,omitempty"`
	Why         string      `json:"why,omitempty"`
	Found       []foundJSON `json:"found,omitempty"`
	Source      string      `json:"source,omitempty"`
}

type answerJSON struct {
	Kind       catalogue.Kind  `json:"kind"`
	Measured   []readJSON      `json:"measured"`
	Candidates []candidateJSON `json:"candidates"`
	None       float64         `json:"noneOfThese"`
	Set95      []string        `json:"set95"`
	Settled    bool            `json:"settled"`
	Next       string          `json:"next,omitempty"`
	NextBits   float64         `json:"nextBits,omitempty"`
	Sentence   string          `json:"sentence"`
	Kept       machine.PartID  `json:"keptFor,omitempty"`
}

func answerJSONOf(a identify.Answer, sizes []bench.Size, kept machine.PartID) answerJSON {
	out := answerJSON{Kind: a.Kind, Candidates: []candidateJSON{}, None: a.None, Set95: a.Set95, Settled: a.Settled, Next: a.Next, NextBits: a.NextBits, Sentence: a.Sentence, Kept: kept}
	for _, s := range sizes {
		out.Measured = append(out.Measured, readJSON{s.Dim, s.Value, s.Amount.Unit, s.Amount.Typed, s.U, s.UFrom, s.Worn, s.Mate})
	}
	for i, c := range a.Ranked {
		if i == shown || c.P < leastShown {
			break
		}
		j := candidateJSON{Designation: c.Item.Designation, Series: c.Item.Series, P: c.P, Equivalents: c.Equivalents, Why: c.Why, Source: c.Item.Source}
		for _, f := range c.Found {
			j.Found = append(j.Found, foundJSON{f.Name, f.Value, f.U})
		}
		out.Candidates = append(out.Candidates, j)
	}
	return out
}

// write gives the answer in words, none of these in its rank.
func (a answerJSON) write(r *run) {
	for _, m := range a.Measured {
		marks := ""
		if m.Worn {
			marks += ", worn"
		}
		if m.Mate {
			marks += ", on the mating part"
		}
		fmt.Fprintf(r.Out, "read %s%s%s\n", m.Name, withUnit(m.Value, m.U, m.Unit, m.UFrom), marks)
	}
	rank := slices.IndexFunc(a.Candidates, func(c candidateJSON) bool { return c.P < a.None })
	if rank < 0 {
		rank = len(a.Candidates)
	}
	for i, c := range a.Candidates {
		if i == rank {
			r.chance(a.None, identify.NoneName)
		}
		r.chance(c.P, c.Designation)
		if len(c.Equivalents) > 0 {
			fmt.Fprintf(r.Out, "          same size: %s\n", strings.Join(c.Equivalents, "; "))
		}
		for _, f := range c.Found {
			fmt.Fprintf(r.Out, "          %s%s\n", f.Name, withUnit(f.Value, f.U, "", ""))
		}
		if c.Why != "" {
			fmt.Fprintf(r.Out, "          %s\n", c.Why)
		}
	}
	if rank == len(a.Candidates) {
		r.chance(a.None, identify.NoneName)
	}
	fmt.Fprintf(r.Out, "95 %% set: %s\n%s\n", strings.Join(a.Set95, " or "), a.Sentence)
	if a.Next != "" && a.NextBits >= 0.05 {
		fmt.Fprintf(r.Out, "tells most: %s (%.1f bits)\n", a.Next, a.NextBits)
	}
	if a.Kept != "" {
		fmt.Fprintf(r.Out, "kept for %s\n", a.Kept)
	}
}

// withUnit writes a value with its unit, and its standard uncertainty where it
// has one.
func withUnit(v, u float64, unit, from string) string {
	text := " " + strconv.FormatFloat(math.Round(v*1e4)/1e4, 'f', -1, 64)
	if unit != "" {
		text += " " + unit
	}
	if u > 0 {
		text += fmt.Sprintf(", u %.2g", u)
	}
	if from != "" {
		text += " (" + from + ")"
	}
	return text
}

// chance writes a probability and what it is of; never 0 or 100 for what is
// not so.
func (r *run) chance(p float64, what string) {
	figure := fmt.Sprintf("%.1f", 100*p)
	switch {
	case p > 0.999:
		figure = ">99.9"
	case p < 0.001:
		figure = "<0.1"
	}
	fmt.Fprintf(r.Out, "%6s %%  %s\n", figure, what)
}
