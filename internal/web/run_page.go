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
	return v.showRun(r, rv, http.StatusOK)
}

func (v *visit) showRun(r run, rv runView, status int) error {
	script, err := v.assets.address("run.js")
	if err != nil {
		return err
	}
	return v.show("run", status, frame{Title: r.Name, Here: "Bench", Back: v.base(), Run: true, Scripts: []string{script}, Data: rv})
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
	typed := bench.Typed{Text: v.typed("reading"), Tool: v.typed("tool"), Temp: v.typed("temp"), Note: v.typed("note"),
		Sure: v.typed("sure") != "", Level: p.Level, Axis: p.Axis, Unworn: p.Unworn}
	if p.Check != nil {
		typed.Check = p.Check.ID
	} else {
		typed.Feature = p.Feature.ID
	}
	reading, err := v.view.Reading(typed)
	if err == nil {
		reading.Seen = v.seenAt(p)
		_, err = v.record(reading)
	}
	var bad *bench.InputError
	if errors.As(err, &bad) {
		rv := viewRun(v.view, v.base(), r, p.Key(), "")
		rv.Typed, rv.Temp, rv.Note, rv.TypedTool = typed.Text, typed.Temp, typed.Note, typed.Tool
		rv.Fault, rv.Doubt = spelling.Head(bad.Say)+".", bad.Doubt
		for i := range rv.Tools {
			rv.Tools[i].Chosen = rv.Tools[i].Value == typed.Tool
		}
		return v.showRun(r, rv, http.StatusUnprocessableEntity)
	}
	if err != nil {
		return err
	}
	return v.go303(runAddress(v.base(), sort, what) + "?after=" + url.QueryEscape(p.Key()))
}

// withdrawPost takes entries back. The record of them stays in the book.
func withdrawPost(v *visit) error {
	var bodies []machine.Body
	for _, id := range v.r.PostForm["entry"] {
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
