package remedy

import (
	"math"
	"slices"

	"matchmark/internal/finding/judge"
	"matchmark/internal/machine"
)

// lifeOf scores how far a remedy brings a check, in thousandths: the distance
// of the predicted value from the wear limit as a share of the span from new
// limit to wear limit. 1000 is as new, 0 is on the limit.
//
//   - A remedy that states a shift of the check itself: the value so shifted.
//   - A clearance: the surfaces that are neither renewed nor reworked keep
//     their wear, and the rest is taken as new. A kept surface whose wear is
//     not known counts as on the limit.
//   - Any other check: as new when what it measures is renewed or reworked.
//   - Otherwise, an adjustment say, all that is known is that the value comes
//     within the limit: 0.
func lifeOf(m *machine.Machine, f *judge.Finding, r *machine.Remedy) int64 {
	if f == nil {
		return 0
	}
	c := f.Check
	for _, s := range r.Shifts {
		if s.Check == c.ID {
			return share(f, f.Value+s.By)
		}
	}
	restored := func(ft *machine.Feature) bool {
		return slices.Contains(r.Reworks, ft.ID) || ft.Part != nil && slices.Contains(r.Renews, ft.Part.ID)
	}
	switch {
	case !restores(m, c, r):
		return 0
	case c.By == machine.ByClearance && c.Outer != nil && c.Inner != nil:
		kept := 0.0
		for _, ft := range []*machine.Feature{c.Outer, c.Inner} {
			if restored(ft) {
				continue
			}
			wear, known, _ := WearOf(ft)
			if !known {
				return 0
			}
			kept += wear
		}
		if kept == 0 {
			return 1000
		}
		return share(f, f.Limit.NewHigh+kept)
	case c.Outer != nil && !restored(c.Outer) && (c.Inner == nil || !restored(c.Inner)):
		return 0
	}
	return 1000
}

// restores tells whether a remedy renews or reworks any part that a check is
// about.
func restores(m *machine.Machine, c *machine.Check, r *machine.Remedy) bool {
	about := slices.Clone(c.Parts)
	for _, j := range c.Joints {
		about = append(about, j.Parts...)
	}
	for _, ft := range []*machine.Feature{c.Outer, c.Inner} {
		if ft != nil && ft.Part != nil {
			about = append(about, ft.Part)
		}
	}
	touched := slices.Clone(r.Renews)
	for _, id := range r.Reworks {
		touched = append(touched, id.Part())
	}
	if len(about) == 0 {
		return len(touched) > 0
	}
	return slices.ContainsFunc(about, func(p *machine.Part) bool { return slices.Contains(touched, p.ID) })
}

// share is where a value lies between wear limit, 0, and new limit, 1000. It
// uses the side of the limits that has both; with neither, a value says
// nothing and counts as on the limit.
func share(f *judge.Finding, value float64) int64 {
	least, known := 1.0, false
	for _, side := range [][2]float64{{f.Limit.NewHigh, f.Limit.High}, {f.Limit.NewLow, f.Limit.Low}} {
		span := side[1] - side[0]
		if math.IsInf(span, 0) || math.IsNaN(span) || span == 0 {
			continue
		}
		least, known = math.Min(least, (side[1]-value)/span), true
	}
	if !known || math.IsNaN(least) {
		return 0
	}
	return int64(math.Round(1000 * math.Max(0, least)))
}
