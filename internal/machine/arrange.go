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

	corrects []int    // which entry each corrects, -1 for none; nil where nobody corrects
	rings    [][2]int // corrections cut loose, each with what it would correct
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
		slices.SortFunc(entries, compareEntries) // what compares equal is equal in all it says
	}
	s := &sequence{at: make(map[EntryID]int, len(entries))}
	var kept []Entry // once there is a second copy; until then entries itself
	asked := map[string]bool{}
	n := 0
	for i, e := range entries {
		if first, twice := s.at[e.ID]; twice && e.ID != "" {
			if kept == nil {
				kept = slices.Clone(entries[:i])
			}
			if !sameSaid(kept[first], e) && !asked[unnumbered(e)] {
				asked[unnumbered(e)] = true
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

// unnumbered is all that an entry says but its Seq.
func unnumbered(e Entry) string {
	e.Seq = 0
	return string(said(e))
}

// sameSaid tells whether two entries say the same, whatever the Seq.
func sameSaid(a, b Entry) bool { return unnumbered(a) == unnumbered(b) }

// standIn orders corrections to the places of what they correct, at the root
// of a chain of them; corrections of one entry keep their order.
func (s *sequence) standIn() {
	moved := s.linkCorrections()
	if !moved {
		return
	}
	place := make([]int, len(s.entries))
	s.order = make([]int, len(s.entries))
	for i := range s.entries {
		s.order[i] = i
		place[i] = -1
	}
	var path []int
	for i := range s.entries {
		j := i
		for path = path[:0]; place[j] < 0 && s.corrects[j] >= 0; j = s.corrects[j] {
			path = append(path, j)
		}
		if place[j] < 0 {
			place[j] = j
		}
		for _, k := range path {
			place[k] = place[j]
		}
	}
	slices.SortStableFunc(s.order, func(a, b int) int { return place[a] - place[b] })
}

// linkCorrections ties each correction to what it corrects and tells whether
// there was any. Corrections that lead round in a ring are cut loose and noted.
func (s *sequence) linkCorrections() (any bool) {
	for i, e := range s.entries {
		if e.Supersedes == "" {
			continue
		}
		if j, known := s.at[e.Supersedes]; known && j != i {
			if !any {
				any = true
				s.corrects = slices.Repeat([]int{-1}, len(s.entries))
			}
			s.corrects[i] = j
		}
	}
	if !any {
		return false
	}
	walked := make([]int, len(s.entries)) // by which walk, from 1
	for i := range s.corrects {
		j := i
		for j >= 0 && walked[j] == 0 {
			walked[j] = i + 1
			j = s.corrects[j]
		}
		for j >= 0 && walked[j] == i+1 && s.corrects[j] >= 0 { // this walk came back to itself
			next := s.corrects[j]
			s.corrects[j] = -1
			s.rings = append(s.rings, [2]int{j, next})
			j = next
		}
	}
	return true
}
