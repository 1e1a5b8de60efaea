package sequence

import (
	"slices"

	"matchmark/internal/machine"
)

// role is what is still to be done with a joint, in step numbers; -1 is
// nothing. A joint with none of them stays as it is.
type role struct {
	open, undo, trial, close int
}

// Kept is a joint that stays closed, never opened, because something over it
// does or because somebody said so.
type Kept struct {
	Joint *machine.Joint
	Under *machine.Joint // the joint over it that stays closed; nil where it was said of Joint itself
	Why   string
}

// isApart, isTrial and isShut read the state as it is now.
func isApart(j *machine.Joint) bool { return j.State == machine.Open }
func isTrial(j *machine.Joint) bool { return j.State == machine.OnTrial }
func isShut(j *machine.Joint) bool {
	return j.State == machine.Closed || j.State == machine.AsMade
}

// reopen finds which joints, now closed for good or never opened, must come
// apart for the targets to be reached: the targets and, clause by clause, the
// alternative with the fewest hours to close again. Joints said to stay closed
// are avoided where there is a choice. Joints never opened need not be listed
// twice: they are opened anyhow unless they stay closed.
func (d *draft) reopen(targets []*machine.Joint) {
	var visit func(j *machine.Joint)
	visit = func(j *machine.Joint) {
		if !isShut(j) || d.reopened[j.Number()] {
			return
		}
		d.reopened[j.Number()] = true
		for _, any := range d.ways[j.Number()] {
			for _, k := range d.cheapest(any) {
				visit(k)
			}
		}
	}
	for _, j := range targets {
		visit(j)
	}
}

// cheapest picks the alternative that costs least to open and close again, nil
// where one costs nothing. Ties fall to the first.
func (d *draft) cheapest(any [][]*machine.Joint) []*machine.Joint {
	var best []*machine.Joint
	bestCost := -1.0
	for _, set := range any {
		cost := 0.0
		for _, k := range set {
			if isShut(k) && !d.reopened[k.Number()] {
				cost += max(k.Hours, 0.01)
				if k.Left != "" {
					cost += 1e6
				}
			}
		}
		if bestCost < 0 || cost < bestCost {
			best, bestCost = set, cost
		}
	}
	return best
}

// waysIn reads the reach of every joint as joints: clause, alternative, joint.
func waysIn(m *machine.Machine) [][][][]*machine.Joint {
	ways := make([][][][]*machine.Joint, len(m.Joints))
	for i, j := range m.Joints {
		for _, r := range j.Reach {
			var any [][]*machine.Joint
			for _, alt := range r.Any {
				var set []*machine.Joint
				for _, id := range alt {
					if k := m.Joint(id); k != nil && k != j && !slices.Contains(set, k) {
						set = append(set, k)
					}
				}
				any = append(any, set)
			}
			ways[i] = append(ways[i], any)
		}
	}
	return ways
}

// keepShut finds the joints that stay closed: those said to, and those never
// opened of which every way in leads over one that stays closed. It runs until
// nothing changes, so it follows chains and is not misled by rings.
func (d *draft) keepShut() {
	for _, j := range d.m.Joints {
		if j.State == machine.AsMade && j.Left != "" {
			d.keep(Kept{Joint: j, Why: j.Left})
		}
	}
	for changed := true; changed; {
		changed = false
		for _, j := range d.m.Joints {
			if j.State != machine.AsMade || d.kept[j.Number()] || d.reopened[j.Number()] {
				continue
			}
			if over := d.buriedUnder(j, d.shutForGood); over != nil {
				d.keep(Kept{Joint: j, Under: over, Why: over.Name + " stays closed over it"})
				changed = true
			}
		}
	}
}

// closedOver tells whether a joint was closed for good and is to stay so.
func (d *draft) closedOver(j *machine.Joint) bool {
	return j.State == machine.Closed && !d.reopened[j.Number()]
}

// shutForGood tells whether a joint is closed and is to stay so.
func (d *draft) shutForGood(j *machine.Joint) bool { return d.kept[j.Number()] || d.closedOver(j) }

// standing leaves of some alternatives those that can still be had: without a
// joint that is shut for good. Where a joint that stays closed spoils every one
// and yet the thing was come at, that joint was not in the way: then it is left
// out, and only what was closed since spoils an alternative.
func (d *draft) standing(any [][]*machine.Joint) [][]*machine.Joint {
	var out [][]*machine.Joint
	for _, set := range any {
		if !slices.ContainsFunc(set, d.shutForGood) {
			out = append(out, set)
		}
	}
	if len(out) > 0 {
		return out
	}
	for _, set := range any {
		rest := slices.DeleteFunc(slices.Clone(set), func(j *machine.Joint) bool { return d.kept[j.Number()] })
		if len(rest) > 0 && !slices.ContainsFunc(set, d.closedOver) {
			out = append(out, rest)
		}
	}
	return out
}

func (d *draft) keep(k Kept) {
	d.kept[k.Joint.Number()] = true
	d.left = append(d.left, k)
}

// buriedUnder finds a joint that bars every way to j, nil if there is a way.
func (d *draft) buriedUnder(j *machine.Joint, stays func(*machine.Joint) bool) *machine.Joint {
	for _, any := range d.ways[j.Number()] {
		var over *machine.Joint
		for _, set := range any {
			i := slices.IndexFunc(set, stays)
			if i < 0 {
				over = nil
				break
			}
			if over == nil {
				over = set[i]
			}
		}
		if over != nil {
			return over
		}
	}
	return nil
}
