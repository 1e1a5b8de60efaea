package sequence

import (
	"cmp"
	"fmt"
	"slices"
	"strings"

	"matchmark/internal/trade/spelling"
)

// mostNodes bounds the search of Blocked.
const mostNodes = 20000

// Block is the least that must be done before a step.
type Block struct {
	Step  *Step
	Needs []Need // in an order in which they can be done; empty where the step is free
	Hours float64
	Exact bool   // no shorter list will do, as the plan stands
	Least int    // at least so many steps; len(Needs) where Exact
	Never bool   // it cannot be done as the record stands: see Contradictions
	Words string // in a few sentences
}

// Need is one step to be done first and the rule that wants it.
type Need struct {
	*Step
	Why Rule
}

// Blocked finds the fewest steps that must be done before a step can be.
// Plain rules leave no choice. Where several ways in would do, the ways are
// searched, least first, with the count so far as bound, and every answer is
// proved by doing it; after mostNodes choices the best found is given with
// Exact false. Which of several ways stays open for closing is taken as the
// plan has settled it. A step that is done, or unknown, is not blocked.
func (p *Plan) Blocked(id StepID) Block {
	i, ok := p.index[id]
	if !ok || i >= p.todo {
		return Block{Exact: true}
	}
	if slices.ContainsFunc(p.Free, func(s *Step) bool { return s.ID == id }) {
		return Block{Step: &p.Steps[i], Exact: true, Words: p.Steps[i].Name + " can be done now."}
	}
	if p.place[i] < 0 {
		return p.neverDone(i)
	}
	f := newProof(p, i)
	f.search(0)
	return p.tellBlock(i, f)
}

// proof is a search for the smallest set of steps that leads to target.
type proof struct {
	p      *Plan
	target int
	plain  [][]int // steps that must come before, by step
	either [][]int // After rules with alternatives, by step
	need   []bool
	order  []int // members of need, as they were added
	best   []int // the best proved set, in doing order
	nodes  int
	floor  int // smallest count among choices not followed up
}

func newProof(p *Plan, target int) *proof {
	f := &proof{p: p, target: target, plain: make([][]int, p.todo), either: make([][]int, p.todo), need: make([]bool, p.todo)}
	several := map[int]bool{}
	for _, r := range p.ors {
		several[r] = true
		f.either[p.rules[r].step] = append(f.either[p.rules[r].step], r)
	}
	for to, links := range p.into {
		for _, l := range links {
			if !several[l.rule] {
				f.plain[to] = append(f.plain[to], l.from)
			}
		}
	}
	f.add(target)
	return f
}

// add takes a step and all it plainly needs into the set.
func (f *proof) add(s int) {
	if f.need[s] {
		return
	}
	f.need[s] = true
	f.order = append(f.order, s)
	for _, q := range f.plain[s] {
		f.add(q)
	}
}

// cut takes back what was added after a mark.
func (f *proof) cut(mark int) {
	for _, s := range f.order[mark:] {
		f.need[s] = false
	}
	f.order = f.order[:mark]
}

// search settles the rules with alternatives one after another, starting with
// the member at from.
func (f *proof) search(from int) {
	if f.best != nil && len(f.order) >= len(f.best) {
		return
	}
	if f.nodes++; f.nodes > mostNodes {
		if f.floor == 0 || len(f.order) < f.floor {
			f.floor = len(f.order)
		}
		return
	}
	for i := from; i < len(f.order); i++ {
		for _, r := range f.either[f.order[i]] {
			if !f.settledBy(r) {
				f.branch(r, i)
				return
			}
		}
	}
	if doable, stuck := f.prove(); len(stuck) == 0 {
		f.best = doable
	} else {
		f.widen(stuck)
	}
}

// widen goes on where the set is closed but leans on itself in a ring: of the
// stuck steps the first to be done must use an alternative from outside.
func (f *proof) widen(stuck []int) {
	mark := len(f.order)
	for _, s := range stuck {
		for _, r := range f.either[s] {
			for _, alt := range f.p.rules[r].any {
				if !f.canBeDone(alt) || every(alt, func(l int) bool { return f.need[l] }) {
					continue
				}
				for _, l := range alt {
					f.add(l)
				}
				f.search(0)
				f.cut(mark)
			}
		}
	}
}

// canBeDone tells whether no contradiction keeps a way from being taken.
func (f *proof) canBeDone(alt []int) bool {
	return every(alt, func(l int) bool { return f.p.place[l] >= 0 })
}

// settledBy tells whether some alternative of a rule lies in the set already.
// That may be a ring; prove finds out.
func (f *proof) settledBy(r int) bool {
	return slices.ContainsFunc(f.p.rules[r].any, func(alt []int) bool {
		return every(alt, func(l int) bool { return f.need[l] })
	})
}

// branch tries each alternative of a rule, the one that adds least first.
func (f *proof) branch(r, from int) {
	type way struct{ alt, adds int }
	var ways []way
	mark := len(f.order)
	for a, alt := range f.p.rules[r].any {
		if !f.canBeDone(alt) {
			continue
		}
		for _, l := range alt {
			f.add(l)
		}
		ways = append(ways, way{a, len(f.order) - mark})
		f.cut(mark)
	}
	slices.SortFunc(ways, func(a, b way) int { return cmp.Or(cmp.Compare(a.adds, b.adds), cmp.Compare(a.alt, b.alt)) })
	for _, w := range ways {
		for _, l := range f.p.rules[r].any[w.alt] {
			f.add(l)
		}
		f.search(from)
		f.cut(mark)
	}
}

// prove does the steps of the set by their place in the plan's order. It gives
// the order done and the steps that could not be.
func (f *proof) prove() (order, stuck []int) {
	stuck = slices.Clone(f.order)
	slices.SortFunc(stuck, func(a, b int) int { return cmp.Compare(f.p.place[a], f.p.place[b]) })
	done := make([]bool, f.p.todo)
	all := func(alt []int) bool { return every(alt, func(l int) bool { return done[l] }) }
	for len(stuck) > 0 {
		i := slices.IndexFunc(stuck, func(s int) bool {
			return all(f.plain[s]) && every(f.either[s], func(r int) bool { return slices.ContainsFunc(f.p.rules[r].any, all) })
		})
		if i < 0 {
			break
		}
		done[stuck[i]] = true
		order = append(order, stuck[i])
		stuck = slices.Delete(stuck, i, i+1)
	}
	return order, stuck
}

// tellBlock puts the answer in words.
func (p *Plan) tellBlock(target int, f *proof) Block {
	b := Block{Step: &p.Steps[target], Exact: f.nodes <= mostNodes}
	order := f.best
	if order == nil { // cut off before anything was proved: the plan's own order
		b.Exact = false
		order = p.ancestors(target)
	}
	why := p.wanted(order, target)
	for _, s := range order {
		if s != target {
			b.Needs = append(b.Needs, Need{&p.Steps[s], p.export(&p.rules[why[s]])})
			b.Hours += p.Steps[s].Hours
		}
	}
	b.Least = len(b.Needs)
	if !b.Exact {
		b.Least = min(b.Least, f.floor-1)
	}
	b.Words = b.sentence()
	return b
}

func (b *Block) sentence() string {
	count := fmt.Sprintf("%d", len(b.Needs))
	if !b.Exact {
		count = fmt.Sprintf("at least %d and at most %d", b.Least, len(b.Needs))
	}
	noun := "steps"
	if len(b.Needs) == 1 {
		noun = "step"
	}
	var direct []string
	seen := map[string]bool{}
	for _, n := range b.Needs {
		if !seen[n.Why.Words] && speaksOf(n.Why, b.Step.ID) {
			seen[n.Why.Words] = true
			direct = append(direct, n.Why.Words)
		}
	}
	if len(direct) > most {
		direct = append(direct[:most-1], fmt.Sprintf("and %d more", len(direct)-most+1))
	}
	text := fmt.Sprintf("%s waits for %s %s.", b.Step.Name, count, noun)
	if len(direct) > 0 {
		text += " " + strings.Join(direct, ". ") + "."
	}
	if len(b.Needs) > 0 {
		text += " Begin with: " + spelling.Inside(b.Needs[0].Name) + "."
	}
	return text
}

// speaksOf tells whether a rule makes a step wait.
func speaksOf(r Rule, id StepID) bool {
	if r.Dir == After {
		return r.Step == id
	}
	return slices.ContainsFunc(r.Any, func(alt []StepID) bool { return slices.Contains(alt, id) })
}

// wanted gives for each step of a set a rule by which another of the set waits
// for it, the target's own first.
func (p *Plan) wanted(set []int, target int) map[int]int {
	in := setOf(p.todo, set)
	why := make(map[int]int, len(set))
	look := func(from, to, rule int) {
		if !in[from] || !in[to] {
			return
		}
		if _, has := why[from]; !has || to == target {
			why[from] = rule
		}
	}
	for to, links := range p.into {
		for _, l := range links {
			look(l.from, to, l.rule)
		}
	}
	for _, r := range p.ors {
		for _, l := range slices.Concat(p.rules[r].any...) {
			look(l, p.rules[r].step, r)
		}
	}
	return why
}

// ancestors are all steps the settled plan puts before one, in its order.
func (p *Plan) ancestors(target int) []int {
	in := make([]bool, p.todo)
	var visit func(s int)
	visit = func(s int) {
		if in[s] {
			return
		}
		in[s] = true
		for _, l := range p.into[s] {
			visit(l.from)
		}
	}
	visit(target)
	var out []int
	for s := range p.todo {
		if in[s] {
			out = append(out, s)
		}
	}
	slices.SortFunc(out, func(a, b int) int { return cmp.Compare(p.place[a], p.place[b]) })
	return out
}

// neverDone tells why a step is kept out of the order: the contradiction that
// names it, or the first that it waits for.
func (p *Plan) neverDone(i int) Block {
	b := Block{Step: &p.Steps[i], Never: true, Exact: true}
	in := setOf(p.todo, p.ancestors(i))
	for k, c := range p.cores {
		if slices.ContainsFunc(c.steps, func(s int) bool { return in[s] }) {
			b.Words = b.Step.Name + " cannot be done as the record stands. " + p.Contradictions[k].Words
			return b
		}
	}
	b.Words = b.Step.Name + " cannot be done as the record stands: it waits for steps that contradict one another."
	return b
}
