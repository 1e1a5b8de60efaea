package sequence

import (
	"slices"

	"matchmark/internal/machine"
)

// draft is a plan being written: steps by number, rules between them, and what
// had to be worked out about joints and checks on the way.
type draft struct {
	m     *machine.Machine
	ways  [][][][]*machine.Joint // by joint: clause, alternative, joint
	steps []Step                 // still to be done; a step's number is its index
	done  []Step
	rules []rule

	reopened []bool // by joint
	kept     []bool // by joint
	left     []Kept
	roles    []role     // by joint
	checks   []standing // by check
	jobs     []job      // pending reworks
	tests    map[machine.TestID]int
	system   map[machine.AssemblyID]string
	hours    hoursBook
	breaches []Breach
	costs    *costs             // filled when first asked for
	words    int                // how many recorded words the rules lean on so far
	hides    [][]*machine.Check // by joint, filled when first asked for
	unders   [][]under          // likewise
	lists    room[int]          // what the rules are written in
	anys     room[[]int]
}

// survey works out how joints and checks stand and gives them their steps.
func survey(m *machine.Machine, v Verdicts) *draft {
	joints := len(m.Joints)
	d := &draft{m: m, ways: waysIn(m), reopened: make([]bool, joints), kept: make([]bool, joints),
		roles: slices.Repeat([]role{nothing}, joints), checks: make([]standing, len(m.Checks)),
		tests: map[machine.TestID]int{}, system: map[machine.AssemblyID]string{}, hours: newHoursBook(m),
		steps: make([]Step, 0, 2*joints+len(m.Checks)+len(m.Parts)), done: make([]Step, 0, 2*joints+len(m.Checks))}
	for _, a := range m.Assemblies {
		d.system[a.ID] = a.System
	}
	for _, c := range m.Checks {
		s := &d.checks[c.Number()]
		*s = standing{verdict: verdictOf(v, c), stale: staleReading(c), dry: isDry(c), step: -1}
		s.own, s.sets = hiders(c)
		s.beside = withoutOwn(c)
	}
	d.listJobs()
	d.listChecks()
	d.listJoints()
	return d
}

// newDraft writes all steps first, so that every rule can name them.
func newDraft(m *machine.Machine, v Verdicts) *draft {
	d := survey(m, v)
	d.rules = make([]rule, 0, 3*(len(m.Joints)+len(m.Checks)))
	d.stepChecks()
	d.stepJobs()
	d.stepTests()
	for _, j := range m.Joints {
		d.rulesOfJoint(j)
	}
	d.rulesStated()
	for _, c := range m.Checks {
		d.rulesOfCheck(c)
	}
	d.rulesOfJobs()
	d.writeCleaning()
	d.writeOrders()
	d.rulesOfTests()
	d.keepDryBuilds()
	d.findBreaches()
	return d
}

// add lists a step and gives its number; a done step has none.
func (d *draft) add(s Step) int {
	if s.Done {
		d.done = append(d.done, s)
		return -1
	}
	d.steps = append(d.steps, s)
	return len(d.steps) - 1
}

// after says that a step waits for all of some alternative. Literals of -1 are
// done already; a nil alternative list says nothing.
func (d *draft) after(step int, any [][]int, why reason) {
	d.say(step, false, any, why)
}

// before says that a step goes before all of some alternative.
func (d *draft) before(step int, any [][]int, why reason) {
	d.say(step, true, any, why)
}

// say adds a rule unless it says nothing: where the step is done or an
// alternative has nothing left to do, the rule is met.
func (d *draft) say(step int, before bool, any [][]int, why reason) {
	if step < 0 || len(any) == 0 {
		return
	}
	r := rule{step: step, before: before, reason: why, any: d.anys.take(len(any))}
	for _, alt := range any {
		todo := d.lists.take(len(alt))
		for _, l := range alt {
			if l >= 0 {
				todo = append(todo, l)
			}
		}
		if len(todo) == 0 {
			return
		}
		slices.Sort(todo)
		todo = slices.Compact(todo)
		if !slices.Contains(todo, step) { // it cannot wait for itself
			r.any = append(r.any, todo)
		}
	}
	if len(r.any) == 0 {
		r.before = false // every way leads over the step itself: never met
	}
	d.rules = append(d.rules, r)
}

// never says that a step cannot be done as the record stands.
func (d *draft) never(step int, why reason) {
	if step >= 0 {
		d.rules = append(d.rules, rule{step: step, reason: why})
	}
}

// process is the reason for what follows from the meaning of the words.
func process(note string) reason {
	return reason{evidence: machine.Process, certainty: Proved, note: note}
}

// roleOf gives a joint's steps; a joint without any has role nothing.
func (d *draft) roleOf(j *machine.Joint) role {
	return d.roles[j.Number()]
}

var nothing = role{open: -1, undo: -1, trial: -1, close: -1}

// wayIn is the step that takes a joint apart: -1 where it is apart already,
// and ok is false where it stays as it is.
func (d *draft) wayIn(j *machine.Joint) (step int, ok bool) {
	r := d.roleOf(j)
	switch {
	case isApart(j):
		return -1, true
	case isTrial(j):
		return r.undo, true
	case r.open >= 0:
		return r.open, true
	}
	return -1, false
}

// allApart turns alternatives of joints into the steps that take them apart,
// leaving out those that cannot be had. any is nil where all are lost.
func (d *draft) allApart(any [][]*machine.Joint) [][]int {
	var out [][]int
	for _, set := range any {
		alt, ok := d.setApart(set)
		if ok {
			out = append(out, alt)
		}
	}
	return out
}

func (d *draft) setApart(set []*machine.Joint) ([]int, bool) {
	alt := []int{}
	for _, k := range set {
		step, ok := d.wayIn(k)
		if !ok {
			return nil, false
		}
		alt = append(alt, step)
	}
	return alt, true
}

// toClose lists the closings of joints that are still to come; for a dry build
// the trials.
func (d *draft) toClose(set []*machine.Joint) []int {
	alt := []int{}
	for _, k := range set {
		alt = append(alt, d.roleOf(k).close)
	}
	return alt
}
