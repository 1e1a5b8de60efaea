package web

import (
	"net/http"
	"slices"

	"matchmark/internal/machine"
	"matchmark/internal/trade/spelling"
)

// surveyView is the machine as it came: a photo of each side, and the eye's
// word on each assembly.
type surveyView struct {
	Base    string
	Sides   []sideForm
	Systems []systemForm
	Said    int // assemblies that have a word
	All     int
	Fault   string
}

// sideForm takes the photo of one side.
type sideForm struct {
	Side, Name string
	Photos     []photoRow
}

// systemForm is the assemblies of one system.
type systemForm struct {
	Name       string
	Assemblies []surveyRow
}

type surveyRow struct {
	ID, Name, Words string
	Conditions      []option
	Was             string // who said it and when
}

var sideNames = map[string]string{"front": "From the front", "left": "From the left", "rear": "From the rear",
	"right": "From the right", "above": "From above", "plate": "Its plate and numbers"}

func surveyPage(v *visit) error { return v.showSurvey("", http.StatusOK) }

func (v *visit) showSurvey(fault string, status int) error {
	sv := viewSurvey(v.view.Machine, v.base())
	sv.Fault = fault
	if fault != "" {
		sv.keepTyped(v)
	}
	return v.show("survey", status, frame{Title: "As it came", Here: "Machine", Back: v.base(), Data: sv})
}

func viewSurvey(m *machine.Machine, base string) surveyView {
	sv := surveyView{Base: base, All: len(m.Assemblies)}
	for _, side := range machine.Sides() {
		ref := machine.RefSide(side)
		mine := slices.DeleteFunc(slices.Clone(m.Photos), func(p machine.Photo) bool { return p.Of != ref })
		sv.Sides = append(sv.Sides, sideForm{side, sideNames[side], photosOf(m, base, mine)})
	}
	for _, a := range m.Assemblies {
		row := surveyRow{ID: string(a.ID), Name: a.Name}
		chosen := ""
		if s := m.Survey(a.ID); s != nil {
			chosen, row.Words = s.Condition, s.Words
			row.Was = s.By + ", " + day(s.At)
			sv.Said++
		}
		row.Conditions = conditionOptions(chosen)
		name := spelling.Head(a.System)
		i := slices.IndexFunc(sv.Systems, func(s systemForm) bool { return s.Name == name })
		if i < 0 {
			i = len(sv.Systems)
			sv.Systems = append(sv.Systems, systemForm{Name: name})
		}
		sv.Systems[i].Assemblies = append(sv.Systems[i].Assemblies, row)
	}
	return sv
}

func conditionOptions(chosen string) []option {
	out := []option{{"", "not looked at", chosen == ""}}
	for _, c := range machine.Conditions() {
		out = append(out, option{c, c, c == chosen})
	}
	return out
}

// keepTyped puts back what was typed into a form that was refused.
func (sv *surveyView) keepTyped(v *visit) {
	for i := range sv.Systems {
		for k := range sv.Systems[i].Assemblies {
			row := &sv.Systems[i].Assemblies[k]
			if v.r.PostForm.Has("condition:"+row.ID) || v.r.PostForm.Has("words:"+row.ID) {
				row.Conditions, row.Words = conditionOptions(v.typed("condition:"+row.ID)), v.typed("words:"+row.ID)
			}
		}
	}
}

// surveyPost keeps a photo of one side, or the words on the assemblies.
func surveyPost(v *visit) error {
	if side := v.typed("side"); side != "" {
		return v.sidePhoto(side)
	}
	bodies, fault := v.surveyTyped()
	if fault == "" && len(bodies) == 0 {
		fault = "Nothing was said that is not in the book already, so nothing was kept. Choose how an assembly looks."
	}
	if fault != "" {
		return v.showSurvey(fault, http.StatusUnprocessableEntity)
	}
	if _, err := v.record(bodies...); err != nil {
		return err
	}
	return v.go303(v.base() + "/survey#assemblies")
}

// sidePhoto keeps the photo of one side.
func (v *visit) sidePhoto(side string) error {
	if !slices.Contains(machine.Sides(), side) {
		return plight{http.StatusUnprocessableEntity, "That is no side of a machine", "Nothing was kept. Open the page again and choose the side."}
	}
	pv := photoView{}
	taken, fault, err := v.keepPhoto(&pv)
	if err != nil {
		return err
	}
	if fault == "" && pv.Sum == "" {
		fault = "No photo came with it, so nothing was kept. Take the photo or choose one, then keep it."
	}
	if fault != "" {
		return v.showSurvey(fault, http.StatusUnprocessableEntity)
	}
	photo := &machine.PhotoAdded{Of: machine.RefSide(side), Sum: machine.Sum(pv.Sum), Type: "image/jpeg", Caption: sideNames[side], TakenAt: taken}
	if _, err := v.record(photo); err != nil {
		return err
	}
	return v.go303(v.base() + "/survey#side-" + side)
}

// surveyTyped reads what is new among the words on the assemblies.
func (v *visit) surveyTyped() (bodies []machine.Body, fault string) {
	m := v.view.Machine
	for _, a := range m.Assemblies {
		condition, words := v.typed("condition:"+string(a.ID)), clip(v.typed("words:"+string(a.ID)), 300)
		old := m.Survey(a.ID)
		switch {
		case condition == "" && words == "":
			continue
		case condition == "":
			return nil, "“" + clip(words, 60) + "” stands beside " + a.Name + ", but not how it looks. Nothing was kept yet; choose one word for it."
		case !slices.Contains(machine.Conditions(), condition):
			return nil, "“" + clip(condition, 40) + "” is no word for how " + a.Name + " looks. Nothing was kept yet; choose one of the list."
		case old != nil && old.Condition == condition && old.Words == words:
			continue
		}
		bodies = append(bodies, &machine.Surveyed{Assembly: a.ID, Condition: condition, Words: words})
	}
	return bodies, ""
}

// sideWord names a side for a photo's caption or a note.
func sideWord(side string) string {
	if name := sideNames[side]; name != "" {
		return spelling.Inside(name)
	}
	return side
}

// surveyFacts are the words on the assemblies for the book.
func surveyFacts(m *machine.Machine) []fact {
	var out []fact
	for _, a := range m.Assemblies {
		if s := m.Survey(a.ID); s != nil {
			out = append(out, fact{a.Name, s.Condition + behind(", ", s.Words)})
		}
	}
	return out
}
