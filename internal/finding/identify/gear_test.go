package identify

import (
	"math"
	"math/rand/v2"
	"slices"
	"testing"

	"matchmark/internal/trade/catalogue"
	spur "matchmark/internal/trade/gear"
)

// cut measures a gear of a rack: spans over k and k+1 teeth with u 0.01, tip
// diameter with u 0.03; half the gears without profile shift; teeth thinned for
// backlash by 0.02 modules on average.
func cut(m, alpha float64, rnd *rand.Rand) []Measured {
	z := 14 + rnd.IntN(45)
	k := int(math.Round(float64(z)*alpha/180 + 0.5))
	x := 0.0
	if rnd.Float64() < 0.5 {
		x = 0.3 * rnd.NormFloat64()
	}
	thin := thinPerModule * m * rnd.ExpFloat64()
	return []Measured{{Dim: "z", Value: float64(z)}, {Dim: "k", Value: float64(k)},
		{Dim: "Wk", Value: spur.Span(m, alpha, z, k, x) - thin + 0.01*rnd.NormFloat64(), U: 0.01},
		{Dim: "Wk1", Value: spur.Span(m, alpha, z, k+1, x) - thin + 0.01*rnd.NormFloat64(), U: 0.01},
		{Dim: "da", Value: m*(float64(z)+2+2*x) + 0.01*m*rnd.NormFloat64() + 0.03*rnd.NormFloat64(), U: 0.03}}
}

func TestThousandGears(t *testing.T) {
	std, err := catalogue.Standard()
	if err != nil {
		t.Fatal(err)
	}
	racks := std.Of(catalogue.GearRack)
	rnd := rand.New(rand.NewPCG(5, 2))
	in, top, noTip := 0, 0, 0
	for range 1000 {
		it := racks[rnd.IntN(len(racks))]
		m, alpha := rack(it)
		ms := cut(m, alpha, rnd)
		ans := ask(t, Ask{Kind: catalogue.GearRack, Measured: ms})
		if slices.Contains(ans.Set95, it.Designation) {
			in++
		}
		if ans.Ranked[0].Item.Designation == it.Designation && ans.None < ans.Ranked[0].P {
			top++
		}
		if slices.Contains(ask(t, Ask{Kind: catalogue.GearRack, Measured: ms[:4]}).Set95, it.Designation) {
			noTip++
		}
	}
	t.Logf("1000 gears: in the 95 %% set %.1f %%, top %.1f %%; without the tip diameter in the set %.1f %%", float64(in)/10, float64(top)/10, float64(noTip)/10)
	if in < 950 || top < 950 || noTip < 950 {
		t.Error("want 95 % of each")
	}
}

// TestStrangeGears: racks whose base pitch is 0.1 mm or more from all others
// are none of these.
func TestStrangeGears(t *testing.T) {
	std, err := catalogue.Standard()
	if err != nil {
		t.Fatal(err)
	}
	racks := std.Of(catalogue.GearRack)
	rnd := rand.New(rand.NewPCG(6, 2))
	n, none := 0, 0
	for n < 300 {
		m := 1 + 8*rnd.Float64()
		close := slices.ContainsFunc(racks, func(it catalogue.Item) bool {
			rm, ra := rack(it)
			return math.Abs(spur.BasePitch(rm, ra)-spur.BasePitch(m, 20)) < 0.1
		})
		if close {
			continue
		}
		n++
		if ask(t, Ask{Kind: catalogue.GearRack, Measured: cut(m, 20, rnd)}).None >= 0.5 {
			none++
		}
	}
	t.Logf("gears of no table: none of these %.1f %%", 100*float64(none)/float64(n))
	if none < n*9/10 {
		t.Errorf("none for %d of %d", none, n)
	}
}

// TestGearAsksForMore: one span and a count cannot settle a gear; the second
// span is asked for.
func TestGearAsksForMore(t *testing.T) {
	ans := ask(t, Ask{Kind: catalogue.GearRack, Measured: []Measured{{Dim: "z", Value: 20}, {Dim: "k", Value: 3}, {Dim: "Wk", Value: 15.3, U: 0.02}}})
	if ans.Settled || ans.Next != gearDims[3].How {
		t.Errorf("%s next %q", ans.Sentence, ans.Next)
	}
}
