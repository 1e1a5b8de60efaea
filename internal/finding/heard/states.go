package heard

import (
	"slices"

	"matchmark/internal/machine"
)

// states are the words for how a fastener came out.
var states = map[string]string{"broken": "broken", "broke": "broken", "snapped": "broken", "sheared": "broken", "sheered": "broken", "missing": "missing", "lost": "missing",
	"absent": "missing", "stretched": "stretched", "necked": "stretched", "bent": "bent", "rounded": "rounded", "chewed": "rounded", "mangled": "rounded",
	"stripped": "stripped", "seized": "seized", "loose": "loose"}

// small words between a count and its state.
var linking = []string{"is", "was", "are", "were", "of", "them", "the", "has", "have", "had", "been", "got", "badly", "already", "clean", "all", "came", "out", "off", "in"}

// state reads "one broken", "both bent", "2 of them missing", "sheared one".
func (r *reader) state() {
	for i := range r.w {
		if state, ok := states[r.free(i).text]; ok && len(r.sets) > 0 {
			from, to := r.stateAt(i, state)
			r.take(from, to, Fasteners)
		}
	}
}

// stateAt gives a state to the set it speaks of; the words from from up to to
// say so, none where it speaks of no set.
func (r *reader) stateAt(i int, state string) (from, to int) {
	at := i - 1 // the word in front that counts
	for r.at(at).taken == Between && slices.Contains(linking, r.at(at).text) {
		at--
	}
	to = i + 1
	if r.is(to, "off", "out", "over") {
		to++
	}
	own := r.setEnding(at)
	switch {
	case own >= 0 && r.free(to).count() > 0 && (to+1 >= len(r.w) || r.at(to+1).breaks()): // "sheared one"
		r.few(own, r.w[to].count(), i, to+1, state)
		return i, to + 1
	case own > 0 && r.partOf(own): // "4 M8x25, one bolt broken"
		r.split(own-1, own, state)
		r.sets[own].to = to
		return at + 1, to
	case own >= 0: // "4 M8x25 stretched"
		r.sets[own].State, r.sets[own].to = state, to
		return at + 1, to
	case r.free(at).count() > 0: // "4 M8x25, one broken"
		from = at
		if r.is(at-1, "and", "with") {
			from--
		}
		r.few(r.before(at), r.w[at].count(), from, to, state)
		return from, to
	}
	for _, k := range []int{at, i - 1, i - 2} { // "both bent", "all of them bent"
		if r.is(k, "all", "both") {
			r.sets[r.before(i)].State = state
			return k, to
		}
	}
	return i, i
}

// few takes some pieces out of a set, as said from word from up to word to.
func (r *reader) few(whole, count, from, to int, state string) {
	r.sets = append(r.sets, set{Fastener: machine.Fastener{Count: count}, from: from, to: to, of: -1})
	r.split(whole, len(r.sets)-1, state)
}

// before is the set said last before word i.
func (r *reader) before(i int) int {
	best := 0
	for k, s := range r.sets {
		if s.from < i && s.of < 0 && s.size+s.noun != "" && s.from >= r.sets[best].from {
			best = k
		}
	}
	return best
}

// setEnding finds the set whose last word is word i.
func (r *reader) setEnding(i int) int {
	for k, s := range r.sets {
		if s.to == i+1 {
			return k
		}
	}
	return -1
}

// partOf tells whether a set is a few of the one before: "4 M8x25, one bolt
// broken".
func (r *reader) partOf(k int) bool {
	s, whole := r.sets[k], r.sets[k-1]
	plus := r.is(s.from-1, "plus", "another", "extra")
	return s.size == "" && s.Count <= whole.Count && (s.noun == whole.noun || whole.noun == "") && !plus && whole.State == ""
}

// split takes the pieces of set k out of set whole.
func (r *reader) split(whole, k int, state string) {
	s, w := &r.sets[k], &r.sets[whole]
	s.State, s.size, s.noun, s.of = state, w.size, w.noun, whole
	if s.Where == "" {
		s.Where = w.Where
	}
	if s.Count <= w.Count && !r.is(s.from-1, "plus", "another") {
		w.Count -= s.Count
	}
}
