package sequence

import (
	"cmp"
	"fmt"
	"slices"

	"matchmark/internal/machine"
	"matchmark/internal/trade/spelling"
)

// Breach is a joint recorded as closed for good over something open: a check
// that was not passed by hand, or another joint.
type Breach struct {
	Joint   *machine.Joint // the one that was closed
	Check   *machine.Check // still open; nil where Under is meant
	Under   *machine.Joint // still open beneath
	Closing machine.Stamp
	Why     string
	Reopen  []*machine.Joint
	Hours   float64
}

// findBreaches reads the record for closings that should have waited.
func (d *draft) findBreaches() {
	for _, c := range d.m.Checks {
		if s := &d.checks[c.Number()]; s.open() && !s.moot && !s.accepted && c.When != machine.Running {
			d.breachOfCheck(c)
		}
	}
	for _, j := range d.m.Joints {
		if !isShut(j) {
			d.breachOfReach(j)
		}
	}
	slices.SortFunc(d.breaches, func(a, b Breach) int {
		return cmp.Or(cmp.Compare(b.Hours, a.Hours), cmp.Compare(a.Joint.ID, b.Joint.ID), cmp.Compare(a.Why, b.Why))
	})
}

func (d *draft) breachOfCheck(c *machine.Check) {
	s := &d.checks[c.Number()]
	if len(s.rework) > 0 {
		return // open again because of a rework, not because it was passed over
	}
	own, sets := s.own, s.sets
	for _, j := range own {
		if j.State == machine.Closed && passed(j, c) == nil {
			d.breach(Breach{Joint: j, Check: c, Why: fmt.Sprintf("%s was closed over an open check: %s", j.Name, d.standsAs(c))})
		}
	}
	var over *machine.Joint
	for _, set := range sets {
		hidden := false
		for _, k := range set {
			hidden = hidden || d.kept[k.Number()] || k.State == machine.Closed
			if k.State == machine.Closed && (over == nil || lastClosing(k).At.After(lastClosing(over).At)) {
				over = k
			}
		}
		if !hidden {
			return
		}
	}
	if over != nil && !slices.Contains(own, over) && passed(over, c) == nil {
		d.breach(Breach{Joint: over, Check: c, Why: fmt.Sprintf("%s was closed over an open check: %s", over.Name, d.standsAs(c))})
	}
}

// breachOfReach: every way to an open joint was closed for good after the
// joint came apart.
func (d *draft) breachOfReach(j *machine.Joint) {
	if len(j.Removals) == 0 {
		return
	}
	apart := j.Removals[len(j.Removals)-1].At
	for _, any := range d.ways[j.Number()] {
		var over *machine.Joint
		lost := 0
		for _, set := range any {
			i := slices.IndexFunc(set, func(k *machine.Joint) bool { return d.closedOver(k) && lastClosing(k).At.After(apart) })
			if i >= 0 {
				lost++
				over = set[i]
			}
		}
		if over != nil && lost == len(any) {
			d.breach(Breach{Joint: over, Under: j, Why: fmt.Sprintf("%s was closed over %s, which the record still has open. Record its closing if it was made, or open again", over.Name, spelling.Inside(j.Name))})
			return
		}
	}
}

func (d *draft) breach(b Breach) {
	b.Closing = lastClosing(b.Joint)
	b.Reopen, b.Hours = d.reopening(b.Joint)
	d.breaches = append(d.breaches, b)
}

func lastClosing(j *machine.Joint) machine.Stamp {
	if n := len(j.Closings); n > 0 {
		return j.Closings[n-1].Stamp
	}
	return machine.Stamp{}
}
