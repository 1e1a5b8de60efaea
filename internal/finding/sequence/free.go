package sequence

import (
	"cmp"
	"slices"
)

// mostTrials bounds how many closings are tried out one by one.
const mostTrials = 64

// findFree lists the steps that can be done now and followed to the end: those
// that wait for nothing. A closing that a settled choice between ways in makes
// wait is tried out: it is free as well if the rest can be ordered after it. A
// closing that would hide something as things stand now is not offered, even
// where the plan is to uncover it later.
func (p *Plan) findFree(d *draft) {
	barred := p.barred()
	several := make([]bool, p.todo)
	for _, r := range p.ors {
		several[p.rules[r].step] = true
	}
	var free []int
	trials, back := 0, p.backwards(p.extra)
	for s := range p.todo {
		if p.wait[s] > 0 || several[s] || barred[s] || p.place[s] < 0 && len(p.into[s]) == 0 {
			continue
		}
		if len(p.into[s]) > 0 {
			if trials++; trials > mostTrials {
				continue
			}
			if _, left := back.fill(nil, s); len(left) > 0 {
				continue
			}
		}
		if st := &p.Steps[s]; st.Act != Close || !d.closingHeld(st.Joint) {
			free = append(free, s)
		}
	}
	slices.SortStableFunc(free, func(a, b int) int { return cmp.Compare(p.place[a], p.place[b]) })
	for _, s := range free {
		p.Free = append(p.Free, &p.Steps[s])
	}
}

// due tells whether a closing waits for nothing but checks that can be made
// now.
func (p *Plan) due(close int) bool {
	return close >= 0 && every(p.into[close], func(l link) bool {
		return p.Steps[l.from].Act == Check && len(p.into[l.from]) == 0
	})
}
