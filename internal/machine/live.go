package machine

// live tells which entries still speak. An entry falls silent when a speaking
// entry withdraws or supersedes it; undoing an undo brings it back. Entries
// that silence one another in a ring, and that nothing outside the ring
// settles, all keep speaking and are asked about; so is one that undoes
// itself, or an entry that is not in the log.
// Cost: linear.
func (f *folder) live(entries []Entry, at map[EntryID]int) []bool {
	s := silence{targets: make([][]int, len(entries)), open: make([]int, len(entries)), state: make([]hearing, len(entries))}
	type lost struct {
		entry  int
		target EntryID
	}
	var losts []lost
	for i, e := range entries {
		for _, target := range undoes(e) {
			j, ok := at[target]
			if !ok || j == i {
				losts = append(losts, lost{i, target})
				continue
			}
			s.targets[i] = append(s.targets[i], j)
			s.open[j]++
		}
	}
	for i := range entries {
		if s.open[i] == 0 {
			s.speak(i)
		}
	}
	s.settle()
	for _, i := range s.rings() {
		f.ask(entries[i], "", "this entry and another undo each other; both still count. Withdraw one of them")
		s.speak(i)
	}
	s.settle()
	speaks := make([]bool, len(entries))
	for i := range entries {
		speaks[i] = s.state[i] == speaking
	}
	for _, l := range losts {
		if !speaks[l.entry] {
			continue
		}
		if l.target == entries[l.entry].ID {
			f.ask(entries[l.entry], "", "this entry undoes itself, which says nothing. Name the entry that is meant")
			continue
		}
		f.ask(entries[l.entry], "", "this entry undoes entry %q, which is not in the log. It may still come from another device; else withdraw this one", l.target)
	}
	return speaks
}

// undoes names the entries that an entry withdraws or supersedes.
func undoes(e Entry) []EntryID {
	var out []EntryID
	if e.Supersedes != "" {
		out = append(out, e.Supersedes)
	}
	if w, ok := e.Body.(*EntryWithdrawn); ok && w.Target != e.Supersedes {
		out = append(out, w.Target)
	}
	return out
}

type hearing uint8

const (
	undecided hearing = iota
	speaking
	silent
)

// silence works out who speaks, from the entries nobody undoes downwards.
type silence struct {
	targets [][]int // whom each entry undoes
	open    []int   // how many undecided entries undo each
	state   []hearing
	queue   []int // those who speak and have not yet been followed
}

func (s *silence) speak(i int) {
	s.state[i] = speaking
	s.queue = append(s.queue, i)
}

// settle follows the queue: whom a speaking entry undoes falls silent, and
// whom only silent entries undo speaks.
func (s *silence) settle() {
	for len(s.queue) > 0 {
		i := s.queue[len(s.queue)-1]
		s.queue = s.queue[:len(s.queue)-1]
		for _, j := range s.targets[i] {
			if s.state[j] != undecided {
				continue
			}
			s.state[j] = silent
			for _, k := range s.targets[j] {
				if s.open[k]--; s.open[k] == 0 && s.state[k] == undecided {
					s.speak(k)
				}
			}
		}
	}
}

// rings lists the undecided entries that lie on a ring or between two: what is
// left when those who undo nobody undecided are taken away, again and again.
func (s *silence) rings() []int {
	out := make([]int, len(s.state)) // how many undecided each undoes
	from := make([][]int, len(s.state))
	var ends, ring []int
	for i := range s.state {
		if s.state[i] != undecided {
			continue
		}
		for _, j := range s.targets[i] {
			if s.state[j] == undecided {
				out[i]++
				from[j] = append(from[j], i)
			}
		}
		if out[i] == 0 {
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
		if s.state[i] == undecided && out[i] > 0 {
			ring = append(ring, i)
		}
	}
	return ring
}
