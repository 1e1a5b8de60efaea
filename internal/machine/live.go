package machine

// live tells which entries still speak. An entry falls silent when a speaking
// entry withdraws or supersedes it; undoing an undo brings it back. Entries
// that silence one another in a ring, and that nothing outside the ring
// settles, all keep speaking and are asked about; so is one that undoes
// itself, or an entry that is not in the log.
// Cost: linear.
func (f *folder) live(seq *sequence) []bool {
	s := newSilence(len(seq.entries))
	type lost struct {
		by     int
		target EntryID
	}
	var losts []lost
	for i, e := range seq.entries {
		for n, target := range undoes(e) {
			if target == "" {
				continue
			}
			if j, ok := seq.at[target]; ok && j != i {
				s.aim(i, n, j)
			} else {
				losts = append(losts, lost{i, target})
			}
		}
	}
	s.begin()
	for _, i := range s.rings() {
		f.ask(seq.entries[i], "", "this entry and another undo each other; both still count. Withdraw one of them")
		s.speak(i)
	}
	s.settle()
	for _, l := range losts {
		switch e := seq.entries[l.by]; {
		case s.state[l.by] != speaking:
		case l.target == e.ID:
			f.ask(e, "", "this entry undoes itself, which says nothing. Name the entry that is meant")
		default:
			f.ask(e, "", "this entry undoes entry %q, which is not in the log. It may still come from another device; else withdraw this one", l.target)
		}
	}
	return s.speaks()
}

// undoes names the entries that an entry supersedes and withdraws.
func undoes(e Entry) [2]EntryID {
	if w, ok := e.Body.(*EntryWithdrawn); ok && w.Target != e.Supersedes {
		return [2]EntryID{e.Supersedes, w.Target}
	}
	return [2]EntryID{e.Supersedes}
}

type hearing uint8

const (
	undecided hearing = iota
	speaking
	silent
)

// silence works out who speaks, from the entries nobody undoes downwards.
type silence struct {
	targets [][2]int32 // whom each entry undoes, as index + 1; 0 is nobody
	open    []int32    // how many undecided entries undo each
	state   []hearing
	queue   []int // those who speak, undo somebody, and have not yet been followed
	decided int
}

func newSilence(n int) *silence {
	return &silence{targets: make([][2]int32, n), open: make([]int32, n), state: make([]hearing, n)}
}

// aim says that i undoes j by its nth word.
func (s *silence) aim(i, n, j int) {
	s.targets[i][n] = int32(j) + 1
	s.open[j]++
}

// undecidedOf lists whom i undoes, of those not yet decided.
func (s *silence) undecidedOf(i int) (out []int) {
	for _, j := range s.targets[i] {
		if j > 0 && s.state[j-1] == undecided {
			out = append(out, int(j-1))
		}
	}
	return out
}

func (s *silence) decide(i int, as hearing) {
	s.state[i] = as
	s.decided++
}

func (s *silence) speak(i int) {
	s.decide(i, speaking)
	if s.targets[i] != [2]int32{} {
		s.queue = append(s.queue, i)
	}
}

// begin lets those speak whom nobody undoes, and what follows from that.
func (s *silence) begin() {
	for i := range s.state {
		if s.open[i] == 0 {
			s.speak(i)
		}
	}
	s.settle()
}

// settle follows the queue: whom a speaking entry undoes falls silent, and
// whom only silent entries undo speaks.
func (s *silence) settle() {
	for len(s.queue) > 0 {
		i := s.queue[len(s.queue)-1]
		s.queue = s.queue[:len(s.queue)-1]
		for _, j := range s.undecidedOf(i) {
			s.decide(j, silent)
			for _, k := range s.undecidedOf(j) {
				if s.open[k]--; s.open[k] == 0 {
					s.speak(k)
				}
			}
		}
	}
}

// rings lists the undecided entries that lie on a ring or between two: what is
// left when those who undo nobody undecided are taken away, again and again.
func (s *silence) rings() []int {
	if s.decided == len(s.state) {
		return nil
	}
	out := map[int]int{} // how many undecided each undoes
	from := map[int][]int{}
	var ends, ring []int
	for i := range s.state {
		if s.state[i] != undecided {
			continue
		}
		targets := s.undecidedOf(i)
		for _, j := range targets {
			from[j] = append(from[j], i)
		}
		if out[i] = len(targets); out[i] == 0 {
			ends = append(ends, i)
		}
	}
	for len(ends) > 0 {
		i := ends[len(ends)-1]
		ends = ends[:len(ends)-1]
		for _, j := range from[i] {
			if out[j]--; out[j] == 0 {
				ends = append(ends, j)
			}
		}
	}
	for i := range s.state {
		if out[i] > 0 {
			ring = append(ring, i)
		}
	}
	return ring
}

func (s *silence) speaks() []bool {
	out := make([]bool, len(s.state))
	for i := range out {
		out[i] = s.state[i] == speaking
	}
	return out
}
