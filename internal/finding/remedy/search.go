package remedy

import "slices"

// limits say how a search is run. Work is limited by count, never by time.
type limits struct {
	any   bool   // stop at the first set
	nodes int    // points that may be looked at
	below int64  // only a set that costs less is wanted; 0 is any price
	ban   []bool // acts not to be taken; nil for none
	take  []int  // acts to be taken
	known memory // what pieces of this problem are known to cost; may be nil
}

// result of a search. Not found and not cut means that there is no such set.
type result struct {
	found bool
	acts  []int // ascending
	cost  int64
	bound int64 // no set costs less
	nodes int
	cut   bool
}

// solve finds the cheapest set of acts that meets every need.
//
// Exact: it decides, one after another, the acts that several needs or values
// share; each time what is left falls apart, the pieces are solved by
// themselves, and a need that stands alone takes its cheapest act. A branch is
// left when its bound reaches the best set so far. The bound counts what is
// paid, and for every need still open the cheaper of its own cheapest act and
// its share of an act not yet decided, the price split over all open needs
// which that act could cover. The set holds no act that could be left out.
// Cost: grows as 2^shared of the largest piece at worst; see TestSixtyChecks.
func solve(p *problem, lim limits) result {
	s := newSearch(p, lim)
	if s == nil {
		return result{bound: far}
	}
	ceiling := far
	if lim.below > 0 {
		ceiling = lim.below
	}
	base := p.priceOf(s.on)
	f := s.best(s.whole(), ceiling-base)
	r := result{found: f.ok, nodes: s.nodes, cut: s.cut, bound: min(far, base+f.low)}
	if f.ok {
		r.acts = append(slices.Clone(s.on), f.acts...)
		slices.Sort(r.acts)
		r.cost = base + f.cost
	}
	return r
}

// own is the cheapest act that serves one need and nothing else; act is -1
// where there is none.
type own struct {
	act  int
	cost int64
}

// scope is a part of the problem: needs that may still be open, and acts that
// are still to be decided. It shares no need and no unpaid job with the rest.
type scope struct{ needs, acts []int }

// found is the best that a scope can do: acts beyond those taken outside, and
// a price that nothing within the scope can be below.
type found struct {
	ok   bool
	acts []int
	cost int64
	low  int64
}

type search struct {
	p      *problem
	lim    limits
	shared []int // acts to decide
	on     []int // acts taken from the start
	own    []own // by need
	users  []int // by job: acts that may be taken and pay for it
	t      tally
	nodes  int
	cut    bool
}

// newSearch sorts acts into shared ones and those of one need. It returns nil
// where an act that must be taken cannot be.
func newSearch(p *problem, lim limits) *search {
	s := &search{p: p, lim: lim, own: make([]own, len(p.needs)), users: make([]int, len(p.jobs)), t: newTally(p)}
	out, on := make([]bool, len(p.acts)), p.words()
	for _, a := range lim.take {
		on[a] = true
	}
	for a := range p.acts {
		out[a] = lim.ban != nil && lim.ban[a] || !p.usable(a)
		if out[a] && on[a] {
			return nil
		}
		for _, j := range p.acts[a].jobs {
			if !out[a] {
				s.users[j]++
			}
		}
	}
	for n := range s.own {
		s.own[n] = own{-1, far}
	}
	for a := range p.acts {
		act := &p.acts[a]
		switch {
		case out[a]:
		case on[a]:
			s.on = append(s.on, a)
			s.t.take(p, a)
		case len(act.covers) == 1 && len(act.effects) == 0 && s.ownJobs(a):
			if n, cost := act.covers[0].need, p.priceOf([]int{a}); cost < s.own[n].cost {
				s.own[n] = own{a, cost}
			}
		default:
			s.shared = append(s.shared, a)
		}
	}
	return s
}

// ownJobs tells whether nothing else pays for the jobs of an act.
func (s *search) ownJobs(a int) bool {
	return !slices.ContainsFunc(s.p.acts[a].jobs, func(j int) bool { return s.users[j] > 1 })
}

// whole is the scope of the entire problem.
func (s *search) whole() scope {
	sc := scope{acts: s.shared}
	for n := range s.p.needs {
		sc.needs = append(sc.needs, n)
	}
	return sc
}

// best solves a scope below a price, piece by piece.
func (s *search) best(sc scope, ceiling int64) found {
	parts := s.part(sc)
	lows, sum := make([]int64, len(parts)), int64(0)
	for i, part := range parts {
		lows[i] = s.bound(part)
		if lows[i] >= far {
			return found{low: far}
		}
		sum += lows[i]
	}
	all := found{ok: true}
	for i, part := range parts {
		if sum >= ceiling {
			return found{low: sum}
		}
		f := s.piece(part, lows[i], ceiling-sum+lows[i])
		sum += f.low - lows[i]
		if f.low >= far {
			return found{low: far}
		}
		all.ok = all.ok && f.ok
		all.cost += f.cost
		all.acts = append(all.acts, f.acts...)
	}
	all.low = sum
	if !all.ok || all.cost >= ceiling {
		return found{low: sum}
	}
	return all
}

// piece solves one piece, or remembers what it costs.
func (s *search) piece(sc scope, low, ceiling int64) found {
	if len(sc.acts) == 0 {
		return s.settle(sc)
	}
	if s.lim.known == nil || s.lim.any || len(sc.acts) > 24 {
		return s.expand(sc, low, ceiling)
	}
	key := s.key(sc)
	f, ok := s.lim.known[key]
	if ok && (f.ok || f.low >= ceiling) {
		return f
	}
	cut := s.cut
	s.cut = false
	f = s.expand(sc, max(low, f.low), ceiling)
	if !s.cut {
		if f.ok && f.cost > f.low {
			f.low = f.cost // the ceiling hid nothing cheaper
		}
		s.lim.known[key] = f
	}
	s.cut = s.cut || cut
	return f
}

// expand decides one act of a piece, or whether to pay for a job that several
// of its acts share, both ways, and gives the better.
func (s *search) expand(sc scope, low, ceiling int64) found {
	if s.nodes >= s.lim.nodes {
		s.cut = true
		return found{low: low}
	}
	s.nodes++
	m := s.branch(sc)
	if m.act < 0 {
		return s.settle(sc)
	}
	out, take := found{low: far}, m.take
	for range 2 {
		f := s.try(sc, m, take, ceiling)
		out.low = min(out.low, f.low)
		if f.ok {
			out.ok, out.cost, out.acts, ceiling = true, f.cost, f.acts, f.cost
		}
		if m.forced || f.ok && s.lim.any {
			break
		}
		take = !take
	}
	out.low = max(out.low, low)
	return out
}

// try solves the rest of a piece with a move made or not.
func (s *search) try(sc scope, m move, yes bool, ceiling int64) found {
	if m.job >= 0 && yes { // paid; its acts are decided one by one behind this
		s.t.paid[m.job]++
		price := s.p.jobs[m.job]
		f := s.best(sc, ceiling-price)
		s.t.paid[m.job]--
		return f.dearer(price)
	}
	rest := slices.DeleteFunc(slices.Clone(sc.acts), func(b int) bool {
		return b == m.act || m.job >= 0 && slices.Contains(s.p.acts[b].jobs, m.job)
	})
	if !yes {
		return s.best(scope{sc.needs, rest}, ceiling)
	}
	price := s.t.take(s.p, m.act)
	f := s.best(scope{sc.needs, rest}, ceiling-price)
	s.t.undo(s.p, m.act)
	if f.ok {
		f.acts = append(slices.Clone(f.acts), m.act)
	}
	return f.dearer(price)
}

// dearer adds a price to what was found.
func (f found) dearer(price int64) found {
	f.low = min(far, f.low+price)
	f.cost += price
	return f
}

// settle leaves all undecided acts of a piece and lets each open need take its
// own cheapest act.
func (s *search) settle(sc scope) found {
	out := found{ok: true}
	for _, n := range sc.needs {
		if !s.t.required[n] && !s.t.out[n] {
			continue
		}
		if s.own[n].act < 0 {
			return found{low: far}
		}
		out.acts = append(out.acts, s.own[n].act)
		out.cost += s.own[n].cost
	}
	out.low = out.cost
	return out
}
