package web

import (
	"fmt"
	"net/http"
	"net/url"

	"matchmark/internal/bench"
	"matchmark/internal/finding/sequence"
	"matchmark/internal/machine"
	"matchmark/internal/trade/spelling"
)

// jointView is one joint: how it came apart, what it wants, what holds it.
type jointView struct {
	Base, At string
	ID       string
	Name     string
	State    string
	Sort     string
	Holds    []holdRow
	Fits     []fitRow
	Facts    []fact
	Care     []careRow
	Dots     *dots
	Reach    []reachRow
	Parts    []partRow
	Wanted   []string // evidence to take before undoing
	Evidence []string
	Removals []removalRow
	Closings []string
	Passed   []string
	Photos   []photoRow
	Sounds   soundList
	Notes    []string
	CanOpen  bool
	CanClose bool
	Others   []option // joints that may have been in the way
	Life     bool
	Fault    string
	Typed    map[string]string
}

// holdRow is one hold with what clears it.
type holdRow struct {
	Joint, Name, Why string
	Check            string // empty where no check is behind it
	CheckID          string
	Cost             string // of reopening later
	Clear            []link
	Life             bool
}

type reachRow struct{ Words, Evidence string }

type removalRow struct {
	When, Tray, Mark, Note string
	Fasteners, Shims       []string
	Off                    []string
	Breakaway              string
}

func jointPage(v *visit) error {
	j := v.view.Machine.Joint(machine.JointID(v.r.PathValue("joint")))
	if j == nil {
		return missing("the joint", v.r.PathValue("joint"))
	}
	return v.showJoint(viewJoint(v.view, v.base(), j), http.StatusOK)
}

func (v *visit) showJoint(jv jointView, status int) error {
	return v.show("joint", status, frame{Title: jv.Name, Here: "Machine", Back: v.base() + "/machine", Data: jv})
}

func viewJoint(v *bench.View, base string, j *machine.Joint) jointView {
	m := v.Machine
	jv := jointView{Base: base, At: jointAddress(base, j.ID), ID: string(j.ID), Name: j.Name, State: spelling.Head(jointState(j)), Sort: j.Sort,
		Wanted: j.AsFound, Life: j.Life, Photos: photosOf(m, base, j.Photos), Sounds: soundsOf(m, base, machine.RefJoint(j.ID)), Notes: notesOn(m, machine.RefJoint(j.ID)),
		CanOpen: j.State != machine.Open, CanClose: j.State == machine.Open || j.State == machine.OnTrial, Typed: map[string]string{}}
	jv.Care = careOfJoint(v, j, sequence.Open)
	if jv.CanClose {
		jv.Care = careOfJoint(v, j, sequence.Close)
	}
	jv.Holds = holdsOf(v, base, j, true)
	jv.Facts = jointFacts(j)
	due, numbers := dueJoints(v), partNumbers(m)
	for _, p := range j.Parts {
		row := partRow{Number: numbers[p.ID], Name: p.Name, At: partAddress(base, p.ID), Qty: p.Qty, Mark: stateOf(v, p, due)}
		jv.Parts = append(jv.Parts, row)
	}
	for _, c := range j.Checks {
		row := fitOf(v, base, v.Judged().Of(c.ID))
		row.Back, row.One, row.Parts = jv.At, true, nil
		jv.Fits = append(jv.Fits, row)
	}
	for _, r := range j.Reach {
		jv.Reach = append(jv.Reach, reachRow{anyWords(m, r.Any), evidenceWords(r)})
	}
	jv.addHistory(m, j)
	for _, k := range m.Joints {
		if k != j && k.Assembly == j.Assembly {
			jv.Others = append(jv.Others, option{Value: string(k.ID), Name: k.Name})
		}
	}
	return jv
}

// partNumbers are the ring numbers of the drawing list.
func partNumbers(m *machine.Machine) map[machine.PartID]string {
	out := make(map[machine.PartID]string, len(m.Parts))
	for i, p := range m.Parts {
		out[p.ID] = fmt.Sprint(i + 1)
	}
	return out
}

func jointFacts(j *machine.Joint) []fact {
	var facts []fact
	for _, f := range []fact{{"Fasteners", j.Plan.Fasteners}, {"Shims", j.Plan.Shims}, {"At build", j.Plan.AtBuild}, {"Tighten", j.Plan.Tighten}} {
		if f.Text != "" {
			facts = append(facts, f)
		}
	}
	if j.OneWay {
		facts = append(facts, fact{"One way", "closing it is not the reverse of opening it"})
	}
	if j.Dry {
		facts = append(facts, fact{"Dry build", "built dry once, to measure, before it is closed for good"})
	}
	if j.Hours > 0 {
		facts = append(facts, fact{"To close it", hoursWords(j.Hours)})
	}
	if j.Left != "" {
		facts = append(facts, fact{"Left", j.Left})
	}
	return facts
}

// evidenceWords says how sure a word on order is.
func evidenceWords(r machine.Reach) string {
	switch r.Evidence {
	case machine.Observed:
		return "proved: seen here" + behind(", ", r.Stamp.By) + ", " + day(r.Stamp.At)
	case machine.SaidSo:
		return "stated" + behind(", ", r.Stamp.By) + ", " + day(r.Stamp.At)
	case machine.Geometry:
		return "assumed: the kit says so of machines of this sort"
	}
	return string(r.Evidence)
}

func (jv *jointView) addHistory(m *machine.Machine, j *machine.Joint) {
	for _, e := range j.Evidence {
		jv.Evidence = append(jv.Evidence, foundWords(&e.AsFoundTaken)+" ("+e.By+", "+day(e.At)+")")
	}
	for _, r := range j.Removals {
		row := removalRow{When: minute(r.At) + ", " + r.By, Tray: r.Tray, Mark: r.MatchMark, Note: r.Note, Breakaway: amountWords(r.Breakaway)}
		for _, f := range r.Fasteners {
			row.Fasteners = append(row.Fasteners, fastenerWords(f))
		}
		for _, s := range r.Shims {
			row.Shims = append(row.Shims, shimWords(s))
		}
		for _, id := range r.Off {
			row.Off = append(row.Off, partName(m, id))
		}
		jv.Dots = matchDots(r.MatchMark)
		jv.Removals = append(jv.Removals, row)
	}
	for _, c := range j.Closings {
		jv.Closings = append(jv.Closings, closedWord(c.As)+" "+minute(c.At)+", "+c.By+behind(", ", amountWords(c.Torque))+behind(", ", c.Note))
	}
	for _, p := range j.Passed {
		jv.Passed = append(jv.Passed, checkName(m, p.Check)+" passed by "+p.Initials+", "+day(p.At)+": "+p.Why)
	}
}

func fastenerWords(f machine.Fastener) string {
	return fmt.Sprintf("%d × %s", f.Count, f.Size) + behind(", ", f.Where) + behind(", ", f.State)
}

func shimWords(s machine.Shim) string {
	return fmt.Sprintf("%d × %s mm", max(s.Count, 1), figure(s.ThicknessMM, "mm")) + behind(", ", s.Where)
}

// jointPost keeps one fact about a joint that is neither its opening nor its
// closing.
func jointPost(v *visit) error {
	j := v.view.Machine.Joint(machine.JointID(v.r.PathValue("joint")))
	if j == nil {
		return missing("the joint", v.r.PathValue("joint"))
	}
	body, fault := jointFact(j, v)
	if fault == "" {
		if _, err := v.record(body); err != nil {
			return err
		}
		return v.go303(jointAddress(v.base(), j.ID))
	}
	jv := viewJoint(v.view, v.base(), j)
	jv.Fault = fault
	for _, k := range []string{"what", "value", "words", "why"} {
		jv.Typed[k] = v.typed(k)
	}
	return v.showJoint(jv, http.StatusUnprocessableEntity)
}

func jointFact(j *machine.Joint, v *visit) (machine.Body, string) {
	why := clip(v.typed("why"), 400)
	switch v.typed("do") {
	case "way":
		other := machine.JointID(v.typed("other"))
		if v.view.Machine.Joint(other) == nil {
			return nil, "No joint was chosen, so nothing was kept. Choose the joint that was in the way."
		}
		return &machine.InTheWay{Joint: j.ID, Any: [][]machine.JointID{{other}}, Note: why}, ""
	case "free":
		other := machine.JointID(v.typed("other"))
		if v.view.Machine.Joint(other) == nil {
			return nil, "No joint was chosen, so nothing was kept. Choose the joint that is not in the way."
		}
		return &machine.ReachDenied{Joint: j.ID, Blocker: other, Why: orReason(why)}, ""
	case "leave":
		if why == "" {
			return nil, "No reason was given, so nothing was kept. Say in a few words why it stays as it is."
		}
		return &machine.JointLeft{Joint: j.ID, Why: why}, ""
	case "found":
		body := &machine.AsFoundTaken{Joint: j.ID, What: clip(v.typed("what"), 200), Words: clip(v.typed("words"), 400)}
		if body.What == "" || body.Words == "" {
			return nil, "Say what was found and how it stood, in words or with its figure and unit. Nothing was kept yet."
		}
		return body, ""
	}
	return nil, "The page did not say what to keep, so nothing was kept. Use one of the buttons."
}

func orReason(why string) string {
	if why == "" {
		return "seen at the bench"
	}
	return why
}

// whyAddress leads to the reasons of a step.
func whyAddress(base, step string) string { return base + "/why/" + url.PathEscape(step) }
