package remedy

import (
	"cmp"
	"math/rand/v2"
	"slices"
	"testing"
)

const plenty = 1 << 20

// best picks the subset that an aim prefers among all that are allowed.
func best(p *problem, all []int, aim Aim) (cost, days, life int64, ok bool) {
	for _, bits := range all {
		c, d, l := totals(p, bits)
		better := !ok
		switch aim {
		case Cheapest:
			better = better || c < cost
		case Soonest:
			better = better || cmp.Or(cmp.Compare(d, days), cmp.Compare(c, cost)) < 0
		case LongestLived:
			better = better || l > life
		}
		if better {
			cost, days, life, ok = c, d, l, true
		}
	}
	return cost, days, life, ok
}

// Second route: full enumeration of 1,000 small cases.
func TestDecideEqualsEnumeration(t *testing.T) {
	met, unmet := 0, 0
	for seed := range uint64(1000) {
		p := randomProblem(rand.New(rand.NewPCG(seed, 7)), seed%4 != 0)
		all := allAllowed(p)
		for _, aim := range Aims() {
			got := decide(p, aim, plenty)
			cost, days, life, ok := best(p, all, aim)
			if ok != (len(got.conflicts) == 0) {
				t.Fatalf("case %d, %s: conflicts %v, but enumeration says possible: %v", seed, aim, got.conflicts, ok)
			}
			if !ok {
				unmet++
				checkConflicts(t, seed, p, got)
				continue
			}
			met++
			bits := bitsOf(got.best.acts)
			if !allowed(p, bits) {
				t.Fatalf("case %d, %s: set %v does not meet the needs", seed, aim, got.best.acts)
			}
			c, d, l := totals(p, bits)
			if c != got.best.cost {
				t.Fatalf("case %d, %s: says it costs %d, adds up to %d", seed, aim, got.best.cost, c)
			}
			switch aim {
			case Cheapest:
				if c != cost || got.bound != c {
					t.Fatalf("case %d: cheapest %d (bound %d), enumeration %d", seed, c, got.bound, cost)
				}
			case Soonest:
				if d != days || c != cost {
					t.Fatalf("case %d: soonest %d days at %d, enumeration %d at %d", seed, d, c, days, cost)
				}
			case LongestLived:
				if l != life {
					t.Fatalf("case %d: least life %d, enumeration %d", seed, l, life)
				}
			}
		}
	}
	t.Logf("%d decisions met, %d with conflicts", met, unmet)
	if met < 500 || unmet < 300 {
		t.Errorf("the cases are too one-sided to test anything: %d met, %d not", met, unmet)
	}
}

// Every conflict is one by itself, and any member left out makes the rest of
// it possible. No two conflicts share a need.
func checkConflicts(t *testing.T, seed uint64, p *problem, got answer) {
	t.Helper()
	gone := make([]bool, len(p.needs))
	for _, core := range got.conflicts {
		only := func(left int) *problem {
			away := make([]bool, len(p.needs))
			for n := range p.needs {
				away[n] = away[n] || p.needs[n].must && (!slices.Contains(core, n) || n == left)
			}
			return p.without(away)
		}
		if len(allAllowed(only(-1))) > 0 {
			t.Fatalf("case %d: %v is no conflict", seed, core)
		}
		for _, n := range core {
			if len(allAllowed(only(n))) == 0 {
				t.Fatalf("case %d: %v is still a conflict without %d", seed, core, n)
			}
		}
		for _, n := range core {
			if gone[n] {
				t.Fatalf("case %d: need %d is in two conflicts", seed, n)
			}
			gone[n] = true
		}
	}
	rest := p.without(gone)
	cost, _, _, ok := best(rest, allAllowed(rest), Cheapest)
	if !ok || !allowed(rest, bitsOf(got.best.acts)) || got.best.cost < cost {
		t.Fatalf("case %d: the rest of the plan, %v, does not meet what is left", seed, got.best)
	}
}

// What a longest-lived set costs: least among those that last as long, each
// need held to the best it can get.
func TestLongestLivedCostsLeast(t *testing.T) {
	for seed := range uint64(400) {
		p := randomProblem(rand.New(rand.NewPCG(seed, 11)), seed%2 == 0)
		for _, c := range split(p) {
			all := allAllowed(c.problem)
			if len(all) == 0 {
				continue
			}
			want, life := int64(far), int64(-1)
			for _, bits := range all {
				cost, l := cappedLife(c.problem, bits)
				if l > life || l == life && cost < want {
					want, life = cost, l
				}
			}
			if got := decide(c.problem, LongestLived, plenty).best.cost; got != want {
				t.Fatalf("case %d: longest-lived set costs %d, enumeration %d", seed, got, want)
			}
		}
	}
}

// cappedLife is the greatest T with every must at least min(T, its best); the
// best is over acts that can be taken at all.
func cappedLife(p *problem, bits int) (cost, life int64) {
	cost, _, _ = totals(p, bits)
	life = 1000
	for i, n := range p.needs {
		if !n.must || n.word >= 0 {
			continue
		}
		got, most := int64(0), int64(0)
		for a, act := range p.acts {
			for _, c := range act.covers {
				if c.need != i || act.family && !someSize(p, a) {
					continue
				}
				most = max(most, c.life)
				if bits&(1<<a) != 0 {
					got = max(got, c.life)
				}
			}
		}
		if got < most {
			life = min(life, got)
		}
	}
	return cost, life
}

// The next-best sets are all the irredundant sets there are, in order.
func TestNextBestEqualsEnumeration(t *testing.T) {
	for seed := range uint64(900) {
		p := randomProblem(rand.New(rand.NewPCG(seed, 23)), seed%3 == 0)
		got := decide(p, Cheapest, plenty)
		if len(got.conflicts) > 0 {
			continue
		}
		var want []int64
		for _, bits := range allAllowed(p) {
			if minimal(p, bits) {
				c, _, _ := totals(p, bits)
				want = append(want, c)
			}
		}
		slices.Sort(want)
		seen := map[int]bool{}
		for i, s := range append([]set{got.best}, got.others...) {
			bits := bitsOf(s.acts)
			c, _, _ := totals(p, bits)
			if seen[bits] || !allowed(p, bits) || !minimal(p, bits) || c != s.cost {
				t.Fatalf("case %d: set %v comes twice, fails, holds something idle or costs %d", seed, s, c)
			}
			seen[bits] = true
			if len(p.effects) == 0 && s.cost != want[i] {
				t.Fatalf("case %d: set %d costs %d, enumeration %d", seed, i, s.cost, want[i])
			}
		}
		if len(p.effects) == 0 && len(got.others) != min(others, len(want)-1) {
			t.Fatalf("case %d: %d further sets, enumeration has %d", seed, len(got.others), len(want)-1)
		}
	}
}

// withoutJobsOf bars every act that pays for a job of an act.
func withoutJobsOf(p *problem, a int) *problem {
	q := *p
	q.acts = slices.Clone(p.acts)
	for b := range q.acts {
		if slices.ContainsFunc(q.acts[b].jobs, func(j int) bool { return slices.Contains(p.acts[a].jobs, j) }) {
			q.acts[b].barred = true
		}
	}
	return &q
}

// The best set holds nothing that could be left out.
func TestBestIsLean(t *testing.T) {
	for seed := range uint64(500) {
		p := randomProblem(rand.New(rand.NewPCG(seed, 37)), true)
		got := decide(p, Cheapest, plenty)
		if bits := bitsOf(got.best.acts); len(got.conflicts) == 0 && !minimal(p, bits) {
			t.Fatalf("case %d: %v holds something idle", seed, got.best.acts)
		}
	}
}

// A flip is the best set without the jobs of an act, by enumeration.
func TestFlipEqualsEnumeration(t *testing.T) {
	flips := 0
	for seed := range uint64(600) {
		p := randomProblem(rand.New(rand.NewPCG(seed, 29)), seed%2 == 0)
		got := decide(p, Cheapest, plenty)
		if len(got.conflicts) > 0 {
			continue
		}
		for _, f := range got.flips {
			flips++
			q := withoutJobsOf(p, f.act)
			want, _, _, ok := best(q, allAllowed(q), Cheapest)
			if ok == f.never || ok && got.best.cost+f.more != want {
				t.Fatalf("case %d: without act %d: never %v, %d more; enumeration %d, %v", seed, f.act, f.never, f.more, want, ok)
			}
		}
	}
	if flips < 100 {
		t.Errorf("only %d flips were looked at", flips)
	}
}

// A search cut short says so, and its bound never exceeds the true best.
func TestCutSearchBounds(t *testing.T) {
	cut := 0
	for seed := range uint64(300) {
		p := randomProblem(rand.New(rand.NewPCG(seed, 31)), seed%2 == 0)
		want, _, _, ok := best(p, allAllowed(p), Cheapest)
		if !ok {
			continue
		}
		for _, nodes := range []int{0, 3, 9} {
			got := decide(p, Cheapest, nodes)
			if len(got.conflicts) > 0 {
				t.Fatalf("case %d, %d nodes: says impossible", seed, nodes)
			}
			if got.bound > want {
				t.Fatalf("case %d, %d nodes: bound %d above the best %d", seed, nodes, got.bound, want)
			}
			if got.nodes > nodes {
				t.Fatalf("case %d: looked at %d of %d", seed, got.nodes, nodes)
			}
			if len(got.unknown) == 0 && (got.best.cost < want || got.best.cost > want && !got.cut) {
				t.Fatalf("case %d, %d nodes: %d against %d, cut %v", seed, nodes, got.best.cost, want, got.cut)
			}
			if got.cut {
				cut++
			}
		}
	}
	if cut < 100 {
		t.Errorf("only %d searches were cut", cut)
	}
}
