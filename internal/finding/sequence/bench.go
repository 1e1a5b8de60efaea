package sequence

import (
	"cmp"
	"slices"

	"matchmark/internal/machine"
)

// Bench is the work on one assembly that waits for nothing outside it: two
// people at two benches do not get into each other's way as far as the rules
// go. One hoist or one pair of hands may still be shared.
type Bench struct {
	Label    string // "A", "B", …
	Assembly machine.AssemblyID
	Steps    []*Step // in the plan's order
	Free     int     // how many of them can be done now
	Hours    float64
}

// bench finds the benches. A step belongs to its assembly's bench while all
// that it waits for, orders to collect aside, does too. What comes after a
// joint that marries assemblies (between parts of several), and proving, is at
// no bench.
func (p *Plan) bench() {
	at := map[machine.AssemblyID]*Bench{}
	on := make([]bool, p.todo)
	for _, i := range p.order {
		s := &p.Steps[i]
		if stage(s) == 2 || s.Act == Collect || marries(s) {
			continue
		}
		on[i] = every(p.into[i], func(l link) bool {
			from := &p.Steps[l.from]
			return from.Act == Collect || on[l.from] && from.Assembly == s.Assembly
		})
		if !on[i] {
			continue
		}
		if at[s.Assembly] == nil {
			at[s.Assembly] = &Bench{Assembly: s.Assembly}
		}
		b := at[s.Assembly]
		b.Steps = append(b.Steps, s)
		b.Hours += s.Hours
	}
	for _, s := range p.Free {
		if on[p.index[s.ID]] {
			at[s.Assembly].Free++
		}
	}
	for _, b := range at {
		p.Benches = append(p.Benches, *b)
	}
	p.label()
}

// marries tells whether a step joins assemblies.
func marries(s *Step) bool {
	if s.Joint == nil || s.Act != Close && s.Act != Trial {
		return false
	}
	return slices.ContainsFunc(s.Joint.Parts, func(q *machine.Part) bool { return q.Assembly != s.Joint.Parts[0].Assembly })
}

// label names the benches, the one with most steps first.
func (p *Plan) label() {
	slices.SortFunc(p.Benches, func(a, b Bench) int {
		return cmp.Or(cmp.Compare(len(b.Steps), len(a.Steps)), cmp.Compare(a.Assembly, b.Assembly))
	})
	for i := range p.Benches {
		p.Benches[i].Label = letters(i)
		for _, s := range p.Benches[i].Steps {
			s.Bench = p.Benches[i].Label
		}
	}
}

// letters counts A … Z, AA, AB ….
func letters(i int) string {
	if i < 26 {
		return string(rune('A' + i))
	}
	return letters(i/26-1) + string(rune('A'+i%26))
}
