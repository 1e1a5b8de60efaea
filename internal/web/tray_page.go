package web

import (
	"fmt"
	"net/http"
	"net/url"
	"slices"
	"time"

	"matchmark/internal/bench"
	"matchmark/internal/finding/sequence"
	"matchmark/internal/machine"
	"matchmark/internal/trade/spelling"
)

// trayView is one tray: what lies in it, and what goes out of it with which
// closing.
type trayView struct {
	Base, At string
	Mark     string
	Name     string // as it was named; the field's value
	Lead     string
	Dots     *dots
	Parts    []partRow
	Lines    []trayLine
	Photos   []photoRow
	Notes    []string
	Outs     []outRow
	Gone     string // of what once lay here
	Ask      string
	Found    []partRow
	FoundIDs []string
	Fault    string
	LabelAt  string
	Sum      string // of a photo that has arrived already
	Line     string
}

// outRow is a closing that takes something out of the tray.
type outRow struct {
	Name, At string
	Held     bool
	Takes    []string
}

func trayPage(v *visit) error {
	t, err := v.tray()
	if err != nil {
		return err
	}
	return v.showTray(v.viewTray(t), http.StatusOK)
}

// tray is the tray of the address: one that is there, or one that was used and
// has nothing in it now.
func (v *visit) tray() (*machine.Tray, error) {
	mark := v.r.PathValue("mark")
	m := v.view.Machine
	if t := trayMeant(m, mark); t != nil && mark != machine.NoTray {
		return t, nil
	}
	if m.UsedMarks()[mark] {
		return &machine.Tray{Mark: mark}, nil
	}
	return nil, plight{http.StatusNotFound, "There is no tray “" + clip(mark, 60) + "” on this machine", "Nothing was changed. Find it on the Trays page, by its mark or by a part that lies in it."}
}

func (v *visit) showTray(tv trayView, status int) error {
	return v.show("tray", status, frame{Title: spelling.Head(trayWords(tv.Mark)), Here: "Trays", Back: v.base() + "/trays", Data: tv})
}

func (v *visit) viewTray(t *machine.Tray) trayView {
	m, base := v.view.Machine, v.base()
	tv := trayView{Base: base, At: trayAddress(base, t.Mark), Mark: t.Mark, Name: t.Name, Lines: trayLines(base, t), Photos: photosOf(m, base, trayPhotos(m, t.Mark)),
		Notes: notesOn(m, machine.RefTray(t.Mark)), Ask: clip(v.asked("find"), 80), LabelAt: base + "/labels?what=chosen&tray=" + url.QueryEscape(t.Mark)}
	due, numbers := dueJoints(v.view), partNumbers(m)
	for _, p := range t.Parts {
		row := rowOf(v.view, base, p, due, numbers)
		row.Mark.Word = stateHere(v.view, p, due)
		tv.Parts = append(tv.Parts, row)
	}
	tv.Lead = "Nothing lies here."
	if counts := countsOf(t); counts != "" {
		tv.Lead = trayName(m, t) + ": " + counts + "."
	}
	if n := len(wasIn(m, t.Mark)); n > len(t.Parts) {
		tv.Gone = fmt.Sprintf("Of %s that lay here, %d went back on the machine or elsewhere.", plural(n, "part", "parts"), n-len(t.Parts))
	}
	tv.Outs = outsOf(v.view, base, t)
	tv.search(v.view, due, numbers, t)
	return tv
}

// stateHere is a part's state without the tray it lies in, which the page says
// once, and whether it is clean.
func stateHere(v *bench.View, p *machine.Part, due map[machine.JointID]bool) string {
	clean := "to clean"
	if len(p.Cleaned) > 0 {
		clean = "clean"
	}
	switch s := stateOf(v, p, due); s.Line {
	case "held", "judged":
		return s.Line + ", " + clean
	case "away":
		return s.Word
	}
	return clean
}

// outsOf lists the closings that take something out of a tray, in the order of
// the plan; a part that several joints hold goes with the first of them.
func outsOf(v *bench.View, base string, t *machine.Tray) []outRow {
	held := heldJoints(v)
	taken := map[*machine.Part]bool{}
	var out []outRow
	for _, j := range closingOrder(v) {
		row := outRow{Name: j.Name, At: closeAddress(base, j.ID), Held: held[j.ID]}
		for _, p := range t.Parts {
			if slices.Contains(j.Parts, p) && !taken[p] {
				taken[p] = true
				row.Takes = append(row.Takes, pieces(p))
			}
		}
		for _, f := range t.Fasteners {
			if f.Joint == j {
				row.Takes = append(row.Takes, setWords(f)...)
			}
		}
		if len(row.Takes) > 0 {
			out = append(out, row)
		}
	}
	return out
}

// closingOrder lists the open joints, first those the plan has, in its order.
func closingOrder(v *bench.View) []*machine.Joint {
	var out []*machine.Joint
	for _, s := range v.Plan().Order {
		if s.Act == sequence.Close && s.Joint != nil && !slices.Contains(out, s.Joint) {
			out = append(out, s.Joint)
		}
	}
	for _, j := range v.Machine.Joints {
		if j.State == machine.Open && !slices.Contains(out, j) {
			out = append(out, j)
		}
	}
	return out
}

// search lists parts that may be laid into the tray.
func (tv *trayView) search(v *bench.View, due map[machine.JointID]bool, numbers map[machine.PartID]string, t *machine.Tray) {
	if tv.Ask == "" {
		return
	}
	for _, p := range v.Machine.Parts {
		if contains(p.Name, tv.Ask) && p.Tray != t.Mark && len(tv.Found) < 20 {
			tv.Found = append(tv.Found, rowOf(v, tv.Base, p, due, numbers))
			tv.FoundIDs = append(tv.FoundIDs, string(p.ID))
		}
	}
}

// trayPost lays a part into the tray, names the tray, or keeps a photo of it.
func trayPost(v *visit) error {
	t, err := v.tray()
	if err != nil {
		return err
	}
	pv := photoView{Sum: v.typed("sum")}
	taken, fault, err := v.keepPhoto(&pv)
	if err != nil {
		return err
	}
	var body machine.Body
	if fault == "" {
		body, fault = trayFact(v, t, pv.Sum, taken)
	}
	if fault != "" {
		tv := v.viewTray(t)
		tv.Fault, tv.Sum, tv.Line = fault, pv.Sum, clip(v.typed("line"), 400)
		if v.typed("do") == "name" {
			tv.Name = clip(v.typed("name"), 80)
		}
		return v.showTray(tv, http.StatusUnprocessableEntity)
	}
	if _, err := v.record(body); err != nil {
		return err
	}
	return v.go303(trayAddress(v.base(), t.Mark))
}

func trayFact(v *visit, t *machine.Tray, sum string, taken time.Time) (machine.Body, string) {
	switch v.typed("do") {
	case "photo":
		if sum == "" {
			return nil, "There was no photo, so nothing was kept. Take one, or choose one from the roll."
		}
		return &machine.PhotoAdded{Of: machine.RefTray(t.Mark), Sum: machine.Sum(sum), Type: "image/jpeg", Caption: clip(v.typed("line"), 400), TakenAt: taken}, ""
	case "lay":
		p := v.view.Machine.Part(machine.PartID(v.typed("part")))
		if p == nil {
			return nil, "No part was chosen, so nothing was kept. Find the part, then lay it here."
		}
		return &machine.PartMoved{Part: p.ID, Tray: t.Mark}, ""
	case "name":
		name := clip(v.typed("name"), 80)
		if name == "" {
			return nil, "No name was given, so nothing was kept. Say in a word or two what lies here."
		}
		return &machine.TrayMade{Mark: t.Mark, Name: name}, ""
	}
	return nil, "The page did not say what to keep, so nothing was kept. Use one of the buttons."
}

// shortPage is where the code on a label leads: to a tray by its mark, or to a
// part or joint by its kind and id.
func shortPage(v *visit) error {
	m, base, what := v.view.Machine, v.base(), v.r.PathValue("mark")
	ref := machine.Ref(what)
	switch {
	case trayMeant(m, what) != nil:
		return v.go303(trayAddress(base, trayMeant(m, what).Mark))
	case m.UsedMarks()[what]:
		return v.go303(trayAddress(base, what))
	case ref.Kind() == "part" && m.Part(machine.PartID(ref.ID())) != nil:
		return v.go303(partAddress(base, machine.PartID(ref.ID())))
	case ref.Kind() == "joint" && m.Joint(machine.JointID(ref.ID())) != nil:
		return v.go303(jointAddress(base, machine.JointID(ref.ID())))
	}
	return v.go303(base + "/trays?tray=" + url.QueryEscape(what))
}
