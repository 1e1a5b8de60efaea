package remedy

import (
	"fmt"
	"math"
	"math/rand/v2"
	"reflect"
	"slices"
	"testing"

	"matchmark/internal/finding/judge"
	"matchmark/internal/machine"
)

// randomMachine has a shaft whose journals share a size, checks by eye, two
// gaps that remedies shift, and remedies that share parts and mend neighbours.
func randomMachine(r *rand.Rand) *log {
	var l log
	l.add(&machine.PartAdded{ID: "shaft", Name: "Shaft"}, &machine.PartAdded{ID: "p1", Name: "Part 1"}, &machine.PartAdded{ID: "p2", Name: "Part 2"})
	eyes := []machine.CheckID{"e1", "e2", "e3"}
	gaps := []machine.CheckID{"g1", "g2"}
	remedy := func(of machine.CheckID, i int) machine.Remedy {
		out := machine.Remedy{Key: fmt.Sprintf("own-%s-%d", of, i), Name: "Own", Cost: float64(1 + r.IntN(20)), Days: float64(r.IntN(9)), Where: "bench"}
		if i != 1 && r.IntN(2) == 0 {
			out.Key, out.Renews = "kit", []machine.PartID{machine.PartID(fmt.Sprintf("p%d", 1+r.IntN(2)))}
			out.Cost = map[machine.PartID]float64{"p1": 15, "p2": 22}[out.Renews[0]]
		}
		if r.IntN(3) == 0 {
			out.Shifts = []machine.Shift{{Check: gaps[r.IntN(2)], By: float64(r.IntN(7)-3) / 10}}
		}
		if r.IntN(4) == 0 {
			if other := eyes[r.IntN(3)]; other != of {
				out.Mends = []machine.CheckID{other}
			}
		}
		return out
	}
	grind := machine.Remedy{Key: "grind", Name: "Grind", Cost: 10, Days: 12, Where: "machine shop", Group: "journals", Steps: []float64{0.25, 0.5},
		Shifts: []machine.Shift{{Check: "g1", By: -0.1}}}
	for _, g := range gaps {
		own := []machine.Remedy{}
		if r.IntN(2) == 0 {
			own = append(own, single("set-"+string(g), float64(1+r.IntN(6))))
		}
		l.gap(g, 0.3+float64(r.IntN(5))/10, "0.20", "0.80", own...)
	}
	for _, e := range eyes {
		var own []machine.Remedy
		for i := range 1 + r.IntN(2) {
			own = append(own, remedy(e, i))
		}
		l.eye(e, r.IntN(4) > 0, own...)
	}
	for i := range 2 {
		id := fmt.Sprintf("j%d", i+1)
		g := grind
		g.Reworks = []machine.FeatureID{machine.FeatureID("shaft/" + id)}
		own := []machine.Remedy{g}
		if r.IntN(2) == 0 {
			own = append(own, remedy(machine.CheckID(id), 9))
		}
		l.add(&machine.FeatureAdded{Part: "shaft", Feature: id, Name: "journal", Sort: machine.Shaft, Nominal: 30, Tool: "micrometer"},
			&machine.CheckAdded{ID: machine.CheckID(id), Name: "Journal " + id, When: machine.Apart, By: machine.ByWear, Outer: machine.FeatureID("shaft/" + id),
				Unit: "mm", Limits: []machine.Limit{{High: "0.100", From: machine.Paperwork}}, Remedies: own},
			&machine.ReadingTaken{Feature: machine.FeatureID("shaft/" + id), Amount: mm(30 - []float64{0.01, 0.2, 0.3, 0.6}[r.IntN(4)])})
	}
	return &l
}

// pair is one remedy of one check, for the enumeration.
type pair struct {
	c *machine.Check
	r *machine.Remedy
}

func (p pair) job() string {
	if len(p.r.Reworks) > 0 {
		return p.r.Key + " on " + string(p.r.Reworks[0].Part())
	}
	if len(p.r.Renews) > 0 {
		return p.r.Key + " on " + string(p.r.Renews[0])
	}
	return p.r.Key + " for " + string(p.c.ID)
}

// enumerate prices every subset of remedies of failing and shifted checks by
// the words of the package comment, and gives the least cost.
func enumerate(m *machine.Machine, f judge.Findings) (least float64, ok bool) {
	var pairs, group []pair
	for _, c := range m.Checks {
		for i := range c.Remedies {
			p := pair{c, &c.Remedies[i]}
			if p.r.Group != "" {
				group = append(group, p)
			} else if f.Of(c.ID).Verdict == judge.Worn || c.By == machine.ByReading {
				pairs = append(pairs, p)
			}
		}
	}
	wear := 0.0
	for _, id := range []machine.FeatureID{"shaft/j1", "shaft/j2"} {
		wear = max(wear, 30-m.Feature(id).Readings[0].Amount.Value)
	}
	least = math.Inf(1)
	for bits := range 1 << (len(pairs) + 1) {
		var on []pair
		for i, p := range pairs {
			if bits&(1<<i) != 0 {
				on = append(on, p)
			}
		}
		if bits&(1<<len(pairs)) != 0 {
			if wear > 0.5+1e-9 {
				continue
			}
			on = append(on, group...)
		}
		if good(m, f, on) {
			least, ok = min(least, price(on)), true
		}
	}
	return least, ok
}

func price(on []pair) float64 {
	sum, paid := 0.0, map[string]bool{}
	for _, p := range on {
		if !paid[p.job()] {
			paid[p.job()] = true
			sum += p.r.Cost
		}
	}
	return sum
}

// good judges a set: every failing check served, every shifted value in limits.
// A job shifts a value by the greatest amount that any check states for it.
func good(m *machine.Machine, f judge.Findings, on []pair) bool {
	served, moved := map[machine.CheckID]bool{}, map[machine.CheckID]float64{}
	jobs := map[string]bool{}
	for _, p := range on {
		jobs[p.job()] = true
	}
	once := map[string]float64{}
	for _, c := range m.Checks {
		for i := range c.Remedies {
			p := pair{c, &c.Remedies[i]}
			if !jobs[p.job()] {
				continue
			}
			served[p.c.ID] = true
			for _, id := range p.r.Mends {
				served[id] = true
			}
			for _, s := range p.r.Shifts {
				at := p.job() + " at " + string(s.Check)
				if old := once[at]; math.Abs(s.By) > math.Abs(old) || s.By == -math.Abs(old) {
					moved[s.Check] += s.By - old
					once[at] = s.By
				}
			}
		}
	}
	for _, c := range m.Checks {
		v := f.Of(c.ID)
		if v.Verdict == judge.Worn && !served[c.ID] {
			return false
		}
		if then := v.Value + moved[c.ID]; c.By == machine.ByReading && !served[c.ID] && (then < 0.2-1e-9 || then > 0.8+1e-9) {
			return false
		}
	}
	return true
}

// Second route for the whole way from machine to plan.
func TestMachineEqualsEnumeration(t *testing.T) {
	met, unmet := 0, 0
	for seed := range uint64(500) {
		m, f := randomMachine(rand.New(rand.NewPCG(seed, 41))).fold(t)
		want, ok := enumerate(m, f)
		p := Decide(m, f, Cheapest)
		if ok != (len(p.Infeasible) == 0) || ok && (math.Abs(p.Cost-want) > 1e-9 || !p.Proved) {
			t.Fatalf("machine %d: %v hours, proved %v, infeasible %+v; enumeration %v, %v\n%v", seed, p.Cost, p.Proved, p.Infeasible, want, ok, p.Proof)
		}
		sum := 0.0
		for _, j := range p.Jobs {
			sum += j.Cost
		}
		if math.Abs(sum-p.Cost) > 1e-9 || !finite(reflect.ValueOf(p)) {
			t.Fatalf("machine %d: jobs add up to %v of %v, or a figure is not finite", seed, sum, p.Cost)
		}
		if ok {
			met++
		} else {
			unmet++
		}
	}
	t.Logf("%d machines made good, %d not", met, unmet)
	if met < 150 || unmet < 50 {
		t.Errorf("too one-sided: %d made good, %d not", met, unmet)
	}
}

// mixed declares the parts and the checks, and the remedies of each, in another
// order.
func (l *log) mixed(r *rand.Rand) *log {
	out := &log{entries: slices.Clone(l.entries)}
	at := map[machine.Kind][]int{}
	for i, e := range out.entries {
		at[e.Kind()] = append(at[e.Kind()], i)
		if c, ok := e.Body.(*machine.CheckAdded); ok {
			other := *c
			other.Remedies = slices.Clone(c.Remedies)
			r.Shuffle(len(other.Remedies), func(i, j int) {
				other.Remedies[i], other.Remedies[j] = other.Remedies[j], other.Remedies[i]
			})
			out.entries[i].Body = &other
		}
	}
	for _, kind := range []machine.Kind{"part-added", "check-added"} {
		list := at[kind]
		r.Shuffle(len(list), func(i, j int) {
			a, b := &out.entries[list[i]], &out.entries[list[j]]
			a.Body, b.Body = b.Body, a.Body
		})
	}
	return out
}

// The order of checks, parts and remedies changes nothing.
func TestOrderOfInputChangesNothing(t *testing.T) {
	for seed := range uint64(100) {
		r := rand.New(rand.NewPCG(seed, 43))
		l := randomMachine(r)
		m, f := l.fold(t)
		for _, aim := range Aims() {
			want := Decide(m, f, aim)
			n, _ := l.mixed(r).fold(t)
			got := Decide(n, judge.All(n), aim)
			calls, same := Calls(m, want), Calls(n, got)
			want.From, got.From = judge.Findings{}, judge.Findings{}
			if !reflect.DeepEqual(want, got) {
				t.Fatalf("machine %d, %s:\n%+v\n%+v", seed, aim, want, got)
			}
			if !reflect.DeepEqual(calls, same) {
				t.Fatalf("machine %d: calls differ", seed)
			}
		}
	}
}

// Any member of a conflict left sound makes the rest of it possible.
func TestConflictsAreIrreducible(t *testing.T) {
	seen := 0
	for seed := range uint64(300) {
		m, f := randomMachine(rand.New(rand.NewPCG(seed, 47))).fold(t)
		for _, c := range Decide(m, f, Cheapest).Infeasible {
			seen++
			for _, id := range c.Checks {
				rest := slices.DeleteFunc(slices.Clone(c.Checks), func(x machine.CheckID) bool { return x == id })
				if p := Decide(m, onlyWorn(m, rest), Cheapest); len(p.Infeasible) > 0 {
					t.Fatalf("machine %d: %v is a conflict without %s", seed, c.Checks, id)
				}
			}
			if p := Decide(m, onlyWorn(m, c.Checks), Cheapest); len(p.Infeasible) == 0 {
				t.Fatalf("machine %d: %v is no conflict", seed, c.Checks)
			}
		}
	}
	if seen < 50 {
		t.Errorf("only %d conflicts seen", seen)
	}
}

// onlyWorn judges anew and takes every worn check but those named as not read.
func onlyWorn(m *machine.Machine, keep []machine.CheckID) judge.Findings {
	f := judge.All(m)
	for _, x := range f.List {
		if x.Verdict == judge.Worn && !slices.Contains(keep, x.Check.ID) {
			x.Verdict = judge.NotRead
		}
	}
	return f
}
