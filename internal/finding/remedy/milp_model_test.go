package remedy

import (
	"fmt"
	"slices"
	"strings"
)

// The third route: the same problem as a mixed integer linear program, for
// solvers that know nothing of it. Every part of a problem is linear:
//
//	xA  act A is taken               yJ  job J is paid: y ≥ x
//	zE  effect E works: z ≥ x, z ≤ Σx over the acts that carry it
//	cN  judged need N may be past its limits: c ≤ Σx over the acts that cover it
//	sAK family A takes size K: Σs = x, Σsize·s ≥ wear·x for each wear
//	D   longest lead time: D ≥ days·x
//	tK  every need lasts as long as level K, or as long as it can: Σt = 1,
//	    Σx over the acts that last so long ≥ t
//
// The format is that of CPLEX LP files, which GLPK and CBC both read.
type program struct {
	p     *problem
	goal  []string
	rows  []string
	zeroS []string // 0-1
	whole []string // other integers
}

// scale is more than any set costs, so that a day or a level outweighs it.
func (p *problem) scale() int64 {
	sum := int64(1)
	for _, c := range p.jobs {
		sum += c
	}
	return sum
}

// milpOf writes a problem for an aim.
func milpOf(p *problem, aim Aim) string {
	g := &program{p: p}
	for j, c := range p.jobs {
		g.goal = append(g.goal, term(c, "y", j))
		g.zeroS = append(g.zeroS, fmt.Sprint("y", j))
	}
	for a := range p.acts {
		g.act(a)
	}
	for e := range p.effects {
		g.effect(e)
	}
	for n := range p.needs {
		g.need(n)
	}
	switch aim {
	case Soonest:
		g.soonest()
	case LongestLived:
		g.longest()
	}
	return g.text()
}

func term(by int64, name string, at ...int) string {
	for i, n := range at {
		if i > 0 {
			name += "_"
		}
		name += fmt.Sprint(n)
	}
	return fmt.Sprintf("%+d %s", by, name)
}

// row adds a condition: terms, a sign and a bound.
func (g *program) row(terms []string, sign string, bound int64) {
	g.rows = append(g.rows, fmt.Sprintf("r%d: %s %s %d", len(g.rows), strings.Join(terms, "\n  "), sign, bound))
}

func (g *program) act(a int) {
	act := &g.p.acts[a]
	g.zeroS = append(g.zeroS, fmt.Sprint("x", a))
	for _, j := range act.jobs {
		g.row([]string{term(1, "y", j), term(-1, "x", a)}, ">=", 0)
	}
	if act.barred {
		g.row([]string{term(1, "x", a)}, "=", 0)
	}
	if act.family {
		g.family(a)
	}
}

// family takes one size that reaches every wear; a size asked for by a person's
// word is the only one there is.
func (g *program) family(a int) {
	act, sizes := &g.p.acts[a], g.p.acts[a].sizes
	var asked []int64
	for _, n := range g.p.needs {
		if n.word == a && n.size > 0 {
			asked = append(asked, n.size)
		}
	}
	if len(asked) > 0 {
		sizes = asked
	}
	one, reach := []string{term(-1, "x", a)}, []string{}
	for k, s := range sizes {
		g.zeroS = append(g.zeroS, fmt.Sprintf("s%d_%d", a, k))
		one = append(one, term(1, "s", a, k))
		reach = append(reach, term(s, "s", a, k))
	}
	g.row(one, "=", 0)
	for _, w := range act.wears {
		g.row(append(slices.Clone(reach), term(-w, "x", a)), ">=", 0)
	}
	for _, s := range asked {
		g.row(append(slices.Clone(reach), term(-s, "x", a)), "=", 0)
	}
}

func (g *program) effect(e int) {
	g.zeroS = append(g.zeroS, fmt.Sprint("z", e))
	any := []string{term(-1, "z", e)}
	for a, act := range g.p.acts {
		if slices.Contains(act.effects, e) {
			g.row([]string{term(1, "z", e), term(-1, "x", a)}, ">=", 0)
			any = append(any, term(1, "x", a))
		}
	}
	g.row(any, ">=", 0)
}

func (g *program) need(n int) {
	need := &g.p.needs[n]
	if need.word >= 0 {
		g.row([]string{term(1, "x", need.word)}, "=", 1)
	}
	covering := g.covering(n, 0)
	switch {
	case need.must:
		g.row(append(covering, term(0, "y", 0)), ">=", 1)
	case need.judged:
		name := fmt.Sprint("c", n)
		g.zeroS = append(g.zeroS, name)
		g.row(append(covering, "-1 "+name), ">=", 0)
		span, moved := int64(1), []string{}
		for e, f := range g.p.effects {
			if f.need == n {
				span += max(f.by, -f.by)
				moved = append(moved, term(f.by, "z", e))
			}
		}
		span += max(0, need.value-need.high, need.low-need.value)
		g.row(append(slices.Clone(moved), fmt.Sprintf("-%d %s", span, name)), "<=", need.high-need.value)
		g.row(append(moved, fmt.Sprintf("+%d %s", span, name)), ">=", need.low-need.value)
	}
}

// covering lists the acts that make a need last at least so long.
func (g *program) covering(n int, life int64) []string {
	var out []string
	for a, act := range g.p.acts {
		if slices.ContainsFunc(act.covers, func(c cover) bool { return c.need == n && c.life >= life }) {
			out = append(out, term(1, "x", a))
		}
	}
	return out
}

func (g *program) soonest() {
	g.goal = append(g.goal, fmt.Sprintf("+%d D", g.p.scale()))
	g.whole = append(g.whole, "D")
	for a, act := range g.p.acts {
		g.row([]string{"+1 D", term(-act.days, "x", a)}, ">=", 0)
	}
}

// longest holds every need without a word to one level, and those that cannot
// last so long to the best of theirs. It is meant for a piece that does not
// fall apart, for each piece has a level of its own.
func (g *program) longest() {
	levels := []int64{0}
	for _, act := range g.p.acts {
		for _, c := range act.covers {
			levels = append(levels, c.life)
		}
	}
	slices.Sort(levels)
	levels = slices.Compact(levels)
	one := []string{}
	for k, life := range levels {
		g.zeroS = append(g.zeroS, fmt.Sprint("t", k))
		g.goal = append(g.goal, term(-int64(k)*g.p.scale(), "t", k))
		one = append(one, term(1, "t", k))
		for n, need := range g.p.needs {
			if need.must && need.word < 0 {
				g.row(append(g.covering(n, min(life, g.mostLife(n))), term(-1, "t", k)), ">=", 0)
			}
		}
	}
	g.row(one, "=", 1)
}

// mostLife is the longest a need can be made to last by an act that can be taken.
func (g *program) mostLife(n int) int64 {
	most := int64(0)
	for a, act := range g.p.acts {
		if act.barred || act.family && !someSize(g.p, a) {
			continue
		}
		for _, c := range act.covers {
			if c.need == n {
				most = max(most, c.life)
			}
		}
	}
	return most
}

func (g *program) text() string {
	var b strings.Builder
	fmt.Fprintf(&b, "Minimize\n obj: %s\nSubject To\n", strings.Join(g.goal, "\n  "))
	for _, r := range g.rows {
		fmt.Fprintln(&b, r)
	}
	fmt.Fprintf(&b, "Binary\n %s\n", strings.Join(g.zeroS, "\n "))
	if len(g.whole) > 0 {
		fmt.Fprintf(&b, "General\n %s\n", strings.Join(g.whole, "\n "))
	}
	b.WriteString("End\n")
	return b.String()
}
