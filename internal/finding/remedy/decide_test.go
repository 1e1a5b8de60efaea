package remedy

import (
	"math"
	"reflect"
	"slices"
	"strconv"
	"strings"
	"testing"

	"matchmark/internal/finding/judge"
	"matchmark/internal/machine"
	"matchmark/internal/reftest"
)

const methodChecks = "reference/method-checks.csv"

// Row C4a: three journals worn .06 .19 .28 share one of .25 .50 .75.
func TestSharedSizeC4a(t *testing.T) {
	row := reftest.Load(t, methodChecks).Row(t, "C4a")
	want, err := strconv.ParseFloat(row["expected"], 64)
	if err != nil || !strings.Contains(row["inputs"], ".06 .19 .28; undersizes .25 .50 .75") {
		t.Fatalf("row C4a has changed: %v", row)
	}
	var l log
	l.crank([]machine.Remedy{regrind(0.25, 0.50, 0.75), otherCrank}, 0.06, 0.19, 0.28)
	m, f := l.fold(t)
	verdicts(t, f, judge.Worn, "pin-wear.1", "pin-wear.2", "pin-wear.3")
	for _, aim := range Aims() {
		p := Decide(m, f, aim)
		if len(p.Choices) != 3 || len(p.Forced) != 1 || p.Forced[0].Step != want || p.Cost != 9 || !p.Proved {
			t.Fatalf("%s: %+v", aim, p)
		}
		for _, c := range p.Choices {
			if c.Remedy != "regrind-pin" || c.Step != want {
				t.Errorf("%s: %+v", aim, c)
			}
		}
	}
	p := Decide(m, f, Cheapest)
	var steps []float64
	for _, m := range p.Forced[0].Members {
		steps = append(steps, m.StepNeeded)
	}
	if !slices.Equal(steps, []float64{0.25, 0.25, 0.50}) {
		t.Errorf("steps needed: %v", steps)
	}
	if says := "All 3 crankpins take 0.50 mm because Crankshaft, crankpin 3 needs it (0.28 worn)."; p.Forced[0].Says != says {
		t.Errorf("says %q", p.Forced[0].Says)
	}
	if len(p.Flips) != 1 || p.Flips[0].Cost != 9 || p.Flips[0].Price != 15 || p.Flips[0].Instead[0].Remedy != "crank-used" {
		t.Errorf("flips: %+v", p.Flips)
	}
	if len(p.Alternatives) != 1 || p.Alternatives[0].More != 6 {
		t.Errorf("alternatives: %+v", p.Alternatives)
	}
}

// fitsC4b is the machine of row C4b.
func fitsC4b(l *log) {
	kit := machine.Remedy{Key: "kit", Name: "Kit", Cost: 50, Days: 4, Where: "buy", Mends: []machine.CheckID{"f2"}}
	shaft := machine.Remedy{Key: "shaft", Name: "Shaft", Cost: 75, Days: 2, Where: "buy", Mends: []machine.CheckID{"f2", "f3"}}
	l.eye("f1", true, single("a", 30), kit, shaft)
	l.eye("f2", true, single("b", 30))
	l.eye("f3", true, single("c", 20))
}

// Row C4b: a kit of 50 for two fits and a single of 20 beat a shaft of 75 and
// singles of 80.
func TestKitC4b(t *testing.T) {
	row := reftest.Load(t, methodChecks).Row(t, "C4b")
	_, text, _ := strings.Cut(row["expected"], "= ")
	want, err := strconv.ParseFloat(text, 64)
	if err != nil || !strings.Contains(row["inputs"], "kit K cost 50 fixes F1,F2; singles 30,30,20; shaft cost 75 fixes F1,F2,F3") {
		t.Fatalf("row C4b has changed: %v", row)
	}
	var l log
	fitsC4b(&l)
	m, f := l.fold(t)
	p := Decide(m, f, Cheapest)
	if p.Cost != want || choice(p, "f1").Remedy != "kit" || choice(p, "f2").Of != "f1" || choice(p, "f3").Remedy != "c" || !p.Proved {
		t.Errorf("got %v hours: %+v", p.Cost, p.Choices)
	}
	if len(p.Alternatives) < 2 || p.Alternatives[0].Cost != 75 || p.Alternatives[1].Cost != 80 {
		t.Errorf("next best were to be the shaft at 75 and the singles at 80: %+v", p.Alternatives)
	}
	if s := Decide(m, f, Soonest); s.Days != 1 || s.Cost != 80 {
		t.Errorf("soonest: %v days, %v hours", s.Days, s.Cost)
	}
}

// One worn pin forces the sound ones; an unread one is assumed and said.
func TestSizeForcesSoundMembers(t *testing.T) {
	var l log
	l.crank([]machine.Remedy{regrind(0.25, 0.50)}, 0.005, 0.19, -1)
	m, f := l.fold(t)
	verdicts(t, f, judge.Sound, "pin-wear.1")
	p := Decide(m, f, Cheapest)
	if len(p.Choices) != 1 || p.Forced[0].Step != 0.25 || len(p.Forced[0].Members) != 3 || p.Cost != 9 {
		t.Fatalf("%+v", p)
	}
	job := p.Jobs[0]
	if len(job.For) != 3 || len(job.Reworks) != 3 || len(job.Renews) != 3 || len(job.Serves) != 1 {
		t.Errorf("the job is for all three pins: %+v", job)
	}
	if p.Proved || !strings.Contains(p.Forced[0].Says, "assumed to clean up, with no figure: Crankshaft, crankpin 3") {
		t.Errorf("pin 3 is not read, yet: proved %v, %q", p.Proved, p.Forced[0].Says)
	}
}

// Out-of-round counts: the worst point sets the size.
func TestWorstPointSetsSize(t *testing.T) {
	var l log
	l.crank([]machine.Remedy{regrind(0.25, 0.50)}, 0.10)
	l.add(&machine.ReadingTaken{Feature: "crankshaft/pin-1", Amount: mm(41.74)})
	m, f := l.fold(t)
	if p := Decide(m, f, Cheapest); len(p.Forced) != 1 || p.Forced[0].Step != 0.50 {
		t.Errorf("%+v", p.Forced)
	}
}

func TestNoSizeCleansUp(t *testing.T) {
	var l log
	l.crank([]machine.Remedy{regrind(0.25, 0.50)}, 0.06, 0.62, 0.01)
	l.eye("crack", true, single("weld", 4))
	m, f := l.fold(t)
	p := Decide(m, f, Cheapest)
	if len(p.Infeasible) != 2 || p.Proved || p.Cost != 4 || choice(p, "crack").Remedy != "weld" {
		t.Fatalf("%+v", p)
	}
	want := "Crankpin wear, pin 2 cannot be made good: no size of the group crankpins cleans up Crankshaft, crankpin 2: 0.62 worn, largest step 0.50."
	if got := p.Infeasible[1].Says; got != want {
		t.Errorf("says %q, want %q", got, want)
	}
	l = log{}
	l.crank([]machine.Remedy{regrind(0.25, 0.50), otherCrank}, 0.06, 0.62, 0.01)
	m, f = l.fold(t)
	if p := Decide(m, f, Cheapest); p.Cost != 15 || len(p.Infeasible) > 0 || len(p.Choices) != 2 || choice(p, "pin-wear.1").Remedy != "crank-used" {
		t.Errorf("another crank, paid once, was to serve both: %+v", p)
	}
}

// The person's word rules, and what it makes impossible is said.
func TestChosenIsFixed(t *testing.T) {
	var l log
	l.crank([]machine.Remedy{regrind(0.25, 0.50, 0.75), otherCrank}, 0.06, 0.19, 0.28)
	base := len(l.entries)
	l.add(&machine.RemedyChosen{Check: "pin-wear.1", Key: "regrind-pin", Step: 0.75, Why: "shells at hand"})
	m, f := l.fold(t)
	p := Decide(m, f, Cheapest)
	if p.Forced[0].Step != 0.75 || !choice(p, "pin-wear.1").ByHand || p.Forced[0].Says != "All 3 crankpins take 0.75 mm: chosen by fitter." {
		t.Errorf("%+v", p)
	}
	l.entries = l.entries[:base]
	l.add(&machine.RemedyChosen{Check: "pin-wear.1", Key: "regrind-pin", Step: 0.25})
	m, f = l.fold(t)
	p = Decide(m, f, Cheapest)
	want := "Crankpin wear, pin 1 cannot be made good: “Regrind all crankpins” was chosen for Crankpin wear, pin 1, and no size of the group crankpins cleans up Crankshaft, crankpin 3: 0.28 worn, the size chosen is 0.25."
	if len(p.Infeasible) != 1 || p.Infeasible[0].Says != want {
		t.Errorf("%+v", p.Infeasible)
	}
	l.entries = l.entries[:base]
	l.add(&machine.RemedyChosen{Check: "pin-wear.2", Key: "crank-used"})
	m, f = l.fold(t)
	if p = Decide(m, f, Cheapest); p.Cost != 15 || len(p.Jobs) != 1 {
		t.Errorf("the crank is bought: it serves all pins: %+v", p)
	}
	l.add(&machine.RemedyDone{Check: "pin-wear.2", Key: "crank-used", Renewed: []machine.PartID{"crankshaft"}})
	m, f = l.fold(t)
	if p = Decide(m, f, Cheapest); len(p.Choices) != 0 || p.Cost != 0 || !p.Proved {
		t.Errorf("done and not read again: nothing fails: %+v", p)
	}
}

// A remedy that breaks a neighbour is refused, unless the neighbour gets one.
func TestShiftsAreJudgedAgain(t *testing.T) {
	skim := machine.Remedy{Key: "skim", Name: "Skim head", Cost: 5, Days: 6, Where: "machine shop", Shifts: []machine.Shift{{Check: "squish", By: -0.20}}}
	head := machine.Remedy{Key: "head", Name: "Another head", Cost: 12, Days: 20, Where: "buy"}
	gasket := machine.Remedy{Key: "gasket", Name: "Thicker gasket", Cost: 2, Days: 5, Where: "buy"}
	decided := func(now float64, squish ...machine.Remedy) Plan {
		var l log
		l.gap("squish", now, "0.60", "1.10", squish...)
		l.eye("warp", true, skim, head)
		m, f := l.fold(t)
		return Decide(m, f, Cheapest)
	}
	if p := decided(0.90); choice(p, "warp").Remedy != "skim" || !p.Proved || !slices.Contains(p.Again, "squish") ||
		!slices.Contains(p.Proof, "Check squish: 0.90 now, −0.20 by “Skim head”: 0.70 mm predicted, limits 0.60 to 1.10 mm: within.") {
		t.Errorf("0.90 less 0.20 is within limits: %+v", p)
	}
	if p := decided(0.75); choice(p, "warp").Remedy != "head" || !p.Proved {
		t.Errorf("0.75 less 0.20 is too tight: %+v", p.Choices)
	}
	if p := decided(0.75, gasket); p.Cost != 7 || choice(p, "warp").Remedy != "skim" || len(p.Jobs) != 2 || !p.Proved {
		t.Errorf("with a gasket it can be done: %+v", p.Jobs)
	}
	if p := decided(-1); choice(p, "warp").Remedy != "skim" || p.Proved {
		t.Errorf("squish is not read, so nothing is proved: %+v", p.Proof)
	}
}

// One job shifts a value once, however many checks it serves.
func TestOneJobShiftsOnce(t *testing.T) {
	skim := machine.Remedy{Key: "skim", Name: "Skim head", Cost: 5, Where: "machine shop", Renews: []machine.PartID{"head"},
		Shifts: []machine.Shift{{Check: "squish", By: -0.20}}}
	var l log
	l.add(&machine.PartAdded{ID: "head", Name: "Head"})
	l.gap("squish", 0.90, "0.60", "1.10")
	l.eye("warp", true, skim)
	l.eye("leak", true, skim)
	m, f := l.fold(t)
	if p := Decide(m, f, Cheapest); p.Cost != 5 || len(p.Jobs) != 1 || len(p.Jobs[0].Serves) != 2 || !p.Proved {
		t.Errorf("%+v", p)
	}
}

// A remedy without parts that mends a check listing the same key is one job.
func TestSameKeyMendingIsOneJob(t *testing.T) {
	cut := func(mends machine.CheckID) machine.Remedy {
		return machine.Remedy{Key: "cut", Name: "Recut seat", Cost: 1, Where: "bench", Mends: []machine.CheckID{mends}}
	}
	var l log
	l.eye("width", true, cut("leak"))
	l.eye("leak", true, cut("width"))
	m, f := l.fold(t)
	if p := Decide(m, f, Cheapest); p.Cost != 1 || len(p.Jobs) != 1 || len(p.Alternatives) != 0 || choice(p, "leak").Of != "leak" {
		t.Errorf("%+v", p)
	}
}

// Skimming a deck for one cylinder moves the squish of them all; facing one of
// two seats leaves the other as it is. The second check is sound in both.
func TestWorkOnOneSurfaceShiftsAllItTouches(t *testing.T) {
	decided := func(first, second machine.FeatureID) Plan {
		var l log
		l.add(&machine.PartAdded{ID: "block", Name: "Block"},
			&machine.FeatureAdded{Part: "block", Feature: "deck", Name: "deck", Sort: machine.Face},
			&machine.FeatureAdded{Part: "block", Feature: "seat", Name: "seat", Sort: machine.Face})
		for id, face := range map[string]machine.FeatureID{"1": first, "2": second} {
			l.gap(machine.CheckID("squish-"+id), 0.70, "0.60", "1.10")
			l.eye(machine.CheckID("face-"+id), id == "1", machine.Remedy{Key: "skim", Name: "Skim", Cost: 5, Where: "machine shop",
				Reworks: []machine.FeatureID{face}, Shifts: []machine.Shift{{Check: machine.CheckID("squish-" + id), By: -0.05 * float64(id[0]-'0'+1)}}})
		}
		m, f := l.fold(t)
		return Decide(m, f, Cheapest)
	}
	if p := decided("block/deck", "block/deck"); len(p.Infeasible) != 1 {
		t.Errorf("squish 2 would come to 0.55, and nothing is listed for it: %+v", p)
	}
	if p := decided("block/deck", "block/seat"); len(p.Infeasible) != 0 || !p.Proved || len(p.Again) != 1 {
		t.Errorf("only squish 1 moves, to 0.60: %+v", p)
	}
}

func TestLongestLivedPrefersNew(t *testing.T) {
	var l log
	l.add(&machine.PartAdded{ID: "valve", Name: "Valve"})
	l.gap("lift", 0.90, "", "0.50", machine.Remedy{Key: "adjust", Name: "Adjust", Cost: 1, Where: "bench"},
		machine.Remedy{Key: "pack", Name: "Pack up", Cost: 2, Where: "bench", Shifts: []machine.Shift{{Check: "lift", By: -0.60}}},
		machine.Remedy{Key: "renew", Name: "New valve", Cost: 6, Where: "buy", Renews: []machine.PartID{"valve"}})
	l.add(&machine.LimitSet{Check: "lift", Limit: machine.Limit{NewHigh: "0.10", High: "0.50", From: machine.Paperwork}})
	m, f := l.fold(t)
	verdicts(t, f, judge.Worn, "lift")
	if p := Decide(m, f, Cheapest); choice(p, "lift").Remedy != "adjust" || p.Life != 0 {
		t.Errorf("cheapest: %+v", p.Choices)
	}
	if p := Decide(m, f, LongestLived); choice(p, "lift").Remedy != "renew" || p.Life != 1 {
		t.Errorf("longest lived: %+v", p.Choices)
	}
	// by hand: 0.90 − 0.60 = 0.30; (0.50 − 0.30) / (0.50 − 0.10) = 0.5
	if got := lifeOf(m, f.Of("lift"), m.Check("lift").Remedy("pack")); got != 500 {
		t.Errorf("packed up to 0.30 scores %d, want 500", got)
	}
}

// A clearance keeps the wear of the surface that stays.
func TestLifeOfClearance(t *testing.T) {
	var l log
	l.add(&machine.PartAdded{ID: "bush", Name: "Bush"}, &machine.PartAdded{ID: "pin", Name: "Pin"},
		&machine.FeatureAdded{Part: "bush", Feature: "bore", Name: "bore", Sort: machine.Bore, Nominal: 20},
		&machine.FeatureAdded{Part: "pin", Feature: "od", Name: "outside", Sort: machine.Shaft, Nominal: 20},
		&machine.CheckAdded{ID: "fit", Name: "Pin in bush", When: machine.Apart, By: machine.ByClearance, Unit: "mm",
			Outer: "bush/bore", Inner: "pin/od", Limits: []machine.Limit{{NewHigh: "0.02", High: "0.10", From: machine.Paperwork}},
			Remedies: []machine.Remedy{{Key: "bush", Name: "New bush", Cost: 2, Renews: []machine.PartID{"bush"}},
				{Key: "both", Name: "New pin and bush", Cost: 5, Renews: []machine.PartID{"bush", "pin"}}}},
		&machine.ReadingTaken{Feature: "bush/bore", Amount: mm(20.15)}, &machine.ReadingTaken{Feature: "pin/od", Amount: mm(19.98)})
	m, f := l.fold(t)
	verdicts(t, f, judge.Worn, "fit")
	c := m.Check("fit")
	// by hand: the pin keeps 0.02: 0.02 + 0.02 = 0.04; (0.10 − 0.04) / 0.08 = 0.75
	if got := lifeOf(m, f.Of("fit"), c.Remedy("bush")); got != 750 {
		t.Errorf("new bush scores %d, want 750", got)
	}
	if got := lifeOf(m, f.Of("fit"), c.Remedy("both")); got != 1000 {
		t.Errorf("new pin and bush score %d, want 1000", got)
	}
}

// Accepting what is there is the person's to say.
func TestLeavingAloneIsByHandOnly(t *testing.T) {
	var l log
	l.eye("float", true, machine.Remedy{Key: "use-as-is", Name: "Accept and record", Where: "bench"})
	m, f := l.fold(t)
	p := Decide(m, f, Cheapest)
	if len(p.Infeasible) != 1 || !strings.Contains(p.Infeasible[0].Says, "leaves it as it is: choose it yourself") {
		t.Errorf("%+v", p)
	}
	l.add(&machine.RemedyChosen{Check: "float", Key: "use-as-is"})
	m, f = l.fold(t)
	if p = Decide(m, f, Cheapest); len(p.Infeasible) != 0 || !choice(p, "float").ByHand || p.Cost != 0 {
		t.Errorf("%+v", p)
	}
}

func TestDoubtfulIsListedApart(t *testing.T) {
	var l log
	l.gap("gap", 0.50, "", "0.50", single("shim", 3), single("renew", 8))
	m, f := l.fold(t)
	verdicts(t, f, judge.Doubtful, "gap")
	p := Decide(m, f, Cheapest)
	if len(p.Choices) != 0 || len(p.IfWorn) != 1 || p.IfWorn[0].Remedy != "shim" || p.IfWorn[0].Cost != 3 || p.IfWorn[0].Covered {
		t.Errorf("%+v", p)
	}
}

// A search cut short still answers, and says so.
func TestIncompleteSaysSo(t *testing.T) {
	var l log
	fitsC4b(&l)
	m, f := l.fold(t)
	p := Search{Nodes: 1}.Decide(m, f, Cheapest)
	if !strings.HasPrefix(p.Incomplete, "incomplete") || p.Bound > 70 || p.Proved {
		t.Errorf("%+v", p)
	}
	full := Decide(m, f, Cheapest)
	if full.Incomplete != "" || full.Bound != full.Cost {
		t.Errorf("%q, bound %v", full.Incomplete, full.Bound)
	}
}

func TestNothingFails(t *testing.T) {
	m := machine.Fold(nil)
	p := Decide(m, judge.All(m), Cheapest)
	if p.Cost != 0 || p.Life != 1 || !p.Proved || p.Incomplete != "" || len(Calls(m, p)) != 0 {
		t.Errorf("%+v", p)
	}
}

// finite looks through a value for NaN and infinity.
func finite(v reflect.Value) bool {
	switch v.Kind() {
	case reflect.Float64:
		return !math.IsNaN(v.Float()) && !math.IsInf(v.Float(), 0)
	case reflect.Slice:
		for i := range v.Len() {
			if !finite(v.Index(i)) {
				return false
			}
		}
	case reflect.Struct:
		for i := range v.NumField() {
			if v.Type().Field(i).Name != "From" && !finite(v.Field(i)) {
				return false
			}
		}
	}
	return true
}
