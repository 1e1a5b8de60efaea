package remedy

import (
	"math/rand/v2"
	"slices"
	"strconv"
	"testing"
	"time"

	"matchmark/internal/finding/judge"
	"matchmark/internal/machine"
)

// sixtyChecks is a hard case: 60 checks of five remedies each, 12 kits that
// serve several checks, and three size families. Prices are those of small
// repairs: 1 to 20 hours for one check, 4 to 40 for a kit, 20 to 80 for a family.
func sixtyChecks(r *rand.Rand) *problem {
	p := &problem{}
	for range 60 {
		p.needs = append(p.needs, need{must: true, word: -1, judged: true, low: 0, high: 20, value: 10})
	}
	for range 10 {
		p.needs = append(p.needs, need{word: -1, judged: true, low: 0, high: 20, value: int64(r.IntN(21))})
		p.effects = append(p.effects, effect{len(p.needs) - 1, int64(r.IntN(21) - 10)})
	}
	room := slices.Repeat([]int{5}, 60)
	add := func(a act, price int64) {
		p.jobs = append(p.jobs, price)
		a.jobs = []int{len(p.jobs) - 1}
		a.days = int64(1 + r.IntN(30))
		p.acts = append(p.acts, a)
	}
	several := func(count int) []cover {
		var out []cover
		for _, n := range r.Perm(60)[:count] {
			if room[n] > 1 {
				room[n]--
				out = append(out, cover{n, int64(r.IntN(5)) * 250})
			}
		}
		return out
	}
	for range 12 {
		add(act{covers: several(3 + r.IntN(6)), effects: []int{r.IntN(10)}}, int64(400+r.IntN(3600)))
	}
	for range 3 {
		add(act{covers: several(8 + r.IntN(8)), family: true, sizes: []int64{25, 50, 75, 100},
			wears: []int64{int64(r.IntN(60)), int64(r.IntN(100))}}, int64(2000+r.IntN(6000)))
	}
	for n := range 60 {
		for range room[n] {
			add(act{covers: []cover{{n, int64(r.IntN(5)) * 250}}}, int64(100+r.IntN(1900)))
		}
	}
	for n := 60; n < 70; n++ {
		add(act{covers: []cover{{n, 500}}}, int64(100+r.IntN(1900)))
	}
	return p
}

// The budget of a decision: 60 failing checks within 100 ms at worst, with
// three next-best sets and all flips. The test holds the count of nodes and
// prints the times, which depend on the machine.
func TestSixtyChecks(t *testing.T) {
	for _, aim := range Aims() {
		var times []time.Duration
		var nodes []int
		for seed := range uint64(50) {
			p := sixtyChecks(rand.New(rand.NewPCG(seed, 3)))
			start := time.Now()
			got := decide(p, aim, plenty)
			times = append(times, time.Since(start))
			nodes = append(nodes, got.nodes)
			if got.cut || got.bound != got.best.cost {
				t.Errorf("case %d: cut %v, bound %d, cost %d", seed, got.cut, got.bound, got.best.cost)
			}
		}
		slices.Sort(times)
		slices.Sort(nodes)
		if nodes[49] > 10_000 { // a node takes some 10 µs
			t.Errorf("%s: %d nodes at worst", aim, nodes[49])
		}
		t.Logf("%s, 50 cases, best set, three next-best and flips: nodes median %d, worst %d; time median %v, worst %v",
			aim, nodes[25], nodes[49], times[25], times[49])
	}
}

func BenchmarkSixtyChecks(b *testing.B) {
	for b.Loop() {
		for seed := range uint64(50) {
			solve(sixtyChecks(rand.New(rand.NewPCG(seed, 3))), limits{nodes: plenty})
		}
	}
}

// worn60 is a machine of 500 checks of which 60 fail: twelve cylinders with
// bores that share a size, five kinds of check each, and remedies of five kinds.
func worn60() *log {
	var l log
	var labels []machine.Place
	for i := range 12 {
		labels = append(labels, machine.Place(strconv.Itoa(i+1)))
	}
	l.add(&machine.PlacesSet{Places: machine.Places{Family: "cylinder", Name: "cylinder", Labels: labels}},
		&machine.PartAdded{ID: "liner", Name: "Liner", Places: "cylinder"}, &machine.PartAdded{ID: "piston", Name: "Piston", Places: "cylinder"},
		&machine.PartAdded{ID: "rings", Name: "Rings", Places: "cylinder"}, &machine.PartAdded{ID: "deck", Name: "Deck"},
		&machine.FeatureAdded{Part: "liner", Feature: "bore", Name: "bore", Sort: machine.Bore, Nominal: 90, Tool: "bore-gauge"})
	over := machine.Remedy{Key: "rebore", Name: "Rebore", Cost: 14, Days: 15, Where: "machine shop", Group: "all-bores", Steps: []float64{0.25, 0.5, 0.75},
		Renews: []machine.PartID{"piston", "rings"}, Reworks: []machine.FeatureID{"liner/bore"}, Shifts: []machine.Shift{{Check: "squish", By: -0.05}}}
	wet := machine.Remedy{Key: "liner-set", Name: "New liner set", Cost: 16, Days: 8, Where: "buy", Renews: []machine.PartID{"liner", "piston", "rings"}}
	piston := machine.Remedy{Key: "piston-new", Name: "New piston", Cost: 6, Days: 8, Where: "buy", Renews: []machine.PartID{"piston"}, Mends: []machine.CheckID{"groove"}}
	rings := machine.Remedy{Key: "rings-new", Name: "New rings", Cost: 3, Days: 6, Where: "buy", Renews: []machine.PartID{"rings"}}
	hone := machine.Remedy{Key: "hone", Name: "Hone", Cost: 4, Days: 4, Where: "bench", Renews: []machine.PartID{"rings"}}
	deck := machine.Remedy{Key: "deck-skim", Name: "Skim deck", Cost: 8, Days: 8, Where: "machine shop", Renews: []machine.PartID{"deck"},
		Shifts: []machine.Shift{{Check: "squish", By: -0.1}}, Mends: []machine.CheckID{"stand"}}
	shim := machine.Remedy{Key: "shim", Name: "Shim", Cost: 2, Days: 1, Where: "bench", Shifts: []machine.Shift{{Check: "squish", By: 0.05}}}
	gasket := machine.Remedy{Key: "gasket", Name: "Thicker gasket", Cost: 1.5, Days: 5, Where: "buy"}
	eye := func(id machine.CheckID, remedies ...machine.Remedy) {
		l.add(&machine.CheckAdded{ID: id, Name: string(id), Places: "cylinder", When: machine.Apart, By: machine.ByEye,
			Limits: []machine.Limit{{NewWords: "whole"}}, Remedies: remedies})
		for _, at := range labels {
			l.add(&machine.LookTaken{Check: machine.Instance(id, at)})
		}
	}
	l.add(&machine.CheckAdded{ID: "bore-wear", Name: "Bore wear", Places: "cylinder", When: machine.Apart, By: machine.ByWear, Outer: "liner/bore", Unit: "mm",
		Limits: []machine.Limit{{NewHigh: "0.015", High: "0.10"}}, Remedies: []machine.Remedy{hone, over, wet}},
		&machine.CheckAdded{ID: "squish", Name: "Squish", Places: "cylinder", When: machine.Apart, By: machine.ByReading, Unit: "mm",
			Limits: []machine.Limit{{Low: "0.60", High: "1.10"}}, Remedies: []machine.Remedy{gasket}})
	for i, at := range labels {
		l.add(&machine.ReadingTaken{Feature: machine.FeatureID("liner." + string(at) + "/bore"), Amount: mm(90.2 + float64(i)*0.01)},
			&machine.ReadingTaken{Check: machine.Instance[machine.CheckID]("squish", at), Amount: mm(0.66 + float64(i)*0.01)})
	}
	eye("skirt", piston, over, wet)
	eye("groove", rings, piston, over)
	eye("scores", hone, over, wet)
	eye("stand", shim, deck, wet)
	for i := range 416 {
		l.eye(machine.CheckID("sound-"+strconv.Itoa(i)), false, single("renew", 5))
	}
	return &l
}

// From machine to plan, all three aims.
func TestWorn60(t *testing.T) {
	m, f := worn60().fold(t)
	for _, aim := range Aims() {
		start := time.Now()
		p := Decide(m, f, aim)
		t.Logf("%s: %d failing, %v hours, %v days, life %v, %d jobs, %d nodes, %v; %s", aim, len(p.Choices), p.Cost, p.Days, p.Life, len(p.Jobs), p.Nodes, time.Since(start), p.Incomplete)
		if len(p.Choices) != 60 || !p.Proved || len(p.Infeasible) > 0 {
			t.Errorf("%s: %d choices, proved %v, infeasible %v", aim, len(p.Choices), p.Proved, p.Infeasible)
		}
	}
}

func BenchmarkDecide(b *testing.B) {
	m := machine.Fold(worn60().entries)
	f := judge.All(m)
	for b.Loop() {
		Decide(m, f, Cheapest)
	}
}
