package web

import (
	"errors"
	"fmt"
	"net/http"
	"net/url"
	"slices"
	"strings"

	"matchmark/internal/bench"
	"matchmark/internal/finding/identify"
	"matchmark/internal/machine"
	"matchmark/internal/trade/catalogue"
	"matchmark/internal/trade/metrology"
	"matchmark/internal/trade/spelling"
)

// whatView asks what a part is and answers with the standard parts it may be.
type whatView struct {
	Part, At string
	Known    string   // what it was said to be before
	Kinds    []option // Value is the address
	Kind     string
	Sizes    []sizeRow
	Tools    []option
	Fault    string
	Sentence string
	Settled  bool
	Ranked   []mayBe
	Next     string   // the size that would tell most
	NextAt   string   // its field
	Read     []string // what was read and how surely
	Fields   []option // of the form, to be sent on with Keep this
}

// sizeRow is one size of the form.
type sizeRow struct {
	Dim, Words, Unit, How string
	Typed                 string
	Wears                 bool
	Worn, Mate            bool
	Fault                 string
	Here                  bool // the one to measure next
	how                   string
}

// mayBe is one answer in its rank; one of them is that it is none of these.
type mayBe struct {
	Name   string
	Same   string // other names of the same size
	Chance string
	Width  int // of its line, in percent
	Why    string
	Found  []string
	Source string
	Keep   string // what is sent to keep it; empty for none of these
}

// mostAnswers are shown, down to leastAnswer.
const (
	mostAnswers = 8
	leastAnswer = 0.001
)

func whatPage(v *visit) error {
	p := v.view.Machine.Part(machine.PartID(v.r.PathValue("part")))
	if p == nil {
		return missing("the part", v.r.PathValue("part"))
	}
	wv := v.viewWhat(p)
	status := http.StatusOK
	if wv.typed() {
		if answer, sizes, ok := wv.ask(v); ok {
			wv.rank(answer, sizes)
		} else {
			status = http.StatusUnprocessableEntity
		}
	}
	return v.showWhat(p, wv, status)
}

func (v *visit) showWhat(p *machine.Part, wv whatView, status int) error {
	return v.show("what", status, frame{Title: "What is it?", Here: "Machine", Back: partAddress(v.base(), p.ID), Data: wv})
}

// viewWhat is the form for the kind asked for, with what was typed.
func (v *visit) viewWhat(p *machine.Part) whatView {
	wv := whatView{Part: p.Name, At: partAddress(v.base(), p.ID) + "/what", Kind: v.r.FormValue("kind"), Known: identifiedWords(p)}
	if identify.Dims(catalogue.Kind(wv.Kind)) == nil {
		wv.Kind = kindGuessed(p.Name)
	}
	for _, k := range identify.Kinds() {
		wv.Kinds = append(wv.Kinds, option{wv.At + "?kind=" + url.QueryEscape(string(k)), spelling.Head(string(k)), string(k) == wv.Kind})
	}
	for _, s := range identify.Dims(catalogue.Kind(wv.Kind)) {
		how := spelling.Head(s.How)
		if contains(s.Words, s.How) || strings.HasPrefix(s.How, s.Words) && len(s.How) < len(s.Words)+12 {
			how = "" // it says nothing more
		}
		wv.Sizes = append(wv.Sizes, sizeRow{Dim: s.Name, Words: spelling.Head(s.Words), Unit: unitWord(s.Unit), How: how, how: s.How, Wears: s.Wears != catalogue.Keeps,
			Typed: strings.TrimSpace(v.r.FormValue("d:" + s.Name)), Worn: v.r.FormValue("worn:"+s.Name) != "", Mate: v.r.FormValue("mate:"+s.Name) != ""})
	}
	for _, in := range metrology.Instruments() {
		if in.Unit == "mm" && slices.Contains([]string{"outside", "bore", "depth"}, in.Kind) {
			wv.Tools = append(wv.Tools, option{in.ID, in.Name, in.ID == v.r.FormValue("tool")})
		}
	}
	return wv
}

// unitWord is the unit as it stands behind a field; a count has none.
func unitWord(unit string) string {
	if unit == "ratio" || unit == "count" {
		return ""
	}
	return unit
}

// kindGuessed takes the kind a part's name speaks of; empty where it speaks of
// none.
func kindGuessed(name string) string {
	for _, g := range []struct {
		word string
		kind catalogue.Kind
	}{{"needle", catalogue.Needle}, {"taper", catalogue.Taper}, {"ball", catalogue.Ball}, {"roller bearing", catalogue.Roller}, {"thrust bearing", catalogue.Thrust},
		{"bearing", catalogue.RollingBearing}, {"o-ring", catalogue.ORing}, {"seal", catalogue.OilSeal}, {"circlip", catalogue.ShaftCirclip}, {"half-moon", catalogue.HalfMoonKey},
		{"belt", catalogue.VBelt}, {"bolt", catalogue.Thread}, {"stud", catalogue.Thread}, {"nut", catalogue.Thread}, {"screw", catalogue.Thread}, {"gear", catalogue.GearRack},
		{"pinion", catalogue.GearRack}, {"key", catalogue.Key}, {"bush", identify.WornBore}, {"liner", identify.WornBore}, {"shaft", identify.WornJournal}, {"pin", identify.WornJournal}} {
		if contains(name, g.word) {
			return string(g.kind)
		}
	}
	return ""
}

// typed tells whether any size was given.
func (wv *whatView) typed() bool {
	return slices.ContainsFunc(wv.Sizes, func(s sizeRow) bool { return s.Typed != "" })
}

// ask reads the sizes and answers; where it cannot, the fault is in the view.
func (wv *whatView) ask(v *visit) (identify.Answer, []bench.Size, bool) {
	in := bench.TypedSizes{Kind: wv.Kind, Tool: v.r.FormValue("tool")}
	for _, s := range wv.Sizes {
		if s.Typed == "" {
			continue
		}
		in.Sizes = append(in.Sizes, s.Dim+"="+s.Typed)
		if s.Worn {
			in.Worn = append(in.Worn, s.Dim)
		}
		if s.Mate {
			in.Mate = append(in.Mate, s.Dim)
		}
	}
	kind, sizes, err := in.Read()
	var answer identify.Answer
	if err == nil {
		ask := identify.Ask{Kind: kind}
		for _, s := range sizes {
			ask.Measured = append(ask.Measured, s.Measured)
		}
		answer, err = identify.Part(ask)
	}
	if err != nil {
		wv.blame(err)
		return answer, nil, false
	}
	return answer, sizes, true
}

// blame puts a fault beside the size it is about.
func (wv *whatView) blame(err error) {
	var typed *bench.InputError
	var asked identify.AskError
	field := ""
	switch {
	case errors.As(err, &typed):
		field = typed.Field
	case errors.As(err, &asked):
		field = asked.Field
	}
	wv.Fault = spelling.Head(err.Error()) + "."
	for i := range wv.Sizes {
		if wv.Sizes[i].Dim == field {
			wv.Sizes[i].Fault = wv.Fault
		}
	}
}

// rank lays out the answer, none of these in its place.
func (wv *whatView) rank(a identify.Answer, sizes []bench.Size) {
	wv.Sentence, wv.Settled = a.Sentence, a.Settled
	none := mayBe{Name: "None of these", Chance: percent(a.None), Width: int(100*a.None + 0.5), Why: "No size of the tables. Measure again, and look for a mark."}
	placed := false
	for i, c := range a.Ranked {
		if i == mostAnswers || c.P < leastAnswer {
			break
		}
		if !placed && a.None > c.P {
			wv.Ranked, placed = append(wv.Ranked, none), true
		}
		m := mayBe{Name: c.Item.Designation, Same: strings.Join(c.Equivalents, ", "), Chance: percent(c.P), Width: int(100*c.P + 0.5), Why: spelling.Head(c.Why), Source: c.Item.Source, Keep: c.Item.Designation}
		for _, f := range c.Found {
			text := spelling.Head(f.Name) + " " + figure(f.Value, "mm")
			if f.U > 0 {
				text += ", give or take " + figure(2*f.U, "mm")
			}
			m.Found = append(m.Found, text)
		}
		wv.Ranked = append(wv.Ranked, m)
	}
	if !placed {
		wv.Ranked = append(wv.Ranked, none)
	}
	for _, s := range sizes {
		line := fmt.Sprintf("%s %s, %s", wv.wordsOf(s.Dim), amountWords(&s.Amount), s.UFrom)
		if s.U > 0 {
			line = fmt.Sprintf("%s %s ± %s (%s)", wv.wordsOf(s.Dim), amountWords(&s.Amount), figure(2*s.U, "mm"), s.UFrom)
		}
		wv.Read = append(wv.Read, line)
	}
	wv.next(a)
	wv.Fields = wv.fields()
}

// next names the size that would tell most, and marks its field.
func (wv *whatView) next(a identify.Answer) {
	if a.Settled || a.NextBits < 0.05 {
		return
	}
	for i, s := range wv.Sizes {
		if a.Next != "" && (strings.EqualFold(s.Words, a.Next) || strings.EqualFold(s.how, a.Next) || s.Dim == a.Next) {
			wv.Sizes[i].Here = true
			wv.Next, wv.NextAt = a.Next, "#size-"+s.Dim
			return
		}
	}
	wv.Next = a.Next
}

func (wv *whatView) wordsOf(dim string) string {
	for _, s := range wv.Sizes {
		if s.Dim == dim {
			return s.Words
		}
	}
	return dim
}

// fields are the form as it was filled in, to be sent on.
func (wv *whatView) fields() []option {
	out := []option{{Value: wv.Kind, Name: "kind"}}
	for _, t := range wv.Tools {
		if t.Chosen {
			out = append(out, option{Value: t.Value, Name: "tool"})
		}
	}
	for _, s := range wv.Sizes {
		if s.Typed == "" {
			continue
		}
		out = append(out, option{Value: s.Typed, Name: "d:" + s.Dim})
		if s.Worn {
			out = append(out, option{Value: "yes", Name: "worn:" + s.Dim})
		}
		if s.Mate {
			out = append(out, option{Value: "yes", Name: "mate:" + s.Dim})
		}
	}
	return out
}

// whatPost keeps one of the answers as what the part is.
func whatPost(v *visit) error {
	p := v.view.Machine.Part(machine.PartID(v.r.PathValue("part")))
	if p == nil {
		return missing("the part", v.r.PathValue("part"))
	}
	wv := v.viewWhat(p)
	answer, sizes, ok := wv.ask(v)
	if !ok {
		return v.showWhat(p, wv, http.StatusUnprocessableEntity)
	}
	i := slices.IndexFunc(answer.Ranked, func(c identify.Candidate) bool { return c.Item.Designation == v.typed("is") })
	if i < 0 {
		wv.rank(answer, sizes)
		wv.Fault = "That is none of the answers, so nothing was kept. Choose one of the list."
		return v.showWhat(p, wv, http.StatusUnprocessableEntity)
	}
	if _, err := v.record(bench.IdentifiedAs(p.ID, answer, answer.Ranked[i], sizes)); err != nil {
		return err
	}
	return v.go303(partAddress(v.base(), p.ID))
}

// identifiedWords say which standard part a part was found to be.
func identifiedWords(p *machine.Part) string {
	i := p.Identified
	if i == nil {
		return ""
	}
	return spelling.Head(i.What) + " " + i.Designation + ", " + percent(i.Probability) + " sure" + behind("; same size: ", strings.Join(i.Equivalents, ", ")) + " (" + i.By + ", " + day(i.At) + ")"
}
