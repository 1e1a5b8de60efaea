package remedy

import "slices"

// set is a choice of acts, ascending, with its price.
type set struct {
	acts []int
	cost int64
}

// limits say how a search is run. Work is limited by count, never by time.
type limits struct {
	keep  int    // how many sets are wanted, best first
	any   bool   // stop at the first set
	nodes int    // points that may be looked at
	ban   []bool // acts not to be taken; nil for none
}

// result of a search. No sets and not cut means that there is none.
type result struct {
	sets  []set
	bound int64 // no set costs less
	nodes int
	cut   bool
}

// solve finds the cheapest sets that meet every need, the best first.
//
// Exact: it decides each act that several needs or values share, and prices
// the rest need by need; a branch is left when its bound reaches the last of
// the wanted sets. The bound counts what is paid, and for every need still
// open its cheapest act of its own or its share of an act not yet decided, the
// price split over all needs that act could cover. The sets are irredundant:
// none holds an act that could be left out.
// Cost: grows as 2^shared at worst; see BenchmarkSixtyChecks.
func solve(p *problem, lim limits) result {
	s := newSearch(p, lim)
	if s == nil {
		return result{bound: far}
	}
	s.node()
	r := result{sets: s.best, nodes: s.nodes, cut: s.cut, bound: s.open}
	if len(s.best) > 0 {
		r.bound = min(r.bound, s.best[0].cost)
	}
	return r
}

// pick is an act that serves one need only.
type pick struct {
	act  int
	cost int64
}

// State of an act in the search.
const (
	undecided = int8(iota)
	taken
	left
)

type search struct {
	p      *problem
	lim    limits
	shared []int    // acts to decide, in order
	own    [][]pick // for each need, acts that serve it alone, cheapest first
	state  []int8
	word   []bool
	best   []set
	nodes  int
	cut    bool
	open   int64 // least bound of what was not looked at
	t      tally
	seen   []int // job*needs+need: the last node that counted it
}

// newSearch sorts acts into shared ones and those of one need. It returns nil
// where a person's word cannot be carried out.
func newSearch(p *problem, lim limits) *search {
	s := &search{p: p, lim: lim, own: make([][]pick, len(p.needs)), state: make([]int8, len(p.acts)),
		word: p.words(), open: far, t: newTally(p), seen: make([]int, len(p.jobs)*len(p.needs))}
	users := make([]int, len(p.jobs))
	for a := range p.acts {
		banned := lim.ban != nil && lim.ban[a]
		if banned || !p.usable(a) {
			if s.word[a] {
				return nil
			}
			s.state[a] = left
			continue
		}
		for _, j := range p.acts[a].jobs {
			users[j]++
		}
	}
	for a, act := range p.acts {
		switch {
		case s.state[a] == left:
		case s.word[a]:
			s.state[a] = taken
		case len(act.covers) == 1 && len(act.effects) == 0 && !slices.ContainsFunc(act.jobs, func(j int) bool { return users[j] > 1 }):
			n := act.covers[0].need
			s.own[n] = append(s.own[n], pick{a, p.priceOf([]int{a})})
			s.state[a] = left
		default:
			s.shared = append(s.shared, a)
		}
	}
	for _, own := range s.own {
		slices.SortFunc(own, func(x, y pick) int {
			if x.cost != y.cost {
				return int(min(max(x.cost-y.cost, -1), 1))
			}
			return x.act - y.act
		})
	}
	return s
}

// node looks at one point of the search and all behind it.
func (s *search) node() {
	if s.lim.any && len(s.best) > 0 {
		return
	}
	s.t.count(s.p, s.state, s.shared, s.word)
	low := s.bound()
	if low >= s.ceiling() {
		return
	}
	if s.nodes >= s.lim.nodes {
		s.cut, s.open = true, min(s.open, low)
		return
	}
	s.nodes++
	a, first := s.branch()
	if a < 0 {
		s.leaf()
		return
	}
	s.state[a] = first
	s.node()
	s.state[a] = taken + left - first
	s.node()
	s.state[a] = undecided
}

// ceiling is the price from which a set is no longer wanted.
func (s *search) ceiling() int64 {
	if len(s.best) < s.lim.keep {
		return far
	}
	return s.best[len(s.best)-1].cost
}

// bound is the least any set behind this point can cost; far where there is none.
func (s *search) bound() int64 {
	t, width := &s.t, len(s.p.needs)
	clear(t.reach)
	for _, a := range s.shared {
		if s.state[a] != undecided {
			continue
		}
		for _, j := range s.p.acts[a].jobs {
			if t.paid[j] {
				continue
			}
			for _, c := range s.p.acts[a].covers {
				if at := j*width + c.need; t.required[c.need] && s.seen[at] != t.stamp {
					s.seen[at] = t.stamp
					t.reach[j]++
				}
			}
		}
	}
	for n := range t.share {
		t.share[n] = far
		if len(s.own[n]) > 0 {
			t.share[n] = s.own[n][0].cost
		}
	}
	for _, a := range s.shared {
		if s.state[a] == undecided {
			s.shareOut(a)
		}
	}
	sum := t.cost
	for n, must := range t.required {
		if !must {
			continue
		}
		if t.share[n] == far {
			return far
		}
		sum += t.share[n]
	}
	return sum
}

// shareOut offers an undecided act to the needs it could cover.
func (s *search) shareOut(a int) {
	t, price := &s.t, int64(0)
	for _, j := range s.p.acts[a].jobs {
		if t.paid[j] {
			continue
		}
		if t.reach[j] == 0 {
			return // covers nothing that is asked for
		}
		price += s.p.jobs[j] / t.reach[j]
	}
	for _, c := range s.p.acts[a].covers {
		t.share[c.need] = min(t.share[c.need], price)
	}
}

// branch chooses the undecided act that touches most open needs, and which way
// to go first; -1 when none matters any more and all may be left.
func (s *search) branch() (a int, first int8) {
	t, most, price := &s.t, 0, int64(-1)
	a = -1
	for _, b := range s.shared {
		if s.state[b] != undecided {
			continue
		}
		touches, cost := 0, int64(0)
		for _, c := range s.p.acts[b].covers {
			if t.required[c.need] || t.out[c.need] {
				touches++
			}
		}
		for _, e := range s.p.acts[b].effects {
			if t.out[s.p.effects[e].need] && !t.active[e] {
				touches++
			}
		}
		for _, j := range s.p.acts[b].jobs {
			if !t.paid[j] {
				cost += s.p.jobs[j]
			}
		}
		if touches > most || touches == most && touches > 0 && cost > price {
			a, most, price = b, touches, cost
		}
	}
	if a < 0 || s.saves(a) <= price {
		return a, left
	}
	return a, taken
}

// saves is what the open needs of an act would cost without it.
func (s *search) saves(a int) int64 {
	sum := int64(0)
	for _, c := range s.p.acts[a].covers {
		if !s.t.required[c.need] {
			continue
		}
		if len(s.own[c.need]) == 0 {
			return far
		}
		sum += s.own[c.need][0].cost
	}
	return sum
}
