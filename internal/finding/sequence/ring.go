package sequence

import (
	"cmp"
	"slices"
)

// shortestRing finds the fewest plain rules that go round in a ring, nil where
// the knot is no such ring. A shortest ring is irreducible. Cost: a search
// from every step of the knot.
func (k *knot) shortestRing() []int {
	n := len(k.steps)
	g := &net{rules: k.rules}
	next := bucket(n, func(put func(int, edge)) {
		g.edges(func(from, to, r int) { put(from, edge{to, r}) })
	})
	var best []int
	for start := range n {
		if ring := ringFrom(start, next, len(best)); ring != nil {
			best = ring
		}
	}
	slices.SortStableFunc(best, func(a, b int) int { return cmp.Compare(k.rules[a].strength(), k.rules[b].strength()) })
	return best
}

// ringFrom walks breadth first from a step until it comes back, and gives the
// rules of the way; nil where every way back is as long as most (0: any).
func ringFrom(start int, next [][]edge, most int) []int {
	type seen struct{ from, rule, depth int }
	came := map[int]seen{start: {-1, -1, 0}}
	for line := []int{start}; len(line) > 0; line = line[1:] {
		at := line[0]
		depth := came[at].depth + 1
		if most > 0 && depth >= most {
			return nil
		}
		for _, e := range next[at] {
			if e.to == start {
				ring := []int{e.rule}
				for s := at; s != start; s = came[s].from {
					ring = append(ring, came[s].rule)
				}
				return ring
			}
			if _, was := came[e.to]; !was {
				came[e.to] = seen{at, e.rule, depth}
				line = append(line, e.to)
			}
		}
	}
	return nil
}

// closedGroup finds a group of steps, each reaching every other along waits,
// from which nothing leads outside: the first strongly connected component to
// be completed (Tarjan's method), starting from the lowest number.
func closedGroup(from []int, waits [][]int) []int {
	t := &tarjan{waits: waits, index: map[int]int{}, low: map[int]int{}, on: map[int]bool{}}
	if len(from) > 0 {
		t.visit(from[0])
	}
	return t.found
}

type tarjan struct {
	waits      [][]int
	index, low map[int]int
	on         map[int]bool
	stack      []int
	found      []int
}

func (t *tarjan) visit(v int) {
	t.index[v] = len(t.index)
	t.low[v] = t.index[v]
	t.stack = append(t.stack, v)
	t.on[v] = true
	for _, w := range t.waits[v] {
		if _, seen := t.index[w]; !seen {
			t.visit(w)
			if t.found != nil {
				return
			}
			t.low[v] = min(t.low[v], t.low[w])
		} else if t.on[w] {
			t.low[v] = min(t.low[v], t.index[w])
		}
	}
	if t.low[v] == t.index[v] {
		for i, s := range t.stack {
			if s == v {
				t.found = slices.Clone(t.stack[i:])
				return
			}
		}
	}
}
