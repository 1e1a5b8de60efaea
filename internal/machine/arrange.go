package machine

import (
	"bytes"
	"encoding/json"
	"slices"
	"strings"
)

// sequence is the entries by (At, ID), each id once, with the order in which
// they speak.
type sequence struct {
	entries []Entry
	at      map[EntryID]int // where each id stands in entries
	order   []int           // indices into entries as they speak; nil is as they stand
}

// next gives the index of the nth entry to speak.
func (s *sequence) next(n int) int {
	if s.order == nil {
		return n
	}
	return s.order[n]
}

// arrange puts the entries in the order in which they speak: by (At, ID), each
// correction in the place of what it corrects, so that a reading typed wrong
// before a rework and corrected after it stays a reading from before. The
// second copy of an id is dropped; two different entries under one id are
// asked about. The slice given is not changed.
func (f *folder) arrange(entries []Entry) *sequence {
	if !slices.IsSortedFunc(entries, compareEntries) {
		entries = slices.Clone(entries)
		slices.SortStableFunc(entries, compareEntries)
	}
	s := &sequence{at: make(map[EntryID]int, len(entries))}
	var kept []Entry // once there is a second copy; until then entries itself
	n := 0
	for i, e := range entries {
		if first, twice := s.at[e.ID]; twice && e.ID != "" {
			if kept == nil {
				kept = slices.Clone(entries[:i])
			}
			if !sameSaid(kept[first], e) {
				f.ask(e, "", "two different entries carry one id; this one does not count. Record it again")
			}
			continue
		}
		s.at[e.ID] = n
		n++
		if kept != nil {
			kept = append(kept, e)
		}
	}
	delete(s.at, "")
	if s.entries = kept; kept == nil {
		s.entries = entries
	}
	s.standIn()
	return s
}

// compareEntries orders by time, then by id. Only entries that share both are
// compared by what they say.
func compareEntries(a, b Entry) int {
	if c := a.At.Compare(b.At); c != 0 {
		return c
	}
	if c := strings.Compare(string(a.ID), string(b.ID)); c != 0 {
		return c
	}
	return bytes.Compare(said(a), said(b))
}

// said is all that an entry says, as bytes.
func said(e Entry) []byte {
	text, _ := json.Marshal(e)
	return text
}

// sameSaid tells whether two entries say the same, whatever the Seq.
func sameSaid(a, b Entry) bool {
	a.Seq, b.Seq = 0, 0
	return bytes.Equal(said(a), said(b))
}

// standIn orders corrections to the places of what they correct; corrections
// of one entry keep their order among themselves.
func (s *sequence) standIn() {
	place, moved := s.places()
	if !moved {
		return
	}
	s.order = make([]int, len(s.entries))
	for i := range s.order {
		s.order[i] = i
	}
	slices.SortStableFunc(s.order, func(a, b int) int { return place[a] - place[b] })
}

// places follows each correction down to the entry that corrects nothing.
// Corrections in a ring stand where the first of them does.
func (s *sequence) places() (place []int, moved bool) {
	place = make([]int, len(s.entries))
	const unknown, walking = -1, -2
	for i := range s.entries {
		place[i] = i
		if s.entries[i].Supersedes != "" {
			place[i] = unknown
		}
	}
	var path []int
	for i := range s.entries {
		path = path[:0]
		j := i
		for place[j] == unknown {
			path = append(path, j)
			place[j] = walking
			target, known := s.at[s.entries[j].Supersedes]
			switch {
			case !known:
				place[j] = j
			case place[target] == walking:
				place[j] = path[0]
			default:
				j = target
			}
		}
		for _, k := range path {
			moved = moved || k != place[j]
			place[k] = place[j]
		}
	}
	return place, moved
}
