package web

import (
	"net/http"
	"net/url"
	"slices"
	"strconv"
	"strings"
	"sync"

	"matchmark/internal/bench"
	"matchmark/internal/kit"
	"matchmark/internal/machine"
	"matchmark/internal/trade/spelling"
)

// figuresView lists the figures of the machine that limits are worked out
// from, those of one kit at a time.
type figuresView struct {
	Base  string
	Kits  []figureKit
	Title string // of the kit that is shown
	List  []figureRow
	Froms []option
	Fault string
}

// figureKit is the kit that asks for some figures.
type figureKit struct {
	At, Name   string
	Known, All int
	Here       bool
}

// kitOfDatum tells which kit of the library asks for each figure. Kits of the
// user's own are not in it; their figures stand under "Other".
var kitOfDatum = sync.OnceValues(func() (map[string]kit.Head, error) {
	sheets, err := kit.Library()
	out := map[string]kit.Head{}
	for _, s := range sheets {
		for _, d := range s.Data {
			if _, taken := out[d.ID]; !taken {
				out[d.ID] = s.Kit
			}
		}
	}
	return out, err
})

type figureRow struct {
	ID, Name, Unit string
	Value, From    string // From is where it comes from; both empty while not known
	Typed, Source  string // shown again after a refusal
}

func figuresPage(v *visit) error { return v.showFigures(v.asked("a"), "", http.StatusOK) }

// showFigures shows the figures of one kit; none asked for is the first that
// has one still unknown.
func (v *visit) showFigures(shown, fault string, status int) error {
	of, err := kitOfDatum()
	if err != nil {
		return err
	}
	fv := figuresView{Base: v.base(), Froms: provenanceOptions(v.typed("from")), Fault: fault}
	fv.kits(v.view.Machine.Data, of, shown)
	for _, d := range v.view.Machine.Data {
		if kitName(of, d.ID) != fv.Title {
			continue
		}
		row := figureRow{ID: d.ID, Name: spelling.Head(d.Name), Unit: d.Unit}
		if d.Value != nil {
			row.Value, row.From = withUnit(*d.Value, strings.TrimPrefix(d.Unit, "count")), sourceWords(d.From, d.Source)
		}
		if v.typed("datum") == d.ID {
			row.Typed, row.Source = v.typed("value"), v.typed("source")
		}
		fv.List = append(fv.List, row)
	}
	return v.show("figures", status, frame{Title: "Figures", Here: "Machine", Back: v.base() + "/machine", Data: fv})
}

// kits counts the figures of each kit, in the order of the machine, and picks
// the one to show by its name or by a figure of it.
func (fv *figuresView) kits(data []machine.Datum, of map[string]kit.Head, shown string) {
	at := map[string]int{}
	for _, d := range data {
		name := kitName(of, d.ID)
		i, ok := at[name]
		if !ok {
			i = len(fv.Kits)
			at[name] = i
			fv.Kits = append(fv.Kits, figureKit{At: fv.Base + "/figures?a=" + url.QueryEscape(d.ID), Name: name})
		}
		fv.Kits[i].All++
		if d.Value != nil {
			fv.Kits[i].Known++
		}
	}
	here := slices.IndexFunc(fv.Kits, func(k figureKit) bool { return k.Known < k.All })
	if slices.ContainsFunc(data, func(d machine.Datum) bool { return d.ID == shown }) {
		here = at[kitName(of, shown)]
	}
	if here = max(here, 0); here < len(fv.Kits) {
		fv.Kits[here].Here, fv.Title = true, fv.Kits[here].Name
	}
}

func kitName(of map[string]kit.Head, datum string) string {
	if head, ok := of[datum]; ok {
		return head.Title
	}
	return "Other"
}

// provenanceOptions lists where a figure can come from; own decision comes
// first, so that nothing is taken for paperwork by mistake.
func provenanceOptions(chosen string) []option {
	if chosen == "" {
		chosen = string(machine.OwnDecision)
	}
	var out []option
	for _, p := range machine.Provenances() {
		out = append(out, option{string(p), string(p), string(p) == chosen})
	}
	return out
}

// provenanceTyped reads the answer; nothing known is own decision.
func provenanceTyped(text string) machine.Provenance {
	for _, p := range machine.Provenances() {
		if string(p) == text {
			return p
		}
	}
	return machine.OwnDecision
}

// figuresPost gives a figure of the machine its value.
func figuresPost(v *visit) error {
	d := v.view.Machine.Datum(v.typed("datum"))
	if d == nil {
		return missing("the figure", v.typed("datum"))
	}
	value, err := bench.InUnit(v.typed("value"), d.Unit)
	if err != nil {
		return v.showFigures(d.ID, spelling.Head(err.Error())+". Nothing was kept; give it in "+orPlain(d.Unit)+".", http.StatusUnprocessableEntity)
	}
	body := &machine.DatumSet{Datum: machine.Datum{ID: d.ID, Name: d.Name, Unit: d.Unit, Value: &value, Typed: v.typed("value"),
		From: provenanceTyped(v.typed("from")), Source: clip(v.typed("source"), 200)}}
	if _, err := v.record(body); err != nil {
		return err
	}
	return v.go303(v.base() + "/figures?a=" + url.QueryEscape(d.ID) + "#" + d.ID)
}

func orPlain(unit string) string {
	if unit == "" {
		return "a plain number"
	}
	return unit
}

// limitPost gives a check one more limit, with where it comes from. The better
// provenance rules; both are shown.
func limitPost(v *visit) error {
	c := v.view.Machine.Check(machine.CheckID(v.typed("check")))
	if c == nil {
		return missing("the check", v.typed("check"))
	}
	l := machine.Limit{From: provenanceTyped(v.typed("from")), Source: clip(v.typed("source"), 200)}
	for field, to := range map[string]*string{"low": &l.Low, "high": &l.High} {
		text := v.typed(field)
		if text == "" {
			continue
		}
		value, err := bench.InUnit(text, c.Unit)
		if err != nil {
			return plight{http.StatusUnprocessableEntity, "“" + clip(text, 40) + "” is no limit for " + spelling.Inside(c.Name),
				spelling.Head(err.Error()) + ". Nothing was kept; go back and give it in " + orPlain(c.Unit) + "."}
		}
		*to = strconv.FormatFloat(value, 'f', -1, 64)
	}
	if l.Low+l.High == "" {
		return plight{http.StatusUnprocessableEntity, "The limit was empty", "Nothing was kept. Go back and give the least, the most, or both."}
	}
	if _, err := v.record(&machine.LimitSet{Check: c.ID, Limit: l}); err != nil {
		return err
	}
	return v.go303(v.back(v.base() + "/fits"))
}

// nominalFact is the size a surface was made to.
func nominalFact(v *visit, part machine.PartID) (machine.Body, string) {
	ft := v.view.Machine.Feature(machine.FeatureID(v.typed("feature")))
	if ft == nil || ft.Part.ID != part {
		return nil, "That surface is not on this part, so nothing was kept. Choose one of its own."
	}
	a, err := bench.Amount(v.typed("text"), "mm")
	if err != nil {
		return nil, spelling.Head(err.Error()) + ". Nothing was kept; give the size it was made to, in mm."
	}
	if a.Value <= 0 {
		return nil, "A size of " + withUnit(a.Value, "mm") + " is out of reason, so nothing was kept. Give the size it was made to."
	}
	return &machine.NominalSet{Feature: ft.ID, Amount: a, From: provenanceTyped(v.typed("from")), Source: clip(v.typed("source"), 200)}, ""
}
