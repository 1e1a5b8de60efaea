package remedy

import "slices"

// tally is what the acts taken so far add up to, and scratch for the search.
type tally struct {
	paid   []int   // by job: how many taken acts pay for it
	active []int   // by effect: how many taken acts carry it
	cover  []int   // by need: how many taken acts cover it
	sum    []int64 // by need: value with the effects so far

	// for the open needs of the scope last parted:
	required []bool  // must still be covered, whatever comes
	out      []bool  // past its limits as things stand
	moving   []bool  // may still be moved by an undecided act
	up, down []int64 // what undecided acts can add at most

	reach []int64 // by job: open needs it could serve
	share []int64 // by need: least it can cost
	over  [][]int // by need: acts that could cover it
	seen  []int   // by job: the last need that counted it
	stamp int
	root  []int // by need, then by job: for parting
}

func newTally(p *problem) tally {
	n, j := len(p.needs), len(p.jobs)
	t := tally{paid: make([]int, j), active: make([]int, len(p.effects)), cover: make([]int, n), sum: make([]int64, n),
		required: make([]bool, n), out: make([]bool, n), moving: make([]bool, n), up: make([]int64, n), down: make([]int64, n),
		reach: make([]int64, j), share: make([]int64, n), seen: make([]int, j), over: make([][]int, n), root: make([]int, n+j)}
	for i := range p.needs {
		t.sum[i] = p.needs[i].value
	}
	return t
}

// take adds an act and gives what is newly paid for it.
func (t *tally) take(p *problem, a int) int64 {
	price := int64(0)
	for _, j := range p.acts[a].jobs {
		if t.paid[j] == 0 {
			price += p.jobs[j]
		}
		t.paid[j]++
	}
	for _, c := range p.acts[a].covers {
		t.cover[c.need]++
	}
	for _, e := range p.acts[a].effects {
		if t.active[e] == 0 {
			t.sum[p.effects[e].need] += p.effects[e].by
		}
		t.active[e]++
	}
	return price
}

// undo takes an act back.
func (t *tally) undo(p *problem, a int) {
	for _, j := range p.acts[a].jobs {
		t.paid[j]--
	}
	for _, c := range p.acts[a].covers {
		t.cover[c.need]--
	}
	for _, e := range p.acts[a].effects {
		t.active[e]--
		if t.active[e] == 0 {
			t.sum[p.effects[e].need] -= p.effects[e].by
		}
	}
}

// judge tells how an uncovered need stands. An effect that two undecided acts
// carry is counted twice, which only widens the span.
func (t *tally) judge(p *problem, n int) {
	need := &p.needs[n]
	t.required[n], t.out[n] = need.must, false
	if need.must || !need.judged {
		return
	}
	t.out[n] = t.sum[n] < need.low || t.sum[n] > need.high
	t.required[n] = t.sum[n]+t.up[n] < need.low || t.sum[n]+t.down[n] > need.high
}

// idle tells which acts of a set could be left out, each by itself.
func (p *problem) idle(acts []int) []int {
	t := newTally(p)
	for _, a := range acts {
		t.take(p, a)
	}
	var out []int
	for _, a := range acts {
		t.undo(p, a)
		if t.met(p) {
			out = append(out, a)
		}
		t.take(p, a)
	}
	return out
}

// met tells whether every need is met, apart from words.
func (t *tally) met(p *problem) bool {
	for n := range p.needs {
		if t.judge(p, n); t.cover[n] == 0 && (t.required[n] || t.out[n]) {
			return false
		}
	}
	return true
}

// lean drops idle acts from a set, one at a time, except those that must stay.
// The cheapest set holds idle acts only where they cost nothing.
func (p *problem) lean(acts []int, stays []bool) []int {
	for {
		i := slices.IndexFunc(p.idle(acts), func(a int) bool { return !stays[a] })
		if i < 0 {
			return acts
		}
		a := p.idle(acts)[i]
		acts = slices.DeleteFunc(slices.Clone(acts), func(b int) bool { return a == b })
	}
}
