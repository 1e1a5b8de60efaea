package machine

// live tells which entries still speak.
//
// A speaking withdrawal silences its target; a withdrawn withdrawal does not.
// A correction silences what it corrects, and through it what that corrected,
// as long as it speaks itself or a correction of it does. Entries that undo
// one another in a ring, which nothing outside the ring settles, all keep
// speaking and are asked about; so is one that undoes itself, or an entry that
// is not in the log.
// Cost: linear.
func (f *folder) live(seq *sequence) []bool {
	s := newSilence(seq)
	s.begin()
	for _, i := range s.rings() {
		if i < len(seq.entries) {
			f.ask(seq.entries[i], "", "this entry and another undo each other; both still count. Withdraw one of them")
		}
		s.speak(i)
	}
	s.settle()
	speaks := make([]bool, len(seq.entries))
	for i := range speaks {
		speaks[i] = s.state[i] == speaking
	}
	f.askUndoing(seq, speaks)
	return speaks
}

// askUndoing asks about speaking entries that undo themselves, or what is not
// there, or one another in a ring of corrections.
func (f *folder) askUndoing(seq *sequence, speaks []bool) {
	for i, e := range seq.entries {
		target := withdrawn(e)
		if !speaks[i] || e.Supersedes == "" && target == "" {
			continue
		}
		for _, id := range []EntryID{e.Supersedes, target} {
			switch _, known := seq.at[id]; {
			case id == "":
			case id == e.ID:
				f.ask(e, "", "this entry undoes itself, which says nothing. Name the entry that is meant")
			case !known:
				f.ask(e, "", "this entry undoes entry %q, which is not in the log. It may still come from another device; else withdraw this one", id)
			}
		}
	}
	for _, r := range seq.rings {
		if speaks[r[0]] && speaks[r[1]] {
			f.ask(seq.entries[r[0]], "", "entries correct one another in a ring, so that none of them is the last word; all still count. Withdraw all but one")
		}
	}
}

// withdrawn names the entry that an entry withdraws.
func withdrawn(e Entry) EntryID {
	if w, ok := e.Body.(*EntryWithdrawn); ok {
		return w.Target
	}
	return ""
}

type hearing uint8

const (
	undecided hearing = iota
	speaking
	silent
)

// silence works out who speaks in a web of voices, where a voice speaks unless
// one that speaks is against it. The first voices are the entries. Each entry
// that is corrected has two more: one that says "no correction of this
// stands", against which are its corrections, and one against that first, which
// therefore says "a correction of this stands". The second is against the entry
// itself and against "no correction stands" of what the entry corrects.
type silence struct {
	against [][2]int32 // whom each voice is against, as index + 1; 0 is nobody
	open    []int32    // how many undecided voices are against each
	state   []hearing
	queue   []int // those who speak against somebody and have not yet been followed
	decided int
}

func newSilence(seq *sequence) *silence {
	n := len(seq.entries)
	s := &silence{against: make([][2]int32, n, n+n/4)}
	free := map[int]int{} // entry to its voice "no correction of this stands"
	for _, j := range seq.corrects {
		if _, known := free[j]; j >= 0 && !known {
			free[j] = len(s.against)
			s.against = append(s.against, [2]int32{}, [2]int32{})
		}
	}
	s.open = make([]int32, len(s.against))
	s.state = make([]hearing, len(s.against))
	for i, e := range seq.entries {
		if target := withdrawn(e); target != "" {
			if j, known := seq.at[target]; known && j != i {
				s.aim(i, j)
			}
		}
		if seq.corrects != nil && seq.corrects[i] >= 0 {
			s.aim(i, free[seq.corrects[i]])
		}
	}
	for i, u := range free {
		s.aim(u, u+1)
		s.aim(u+1, i)
		if j := seq.corrects[i]; j >= 0 {
			s.aim(u+1, free[j])
		}
	}
	return s
}

// aim sets voice i against voice j.
func (s *silence) aim(i, j int) {
	slot := 0
	if s.against[i][0] != 0 {
		slot = 1
	}
	s.against[i][slot] = int32(j) + 1
	s.open[j]++
}

// undecidedOf lists whom i is against, of those not yet decided.
func (s *silence) undecidedOf(i int) (out []int) {
	for _, j := range s.against[i] {
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
	if s.against[i] != [2]int32{} {
		s.queue = append(s.queue, i)
	}
}

// begin lets those speak whom nobody is against, and what follows from that.
func (s *silence) begin() {
	for i := range s.state {
		if s.open[i] == 0 {
			s.speak(i)
		}
	}
	s.settle()
}

// settle follows the queue: whom a speaking voice is against falls silent, and
// whom only silent voices are against speaks.
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

// rings lists the undecided voices that lie on a ring or between two: what is
// left when those against nobody undecided are taken away, again and again.
func (s *silence) rings() []int {
	if s.decided == len(s.state) {
		return nil
	}
	out := make([]int, len(s.state)) // how many undecided each is against
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
