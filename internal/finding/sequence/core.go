package sequence

import (
	"cmp"
	"slices"
)

// core is an irreducible contradiction: rules that cannot all hold, any one of
// which would free the rest if it were dropped, and the steps they bind.
type core struct {
	rules []int // the weakest last
	steps []int // steps named by the rules within the knot
}

// knot is a small problem cut out of a net: rules over the steps of one knot,
// renumbered, with the numbers they had.
type knot struct {
	steps  []int // old numbers
	rules  []rule
	origin []int // old rule numbers
	// forward: stuck in chaining forward, else in filling from the end.
	forward bool
}

// forwardKnot cuts out steps that wait for one another, from what forward
// chaining left over. Each left-over step has a clause that waits wholly for
// left-over steps; following those, the first closed group found waits for
// nothing outside itself.
func (g *net) forwardKnot(left []int) knot {
	in := setOf(g.n, left)
	waits := make([][]int, g.n)
	g.edges(func(from, to, _ int) {
		if in[from] && in[to] {
			waits[to] = append(waits[to], from)
		}
	})
	for _, r := range g.ors {
		if u := g.rules[r].step; in[u] && !met(g.rules[r].any, in) {
			for _, alt := range g.rules[r].any {
				waits[u] = append(waits[u], keep(alt, in)...)
			}
		}
	}
	k := knot{steps: closedGroup(left, waits), forward: true}
	k.cut(g, func(r int) [][]int {
		if g.rules[r].before && len(g.rules[r].any) > 1 {
			return nil // guards play no part
		}
		return g.rules[r].any
	})
	return k
}

// backwardKnot does the same for what could not be placed from the end. pick
// gives the alternative an After rule was settled to.
func (g *net) backwardKnot(left []int, pick map[int]int) knot {
	in := setOf(g.n, left)
	waits := make([][]int, g.n)
	g.edges(func(from, to, _ int) {
		if in[from] && in[to] {
			waits[from] = append(waits[from], to)
		}
	})
	for r, alt := range pick {
		if to := g.rules[r].step; in[to] {
			for _, from := range keep(g.rules[r].any[alt], in) {
				waits[from] = append(waits[from], to)
			}
		}
	}
	for _, r := range g.guards {
		if u := g.rules[r].step; in[u] && !met(g.rules[r].any, in) {
			for _, alt := range g.rules[r].any {
				waits[u] = append(waits[u], keep(alt, in)...)
			}
		}
	}
	k := knot{steps: closedGroup(left, waits)}
	k.cut(g, func(r int) [][]int {
		if alt, ok := pick[r]; ok {
			return g.rules[r].any[alt : alt+1]
		}
		return g.rules[r].any
	})
	return k
}

// met tells whether some alternative has no literal in the set.
func met(any [][]int, in []bool) bool {
	return slices.ContainsFunc(any, func(alt []int) bool { return len(keep(alt, in)) == 0 })
}

func keep(alt []int, in []bool) []int {
	var out []int
	for _, l := range alt {
		if in[l] {
			out = append(out, l)
		}
	}
	return out
}

func setOf(n int, members []int) []bool {
	in := make([]bool, n)
	for _, s := range members {
		in[s] = true
	}
	return in
}

// cut fills the knot's rules: those that bind its steps to one another.
// alternatives tells with which alternatives a rule plays.
func (k *knot) cut(g *net, alternatives func(r int) [][]int) {
	slices.Sort(k.steps)
	in := setOf(g.n, k.steps)
	number := map[int]int{}
	for i, s := range k.steps {
		number[s] = i
	}
	for r, old := range g.rules {
		any := alternatives(r)
		stop := len(old.any) == 0 && !old.before
		if !g.live(r) || !in[old.step] || !stop && (len(any) == 0 || met(any, in)) {
			continue
		}
		cut := rule{step: number[old.step], before: old.before, reason: old.reason}
		for _, alt := range any {
			var mine []int
			for _, l := range keep(alt, in) {
				mine = append(mine, number[l])
			}
			cut.any = append(cut.any, mine)
		}
		k.rules = append(k.rules, cut)
		k.origin = append(k.origin, r)
	}
}

// shrink drops rules, the strongest first and many at a time where it can,
// until no single one can be dropped: being stuck is monotone in the rules, so
// what remains is irreducible, and a weak rule stays visible where there is a
// choice. After each drop the knot is cut down to what still holds it. A plain
// ring is found outright, the shortest one.
func (k knot) shrink() core {
	if ring := k.shortestRing(); ring != nil {
		return k.report(ring)
	}
	for size := max(len(k.rules)/2, 1); ; {
		smaller, ok := k.without(size)
		switch {
		case ok:
			k = smaller
			size = max(min(size, len(k.rules)/2), 1)
		case size > 1:
			size /= 2
		default:
			return k.report(k.byStrength())
		}
	}
}

// without looks for a run of size rules whose dropping leaves a knot.
func (k *knot) without(size int) (knot, bool) {
	order := k.byStrength()
	for i := 0; i < len(order); i += size {
		rest := slices.Delete(slices.Clone(order), i, min(i+size, len(order)))
		slices.Sort(rest)
		g := newNet(len(k.steps), k.pick(rest), nil)
		var left []int
		if k.forward {
			_, _, left = g.forward(nil, nil)
		} else {
			_, left = g.backwards(nil).fill(nil, -1)
		}
		if len(left) == 0 {
			continue
		}
		sub := g.backwardKnot
		if k.forward {
			sub = func(left []int, _ map[int]int) knot { return g.forwardKnot(left) }
		}
		return k.within(sub(left, nil), rest), true
	}
	return knot{}, false
}

// within gives a knot cut from some rules of k the numbers that k came from.
func (k *knot) within(sub knot, rules []int) knot {
	for i, s := range sub.steps {
		sub.steps[i] = k.steps[s]
	}
	for i, r := range sub.origin {
		sub.origin[i] = k.origin[rules[r]]
	}
	return sub
}

func (k *knot) byStrength() []int {
	order := make([]int, len(k.rules))
	for i := range order {
		order[i] = i
	}
	slices.SortStableFunc(order, func(a, b int) int {
		return cmp.Compare(k.rules[a].strength(), k.rules[b].strength())
	})
	return order
}

func (k *knot) pick(which []int) []rule {
	out := make([]rule, len(which))
	for i, r := range which {
		out[i] = k.rules[r]
	}
	return out
}

// report gives the core in old numbers, its rules from strong to weak.
func (k *knot) report(held []int) core {
	var c core
	named := map[int]bool{}
	for _, r := range held {
		c.rules = append(c.rules, k.origin[r])
		named[k.steps[k.rules[r].step]] = true
		for _, alt := range k.rules[r].any {
			for _, l := range alt {
				named[k.steps[l]] = true
			}
		}
	}
	for s := range named {
		c.steps = append(c.steps, s)
	}
	slices.Sort(c.steps)
	return c
}
