package remedy

import "slices"

// leaf prices the needs that the shared decisions leave open, each by itself,
// and keeps the best sets that come of it.
func (s *search) leaf() {
	t := &s.t
	var open []int
	for n := range s.p.needs {
		if t.cover[n] > 0 || !(t.required[n] || t.out[n]) {
			continue
		}
		if len(s.own[n]) == 0 {
			return
		}
		open = append(open, n)
	}
	var on []int
	for a, w := range s.word {
		if w {
			on = append(on, a)
		}
	}
	for _, a := range s.shared {
		if s.state[a] == taken {
			on = append(on, a)
		}
	}
	for _, a := range on {
		if !s.word[a] && s.idle(on, a, open) {
			return
		}
	}
	choices := make([][]pick, len(open))
	for i, n := range open {
		choices[i] = s.own[n]
	}
	for _, c := range cheapest(choices, s.lim.keep) {
		found := set{acts: append(slices.Clone(on), c.acts...), cost: t.cost + c.cost}
		slices.Sort(found.acts)
		s.keepBest(found)
	}
}

// idle tells whether an act could be left out of a set that covers the open
// needs one by one.
func (s *search) idle(on []int, a int, open []int) bool {
	rest := newTally(s.p)
	for n := range s.p.needs {
		rest.sum[n] = s.p.needs[n].value
	}
	for _, b := range on {
		if b != a {
			rest.take(s.p, b)
		}
	}
	for _, n := range open {
		rest.cover[n]++
	}
	for n := range s.p.needs {
		rest.judge(n, &s.p.needs[n])
		if rest.required[n] || rest.out[n] {
			return false
		}
	}
	return true
}

// keepBest puts a set in its place among the best.
func (s *search) keepBest(found set) {
	s.best = append(s.best, found)
	slices.SortStableFunc(s.best, compareSets)
	if len(s.best) > s.lim.keep {
		s.best = s.best[:s.lim.keep]
	}
}

// compareSets orders by price, then by the acts' indexes, which follow ids.
func compareSets(x, y set) int {
	if x.cost != y.cost {
		return int(min(max(x.cost-y.cost, -1), 1))
	}
	return slices.Compare(x.acts, y.acts)
}

// cheapest lists the best ways to take one pick of each list, best first.
// Lists are sorted by price. Cost: lists · keep².
func cheapest(lists [][]pick, keep int) []set {
	sums := []set{{}}
	for _, list := range lists {
		var next []set
		for _, sum := range sums {
			for _, p := range list[:min(len(list), keep)] {
				next = append(next, set{acts: append(slices.Clone(sum.acts), p.act), cost: sum.cost + p.cost})
			}
		}
		sums = firstSets(next, keep)
	}
	return sums
}

// firstSets sorts sets and keeps the best.
func firstSets(sets []set, keep int) []set {
	slices.SortStableFunc(sets, compareSets)
	return sets[:min(len(sets), keep)]
}
