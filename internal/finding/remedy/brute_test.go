package remedy

import (
	"math/rand/v2"
	"slices"
)

// The second route: every subset of acts, looked at one by one. It shares no
// code with the search but the types.

// allowed tells whether a subset (bits over acts) meets a problem.
func allowed(p *problem, bits int) bool {
	covered := make([]bool, len(p.needs))
	moved := make([]int64, len(p.needs))
	done := map[int]bool{}
	for a, act := range p.acts {
		if bits&(1<<a) == 0 {
			continue
		}
		if act.barred || act.family && !someSize(p, a) {
			return false
		}
		for _, c := range act.covers {
			covered[c.need] = true
		}
		for _, e := range act.effects {
			if !done[e] {
				done[e] = true
				moved[p.effects[e].need] += p.effects[e].by
			}
		}
	}
	for i, n := range p.needs {
		if n.word >= 0 && bits&(1<<n.word) == 0 {
			return false
		}
		if n.must && !covered[i] {
			return false
		}
		if v := n.value + moved[i]; !n.must && n.judged && !covered[i] && (v < n.low || v > n.high) {
			return false
		}
	}
	return true
}

// someSize tries the sizes of a family one by one on every member.
func someSize(p *problem, a int) bool {
	sizes, asked := slices.Clone(p.acts[a].sizes), map[int64]bool{}
	for _, n := range p.needs {
		if n.word == a && n.size > 0 {
			asked[n.size] = true
		}
	}
	if len(asked) > 0 {
		sizes = nil
		for s := range asked {
			sizes = append(sizes, s)
		}
		if len(asked) > 1 {
			return false
		}
	}
	for _, s := range sizes {
		fits := true
		for _, w := range p.acts[a].wears {
			fits = fits && w <= s
		}
		if fits {
			return true
		}
	}
	return false
}

// totals gives price, longest lead time and least life of a subset.
func totals(p *problem, bits int) (cost, days, life int64) {
	paid, lives := map[int]bool{}, make([]int64, len(p.needs))
	for a, act := range p.acts {
		if bits&(1<<a) == 0 {
			continue
		}
		days = max(days, act.days)
		for _, j := range act.jobs {
			if !paid[j] {
				paid[j] = true
				cost += p.jobs[j]
			}
		}
		for _, c := range act.covers {
			lives[c.need] = max(lives[c.need], c.life)
		}
	}
	life = 1000
	for i, n := range p.needs {
		if n.must && n.word < 0 {
			life = min(life, lives[i])
		}
	}
	return cost, days, life
}

// allAllowed lists every subset that meets a problem.
func allAllowed(p *problem) []int {
	var out []int
	for bits := range 1 << len(p.acts) {
		if allowed(p, bits) {
			out = append(out, bits)
		}
	}
	return out
}

// minimal tells whether no single act can be left out of a subset.
func minimal(p *problem, bits int) bool {
	for a := range p.acts {
		if bits&(1<<a) != 0 && allowed(p, bits&^(1<<a)) {
			return false
		}
	}
	return true
}

func bitsOf(acts []int) int {
	bits := 0
	for _, a := range acts {
		bits |= 1 << a
	}
	return bits
}

// randomProblem makes a small case: up to 8 needs and 13 acts, with shared
// jobs, mends, effects, families and words.
func randomProblem(r *rand.Rand, withEffects bool) *problem {
	p := &problem{}
	for range 2 + r.IntN(7) {
		n := need{must: r.IntN(4) > 0, word: -1, judged: true, value: int64(r.IntN(20)), low: 0, high: 20}
		p.needs = append(p.needs, n)
	}
	for range 4 + r.IntN(8) {
		p.jobs = append(p.jobs, int64(r.IntN(60)))
	}
	if withEffects {
		for range 1 + r.IntN(5) {
			p.effects = append(p.effects, effect{r.IntN(len(p.needs)), int64(r.IntN(41) - 20)})
		}
	}
	for range 4 + r.IntN(10) {
		p.acts = append(p.acts, randomAct(r, p))
	}
	for n := range p.needs {
		if p.needs[n].must && r.IntN(12) == 0 {
			a := r.IntN(len(p.acts))
			if slices.ContainsFunc(p.acts[a].covers, func(c cover) bool { return c.need == n }) {
				p.needs[n].word = a
				if p.acts[a].family && r.IntN(2) == 0 {
					p.needs[n].size = p.acts[a].sizes[r.IntN(3)]
				}
			}
		}
	}
	return p
}

func randomAct(r *rand.Rand, p *problem) act {
	a := act{jobs: []int{r.IntN(len(p.jobs))}, days: int64(r.IntN(6))}
	for _, n := range r.Perm(len(p.needs))[:min(len(p.needs), 1+max(0, r.IntN(6)-3))] {
		a.covers = append(a.covers, cover{n, int64(r.IntN(5)) * 250})
	}
	if len(p.effects) > 0 && r.IntN(3) == 0 {
		a.effects = append(a.effects, r.IntN(len(p.effects)))
		if e := r.IntN(len(p.effects)); e != a.effects[0] {
			a.effects = append(a.effects, e)
		}
	}
	if r.IntN(5) == 0 {
		a.family, a.sizes = true, []int64{25, 50, 75}
		for range 1 + r.IntN(3) {
			a.wears = append(a.wears, int64(r.IntN(85)))
		}
		if j := r.IntN(len(p.jobs)); j != a.jobs[0] {
			a.jobs = append(a.jobs, j)
		}
	}
	return a
}
