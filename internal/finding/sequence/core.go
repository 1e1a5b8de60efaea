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
	stuck  func(n int, rules []rule) bool
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
	k := knot{steps: closedGroup(left, waits), stuck: func(n int, rules []rule) bool {
		_, _, left := newNet(n, rules, nil).forward(nil, nil)
		return len(left) > 0
	}}
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
	k := knot{steps: closedGroup(left, waits), stuck: func(n int, rules []rule) bool {
		_, left := newNet(n, rules, nil).backwards(nil).fill(nil, -1)
		return len(left) > 0
	}}
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
// until no single one can be dropped. Being stuck is monotone in the rules, so
// what remains is irreducible; a weak rule stays visible where there is a
// choice. Cost: about len(rules) chainings of the knot.
func (k *knot) shrink() core {
	held := make([]int, len(k.rules))
	for i := range held {
		held[i] = i
	}
	slices.SortStableFunc(held, func(a, b int) int {
		return cmp.Compare(k.rules[a].strength(), k.rules[b].strength())
	})
	for size := max(len(held)/2, 1); ; size /= 2 {
		for i := 0; i < len(held); {
			rest := slices.Delete(slices.Clone(held), i, min(i+size, len(held)))
			if k.stuck(len(k.steps), k.pick(rest)) {
				held = rest
			} else {
				i += size
			}
		}
		if size == 1 {
			break
		}
	}
	return k.report(held)
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
