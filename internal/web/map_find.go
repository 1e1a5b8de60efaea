package web

import (
	"net/url"
	"strconv"
	"strings"

	"matchmark/internal/bench"
	"matchmark/internal/machine"
	"matchmark/internal/trade/spelling"
)

// foundView is what a search of the machine found.
type foundView struct {
	Words  string
	Trays  []link
	Parts  []partRow
	Joints []jointRow
	More   int // found beyond those shown
}

// most is how many finds of a sort one page lists.
const most = 60

// find looks for parts, trays and joints by name or number.
func find(v *bench.View, base, ask string) *foundView {
	f := &foundView{Words: clip(ask, 40)}
	due, held := dueJoints(v), heldJoints(v)
	at := mapAddress{base: base}
	for _, t := range v.Machine.Trays {
		if isTray(t.Mark, ask) {
			f.Trays = append(f.Trays, link{spelling.Head(trayWords(t.Mark)), base + "/trays?tray=" + url.QueryEscape(t.Mark)})
		}
	}
	for i, p := range v.Machine.Parts {
		if !finds(p, ask, i+1) {
			continue
		}
		if len(f.Parts) >= most {
			f.More++
			continue
		}
		row := partRow{Number: strconv.Itoa(i + 1), Name: p.Name, At: at.part(string(p.ID)), Qty: p.Qty, Mark: stateOf(v, p, due)}
		if p.Call != machine.NotJudged {
			row.Call = string(p.Call)
		}
		f.Parts = append(f.Parts, row)
	}
	for _, j := range v.Machine.Joints {
		switch {
		case !contains(j.Name, ask):
		case len(f.Joints) >= most:
			f.More++
		default:
			f.Joints = append(f.Joints, jointRow{j.Name, jointAddress(base, j.ID), jointState(j), held[j.ID]})
		}
	}
	return f
}

// onlyFind is the address of what a search found, where it found one thing
// alone.
func onlyFind(v *bench.View, base, ask string) string {
	if ask == "" {
		return ""
	}
	f := find(v, base, ask)
	switch {
	case len(f.Parts)+len(f.Joints)+len(f.Trays) != 1:
		return ""
	case len(f.Parts) == 1:
		return f.Parts[0].At
	case len(f.Joints) == 1:
		return f.Joints[0].At
	}
	return f.Trays[0].At
}

// finds tells whether a part answers to a search: its name, tray or number.
func finds(p *machine.Part, ask string, number int) bool {
	return contains(p.Name, ask) || strconv.Itoa(number) == ask || p.Tray != "" && isTray(p.Tray, ask)
}

// isTray tells whether a search names a tray: "14", or "tray 14".
func isTray(mark, ask string) bool {
	ask = strings.ToLower(ask)
	name, _ := strings.CutPrefix(ask, "tray ")
	return strings.EqualFold(mark, ask) || strings.EqualFold(mark, name)
}
