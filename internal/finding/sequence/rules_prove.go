package sequence

import (
	"slices"

	"matchmark/internal/machine"
)

// stepTests gives every proving test a step; it is done once its last run
// passed.
func (d *draft) stepTests() {
	for _, t := range d.m.Tests {
		n := len(t.Runs)
		d.tests[t.ID] = d.add(Step{ID: TestID(t.ID), Act: Test, Name: t.Name, Test: t, Hazards: t.Hazards,
			Done: n > 0 && t.Runs[n-1].Passed})
	}
}

// rulesOfTests: a test waits for the tests it needs, and like a running check
// for every closing of its system and every check of it that is open and was
// not passed by hand. A system nobody declared stands for the whole machine.
func (d *draft) rulesOfTests() {
	closings, checks := d.bySystem()
	why := process("its system is closed and checked first")
	for _, t := range d.m.Tests {
		step := d.tests[t.ID]
		for _, need := range t.Needs {
			if before, ok := d.tests[need]; ok && before >= 0 {
				d.after(step, [][]int{{before}}, process("that test comes first"))
			}
		}
		d.after(step, [][]int{closings[d.known(t.System)]}, why)
		d.after(step, [][]int{checks[d.known(t.System)]}, why)
	}
	for _, c := range d.m.Checks {
		if step := d.checks[c.Number()].step; step >= 0 && c.When == machine.Running {
			d.after(step, [][]int{closings[d.known(d.system[c.Assembly])]}, why)
			d.after(step, [][]int{checks[d.known(d.system[c.Assembly])]}, why)
		}
	}
}

// known is the system's name, empty where no assembly belongs to it.
func (d *draft) known(system string) string {
	for _, s := range d.system {
		if s == system {
			return system
		}
	}
	return ""
}

// bySystem lists the closings to come and the open checks of every system;
// those of the whole machine stand under the empty name.
func (d *draft) bySystem() (closings, checks map[string][]int) {
	closings, checks = map[string][]int{}, map[string][]int{}
	add := func(list map[string][]int, a machine.AssemblyID, step int) {
		list[""] = append(list[""], step)
		if sys := d.system[a]; sys != "" {
			list[sys] = append(list[sys], step)
		}
	}
	for _, j := range d.m.Joints {
		if n := d.roleOf(j).close; n >= 0 {
			add(closings, j.Assembly, n)
		}
	}
	for _, c := range d.m.Checks {
		if n := d.checks[c.Number()].step; n >= 0 && c.When != machine.Running && !d.passedAnywhere(c) {
			add(checks, c.Assembly, n)
		}
	}
	return closings, checks
}

// passedAnywhere tells whether some closing was let through over the check.
func (d *draft) passedAnywhere(c *machine.Check) bool {
	s := &d.checks[c.Number()]
	through := func(j *machine.Joint) bool { return passed(j, c) != nil }
	return slices.ContainsFunc(s.own, through) ||
		slices.ContainsFunc(s.sets, func(set []*machine.Joint) bool { return slices.ContainsFunc(set, through) })
}
