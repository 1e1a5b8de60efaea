package web

import (
	"slices"
	"strconv"
	"strings"

	"matchmark/internal/finding/heard"
	"matchmark/internal/finding/sequence"
	"matchmark/internal/machine"
	"matchmark/internal/trade/spelling"
)

// longestLine is how many letters of a line are kept.
const longestLine = 400

// heardView is what was understood of a line, to be kept or corrected.
type heardView struct {
	Line                  string
	Joint                 *pick  // that it is about; nil where the line names none clearly
	At                    string // address of the joint
	Told                  bool   // the person named it
	Since                 string // when it was opened, where it is open already
	Where                 string // assembly of the joint
	Gist                  []gist
	Echo                  []echo
	Left                  []string // not understood
	Others                []pick   // that may be meant
	Wanted                []wanted // evidence that undoing destroys and nobody took yet
	Asked                 bool     // the person has seen to the evidence
	Care                  []careRow
	Parts                 []option // that may have come off
	Ways                  []option // what was in the way
	Sets                  []setRow // fasteners
	Shims                 []setRow
	Plan                  string // usual fasteners, as a reminder
	PlanFor               string // usual shims
	Tray, Mark, Breakaway string
	heard                 heard.Heard
}

// gist is one thing understood, in trade words.
type gist struct{ Text, Doubt string }

// echo is a run of the line: named, understood, left over, or between.
type echo struct{ Text, Class string }

// wanted is one thing to look at before a joint is undone.
type wanted struct {
	N           int
	What, Typed string
}

// hear reads a line; about is the joint that the person named, or nil.
func (v *visit) hear(line string, about *machine.Joint) heardView {
	hv := heardView{Line: line, Told: about != nil}
	if about != nil {
		hv.heard = v.view.Ear().HearOf(line, about)
	} else {
		hv.heard = v.view.Ear().Hear(line)
	}
	for _, f := range hv.heard.Facts {
		hv.Gist = append(hv.Gist, gist{f.Text, f.Doubt})
	}
	for _, p := range hv.heard.Pieces {
		hv.Echo = append(hv.Echo, echo{line[p.From:p.To], echoClass[p.Sort]})
	}
	hv.Left = hv.heard.Unheard()
	j := hv.heard.Joint()
	for _, c := range hv.heard.Joints {
		if c.Joint != j && len(hv.Others) < 5 {
			hv.Others = append(hv.Others, pickOf(c.Joint))
		}
	}
	if j != nil {
		hv.about(v, j)
	}
	return hv
}

// echoClass is how a run of the line is drawn; what is understood of it all is
// a line under it.
var echoClass = map[heard.Sort]string{heard.Left: "lost", heard.Between: "", heard.Name: "got", heard.Fasteners: "got", heard.Shims: "got",
	heard.Tray: "got", heard.Mark: "got", heard.LetGo: "got", heard.Way: "got"}

// about says what belongs to the joint meant.
func (hv *heardView) about(v *visit, j *machine.Joint) {
	p := pickOf(j)
	hv.Joint, hv.At = &p, jointAddress(v.base(), j.ID)
	for _, a := range v.view.Machine.Assemblies {
		if a.ID == j.Assembly {
			hv.Where = a.Name
		}
	}
	hv.Plan, hv.PlanFor = j.Plan.Fasteners, j.Plan.Shims
	if j.State == machine.Open {
		hv.Since = lately(j.Removals[len(j.Removals)-1].At, v.view.AsOf)
		return
	}
	hv.Care = careOfJoint(v.view, j, sequence.Open)
	for i, what := range j.AsFound {
		if !slices.ContainsFunc(j.Evidence, func(r machine.AsFoundRecord) bool { return strings.EqualFold(r.What, what) }) {
			hv.Wanted = append(hv.Wanted, wanted{N: i, What: what, Typed: v.found(j, i)})
		}
	}
}

// found is what was typed for the nth thing to look at before a joint is
// undone. What was typed of another joint is not of this one.
func (v *visit) found(j *machine.Joint, n int) string {
	if v.typed("joint") != string(j.ID) {
		return ""
	}
	return clip(v.typed("found-"+strconv.Itoa(n)), 400)
}

// fill puts what was understood into the fields of the form.
func (hv *heardView) fill(v *visit) {
	h := hv.heard
	hv.Tray, hv.Mark = h.Tray, h.MatchMark
	if h.LetGo != nil {
		hv.Breakaway = h.LetGo.Typed
	}
	hv.Sets, hv.Shims = v.setRows("set", max(setLines, len(h.Fasteners)+1)), v.setRows("shim", max(shimLines, len(h.Shims)+1))
	for i, f := range h.Fasteners {
		hv.Sets[i] = hv.Sets[i].with(strconv.Itoa(f.Count), f.Size, f.Where, f.State)
	}
	for i, s := range h.Shims {
		hv.Shims[i] = hv.Shims[i].with(strconv.Itoa(s.Count), s.Typed, s.Where, "")
	}
	hv.ticks(v, func(id machine.PartID) bool {
		return slices.ContainsFunc(h.Off, func(p *machine.Part) bool { return p.ID == id })
	}, func(machine.JointID) bool { return true })
}

// ticks lists the parts that may have come off and what may have been in the
// way.
func (hv *heardView) ticks(v *visit, off func(machine.PartID) bool, way func(machine.JointID) bool) {
	hv.Parts, hv.Ways = nil, nil
	if hv.Joint == nil {
		return
	}
	j := v.view.Machine.Joint(machine.JointID(hv.Joint.ID))
	for _, p := range j.Parts {
		hv.Parts = append(hv.Parts, option{string(p.ID), p.Name, off(p.ID)})
		if off(p.ID) && hv.Since == "" {
			hv.Gist = append(hv.Gist, gist{Text: "off: " + spelling.Inside(p.Name)})
		}
	}
	for _, w := range hv.heard.Way {
		if w != j {
			hv.Ways = append(hv.Ways, option{string(w.ID), w.Name, way(w.ID)})
		}
	}
}
