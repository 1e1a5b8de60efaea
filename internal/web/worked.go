package web

import (
	"slices"

	"matchmark/internal/finding/reckoned"
	"matchmark/internal/machine"
	"matchmark/internal/trade/spelling"
)

// workedView is what the trade's arithmetic says at a joint, check or test.
type workedView struct {
	Done    []workedRow
	Wanting []wantingRow
	Figures string // where figures of the machine are entered
}

// workedRow is one answer: a few lines to read, the rest folded away.
type workedRow struct {
	Title, Source, Sure string
	Lines, More, From   []fact
	Take                []string // cautions
	Doubts, Working     []string
}

// wantingRow is a sum that lacks something, or was refused.
type wantingRow struct {
	Title string
	Wants []string
}

// plainLines are the lines of an answer that stand open.
const plainLines = 4

// workedOf lays out what some lists ask for; nil where they ask for nothing.
func workedOf(d *reckoned.Desk, base string, lists ...[]machine.Reckoning) *workedView {
	wv := &workedView{Figures: base + "/figures"}
	for _, w := range d.Of(slices.Concat(lists...)) {
		if !w.Answered() {
			row := wantingRow{Title: w.Title, Wants: sentences(w.Missing)}
			if w.Err != nil {
				row.Wants = append(row.Wants, spelling.Head(w.Err.Error()))
			}
			wv.Wanting = append(wv.Wanting, row)
			continue
		}
		wv.Done = append(wv.Done, workedLine(w))
	}
	if len(wv.Done)+len(wv.Wanting) == 0 {
		return nil
	}
	return wv
}

func workedLine(w reckoned.Worked) workedRow {
	row := workedRow{Title: w.Title, Source: spelling.Head(w.Answer.Source), Sure: spelling.Head(w.Answer.Sure), Take: sentences(w.Answer.Cautions),
		Doubts: append(sentences(w.Answer.Marked), sentences(w.Without)...), Working: w.Answer.Working}
	for i, l := range w.Answer.Lines {
		f := fact{Name: spelling.Head(l.Name), Text: l.String() + behind("; ", l.Basis)}
		if i < plainLines {
			row.Lines = append(row.Lines, f)
		} else {
			row.More = append(row.More, f)
		}
	}
	for _, f := range w.Filled {
		row.From = append(row.From, fact{Name: spelling.Head(f.Ask), Text: f.Typed + ": " + f.From})
	}
	return row
}

func sentences(list []string) []string {
	var out []string
	for _, s := range list {
		out = append(out, spelling.Head(s))
	}
	return out
}
