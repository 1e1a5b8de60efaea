package machine

import (
	"fmt"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
)

func ids[T any](items []T, id func(T) string) string {
	var out []string
	for _, x := range items {
		out = append(out, id(x))
	}
	return strings.Join(out, " ")
}

func jointID(j *Joint) string { return string(j.ID) }
func partID(p *Part) string   { return string(p.ID) }
func checkID(c *Check) string { return string(c.ID) }

// TestInstances: which instances a type has, and which of them meet.
func TestInstances(t *testing.T) {
	m := Fold(engine().entries)
	questions(t, m)
	rows := []struct{ name, got, want string }{
		{"parts", ids(m.Parts, partID), "block cover liner.1 liner.2 rod.1 rod.2 valve.in-1 valve.ex-1 valve.in-2 valve.ex-2"},
		{"joints", ids(m.Joints, jointID), "cover-bolts big-end.1 big-end.2 seat.in-1 seat.ex-1 seat.in-2 seat.ex-2"},
		{"a joint takes the part of its place and the one of all", ids(m.Joint("big-end.2").Parts, partID), "rod.2 block"},
		{"a joint under a place takes the part of the place above", ids(m.Joint("seat.ex-2").Parts, partID), "valve.ex-2 liner.2"},
		{"a part knows its joints", ids(m.Part("liner.1").Joints, jointID), "seat.in-1 seat.ex-1"},
		{"a joint knows its checks", ids(m.Joint("seat.in-2").Checks, checkID), "leak.in-2"},
		{"a name says its place", m.Part("liner.2").Name, "Liner, cylinder 2"},
		{"a name without a family's word", m.Joint("cover-bolts").Name, "Cover"},
		{"a check reads the surface of its place", string(m.Check("bore-wear.2").Outer.ID), "liner.2/bore"},
		{"a remedy reworks the surface of its place", string(m.Check("bore-wear.2").Remedies[0].Reworks[0]), "liner.2/bore"},
		{"a remedy opens the check of its place", string(m.Check("bore-wear.2").Remedies[0].Opens[0]), "side-play.2"},
		{"hidden by", ids(m.Check("bore-wear.1").HiddenBy[0], jointID), "cover-bolts"},
		{"reach of one alternative", fmt.Sprint(m.Joint("big-end.1").Reach[0].Any), "[[cover-bolts]]"},
		{"reach of two, through the place above", fmt.Sprint(m.Joint("seat.ex-2").Reach[0].Any), "[[big-end.2 cover-bolts] [cover-bolts]]"},
		{"points of a run, in bench order", fmt.Sprint(m.Feature("liner.1/bore").Points()), "[{top along} {top across} {low along} {low across}]"},
	}
	for _, r := range rows {
		if r.got != r.want {
			t.Errorf("%s:\n got %s\nwant %s", r.name, r.got, r.want)
		}
	}
}

// TestMeeting: which places of one family belong to a place of another.
func TestMeeting(t *testing.T) {
	a := atlas{
		"cylinder": {Family: "cylinder", Labels: []Place{"1", "2"}},
		"valve":    {Family: "valve", Labels: []Place{"in-1", "ex-1", "in-2"}, Under: "cylinder", Above: []Place{"1", "1", "2"}},
		"ring":     {Family: "ring", Labels: []Place{"top-1", "top-2"}, Under: "cylinder", Above: []Place{"1", "2"}},
		"side":     {Family: "side", Labels: []Place{"left", "right"}},
		"short":    {Family: "short", Labels: []Place{"a", "b"}, Under: "cylinder", Above: []Place{"1"}},
	}
	rows := []struct {
		name string
		from Family
		at   Place
		to   Family
		want string
	}{
		{"the same place", "cylinder", "2", "cylinder", "2"},
		{"the places below", "cylinder", "1", "valve", "in-1 ex-1"},
		{"the place above", "valve", "in-2", "cylinder", "2"},
		{"siblings under one place", "valve", "ex-1", "ring", "top-1"},
		{"unrelated families meet everywhere", "side", "left", "valve", "in-1 ex-1 in-2"},
		{"an item without places meets all", "", "", "cylinder", "1 2"},
		{"an item without places is met once", "cylinder", "1", "", "(one)"},
		{"a family nobody declared is one place", "cylinder", "1", "nobody", "(one)"},
		{"from a family nobody declared", "nobody", "", "side", "left right"},
		{"a label whose place above was not said", "short", "b", "cylinder", ""},
		{"a place that is not in the family", "cylinder", "9", "valve", ""},
	}
	for _, r := range rows {
		labels := a.labels(r.to)
		var got []string
		for _, l := range (kin[Place]{r.to, labels}).near(a, r.from, r.at) {
			if l == "" {
				l = "(one)"
			}
			got = append(got, string(l))
		}
		if s := strings.Join(got, " "); s != r.want {
			t.Errorf("%s: %q at %q to %q: got %q, want %q", r.name, r.from, r.at, r.to, s, r.want)
		}
	}
}

// TestDeclaredWrong: what does not fit is asked about, and the rest stands.
func TestDeclaredWrong(t *testing.T) {
	rows := []struct {
		name string
		say  []Body
		asks []string
	}{
		{"a part twice", []Body{&PartAdded{ID: "cover", Name: "Again"}}, []string{`part "cover" is on the machine twice`}},
		{"a joint twice", []Body{&JointAdded{ID: "big-end", Name: "Again", Parts: []PartID{"block"}}}, []string{`joint "big-end" is on the machine twice`}},
		{"a check twice", []Body{&CheckAdded{ID: "leak", Name: "Again"}}, []string{`check "leak" is on the machine twice`}},
		{"a test twice", []Body{&TestAdded{ID: "turn-over"}}, []string{`test "turn-over" is on the machine twice`}},
		{"an assembly twice", []Body{&AssemblyAdded{ID: "engine"}}, []string{`assembly "engine" is on the machine twice`}},
		{"places twice", []Body{&PlacesSet{Places{Family: "valve", Labels: []Place{"x"}}}}, []string{`places "valve" are declared twice`}},
		{"places without a label", []Body{&PlacesSet{Places{Family: "none"}}}, []string{"at least one place"}},
		{"a label twice, an empty one, one with a stroke", []Body{
			&PlacesSet{Places{Family: "wheel", Labels: []Place{"left", "left", "", "a/b", "right"}}},
			&PartAdded{ID: "wheel", Name: "Wheel", Places: "wheel"}},
			[]string{`"left" cannot be one of the places`, `"" cannot be one of the places`, `"a/b" cannot be one of the places`}},
		{"an id with a point", []Body{&PartAdded{ID: "a.b", Name: "x"}}, []string{`"a.b" cannot be an id`}},
		{"an empty id", []Body{&JointAdded{Name: "x"}}, []string{`"" cannot be an id`}},
		{"a feature twice", []Body{&FeatureAdded{Part: "valve", Feature: "stem"}}, []string{`"valve.in-1/stem" is declared twice`, `"valve.ex-1/stem"`, `"valve.in-2/stem"`, `"valve.ex-2/stem"`}},
		{"a feature without a name", []Body{&FeatureAdded{Part: "valve"}}, []string{`"" cannot name a surface`}},
		{"a feature of nothing", []Body{&FeatureAdded{Part: "piston", Feature: "skirt"}}, []string{`part "piston", which is not on the machine`}},
		{"a joint of nothing", []Body{&JointAdded{ID: "x", Name: "x", Parts: []PartID{"piston", "block"}}}, []string{`part "piston" is not on the machine`}},
		{"a joint in its own way", []Body{&JointAdded{ID: "x", Name: "x", Parts: []PartID{"block"}, Reach: [][]JointID{{"x"}}}}, []string{`joint "x" is said to be in its own way`}},
		{"a joint behind nothing", []Body{&JointAdded{ID: "x", Name: "x", Parts: []PartID{"block"}, Reach: [][]JointID{{"y"}}}}, []string{`joint "y" is not on the machine`}},
		{"a check of one surface at several places", []Body{&CheckAdded{ID: "x", Name: "x", When: Apart, By: BySize, Outer: "liner/bore"}}, []string{"has several places here"}},
		{"a check of no surface", []Body{&CheckAdded{ID: "x", Name: "x", When: Apart, By: BySize, Outer: "block/deck"}}, []string{`feature "block/deck" is not on the machine`}},
		{"a limit for nothing", []Body{&LimitSet{Check: "nothing"}}, []string{`a limit was set for check "nothing"`}},
	}
	for _, r := range rows {
		t.Run(r.name, func(t *testing.T) {
			b := engine()
			b.say(r.say...)
			m := Fold(b.entries)
			questions(t, m, r.asks...)
			if p := m.Part("cover"); p == nil || p.Name != "Cover" {
				t.Errorf("the first cover is gone: %+v", p)
			}
		})
	}
	b := engine()
	b.say(&PlacesSet{Places{Family: "wheel", Labels: []Place{"left", "left", "right"}, Under: "cylinder", Above: []Place{"1", "1", "2"}}}, &PartAdded{ID: "wheel", Name: "Wheel", Places: "wheel"})
	m := Fold(b.entries)
	if got := ids(m.Parts[len(m.Parts)-2:], partID); got != "wheel.left wheel.right" {
		t.Errorf("wheels: %s", got)
	}
	if got := m.Places[len(m.Places)-1].Above; fmt.Sprint(got) != "[1 2]" {
		t.Errorf("places above: %v", got)
	}
}

// TestReferencesWrong: a bench fact about what is not there is asked about,
// names the instances where only the type was said, and is no event.
func TestReferencesWrong(t *testing.T) {
	const nowhere, which = "is not on the machine", "Say which one"
	rows := []struct {
		body Body
		asks string
	}{
		{&JointOpened{Joint: "x"}, nowhere}, {&JointOpened{Joint: "big-end"}, which},
		{&JointClosed{Joint: "x", As: Final}, nowhere}, {&JointLeft{Joint: "seat"}, which},
		{&InTheWay{Joint: "x"}, nowhere}, {&ReachDenied{Joint: "x"}, nowhere}, {&OrderStated{First: "x", Then: "y"}, nowhere},
		{&OrderStated{First: "cover-bolts", Then: "y"}, nowhere}, {&OrderStated{First: "x", Then: "x"}, "before itself"},
		{&AsFoundTaken{Joint: "x"}, nowhere}, {&HoldPassed{Joint: "x"}, nowhere}, {&HoldPassed{Joint: "cover-bolts", Check: "x"}, nowhere},
		{&PartMoved{Part: "liner"}, which}, {&PartCounted{Part: "x"}, nowhere}, {&PartCleaned{Part: "x"}, nowhere},
		{&CallMade{Part: "x", Call: Renew}, nowhere}, {&CallMade{Part: "cover", Call: "scrap"}, "is no call"},
		{&PartIdentified{Part: "x", Designation: "6205", Probability: 0.9}, nowhere}, {&PartIdentified{Part: "cover", Probability: 0.9}, "identified as nothing"},
		{&PartIdentified{Part: "cover", Designation: "6205", Probability: 1.2}, "probability of 1.2"},
		{&ReadingTaken{Feature: "x/y"}, nowhere}, {&ReadingTaken{Feature: "liner/bore"}, nowhere}, {&ReadingTaken{Check: "leak"}, which}, {&ReadingTaken{}, nowhere},
		{&LookTaken{Check: "x"}, nowhere}, {&NominalSet{Feature: "x/y"}, nowhere}, {&RemedyChosen{Check: "x"}, nowhere}, {&RemedyDone{Check: "bore-wear"}, which},
		{&Ordered{}, "a name of its own"}, {&Promised{Order: "x"}, "not in the book"}, {&Received{Order: "x"}, "not in the book"}, {&TestRun{Test: "x"}, nowhere},
		{nil, "says nothing"}, {&Unreadable{Was: "x", Why: "because"}, "because"},
	}
	for _, r := range rows {
		b := engine()
		b.say(r.body)
		m := Fold(b.entries)
		if len(m.Questions) != 1 || !strings.Contains(m.Questions[0].Text, r.asks) || m.Questions[0].Entry != b.entries[len(b.entries)-1].ID {
			t.Errorf("%T: questions %+v, want one that says %q", r.body, m.Questions, r.asks)
		}
		if len(m.Events) != 0 {
			t.Errorf("%T: an event although it could not be placed", r.body)
		}
	}
}

// TestNotes: a note or photo of what is not there is kept and asked about.
func TestNotes(t *testing.T) {
	b := engine()
	b.say(&Noted{Text: "of nothing in particular"}, &Noted{Of: "tray:9", Text: "rust"}, &Noted{Of: "joint:seat", Text: "of the type"},
		&Noted{Of: "part:x", Text: "of nothing"}, &PhotoAdded{Of: "joint:x", Sum: "00"}, &PhotoAdded{Of: "joint:big-end.1", Sum: "01"}, &PhotoAdded{Of: "part:liner.2", Sum: "02"})
	m := Fold(b.entries)
	questions(t, m, `the note is about "part:x"`, `the photo shows "joint:x"`)
	if len(m.Notes) != 4 || len(m.Photos) != 3 || len(m.Joint("big-end.1").Photos) != 1 || len(m.Part("liner.2").Photos) != 1 {
		t.Errorf("%d notes, %d photos", len(m.Notes), len(m.Photos))
	}
}

// TestIdentified: the latest word on what a part is counts, and taking it back
// brings the earlier one up again.
func TestIdentified(t *testing.T) {
	b := engine()
	b.say(&PartIdentified{Part: "cover", What: "oil seal", Designation: "A", Probability: 0.6})
	last := b.say(&PartIdentified{Part: "cover", What: "oil seal", Designation: "B", Probability: 0.97, Equivalents: []string{"C"}})
	if got := Fold(b.entries).Part("cover").Identified; got == nil || got.Designation != "B" || got.By != "ada" {
		t.Fatalf("identified as %+v", got)
	}
	b.say(&EntryWithdrawn{Target: last})
	if got := Fold(b.entries).Part("cover").Identified; got == nil || got.Designation != "A" {
		t.Fatalf("after taking it back, identified as %+v", got)
	}
}

// TestJointStates walks a joint through its life.
func TestJointStates(t *testing.T) {
	open, trial, final := &JointOpened{Joint: "big-end.1"}, &JointClosed{Joint: "big-end.1", As: Trial}, &JointClosed{Joint: "big-end.1", As: Final}
	look := &ReadingTaken{Check: "side-play.1", Amount: mm(0.1)}
	rows := []struct {
		name         string
		say          []Body
		state        State
		opened, made int
		checkVersion int
		current      int // readings of the made check that still count
		asks         []string
	}{
		{"as it came", nil, AsMade, 0, 0, 0, 0, nil},
		{"opened", []Body{open}, Open, 1, 0, 0, 0, nil},
		{"on trial, apart again, final", []Body{open, trial, open, final}, Closed, 2, 1, 0, 0, nil},
		{"trial may go on to final", []Body{open, trial, final}, Closed, 1, 1, 0, 0, nil},
		{"read on trial and taken apart, it still counts", []Body{open, trial, look, open}, Open, 2, 0, 0, 1, nil},
		{"final, read, opened again: read again", []Body{open, final, look, open}, Open, 2, 1, 1, 0, nil},
		{"closed twice", []Body{open, final, final}, Closed, 1, 1, 0, 0, []string{"was not open"}},
		{"closed but never opened", []Body{final}, AsMade, 0, 0, 0, 0, []string{"was not open"}},
		{"closed in a way nobody knows", []Body{open, &JointClosed{Joint: "big-end.1", As: "halfway"}}, Open, 1, 0, 0, 0, []string{"on trial or final"}},
		{"opened twice", []Body{open, open}, Open, 2, 0, 0, 0, []string{"was already open"}},
	}
	for _, r := range rows {
		b := engine()
		if len(r.say) > 0 {
			b.say(r.say...)
		}
		m := Fold(b.entries)
		questions(t, m, r.asks...)
		j, c := m.Joint("big-end.1"), m.Check("side-play.1")
		if j.State != r.state || j.Opened != r.opened || j.Made != r.made || c.Version != r.checkVersion || len(c.Current()) != r.current {
			t.Errorf("%s: state %q, opened %d, made %d, check version %d with %d readings; want %q, %d, %d, %d, %d",
				r.name, j.State, j.Opened, j.Made, c.Version, len(c.Current()), r.state, r.opened, r.made, r.checkVersion, r.current)
		}
		if other := m.Joint("big-end.2"); other.State != AsMade || m.Check("side-play.2").Version != 0 {
			t.Errorf("%s: cylinder 2 was touched", r.name)
		}
	}
}

func TestJointLeft(t *testing.T) {
	b := engine()
	b.say(&JointLeft{Joint: "big-end.1"})
	if m := Fold(b.entries); m.Joint("big-end.1").Left != "no reason given" {
		t.Errorf("left: %q", m.Joint("big-end.1").Left)
	}
	b.say(&JointOpened{Joint: "big-end.1"})
	if m := Fold(b.entries); m.Joint("big-end.1").Left != "" {
		t.Error("opened after all, and still left")
	}
	b.say(&JointLeft{Joint: "big-end.1", Why: "tired"})
	m := Fold(b.entries)
	questions(t, m, "it has been opened")
	if m.Joint("big-end.1").Left != "" {
		t.Error("left although open")
	}
}

// TestReach: what was seen in the way counts beside what the kit says; only
// the kit's word can be denied.
func TestReach(t *testing.T) {
	b := engine()
	b.say(&InTheWay{Joint: "big-end.2", Any: [][]JointID{{"cover-bolts", "big-end.1"}, {"big-end.2"}, {"x"}}})
	m := Fold(b.entries)
	questions(t, m, "in its own way", `"x" is not on the machine`)
	if got := m.Joint("big-end.2").Reach[1]; fmt.Sprint(got.Any) != "[[cover-bolts big-end.1]]" || got.Evidence != Observed {
		t.Errorf("seen in the way: %+v", got)
	}
	b.say(&ReachDenied{Joint: "big-end.2", Blocker: "cover-bolts"}, &ReachDenied{Joint: "seat.in-1", Blocker: "big-end"}, &ReachDenied{Joint: "seat.in-1", Blocker: "big-end.1"})
	m = Fold(b.entries)
	if got := m.Joint("big-end.2").Reach; len(got) != 1 || got[0].Evidence != Observed {
		t.Errorf("after denying the kit: %+v", got)
	}
	if got := fmt.Sprint(m.Joint("seat.in-1").Reach[0].Any); got != "[[cover-bolts] [cover-bolts]]" {
		t.Errorf("one of two denied: %s", got)
	}
	if got := fmt.Sprint(m.Joint("seat.in-2").Reach[0].Any); got != "[[big-end.2 cover-bolts] [cover-bolts]]" {
		t.Errorf("another place was touched: %s", got)
	}
	questions(t, m, "in its own way", `"x" is not on the machine`, "nothing to take out")
}

// TestLifeGates: a hold that guards life is not passed by anybody's word.
func TestLifeGates(t *testing.T) {
	b := engine()
	b.say(&HoldPassed{Joint: "cover-bolts", Check: "stop-zero", Initials: "A", Why: "late"}, &HoldPassed{Joint: "cover-bolts", Check: "bore-wear.1", Initials: "A", Why: "known"})
	m := Fold(b.entries)
	questions(t, m, "guards life")
	if got := m.Joint("cover-bolts").Passed; len(got) != 1 || got[0].Check != "bore-wear.1" {
		t.Errorf("passed: %+v", got)
	}
	if len(m.Events) != 1 {
		t.Errorf("%d events; the hold that was not passed must not be one", len(m.Events))
	}
	b.say(&JointAdded{ID: "guard", Name: "PTO guard", Parts: []PartID{"block"}, Life: true}, &HoldPassed{Joint: "guard", Check: "bore-wear.1", Why: "in a hurry"})
	m = Fold(b.entries)
	questions(t, m, "guards life", "guards life")
	if len(m.Joint("guard").Passed) != 0 {
		t.Error("a joint that guards life was passed")
	}
}

// TestTrays: what came off lies where it was put, till it goes back.
func TestTrays(t *testing.T) {
	b := engine()
	b.say(&JointOpened{Joint: "cover-bolts", Tray: "10", Off: []PartID{"cover"}, Fasteners: []Fastener{{Size: "M8x1.25x30", Count: 8}}},
		&JointOpened{Joint: "big-end.1", Tray: "9", Off: []PartID{"rod.1"}}, &JointOpened{Joint: "seat.in-1", Off: []PartID{"valve.in-1"}})
	m := Fold(b.entries)
	questions(t, m)
	if got := ids(m.Trays, func(t Tray) string {
		return fmt.Sprintf("%s:%s+%d", t.Mark, ids(t.Parts, partID), len(t.Fasteners))
	}); got != "9:rod.1+0 10:cover+1 no tray:valve.in-1+0" {
		t.Errorf("trays: %s", got)
	}
	b.say(&JointClosed{Joint: "cover-bolts", As: Final}, &PartMoved{Part: "rod.1", Tray: "shelf"})
	m = Fold(b.entries)
	if got := ids(m.Trays, func(t Tray) string { return t.Mark }); got != "shelf no tray" {
		t.Errorf("trays later: %s", got)
	}
}

// TestLimits: the best provenance first, whatever the order of telling.
func TestLimits(t *testing.T) {
	b := engine()
	b.say(&LimitSet{Check: "bore-wear", Limit: Limit{High: "80.2", From: OwnDecision}}, &LimitSet{Check: "bore-wear.2", Limit: Limit{High: "80.15", From: Paperwork}})
	m := Fold(b.entries)
	questions(t, m)
	from := func(l Limit) string { return string(l.From) }
	if got := ids(m.Check("bore-wear.1").Limits, from); got != "common practice own decision" {
		t.Errorf("cylinder 1: %s", got)
	}
	if got := ids(m.Check("bore-wear.2").Limits, from); got != "paperwork common practice own decision" {
		t.Errorf("cylinder 2: %s", got)
	}
}

// TestNominals: a better provenance is not displaced by a worse one.
func TestNominals(t *testing.T) {
	b := engine()
	set := func(v float64, from Provenance) Body {
		return &NominalSet{Feature: "liner.1/bore", Amount: mm(v), From: from}
	}
	b.say(set(80, Handbook), set(81, OwnDecision), set(80.01, Handbook))
	if got := Fold(b.entries).Feature("liner.1/bore").Nominal; got.MM != 80.01 {
		t.Errorf("of two as good the later counts: %+v", got)
	}
	b.say(set(80.5, Paperwork), set(82, Unworn))
	if got := Fold(b.entries).Feature("liner.1/bore").Nominal; got.MM != 80.5 || got.From != Paperwork {
		t.Errorf("nominal: %+v", got)
	}
}

// TestSettings: a reading leans on the latest reading of its setting piece with
// its tool; a correction of the setting speaks in the old one's place.
func TestSettings(t *testing.T) {
	b := engine()
	read := func(tool, setting string) Body {
		r := bore("1", 80)
		r.Tool, r.Setting = tool, setting
		return r
	}
	set := func(tool string, read float64) Body {
		return &SettingTaken{Tool: tool, Setting: "ring 80", Nominal: mm(80), Read: mm(read)}
	}
	b.say(read("gauge", "ring 80"))
	slip := b.say(set("gauge", 80.2))
	b.say(read("gauge", "ring 80"), read("gauge", ""), read("gauge", "ring 50"), read("other", "ring 80"),
		set("gauge", 80.004), set("", 80), set("gauge", 0), read("gauge", "ring 80"))
	b.correct(slip, set("gauge", 80.002))
	m := Fold(b.entries)
	questions(t, m, "not which piece or with what", "which is no size")
	if len(m.Settings) != 2 {
		t.Fatalf("%d settings kept, want 2", len(m.Settings))
	}
	for i, want := range []float64{0, 80.002, 0, 0, 0, 80.004} {
		got := 0.0
		if s := m.Feature("liner.1/bore").Readings[i].Set; s != nil {
			got = s.Read.Value
		}
		if got != want {
			t.Errorf("reading %d leans on %g, want %g", i, got, want)
		}
	}
}

// TestInstruments: the latest word on an instrument counts, and one without
// figures is asked about.
func TestInstruments(t *testing.T) {
	b := engine()
	b.say(&InstrumentSet{Instrument{ID: "micrometer", Name: "Micrometer", Unit: "mm", Step: 0.001}},
		&InstrumentSet{Instrument{ID: "gauge", Name: "Gauge", Unit: "mm", Step: 0.01}},
		&InstrumentSet{Instrument{ID: "micrometer", Name: "Micrometer, certified", Unit: "mm", Step: 0.001, HalfWidth: 0.001}},
		&InstrumentSet{Instrument{ID: "bad", Unit: "mm", Step: -1}}, &InstrumentSet{Instrument{ID: "none", Step: 1}})
	m := Fold(b.entries)
	questions(t, m, `instrument "bad" has a figure that is none`, "the unit it measures in")
	if len(m.Tools) != 2 || m.Tools[0].Name != "Micrometer, certified" || m.Tools[1].ID != "gauge" {
		t.Errorf("%+v", m.Tools)
	}
}

// TestStack: a stack knows its surfaces, is opened again by their rework, and
// asks for one that is not there.
func TestStack(t *testing.T) {
	b := engine()
	b.say(&CheckAdded{ID: "sum", Name: "Sum", Places: "cylinder", Parts: []PartID{"rod"}, When: Apart, By: ByStack, Unit: "mm",
		Terms: []Term{{Feature: "liner/bore", Times: 2}, {Feature: "liner/bore", Times: -1}, {Feature: "rod/length", Times: 1}}})
	b.say(&RemedyDone{Check: "bore-wear.2", Key: "rebore", Reworked: []FeatureID{"liner.2/bore"}})
	m := Fold(b.entries)
	questions(t, m, `feature "rod/length" is not on the machine`, `feature "rod/length" is not on the machine`)
	c := m.Check("sum.2")
	if len(c.Terms) != 3 || c.Terms[0].Times != 2 || c.Terms[2].Feature != nil {
		t.Errorf("%+v", c.Terms)
	}
	if s := c.Surfaces(); len(s) != 1 || s[0].ID != "liner.2/bore" {
		t.Errorf("%v", s)
	}
	if c.Version != 1 || m.Check("sum.1").Version != 0 {
		t.Errorf("versions %d and %d, want 1 and 0", c.Version, m.Check("sum.1").Version)
	}
}

func TestOrders(t *testing.T) {
	b := engine()
	b.say(&Ordered{Order: "o1", What: "regrind", Parts: []PartID{"rod.1", "rod.2"}, Out: true, Due: noon}, &Promised{Order: "o1", Due: noon.AddDate(0, 0, 3)})
	m := Fold(b.entries)
	if o := m.Order("o1"); !o.DueBy().Equal(noon.AddDate(0, 0, 3)) || m.Part("rod.1").Away != "o1" || o.Received != nil {
		t.Errorf("out: %+v", o)
	}
	b.say(&Ordered{Order: "o1", What: "again"}, &Ordered{Order: "o2", What: "chrome", Parts: []PartID{"rod.2"}, Out: true}, &Received{Order: "o1"})
	m = Fold(b.entries)
	questions(t, m, "already in the book")
	if m.Part("rod.1").Away != "" || m.Part("rod.2").Away != "o2" || m.Order("o1").Received == nil {
		t.Errorf("received: rod.1 at %q, rod.2 at %q", m.Part("rod.1").Away, m.Part("rod.2").Away)
	}
}

// TestEmpty: no log at all is a machine too.
func TestEmpty(t *testing.T) {
	for name, entries := range map[string][]Entry{"none": nil, "one that is zero": {{}}, "two that are zero": {{}, {}}} {
		m := Fold(entries)
		if m == nil || m.Entries != len(entries) || len(m.Questions) != len(entries) {
			t.Errorf("%s: %+v", name, m)
		}
		if m.Part("x") != nil || m.Joint("x") != nil || m.Check("x") != nil || m.Feature("x") != nil || m.Test("x") != nil || m.Order("x") != nil || m.Datum("x") != nil {
			t.Errorf("%s: something is there", name)
		}
	}
}

// TestData: the first name stays, the latest value counts.
func TestData(t *testing.T) {
	twelve, eleven := 12.0, 11.8
	b := engine()
	b.say(&DatumSet{Datum{ID: "volts", Name: "System", Unit: "V"}}, &DatumSet{Datum{ID: "other", Name: "Other"}},
		&DatumSet{Datum{ID: "volts", Name: "renamed", Value: &twelve, From: CommonPractice}}, &DatumSet{Datum{ID: "volts", Value: &eleven, From: OwnDecision}}, &DatumSet{Datum{ID: "volts"}})
	m := Fold(b.entries)
	want := Datum{ID: "volts", Name: "System", Unit: "V", Value: &eleven, From: OwnDecision}
	if diff := cmp.Diff(want, *m.Datum("volts")); diff != "" || &m.Data[0] != m.Datum("volts") {
		t.Errorf("datum (-want +got):\n%s", diff)
	}
}

// TestReopeningKeepsWhatWasReadApart: only what is read on the closed joint
// must be read again.
func TestReopeningKeepsWhatWasReadApart(t *testing.T) {
	b := engine()
	b.say(&CheckAdded{ID: "crack", Name: "No crack", Assembly: "engine", Joints: []JointID{"cover-bolts"}, When: Apart, By: ByEye},
		&JointOpened{Joint: "cover-bolts"}, &LookTaken{Check: "crack", OK: true}, &JointClosed{Joint: "cover-bolts", As: Final}, &JointOpened{Joint: "cover-bolts"})
	m := Fold(b.entries)
	questions(t, m)
	if m.Check("crack").Look() == nil {
		t.Error("a look taken apart was lost by opening again")
	}
}
