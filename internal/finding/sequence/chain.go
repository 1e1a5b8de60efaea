package sequence

import "slices"

// net is a set of rules over steps 0..n-1, indexed for chaining. ands[i] lists
// what waits for step i alone; ors are After rules and guards Before rules
// with several alternatives. Rules set aside are left out.
type net struct {
	n       int
	rules   []rule
	aside   []bool
	ands    [][]edge // by the step that goes first
	wait    []int    // for each step, how many edges lead to it
	stops   []int    // rules that can never be met
	ors     []int    // rule numbers
	guards  []int
	orsLeft *tally // of ors, before anything came
}

// edge says that a step waits, and which rule says so.
type edge struct{ to, rule int }

// newNet indexes the rules; aside may be nil. Cost: linear in literals.
func newNet(n int, rules []rule, aside []bool) *net {
	g := &net{n: n, rules: rules, aside: aside, wait: make([]int, n)}
	g.ands = bucket(n, func(put func(int, edge)) {
		g.edges(func(from, to, r int) { put(from, edge{to, r}) })
	})
	for _, list := range g.ands {
		for _, e := range list {
			g.wait[e.to]++
		}
	}
	for i := range rules {
		r := &rules[i]
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
	g.orsLeft = g.tallyOf(g.ors)
	return g
}

// live tells whether a rule counts and was not set aside.
func (g *net) live(r int) bool { return g.aside == nil || !g.aside[r] }

// edges calls f for every plain before-after pair of the rules with a single
// alternative.
func (g *net) edges(f func(from, to, rule int)) {
	for i := range g.rules {
		r := &g.rules[i]
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
	of     []int  // rule number
	start  []int  // where the rule's alternatives begin in left
	left   []int  // literals still to come, by alternative
	chosen []int  // alternative that met the rule, or -1
	where  [][]at // literal -> where it stands
	sizes  []int  // left as it was at first
}

type at struct{ rule, alt int }

func (g *net) tallyOf(which []int) *tally {
	t := &tally{of: which}
	if len(which) == 0 {
		return t
	}
	for _, r := range which {
		t.start = append(t.start, len(t.sizes))
		for _, alt := range g.rules[r].any {
			t.sizes = append(t.sizes, len(alt))
		}
	}
	t.where = bucket(g.n, func(put func(int, at)) {
		for i, r := range which {
			for a, alt := range g.rules[r].any {
				for _, l := range alt {
					put(l, at{i, a})
				}
			}
		}
	})
	return t
}

// fresh gives the tally as it was before anything came.
func (t *tally) fresh() *tally {
	out := *t
	out.left = slices.Clone(t.sizes)
	out.chosen = slices.Repeat([]int{-1}, len(t.of))
	return &out
}

// come counts a step and calls met for each rule it meets.
func (t *tally) come(step int, met func(i int)) {
	if len(t.of) == 0 {
		return
	}
	for _, w := range t.where[step] {
		i := t.start[w.rule] + w.alt
		t.left[i]--
		if t.left[i] == 0 && t.chosen[w.rule] < 0 {
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
	ors := g.orsLeft.fresh()
	for _, r := range g.ors {
		wait[g.rules[r].step]++
	}
	ready := newHeap(rank)
	done := make([]bool, g.n)
	order = make([]int, 0, g.n)
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

// reverse is a net made ready to be filled from the end.
type reverse struct {
	g     *net
	later []int   // how many must come later, by step, guards on it included
	back  [][]int // what comes before, by step
	tally *tally
}

// backwards indexes a net for filling from its end. extra are further edges
// (settled After rules).
func (g *net) backwards(extra []pair) *reverse {
	v := &reverse{g: g, later: make([]int, g.n), tally: g.tallyOf(g.guards)}
	v.back = bucket(g.n, func(put func(int, int)) {
		for from, es := range g.ands {
			for _, e := range es {
				put(e.to, from)
			}
		}
		for _, p := range extra {
			put(p.to, p.from)
		}
	})
	for _, list := range v.back {
		for _, from := range list {
			v.later[from]++
		}
	}
	for _, r := range g.guards {
		v.later[g.rules[r].step]++
	}
	return v
}

// fill places steps from the end: a step may be put last once all that wait
// for it are placed and, for each guard on it, all of some alternative. The
// lowest rank is placed first, that is, comes latest. It gives which
// alternative met each of g.guards and what could not be placed. first, if not
// negative, is a step taken as done already: it is not placed and counts for
// no alternative.
func (v *reverse) fill(rank []int, first int) (chosen []int, left []int) {
	wait := slices.Clone(v.later)
	if first >= 0 {
		for _, from := range v.back[first] {
			wait[from]--
		}
	}
	guards := v.tally.fresh()
	ready := newHeap(rank)
	placed := make([]bool, v.g.n)
	offer := func(s int) {
		if wait[s] == 0 && s != first {
			ready.push(s)
		}
	}
	for s := range v.g.n {
		offer(s)
	}
	release := func(s int) {
		wait[s]--
		offer(s)
	}
	for ready.len() > 0 {
		s := ready.pop()
		placed[s] = true
		for _, from := range v.back[s] {
			release(from)
		}
		guards.come(s, func(i int) { release(v.g.rules[guards.of[i]].step) })
	}
	for s := range v.g.n {
		if !placed[s] && s != first {
			left = append(left, s)
		}
	}
	return guards.chosen, left
}

// pair is a plain edge: from comes before to.
type pair struct{ from, to int }
