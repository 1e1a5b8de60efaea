package web

import (
	"strconv"
	"strings"

	"matchmark/internal/bench"
	"matchmark/internal/finding/judge"
	"matchmark/internal/finding/sequence"
	"matchmark/internal/machine"
	"matchmark/internal/trade/spelling"
	"matchmark/internal/web/draw"
)

// panelView is the part chosen on the map, in short.
type panelView struct {
	Number, Name string
	Where        string
	Mark         mark
	Call, Word   string // the tag's cut, and its word
	CallWords    string
	Fits         []panelFit
	More         int // fits beyond those shown
	Waits        []waitRow
	WaitsMore    int
	Like         []pieceRow // the same part at its other places
	Do           link
	Label, Whole string
}

// panelFit is one fit in two lines.
type panelFit struct {
	Name, Value, Word string
	Window            *window
}

// Most lines of a sort that the panel shows; the part's own page has all.
const (
	mostFits  = 6
	mostWaits = 6
)

func panelOf(v *bench.View, base string, p *machine.Part, parts draw.Machine, at mapAddress) *panelView {
	pv := &panelView{Name: p.Name, Mark: stateOf(v, p, dueJoints(v)), Call: string(p.Call), Word: spelling.Head(string(p.Call)), CallWords: callWords(v, p),
		Whole: partAddress(base, p.ID), Label: base + "/labels?part=" + escape(string(p.ID)), Do: nextToDo(v, base, p)}
	pv.Mark.Word = lineWord(pv.Mark.Line)
	pv.Where = spelling.Head(trayWords(p.Tray)) + "." + photoWords(len(p.Photos))
	for _, it := range parts.Items {
		switch {
		case it.ID == string(p.ID):
			pv.Number = strconv.Itoa(it.Number)
		case it.Type == string(p.Type):
			pv.Like = append(pv.Like, pieceRow{Place: strings.TrimPrefix(it.Name, it.Kind+", "), At: at.part(it.ID), Words: lineWord(it.State)})
		}
	}
	for _, c := range checksOf(v.Machine, p) {
		if len(pv.Fits) == mostFits {
			pv.More++
			continue
		}
		row := fitOf(v, base, v.Judged().Of(c.ID))
		pv.Fits = append(pv.Fits, panelFit{row.Name, row.Value, row.Word, row.Window})
	}
	pv.Waits = waitsOn(v, base, p)
	if n := len(pv.Waits); n > mostWaits {
		pv.Waits, pv.WaitsMore = pv.Waits[:mostWaits], n-mostWaits
	}
	return pv
}

func photoWords(n int) string {
	if n == 0 {
		return " No photo."
	}
	return " " + plural(n, "photo", "photos") + "."
}

// callWords is what was said with the call, or what is proposed.
func callWords(v *bench.View, p *machine.Part) string {
	if p.Call != machine.NotJudged {
		return p.CallWhy
	}
	call, why := proposalFor(v, p)
	if call == "" {
		return ""
	}
	return "Proposed: " + call + behind(". ", why)
}

// waitsOn lists what comes directly after the work on a part itself: its
// checks, its cleaning, its rework, its coming back.
func waitsOn(v *bench.View, base string, p *machine.Part) []waitRow {
	own := map[sequence.StepID]bool{}
	for _, s := range v.Plan().Order {
		if s.Part == p || s.Check != nil && looksAt(s.Check, p) || p.Away != "" && s.ID == sequence.CollectID(p.Away) {
			own[s.ID] = true
		}
	}
	after := map[sequence.StepID]bool{}
	for _, s := range v.Plan().Order {
		for _, id := range v.Plan().Waits(s.ID) {
			if own[id] && !own[s.ID] {
				after[s.ID] = true
			}
		}
	}
	var out []waitRow
	for _, s := range v.Plan().Order {
		if after[s.ID] {
			out = append(out, waitRow{s.Name, stepAddress(base, s)})
		}
	}
	return out
}

// nextToDo is the one thing to do with a part: take it off, read the next of
// its checks, or see all of it.
func nextToDo(v *bench.View, base string, p *machine.Part) link {
	if stateOf(v, p, nil).Line == "on" {
		return link{"Photo and one line", base + "/photo?part=" + escape(string(p.ID))}
	}
	for _, c := range checksOf(v.Machine, p) {
		f := v.Judged().Of(c.ID)
		if c.When == machine.Running || f == nil || f.Verdict != judge.NotRead {
			continue
		}
		if to := measureLinks(base, c); len(to) > 0 {
			word := "Read "
			if byWord(c) {
				word = "Look at "
			}
			return link{word + spelling.Inside(plainName(c.Name, c.Place)), to[0].At}
		}
	}
	return link{"All about it", partAddress(base, p.ID)}
}
