package sequence

import (
	"cmp"
	"math"
	"slices"

	"matchmark/internal/machine"
)

// schedule finds the order: of the steps that are ready it takes, first, stripping
// before bench work before proving; a hold point that alone stands before a
// closing; work in the assembly last worked on; then by kind of act, the strip
// log turned round, the longest tail of hours behind a step, and its id. Steps
// of a contradiction and all that waits for them are left out.
func (p *Plan) schedule() {
	next, wait, rest := p.degrees()
	barred := p.barred()
	q := newQueue(p, p.standing(next))
	for s := range p.todo {
		if wait[s] == 0 && !barred[s] {
			q.push(s)
		}
	}
	p.place = make([]int, p.todo)
	for i := range p.place {
		p.place[i] = -1
	}
	current := q.bench(p.last)
	for {
		s, ok := q.pop(current)
		if !ok {
			break
		}
		if p.Steps[s].Assembly != "" {
			current = q.at[s]
		}
		p.place[s] = len(p.order)
		p.order = append(p.order, s)
		for _, t := range next[s] {
			wait[t]--
			rest[t] ^= s
			if wait[t] == 0 && !barred[t] {
				q.push(t)
			}
			if wait[t] == 1 && p.Steps[t].Act == Close && p.Steps[rest[t]].Act == Check {
				q.due(rest[t])
			}
		}
	}
}

// tellOrder writes Order and, by their ids, what is Stuck.
func (p *Plan) tellOrder() {
	p.Order = make([]*Step, len(p.order))
	for i, s := range p.order {
		p.Order[i] = &p.Steps[s]
	}
	for s := range p.todo {
		if p.place[s] < 0 {
			p.Stuck = append(p.Stuck, &p.Steps[s])
		}
	}
	slices.SortFunc(p.Stuck, func(a, b *Step) int { return cmp.Compare(a.ID, b.ID) })
}

// degrees gives the settled plan as successors, counts of predecessors, and
// the exclusive or of their numbers, which names the last one left.
func (p *Plan) degrees() (next [][]int, wait, rest []int) {
	next = bucket(p.todo, func(put func(int, int)) {
		for to, links := range p.into {
			for _, l := range links {
				put(l.from, to)
			}
		}
	})
	wait, rest = make([]int, p.todo), make([]int, p.todo)
	for to, links := range p.into {
		wait[to] = len(links)
		for _, l := range links {
			rest[to] ^= l.from
		}
	}
	return next, wait, rest
}

// standing ranks the steps by all that does not change while scheduling.
func (p *Plan) standing(next [][]int) []int {
	tail := p.tails(next)
	open, _, _ := p.forward(nil, nil)
	place := make([]int, p.todo)
	for i, s := range open {
		place[s] = i
	}
	reverse, turns := make([]int, p.todo), make([]int, p.todo)
	order := make([]int, p.todo)
	for i := range order {
		s := &p.Steps[i]
		order[i], turns[i] = i, turn(s)
		if s.Act == Close || s.Act == Trial {
			reverse[i] = -p.stripPlace(s.Joint, place)
		}
	}
	slices.SortFunc(order, func(a, b int) int {
		switch {
		case turns[a] != turns[b]:
			return cmp.Compare(turns[a], turns[b])
		case reverse[a] != reverse[b]:
			return reverse[a] - reverse[b]
		case tail[a] != tail[b]:
			return cmp.Compare(tail[b], tail[a])
		}
		return p.byID[a] - p.byID[b]
	})
	return ranks(order)
}

// turn ranks acts at the bench. Waiting for an order comes last: it is done
// when it is done. Tests follow their own order, running checks after them.
func turn(s *Step) int {
	switch {
	case s.Act == Test:
		return s.Test.TestAdded.Order
	case stage(s) == 2:
		return math.MaxInt
	}
	return slices.Index([]Act{Open, Undo, Clean, Check, Rework, Trial, Close, Collect}, s.Act)
}

// stage parts stripping, bench work and proving.
func stage(s *Step) int {
	switch {
	case s.Act == Open || s.Act == Undo:
		return 0
	case s.Act == Test || s.Act == Check && s.Check.When == machine.Running:
		return 2
	}
	return 1
}

// tails gives the longest run of hours that waits behind each step; a step
// without hours counts a little, so that long chains show.
func (p *Plan) tails(next [][]int) []float64 {
	wait := make([]int, p.todo)
	for to, links := range p.into {
		wait[to] = len(links)
	}
	var line []int
	for s := range p.todo {
		if wait[s] == 0 {
			line = append(line, s)
		}
	}
	for i := 0; i < len(line); i++ {
		for _, t := range next[line[i]] {
			if wait[t]--; wait[t] == 0 {
				line = append(line, t)
			}
		}
	}
	tail := make([]float64, p.todo)
	for _, s := range slices.Backward(line) {
		for _, t := range next[s] {
			tail[s] = max(tail[s], tail[t])
		}
		tail[s] += p.Steps[s].Hours + 0.01
	}
	return tail
}

// lastAssembly is where the last bench fact was recorded.
func lastAssembly(m *machine.Machine) machine.AssemblyID {
	for _, e := range slices.Backward(m.Events) {
		switch b := e.Body.(type) {
		case *machine.JointOpened:
			return m.Joint(b.Joint).Assembly
		case *machine.JointClosed:
			return m.Joint(b.Joint).Assembly
		case *machine.PartCleaned:
			return m.Part(b.Part).Assembly
		case *machine.LookTaken:
			return m.Check(b.Check).Assembly
		case *machine.ReadingTaken:
			if c := m.Check(b.Check); c != nil {
				return c.Assembly
			}
			if f := m.Feature(b.Feature); f != nil {
				return f.Part.Assembly
			}
		}
	}
	return ""
}

// queue holds ready steps by stage and assembly, and those that are due.
type queue struct {
	p      *Plan
	rank   []int
	number map[machine.AssemblyID]int // of the assemblies
	at     []int                      // the assembly of each step, 0 for none
	stage  []int                      // of each step
	heaps  [3][]*heap                 // by assembly; nil while nothing was ready
	used   [3][]int                   // assemblies in order of first use
	urge   *heap                      // steps that alone stand before a closing
	ready  []bool
	isDue  []bool
	gone   []bool
}

func newQueue(p *Plan, rank []int) *queue {
	q := &queue{p: p, rank: rank, number: map[machine.AssemblyID]int{"": 0}, at: make([]int, p.todo), stage: make([]int, p.todo),
		urge: newHeap(rank), ready: make([]bool, p.todo), isDue: make([]bool, p.todo), gone: make([]bool, p.todo)}
	for s := range p.todo {
		q.stage[s] = stage(&p.Steps[s])
		q.at[s] = q.bench(p.Steps[s].Assembly)
	}
	for i := range q.heaps {
		q.heaps[i] = make([]*heap, len(q.number))
	}
	return q
}

// bench numbers an assembly.
func (q *queue) bench(a machine.AssemblyID) int {
	n, known := q.number[a]
	if !known {
		n = len(q.number)
		q.number[a] = n
	}
	return n
}

func (q *queue) push(s int) {
	q.ready[s] = true
	k, a := q.stage[s], q.at[s]
	if k == 2 {
		a = 0 // proving goes by its own order
	}
	if q.heaps[k][a] == nil {
		q.heaps[k][a] = newHeap(q.rank)
		q.used[k] = append(q.used[k], a)
	}
	q.heaps[k][a].push(s)
	if q.isDue[s] {
		q.urge.push(s)
	}
}

// due marks a check that alone stands before a closing.
func (q *queue) due(s int) {
	if q.isDue[s] {
		return
	}
	q.isDue[s] = true
	if q.ready[s] && !q.gone[s] {
		q.urge.push(s)
	}
}

// pop gives the next step, false when none is ready.
func (q *queue) pop(current int) (int, bool) {
	for k := range q.heaps {
		if k == 1 {
			if s, ok := q.head(q.urge); ok {
				return q.take(s), true
			}
		}
		best := -1
		for _, a := range q.used[k] {
			s, ok := q.head(q.heaps[k][a])
			if !ok {
				continue
			}
			if a == current && q.p.Steps[s].Act != Collect {
				best = s
				break
			}
			if best < 0 || q.rank[s] < q.rank[best] {
				best = s
			}
		}
		if best >= 0 {
			return q.take(best), true
		}
	}
	return -1, false
}

// head looks at the first step of a heap that was not taken elsewhere.
func (q *queue) head(h *heap) (int, bool) {
	for h.len() > 0 && q.gone[h.items[0]] {
		h.pop()
	}
	if h.len() == 0 {
		return -1, false
	}
	return h.items[0], true
}

func (q *queue) take(s int) int {
	q.gone[s] = true
	return s
}
