package remedy

import (
	"math/rand/v2"
	"slices"
	"testing"
	"time"
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

// The budget of a decision: 60 failing checks within 100 ms at worst, in the
// best set alone and with three next-best sets and all flips.
func TestSixtyChecksInTime(t *testing.T) {
	for _, aim := range Aims() {
		var times []time.Duration
		var nodes []int
		for seed := range uint64(50) {
			p := sixtyChecks(rand.New(rand.NewPCG(seed, 3)))
			start := time.Now()
			got := decide(p, aim, plenty)
			times = append(times, time.Since(start))
			nodes = append(nodes, got.nodes)
			if got.cut || got.bound > got.sets[0].cost {
				t.Errorf("case %d: cut %v, bound %d, cost %d", seed, got.cut, got.bound, got.sets[0].cost)
			}
		}
		slices.Sort(times)
		slices.Sort(nodes)
		t.Logf("%s, 50 cases, best set, three next-best and flips: nodes median %d, worst %d; time median %v, worst %v",
			aim, nodes[25], nodes[49], times[25], times[49])
	}
}

func BenchmarkSixtyChecks(b *testing.B) {
	for b.Loop() {
		for seed := range uint64(50) {
			solve(sixtyChecks(rand.New(rand.NewPCG(seed, 3))), limits{keep: 1, nodes: plenty})
		}
	}
}
