package remedy

import "slices"

// branchOff is a part of all sets of a piece: those that hold some acts and
// not others; with the cheapest of them.
type branchOff struct {
	best set
	ban  []bool
	take []int
}

// nextBest finds the sets of a piece that come next in price and puts them, with
// the best of the other pieces, among the further sets of the answer.
//
// All sets but the best one are parted by the first act of the best one that
// they leave out, and the cheapest of each part is searched; the cheapest of
// those is next, and its part is parted again in the same way (E. L. Lawler
// 1972, from memory). Sets in which an act is idle are passed over. Where
// values are moved a set may hold two acts that only together are idle.
func (b *budget) nextBest(w *work, ans *answer) {
	word := w.asked.words()
	queue := b.branches(w, branchOff{best: w.best, ban: make([]bool, len(w.acts))}, word, ans)
	for tries := 0; len(queue) > 0 && tries < 4*others; tries++ {
		slices.SortStableFunc(queue, func(x, y branchOff) int { return compareSets(x.best, y.best) })
		next := queue[0]
		queue = queue[1:]
		if w.ceiling(ans) <= next.best.cost {
			return
		}
		if !slices.ContainsFunc(w.asked.idle(next.best.acts), func(a int) bool { return !word[a] }) {
			ans.keep(w, next.best)
		}
		queue = append(queue, b.branches(w, next, word, ans)...)
	}
}

// branches parts all sets that a branch holds, but its best, by the first act
// of that which they leave out.
func (b *budget) branches(w *work, from branchOff, word []bool, ans *answer) []branchOff {
	var out []branchOff
	take := slices.Clone(from.take)
	for _, a := range from.best.acts {
		if word[a] || slices.Contains(from.take, a) {
			continue
		}
		ban := slices.Clone(from.ban)
		ban[a] = true
		r := b.solve(w.asked, limits{ban: ban, take: take, below: w.ceiling(ans), known: w.known})
		if r.found {
			stays := slices.Clone(word)
			for _, t := range take {
				stays[t] = true
			}
			out = append(out, branchOff{set{w.asked.lean(r.acts, stays), r.cost}, ban, slices.Clone(take)})
		}
		take = append(take, a)
	}
	return out
}

// ceiling is the price from which a set of a piece is no longer wanted.
func (w *work) ceiling(ans *answer) int64 {
	if len(ans.others) < others {
		return far
	}
	return w.best.cost + ans.others[others-1].cost - ans.best.cost
}

// keep puts a set of a piece among the further sets, with what the other
// pieces have in the best set and in each of the sets kept before.
func (ans *answer) keep(w *work, s set) {
	old := append([]set{ans.best}, ans.others...)
	own := w.whole(w.best.acts)
	for _, o := range old {
		rest := slices.DeleteFunc(slices.Clone(o.acts), func(a int) bool { return slices.Contains(w.act, a) })
		same := slices.DeleteFunc(slices.Clone(o.acts), func(a int) bool { return !slices.Contains(w.act, a) })
		if !slices.Equal(same, own) {
			continue // differs in this piece already
		}
		acts := append(rest, w.whole(s.acts)...)
		slices.Sort(acts)
		ans.others = append(ans.others, set{acts, o.cost - w.best.cost + s.cost})
	}
	slices.SortFunc(ans.others, compareSets)
	ans.others = ans.others[:min(len(ans.others), others)]
}
