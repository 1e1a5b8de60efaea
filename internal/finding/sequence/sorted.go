package sequence

import "slices"

// sorted is what comes of the steps still to be done and the rules between
// them, in step numbers. It is not changed once it is made, and plans that ask
// the same share it.
type sorted struct {
	byID []int // rank of each step by its id
	*settled
	into  [][]link // settled links by waiting step
	order []int
	place []int // position in order, -1 where stuck
}

// sort settles the rules and finds the order. All that it reads is compared in
// asksAs.
func (p *Plan) sort() {
	p.byID = p.early()
	p.settled = settle(p.todo, p.rules, p.byID, p.late)
	p.into = p.links()
	p.schedule()
}

// asksAs tells whether a plan has the steps and rules of another, in the same
// numbers, and all else that sort reads of it.
func (p *Plan) asksAs(o *Plan) bool {
	if p.todo != o.todo || p.last != o.last || p.strip.apart != o.strip.apart || len(p.rules) != len(o.rules) {
		return false
	}
	for i := range p.todo {
		a, b := &p.Steps[i], &o.Steps[i]
		if a.ID != b.ID || a.Assembly != b.Assembly || a.Hours != b.Hours || stage(a) != stage(b) || turn(a) != turn(b) ||
			a.Joint != nil && p.strip.place[a.Joint.Number()] != o.strip.place[b.Joint.Number()] {
			return false
		}
	}
	for i := range p.rules {
		a, b := &p.rules[i], &o.rules[i]
		if a.step != b.step || a.before != b.before || a.word != b.word || a.strength() != b.strength() ||
			!slices.EqualFunc(a.any, b.any, slices.Equal[[]int]) {
			return false
		}
	}
	return true
}
