package machine

import (
	"bytes"
	"encoding/json"
	"slices"
	"strings"
)

// arrange puts the entries in the order in which they speak and tells where
// each id stands: by (At, ID), each correction in the place of what it
// corrects, so that a reading typed wrong before a rework and corrected after
// it stays a reading from before. The second copy of an id is dropped; two
// different entries under one id are asked about.
func (f *folder) arrange(entries []Entry) ([]Entry, map[EntryID]int) {
	sorted := slices.Clone(entries)
	if !slices.IsSortedFunc(sorted, compareEntries) {
		slices.SortStableFunc(sorted, compareEntries)
	}
	at := make(map[EntryID]int, len(sorted))
	out := sorted[:0]
	for _, e := range sorted {
		if first, twice := at[e.ID]; twice && e.ID != "" {
			if !sameSaid(out[first], e) {
				f.ask(e, "", "two different entries carry one id; this one does not count. Record it again")
			}
			continue
		}
		at[e.ID] = len(out)
		out = append(out, e)
	}
	delete(at, "")
	return standIn(out, at)
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

// standIn moves corrections to the places of what they correct; corrections of
// one entry keep their order among themselves.
func standIn(entries []Entry, at map[EntryID]int) ([]Entry, map[EntryID]int) {
	place, moved := places(entries, at)
	if !moved {
		return entries, at
	}
	order := make([]int, len(entries))
	for i := range order {
		order[i] = i
	}
	slices.SortStableFunc(order, func(a, b int) int { return place[a] - place[b] })
	out := make([]Entry, len(entries))
	for to, from := range order {
		out[to] = entries[from]
		if id := out[to].ID; id != "" {
			at[id] = to
		}
	}
	return out, at
}

// places follows each correction down to the entry that corrects nothing.
// Corrections in a ring stand where the first of them does.
func places(entries []Entry, at map[EntryID]int) (place []int, moved bool) {
	place = make([]int, len(entries))
	const unknown, walking = -1, -2
	for i := range place {
		place[i] = unknown
	}
	var path []int
	for i := range entries {
		path = path[:0]
		j := i
		for place[j] == unknown {
			path = append(path, j)
			place[j] = walking
			target, ok := at[entries[j].Supersedes]
			if !ok || place[target] == walking {
				place[j] = path[0]
				if !ok {
					place[j] = j
				}
				break
			}
			j = target
		}
		for _, k := range path {
			moved = moved || k != place[j]
			place[k] = place[j]
		}
	}
	return place, moved
}
