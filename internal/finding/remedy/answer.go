package remedy

import "slices"

// wanted is how many sets a decision lists: the best and three more.
const wanted = 4

// answer is the decision in plain integers, in the indexes of the whole.
type answer struct {
	sets      []set   // best first; the first is empty where nothing is needed
	conflicts [][]int // irreducible sets of needs that cannot be met; left out of the sets
	unknown   []int   // needs left out because the search was cut before any set was found
	flips     []flip
	bound     int64
	nodes     int
	cut       bool
}

// flip is what the best set becomes without one shared act.
type flip struct {
	act     int
	instead set // without it; no acts where nothing else will do
	never   bool
	own     int64 // price of the act's jobs that no other taken act shares
	more    int64 // what the set without it costs more
}

// work is a piece on its way to an answer.
type work struct {
	piece
	asked *problem // with conflicts taken out and the aim's limits set
	found result
}

// decide finds the best sets for an aim within a number of search points. It
// never fails: needs that cannot be met are reported and left out.
func decide(p *problem, aim Aim, nodes int) answer {
	b := &budget{left: nodes}
	ans := answer{sets: []set{{}}}
	var works []*work
	days := int64(0)
	for _, c := range split(p) {
		w := &work{piece: c, asked: c.problem}
		if len(w.musts()) == 0 {
			continue
		}
		b.settle(w, &ans)
		if aim == Soonest {
			days = max(days, b.leastDays(w.asked))
		}
		works = append(works, w)
	}
	for _, w := range works {
		switch aim {
		case Soonest:
			w.asked = w.asked.within(days, 0)
		case LongestLived:
			w.asked = w.asked.within(far, b.mostLife(w.asked))
		}
		w.found = b.solve(w.asked, wanted, false, nil)
		ans.bound += min(w.found.bound, far/2)
		if len(w.found.sets) == 0 {
			ans.unknown = append(ans.unknown, w.musts()...)
			continue
		}
		ans.sets = join(ans.sets, w)
	}
	for _, w := range works {
		b.flips(w, &ans)
	}
	slices.SortFunc(ans.conflicts, slices.Compare[[]int])
	ans.nodes, ans.cut = b.used, b.cut
	return ans
}

// settle takes out of a piece what cannot be met, conflict by conflict.
func (b *budget) settle(w *work, ans *answer) {
	for {
		if yes, sure := b.possible(w.asked); yes || !sure {
			return
		}
		core := b.conflict(w.asked)
		if len(core) == 0 {
			return
		}
		gone := make([]bool, len(w.needs))
		var whole []int
		for _, n := range core {
			gone[n] = true
			whole = append(whole, w.need[n])
		}
		ans.conflicts = append(ans.conflicts, whole)
		w.asked = w.asked.without(gone)
	}
}

// musts lists the needs a piece was asked to meet.
func (w *work) musts() []int {
	var out []int
	for n := range w.asked.needs {
		if w.asked.needs[n].must {
			out = append(out, w.need[n])
		}
	}
	return out
}

// join puts the sets of a piece behind those found so far and keeps the best.
func join(sets []set, w *work) []set {
	var out []set
	for _, s := range sets {
		for _, t := range w.found.sets {
			acts := append(slices.Clone(s.acts), w.whole(t.acts)...)
			slices.Sort(acts)
			out = append(out, set{acts: acts, cost: s.cost + t.cost})
		}
	}
	return firstSets(out, wanted)
}

// flips looks, for every shared act of the best set of a piece, at the best
// set without it.
func (b *budget) flips(w *work, ans *answer) {
	if len(w.found.sets) == 0 {
		return
	}
	best, word := w.found.sets[0], w.asked.words()
	for _, a := range best.acts {
		if word[a] || !w.asked.sharedAct(a) {
			continue
		}
		ban := make([]bool, len(w.acts))
		ban[a] = true
		r := b.solve(w.asked, 1, false, ban)
		if len(r.sets) == 0 && r.cut {
			continue
		}
		f := flip{act: w.act[a], own: best.cost - w.asked.priceOf(slices.DeleteFunc(slices.Clone(best.acts), func(x int) bool { return x == a }))}
		if f.never = len(r.sets) == 0; !f.never {
			f.instead = set{acts: w.whole(r.sets[0].acts), cost: r.sets[0].cost}
			f.more = r.sets[0].cost - best.cost
		}
		ans.flips = append(ans.flips, f)
	}
	slices.SortFunc(ans.flips, func(x, y flip) int { return x.act - y.act })
}

// sharedAct tells whether more than one must depends on an act.
func (p *problem) sharedAct(a int) bool {
	musts := 0
	for _, c := range p.acts[a].covers {
		if p.needs[c.need].must {
			musts++
		}
	}
	return musts > 1 || p.acts[a].family || len(p.acts[a].effects) > 0
}
