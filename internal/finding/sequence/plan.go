package sequence

import (
	"cmp"
	"slices"

	"matchmark/internal/machine"
)

// Plan is what follows from a machine and the verdicts on its checks. It is
// not changed after Make.
type Plan struct {
	Steps          []Step   // those still to be done, then those done
	Free           []*Step  // can be done now, in the order of Order
	Held           []Hold   // closings held by open checks, the dearest to reopen first
	Passed         []Hold   // holds let through by hand whose check is still open
	Breaches       []Breach // closed over something open
	Left           []Kept   // joints that stay closed
	Order          []*Step  // one valid order of all that can still be done
	Stuck          []*Step  // what a contradiction keeps from being done
	Benches        []Bench
	Contradictions []Contradiction

	todo  int // how many of Steps are still to be done
	index map[StepID]int
	roles []role // by joint
	rules []rule
	strip stripLog
	last  machine.AssemblyID // where the last bench fact was recorded
	sorted
}

// Make plans the rest of the work. The same machine and verdicts give the same
// plan. Every order it gives obeys every rule that is not in a contradiction;
// a free step can always be followed to the end of the work.
// Cost: linear in steps and literals, apart from sorting; each closing that
// depends on a choice between ways in costs one more pass, for at most 64.
func Make(m *machine.Machine, v Verdicts) *Plan { return Again(m, v, nil) }

// Again gives what Make gives. before is an earlier plan, or nil: where the
// steps still to be done and the rules between them are what they were then, so
// is their order, and it is taken over.
func Again(m *machine.Machine, v Verdicts, before *Plan) *Plan {
	d := newDraft(m, v)
	p := &Plan{todo: len(d.steps), Steps: append(d.steps, d.done...), rules: d.rules, roles: d.roles, Left: d.left, Breaches: d.breaches,
		strip: d.stripLog(), last: lastAssembly(m)}
	p.index = make(map[StepID]int, len(p.Steps))
	for i, s := range p.Steps {
		p.index[s.ID] = i
	}
	if before != nil && p.asksAs(before) {
		p.sorted = before.sorted
	} else {
		p.sort()
	}
	p.tellContradictions()
	p.tellOrder()
	p.findFree(d)
	p.bench()
	p.Held, p.Passed = d.held(p.due)
	return p
}

// Step finds a step by its id.
func (p *Plan) Step(id StepID) (*Step, bool) {
	i, ok := p.index[id]
	if !ok {
		return nil, false
	}
	return &p.Steps[i], true
}

// Rules lists every rule between steps still to be done, those set aside for
// a contradiction too.
func (p *Plan) Rules() []Rule {
	out := make([]Rule, len(p.rules))
	for i := range p.rules {
		out[i] = p.export(&p.rules[i])
	}
	return out
}

// Because lists the rules by which a step waits for something.
func (p *Plan) Because(id StepID) []Rule {
	i, ok := p.index[id]
	if !ok || i >= p.todo {
		return nil
	}
	var out []Rule
	for k := range p.rules {
		r := &p.rules[k]
		if !r.before && r.step == i || r.before && slices.ContainsFunc(r.any, func(alt []int) bool { return slices.Contains(alt, i) }) {
			out = append(out, p.export(r))
		}
	}
	return out
}

// Waits lists the steps still to be done that come directly before a step in
// the settled plan, for scheduling: with them alone the work is in order.
func (p *Plan) Waits(id StepID) []StepID {
	i, ok := p.index[id]
	if !ok || i >= p.todo {
		return nil
	}
	out := make([]StepID, len(p.into[i]))
	for k, l := range p.into[i] {
		out[k] = p.Steps[l.from].ID
	}
	return out
}

// stripLog numbers the joints by when they last came apart, the first lowest.
func (d *draft) stripLog() stripLog {
	var apart []*machine.Joint
	for _, j := range d.m.Joints {
		if len(j.Removals) > 0 {
			apart = append(apart, j)
		}
	}
	slices.SortStableFunc(apart, func(a, b *machine.Joint) int {
		x, y := a.Removals[len(a.Removals)-1], b.Removals[len(b.Removals)-1]
		return cmp.Or(x.At.Compare(y.At), cmp.Compare(x.Entry, y.Entry), cmp.Compare(a.ID, b.ID))
	})
	log := stripLog{place: make([]int, len(d.m.Joints)), apart: len(apart)}
	for i, j := range apart {
		log.place[j.Number()] = i
	}
	return log
}

// stripLog is the place of each joint in the order in which they came apart, 0
// where it never did, and how many did.
type stripLog struct {
	place []int
	apart int
}

// early ranks steps for the forward pass: in the order of their ids.
func (p *Plan) early() []int {
	byID := make([]int, p.todo)
	for i := range byID {
		byID[i] = i
	}
	slices.SortFunc(byID, func(a, b int) int { return cmp.Compare(p.Steps[a].ID, p.Steps[b].ID) })
	return ranks(byID)
}

// late ranks steps for the backward pass. What is no closing is placed as soon
// as it can be; of the closings, the joint that came apart first closes last,
// and joints still to be opened come before those already apart. This is the
// strip log turned round, where the rules leave a choice.
func (p *Plan) late(place []int) []int {
	key := make([]int, p.todo)
	order := make([]int, p.todo)
	for i := range key {
		order[i] = i
		key[i] = -1
		if s := &p.Steps[i]; s.Act == Close {
			key[i] = p.stripPlace(s.Joint, place)
		}
	}
	slices.SortFunc(order, func(a, b int) int {
		return cmp.Or(key[a]-key[b], p.byID[a]-p.byID[b])
	})
	return ranks(order)
}

// stripPlace is a joint's place in the strip log, or the one it will have.
func (p *Plan) stripPlace(j *machine.Joint, place []int) int {
	if open := p.roles[j.Number()].open; open >= 0 {
		return p.strip.apart + place[open]
	}
	return p.strip.place[j.Number()]
}

// ranks turns an order into the rank of each step.
func ranks(order []int) []int {
	rank := make([]int, len(order))
	for i, s := range order {
		rank[s] = i
	}
	return rank
}
