package sequence

import (
	"slices"
	"strings"
	"testing"

	"matchmark/internal/finding/judge"
	"matchmark/internal/machine"
)

func wantFree(t *testing.T, p *Plan, want ...string) {
	t.Helper()
	slices.Sort(want)
	if got := sortedIDs(p.Free); !slices.Equal(got, want) {
		t.Errorf("free %v, want %v", got, want)
	}
}

func wantOrder(t *testing.T, p *Plan, want ...string) {
	t.Helper()
	if got := ids(p.Order); !slices.Equal(got, want) {
		t.Errorf("order %v, want %v", got, want)
	}
}

// With "a or b gave access" the joint closes before the later of the two:
// either may close first, and then the other waits.
func TestOneOfTwoWaysMayClose(t *testing.T) {
	b := new(book).write(joint("a", ""), joint("b", ""), joint("j", "a | b")).write(opened("a", "b", "j")...)
	wantFree(t, b.plan(), "close:a", "close:b", "close:j")
	b.write(closed("a", machine.Final))
	wantFree(t, b.plan(), "close:j")
	m := b.fold()
	if holds := MayClose(m, looks{m}, m.Joint("b"), true); len(holds) != 1 || holds[0].First.ID != "j" {
		t.Errorf("b is not held by j: %v", holds)
	}
	b.write(closed("j", machine.Final))
	wantFree(t, b.plan(), "close:b")
}

// The strip log turned round, where the rules leave a choice.
func TestStripLogBreaksTies(t *testing.T) {
	b := new(book).write(joint("a", ""), joint("b", ""), joint("c", "")).write(opened("b", "c", "a")...)
	wantOrder(t, b.plan(), "close:a", "close:c", "close:b")
}

// A check hidden only once two joints are closed comes before the later.
func TestCheckComesBeforeTheLaterOfTwoHidingJoints(t *testing.T) {
	b := new(book).write(joint("k", ""), joint("l", ""), joint("j", ""), check("gap", machine.Made, "j", "k l")).
		write(opened("k", "l", "j")...)
	wantFree(t, b.plan(), "close:j", "close:k", "close:l")
	b.write(closed("k", machine.Final))
	p := b.plan()
	wantFree(t, p, "close:j")
	if len(p.Held) != 1 || p.Held[0].Joint.ID != "l" || p.Held[0].Check.ID != "gap" || p.Held[0].Due {
		t.Errorf("held %+v", p.Held)
	}
	b.write(closed("j", machine.Final))
	p = b.plan()
	wantFree(t, p, "check:gap")
	if len(p.Held) != 1 || !p.Held[0].Due {
		t.Errorf("the check alone stands before closing l: %+v", p.Held)
	}
	b.write(look("gap", true))
	wantFree(t, b.plan(), "close:l")
}

// An apart check hidden by its own joint comes before it closes; a made check
// whose kit says that its own joint hides it is not made impossible by that.
func TestOwnJointAsHider(t *testing.T) {
	b := new(book).write(joint("j", ""), check("wear", machine.Apart, "j", "j"), check("drag", machine.Made, "j", "j")).write(opened("j")...)
	wantOrder(t, b.plan(), "check:wear", "close:j", "check:drag")
}

func TestMootChecksAndJointsThatStayClosed(t *testing.T) {
	b := new(book).write(joint("cover", ""), joint("inner", "cover"), joint("deep", "inner"), joint("side", ""),
		check("seat", machine.Apart, "deep", ""), check("edge", machine.Apart, "side", "")).
		write(&machine.JointLeft{Joint: "cover", Why: "sound"})
	p := b.plan()
	wantOrder(t, p, "open:side", "check:edge", "close:side")
	var left []string
	for _, k := range p.Left {
		left = append(left, string(k.Joint.ID)+": "+k.Why)
	}
	want := []string{"cover: sound", "inner: Cover stays closed over it", "deep: Inner stays closed over it"}
	if !slices.Equal(left, want) {
		t.Errorf("left %q, want %q", left, want)
	}
}

func TestHoldPassedByHand(t *testing.T) {
	b := new(book).write(joint("j", ""), check("wear", machine.Apart, "j", "")).write(opened("j")...)
	p := b.plan()
	wantFree(t, p, "check:wear")
	b.write(&machine.HoldPassed{Joint: "j", Check: "wear", Initials: "AB", Why: "no gauge"})
	p = b.plan()
	wantFree(t, p, "check:wear", "close:j")
	if len(p.Passed) != 1 || !strings.Contains(p.Passed[0].Why, "passed by AB: no gauge") || len(p.Held) != 0 {
		t.Errorf("passed %+v held %+v", p.Passed, p.Held)
	}
	b.write(closed("j", machine.Final))
	if p = b.plan(); len(p.Breaches) != 0 || len(p.Passed) != 1 {
		t.Errorf("a passed hold is no breach: %+v; it stays shown: %+v", p.Breaches, p.Passed)
	}
	// Opened again, the word given for the first closing has lapsed.
	b.write(opened("j")...)
	wantFree(t, b.plan(), "check:wear")
}

// What guards life is never passed, whether the check or the joint says so.
func TestLifeGateCannotBePassed(t *testing.T) {
	for name, bodies := range map[string][]machine.Body{
		"check": {joint("j", ""), check("stop", machine.Apart, "j", "", func(c *machine.CheckAdded) { c.Life = true })},
		"joint": {joint("j", "", func(j *machine.JointAdded) { j.Life = true }), check("stop", machine.Apart, "j", "")},
	} {
		b := new(book).write(bodies...).write(opened("j")...).write(&machine.HoldPassed{Joint: "j", Check: "stop", Initials: "AB", Why: "late"})
		wantFree(t, b.plan(), "check:stop")
		m := b.fold()
		// Even if the fold had let the word through.
		m.Joint("j").Passed = append(m.Joint("j").Passed, machine.Passed{Stamp: machine.Stamp{At: m.Last}, HoldPassed: machine.HoldPassed{Joint: "j", Check: "stop"}})
		holds := MayClose(m, looks{m}, m.Joint("j"), true)
		if len(holds) != 1 || !holds[0].Life || !strings.Contains(holds[0].Why, "guards life") {
			t.Errorf("%s: holds %+v", name, holds)
		}
	}
}

func TestBreaches(t *testing.T) {
	b := new(book).write(joint("cover", ""), joint("j", "cover"), check("wear", machine.Apart, "j", "")).write(opened("cover", "j")...)
	b.write(closed("j", machine.Final), closed("cover", machine.Final))
	p := b.plan()
	if len(p.Breaches) != 1 || p.Breaches[0].Joint.ID != "j" || p.Breaches[0].Check.ID != "wear" || p.Breaches[0].Hours != 2 {
		t.Errorf("breaches %+v", p.Breaches)
	}
	b = new(book).write(joint("cover", ""), joint("j", "cover")).write(opened("cover", "j")...).write(closed("cover", machine.Final))
	p = b.plan()
	if len(p.Breaches) != 1 || p.Breaches[0].Under.ID != "j" {
		t.Errorf("breaches %+v", p.Breaches)
	}
}

// A press joint does not simply reverse: the order is kept but not known, it
// never forbids a closing, and a person's word goes before it.
func TestOneWayJoint(t *testing.T) {
	b := new(book).write(joint("cap", ""), joint("race", "cap", func(j *machine.JointAdded) { j.OneWay = true })).write(opened("cap", "race")...)
	p := b.plan()
	wantOrder(t, p, "close:race", "close:cap")
	rules := p.Because("close:cap")
	if len(rules) != 1 || rules[0].Certainty != Unknown || !strings.Contains(rules[0].Words, "no reversal") {
		t.Errorf("rules %+v", rules)
	}
	m := b.fold()
	if holds := MayClose(m, looks{m}, m.Joint("cap"), true); len(holds) > 0 {
		t.Errorf("an order not known forbids: %+v", holds)
	}
	p = b.write(stated("cap", "race")).plan()
	if len(p.Contradictions) > 0 {
		t.Errorf("contradiction %s", p.Contradictions[0].Words)
	}
	wantOrder(t, p, "close:cap", "close:race")
}

func TestContradictionInWords(t *testing.T) {
	b := new(book).write(joint("cover", ""), joint("shaft", ""), joint("fork", "", func(j *machine.JointAdded) {
		j.Reach = sets("cover")
	})).write(opened("cover", "shaft", "fork")...)
	b.write(stated("cover", "shaft"), inTheWay("shaft", "fork"), joint("lamp", ""))
	b.write(opened("lamp")...)
	p := b.plan()
	if len(p.Contradictions) != 1 {
		t.Fatalf("%d contradictions", len(p.Contradictions))
	}
	c := p.Contradictions[0]
	want := "Fork waits for shaft (in the way, photo by ann, 12 May); shaft waits for cover (stated by ann, 12 May); " +
		"cover waits for fork (assumed from kit geometry). One is wrong; the weakest is the last."
	if c.Words != want {
		t.Errorf("words\n%s\nwant\n%s", c.Words, want)
	}
	if c.Claims[0].Withdraw == "" || c.Claims[1].Withdraw == "" || c.Claims[2].Withdraw != "" ||
		len(c.Claims[2].Deny) != 1 || c.Claims[2].Deny[0] != (machine.ReachDenied{Joint: "fork", Blocker: "cover"}) {
		t.Errorf("claims %+v", c.Claims)
	}
	// The rest goes on, and what is stuck says why.
	wantFree(t, p, "close:lamp")
	if block := p.Blocked("close:shaft"); !block.Never || !strings.Contains(block.Words, "One is wrong") {
		t.Errorf("blocked: %+v", block)
	}
	// Taking back any one of them frees all.
	for i, claim := range c.Claims {
		again := &book{entries: slices.Clone(b.entries)}
		if claim.Withdraw != "" {
			again.write(&machine.EntryWithdrawn{Target: claim.Withdraw})
		} else {
			deny := claim.Deny[0]
			again.write(&deny)
		}
		if p := again.plan(); len(p.Contradictions) > 0 || len(p.Stuck) > 0 {
			t.Errorf("still stuck after taking back claim %d", i)
		}
	}
}

// A dry build: apart checks first, the trial, its reading, then apart again
// and closed for good.
func TestDryBuild(t *testing.T) {
	b := new(book).write(joint("cap", "", func(j *machine.JointAdded) { j.Dry = true }),
		check("journal", machine.Apart, "cap", ""), check("clearance", machine.Made, "cap", "", func(c *machine.CheckAdded) { c.Dry = true })).
		write(opened("cap")...)
	m := b.fold()
	if holds := MayClose(m, looks{m}, m.Joint("cap"), false); len(holds) != 1 || holds[0].Check.ID != "journal" {
		t.Errorf("the trial is not held by the unread journal: %+v", holds)
	}
	wantOrder(t, b.plan(), "check:journal", "trial:cap", "check:clearance", "close:cap")
	b.write(look("journal", false)) // worn: the trial may go on to see by how much
	m = b.fold()
	if holds := MayClose(m, looks{m}, m.Joint("cap"), false); len(holds) != 0 {
		t.Errorf("the trial is held by a worn check: %+v", holds)
	}
	b.write(look("journal", true), closed("cap", machine.Trial))
	wantFree(t, b.plan(), "check:clearance")
	b.write(look("clearance", true))
	wantOrder(t, b.plan(), "undo:cap", "close:cap")
	b.write(opened("cap")...)
	wantOrder(t, b.plan(), "close:cap")
}

// A dry build that a check still wants is not offered to be taken apart while
// the check's other joints are still to be closed on trial.
func TestDryBuildWaitsForTheOtherTrials(t *testing.T) {
	dry := func(c *machine.CheckAdded) { c.Dry = true }
	b := new(book).write(joint("bearing", ""), joint("cover", ""), check("preload", machine.Made, "bearing cover", "", dry)).
		write(opened("bearing", "cover")...).write(closed("bearing", machine.Trial))
	wantFree(t, b.plan(), "trial:cover")
	wantOrder(t, b.plan(), "trial:cover", "check:preload", "undo:bearing", "close:cover", "close:bearing")
	b.write(closed("cover", machine.Trial))
	wantFree(t, b.plan(), "check:preload")
	b.write(look("preload", true))
	wantFree(t, b.plan(), "undo:bearing", "undo:cover")

	// Where the other joint lies under it, it has to come apart first after all.
	b = new(book).write(joint("cover", ""), joint("bearing", "cover"), check("preload", machine.Made, "bearing cover", "", dry)).
		write(opened("cover", "bearing")...).write(closed("cover", machine.Trial))
	wantFree(t, b.plan(), "undo:cover")
	if p := b.plan(); len(p.Contradictions) > 0 {
		t.Errorf("a contradiction: %s", p.Contradictions[0].Words)
	}
}

// A joint on trial that lies over another is to come apart before the other
// is worked on.
func TestTrialOverOpenJoint(t *testing.T) {
	b := new(book).write(joint("head", "", func(j *machine.JointAdded) { j.Dry = true }), joint("piston", "head")).
		write(opened("head", "piston")...).write(closed("head", machine.Trial))
	wantOrder(t, b.plan(), "undo:head", "close:piston", "close:head")
}

// A remedy chosen for a joint closed for good brings it apart again, with what
// lies over it; its made check is made once more before it is hidden.
func TestRemedyReopens(t *testing.T) {
	b := new(book).write(&machine.PartAdded{ID: "ring", Name: "Ring", Qty: 1},
		joint("cover", ""), joint("gear", "cover", func(j *machine.JointAdded) { j.Parts = []machine.PartID{"ring"} }),
		check("backlash", machine.Made, "gear", "cover", func(c *machine.CheckAdded) {
			c.Remedies = []machine.Remedy{{Key: "renew", Name: "Renew the ring", Renews: []machine.PartID{"ring"}, Where: "bench", Cost: 2}}
		})).write(opened("cover", "gear")...).write(closed("gear", machine.Final), look("backlash", true), closed("cover", machine.Final))
	if p := b.plan(); len(p.Order) != 0 || len(p.Breaches) != 0 {
		t.Fatalf("all was done: %v %v", ids(p.Order), p.Breaches)
	}
	b.write(look("backlash", false), &machine.RemedyChosen{Check: "backlash", Key: "renew"})
	p := b.plan()
	wantOrder(t, p, "open:cover", "open:gear", "rework:backlash/renew", "close:gear", "check:backlash", "close:cover")
	if s, _ := p.Step("rework:backlash/renew"); s.Hours != 2 || s.Name != "Renew the ring: backlash" {
		t.Errorf("step %+v", s)
	}
}

// What was read of a made check before the strip says how it was found.
func TestReadingBeforeStripDoesNotCount(t *testing.T) {
	b := new(book).write(joint("cover", ""), joint("gear", "cover"), check("backlash", machine.Made, "gear", "cover"), look("backlash", true)).
		write(opened("cover", "gear")...)
	wantOrder(t, b.plan(), "close:gear", "check:backlash", "close:cover")
	b.write(closed("gear", machine.Final))
	m := b.fold()
	if holds := MayClose(m, looks{m}, m.Joint("cover"), true); len(holds) != 1 || !strings.Contains(holds[0].Why, "read again") {
		t.Errorf("holds %+v", holds)
	}
	b.write(look("backlash", true))
	wantOrder(t, b.plan(), "close:cover")
}

// Only sound lets a closing go: read is not enough.
func TestVerdictsThatHold(t *testing.T) {
	b := new(book).write(joint("j", ""), check("wear", machine.Apart, "j", "")).write(opened("j")...)
	m := b.fold()
	for _, v := range []judge.Verdict{judge.NotRead, judge.Worn, judge.Doubtful, judge.NoLimit} {
		if p := Make(m, verdicts{"wear": v}); len(p.Free) != 1 || p.Free[0].Act != Check {
			t.Errorf("%s: free %v", v, ids(p.Free))
		}
	}
	if p := Make(m, verdicts{"wear": judge.Sound}); len(p.Free) != 1 || p.Free[0].Act != Close {
		t.Errorf("sound: free %v", ids(p.Free))
	}
}

func TestHoldsShowWhatReopeningCosts(t *testing.T) {
	b := new(book).write(joint("cover", ""), joint("gear", "cover"), joint("race", "gear"), joint("lamp", ""),
		check("seat", machine.Apart, "race", ""), check("bulb", machine.Apart, "lamp", "")).write(opened("cover", "gear", "race", "lamp")...)
	p := b.plan()
	if len(p.Held) != 2 || p.Held[0].Joint.ID != "race" || p.Held[0].Hours != 3 || p.Held[1].Hours != 1 {
		t.Fatalf("held %+v", p.Held)
	}
	var again []string
	for _, j := range p.Held[0].Reopen {
		again = append(again, string(j.ID))
	}
	if !slices.Equal(again, []string{"race", "gear", "cover"}) {
		t.Errorf("to reopen %v, deepest first", again)
	}
}

// Orders, cleaning, rework and proving round a joint.
func TestWorkRoundAJoint(t *testing.T) {
	b := new(book).write(&machine.AssemblyAdded{ID: "a", Name: "A", System: "engine", Clean: machine.Hours{Likely: 4}},
		&machine.PartAdded{ID: "shaft", Name: "Shaft", Qty: 1, Assembly: "a"}, &machine.FeatureAdded{Part: "shaft", Feature: "journal", Sort: machine.Shaft},
		joint("cap", "", func(j *machine.JointAdded) { j.Parts = []machine.PartID{"shaft"}; j.Assembly = "a" }),
		check("wear", machine.Apart, "cap", "", func(c *machine.CheckAdded) {
			c.Assembly = "a"
			c.Remedies = []machine.Remedy{{Key: "grind", Name: "Grind", Reworks: []machine.FeatureID{"shaft/journal"}, Where: "machine shop"}}
		}),
		check("noise", machine.Running, "", "", func(c *machine.CheckAdded) { c.Assembly = "a" }),
		&machine.TestAdded{ID: "turn", Name: "Turn by hand", System: "engine", Order: 1},
		&machine.TestAdded{ID: "run", Name: "Run", System: "engine", Order: 2, Needs: []machine.TestID{"turn"}}).write(opened("cap")...)
	b.write(look("wear", false), &machine.RemedyChosen{Check: "wear", Key: "grind"},
		&machine.Ordered{Order: "o1", What: "grinding", Parts: []machine.PartID{"shaft"}, Out: true})
	p := b.plan()
	wantFree(t, p, "collect:o1")
	wantOrder(t, p, "collect:o1", "clean:shaft", "rework:wear/grind", "check:wear", "close:cap", "test:turn", "test:run", "check:noise")
	block := p.Blocked("close:cap")
	if !block.Exact || len(block.Needs) != 4 || block.Hours != 4 || !strings.HasPrefix(block.Words, "Close cap for good waits for 4 steps.") {
		t.Errorf("block %+v", block)
	}
}

// Two assemblies can be worked on side by side until a joint marries them.
func TestBenches(t *testing.T) {
	part := func(id, a string) *machine.PartAdded {
		return &machine.PartAdded{ID: machine.PartID(id), Name: id, Qty: 1, Assembly: machine.AssemblyID(a)}
	}
	in := func(a string, parts ...machine.PartID) func(*machine.JointAdded) {
		return func(j *machine.JointAdded) { j.Assembly, j.Parts = machine.AssemblyID(a), parts }
	}
	b := new(book).write(part("block", "engine"), part("crank", "engine"), part("housing", "box"), part("gear", "box"),
		joint("bell", "", in("engine", "block", "housing")), joint("main", "bell", in("engine", "block", "crank")),
		joint("shaft", "bell", in("box", "housing", "gear"))).write(opened("bell", "main", "shaft")...)
	p := b.plan()
	if len(p.Benches) != 2 || p.Benches[0].Label != "A" || p.Benches[0].Free != 1 ||
		!slices.Equal(ids(p.Benches[0].Steps), []string{"close:shaft"}) || !slices.Equal(ids(p.Benches[1].Steps), []string{"close:main"}) {
		t.Errorf("benches %+v", p.Benches)
	}
	if s, _ := p.Step("close:bell"); s.Bench != "" {
		t.Errorf("the marrying joint has bench %q", s.Bench)
	}
}

// The plan of nothing, and asking about what is not there.
func TestEmptyMachine(t *testing.T) {
	m := machine.Fold(nil)
	p := Make(m, nil)
	if len(p.Steps)+len(p.Free)+len(p.Order)+len(p.Held) != 0 || p.Blocked("open:x").Step != nil || MayClose(m, nil, nil, true) != nil {
		t.Errorf("plan of nothing: %+v", p)
	}
}
