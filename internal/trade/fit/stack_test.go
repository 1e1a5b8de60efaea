package fit

import (
	"fmt"
	"math"
	"math/rand/v2"
	"regexp"
	"strings"
	"testing"

	"matchmark/internal/reftest"
)

func stacked(t *testing.T, links []Link) Stacked {
	t.Helper()
	s, err := Stack(links)
	if err != nil {
		t.Fatal(err)
	}
	return s
}

func equal(tols ...float64) (links []Link) {
	for _, x := range tols {
		links = append(links, Link{Plus: x, Minus: x, Factor: 1})
	}
	return links
}

// TestSharedStacks walks the chains of 9_stacks.csv; the shim rows are tested
// in package shim. STK-001 to 003 were read in a source.
func TestSharedStacks(t *testing.T) {
	tab := reftest.Load(t, "reference/9_stacks.csv")
	chain := func(text string) (links []Link) { // "40.00+-0.10 - 25.00+-0.05 …"
		for i, m := range regexp.MustCompile(`([0-9.]+)\+-([0-9.]+)`).FindAllStringSubmatch(text, -1) {
			l := Link{Nominal: number(t, m[1]), Plus: number(t, m[2]), Minus: number(t, m[2]), Factor: -1}
			if i == 0 {
				l.Factor = 1
			}
			links = append(links, l)
		}
		return links
	}
	near := func(id string, tol float64, got ...float64) {
		t.Helper()
		want := numbers(strings.Replace(tab.Row(t, id)["expected"], "Bender 1.5", "Bender", 1))
		for i, g := range got {
			if math.Abs(g-want[i]) > tol {
				tab.Fail(t, id, fmt.Sprintf("figure %d is %g, want %g", i+1, g, want[i]))
			}
		}
	}
	for _, id := range []string{"STK-001", "STK-002"} {
		s := stacked(t, chain(tab.Row(t, id)["inputs"]))
		near(id, 1e-4, s.Nominal, s.Worst, s.RSS)
	}
	s := stacked(t, equal(0.1, 0.1, 0.1, 0.1, 0.1, 0.1, 0.1, 0.1, 0.1, 0.1))
	near("STK-003", 0.001, s.Worst, s.RSS)
	s = stacked(t, []Link{{Nominal: 1.750, Plus: .003, Minus: .003, Factor: 1}, {Nominal: .750, Plus: .001, Minus: .001, Factor: -1},
		{Nominal: .120, Plus: .005, Minus: .005, Factor: -1}, {Nominal: .875, Plus: .001, Minus: .001, Factor: -1}})
	near("STK-004", 1e-12, s.Nominal, s.Worst)
	for _, id := range []string{"STK-008", "STK-009", "STK-010"} {
		var links []Link
		for _, text := range strings.Split(sizeList.FindString(tab.Row(t, id)["inputs"]), "/") {
			links = append(links, equal(number(t, text))...)
		}
		s := stacked(t, links)
		near(id, 1e-4, s.Worst, s.RSS, s.Inflated)
	}
	s = stacked(t, equal(0.01, 0.01, 0.01, 0.01))
	near("STK-019", 1e-12, s.Worst, s.RSS)
	t.Log("STK-005 to STK-007 name the methods used, without figures; STK-011 to 018 in package shim; STK-020 not used: a backlash formula, see package shim")
	tab.Report(t)
}

var sizeList = regexp.MustCompile(`[0-9.]+(?:/[0-9.]+)+`)

// Second route: draws. Nothing drawn leaves the worst case, and the spread of
// normal parts whose tolerance is three deviations is RSS/3.
func TestStackAgainstDraws(t *testing.T) {
	links := []Link{{Nominal: 10, Plus: .1, Minus: .02, Factor: 1}, {Nominal: 4, Plus: .03, Minus: .03, Factor: -2}, {Nominal: 1, Plus: 0, Minus: .05, Factor: .5}}
	s := stacked(t, links)
	rng := rand.New(rand.NewPCG(1, 2))
	sum, sq, n := 0.0, 0.0, 100000
	for range n {
		flat, normal := 0.0, 0.0
		for _, l := range links {
			flat += l.Factor * (l.Nominal - l.Minus + rng.Float64()*(l.Plus+l.Minus))
			normal += l.Factor * (l.Nominal + (l.Plus-l.Minus)/2 + rng.NormFloat64()*(l.Plus+l.Minus)/6)
		}
		if math.Abs(flat-s.Centre) > s.Worst {
			t.Fatalf("draw %g leaves %g ± %g", flat, s.Centre, s.Worst)
		}
		sum, sq = sum+normal-s.Centre, sq+(normal-s.Centre)*(normal-s.Centre)
	}
	if mean := sum / float64(n); math.Abs(mean) > 4*s.RSS/3/math.Sqrt(float64(n)) {
		t.Errorf("mean of draws is off by %g", mean)
	}
	if dev := math.Sqrt(sq / float64(n)); math.Abs(dev-s.RSS/3) > 0.01*s.RSS {
		t.Errorf("spread of draws is %g, RSS/3 is %g", dev, s.RSS/3)
	}
}

func TestStackRefuses(t *testing.T) {
	for what, links := range map[string][]Link{
		"none": nil, "factor": {{Nominal: 1}}, "minus": {{Factor: 1, Minus: -1}}, "nan": {{Factor: 1, Nominal: math.NaN()}},
		"inf": {{Factor: math.Inf(1)}},
	} {
		if _, err := Stack(links); err == nil {
			t.Errorf("%s was taken", what)
		}
	}
}
