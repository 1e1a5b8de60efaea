package sequence

import (
	"math/bits"
	"testing"
)

// orders counts the complete orders of the steps of one act that obey the
// plan's exported rules between them, by dynamic programming over the sets of
// steps done. It reads the exported rules only and so is a second route, apart
// from the chaining. Steps of other acts are taken as done (Before rules of
// theirs fall away). Needs at most 20 steps.
func orders(t *testing.T, p *Plan, acts ...Act) int {
	t.Helper()
	d := dpOf(p, acts...)
	ways := make([]int, 1<<d.n)
	ways[0] = 1
	for done := range ways {
		if ways[done] == 0 {
			continue
		}
		for s := range d.n {
			if done&(1<<s) == 0 && d.may(done, s) {
				ways[done|1<<s] += ways[done]
			}
		}
	}
	return ways[len(ways)-1]
}

// firsts lists the steps with which some complete order begins.
func firsts(p *Plan) map[StepID]bool {
	d := dpOf(p, allActs...)
	ends := d.ends()
	out := map[StepID]bool{}
	for s := range d.n {
		if ends[1<<s] && d.may(0, s) {
			out[d.ids[s]] = true
		}
	}
	return out
}

// feasible tells whether some complete order obeys the rules.
func feasible(p *Plan, rules []Rule) bool {
	return dpWith(p, rules, allActs...).ends()[0]
}

var allActs = []Act{Open, Undo, Clean, Collect, Check, Rework, Trial, Close, Test}

// ends tells of every set of steps done whether an order leads on to the end.
func (d *dp) ends() []bool {
	full := 1<<d.n - 1
	ends := make([]bool, 1<<d.n)
	ends[full] = true
	for done := full - 1; done >= 0; done-- {
		for s := range d.n {
			if done&(1<<s) == 0 && ends[done|1<<s] && d.may(done, s) {
				ends[done] = true
				break
			}
		}
	}
	return ends
}

type dp struct {
	n     int
	ids   []StepID
	rules []dpRule
}

type dpRule struct {
	step   int
	before bool
	any    []int // bit sets
}

func dpOf(p *Plan, acts ...Act) *dp { return dpWith(p, p.Rules(), acts...) }

func dpWith(p *Plan, rules []Rule, acts ...Act) *dp {
	d := &dp{}
	at := map[StepID]int{}
	for _, s := range p.Steps {
		for _, a := range acts {
			if !s.Done && s.Act == a {
				at[s.ID] = d.n
				d.ids = append(d.ids, s.ID)
				d.n++
			}
		}
	}
	if d.n > 20 {
		panic("too many steps to count")
	}
	for _, r := range rules {
		step, ok := at[r.Step]
		if !ok {
			continue
		}
		cut := dpRule{step: step, before: r.Dir == Before}
		met := false
		for _, alt := range r.Any {
			set := 0
			for _, id := range alt {
				if i, ok := at[id]; ok {
					set |= 1 << i
				}
			}
			met = met || set == 0
			cut.any = append(cut.any, set)
		}
		if !met {
			d.rules = append(d.rules, cut)
		}
	}
	return d
}

// may tells whether step s can follow the steps done.
func (d *dp) may(done, s int) bool {
	for _, r := range d.rules {
		ok := false
		switch {
		case r.before && r.step != s && done&(1<<r.step) == 0:
			for _, alt := range r.any {
				ok = ok || bits.OnesCount(uint(alt&(done|1<<s))) == 0
			}
		case !r.before && r.step == s:
			for _, alt := range r.any {
				ok = ok || alt&^done == 0
			}
		default:
			ok = true
		}
		if !ok {
			return false
		}
	}
	return true
}
