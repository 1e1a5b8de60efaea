package remedy

import "slices"

// within is the problem with acts that take too long barred, and covers that
// do not last long enough left out. A need that nothing brings as far as life
// is held to the best it can get, so that it does not excuse the others. What
// a person's word settled is not held to either.
func (p *problem) within(days, life int64) *problem {
	q := *p
	q.acts = slices.Clone(p.acts)
	word, best := p.words(), make([]int64, len(p.needs))
	for a := range p.acts {
		if !word[a] && p.acts[a].days > days {
			q.acts[a].barred = true
		}
		if q.acts[a].barred || !p.usable(a) {
			continue
		}
		for _, c := range p.acts[a].covers {
			best[c.need] = max(best[c.need], c.life)
		}
	}
	for a := range q.acts {
		var kept []cover
		for _, c := range p.acts[a].covers {
			n := p.needs[c.need]
			if !n.must || n.word >= 0 || c.life >= min(life, best[c.need]) {
				kept = append(kept, c)
			}
		}
		q.acts[a].covers = kept
	}
	return &q
}

// possible tells whether any set meets all needs; where the search is cut
// short, sure is false.
func (b *budget) possible(p *problem) (yes, sure bool) {
	r := b.solve(p, limits{any: true})
	return r.found, !r.cut || r.found
}

// first is the first of some steps, in order, for which all needs can be met;
// each step allows what those before it allow. It fails where none does, or
// none could be shown to within the budget.
func (b *budget) first(steps []int64, asked func(int64) *problem) (step int64, ok bool) {
	slices.Sort(steps)
	steps = slices.Compact(steps)
	i, _ := slices.BinarySearchFunc(steps, true, func(x int64, _ bool) int {
		if yes, _ := b.possible(asked(x)); yes {
			return 0
		}
		return -1
	})
	if i == len(steps) {
		return 0, false
	}
	return steps[i], true
}

// leastDays is the shortest longest lead time with which all needs can be met,
// not shorter than what words have settled.
func (b *budget) leastDays(p *problem) int64 {
	steps, settled := []int64{0}, int64(0)
	word := p.words()
	for a, act := range p.acts {
		if word[a] {
			settled = max(settled, act.days)
		}
		if p.usable(a) {
			steps = append(steps, act.days)
		}
	}
	steps = slices.DeleteFunc(steps, func(d int64) bool { return d < settled })
	d, ok := b.first(steps, func(d int64) *problem { return p.within(d, 0) })
	if !ok {
		return far
	}
	return d
}

// mostLife is the greatest life that all needs can be given, each held to the
// best it can get.
func (b *budget) mostLife(p *problem) int64 {
	var steps []int64
	for _, act := range p.acts {
		for _, c := range act.covers {
			steps = append(steps, -c.life)
		}
	}
	l, _ := b.first(steps, func(l int64) *problem { return p.within(far, -l) })
	return -l
}

// budget counts the points of search that are left for one decision.
type budget struct {
	left int
	used int
	cut  bool
}

// solve runs one search on the budget.
func (b *budget) solve(p *problem, lim limits) result {
	lim.nodes = b.left
	r := solve(p, lim)
	b.left -= r.nodes
	b.used += r.nodes
	b.cut = b.cut || r.cut
	return r
}
