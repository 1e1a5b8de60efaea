package shim

import (
	"errors"
	"math"
	"math/rand/v2"
	"testing"

	"matchmark/internal/trade/metrology"
)

// randomCase has two or three positions and two readings near what some packs
// of the stock give.
func randomCase(rng *rand.Rand) Coupled {
	k := 2 + rng.IntN(2)
	c := Coupled{Stock: randomStock(rng, 4, 2), ShimU: 0.003, Aim: []Aim{Fewest, Surest}[rng.IntN(2)], Show: 1000}
	for range k {
		c.Positions = append(c.Positions, Position{"p", 1 + rng.IntN(2)})
	}
	for range 2 {
		j := make([]float64, k)
		for p := range j {
			j[p] = math.Round(20*(rng.Float64()*2-1)) / 10
		}
		f, _ := Stated("y", make([]float64, k), metrology.Estimate{Value: rng.Float64() - .5, U: 0.01}, j)
		aim := f.Base // what a shim or none at each position gives
		for p := range j {
			if sh := c.Stock[rng.IntN(len(c.Stock))]; rng.IntN(3) > 0 {
				aim += j[p] * sh.MM
			}
		}
		lo := aim - .1*rng.Float64()
		c.Outcomes = append(c.Outcomes, Outcome{f, lo, lo + .02 + .2*rng.Float64()})
	}
	return c
}

// brute tries every assignment of packs by nested enumeration. It gives the
// best key of the aim and the least miss of any.
func brute(c Coupled) (n int, atLeast, miss float64) {
	kinds, _ := readStock(c.Stock)
	s := solver{Coupled: c, kinds: kinds}
	n, atLeast, miss = math.MaxInt, -1, math.Inf(1)
	left := make([]int, len(kinds))
	for i, k := range kinds {
		left[i] = k.count
	}
	packs, counts := make([]float64, len(c.Positions)), make([]int, len(c.Positions))
	var place func(p, total int)
	place = func(p, total int) {
		if p == len(c.Positions) {
			r, _, chance := s.outlook(packs, counts)
			worst := 0.0
			for o, e := range r {
				worst = max(worst, c.Outcomes[o].Lo-e.Value, e.Value-c.Outcomes[o].Hi)
			}
			miss = min(miss, worst)
			if worst <= slack && s.better(total, chance, n, atLeast) < 0 {
				n, atLeast = total, chance
			}
			return
		}
		avail := make([]kind, len(kinds))
		for i := range kinds {
			avail[i] = kind{kinds[i].um, left[i]}
		}
		everyPack(avail, func(cs []int, um, shims int) {
			if shims > c.Positions[p].MaxShims {
				return
			}
			for i := range cs {
				left[i] -= cs[i]
			}
			packs[p], counts[p] = float64(um)/1000, shims
			place(p+1, total+shims)
			for i := range cs {
				left[i] += cs[i]
			}
		})
	}
	place(0, 0)
	return n, atLeast, miss
}

func TestCoupledAgainstBruteForce(t *testing.T) {
	rng := rand.New(rand.NewPCG(21, 22))
	landed, missed := 0, 0
	for i := range 400 {
		c := randomCase(rng)
		n, chance, miss := brute(c)
		out, err := c.Solve()
		if n == math.MaxInt {
			missed++
			var e NearestError
			if !errors.As(err, &e) {
				t.Fatalf("case %d: nothing lands, yet %v, %v", i, out, err)
			}
			if e.ShortMM > miss+0.001+1e-9 || e.ShortMM < miss-1e-9 {
				t.Fatalf("case %d: nearest misses by %g, brute force %g", i, e.ShortMM, miss)
			}
			continue
		}
		landed++
		if err != nil || out.Incomplete != "" {
			t.Fatalf("case %d: %v %s", i, err, out.Incomplete)
		}
		best := out.List[0]
		if best.Shims != n && c.Aim == Fewest || math.Abs(best.AtLeast-chance) > 1e-9 {
			t.Fatalf("case %d aim %s: got %d shims, chance %g; brute force %d, %g", i, c.Aim, best.Shims, best.AtLeast, n, chance)
		}
		for _, s := range out.List {
			obeys(t, c, s)
		}
	}
	if landed < 50 || missed < 50 {
		t.Errorf("%d landed, %d missed: too few of one sort", landed, missed)
	}
}

// obeys checks a set by itself: limits, packs and the shared stock.
func obeys(t *testing.T, c Coupled, s Set) {
	t.Helper()
	used := map[int]int{}
	for p, pack := range s.Packs {
		if pack.Count() > c.Positions[p].MaxShims {
			t.Fatalf("%v has more than %d shims", pack, c.Positions[p].MaxShims)
		}
		for _, sh := range pack.Shims {
			used[int(math.Round(sh.MM*1000))] += sh.Count
		}
	}
	kinds, _ := readStock(c.Stock)
	for _, k := range kinds {
		if used[k.um] > k.count {
			t.Fatalf("%d µm is used %d times of %d", k.um, used[k.um], k.count)
		}
		delete(used, k.um)
	}
	if len(used) > 0 {
		t.Fatalf("shims out of nowhere: %v", used)
	}
	for o, out := range c.Outcomes {
		v := out.Influence.Base
		for p, pack := range s.Packs {
			v += out.Influence.PerMM[p] * (pack.MM() - out.Influence.Ref[p])
		}
		if math.Abs(v-s.Readings[o].Value) > 1e-9 || v < out.Lo-2*slack || v > out.Hi+2*slack {
			t.Fatalf("reading %g outside %g to %g", v, out.Lo, out.Hi)
		}
	}
}

// The lower bound of the chance holds against draws with shims that act on all
// readings at once.
func TestAtLeastIsABound(t *testing.T) {
	c := carrier(2)
	c.ShimU = 0.01
	out, err := c.Solve()
	if err != nil {
		t.Fatal(err)
	}
	rng := rand.New(rand.NewPCG(4, 4))
	for _, s := range out.List {
		in, n := 0, 100000
		for range n {
			l, r := s.Packs[0].MM()+.01*rng.NormFloat64(), s.Packs[1].MM()+.01*rng.NormFloat64()
			b, p := .15+.005*rng.NormFloat64()+.7*(l-r), l+r-.62+.005*rng.NormFloat64()
			if b >= .13 && b <= .2 && p >= .02 && p <= .09 {
				in++
			}
		}
		share := float64(in) / float64(n)
		if share < s.AtLeast-0.005 || share > min(s.Chances[0], s.Chances[1])+0.005 {
			t.Errorf("draws land %.4f; bound %.4f, each %v", share, s.AtLeast, s.Chances)
		}
		if s.Trial != (s.AtLeast < 0.95) {
			t.Errorf("trial is %v at %.3f", s.Trial, s.AtLeast)
		}
	}
}

func TestCoupledRefuses(t *testing.T) {
	for what, spoil := range map[string]func(*Coupled){
		"positions": func(c *Coupled) { c.Positions = nil },
		"shims":     func(c *Coupled) { c.Positions[0].MaxShims = 9 },
		"outcomes":  func(c *Coupled) { c.Outcomes = nil },
		"limits":    func(c *Coupled) { c.Outcomes[0].Lo = 1 },
		"slopes":    func(c *Coupled) { c.Outcomes[0].Influence.PerMM = []float64{1} },
		"nan":       func(c *Coupled) { c.Outcomes[0].Influence.PerMM = []float64{1, math.NaN()} },
		"aim":       func(c *Coupled) { c.Aim = Nearest },
		"u":         func(c *Coupled) { c.ShimU = math.Inf(1) },
		"stock":     func(c *Coupled) { c.Stock = nil },
		"too many": func(c *Coupled) {
			for um := 100; um < 400; um++ {
				c.Stock = append(c.Stock, Shim{float64(um) / 1000, 2})
			}
			c.Positions[0].MaxShims = 8
		},
	} {
		c := carrier(2)
		spoil(&c)
		if _, err := c.Solve(); err == nil {
			t.Errorf("%s was taken", what)
		}
	}
}

// A drawer as the shop has it: 13 thicknesses, three of each, up to four in a
// pack, carrier left and right and pinion depth.
func bench(positions int) Coupled {
	c := Coupled{ShimU: 0.004}
	for _, um := range []int{50, 80, 100, 130, 150, 180, 200, 250, 300, 350, 400, 500, 1000} {
		c.Stock = append(c.Stock, Shim{float64(um) / 1000, 3})
	}
	ref := make([]float64, positions)
	for p := range positions {
		ref[p] = 0.8
		c.Positions = append(c.Positions, Position{[]string{"left", "right", "pinion"}[p], 4})
	}
	slopes := [][]float64{{.7, -.7, -.15}, {1, 1, 0}, {0, 0, 1}}
	limits := [][2]float64{{.13, .20}, {-.08, -.03}, {-.02, .02}}
	at := []float64{.31, .12, .17}
	for o := range positions {
		f, _ := Stated([]string{"backlash", "float", "depth"}[o], ref, metrology.Estimate{Value: at[o], U: .01}, slopes[o][:positions])
		c.Outcomes = append(c.Outcomes, Outcome{f, limits[o][0], limits[o][1]})
	}
	return c
}

func BenchmarkCoupledTwo(b *testing.B)   { benchmark(b, bench(2)) }
func BenchmarkCoupledThree(b *testing.B) { benchmark(b, bench(3)) }

func benchmark(b *testing.B, c Coupled) {
	for b.Loop() {
		out, err := c.Solve()
		if err != nil || len(out.List) == 0 {
			b.Fatal(err, out)
		}
		if out.Incomplete != "" {
			b.Log(out.Incomplete)
		}
	}
}
