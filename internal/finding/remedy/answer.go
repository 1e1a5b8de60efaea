package remedy

import "slices"

// others is how many further sets a decision lists.
const others = 3

// set is a choice of acts, ascending, with its price.
type set struct {
	acts []int
	cost int64
}

// compareSets orders by price, then by the acts' indexes, which follow ids.
func compareSets(x, y set) int {
	if x.cost != y.cost {
		return int(min(max(x.cost-y.cost, -1), 1))
	}
	return slices.Compare(x.acts, y.acts)
}

// answer is the decision in plain integers, in the indexes of the whole.
type answer struct {
	best      set
	others    []set   // the next best, cheapest first
	conflicts [][]int // irreducible sets of needs that cannot be met; left out of the sets
	unknown   []int   // needs left out because the search was cut before any set was found
	flips     []flip
	bound     int64
	nodes     int
	cut       bool
}

// flip is what the best set becomes without the jobs of one act.
type flip struct {
	act     int
	instead []int // acts of its piece without them; none where nothing else will do
	never   bool
	own     int64 // price of those jobs
	more    int64 // what the set without them costs more
}

// work is a piece on its way to an answer.
type work struct {
	piece
	asked *problem // with conflicts taken out and the aim's limits set
	best  set
	known memory
}

// decide finds the best set for an aim within a number of search points. It
// never fails: needs that cannot be met are reported and left out.
func decide(p *problem, aim Aim, nodes int) answer {
	b, ans := &budget{left: nodes}, answer{}
	works := b.settle(p, &ans)
	days := int64(0)
	if aim == Soonest {
		for _, w := range works {
			days = max(days, b.leastDays(w.asked))
		}
	}
	for _, w := range works {
		switch aim {
		case Soonest:
			w.asked = w.asked.within(days, 0)
		case LongestLived:
			w.asked = w.asked.within(far, b.mostLife(w.asked))
		}
		w.known = memory{}
		r := b.solve(w.asked, limits{known: w.known})
		ans.bound += min(r.bound, far/4)
		if !r.found {
			ans.unknown = append(ans.unknown, w.musts()...)
			continue
		}
		w.best = set{w.asked.lean(r.acts, w.asked.words()), r.cost}
		ans.best.acts = append(ans.best.acts, w.whole(w.best.acts)...)
		ans.best.cost += r.cost
	}
	slices.Sort(ans.best.acts)
	for _, w := range works {
		b.flips(w, &ans)
	}
	for _, w := range works {
		b.nextBest(w, &ans)
	}
	slices.SortFunc(ans.flips, func(x, y flip) int { return x.act - y.act })
	ans.nodes, ans.cut = b.used, b.cut
	return ans
}

// settle cuts the problem into pieces and takes out of each what cannot be
// met, conflict by conflict. Pieces that ask for nothing are dropped.
func (b *budget) settle(p *problem, ans *answer) []*work {
	var works []*work
	for _, c := range split(p) {
		w := &work{piece: c, asked: c.problem}
		for len(w.musts()) > 0 {
			if yes, sure := b.possible(w.asked); yes || !sure {
				break
			}
			core := b.conflict(w.asked)
			gone := make([]bool, len(w.needs))
			var whole []int
			for _, n := range core {
				gone[n] = true
				whole = append(whole, w.need[n])
			}
			ans.conflicts = append(ans.conflicts, whole)
			w.asked = w.asked.without(gone)
		}
		if len(w.musts()) > 0 {
			works = append(works, w)
		}
	}
	slices.SortFunc(ans.conflicts, slices.Compare[[]int])
	return works
}

// musts lists the needs a piece is asked to meet.
func (w *work) musts() []int {
	var out []int
	for n := range w.asked.needs {
		if w.asked.needs[n].must {
			out = append(out, w.need[n])
		}
	}
	return out
}

// flips looks, for every shared decision of a piece's best set, at the best
// set without any of its jobs.
func (b *budget) flips(w *work, ans *answer) {
	word, done := w.asked.words(), make([]bool, len(w.acts))
	for _, a := range w.best.acts {
		ban := w.asked.jobMates(a)
		if done[a] || !w.asked.sharedActs(ban) || both(ban, word) {
			continue
		}
		for x := range ban {
			done[x] = done[x] || ban[x]
		}
		r := b.solve(w.asked, limits{ban: ban, known: w.known})
		if !r.found && r.cut {
			continue
		}
		rest := slices.DeleteFunc(slices.Clone(w.best.acts), func(x int) bool { return ban[x] })
		f := flip{act: w.act[a], own: w.best.cost - w.asked.priceOf(rest), never: !r.found}
		if r.found {
			f.instead, f.more = w.whole(w.asked.lean(r.acts, word)), r.cost-w.best.cost
		}
		ans.flips = append(ans.flips, f)
	}
}

// jobMates marks an act and all others that pay for a job of it.
func (p *problem) jobMates(a int) []bool {
	out := make([]bool, len(p.acts))
	for b := range p.acts {
		out[b] = slices.ContainsFunc(p.acts[b].jobs, func(j int) bool { return slices.Contains(p.acts[a].jobs, j) })
	}
	out[a] = true
	return out
}

func both(x, y []bool) bool {
	for i := range x {
		if x[i] && y[i] {
			return true
		}
	}
	return false
}

// sharedActs tells whether more than one must depends on some acts, or a size,
// or a value.
func (p *problem) sharedActs(marked []bool) bool {
	musts := map[int]bool{}
	for a, on := range marked {
		if !on {
			continue
		}
		for _, c := range p.acts[a].covers {
			if p.needs[c.need].must {
				musts[c.need] = true
			}
		}
		if p.acts[a].family || len(p.acts[a].effects) > 0 {
			return true
		}
	}
	return len(musts) > 1
}
