package remedy

import "slices"

// bound is the least a piece can cost; far where it cannot be met. It follows
// part, which says which needs are open.
func (s *search) bound(sc scope) int64 {
	t := &s.t
	for _, a := range sc.acts {
		for _, j := range s.p.acts[a].jobs {
			t.reach[j] = 0
		}
	}
	for _, n := range sc.needs {
		t.share[n], t.over[n] = s.own[n].cost, t.over[n][:0]
	}
	for _, a := range sc.acts {
		for _, c := range s.p.acts[a].covers {
			if s.isOpen(c.need) && t.required[c.need] {
				t.over[c.need] = append(t.over[c.need], a)
			}
		}
	}
	for _, n := range sc.needs {
		s.countReach(n)
	}
	for _, a := range sc.acts {
		s.shareOut(a)
	}
	sum := int64(0)
	for _, n := range sc.needs {
		if !t.required[n] {
			continue
		}
		if t.share[n] >= far {
			return far
		}
		sum += t.share[n]
	}
	return sum
}

// countReach adds a required need to the reach of every unpaid job of the acts
// that could cover it, to each once.
func (s *search) countReach(n int) {
	t := &s.t
	t.stamp++
	for _, a := range t.over[n] {
		for _, j := range s.p.acts[a].jobs {
			if t.paid[j] == 0 && t.seen[j] != t.stamp {
				t.seen[j] = t.stamp
				t.reach[j]++
			}
		}
	}
}

// shareOut offers an undecided act to the needs it could cover.
func (s *search) shareOut(a int) {
	t, price := &s.t, int64(0)
	for _, j := range s.p.acts[a].jobs {
		if t.paid[j] > 0 {
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

// move is what is decided next: an act, or whether to pay for a job at all.
type move struct {
	act    int // -1 when none matters any more and all may be left
	job    int // -1 for the act itself
	take   bool
	forced bool // the other way cannot be better
}

// branch chooses the act, or the unpaid job that several acts of the piece
// share, that touches most open needs, and the way to go first. What ties most
// together goes first, so that the rest falls apart.
func (s *search) branch(sc scope) move {
	most, dearest, m := 0, int64(-1), move{act: -1, job: -1}
	for _, b := range sc.acts {
		touches, cost, saves, plain := s.weigh(b)
		if plain && touches > 0 && (cost == 0 || saves <= cost && s.ownJobs(b)) {
			return move{act: b, job: -1, take: cost == 0, forced: true}
		}
		if touches == 0 {
			continue
		}
		job := s.sharedJob(sc, b)
		if job >= 0 {
			touches, cost = max(touches, int(s.t.reach[job])), s.p.jobs[job]
		}
		if touches > most || touches == most && cost > dearest {
			m = move{act: b, job: job, take: saves > cost}
			most, dearest = touches, cost
		}
	}
	if m.job >= 0 {
		m.take = s.savesOn(sc, m.job) > s.p.jobs[m.job]
	}
	return m
}

// sharedJob is the first unpaid job of an act that other acts of the piece pay
// for too, -1 for none.
func (s *search) sharedJob(sc scope, a int) int {
	for _, j := range s.p.acts[a].jobs {
		if s.t.paid[j] > 0 || s.users[j] < 2 {
			continue
		}
		if slices.ContainsFunc(sc.acts, func(b int) bool { return b != a && slices.Contains(s.p.acts[b].jobs, j) }) {
			return j
		}
	}
	return -1
}

// savesOn is what the open needs that a job could serve would cost by themselves.
func (s *search) savesOn(sc scope, j int) int64 {
	sum := int64(0)
	for _, n := range sc.needs {
		if s.t.required[n] && slices.ContainsFunc(s.t.over[n], func(a int) bool { return slices.Contains(s.p.acts[a].jobs, j) }) {
			sum = min(far, sum+s.own[n].cost)
		}
	}
	return sum
}

// weigh tells how many open needs an act touches, what is still to be paid for
// it, what those needs would cost by themselves, and whether that is all there
// is to it: it moves no value, and covers nothing that might open later.
func (s *search) weigh(a int) (touches int, cost, saves int64, plain bool) {
	t := &s.t
	plain = true
	for _, j := range s.p.acts[a].jobs {
		if t.paid[j] == 0 {
			cost += s.p.jobs[j]
		}
	}
	for _, c := range s.p.acts[a].covers {
		n := c.need
		switch {
		case t.cover[n] > 0:
		case t.required[n]:
			touches++
			saves = min(far, saves+s.own[n].cost)
		case t.out[n]:
			touches++
			plain = false
		case t.moving[n]:
			plain = false
		}
	}
	for _, e := range s.p.acts[a].effects {
		n := s.p.effects[e].need
		if t.active[e] > 0 || t.cover[n] > 0 || s.p.needs[n].must {
			continue
		}
		plain = false
		if t.out[n] {
			touches++
		}
	}
	return touches, cost, saves, plain
}
