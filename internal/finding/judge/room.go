package judge

import (
	"math"

	"matchmark/internal/machine"
)

// Room is a limit told in terms of one reading on a surface, so that a figure
// can be held against it before it is kept. It is a help to the eye: the
// verdict is made from all readings, with their uncertainty. Sizes are in mm,
// absent ones ±Inf.
type Room struct {
	Check           *machine.Check
	NewLow, NewHigh float64
	Low, High       float64
	Zero            float64 // the size without wear; NaN where the check does not count from one
	From            machine.Provenance
	Source          string
}

// Rooms gives the room of each surface, in order, nil for a surface without a
// limit that one reading can be held against. Of several checks the one on the
// surface alone is taken, wear before size, then a clearance whose other side
// is read; its bounds are those at the tightest pairing.
// Cost: as judging the surfaces' checks.
func Rooms(m *machine.Machine, surfaces []*machine.Feature) []*Room {
	b := newBench(m)
	out := make([]*Room, len(surfaces))
	for i, ft := range surfaces {
		for _, by := range []string{machine.ByWear, machine.BySize, machine.ByClearance} {
			for _, c := range m.Checks {
				if out[i] == nil && c.By == by && (c.Outer == ft || c.Inner == ft) {
					out[i] = b.room(c, ft)
				}
			}
		}
	}
	return out
}

// room moves a check's ruling limit to where the surface's readings lie.
func (b *bench) room(c *machine.Check, ft *machine.Feature) *Room {
	s, length := b.scaleOf(c.Unit), b.scaleOf("mm")
	if s.factor == 0 || c.Unit != "" && !s.length() {
		return nil
	}
	limits := b.limits(c, s, 0)
	if limits.ruling < 0 || limits.list[limits.ruling].crossed {
		return nil
	}
	l, _ := limits.shown()
	r := &Room{Check: c, NewLow: l.NewLow / s.factor, NewHigh: l.NewHigh / s.factor, Low: l.Low / s.factor, High: l.High / s.factor,
		Zero: math.NaN(), From: l.From, Source: l.Source}
	switch c.By {
	case machine.ByWear:
		ref, _ := b.unwornSize(ft, b.surface(ft, c.Tool, length))
		if ref == nil || ft.Sort != machine.Bore && ft.Sort != machine.Shaft {
			return nil
		}
		r.count(ref.est.Value, ft.Sort)
	case machine.ByClearance:
		if !b.beside(r, c, ft, length) {
			return nil
		}
	}
	return r
}

// count turns bounds of wear into bounds of size, from the size without wear: a
// bore grows, a journal shrinks.
func (r *Room) count(zero float64, sort string) {
	fresh, worn := r.NewHigh, r.High
	r.Zero, r.NewLow, r.NewHigh, r.Low, r.High = zero, zero, zero+fresh, math.Inf(-1), zero+worn
	if sort == machine.Shaft {
		r.NewLow, r.NewHigh, r.Low, r.High = zero-fresh, zero, zero-worn, math.Inf(1)
	}
	r.settleNew()
}

// settleNew leaves out a block of new sizes that has no end.
func (r *Room) settleNew() {
	if math.IsInf(r.NewLow, 0) || math.IsInf(r.NewHigh, 0) || r.NewLow > r.NewHigh {
		r.NewLow, r.NewHigh = math.Inf(-1), math.Inf(1)
	}
}

// beside moves the bounds of a clearance by the other side, as read.
func (b *bench) beside(r *Room, c *machine.Check, ft *machine.Feature, length scale) bool {
	other := c.Inner
	if c.Inner == ft {
		other = c.Outer
	}
	if other == nil {
		return false
	}
	spots := b.surface(other, c.Tool, length).spots
	if len(spots) == 0 {
		return false
	}
	least, most := smallest(spots).est.Value, largest(spots).est.Value
	if c.Inner == ft { // journal = bore less clearance
		r.Low, r.High = most-r.High, least-r.Low
		r.NewLow, r.NewHigh = most-r.NewHigh, least-r.NewLow
	} else {
		r.Low, r.High = most+r.Low, least+r.High
		r.NewLow, r.NewHigh = most+r.NewLow, least+r.NewHigh
	}
	r.settleNew()
	return r.Low < r.High
}
