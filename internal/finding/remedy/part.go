package remedy

import "slices"

// part drops what no longer matters from a scope and cuts the rest into pieces
// that share nothing: no open need, no unpaid job, no value that may move. The
// pieces come in the order of their first need. It also works out, for the
// open needs, how they stand.
func (s *search) part(sc scope) []scope {
	needs, acts := s.openNeeds(sc), make([]int, 0, len(sc.acts))
	t, width := &s.t, len(s.p.needs)
	for _, n := range needs {
		t.root[n] = n
	}
	for _, a := range sc.acts {
		if s.matters(a) {
			acts = append(acts, a)
			for _, j := range s.p.acts[a].jobs {
				t.root[width+j] = width + j
			}
		}
	}
	for _, a := range acts {
		s.tie(a)
	}
	index := make(map[int]int, 8)
	var out []scope
	for _, n := range needs {
		r := t.find(n)
		i, ok := index[r]
		if !ok {
			i = len(out)
			index[r] = i
			out = append(out, scope{})
		}
		out[i].needs = append(out[i].needs, n)
	}
	for _, a := range acts {
		i := index[t.find(s.anchor(a))]
		out[i].acts = append(out[i].acts, a)
	}
	return out
}

// openNeeds lists the needs of a scope that may still have to be covered.
func (s *search) openNeeds(sc scope) []int {
	t := &s.t
	for _, n := range sc.needs {
		t.up[n], t.down[n], t.moving[n] = 0, 0, false
	}
	for _, a := range sc.acts {
		for _, e := range s.p.acts[a].effects {
			if t.active[e] > 0 {
				continue
			}
			n, by := s.p.effects[e].need, s.p.effects[e].by
			t.up[n] += max(by, 0)
			t.down[n] += min(by, 0)
		}
	}
	out := make([]int, 0, len(sc.needs))
	for _, n := range sc.needs {
		need := &s.p.needs[n]
		if t.cover[n] > 0 || !need.must && !need.judged {
			continue
		}
		t.judge(s.p, n)
		t.moving[n] = t.sum[n]+t.up[n] > need.high || t.sum[n]+t.down[n] < need.low
		if need.must || t.out[n] || t.moving[n] {
			out = append(out, n)
		}
	}
	return out
}

// isOpen tells whether an act may matter to a need, once openNeeds was run.
func (s *search) isOpen(n int) bool {
	need := &s.p.needs[n]
	return s.t.cover[n] == 0 && (need.must || need.judged && (s.t.out[n] || s.t.moving[n]))
}

// moves tells whether an effect can still change something.
func (s *search) moves(e int) bool {
	n := s.p.effects[e].need
	return s.t.active[e] == 0 && s.isOpen(n) && !s.p.needs[n].must
}

// matters tells whether taking an act could be of use: it covers an open need,
// or moves a value away from a limit that it is past or may come past.
func (s *search) matters(a int) bool {
	if slices.ContainsFunc(s.p.acts[a].covers, func(c cover) bool { return s.isOpen(c.need) }) {
		return true
	}
	return slices.ContainsFunc(s.p.acts[a].effects, func(e int) bool {
		n, by := s.p.effects[e].need, s.p.effects[e].by
		high, low := s.t.sum[n]+s.t.up[n] > s.p.needs[n].high, s.t.sum[n]+s.t.down[n] < s.p.needs[n].low
		return s.moves(e) && (by < 0 && high || by > 0 && low)
	})
}

// anchor is the first open need that an act touches, -1 for none.
func (s *search) anchor(a int) int {
	for _, c := range s.p.acts[a].covers {
		if s.isOpen(c.need) {
			return c.need
		}
	}
	for _, e := range s.p.acts[a].effects {
		if s.moves(e) {
			return s.p.effects[e].need
		}
	}
	return -1
}

// tie joins all that an act touches.
func (s *search) tie(a int) {
	t, width, at := &s.t, len(s.p.needs), s.anchor(a)
	for _, c := range s.p.acts[a].covers {
		if s.isOpen(c.need) {
			t.join(at, c.need)
		}
	}
	for _, e := range s.p.acts[a].effects {
		if s.moves(e) {
			t.join(at, s.p.effects[e].need)
		}
	}
	for _, j := range s.p.acts[a].jobs {
		if t.paid[j] == 0 {
			t.join(at, width+j)
		}
	}
}

func (t *tally) find(i int) int {
	for t.root[i] != i {
		t.root[i] = t.root[t.root[i]]
		i = t.root[i]
	}
	return i
}

func (t *tally) join(i, j int) {
	a, b := t.find(i), t.find(j)
	t.root[max(a, b)] = min(a, b)
}
