package remedy

// tally is what the decisions so far add up to.
type tally struct {
	cost     int64
	paid     []bool  // by job
	active   []bool  // by effect
	cover    []int   // by need: how many taken acts cover it
	sum      []int64 // by need: value with the effects so far
	required []bool  // by need: must still be covered, whatever comes
	out      []bool  // by need: past its limits as things stand, and not covered
	up, down []int64 // by need: what undecided effects can still add
	reach    []int64 // by job: required needs it could serve
	share    []int64 // by need: least it can cost
	stamp    int
}

func newTally(p *problem) tally {
	n := len(p.needs)
	return tally{paid: make([]bool, len(p.jobs)), active: make([]bool, len(p.effects)), cover: make([]int, n),
		sum: make([]int64, n), required: make([]bool, n), out: make([]bool, n), up: make([]int64, n),
		down: make([]int64, n), reach: make([]int64, len(p.jobs)), share: make([]int64, n)}
}

// count works the tally out anew.
func (t *tally) count(p *problem, state []int8, shared []int, word []bool) {
	t.stamp++
	t.cost = 0
	clear(t.paid)
	clear(t.active)
	clear(t.cover)
	for n := range p.needs {
		t.sum[n], t.up[n], t.down[n] = p.needs[n].value, 0, 0
	}
	for a, on := range word {
		if on {
			t.take(p, a)
		}
	}
	for _, a := range shared {
		if state[a] == taken {
			t.take(p, a)
		}
	}
	for _, a := range shared {
		if state[a] == undecided {
			t.mayMove(p, a)
		}
	}
	for n := range p.needs {
		t.judge(n, &p.needs[n])
	}
}

// take adds a taken act.
func (t *tally) take(p *problem, a int) {
	for _, j := range p.acts[a].jobs {
		if !t.paid[j] {
			t.paid[j] = true
			t.cost += p.jobs[j]
		}
	}
	for _, c := range p.acts[a].covers {
		t.cover[c.need]++
	}
	for _, e := range p.acts[a].effects {
		if !t.active[e] {
			t.active[e] = true
			t.sum[p.effects[e].need] += p.effects[e].by
		}
	}
}

// mayMove adds what an undecided act could still do to values. An effect that
// two acts carry is counted twice, which only widens the span.
func (t *tally) mayMove(p *problem, a int) {
	for _, e := range p.acts[a].effects {
		if t.active[e] {
			continue
		}
		by := p.effects[e].by
		if by > 0 {
			t.up[p.effects[e].need] += by
		} else {
			t.down[p.effects[e].need] += by
		}
	}
}

// judge tells whether a need is still to be covered.
func (t *tally) judge(n int, need *need) {
	t.required[n], t.out[n] = need.must && t.cover[n] == 0, false
	if t.cover[n] > 0 || need.must || !need.judged {
		return
	}
	t.out[n] = t.sum[n] < need.low || t.sum[n] > need.high
	t.required[n] = t.sum[n]+t.up[n] < need.low || t.sum[n]+t.down[n] > need.high
}
