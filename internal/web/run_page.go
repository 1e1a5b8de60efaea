package web

import (
	"errors"
	"net/http"
	"net/url"

	"matchmark/internal/bench"
	"matchmark/internal/machine"
	"matchmark/internal/trade/spelling"
)

// runPage shows a measuring run, or the question of a check answered by eye.
func runPage(v *visit) error {
	sort, what := v.r.PathValue("sort"), v.r.PathValue("what")
	if sort == "look" {
		return lookPage(v, what, lookTyped{}, http.StatusOK)
	}
	r, ok := findRun(v.view.Machine, sort, what)
	if !ok {
		return missing("the run", what)
	}
	rv := viewRun(v.view, v.base(), r, v.asked("at"), v.asked("after"))
	if err := v.equip(&rv, v.asked("key") != ""); err != nil {
		return err
	}
	return v.showRun(r, rv, http.StatusOK)
}

func (v *visit) showRun(r run, rv runView, status int) error {
	script, err := v.assets.address("run.js")
	if err != nil {
		return err
	}
	return v.show("run", status, frame{Title: r.Name, Sub: pointOf(rv), Here: "Bench", Back: v.base(), Run: true, Scripts: []string{script}, Data: rv})
}

// runPost keeps one reading and goes on to the next unread point. A reading
// that is refused or doubted is shown again as it was typed.
func runPost(v *visit) error {
	sort, what := v.r.PathValue("sort"), v.r.PathValue("what")
	if sort == "look" {
		return lookPost(v, what)
	}
	r, ok := findRun(v.view.Machine, sort, what)
	if !ok {
		return missing("the run", what)
	}
	i := r.find(v.typed("point"))
	if i < 0 {
		return plight{http.StatusUnprocessableEntity, "That point is not part of this run", "Nothing was kept. Open the run again and choose the point in the table."}
	}
	p := r.Points[i]
	typed, err := v.typedReading(p)
	if err != nil {
		return err
	}
	reading, err := v.view.Reading(typed)
	if err == nil {
		reading.Seen = v.seenAt(p)
		_, err = v.record(reading)
	}
	if bad := new(bench.InputError); errors.As(err, &bad) {
		return v.runAgain(r, p, typed, bad)
	}
	if err != nil {
		return err
	}
	next := runAddress(v.base(), sort, what) + "?after=" + url.QueryEscape(p.Key())
	if v.typed("key") != "" {
		next += "&key=in"
	}
	return v.go303(next)
}

// typedReading is what the form says, the text as it came.
func (v *visit) typedReading(p point) (bench.Typed, error) {
	typed := bench.Typed{Text: v.r.PostFormValue("reading"), Unit: v.typed("unit"), Tool: v.typed("tool"), Setting: v.typed("setting"),
		Temp: v.typed("temp"), Note: v.typed("note"), Sure: v.typed("sure") != "", Level: p.Level, Axis: p.Axis, Unworn: p.Unworn}
	switch answer := v.typed("answer"); answer {
	case "keep":
		typed.Sure = true
	case "in", "mm":
		typed.Unit = answer
	}
	if p.Check != nil {
		typed.Check = p.Check.ID
	} else {
		typed.Feature = p.Feature.ID
	}
	by := v.typed("by")
	if by == "" {
		return typed, nil
	}
	tool, err := v.shop.Tool(v.r.Context(), by)
	if err != nil {
		return typed, err
	}
	if tool == nil {
		return typed, plight{http.StatusUnprocessableEntity, "The tool that typed this is not on the shelf any more",
			"Nothing was kept of " + clip(typed.Text, 40) + ". Teach the tool again, or key the figure in."}
	}
	typed.Wedge = &tool.Profile
	return typed, nil
}

// runAgain shows a reading that was refused or is doubted, as it was typed.
func (v *visit) runAgain(r run, p point, typed bench.Typed, bad *bench.InputError) error {
	rv := viewRun(v.view, v.base(), r, p.Key(), "")
	if err := v.equip(&rv, v.typed("by") == ""); err != nil {
		return err
	}
	rv.Typed, rv.Temp, rv.Note = typed.Text, typed.Temp, typed.Note
	rv.Fault, rv.Doubt, rv.Fits = spelling.Head(bad.Say)+".", bad.Doubt, bad.Fits
	for i := range rv.Tools {
		rv.Tools[i].Chosen = rv.Tools[i].Value == typed.Tool
	}
	for i := range rv.Settings {
		rv.Settings[i].Chosen = rv.Settings[i].Value == typed.Setting
	}
	return v.showRun(r, rv, http.StatusUnprocessableEntity)
}

// withdrawPost takes entries back, named as entries or by the word of the
// record that brought one in: a page undoes a reading of its own before it
// knows the entry. The record of them stays in the book.
func withdrawPost(v *visit) error {
	ids := v.r.PostForm["entry"]
	if once := v.typed("record"); once != "" {
		id, err := v.bench.Said(v.r.Context(), once)
		if err != nil {
			return err
		}
		if id == "" {
			return plight{http.StatusUnprocessableEntity, "The reading to undo is not in the book", "Nothing was changed. It was refused, or it is still under way; look at the point in its table."}
		}
		ids = append(ids, string(id))
	}
	var bodies []machine.Body
	for _, id := range ids {
		if id != "" {
			bodies = append(bodies, &machine.EntryWithdrawn{Target: machine.EntryID(id), Why: v.typed("why")})
		}
	}
	if len(bodies) == 0 {
		return plight{http.StatusUnprocessableEntity, "No entry was named", "Nothing was changed. Choose the entry to withdraw."}
	}
	if _, err := v.record(bodies...); err != nil {
		return err
	}
	return v.go303(v.back(v.base()))
}
