package web

import (
	"net/http"
	"strconv"
	"strings"

	"matchmark/internal/bench"
	"matchmark/internal/finding/judge"
	"matchmark/internal/finding/sequence"
	"matchmark/internal/machine"
	"matchmark/internal/trade/spelling"
)

// partView is one part with what was read, said and shown of it.
type partView struct {
	Base, At  string
	ID        string
	Number    string
	Name      string
	Mark      mark
	Call      string // the tag's cut
	CallWhy   string
	CallBy    string
	Proposal  string
	Facts     []fact
	Fits      []fitRow // those that are not sound
	Sound     []fitRow
	Surfaces  []surface
	Joints    []jointRow
	Waits     []waitRow
	Cleaning  []cleanRule
	Care      []careRow
	Cleaned   []string
	Photos    []photoRow
	Sounds    soundList
	Tray      string
	Found     string
	Calls     []callButton
	Fault     string
	Notes     []string
	TypedNote string
	Froms     []option
}

// fact is a name and what stands behind it.
type fact struct{ Name, Text string }

// surface is a measurable surface with its readings.
type surface struct {
	ID, Name, At string
	Nominal      string
	Done         string
	Reads        []readRow
}

type readRow struct{ Point, Value, Typed, Tool, Who, When string }

type waitRow struct{ Name, At string }

type cleanRule struct {
	Permitted string
	Forbidden []fact
}

type callButton struct {
	Word    string
	Pressed bool
}

func partPage(v *visit) error {
	pv, ok := viewPart(v.view, v.base(), machine.PartID(v.r.PathValue("part")))
	if !ok {
		return missing("the part", v.r.PathValue("part"))
	}
	return v.show("part", http.StatusOK, frame{Title: pv.Name, Here: "Machine", Back: v.base() + "/machine", Data: pv})
}

// viewPart gathers what is known of a part.
func viewPart(v *bench.View, base string, id machine.PartID) (partView, bool) {
	p := v.Machine.Part(id)
	if p == nil {
		return partView{}, false
	}
	pv := partView{Base: base, At: partAddress(base, id), ID: string(id), Name: p.Name, Mark: stateOf(v, p, dueJoints(v)),
		Call: string(p.Call), CallWhy: p.CallWhy, Tray: p.Tray, Calls: callsFor(p), Froms: provenanceOptions("")}
	if p.CallBy.By != "" {
		pv.CallBy = p.CallBy.By + ", " + day(p.CallBy.At)
	}
	for i, q := range v.Machine.Parts {
		if q == p {
			pv.Number = strconv.Itoa(i + 1)
		}
	}
	pv.Facts = factsOf(v.Machine, p)
	call, why := proposalFor(v, p)
	pv.Proposal = call + behind(": ", why)
	for _, c := range checksOf(v.Machine, p) {
		row := fitOf(v, base, v.Judged().Of(c.ID))
		row.Back, row.One, row.Parts = pv.At, true, nil
		if f := v.Judged().Of(c.ID); f != nil && f.Verdict == judge.Sound {
			pv.Sound = append(pv.Sound, row)
		} else {
			pv.Fits = append(pv.Fits, row)
		}
	}
	for _, ft := range p.Features {
		pv.Surfaces = append(pv.Surfaces, surfaceOf(base, ft))
	}
	held := heldJoints(v)
	for _, j := range p.Joints {
		pv.Joints = append(pv.Joints, jointRow{j.Name, jointAddress(base, j.ID), jointState(j), held[j.ID]})
	}
	for _, c := range p.Cleaned {
		pv.Cleaned = append(pv.Cleaned, c.Method+behind(", ", c.Note)+", "+c.By+", "+day(c.At))
	}
	pv.Cleaning, pv.Care = cleaningOf(v.Machine, p), careFor(p.Hazards, sequence.Clean)
	pv.Photos = photosOf(v.Machine, base, p.Photos)
	pv.Sounds = soundsOf(v.Machine, base, machine.RefPart(p.ID))
	if p.Found != nil {
		pv.Found = strconv.Itoa(*p.Found)
	}
	pv.Notes = notesOn(v.Machine, machine.RefPart(id))
	return pv, true
}

func callsFor(p *machine.Part) []callButton {
	var out []callButton
	for _, c := range []machine.Call{machine.GoesBack, machine.MakeGood, machine.Renew, machine.NotJudged} {
		out = append(out, callButton{string(c), c == p.Call})
	}
	return out
}

func factsOf(m *machine.Machine, p *machine.Part) []fact {
	facts := []fact{{"Pieces", strconv.Itoa(p.Qty)}}
	if p.Found != nil && *p.Found != p.Qty {
		facts = append(facts, fact{"Found", strconv.Itoa(*p.Found) + behind(", ", p.FoundNote)})
	}
	add := func(name, text string) {
		if text != "" {
			facts = append(facts, fact{name, text})
		}
	}
	add("Standard part", identifiedWords(p))
	add("Material", p.Material)
	add("Lies", trayWords(p.Tray))
	if p.OneUse {
		add("One use", "renewed whenever it comes off")
	}
	if p.Version > 0 {
		add("Renewed", plural(p.Version, "time", "times"))
	}
	add("Look for", strings.Join(p.Faults, ", "))
	return facts
}

func surfaceOf(base string, ft *machine.Feature) surface {
	s := surface{ID: string(ft.ID), Name: spelling.Head(ft.Name), At: runAddress(base, "f", runOfFeature(ft))}
	if n := ft.Nominal; n != nil {
		s.Nominal = "made to " + withUnit(n.MM, "mm") + ", " + sourceWords(n.From, n.Source)
	}
	read := map[machine.Point]bool{}
	for _, r := range ft.Current() {
		read[machine.Point{Level: r.Level, Axis: r.Axis}] = true
		where := strings.Trim(r.Level+", "+r.Axis, ", ")
		if r.Unworn {
			where = "unworn"
		}
		s.Reads = append(s.Reads, readRow{where, withUnit(r.Amount.Value, r.Amount.Unit), r.Amount.Typed, toolName(r.Tool), r.By, minute(r.At)})
	}
	n := 0
	for _, p := range ft.Points() {
		if read[p] {
			n++
		}
	}
	s.Done = strconv.Itoa(n) + " of " + plural(len(ft.Points()), "point", "points")
	return s
}

func cleaningOf(m *machine.Machine, p *machine.Part) []cleanRule {
	var out []cleanRule
	for _, c := range m.Cleaning {
		meant := false
		for _, id := range c.For {
			meant = meant || id == p.Type || id == p.ID
		}
		if !meant {
			continue
		}
		rule := cleanRule{Permitted: strings.Join(c.Permitted, ", ")}
		for _, f := range c.Forbidden {
			rule.Forbidden = append(rule.Forbidden, fact{f.What, f.Why})
		}
		out = append(out, rule)
	}
	return out
}

func notesOn(m *machine.Machine, of machine.Ref) []string {
	var out []string
	for _, n := range m.Notes {
		if n.Of == of {
			out = append(out, n.Text+" ("+n.By+", "+day(n.At)+")")
		}
	}
	return out
}

// partPost keeps one fact about a part: a call, a tray, a count, a cleaning or
// a note.
func partPost(v *visit) error {
	p := v.view.Machine.Part(machine.PartID(v.r.PathValue("part")))
	if p == nil {
		return missing("the part", v.r.PathValue("part"))
	}
	body, fault := partFact(p.ID, v)
	if fault != "" {
		pv, _ := viewPart(v.view, v.base(), p.ID)
		pv.Fault, pv.TypedNote = fault, v.typed("text")
		return v.show("part", http.StatusUnprocessableEntity, frame{Title: pv.Name, Here: "Machine", Back: v.base() + "/machine", Data: pv})
	}
	if _, err := v.record(body); err != nil {
		return err
	}
	return v.go303(partAddress(v.base(), p.ID))
}

// partFact reads which fact a form on the part page means.
func partFact(id machine.PartID, v *visit) (machine.Body, string) {
	text := clip(v.typed("text"), 400)
	switch v.typed("do") {
	case "tray":
		if text == "" {
			return nil, "No tray was named, so nothing was kept. Give the tray's mark, or a place such as “at the shop”."
		}
		return &machine.PartMoved{Part: id, Tray: markMeant(v.view.Machine, text), Note: clip(v.typed("note"), 400)}, ""
	case "count":
		n, err := strconv.Atoi(text)
		if err != nil || n < 0 || n > 9999 {
			return nil, "“" + clip(text, 40) + "” is no count, so nothing was kept. Give a whole number; 0 says the part is missing."
		}
		return &machine.PartCounted{Part: id, Found: n, Words: clip(v.typed("note"), 400)}, ""
	case "clean":
		if text == "" {
			return nil, "No method was named, so nothing was kept. Say how it was cleaned."
		}
		return &machine.PartCleaned{Part: id, Method: text, Note: clip(v.typed("note"), 400)}, ""
	case "nominal":
		return nominalFact(v, id)
	case "note":
		if text == "" {
			return nil, "The note was empty, so nothing was kept."
		}
		return &machine.Noted{Of: machine.RefPart(id), Text: text}, ""
	}
	return nil, "The page did not say what to keep, so nothing was kept. Use one of the buttons."
}
