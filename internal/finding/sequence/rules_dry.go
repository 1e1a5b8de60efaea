package sequence

import (
	"slices"

	"matchmark/internal/finding/judge"
	"matchmark/internal/machine"
)

// keepDryBuilds: what is on trial is not taken apart while a check is still to
// be read on it, though other joints of the check may have to be closed on trial
// first; unless something that comes before the check needs it apart. It is the
// last to write rules, since it goes by what the others say. Where taking it
// apart is one of several ways to something, it is not made to wait for a trial
// still to come: the forward pass settles ways and must not wait for closings.
func (d *draft) keepDryBuilds() {
	var next [][]int
	for _, c := range d.m.Checks {
		s := &d.checks[c.Number()]
		if !s.dry || s.step < 0 || len(s.rework) > 0 || s.verdict == judge.Worn {
			continue
		}
		trials := slices.ContainsFunc(c.Joints, func(j *machine.Joint) bool { return d.roleOf(j).trial >= 0 })
		kept := []int{}
		for _, j := range c.Joints {
			undo := d.roleOf(j).undo
			if undo < 0 || trials && d.oneOfSeveral(undo) {
				continue
			}
			if next == nil {
				next = d.leads()
			}
			if !reaches(next, undo, s.step) {
				kept = append(kept, undo)
				next[s.step] = append(next[s.step], undo)
			}
		}
		if len(kept) > 0 {
			d.before(s.step, [][]int{kept}, process("the dry build is read before it comes apart"))
		}
	}
}

// oneOfSeveral tells whether an After rule names the step in one of several
// alternatives.
func (d *draft) oneOfSeveral(step int) bool {
	return slices.ContainsFunc(d.rules, func(r rule) bool {
		return !r.before && len(r.any) > 1 && slices.ContainsFunc(r.any, func(alt []int) bool { return slices.Contains(alt, step) })
	})
}

// leads lists, by step, the steps that some rule puts after it by any of its
// alternatives.
func (d *draft) leads() [][]int {
	next := make([][]int, len(d.steps))
	for i := range d.rules {
		r := &d.rules[i]
		for _, alt := range r.any {
			for _, l := range alt {
				if r.before {
					next[r.step] = append(next[r.step], l)
				} else {
					next[l] = append(next[l], r.step)
				}
			}
		}
	}
	return next
}

// reaches tells whether a way leads from one step to another.
func reaches(next [][]int, from, to int) bool {
	seen := make([]bool, len(next))
	seen[from] = true
	for line := []int{from}; len(line) > 0; {
		at := line[len(line)-1]
		line = line[:len(line)-1]
		for _, s := range next[at] {
			if s == to {
				return true
			}
			if !seen[s] {
				seen[s] = true
				line = append(line, s)
			}
		}
	}
	return false
}
