package web

import (
	"net/http"
	"strconv"

	"matchmark/internal/bench"
	"matchmark/internal/machine"
	"matchmark/internal/trade/spelling"
)

// figuresView lists the figures of the machine that limits are worked out
// from.
type figuresView struct {
	Base  string
	List  []figureRow
	Froms []option
	Fault string
}

type figureRow struct {
	ID, Name, Unit string
	Value          string // with its provenance; empty while not known
	Typed, Source  string // shown again after a refusal
}

func figuresPage(v *visit) error { return v.showFigures("", http.StatusOK) }

func (v *visit) showFigures(fault string, status int) error {
	fv := figuresView{Base: v.base(), Froms: provenanceOptions(v.typed("from")), Fault: fault}
	for _, d := range v.view.Machine.Data {
		row := figureRow{ID: d.ID, Name: spelling.Head(d.Name), Unit: d.Unit}
		if d.Value != nil {
			row.Value = withUnit(*d.Value, d.Unit) + ", " + sourceWords(d.From, d.Source)
		}
		if v.typed("datum") == d.ID {
			row.Typed, row.Source = v.typed("value"), v.typed("source")
		}
		fv.List = append(fv.List, row)
	}
	return v.show("figures", status, frame{Title: "Figures", Here: "Machine", Back: v.base() + "/machine", Data: fv})
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
		return v.showFigures(spelling.Head(err.Error())+". Nothing was kept; give it in "+orPlain(d.Unit)+".", http.StatusUnprocessableEntity)
	}
	body := &machine.DatumSet{Datum: machine.Datum{ID: d.ID, Name: d.Name, Unit: d.Unit, Value: &value, Typed: v.typed("value"),
		From: provenanceTyped(v.typed("from")), Source: clip(v.typed("source"), 200)}}
	if _, err := v.record(body); err != nil {
		return err
	}
	return v.go303(v.base() + "/figures")
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
