package web

import (
	"errors"
	"fmt"
	"io"
	"net/http"
	"strconv"
	"time"

	"matchmark/internal/bench"
	"matchmark/internal/finding/sequence"
	"matchmark/internal/machine"
	"matchmark/internal/trade/spelling"
	"matchmark/internal/web/picture"
)

// photoView is "Photo and one line": what came off, in one form.
type photoView struct {
	Base                        string
	Joint                       *jointRow
	JointID                     string
	Part                        *link
	PartID                      string
	Wanted                      []string
	Care                        []careRow
	Parts                       []option // that may have come off
	Sets                        []setRow // fasteners
	Shims                       []setRow
	Suggest                     []jointRow
	Ask                         string
	Found                       []jointRow
	Trays                       []string
	Plan                        string // usual fasteners, as a reminder
	PlanShim                    string
	Sum                         string // of a photo that has arrived already
	Fault                       string
	Tray, Line, Mark, Breakaway string
}

// setRow is one line of fasteners or shims as typed.
type setRow struct {
	N                  int
	Count, Size, Where string
	State              string
	States             []option
}

// How many lines of fasteners and of shims a form has.
const (
	setLines  = 4
	shimLines = 3
)

func photoPage(v *visit) error {
	pv := photoView{Base: v.base(), Ask: v.asked("q")}
	if err := pv.aim(v, machine.JointID(v.asked("joint")), machine.PartID(v.asked("part"))); err != nil {
		return err
	}
	return v.showPhoto(pv, http.StatusOK)
}

func (v *visit) showPhoto(pv photoView, status int) error {
	title := "Photo and one line"
	if pv.Joint != nil {
		title = "Open " + spelling.Inside(pv.Joint.Name)
	} else if pv.Part != nil {
		title = pv.Part.Name
	}
	return v.show("photo", status, frame{Title: title, Here: "Photo", Back: v.base(), Data: pv})
}

// aim fills the form for the joint or the part it is about, or offers joints.
func (pv *photoView) aim(v *visit, joint machine.JointID, part machine.PartID) error {
	m := v.view.Machine
	switch {
	case joint != "":
		j := m.Joint(joint)
		if j == nil {
			return missing("the joint", string(joint))
		}
		pv.Joint, pv.JointID = &jointRow{Name: j.Name, At: jointAddress(pv.Base, j.ID), State: jointState(j)}, string(joint)
		pv.Wanted, pv.Care, pv.Plan, pv.PlanShim = j.AsFound, careOfJoint(v.view, j, sequence.Open), j.Plan.Fasteners, j.Plan.Shims
		for _, p := range j.Parts {
			pv.Parts = append(pv.Parts, option{Value: string(p.ID), Name: p.Name, Chosen: false})
		}
		pv.Sets, pv.Shims = v.setRows("set", setLines), v.setRows("shim", shimLines)
	case part != "":
		p := m.Part(part)
		if p == nil {
			return missing("the part", string(part))
		}
		pv.Part, pv.PartID = &link{p.Name, partAddress(pv.Base, p.ID)}, string(part)
	default:
		pv.offer(v)
	}
	for _, t := range m.Trays {
		pv.Trays = append(pv.Trays, t.Mark)
	}
	return nil
}

// offer lists joints that can be opened now, and those a search found.
func (pv *photoView) offer(v *visit) {
	for _, s := range v.view.Plan().Free {
		if s.Act == sequence.Open && s.Joint != nil && len(pv.Suggest) < 12 {
			pv.Suggest = append(pv.Suggest, jointRow{Name: s.Joint.Name, At: pv.Base + "/photo?joint=" + string(s.Joint.ID), State: jointState(s.Joint)})
		}
	}
	if pv.Ask == "" {
		return
	}
	for _, j := range v.view.Machine.Joints {
		if contains(j.Name, pv.Ask) && len(pv.Found) < most {
			pv.Found = append(pv.Found, jointRow{Name: j.Name, At: pv.Base + "/photo?joint=" + string(j.ID), State: jointState(j)})
		}
	}
}

// setRows gives the lines of a form, with what was typed in them.
func (v *visit) setRows(name string, n int) []setRow {
	rows := make([]setRow, n)
	for i := range rows {
		field := func(s string) string { return v.typed(fmt.Sprintf("%s-%s-%d", name, s, i)) }
		rows[i] = setRow{N: i, Count: field("count"), Size: field("size"), Where: field("where"), State: field("state")}
		for _, s := range []string{"", "broken", "missing", "stretched", "bent", "rounded"} {
			word := s
			if s == "" {
				word = "sound"
			}
			rows[i].States = append(rows[i].States, option{s, word, s == rows[i].State})
		}
	}
	return rows
}

// photoPost keeps the photo and what was said with it.
func photoPost(v *visit) error {
	pv := photoView{Base: v.base(), Tray: clip(v.typed("tray"), 60), Line: clip(v.typed("line"), 400), Mark: clip(v.typed("mark"), 60),
		Breakaway: v.typed("breakaway"), Sum: v.typed("sum")}
	if err := pv.aim(v, machine.JointID(v.typed("joint")), machine.PartID(v.typed("part"))); err != nil {
		return err
	}
	taken, fault, err := v.keepPhoto(&pv)
	if err != nil {
		return err
	}
	var bodies []machine.Body
	if fault == "" {
		bodies, fault = pv.facts(v, taken)
	}
	if fault != "" {
		pv.Fault = fault
		return v.showPhoto(pv, http.StatusUnprocessableEntity)
	}
	if _, err := v.record(bodies...); err != nil {
		return err
	}
	switch {
	case pv.Joint != nil:
		return v.go303(pv.Joint.At)
	case pv.Part != nil:
		return v.go303(pv.Part.At)
	}
	return v.go303(v.base())
}

// keepPhoto stores the photo that came with the form, if one did. A photo of
// an earlier try is named by its sum.
func (v *visit) keepPhoto(pv *photoView) (time.Time, string, error) {
	file, _, err := v.r.FormFile("photo")
	if errors.Is(err, http.ErrMissingFile) || errors.Is(err, http.ErrNotMultipart) {
		if pv.Sum != "" {
			if _, _, err := v.shop.Log().Blob(v.r.Context(), machine.Sum(pv.Sum)); err != nil {
				pv.Sum = ""
				return time.Time{}, "The photo of the first try is not here any more. Choose it again; nothing else was lost.", nil
			}
		}
		return time.Time{}, "", nil
	}
	if err != nil {
		return time.Time{}, "The photo did not arrive whole. What was typed is still here; choose the photo again.", nil
	}
	defer file.Close()
	data, err := io.ReadAll(io.LimitReader(file, maxPhoto+1))
	if err != nil {
		return time.Time{}, "The photo did not arrive whole. What was typed is still here; choose the photo again.", nil
	}
	if len(data) == 0 {
		return time.Time{}, "", nil
	}
	if len(data) > maxPhoto {
		return time.Time{}, "That photo is larger than 20 MB. What was typed is still here; send a smaller photo.", nil
	}
	kept, err := picture.Keep(data)
	if err != nil {
		return time.Time{}, spelling.Head(err.Error()) + ". What was typed is still here.", nil
	}
	sum, err := v.shop.Log().PutBlob(v.r.Context(), kept.Data, kept.Type)
	if err != nil {
		return time.Time{}, "", err
	}
	pv.Sum = string(sum)
	return kept.TakenAt, "", nil
}

// facts turns the form into what is recorded.
func (pv *photoView) facts(v *visit, taken time.Time) ([]machine.Body, string) {
	if pv.Joint != nil {
		return pv.removal(v)
	}
	ref := machine.Ref("")
	if pv.PartID != "" {
		ref = machine.RefPart(machine.PartID(pv.PartID))
	} else if pv.Tray != "" {
		ref = machine.RefTray(pv.Tray)
	}
	switch {
	case pv.Sum != "":
		return []machine.Body{&machine.PhotoAdded{Of: ref, Sum: machine.Sum(pv.Sum), Type: "image/jpeg", Caption: pv.Line, TakenAt: taken}}, ""
	case pv.Line != "":
		return []machine.Body{&machine.Noted{Of: ref, Text: pv.Line}}, ""
	}
	return nil, "There was neither a photo nor a line, so nothing was kept. Give one of them."
}

// removal is the opening of a joint with all that came with it.
func (pv *photoView) removal(v *visit) ([]machine.Body, string) {
	j := v.view.Machine.Joint(machine.JointID(pv.JointID))
	body := &machine.JointOpened{Joint: j.ID, Tray: pv.Tray, MatchMark: pv.Mark, Note: pv.Line}
	if pv.Sum != "" {
		body.Photos = []machine.Sum{machine.Sum(pv.Sum)}
	}
	off := map[string]bool{}
	for _, id := range v.r.PostForm["off"] {
		off[id] = true
	}
	for i, p := range j.Parts {
		if off[string(p.ID)] {
			body.Off = append(body.Off, p.ID)
			pv.Parts[i].Chosen = true
		}
	}
	var fault string
	if body.Fasteners, fault = fastenersTyped(pv.Sets); fault != "" {
		return nil, fault
	}
	if body.Shims, fault = shimsTyped(pv.Shims); fault != "" {
		return nil, fault
	}
	if pv.Breakaway != "" {
		a, err := bench.Amount(pv.Breakaway, "N·m")
		if err != nil {
			return nil, spelling.Head(err.Error()) + ". Nothing was kept yet; correct the torque it let go at."
		}
		body.Breakaway = &a
	}
	if j.State == machine.Open && !v.kept(body) {
		return nil, j.Name + " is open already. Nothing was kept; look at what was recorded, or withdraw that first."
	}
	return []machine.Body{body}, ""
}

// fastenersTyped reads the lines of fasteners; an empty line is none.
func fastenersTyped(rows []setRow) ([]machine.Fastener, string) {
	var out []machine.Fastener
	for _, r := range rows {
		if r.Count == "" && r.Size == "" {
			continue
		}
		n, err := strconv.Atoi(r.Count)
		if err != nil || n < 1 || n > 999 {
			return nil, fmt.Sprintf("“%s” is no count of fasteners. Nothing was kept yet; give how many of %s.", clip(r.Count, 20), clip(r.Size, 40))
		}
		if r.Size == "" {
			return nil, fmt.Sprintf("The size of the %d fasteners is missing. Nothing was kept yet; write it as M10x1.25x60.", n)
		}
		out = append(out, machine.Fastener{Size: clip(r.Size, 60), Count: n, Where: clip(r.Where, 100), State: r.State})
	}
	return out, ""
}

// shimsTyped reads the lines of shims: a thickness with or without its unit.
func shimsTyped(rows []setRow) ([]machine.Shim, string) {
	var out []machine.Shim
	for _, r := range rows {
		if r.Size == "" && r.Count == "" {
			continue
		}
		a, err := bench.Amount(r.Size, "mm")
		if err != nil {
			return nil, spelling.Head(err.Error()) + ". Nothing was kept yet; write the shim's thickness, as 0.15."
		}
		n := 1
		if r.Count != "" {
			if n, err = strconv.Atoi(r.Count); err != nil || n < 1 || n > 99 {
				return nil, fmt.Sprintf("“%s” is no count of shims. Nothing was kept yet; give how many of %s.", clip(r.Count, 20), clip(r.Size, 20))
			}
		}
		if a.Value <= 0 || a.Value > 50 {
			return nil, fmt.Sprintf("A shim of %s is out of reason. Nothing was kept yet; write its thickness in mm.", withUnit(a.Value, "mm"))
		}
		out = append(out, machine.Shim{ThicknessMM: a.Value, Count: n, Where: clip(r.Where, 100), Typed: r.Size})
	}
	return out, ""
}
