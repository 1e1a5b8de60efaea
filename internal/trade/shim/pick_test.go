package shim

import (
	"errors"
	"math"
	"math/rand/v2"
	"slices"
	"testing"

	"matchmark/internal/trade/metrology"
)

// everyPack calls f with every pack of the stock.
func everyPack(kinds []kind, f func(counts []int, um, n int)) {
	counts := make([]int, len(kinds))
	var walk func(i, um, n int)
	walk = func(i, um, n int) {
		if i == len(kinds) {
			f(counts, um, n)
			return
		}
		for c := 0; c <= kinds[i].count; c++ {
			counts[i] = c
			walk(i+1, um+c*kinds[i].um, n+c)
		}
		counts[i] = 0
	}
	walk(0, 0, 0)
}

func randomStock(rng *rand.Rand, kinds, most int) (stock []Shim) {
	for range 1 + rng.IntN(kinds) {
		stock = append(stock, Shim{float64(5+5*rng.IntN(20)) / 100, 1 + rng.IntN(most)})
	}
	return stock
}

// Second route: every pack by brute force, for the three aims; all ties must
// be there and nothing else.
func TestOneGapAgainstBruteForce(t *testing.T) {
	rng := rand.New(rand.NewPCG(11, 12))
	reached, missed := 0, 0
	for range 1500 {
		stock := randomStock(rng, 5, 3)
		target := float64(rng.IntN(1500)) / 1000
		w := Want{Lo: max(0, target-float64(rng.IntN(40))/1000), Target: target, Hi: target + float64(rng.IntN(40))/1000,
			MaxShims: rng.IntN(5), Aim: []Aim{"", Nearest, Surest}[rng.IntN(3)], U: 0.01, ShimU: 0.004}
		kinds, err := readStock(stock)
		if err != nil {
			t.Fatal(err)
		}
		var want []string
		least := []float64{math.Inf(1), math.Inf(1)}
		everyPack(kinds, func(counts []int, um, n int) {
			mm := float64(um) / 1000
			if mm < w.Lo-1e-9 || mm > w.Hi+1e-9 || w.MaxShims > 0 && n > w.MaxShims {
				return
			}
			key := []float64{float64(n), 0}
			switch w.Aim {
			case Nearest:
				key = []float64{math.Round(1e6 * math.Abs(mm-target)), float64(n)}
			case Surest:
				u := math.Sqrt(1e-4 + float64(n)*1.6e-5)
				p, _ := metrology.ConformProbability(mm, u, w.Lo-1e-9, w.Hi+1e-9)
				key = []float64{math.Round(1e9 * (1 - p)), float64(n)}
			}
			if c := slices.Compare(key, least); c < 0 {
				least, want = key, nil
			} else if c > 0 {
				return
			}
			var uses []use
			for i, c := range counts {
				if c > 0 {
					uses = append(uses, use{i, c})
				}
			}
			want = append(want, packOf(kinds, uses).String())
		})
		a, err := OneGap(stock, w)
		if len(want) == 0 {
			missed++
			checkMiss(t, kinds, w, err)
			continue
		}
		reached++
		if err != nil {
			t.Fatal(err)
		}
		var got []string
		for _, p := range a.Picks {
			got = append(got, p.Pack.String())
		}
		slices.Sort(got)
		slices.Sort(want)
		if !slices.Equal(got, want) {
			t.Fatalf("stock %v, want %+v:\ngot  %v\nbrute %v", stock, w, got, want)
		}
	}
	if reached < 100 || missed < 100 {
		t.Errorf("%d reached and %d missed: too few of one sort", reached, missed)
	}
}

// checkMiss: the nearest packs in the error are the nearest there are.
func checkMiss(t *testing.T, kinds []kind, w Want, err error) {
	t.Helper()
	var e UnreachableError
	if !errors.As(err, &e) {
		t.Fatalf("no pack for %+v, yet %v", w, err)
	}
	below, above := -1, math.MaxInt
	everyPack(kinds, func(_ []int, um, n int) {
		if w.MaxShims > 0 && n > w.MaxShims {
			return
		}
		if mm := float64(um) / 1000; mm < w.Lo {
			below = max(below, um)
		} else {
			above = min(above, um)
		}
	})
	if (e.Below != nil) != (below >= 0) || e.Below != nil && e.Below.Pack.UM() != below {
		t.Fatalf("below %+v: got %v, brute %d", w, e.Below, below)
	}
	if (e.Above != nil) != (above < math.MaxInt) || e.Above != nil && e.Above.Pack.UM() != above {
		t.Fatalf("above %+v: got %v, brute %d", w, e.Above, above)
	}
}

// The order of the drawer and splitting a heap in two change nothing.
func TestOrderOfStock(t *testing.T) {
	w := Want{Lo: .4, Target: .45, Hi: .5}
	a, errA := OneGap([]Shim{{.1, 3}, {.2, 2}, {.25, 2}}, w)
	b, errB := OneGap([]Shim{{.25, 1}, {.2, 2}, {.1, 2}, {.25, 1}, {.1, 1}}, w)
	if errA != nil || errB != nil || !slices.EqualFunc(a.Picks, b.Picks, func(x, y Pick) bool { return x.Pack.String() == y.Pack.String() }) {
		t.Errorf("%v (%v) and %v (%v)", a, errA, b, errB)
	}
}

// Second route for the chance: draws of gap and shims.
func TestChanceAgainstDraws(t *testing.T) {
	w, err := ForFloat(0.5, metrology.Estimate{Value: 0.42, U: 0.01}, Float{0.14, 0.16, 0.19}, Closes, 0.004)
	if err != nil {
		t.Fatal(err)
	}
	a, err := OneGap(drawer(), w)
	if err != nil {
		t.Fatal(err)
	}
	p := a.Picks[0]
	rng := rand.New(rand.NewPCG(2, 9))
	in, n := 0, 200000
	for range n {
		float := 0.5 + 0.42 + 0.01*rng.NormFloat64() - p.Pack.MM()
		for range p.Pack.Count() {
			float -= 0.004 * rng.NormFloat64()
		}
		if float >= 0.14 && float <= 0.19 {
			in++
		}
	}
	if share := float64(in) / float64(n); math.Abs(share-p.Chance) > 0.004 {
		t.Errorf("%v: draws land %.4f, chance %.4f", p.Pack, share, p.Chance)
	}
}

func TestLay(t *testing.T) {
	p := Pack{[]Shim{{.5, 1}, {.3, 2}, {.1, 2}}}
	if got := p.Lay(); !slices.Equal(got, []float64{.5, .3, .1, .1, .3}) {
		t.Errorf("laid %v", got)
	}
	if (Pack{}).String() != "no shim" || len((Pack{}).Lay()) != 0 {
		t.Error("empty pack")
	}
}

func TestRefuses(t *testing.T) {
	w := Want{Lo: .4, Target: .45, Hi: .5}
	for what, stock := range map[string][]Shim{"empty": nil, "thin": {{0, 1}}, "thick": {{21, 1}}, "count": {{.1, -1}}, "none left": {{.1, 0}}, "nan": {{math.NaN(), 1}}} {
		if _, err := OneGap(stock, w); err == nil {
			t.Errorf("%s stock was taken", what)
		}
	}
	for what, spoil := range map[string]func(*Want){
		"limits": func(w *Want) { w.Lo = .6 }, "target": func(w *Want) { w.Target = .6 }, "nan": func(w *Want) { w.Target = math.NaN() },
		"aim": func(w *Want) { w.Aim = "luck" }, "u": func(w *Want) { w.U = -1 }, "most": func(w *Want) { w.MaxShims = -1 }, "wide": func(w *Want) { w.Hi = math.Inf(1) },
	} {
		bad := w
		spoil(&bad)
		if _, err := OneGap(drawer(), bad); err == nil {
			t.Errorf("%s was taken", what)
		}
	}
	if _, err := Thickness(.5, .4, .1, ""); err == nil {
		t.Error("a pack without a sense was given")
	}
	if _, err := Thickness(.1, .4, .1, Opens); err == nil {
		t.Error("a pack below zero was given")
	}
	if _, err := Thickness(.1, math.NaN(), .1, Opens); err == nil {
		t.Error("not-a-number was taken")
	}
	if _, err := ForFloat(.5, metrology.Estimate{Value: .4}, Float{.2, .1, .3}, Closes, 0); err == nil {
		t.Error("a target outside its limits was taken")
	}
}

func BenchmarkOneGap60(b *testing.B) {
	var stock []Shim
	for um := 50; um <= 1000; um += 50 {
		stock = append(stock, Shim{float64(um) / 1000, 3})
	}
	for b.Loop() {
		if _, err := OneGap(stock, Want{Lo: 1.98, Target: 2, Hi: 2.02}); err != nil {
			b.Fatal(err)
		}
	}
}
