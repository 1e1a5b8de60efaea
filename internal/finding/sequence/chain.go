package sequence

import "slices"

// net is a set of rules over steps 0..n-1, indexed for chaining. ands[i] lists
// what waits for step i alone; ors are After rules and guards Before rules
// with several alternatives. Rules set aside are left out.
type net struct {
	n      int
	rules  []rule
	aside  []bool
	ands   [][]edge // by the step that goes first
	wait   []int    // for each step, how many edges lead to it
	stops  []int    // rules that can never be met
	ors    []int    // rule numbers
	guards []int
}

// edge says that a step waits, and which rule says so.
type edge struct{ to, rule int }

// newNet indexes the rules; aside may be nil. Cost: linear in literals.
func newNet(n int, rules []rule, aside []bool) *net {
	g := &net{n: n, rules: rules, aside: aside, ands: make([][]edge, n), wait: make([]int, n)}
	degree := make([]int, n)
	g.edges(func(from, _, _ int) { degree[from]++ })
	total := 0
	for _, d := range degree {
		total += d
	}
	pool := make([]edge, total)
	for i, d := range degree {
		g.ands[i], pool = pool[:0:d], pool[d:]
	}
	g.edges(func(from, to, r int) {
		g.ands[from] = append(g.ands[from], edge{to, r})
		g.wait[to]++
	})
	for i, r := range rules {
		switch {
		case !g.live(i):
		case len(r.any) == 0 && !r.before:
			g.stops = append(g.stops, i)
			g.wait[r.step]++ // never counted down
		case len(r.any) > 1 && r.before:
			g.guards = append(g.guards, i)
		case len(r.any) > 1:
			g.ors = append(g.ors, i)
		}
	}
	return g
}

// live tells whether a rule counts and was not set aside.
func (g *net) live(r int) bool { return g.aside == nil || !g.aside[r] }

// edges calls f for every plain before-after pair of the rules with a single
// alternative.
func (g *net) edges(f func(from, to, rule int)) {
	for i, r := range g.rules {
		if len(r.any) != 1 || !g.live(i) {
			continue
		}
		for _, l := range r.any[0] {
			if r.before {
				f(r.step, l, i)
			} else {
				f(l, r.step, i)
			}
		}
	}
}

// tally counts down the alternatives of rules with several: the first
// alternative whose literals have all come meets its rule.
type tally struct {
	of     []int        // rule number
	left   [][]int      // literals still to come, by rule and alternative
	chosen []int        // alternative that met the rule, or -1
	where  map[int][]at // literal -> where it stands
}

type at struct{ rule, alt int }

func (g *net) tallyOf(which []int) *tally {
	t := &tally{of: which, left: make([][]int, len(which)), chosen: make([]int, len(which)), where: map[int][]at{}}
	for i, r := range which {
		t.chosen[i] = -1
		t.left[i] = make([]int, len(g.rules[r].any))
		for a, alt := range g.rules[r].any {
			t.left[i][a] = len(alt)
			for _, l := range alt {
				t.where[l] = append(t.where[l], at{i, a})
			}
		}
	}
	return t
}

// come counts a step and calls met for each rule it meets.
func (t *tally) come(step int, met func(i int)) {
	for _, w := range t.where[step] {
		t.left[w.rule][w.alt]--
		if t.left[w.rule][w.alt] == 0 && t.chosen[w.rule] < 0 {
			t.chosen[w.rule] = w.alt
			met(w.rule)
		}
	}
}

// forward does every step that can be done, the lowest rank first, and gives
// the order, which alternative met each of g.ors, and what is left over.
// Guards are not looked at. barred steps are never done; barred may be nil.
func (g *net) forward(rank []int, barred []bool) (order []int, chosen []int, left []int) {
	wait := slices.Clone(g.wait)
	ors := g.tallyOf(g.ors)
	for _, r := range g.ors {
		wait[g.rules[r].step]++
	}
	ready := newHeap(rank)
	done := make([]bool, g.n)
	offer := func(s int) {
		if wait[s] == 0 && (barred == nil || !barred[s]) {
			ready.push(s)
		}
	}
	for s := range g.n {
		offer(s)
	}
	release := func(s int) {
		wait[s]--
		offer(s)
	}
	for ready.len() > 0 {
		s := ready.pop()
		done[s] = true
		order = append(order, s)
		for _, e := range g.ands[s] {
			release(e.to)
		}
		ors.come(s, func(i int) { release(g.rules[g.ors[i]].step) })
	}
	for s := range g.n {
		if !done[s] {
			left = append(left, s)
		}
	}
	return order, ors.chosen, left
}

// backward fills the order from its end: a step may be put last once all that
// wait for it are placed and, for each guard on it, all of some alternative.
// The lowest rank is placed first, that is, comes latest. It gives which
// alternative met each of g.guards and what could not be placed. first, if not
// negative, is a step taken as done already: it is not placed and counts for
// no alternative. extra are further edges (settled After rules).
func (g *net) backward(rank []int, first int, extra []pair) (chosen []int, left []int) {
	wait := make([]int, g.n) // steps that must come later and are not placed
	back := make([][]int, g.n)
	add := func(from, to int) {
		if from != first && to != first {
			wait[from]++
			back[to] = append(back[to], from)
		}
	}
	for from, es := range g.ands {
		for _, e := range es {
			add(from, e.to)
		}
	}
	for _, p := range extra {
		add(p.from, p.to)
	}
	guards := g.tallyOf(g.guards)
	for _, r := range g.guards {
		wait[g.rules[r].step]++
	}
	ready := newHeap(rank)
	placed := make([]bool, g.n)
	offer := func(s int) {
		if wait[s] == 0 && s != first {
			ready.push(s)
		}
	}
	for s := range g.n {
		offer(s)
	}
	release := func(s int) {
		wait[s]--
		offer(s)
	}
	for ready.len() > 0 {
		s := ready.pop()
		placed[s] = true
		for _, from := range back[s] {
			release(from)
		}
		guards.come(s, func(i int) { release(g.rules[g.guards[i]].step) })
	}
	for s := range g.n {
		if !placed[s] && s != first {
			left = append(left, s)
		}
	}
	return guards.chosen, left
}

// pair is a plain edge: from comes before to.
type pair struct{ from, to int }
