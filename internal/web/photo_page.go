package web

import (
	"bytes"
	"net/http"

	"matchmark/internal/finding/sequence"
	"matchmark/internal/machine"
	"matchmark/internal/trade/spelling"
)

// photoView is "Photo and one line": what came off, said in one line and seen
// as understood before it is kept.
type photoView struct {
	Base    string
	Part    *link // that the photo is of, where the address says so
	PartID  string
	Line    string
	Heard   heardView
	Suggest []pick // what can come apart now
	Found   []pick // what a search found
	Ask     string
	Trays   []string
	Sum     string // of a photo that has arrived already
	Fault   string
}

// mostPicks is how many joints are offered to choose from at a time.
const mostPicks = 12

func photoPage(v *visit) error {
	pv := photoView{Base: v.base(), Ask: v.asked("q"), Line: clip(v.asked("line"), longestLine)}
	if err := pv.aim(v, machine.JointID(v.asked("joint")), machine.PartID(v.asked("part"))); err != nil {
		return err
	}
	pv.Heard.fill(v)
	return v.showPhoto(pv, http.StatusOK)
}

func (v *visit) showPhoto(pv photoView, status int) error {
	script, err := v.assets.address("sheet.js")
	if err != nil {
		return err
	}
	title := "Photo and one line"
	if pv.Part != nil {
		title = pv.Part.Name
	} else if pv.Heard.Told {
		title = "Open " + spelling.Inside(pv.Heard.Joint.Name)
	}
	return v.show("photo", status, frame{Title: title, Here: "Photo", Back: v.base(), Scripts: []string{script}, Data: pv})
}

// aim turns the sheet to the joint or the part it is about, and reads its line.
func (pv *photoView) aim(v *visit, joint machine.JointID, part machine.PartID) error {
	m := v.view.Machine
	for _, t := range m.Trays {
		pv.Trays = append(pv.Trays, t.Mark)
	}
	if part != "" {
		p := m.Part(part)
		if p == nil {
			return missing("the part", string(part))
		}
		pv.Part, pv.PartID = &link{p.Name, partAddress(pv.Base, p.ID)}, string(part)
		return nil
	}
	var j *machine.Joint
	if joint != "" {
		if j = m.Joint(joint); j == nil {
			return missing("the joint", string(joint))
		}
	}
	pv.Heard = v.hear(pv.Line, j)
	pv.offer(v)
	return nil
}

// offer lists joints that can be opened now, and those a search found.
func (pv *photoView) offer(v *visit) {
	for _, s := range v.view.Plan().Free {
		if s.Act == sequence.Open && s.Joint != nil && len(pv.Suggest) < mostPicks {
			pv.Suggest = append(pv.Suggest, pickOf(s.Joint))
		}
	}
	if pv.Ask == "" {
		return
	}
	for _, j := range v.view.Machine.Joints {
		if contains(j.Name, pv.Ask) && len(pv.Found) < most {
			pv.Found = append(pv.Found, pickOf(j))
		}
	}
}

// pick is one joint to choose.
type pick struct{ ID, Name, State string }

func pickOf(j *machine.Joint) pick {
	state := ""
	if j.State != machine.AsMade {
		state = jointState(j)
	}
	return pick{string(j.ID), j.Name, state}
}

// heardPart answers the line as it is typed with what was understood of it:
// the same piece that the page shows.
func heardPart(v *visit) error {
	var j *machine.Joint
	if id := machine.JointID(v.asked("joint")); id != "" {
		if j = v.view.Machine.Joint(id); j == nil {
			return missing("the joint", string(id))
		}
	}
	hv := v.hear(clip(v.asked("line"), longestLine), j)
	hv.fill(v)
	var out bytes.Buffer
	if err := v.pages["photo"].ExecuteTemplate(&out, "heard", hv); err != nil {
		return err
	}
	v.w.Header().Set("Content-Type", "text/html; charset=utf-8")
	v.w.Header().Set("Cache-Control", "no-store")
	_, err := v.w.Write(v.inLanguage(v.r, out.Bytes()))
	gone(v.r, err)
	return nil
}
