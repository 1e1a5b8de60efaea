package web

import (
	"errors"
	"fmt"
	"net/http"

	"matchmark/internal/bench"
	"matchmark/internal/finding/sequence"
	"matchmark/internal/machine"
	"matchmark/internal/trade/spelling"
)

// closeView is the closing of a joint, with what holds it.
type closeView struct {
	Base, At string
	ID, Name string
	Joint    string // its page
	State    string
	Shut     bool
	Trial    bool // chosen
	Dry      bool // the kit wants a dry build first
	Refused  string
	Fault    string
	Holds    []passRow
	Initials string
	Why      string
	Facts    []fact
	Care     []careRow
	Torque   string
	Sealant  string
	Note     string
	Sum      string
	Sets     []setRow
	Shims    []setRow
	Sheet    sheetView
	Worked   *workedView
	Open     bool // the lines of fasteners and shims stand open
	WhyAt    string
	Out      []leftRow // what goes out of which tray, and what is left there
}

// passRow is a hold with its tick to pass it by hand.
type passRow struct {
	holdRow
	Passable bool
	Passed   bool // ticked
}

func closePage(v *visit) error {
	j := v.view.Machine.Joint(machine.JointID(v.r.PathValue("joint")))
	if j == nil {
		return missing("the joint", v.r.PathValue("joint"))
	}
	cv := v.viewClose(j, j.Dry && j.State == machine.Open && len(j.Closings) == 0)
	return v.showClose(cv, http.StatusOK)
}

func (v *visit) showClose(cv closeView, status int) error {
	return v.show("close", status, frame{Title: "Close " + spelling.Inside(cv.Name), Here: "Build", Back: v.base() + "/build", Data: cv})
}

func (v *visit) viewClose(j *machine.Joint, trial bool) closeView {
	cv := closeView{Base: v.base(), At: closeAddress(v.base(), j.ID), ID: string(j.ID), Name: j.Name, Joint: jointAddress(v.base(), j.ID),
		State: jointState(j), Shut: j.State == machine.AsMade || j.State == machine.Closed, Trial: trial, Dry: j.Dry,
		Facts: jointFacts(j), Sheet: sheetOf(v.view, v.base(), j), Care: careOfJoint(v.view, j, sequence.Close), Sets: v.setRows("set", setLines), Shims: v.setRows("shim", shimLines), WhyAt: whyAddress(v.base(), string(sequence.CloseID(j.ID)))}
	if !cv.Shut {
		cv.Out = countOut(v.view.Machine, cv.Base, j)
	}
	cv.Worked = workedOf(v.view.Reckoner(), cv.Base, j.Reckon)
	for _, h := range v.view.MayClose(j, !trial) {
		row := holdOf(cv.Base, h)
		cv.Holds = append(cv.Holds, passRow{holdRow: row, Passable: h.Check != nil && !h.Life, Passed: v.typed("pass:"+row.CheckID) != ""})
	}
	cv.goesBackAsItWas(v, j)
	return cv
}

// goesBackAsItWas fills the lines of the form with what came out.
func (cv *closeView) goesBackAsItWas(v *visit, j *machine.Joint) {
	n := len(j.Removals)
	if n == 0 || v.r.Method != http.MethodGet {
		cv.Open = v.r.Method != http.MethodGet
		return
	}
	r := j.Removals[n-1]
	for i, f := range r.Fasteners {
		if i < len(cv.Sets) {
			cv.Sets[i].Count, cv.Sets[i].Size, cv.Sets[i].Where = fmt.Sprint(f.Count), f.Size, f.Where
		}
	}
	for i, s := range r.Shims {
		if i < len(cv.Shims) {
			cv.Shims[i].Count, cv.Shims[i].Size, cv.Shims[i].Where = fmt.Sprint(max(s.Count, 1)), figure(s.ThicknessMM, "mm"), s.Where
		}
	}
}

// closePost closes a joint. Where it is held, the page comes back with the
// holds and with all that was typed.
func closePost(v *visit) error {
	j := v.view.Machine.Joint(machine.JointID(v.r.PathValue("joint")))
	if j == nil {
		return missing("the joint", v.r.PathValue("joint"))
	}
	cv := v.viewClose(j, v.typed("as") == machine.Trial)
	cv.Torque, cv.Sealant, cv.Note = v.typed("torque"), clip(v.typed("sealant"), 120), clip(v.typed("note"), 400)
	cv.Initials, cv.Why, cv.Sum = clip(v.typed("initials"), 12), clip(v.typed("why"), 400), v.typed("sum")
	bodies, fault, err := cv.facts(v, j)
	if err != nil {
		return err
	}
	if fault == "" && cv.Shut && !v.kept(bodies...) {
		fault = j.Name + " is not open, so there is nothing to close. Record the opening first."
	}
	if fault != "" {
		cv.Fault = fault
		return v.showClose(cv, http.StatusUnprocessableEntity)
	}
	_, err = v.record(bodies...)
	var held *bench.HeldError
	if errors.As(err, &held) {
		cv.Refused = "Nothing was closed. Clear what holds it, or pass it with your initials and why. What you typed is still here."
		if held.Life != nil {
			cv.Refused = "Nothing was closed. " + spelling.Head(held.Error()) + "."
		}
		return v.showClose(cv, http.StatusConflict)
	}
	if err != nil {
		return err
	}
	return v.go303(v.base() + "/build")
}

// facts turns the form into the closing, and the holds passed with it.
func (cv *closeView) facts(v *visit, j *machine.Joint) ([]machine.Body, string, error) {
	pv := photoView{Sum: cv.Sum}
	_, fault, err := v.keepPhoto(&pv)
	cv.Sum = pv.Sum
	if err != nil || fault != "" {
		return nil, fault, err
	}
	body := &machine.JointClosed{Joint: j.ID, As: machine.Final, Sealant: cv.Sealant, Note: cv.Note}
	if cv.Trial {
		body.As = machine.Trial
	}
	if cv.Sum != "" {
		body.Photos = []machine.Sum{machine.Sum(cv.Sum)}
	}
	if cv.Torque != "" {
		a, err := bench.Amount(cv.Torque, "N·m")
		if err != nil {
			return nil, spelling.Head(err.Error()) + ". Nothing was closed; correct the torque.", nil
		}
		body.Torque = &a
	}
	if body.Fasteners, fault = fastenersTyped(cv.Sets); fault != "" {
		return nil, fault, nil
	}
	if body.Shims, fault = shimsTyped(cv.Shims); fault != "" {
		return nil, fault, nil
	}
	passed, fault := cv.passed(j)
	return append(passed, body), fault, nil
}

// passed are the holds let through by hand: each wants initials and a reason.
func (cv *closeView) passed(j *machine.Joint) ([]machine.Body, string) {
	var out []machine.Body
	for _, h := range cv.Holds {
		if h.Passed && h.Passable {
			out = append(out, &machine.HoldPassed{Joint: j.ID, Check: machine.CheckID(h.CheckID), Initials: cv.Initials, Why: cv.Why})
		}
	}
	if len(out) > 0 && (cv.Initials == "" || cv.Why == "") {
		return nil, "A hold is passed with initials and a reason; both are wanted. Nothing was closed."
	}
	return out, ""
}
