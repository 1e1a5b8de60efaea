package web

import (
	"net/http"

	"matchmark/internal/bench"
	"matchmark/internal/machine"
	"matchmark/internal/trade/spelling"
)

// traysView lists what lies where.
type traysView struct {
	Base  string
	Ask   string
	Trays []trayRow
	Away  []orderRow
}

type trayRow struct {
	Mark, Name string
	Parts      []partRow
	Fasteners  []trayLine
}

type trayLine struct {
	From, At string
	Sets     []string
	Shims    []string
}

type orderRow struct{ What, Words, ID string }

func traysPage(v *visit) error {
	return v.show("trays", http.StatusOK, frame{Title: "Trays", Here: "Trays", Data: viewTrays(v.view, v.base(), v.asked("tray"))})
}

// viewTrays lists every tray, or the one asked for.
func viewTrays(v *bench.View, base, mark string) traysView {
	tv := traysView{Base: base, Ask: mark}
	due, numbers := dueJoints(v), partNumbers(v.Machine)
	for _, t := range v.Machine.Trays {
		if mark != "" && t.Mark != mark {
			continue
		}
		row := trayRow{Mark: t.Mark, Name: spelling.Head(trayWords(t.Mark))}
		for _, p := range t.Parts {
			mark := stateOf(v, p, due)
			mark.Word = cleanWord(p)
			row.Parts = append(row.Parts, partRow{Number: numbers[p.ID], Name: p.Name, At: partAddress(base, p.ID), Qty: p.Qty, Mark: mark, Call: callWord(p)})
		}
		for _, f := range t.Fasteners {
			line := trayLine{From: f.Joint.Name, At: jointAddress(base, f.Joint.ID)}
			for _, s := range f.Sets {
				line.Sets = append(line.Sets, fastenerWords(s))
			}
			for _, s := range f.Shims {
				line.Shims = append(line.Shims, shimWords(s))
			}
			row.Fasteners = append(row.Fasteners, line)
		}
		tv.Trays = append(tv.Trays, row)
	}
	tv.Away = awayOf(v)
	return tv
}

func cleanWord(p *machine.Part) string {
	if len(p.Cleaned) == 0 {
		return "to clean"
	}
	return "clean"
}

// callWord is the restorer's word, empty while there is none.
func callWord(p *machine.Part) string {
	if p.Call == machine.NotJudged {
		return ""
	}
	return string(p.Call)
}

// awayOf lists orders not yet arrived, with the date last promised.
func awayOf(v *bench.View) []orderRow {
	var out []orderRow
	for _, o := range v.Machine.Orders {
		if o.Received != nil {
			continue
		}
		words := "ordered, not here"
		if o.Out {
			words = "sent out"
		}
		words += behind(", ", o.From)
		if due := o.DueBy(); due.IsZero() {
			words += ", no date given"
		} else {
			words += ", due " + due.Format("Mon 2 Jan")
			if due.Before(v.AsOf) {
				words += ", late"
			}
		}
		out = append(out, orderRow{spelling.Head(o.What), words, string(o.Order)})
	}
	return out
}
