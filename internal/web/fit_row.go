package web

import (
	"fmt"
	"math"
	"strings"

	"matchmark/internal/bench"
	"matchmark/internal/finding/judge"
	"matchmark/internal/finding/remedy"
	"matchmark/internal/machine"
	"matchmark/internal/trade/spelling"
)

// fitRow is one check with its verdict, limit, working and remedies.
type fitRow struct {
	Base, Back string
	ID         string
	Name       string
	Word       string // the verdict
	Value      string
	Spread     string // "± 0.006 mm"
	Chance     string // "98 % within the limit"
	Sentence   string
	Settle     string
	ToRead     []string // surfaces with points left
	From       string
	Others     []string
	Disagree   bool
	Window     *window
	Working    []string
	Measure    []link
	Parts      []fitPart
	One        bool // in one column, without the parts
	Remedies   []remedyRow
	Froms      []option // for a limit of one's own
	Unit       string
	Chosen     string
	Proposed   string
	Done       []string
}

// link is a name with an address.
type link struct{ Name, At string }

// fitPart is a part a check looks at, with the tag it carries now.
type fitPart struct {
	ID, Name, At string
	Call         string
	Calls        []callButton
	Proposed     string // what the plan would say, while nobody said anything
}

// remedyRow is one way to make a check good.
type remedyRow struct {
	Key, Name string
	Words     string // cost, days, where
	Beware    string
	Steps     []option
	Proposed  bool
	Chosen    bool
}

// fitOf lays out one finding.
func fitOf(v *bench.View, base string, f *judge.Finding) fitRow {
	c := f.Check
	row := fitRow{Base: base, ID: string(c.ID), Name: c.Name, Word: spelling.Head(string(f.Verdict)), Sentence: f.Sentence,
		From: provenance(f.Limit), Disagree: f.Disagree, Window: drawWindow(f), Working: f.Working}
	row.ToRead, row.Settle = settleOf(f)
	if f.Verdict == judge.NotRead && strings.Count(f.Sentence, ":") == 1 && strings.HasPrefix(f.Sentence, c.Name+":") {
		row.Sentence = "" // it says no more than the name and the verdict above it
	}
	if f.Limit.Missing != "" {
		row.From += ". " + spelling.Head(f.Limit.Missing)
	}
	if f.Read > 0 && f.Verdict != judge.NotRead && !byWord(c) {
		row.Value = withUnit(f.Value, c.Unit)
		if f.U > 0 {
			row.Spread = "± " + withUnit(2*f.U, c.Unit)
		}
		if f.Verdict != judge.NoLimit {
			row.Chance = chance(f.P)
		}
	}
	for _, b := range f.Others {
		row.Others = append(row.Others, strings.Join(append(limitWords(c, b), provenance(b)), ", "))
	}
	row.Measure = measureLinks(base, c)
	if !byWord(c) {
		row.Froms, row.Unit = provenanceOptions(""), c.Unit
	}
	for _, p := range partsOf(c) {
		call, _ := proposalFor(v, p)
		row.Parts = append(row.Parts, fitPart{string(p.ID), p.Name, partAddress(base, p.ID), string(p.Call), callsFor(p), call})
	}
	row.addRemedies(v, c)
	return row
}

// proposalFor words a proposal for a part nobody called yet.
func proposalFor(v *bench.View, p *machine.Part) (call, why string) {
	if q, ok := v.Calls()[p.ID]; ok && p.Call == machine.NotJudged && q.Call != machine.NotJudged {
		return string(q.Call), q.Why
	}
	return "", ""
}

// chance says a probability without false precision.
func chance(p float64) string {
	switch {
	case p > 0.995:
		return "over 99 % sure to be within the limit"
	case p < 0.005:
		return "under 1 % likely to be within the limit"
	}
	return fmt.Sprintf("%.0f %% likely to be within the limit", 100*p)
}

// measureLinks lead to the runs a check gets its value from.
func measureLinks(base string, c *machine.Check) []link {
	if byWord(c) {
		return []link{{"Look", runAddress(base, "look", string(c.Type))}}
	}
	if direct(c) {
		return []link{{"Measure", runAddress(base, "c", string(c.Type))}}
	}
	var out []link
	for _, ft := range c.Surfaces() {
		out = append(out, link{"Measure the " + baseName(ft), runAddress(base, "f", runOfFeature(ft))})
	}
	return out
}

func (row *fitRow) addRemedies(v *bench.View, c *machine.Check) {
	proposed := remedy.Choice{}
	for _, ch := range v.Choices(remedy.Cheapest).Choices {
		if ch.Check == c.ID {
			proposed = ch
			row.Proposed = spelling.Head(ch.Name) + sizeWords(ch.Step) + behind(". ", ch.Why)
		}
	}
	if c.Chosen != nil {
		row.Chosen = remedyName(v.Machine, c.ID, c.Chosen.Key) + sizeWords(c.Chosen.Step) + ", " + c.Chosen.By + ", " + day(c.Chosen.At) + behind(": ", c.Chosen.Why)
	}
	for _, d := range c.Done {
		row.Done = append(row.Done, remedyName(v.Machine, c.ID, d.Key)+sizeWords(d.Step)+", "+day(d.At))
	}
	for _, r := range c.Remedies {
		rr := remedyRow{Key: r.Key, Name: spelling.Head(r.Name), Words: remedyWords(r), Beware: r.Beware,
			Proposed: proposed.Of == c.ID && proposed.Remedy == r.Key, Chosen: c.Chosen != nil && c.Chosen.Key == r.Key}
		for _, s := range r.Steps {
			rr.Steps = append(rr.Steps, option{fmt.Sprint(s), fmt.Sprintf("%+.2f mm", s), rr.Proposed && s == proposed.Step})
		}
		row.Remedies = append(row.Remedies, rr)
	}
}

// remedyWords says where, how long and how dear; cost is in bench hours'
// worth.
func remedyWords(r machine.Remedy) string {
	words := []string{r.Where}
	if r.Days > 0 {
		words = append(words, "about "+daysWords(r.Days))
	}
	if r.Cost > 0 {
		words = append(words, worthWords(r.Cost)+" of bench work")
	}
	return strings.Join(words, ", ")
}

func daysWords(d float64) string {
	if d < 1 {
		return "a few hours"
	}
	return plural(int(d+0.5), "day", "days")
}

// hoursWords prints bench hours.
func hoursWords(h float64) string {
	if h < 1 {
		return plural(max(int(math.Round(60*h)), 1), "minute", "minutes")
	}
	if h == float64(int(h)) {
		return plural(int(h), "hour", "hours")
	}
	return fmt.Sprintf("%.1f hours", h)
}
