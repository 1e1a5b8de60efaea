package sequence

import (
	"cmp"
	"slices"

	"matchmark/internal/machine"
)

// Bench is work that has no rule to any other bench until joints between
// assemblies marry them: another person can do it at the same time.
type Bench struct {
	Label      string // "A", "B", …
	Assemblies []machine.AssemblyID
	Steps      []StepID // still to be done, by id
}

// bench parts the work into benches. Steps of one assembly share a bench, and
// so do steps between which there is a rule. Left out of that, with no bench of
// their own, are the closings that marry assemblies (joints between parts of
// several), proving, and the fetching of orders. It looks at rules only: one
// hoist or one pair of hands may still be shared.
func (p *Plan) bench() {
	joined := make([]int, p.todo)
	for i := range joined {
		joined[i] = i
	}
	var root func(i int) int
	root = func(i int) int {
		if joined[i] != i {
			joined[i] = root(joined[i])
		}
		return joined[i]
	}
	home := map[machine.AssemblyID]int{}
	onBench := make([]bool, p.todo)
	for i := range p.todo {
		s := &p.Steps[i]
		onBench[i] = stage(s) < 2 && s.Act != Collect && !marries(s)
		if !onBench[i] {
			continue
		}
		if first, ok := home[s.Assembly]; ok {
			joined[root(i)] = root(first)
		} else {
			home[s.Assembly] = i
		}
	}
	for to, links := range p.into {
		for _, l := range links {
			if onBench[to] && onBench[l.from] {
				joined[root(to)] = root(l.from)
			}
		}
	}
	groups := map[int][]int{}
	for i := range p.todo {
		if onBench[i] {
			groups[root(i)] = append(groups[root(i)], i)
		}
	}
	p.label(groups)
}

// marries tells whether a step joins assemblies.
func marries(s *Step) bool {
	if s.Joint == nil || s.Act != Close && s.Act != Trial {
		return false
	}
	return slices.ContainsFunc(s.Joint.Parts, func(q *machine.Part) bool { return q.Assembly != s.Joint.Parts[0].Assembly })
}

// label names the benches, the one with most steps first.
func (p *Plan) label(groups map[int][]int) {
	for _, g := range groups {
		b := Bench{}
		for _, s := range g {
			b.Steps = append(b.Steps, p.Steps[s].ID)
			if a := p.Steps[s].Assembly; !slices.Contains(b.Assemblies, a) {
				b.Assemblies = append(b.Assemblies, a)
			}
		}
		slices.Sort(b.Steps)
		slices.Sort(b.Assemblies)
		p.Benches = append(p.Benches, b)
	}
	slices.SortFunc(p.Benches, func(a, b Bench) int {
		return cmp.Or(cmp.Compare(len(b.Steps), len(a.Steps)), cmp.Compare(a.Steps[0], b.Steps[0]))
	})
	for i := range p.Benches {
		p.Benches[i].Label = letters(i)
		for _, id := range p.Benches[i].Steps {
			p.Steps[p.index[id]].Bench = p.Benches[i].Label
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
