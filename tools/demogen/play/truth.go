package play

import (
	"matchmark/internal/demo"
	"matchmark/internal/machine"
)

// truth lists every check that was made, with the verdict it was made to get.
// It goes by what was read, not by what the program finds.
func truth(m *machine.Machine) (out []demo.Planted) {
	for _, c := range m.Checks {
		bad, isBad := badWhy[c.ID]
		switch {
		case !wasMade(c):
		case isBad:
			out = append(out, demo.Planted{Check: c.ID, Verdict: bad.verdict, Because: bad.because})
		default:
			out = append(out, demo.Planted{Check: c.ID, Verdict: sound})
		}
	}
	return out
}

// wasMade tells whether a check has its answer, or readings at every point.
func wasMade(c *machine.Check) bool {
	switch c.By {
	case machine.ByEye, machine.ByPassage:
		return c.Look() != nil
	case machine.ByReading:
		return len(c.Current()) > 0
	}
	for _, ft := range []*machine.Feature{c.Outer, c.Inner} {
		if ft != nil && !wasRead(ft) {
			return false
		}
	}
	return true
}

func wasRead(ft *machine.Feature) bool {
	at := map[machine.Point]bool{}
	for _, r := range ft.Current() {
		at[machine.Point{Level: r.Level, Axis: r.Axis}] = true
	}
	for _, p := range ft.Points() {
		if !at[p] {
			return false
		}
	}
	return true
}
