package judge

import (
	"fmt"
	"math"

	"matchmark/internal/machine"
	"matchmark/internal/trade/metrology"
)

// wear adds the departure of every point from the unworn size: what a bore
// grew, what a journal shrank, and for surfaces without a sense of wear the
// plain distance. Less than nothing within its uncertainty is nothing; beyond
// it the readings contradict each other, and the check is doubtful.
func (b *bench) wear(m *measured, ft *machine.Feature, surf surface, s scale) {
	ref, words := b.unwornSize(ft, surf)
	if ref == nil {
		m.wanted = "read the unworn surface" + in(ft.Unworn) + " or enter the nominal size of " + ft.Called()
		return
	}
	m.note(surf.unwornLines...)
	m.note("unworn size " + words)
	for _, sp := range surf.spots {
		e, err := less(sp, ref)
		if err != nil {
			m.note(fmt.Sprintf("%s: not used: %v", pointWords(sp.point), err))
			continue
		}
		switch ft.Sort {
		case machine.Bore:
		case machine.Shaft:
			e.Value = -e.Value
		default:
			e.Value = math.Abs(e.Value)
		}
		if e.Value < -2*e.U && m.odd == "" {
			m.odd = fmt.Sprintf("%s%s by %s mm, more than the readings are uncertain: read both again, or correct the unworn size",
				lead(pointWords(sp.point)), against(ft.Sort), figure(-e.Value, decimals(surf.step, e.U)))
		}
		if e.Value < 0 {
			m.note(fmt.Sprintf("%s%s mm against the unworn size, taken as no wear", lead(pointWords(sp.point)), figure(e.Value, decimals(surf.step, e.U))))
			e.Value = 0
		}
		// Repeats are asked for at the point, not at the unworn surface.
		c := s.candidate(pointWords(sp.point), e, term{times: 1, spot: sp, role: "point"}, term{times: -1, spot: ref, role: "unworn"})
		c.random, c.count = math.Abs(s.factor)*math.Min(sp.random, e.U), sp.count
		m.list = append(m.list, c)
	}
}

// against names a departure with the wrong sign.
func against(sort string) string {
	if sort == machine.Shaft {
		return "larger than unworn"
	}
	return "smaller than unworn"
}

// unwornSize is what the unworn surface read, else the size as made; a
// reworked feature counts from the size it was reworked to. nil is unknown.
func (b *bench) unwornSize(ft *machine.Feature, surf surface) (*spot, string) {
	if surf.unworn != nil {
		e := surf.unworn.est
		return surf.unworn, fmt.Sprintf("%s mm, read on the unworn surface, u %s", figure(e.Value, decimals(surf.step, e.U)), tiny(e.U))
	}
	if ft.Nominal == nil {
		return nil, ""
	}
	size, from := ft.Nominal.MM, "nominal, "+string(ft.Nominal.From)
	if step := b.reworkStep(ft); step != 0 {
		moved := size + step
		if ft.Sort == machine.Shaft {
			moved = size - step
		}
		// The nominal may have been entered anew after the rework: the one
		// nearer to the readings is meant.
		if mean, ok := meanSize(surf.spots); ok && math.Abs(mean-moved) < math.Abs(mean-size) {
			from += fmt.Sprintf(" %s, reworked by %s", figure(size, 3), figure(step, 2))
			size = moved
		}
	}
	return &spot{est: metrology.Estimate{Value: size}}, fmt.Sprintf("%s mm, %s", figure(size, 3), from)
}

// reworkStep is the size taken at the latest rework of a feature, 0 for none.
func (b *bench) reworkStep(ft *machine.Feature) float64 {
	if ft.Version == 0 {
		return 0
	}
	var last *machine.Done
	for _, c := range b.m.Checks {
		for i := range c.Done {
			d := &c.Done[i]
			touches := false
			for _, id := range d.Reworked {
				touches = touches || id == ft.ID
			}
			for _, id := range d.Renewed {
				touches = touches || ft.Part != nil && id == ft.Part.ID
			}
			if touches && (last == nil || d.At.After(last.At) || d.At.Equal(last.At) && d.Entry > last.Entry) {
				last = d
			}
		}
	}
	if last == nil {
		return 0
	}
	return last.Step
}

// meanSize is the mean of all points, false where there are none.
func meanSize(list []*spot) (float64, bool) {
	sum := 0.0
	for _, sp := range list {
		sum += sp.est.Value
	}
	return sum / float64(max(len(list), 1)), len(list) > 0
}
