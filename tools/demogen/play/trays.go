package play

import (
	"strconv"

	"matchmark/internal/machine"
)

// lot is how many joints a shop puts under one tray mark before it takes the
// next tray.
const lot = 8

// trays hands out tray marks: one assembly to a tray, a new tray when it is
// full. Marks run from 1.
type trays struct {
	last int
	now  map[machine.AssemblyID]*tray
}

type tray struct{ mark, joints int }

// mark is the tray for the next joint of an assembly.
func (t *trays) mark(a machine.AssemblyID) string {
	if t.now == nil {
		t.now = map[machine.AssemblyID]*tray{}
	}
	at := t.now[a]
	if at == nil || at.joints == lot {
		t.last++
		at = &tray{mark: t.last}
		t.now[a] = at
	}
	at.joints++
	return strconv.Itoa(at.mark)
}
