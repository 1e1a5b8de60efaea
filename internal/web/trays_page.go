package web

import (
	"fmt"
	"net/http"
	"strings"

	"matchmark/internal/bench"
	"matchmark/internal/machine"
	"matchmark/internal/trade/spelling"
	"matchmark/internal/trade/traymark"
)

// traysView lists what lies where.
type traysView struct {
	Base   string
	Ask    string
	Near   []link    // trays that may have been meant
	Found  []partRow // parts that answer to what was asked
	Words  string    // how much is off, and where
	Trays  []trayRow
	Places []trayRow // stands, shelves, the floor
	Loose  []partRow // off, and nobody said where
	Away   []orderRow
}

// trayRow is one tray at a glance.
type trayRow struct {
	Mark, Name, At string
	Counts         string // "8 parts, 12 fasteners"
	Inside         string // the first names in it
	States         []string
	Photo          *photoRow // the latest of the tray
}

type orderRow struct{ What, Words, ID string }

// mostNames of a tray are listed at a glance.
const mostNames = 4

// traysPage lists the trays. What is asked for in its one field is a tray's
// mark, and leads there, or else a part's name.
func traysPage(v *visit) error {
	ask := clip(v.asked("tray"), 60)
	if t := trayMeant(v.view.Machine, ask); t != nil && ask != "" {
		return v.go303(trayAddress(v.base(), t.Mark))
	}
	return v.show("trays", http.StatusOK, frame{Title: "Trays", Here: "Trays", Data: viewTrays(v.view, v.base(), ask)})
}

func viewTrays(v *bench.View, base, ask string) traysView {
	tv := traysView{Base: base, Ask: ask, Away: awayOf(v)}
	due, numbers := dueJoints(v), partNumbers(v.Machine)
	if ask != "" {
		tv.find(v, due, numbers)
		return tv
	}
	stood := 0
	for i := range v.Machine.Trays {
		t := &v.Machine.Trays[i]
		if t.Mark == machine.NoTray {
			for _, p := range t.Parts {
				tv.Loose = append(tv.Loose, rowOf(v, base, p, due, numbers))
			}
			continue
		}
		row := rowOfTray(v, base, t, due)
		if isPlace(t.Mark) {
			tv.Places = append(tv.Places, row)
			stood += len(t.Parts)
			continue
		}
		tv.Trays = append(tv.Trays, row)
	}
	tv.Words = tv.say(stood, v.Machine)
	return tv
}

// say counts what is off.
func (tv *traysView) say(stood int, m *machine.Machine) string {
	off, away := 0, 0
	for _, p := range m.Parts {
		if p.Away != "" {
			away++
		} else if p.Tray != "" {
			off++
		}
	}
	if off+away == 0 {
		return ""
	}
	words := []string{plural(off, "part", "parts") + " off"}
	if n := len(tv.Trays); n > 0 {
		words = append(words, plural(n, "tray", "trays"))
	}
	if stood > 0 {
		words = append(words, plural(stood, "part stands", "parts stand")+" elsewhere")
	}
	if n := len(tv.Loose); n > 0 {
		words = append(words, fmt.Sprintf("%d lie in no tray that was named", n))
	}
	if away > 0 {
		words = append(words, plural(away, "part is away", "parts are away"))
	}
	return strings.Join(words, ", ") + "."
}

// find looks for parts by name where no tray answers, and for trays whose mark
// differs by a slip.
func (tv *traysView) find(v *bench.View, due map[machine.JointID]bool, numbers map[machine.PartID]string) {
	var marks []string
	for _, t := range v.Machine.Trays {
		marks = append(marks, t.Mark)
	}
	for _, m := range traymark.Near(strings.TrimPrefix(strings.ToLower(tv.Ask), "tray "), marks) {
		tv.Near = append(tv.Near, link{spelling.Head(trayWords(m)), trayAddress(tv.Base, m)})
	}
	for _, p := range v.Machine.Parts {
		if contains(p.Name, tv.Ask) && len(tv.Found) < most {
			tv.Found = append(tv.Found, rowOf(v, tv.Base, p, due, numbers))
		}
	}
}

// rowOf is a part in a list, with its state and where it lies.
func rowOf(v *bench.View, base string, p *machine.Part, due map[machine.JointID]bool, numbers map[machine.PartID]string) partRow {
	return partRow{Number: numbers[p.ID], Name: p.Name, At: partAddress(base, p.ID), Qty: p.Qty, Mark: stateOf(v, p, due), Call: callWord(p)}
}

func rowOfTray(v *bench.View, base string, t *machine.Tray, due map[machine.JointID]bool) trayRow {
	row := trayRow{Mark: t.Mark, Name: trayName(v.Machine, t), At: trayAddress(base, t.Mark), Counts: countsOf(t), States: statesIn(v, t, due)}
	var names []string
	for _, p := range t.Parts {
		names = append(names, spelling.Inside(p.Name))
	}
	if n := len(names); n > mostNames {
		names = append(names[:mostNames], fmt.Sprintf("and %d more", n-mostNames))
	}
	row.Inside = spelling.Head(strings.Join(names, "; "))
	if photos := photosOf(v.Machine, base, trayPhotos(v.Machine, t.Mark)); len(photos) > 0 {
		row.Photo = &photos[len(photos)-1]
	}
	return row
}

// statesIn counts what is not done yet about the parts of a tray.
func statesIn(v *bench.View, t *machine.Tray, due map[machine.JointID]bool) []string {
	held, dirty, away := 0, 0, 0
	for _, p := range t.Parts {
		if p.Away != "" {
			away++
			continue
		}
		if stateOf(v, p, due).Line == "held" {
			held++
		}
		if len(p.Cleaned) == 0 {
			dirty++
		}
	}
	var out []string
	for _, s := range []struct {
		n    int
		word string
	}{{away, "away"}, {held, "held"}, {dirty, "to clean"}} {
		if s.n > 0 {
			out = append(out, fmt.Sprintf("%d %s", s.n, s.word))
		}
	}
	return out
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
