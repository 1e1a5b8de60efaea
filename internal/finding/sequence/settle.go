package sequence

import (
	"cmp"
	"slices"
)

// mostCores is how many contradictions are worked out; what is still stuck
// after that is left out of the order without a reason shown.
const mostCores = 16

// settled is a net in which every rule with several alternatives has been
// settled to one, so that what remains is plain before and after.
type settled struct {
	*net
	cores  []core
	pick   map[int]int // rule -> alternative
	extra  []pair      // edges of settled After rules
	jammed []int       // steps still stuck after mostCores contradictions
}

// settle chains forward over all but the guards, settles each After rule to
// the alternative that was met first, and then fills the order from its end to
// settle the guards. Where either pass is stuck it finds the contradiction,
// sets the weakest word of it aside and starts again.
//
// Exact where no step that an After rule with alternatives names can come to
// wait for a guarded step (see keepDryBuilds for the one that is seen to): then
// backward placing fails only if there is no order at all.
// late ranks steps for the backward pass, given their place in the forward
// order: the lowest comes last.
func settle(n int, rules []rule, early []int, late func(place []int) []int) *settled {
	s := &settled{}
	aside := make([]bool, len(rules))
	for {
		s.net = newNet(n, rules, aside)
		order, chosen, left := s.forward(early, nil)
		if len(left) > 0 {
			k := s.forwardKnot(left)
			if !s.setAside(k, aside) {
				s.jammed = left
				s.settleOrs(chosen)
				s.pickGuards(nil)
				return s
			}
			continue
		}
		s.settleOrs(chosen)
		place := make([]int, n)
		for i, step := range order {
			place[step] = i
		}
		met, left := s.backwards(s.extra).fill(late(place), -1)
		if len(left) == 0 {
			s.aroundCores(early, chosen)
			s.pickGuards(met)
			return s
		}
		k := s.backwardKnot(left, s.pickOrs(chosen))
		if !s.setAside(k, aside) {
			s.jammed = left
			s.pickGuards(met)
			return s
		}
	}
}

// setAside shrinks a knot to its core, keeps it, and sets its weakest rule
// aside. It tells whether there was room for one more.
func (s *settled) setAside(k knot, aside []bool) bool {
	if len(s.cores) == mostCores {
		return false
	}
	c := k.shrink()
	s.cores = append(s.cores, c)
	weakest := slices.MaxFunc(c.rules, func(a, b int) int {
		return cmp.Or(cmp.Compare(s.rules[a].strength(), s.rules[b].strength()), cmp.Compare(b, a))
	})
	for r := range s.rules {
		if w := s.rules[r].word; r == weakest || w > 0 && w == s.rules[weakest].word {
			aside[r] = true
		}
	}
	return true
}

// barred marks the steps named in contradictions; they are not to be done.
func (s *settled) barred() []bool {
	out := setOf(s.n, s.jammed)
	for _, c := range s.cores {
		for _, step := range c.steps {
			out[step] = true
		}
	}
	return out
}

// aroundCores settles After rules again by what can be had while the steps of
// contradictions are left alone; what cannot, stays settled anyhow.
func (s *settled) aroundCores(early, anyhow []int) {
	if len(s.cores) == 0 {
		return
	}
	_, chosen, _ := s.forward(early, s.barred())
	for i := range chosen {
		if chosen[i] < 0 {
			chosen[i] = anyhow[i]
		}
	}
	s.settleOrs(chosen)
}

func (s *settled) pickOrs(chosen []int) map[int]int {
	pick := map[int]int{}
	for i, r := range s.ors {
		if chosen[i] >= 0 {
			pick[r] = chosen[i]
		}
	}
	return pick
}

// settleOrs turns After rules into plain edges from the alternative met first.
func (s *settled) settleOrs(chosen []int) {
	s.pick = s.pickOrs(chosen)
	s.extra = nil
	for _, r := range s.ors {
		if alt, ok := s.pick[r]; ok {
			for _, l := range s.rules[r].any[alt] {
				s.extra = append(s.extra, pair{l, s.rules[r].step})
			}
		}
	}
}

// pickGuards notes which alternative met each guard; one that was not met
// falls to its first.
func (s *settled) pickGuards(met []int) {
	for i, r := range s.guards {
		s.pick[r] = 0
		if met != nil && met[i] >= 0 {
			s.pick[r] = met[i]
		}
	}
}

// link is a settled before-after pair and the rule it comes from.
type link struct{ from, to, rule int }

// links lists for every step the settled pairs that lead to it, each once and
// by the strongest rule, ordered by the step that goes first.
func (s *settled) links() [][]link {
	into := bucket(s.n, func(put func(int, link)) {
		for i := range s.rules {
			r := &s.rules[i]
			alt, settled := 0, len(r.any) == 1
			if len(r.any) > 1 {
				alt, settled = s.pick[i]
			}
			if !settled || !s.live(i) {
				continue
			}
			for _, l := range r.any[alt] {
				if r.before {
					put(l, link{r.step, l, i})
				} else {
					put(r.step, link{l, r.step, i})
				}
			}
		}
	})
	for to, list := range into {
		if len(list) < 2 {
			continue
		}
		slices.SortFunc(list, func(a, b link) int {
			if a.from != b.from {
				return a.from - b.from
			}
			return cmp.Or(s.rules[a.rule].strength()-s.rules[b.rule].strength(), a.rule-b.rule)
		})
		into[to] = slices.CompactFunc(list, func(a, b link) bool { return a.from == b.from })
	}
	return into
}
