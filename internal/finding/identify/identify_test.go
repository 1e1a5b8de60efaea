package identify

import (
	"errors"
	"math"
	"slices"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"matchmark/internal/trade/catalogue"
)

func ask(t *testing.T, a Ask) Answer {
	t.Helper()
	ans, err := Part(a)
	if err != nil {
		t.Fatal(err)
	}
	return ans
}

func TestRefuses(t *testing.T) {
	good := Measured{Dim: "d", Value: 25, U: 0.02}
	for what, a := range map[string]Ask{
		"unknown kind":   {Kind: "wheel", Measured: []Measured{good}},
		"nothing":        {Kind: catalogue.Ball},
		"unknown dim":    {Kind: catalogue.Ball, Measured: []Measured{{Dim: "x", Value: 25, U: 0.02}}},
		"twice":          {Kind: catalogue.Ball, Measured: []Measured{good, good}},
		"no u":           {Kind: catalogue.Ball, Measured: []Measured{{Dim: "d", Value: 25}}},
		"not a number":   {Kind: catalogue.Ball, Measured: []Measured{{Dim: "d", Value: math.NaN(), U: 1}}},
		"below 0":        {Kind: catalogue.Ball, Measured: []Measured{{Dim: "d", Value: -25, U: 1}}},
		"d over D":       {Kind: catalogue.Ball, Measured: []Measured{good, {Dim: "D", Value: 25, U: 0.02}}},
		"groove outside": {Kind: catalogue.ShaftCirclip, Measured: []Measured{good, {Dim: "groove", Value: 26, U: 0.02}}},
		"prior":          {Kind: catalogue.Ball, Measured: []Measured{good}, Prior: map[string]float64{"6205": -1}},
		"wear":           {Kind: catalogue.Ball, Measured: []Measured{good}, WearMean: -1},
		"none prior":     {Kind: catalogue.Ball, Measured: []Measured{good}, NonePrior: 1},
		"spans":          {Kind: catalogue.GearRack, Measured: []Measured{{Dim: "Wk", Value: 20, U: .01}, {Dim: "Wk1", Value: 15, U: .01}}},
		"no count":       {Kind: catalogue.GearRack, Measured: []Measured{{Dim: "da", Value: 44, U: .01}}},
		"half a tooth":   {Kind: catalogue.GearRack, Measured: []Measured{{Dim: "z", Value: 20.5}, {Dim: "da", Value: 44, U: .01}}},
		"journal 0":      {Kind: WornJournal, Measured: []Measured{{Dim: "size", Value: 0, U: .01}}},
	} {
		_, err := Part(a)
		var ae AskError
		if !errors.As(err, &ae) || ae.Want == "" || ae.Got == "" {
			t.Errorf("%s: error %v, want an AskError that names value and want", what, err)
		}
	}
	if _, err := PitchOver(12.5, 0.1, 0); err == nil {
		t.Error("a pitch over no turns was taken")
	}
	if m, err := PitchOver(12.5, 0.1, 10); err != nil || m.Value != 1.25 || m.U != 0.01 {
		t.Errorf("pitch over 10 turns: %+v, %v", m, err)
	}
}

// TestSumsToOne: for any readings the probabilities and none sum to 1, the set
// holds 95 % and no smaller prefix does, and the order of readings is nothing.
func TestSumsToOne(t *testing.T) {
	kinds := Kinds()
	rapid.Check(t, func(rt *rapid.T) {
		kind := rapid.SampledFrom(kinds).Draw(rt, "kind")
		if kind == catalogue.GearRack {
			kind = catalogue.Thread
		}
		var ms []Measured
		for _, s := range Dims(kind) {
			if len(ms) == 0 || rapid.Bool().Draw(rt, s.Name) {
				ms = append(ms, Measured{s.Name, rapid.Float64Range(0.01, 300).Draw(rt, "v"), rapid.Float64Range(0.001, 2).Draw(rt, "u"), rapid.Bool().Draw(rt, "worn"), rapid.Bool().Draw(rt, "mate")})
			}
		}
		ans, err := Part(Ask{Kind: kind, Measured: ms})
		if err != nil {
			return // a size that no part can have
		}
		sum := ans.None
		for _, c := range ans.Ranked {
			sum += c.P
			if math.IsNaN(c.P) || c.P < 0 {
				rt.Fatalf("%s has probability %g", c.Item.Designation, c.P)
			}
		}
		if math.Abs(sum-1) > 1e-9 {
			rt.Fatalf("%s %+v: sum %.12f", kind, ms, sum)
		}
		slices.Reverse(ms)
		again, err := Part(Ask{Kind: kind, Measured: ms})
		if err != nil || math.Abs(again.None-ans.None) > 1e-9 || !slices.Equal(again.Set95, ans.Set95) {
			rt.Fatalf("other order of readings: none %g and %g, %v", ans.None, again.None, err)
		}
	})
}

func TestTwinsAreOneAnswer(t *testing.T) {
	ans := ask(t, Ask{Kind: catalogue.RollingBearing, Measured: []Measured{{Dim: "d", Value: 25, U: 0.02}, {Dim: "D", Value: 52, U: 0.02}, {Dim: "W", Value: 14.95, U: 0.02}}})
	top := ans.Ranked[0]
	all := append(slices.Clone(top.Equivalents), top.Item.Designation)
	for _, want := range []string{"6205", "NU205", "7205", "N205"} {
		if !slices.Contains(all, want) {
			t.Errorf("25x52x15 does not list %s: %v", want, all)
		}
	}
	if top.P < 0.95 || !ans.Settled || !strings.Contains(ans.Sentence, "the mark decides") {
		t.Errorf("%s", ans.Sentence)
	}
}

// TestKeyEditions: a 25 mm shaft takes 7x7 in the 1959 series and 8x7 in the
// 1996 one; the shaft alone cannot tell, the key can. Source: JIS B 1301, as
// reference rows SKB-005 and SKB-014.
func TestKeyEditions(t *testing.T) {
	shaft := Measured{Dim: "shaft", Value: 24.98, U: 0.02}
	ans := ask(t, Ask{Kind: catalogue.Key, Measured: []Measured{shaft}})
	set := strings.Join(ans.Set95, "; ")
	if !strings.Contains(set, "8x7 on 22-30") || !strings.Contains(set, "7x7 on 20-30 (1959)") || ans.Next != "width of the key" {
		t.Errorf("25 mm shaft: %s; next %q", set, ans.Next)
	}
	ans = ask(t, Ask{Kind: catalogue.Key, Measured: []Measured{shaft, {Dim: "b", Value: 6.97, U: 0.02}, {Dim: "t2", Value: 3.05, U: 0.03}}})
	if ans.Ranked[0].Item.Designation != "7x7 on 20-30 (1959)" || !ans.Settled {
		t.Errorf("7 wide: %s", ans.Sentence)
	}
}

// TestPitchTells: worn 12.6 mm outside alone leaves 1/2 BSW and 1/2 UNC; the
// pitch over 10 turns is the next thing to measure and settles it.
func TestPitchTells(t *testing.T) {
	d := Measured{Dim: "d", Value: 12.58, U: 0.02, Worn: true}
	ans := ask(t, Ask{Kind: catalogue.Thread, Measured: []Measured{d}})
	if ans.Settled || ans.Next != "pitch over 10 turns" {
		t.Errorf("diameter alone: %s", ans.Sentence)
	}
	p, err := PitchOver(25.4/13*10, 0.05, 10)
	if err != nil {
		t.Fatal(err)
	}
	ans = ask(t, Ask{Kind: catalogue.Thread, Measured: []Measured{d, p}})
	if ans.Ranked[0].Item.Designation != "1/2-13 UNC" || !ans.Settled {
		t.Errorf("with pitch: %s", ans.Sentence)
	}
	rough, _ := PitchOver(1.25, 0.1, 1) // one turn with a calliper
	ans = ask(t, Ask{Kind: catalogue.Thread, Measured: []Measured{{Dim: "d", Value: 9.9, U: 0.02}, rough}})
	if ans.Settled || ans.Next != "pitch over 10 turns" {
		t.Errorf("rough pitch: next %q, %s", ans.Next, ans.Sentence)
	}
}

// TestMateWearsTheOtherWay: a shaft seat 0.15 under 25 speaks for 25 when it is
// said to be the worn mate, and against 25 when said to be the bore itself.
func TestMateWearsTheOtherWay(t *testing.T) {
	p := func(mate bool) float64 {
		ans := ask(t, Ask{Kind: catalogue.Ball, Among: balls(t, "6205", "62/22"), Measured: []Measured{{Dim: "d", Value: 24.85, U: 0.01, Worn: true, Mate: mate}}})
		for _, c := range ans.Ranked {
			if c.Item.Designation == "6205" {
				return c.P
			}
		}
		return 0
	}
	if p(true) < 0.5 || p(false) > 0.01 {
		t.Errorf("worn seat gives 6205 %.3f, worn bore %.3g", p(true), p(false))
	}
}

func TestWornBoreAndJournal(t *testing.T) {
	for _, c := range []struct {
		kind catalogue.Kind
		ms   []Measured
		want string
	}{
		{WornBore, []Measured{{Dim: "size", Value: 75.08, U: 0.005, Worn: true}, {Dim: "unworn", Value: 75.012, U: 0.005}}, "75 mm, standard"},
		{WornBore, []Measured{{Dim: "unworn", Value: 75.515, U: 0.005}}, "75 mm, 0.50 mm oversize"},
		{WornBore, []Measured{{Dim: "unworn", Value: 76.2 + 0.508 + 0.01, U: 0.004}}, "3 in, 0.020 in oversize"},
		{WornJournal, []Measured{{Dim: "size", Value: 44.71, U: 0.004, Worn: true}, {Dim: "unworn", Value: 44.738, U: 0.004}}, "45 mm, 0.25 mm undersize"},
	} {
		ans := ask(t, Ask{Kind: c.kind, Measured: c.ms})
		top := ans.Ranked[0]
		t.Log(ans.Sentence)
		if all := append(slices.Clone(top.Equivalents), top.Item.Designation); !slices.Contains(all, c.want) {
			t.Errorf("%s %+v: %s", c.kind, c.ms, ans.Sentence)
		}
	}
}

// TestBadMatchIsNone: a part far from all items is none, and a lone candidate
// that does not fit does not reach 1 for want of another.
func TestBadMatchIsNone(t *testing.T) {
	ans := ask(t, Ask{Kind: catalogue.Ball, Among: balls(t, "6205"), Measured: []Measured{{Dim: "d", Value: 27, U: 0.02}, {Dim: "D", Value: 52, U: 0.02}}})
	if ans.None < 0.99 || !strings.HasPrefix(ans.Sentence, "Not a size") {
		t.Errorf("none %.3f: %s", ans.None, ans.Sentence)
	}
}

func TestPriorMoves(t *testing.T) {
	a := Ask{Kind: catalogue.Ball, Among: balls(t, "6205", "62/22"), Measured: []Measured{{Dim: "d", Value: 23.5, U: 1}}}
	flat := ask(t, a)
	a.Prior = map[string]float64{"62/22": 0}
	ans := ask(t, a)
	if flat.Ranked[1].P < 0.1 || ans.Ranked[0].Item.Designation != "6205" || ans.Ranked[1].P != 0 {
		t.Errorf("prior 0 on 62/22: %+v", ans.Ranked)
	}
}
