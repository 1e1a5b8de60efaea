package draw

import (
	"fmt"
	"hash/fnv"
	"sync"
)

// Kept remembers general arrangements: placing their balloons takes tens of
// milliseconds, and the parts of a machine seldom change. Its zero value is
// ready, and may be used by several at once.
type Kept struct {
	mu sync.Mutex
	by map[uint64]Sheet
}

// mostKept is how many arrangements are remembered before all are forgotten.
const mostKept = 16

// General is the general arrangement of a machine, with its present states.
func (k *Kept) General(m Machine) Sheet {
	key := m.structure()
	k.mu.Lock()
	s, ok := k.by[key]
	k.mu.Unlock()
	if !ok {
		s = m.General()
		k.mu.Lock()
		if len(k.by) >= mostKept || k.by == nil {
			k.by = map[uint64]Sheet{}
		}
		k.by[key] = s
		k.mu.Unlock()
	}
	return s.restated(m)
}

// structure tells machines apart by all that the arrangement depends on.
func (m Machine) structure() uint64 {
	h := fnv.New64a()
	fmt.Fprint(h, m.Cylinders)
	for _, it := range m.Items {
		fmt.Fprintf(h, "|%s|%s|%s|%s|%s|%d|%d|%d|%g", it.ID, it.Type, it.Kind, it.Sheet, it.Material, it.Bores, it.Journals, it.Teeth, it.MassKg)
	}
	return h.Sum64()
}

// restated is the sheet with its items as they are now.
func (s Sheet) restated(m Machine) Sheet {
	marks, balloons := make([]Mark, len(s.Marks)), make([]Balloon, len(s.Balloons))
	for i, k := range s.Marks {
		k.Item = m.Items[k.Item.Number-1]
		marks[i] = k
	}
	for i, b := range s.Balloons {
		items := make([]Item, len(b.Items))
		for j, it := range b.Items {
			items[j] = m.Items[it.Number-1]
		}
		b.Items = items
		balloons[i] = b
	}
	s.Marks, s.Balloons = marks, balloons
	return s
}
