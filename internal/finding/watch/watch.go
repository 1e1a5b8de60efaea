// Package watch tells the next owner what to look at first: the fits that
// passed with the most of their wear used up, those that stayed doubtful, and
// the checks that somebody passed by hand.
//
// The share used is a straight line from the new size to the wear limit. Wear
// is not a straight line in hours, so no hours are given.
package watch

import (
	"math"
	"slices"

	"matchmark/internal/finding/judge"
	"matchmark/internal/machine"
)

// Half is the share of the wear from which a fit is worth watching.
const Half = 0.5

// Item is one check to keep an eye on.
type Item struct {
	Finding *judge.Finding
	Used    float64 // share of the wear from new to the limit, 0 to 1; NaN where new is not known
	Passed  *machine.HoldPassed
}

// Of lists what is worth watching: passed by hand first, then doubtful, then
// by falling share used, those below Half left out.
func Of(m *machine.Machine, judged judge.Findings) []Item {
	passed := map[machine.CheckID]*machine.HoldPassed{}
	for _, e := range m.Events {
		if b, ok := e.Body.(*machine.HoldPassed); ok {
			passed[b.Check] = b
		}
	}
	var out []Item
	for _, f := range judged.List {
		it := Item{f, used(f), passed[f.Check.ID]}
		if it.Passed != nil && f.Verdict != judge.Sound || f.Verdict == judge.Doubtful || f.Verdict == judge.Sound && it.Used >= Half {
			out = append(out, it)
		}
	}
	slices.SortStableFunc(out, func(a, b Item) int { return b.rank() - a.rank() })
	return out
}

// rank puts the most telling first.
func (it Item) rank() int {
	switch {
	case it.Passed != nil && it.Finding.Verdict != judge.Sound:
		return 3000
	case it.Finding.Verdict == judge.Doubtful:
		return 2000
	}
	return int(1000 * it.Used)
}

// used is the larger of the two ways from the new size to a limit.
func used(f *judge.Finding) float64 {
	share := math.NaN()
	for _, way := range [][2]float64{{f.Limit.NewHigh, f.Limit.High}, {f.Limit.NewLow, f.Limit.Low}} {
		span := way[1] - way[0]
		if math.IsInf(span, 0) || math.IsNaN(span) || span == 0 {
			continue
		}
		if u := (f.Value - way[0]) / span; math.IsNaN(share) || u > share {
			share = u
		}
	}
	return share
}
