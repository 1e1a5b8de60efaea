package machine

import "slices"

// Clash is one point whose readings did not know of each other: two devices
// read it, each out of sight of the other. All of them count until somebody
// says which do.
type Clash struct {
	Feature  *Feature // either a surface
	Check    *Check   // or a check that is read directly
	Level    string
	Axis     string
	Unworn   bool
	Readings []*Reading // in the order in which they speak; at least two
}

// Point is the clash's point as a reading of it would name it.
func (c *Clash) Point() ReadingTaken {
	p := ReadingTaken{Level: c.Level, Axis: c.Axis, Unworn: c.Unworn}
	if c.Feature != nil {
		p.Feature = c.Feature.ID
	} else {
		p.Check = c.Check.ID
	}
	return p
}

// readingsAgreed keeps the word that readings count side by side.
func (f *folder) readingsAgreed(e Entry, b *ReadingsAgreed) bool {
	if len(b.Readings) < 2 {
		f.ask(e, "", "readings were said to count side by side, but fewer than two were named. Name them")
		return false
	}
	f.agreed = append(f.agreed, b.Readings)
	return true
}

// findClashes lists the points with readings that did not know of each other.
// A reading that does not say what was known where it was taken is trusted to
// have known what came before it: a log without such words has no clash.
// Cost: nothing for such a log; else the square of the readings of a point.
func (f *folder) findClashes() {
	if !f.stated {
		return
	}
	for _, ft := range f.m.Features {
		for _, list := range byPoint(ft.Current()) {
			f.clashesOf(list, Clash{Feature: ft})
		}
	}
	for _, c := range f.m.Checks {
		for _, list := range byPoint(c.Current()) {
			f.clashesOf(list, Clash{Check: c})
		}
	}
}

// byPoint parts readings by where they were taken, order kept.
func byPoint(readings []*Reading) [][]*Reading {
	var out [][]*Reading
	for _, r := range readings {
		i := slices.IndexFunc(out, func(l []*Reading) bool {
			return l[0].Level == r.Level && l[0].Axis == r.Axis && l[0].Unworn == r.Unworn
		})
		if i < 0 {
			i, out = len(out), append(out, nil)
		}
		out[i] = append(out[i], r)
	}
	return out
}

// clashesOf adds each set of readings of one point that hang together by not
// knowing of each other.
func (f *folder) clashesOf(list []*Reading, at Clash) {
	set := make([]int, len(list)) // number of the set a reading is in
	for i := range list {
		set[i] = i
		for j := range i {
			if set[j] != set[i] && f.strangers(list[j], list[i]) {
				old := set[i]
				for k := range i + 1 {
					if set[k] == old {
						set[k] = set[j]
					}
				}
			}
		}
	}
	for n := range list {
		clash := at
		for i, r := range list {
			if set[i] == n {
				clash.Readings = append(clash.Readings, r)
			}
		}
		if len(clash.Readings) > 1 {
			clash.Level, clash.Axis, clash.Unworn = list[0].Level, list[0].Axis, list[0].Unworn
			f.m.Clashes = append(f.m.Clashes, clash)
		}
	}
}

// strangers tells whether the later of two readings of one point was taken
// without knowing of the earlier, and nobody has said since that both count.
func (f *folder) strangers(earlier, later *Reading) bool {
	if later.Seen == nil || slices.Contains(later.Seen, earlier.Entry) || slices.Contains(earlier.Seen, later.Entry) {
		return false
	}
	return !slices.ContainsFunc(f.agreed, func(ids []EntryID) bool {
		return slices.Contains(ids, earlier.Entry) && slices.Contains(ids, later.Entry)
	})
}
