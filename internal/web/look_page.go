package web

import (
	"net/http"
	"slices"

	"matchmark/internal/finding/judge"
	"matchmark/internal/finding/sequence"
	"matchmark/internal/machine"
	"matchmark/internal/trade/spelling"
)

// lookView is a check answered by eye, at all its places.
type lookView struct {
	Base, At string
	How      string
	Sound    string // what sound looks like
	Worn     string
	From     string
	Care     []careRow
	Places   []lookPlace
	Fault    string
	Worked   *workedView
}

type lookPlace struct {
	ID, Name string
	Answer   string // latest words; empty while not answered
	Word     string
	Undo     string
	Words    string // typed, shown again
}

// lookTyped is what came with a refused answer.
type lookTyped struct{ Check, Words, Fault string }

// looksOf lists the instances of a check answered by eye.
func looksOf(m *machine.Machine, what string) []*machine.Check {
	var out []*machine.Check
	for _, c := range m.Checks {
		if byWord(c) && (string(c.Type) == what || string(c.ID) == what) {
			out = append(out, c)
		}
	}
	return out
}

func lookPage(v *visit, what string, typed lookTyped, status int) error {
	list := looksOf(v.view.Machine, what)
	if len(list) == 0 {
		return missing("the check", what)
	}
	first := list[0]
	lv := lookView{Base: v.base(), At: runAddress(v.base(), "look", what), How: spelling.Head(first.How), Care: careFor(first.Hazards, sequence.Check), Fault: typed.Fault}
	lv.Worked = workedOf(v.view.Reckoner(), lv.Base, first.Reckon)
	lv.From = provenance(v.view.Judged().Of(first.ID).Limit)
	if len(first.Limits) > 0 {
		lv.Sound, lv.Worn = first.Limits[0].NewWords, first.Limits[0].WornWords
	}
	for _, c := range list {
		p := lookPlace{ID: string(c.ID), Name: spelling.Head(placeWord(c.Name, c.Place)), Word: spelling.Head(string(judge.NotRead))}
		if f := v.view.Judged().Of(c.ID); f != nil {
			p.Word = spelling.Head(string(f.Verdict))
		}
		if l := c.Look(); l != nil {
			p.Answer, p.Undo = spelling.Head(lookWord(l.OK))+behind(": ", l.Words), string(l.Entry)
		}
		if typed.Check == p.ID {
			p.Words = typed.Words
		}
		lv.Places = append(lv.Places, p)
	}
	return v.show("look", status, frame{Title: plainName(first.Name, first.Place), Here: "Bench", Back: v.base(), Data: lv})
}

// lookPost keeps the answer to one place.
func lookPost(v *visit, what string) error {
	list := looksOf(v.view.Machine, what)
	i := slices.IndexFunc(list, func(c *machine.Check) bool { return string(c.ID) == v.typed("check") })
	if i < 0 {
		return missing("the check", v.typed("check"))
	}
	answer := v.typed("answer")
	if answer != "sound" && answer != "not" {
		return lookPage(v, what, lookTyped{v.typed("check"), v.typed("words"),
			"No answer was chosen, so nothing was kept. Press Sound or Not sound."}, http.StatusUnprocessableEntity)
	}
	body := &machine.LookTaken{Check: list[i].ID, OK: answer == "sound", Words: v.typed("words")}
	if _, err := v.record(body); err != nil {
		return err
	}
	return v.go303(runAddress(v.base(), "look", what))
}
