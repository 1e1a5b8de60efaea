package web

import (
	"errors"
	"io"
	"net/http"
	"slices"
	"time"

	"matchmark/internal/bench"
	"matchmark/internal/machine"
	"matchmark/internal/trade/spelling"
	"matchmark/internal/web/picture"
)

// What a button of the sheet asks for.
const (
	doRead  = "read"  // show what is understood, keep nothing but the photo
	doKeep  = "keep"  // keep the removal as it was shown
	doNote  = "note"  // keep photo and line with the joint they are about
	doAlone = "alone" // keep photo and line by themselves
)

// photoPost reads the sheet's line, or keeps what it says. A button that names
// another joint reads the line again for that one.
func photoPost(v *visit) error {
	pv := photoView{Base: v.base(), Line: clip(v.typed("line"), longestLine), Sum: v.typed("sum")}
	do, joint := v.typed("do"), machine.JointID(v.typed("joint"))
	switch other := v.typed("pick"); {
	case other != "":
		do, joint = doRead, machine.JointID(other)
	case do == doAlone, do == doRead && v.typed("told") == "":
		joint = "" // it was only what the line seemed to name
	}
	if err := pv.aim(v, joint, machine.PartID(v.typed("part"))); err != nil {
		return err
	}
	if do == doRead {
		pv.Heard.fill(v)
	} else {
		pv.Heard.take(v)
	}
	taken, fault, err := v.keepPhoto(&pv)
	if err != nil {
		return err
	}
	if do == doRead && fault == "" {
		return v.showPhoto(pv, http.StatusOK)
	}
	var bodies []machine.Body
	if fault == "" {
		bodies, fault = pv.facts(v, do, taken)
	}
	if fault != "" {
		pv.Fault = fault
		return v.showPhoto(pv, http.StatusUnprocessableEntity)
	}
	if _, err := v.record(bodies...); err != nil {
		return err
	}
	switch {
	case pv.Part != nil:
		return v.go303(pv.Part.At)
	case pv.Heard.Told:
		return v.go303(pv.Heard.At)
	}
	return v.go303(v.base())
}

// take reads the fields as they came. Where the line was changed after they
// were shown, what it says goes into the fields left empty.
func (hv *heardView) take(v *visit) {
	h := hv.heard
	hv.Tray, hv.Mark, hv.Breakaway = clip(v.typed("tray"), 60), clip(v.typed("mark"), 60), v.typed("breakaway")
	hv.Sets, hv.Shims, hv.Asked = v.setRows("set", setLines), v.setRows("shim", shimLines), v.typed("asked") != ""
	off, way := v.r.PostForm["off"], v.r.PostForm["way"]
	shown := v.typed("heard") == hv.Line && hv.Line != ""
	if !shown {
		filled := heardView{heard: h, Joint: hv.Joint}
		filled.fill(v)
		if hv.Tray == "" {
			hv.Tray = filled.Tray
		}
		if hv.Mark == "" {
			hv.Mark = filled.Mark
		}
		if hv.Breakaway == "" {
			hv.Breakaway = filled.Breakaway
		}
		if blank(hv.Sets) {
			hv.Sets = filled.Sets
		}
		if blank(hv.Shims) {
			hv.Shims = filled.Shims
		}
	}
	if hv.Tray != "" {
		hv.Tray = markMeant(v.view.Machine, hv.Tray)
	}
	hv.ticks(v, func(id machine.PartID) bool {
		named := slices.ContainsFunc(h.Off, func(p *machine.Part) bool { return p.ID == id })
		return slices.Contains(off, string(id)) || !shown && len(off) == 0 && named
	}, func(id machine.JointID) bool { return !shown || slices.Contains(way, string(id)) })
}

// keepPhoto stores the photo that came with the form, if one did. A photo of
// an earlier try is named by its sum.
func (v *visit) keepPhoto(pv *photoView) (time.Time, string, error) {
	const again = "The photo did not arrive whole. What was typed is still here; choose the photo again."
	file, _, err := v.r.FormFile("photo")
	if errors.Is(err, http.ErrMissingFile) || errors.Is(err, http.ErrNotMultipart) {
		if pv.Sum != "" {
			if _, _, err := v.shop.Log().Blob(v.r.Context(), machine.Sum(pv.Sum)); err != nil {
				pv.Sum = ""
				return time.Time{}, "The photo of the first try is not here any more. Choose it again; nothing else was lost.", nil
			}
		}
		return v.takenAt(time.Time{}), "", nil
	}
	if err != nil {
		return time.Time{}, again, nil
	}
	defer file.Close()
	data, err := io.ReadAll(io.LimitReader(file, maxPhoto+1))
	switch {
	case err != nil:
		return time.Time{}, again, nil
	case len(data) == 0:
		return time.Time{}, "", nil
	case len(data) > maxPhoto:
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
	return v.takenAt(kept.TakenAt), "", nil
}

// facts turns the sheet into what is recorded. A joint counts only where the
// person named it or kept what was shown: what a line seems to name is never
// recorded unseen.
func (pv *photoView) facts(v *visit, do string, taken time.Time) ([]machine.Body, string) {
	if pv.Heard.Told && do != doNote {
		return pv.removal(v, do)
	}
	ref := machine.Ref("")
	switch {
	case pv.PartID != "":
		ref = machine.RefPart(machine.PartID(pv.PartID))
	case pv.Heard.Told:
		ref = machine.RefJoint(machine.JointID(pv.Heard.Joint.ID))
	case pv.Heard.Tray != "":
		ref = machine.RefTray(pv.Heard.Tray)
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
func (pv *photoView) removal(v *visit, do string) ([]machine.Body, string) {
	hv := &pv.Heard
	j := v.view.Machine.Joint(machine.JointID(hv.Joint.ID))
	body := &machine.JointOpened{Joint: j.ID, Tray: hv.Tray, MatchMark: hv.Mark, Note: pv.Line}
	if pv.Sum != "" {
		body.Photos = []machine.Sum{machine.Sum(pv.Sum)}
	}
	for _, p := range hv.Parts {
		if p.Chosen {
			body.Off = append(body.Off, machine.PartID(p.Value))
		}
	}
	var fault string
	if body.Fasteners, fault = fastenersTyped(hv.Sets); fault != "" {
		return nil, fault
	}
	if body.Shims, fault = shimsTyped(hv.Shims); fault != "" {
		return nil, fault
	}
	if hv.Breakaway != "" {
		a, err := bench.Amount(hv.Breakaway, "N·m")
		if err != nil {
			return nil, spelling.Head(err.Error()) + ". Nothing was kept yet; correct the torque it let go at."
		}
		body.Breakaway = &a
	}
	bodies := append(pv.before(v, j), body)
	if j.State == machine.Open && !v.kept(bodies...) {
		return nil, j.Name + " is open already. Nothing was kept; look at what was recorded, or withdraw that first."
	}
	if do == doKeep && !hv.Asked && slices.ContainsFunc(hv.Wanted, func(w wanted) bool { return w.Typed == "" }) {
		return nil, "Undoing it destroys what is listed below. Nothing was kept yet; write how it stood, or say that it cannot be told any more."
	}
	return bodies, ""
}

// before is what happened before a joint was undone: how it was found, and
// what was in the way.
func (pv *photoView) before(v *visit, j *machine.Joint) []machine.Body {
	var out []machine.Body
	for i, what := range j.AsFound {
		if text := v.found(j, i); text != "" {
			out = append(out, &machine.AsFoundTaken{Joint: j.ID, What: what, Words: text, Photo: machine.Sum(pv.Sum)})
		}
	}
	for _, w := range pv.Heard.Ways {
		if w.Chosen {
			out = append(out, &machine.InTheWay{Joint: j.ID, Any: [][]machine.JointID{{machine.JointID(w.Value)}}, Note: pv.Line})
		}
	}
	return out
}
