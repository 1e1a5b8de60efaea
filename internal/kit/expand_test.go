package kit

import (
	"errors"
	"fmt"
	"reflect"
	"slices"
	"strings"
	"testing"
	"time"

	"matchmark/internal/machine"
)

// entries puts expanded bodies into a log.
func entries(bodies []machine.Body) []machine.Entry {
	out := make([]machine.Entry, len(bodies))
	for i, b := range bodies {
		out[i] = machine.Entry{ID: machine.EntryID(fmt.Sprintf("e%06d", i)), At: time.Date(2001, 2, 3, 4, 5, 6, 0, time.UTC), Body: b}
	}
	return out
}

// fold expands and folds, and wants no question.
func fold(t testing.TB, sheets []*Sheet, take Taking) *machine.Machine {
	t.Helper()
	bodies, _, err := Expand(sheets, take)
	if err != nil {
		t.Fatal(err)
	}
	m := machine.Fold(entries(bodies))
	for i, q := range m.Questions {
		if i < 10 {
			t.Errorf("question: %s %s", q.About, q.Text)
		}
	}
	return m
}

// sheet reads a kit text that has no faults of reading.
func sheet(t testing.TB, name, text string) *Sheet {
	t.Helper()
	s, faults := Read(name, []byte(text))
	if len(faults) > 0 {
		t.Fatal(faults)
	}
	return s
}

const engineKit = `
[kit]
id = "engine"
title = "Engine"
edition = "1"
[[count]]
id = "cylinders"
ask = "How many?"
default = 3
least = 2
most = 4
[[choice]]
id = "liners"
ask = "Which?"
answers = ["dry", "wet", "none"]
default = "dry"
[[places]]
family = "cylinder"
name = "cylinder"
count = "cylinders"
[[places]]
family = "valve"
name = "valve"
under = "cylinder"
each = ["in", "ex"]
[[places]]
family = "main"
name = "main"
count = "cylinders + 1"
[[assembly]]
id = "block"
name = "Block"
system = "engine"
strip_hours = [1, 2, 3]
[[part]]
id = "block"
name = "Block"
assembly = "block"
[[part]]
id = "liner"
name = "Liner"
assembly = "block"
places = "cylinder"
only = "liners=dry|wet"
[[part.feature]]
id = "bore"
name = "bore"
sort = "bore"
axes = ["along", "across"]
[[part]]
id = "o-ring"
name = "O-ring"
assembly = "block"
places = "cylinder"
qty = "2"
only = "liners=wet"
[[part]]
id = "valve"
name = "Valve"
assembly = "block"
places = "valve"
[[part]]
id = "stud"
name = "Stud"
assembly = "block"
qty = "4*cylinders + 2"
[[part]]
id = "head"
name = "Head"
assembly = "block"
[[joint]]
id = "head-on-block"
name = "Head to block"
assembly = "block"
sort = "bolted"
parts = ["head", "block", "stud"]
[[joint]]
id = "liner-in-block"
name = "Liner in block"
assembly = "block"
sort = "press"
places = "cylinder"
parts = ["liner", "o-ring", "block"]
behind = ["head-on-block"]
only = "liners=dry|wet"
[[joint]]
id = "valve-in-head"
name = "Valve in head"
assembly = "block"
sort = "slip"
places = "valve"
parts = ["valve", "head"]
behind = ["head-on-block"]
or_behind = [["liner-in-block"]]
[[check]]
id = "bore-oval"
name = "Bore oval"
assembly = "block"
places = "cylinder"
parts = ["liner"]
when = "apart"
by = "oval"
outer = "liner/bore"
unit = "mm"
[check.size]
symbol = "D"
feature = "liner/bore"
meaning = "bore"
[[check.limit]]
high = "0.001*D"
from = "common practice"
[[check.remedy]]
key = "new-liner"
name = "New liner"
where = "buy"
renews = ["liner", "o-ring"]
opens = ["bore-oval"]
[[check.remedy]]
key = "new-o-ring"
name = "New O-ring"
where = "buy"
renews = ["o-ring"]
[[test]]
id = "first"
name = "First"
system = "engine"
do = "look"
pass = "dry"
from = "common practice"
[[test]]
id = "wet-only"
name = "Wet"
system = "engine"
needs = ["first"]
do = "look"
pass = "dry"
from = "common practice"
only = "liners=wet"
[[test]]
id = "last"
name = "Last"
system = "engine"
needs = ["wet-only"]
do = "look"
pass = "dry"
points_to = ["bore-oval", "head-on-block", "o-ring"]
from = "common practice"
[[cleaning]]
id = "rubber"
for = ["o-ring"]
permitted = ["soap"]
[[symptom]]
id = "weeps"
text = "It weeps"
[[symptom.suspect]]
of = "o-ring"
weight = 1
`

const pumpKit = `
[kit]
id = "pump"
title = "Pump"
edition = "1"
uses = ["engine"]
[[assembly]]
id = "pump"
name = "Pump"
system = "cooling"
[[part]]
id = "pump"
name = "Pump"
assembly = "pump"
[[part]]
id = "jet"
name = "Jet"
assembly = "pump"
places = "cylinder"
qty = "cylinders"
only = "liners=wet"
[[part]]
id = "plug"
name = "Plug"
assembly = "pump"
[[joint]]
id = "pump-on-block"
name = "Pump to block"
assembly = "pump"
sort = "bolted"
parts = ["pump", "block"]
behind = ["head-on-block"]
[[joint]]
id = "jet-in-pump"
name = "Jet in pump"
assembly = "pump"
sort = "threaded"
places = "cylinder"
parts = ["jet", "pump"]
behind = ["pump-on-block"]
only = "liners=wet"
[[joint]]
id = "plug-in-block"
name = "Plug in block"
assembly = "pump"
sort = "threaded"
parts = ["plug"]
only = "liners=wet"
[[check]]
id = "block-face"
name = "Face of the block"
assembly = "pump"
parts = ["block"]
when = "apart"
by = "eye"
[[check.limit]]
sound_words = "flat"
from = "common practice"
`

func TestSmallKitsAreWithoutFault(t *testing.T) {
	if faults := Inspect(sheet(t, "engine.toml", engineKit), sheet(t, "pump.toml", pumpKit)); len(faults) > 0 {
		t.Fatal(faults)
	}
}

func TestCountsAndChoicesShapeTheMachine(t *testing.T) {
	s := sheet(t, "engine.toml", engineKit)
	for _, c := range []struct {
		cylinders                              int
		liners                                 string
		parts, joints, checks, tests, cleaning int
	}{
		{3, "dry", 3 + 3 + 6, 1 + 3 + 6, 3, 2, 0},
		{3, "wet", 3 + 3 + 3 + 6, 1 + 3 + 6, 3, 3, 1},
		{2, "wet", 3 + 2 + 2 + 4, 1 + 2 + 4, 2, 3, 1},
		{4, "none", 3 + 8, 1 + 8, 0, 2, 0},
	} {
		m := fold(t, []*Sheet{s}, Taking{map[string]map[string]int{"engine": {"cylinders": c.cylinders}}, map[string]map[string]string{"engine": {"liners": c.liners}}})
		got := []int{len(m.Parts), len(m.Joints), len(m.Checks), len(m.Tests), len(m.Cleaning)}
		want := []int{c.parts, c.joints, c.checks, c.tests, c.cleaning}
		if !slices.Equal(got, want) {
			t.Errorf("%d cylinders, %s: parts, joints, checks, tests, cleaning %v, want %v", c.cylinders, c.liners, got, want)
		}
		if n := m.Part("stud").Qty; n != 4*c.cylinders+2 {
			t.Errorf("%d cylinders: %d studs", c.cylinders, n)
		}
		if p := m.Part("valve.ex-2"); p == nil || p.Name != "Valve, valve ex-2" {
			t.Errorf("valve.ex-2 is %v", p)
		}
	}
}

func TestReachHasItsAlternatives(t *testing.T) {
	s := sheet(t, "engine.toml", engineKit)
	m := fold(t, []*Sheet{s}, Taking{})
	want := [][]machine.JointID{{"head-on-block"}, {"liner-in-block.2"}}
	if got := m.Joint("valve-in-head.ex-2").Reach[0].Any; !reflect.DeepEqual(got, want) {
		t.Errorf("reach %v, want %v", got, want)
	}
	// Without liners the second way has nothing in it: nothing is in the way.
	m = fold(t, []*Sheet{s}, Taking{Choices: map[string]map[string]string{"engine": {"liners": "none"}}})
	if got := m.Joint("valve-in-head.ex-2").Reach; len(got) != 0 {
		t.Errorf("reach %v, want none", got)
	}
}

func TestWhatIsLeftOutIsNotNamed(t *testing.T) {
	s := sheet(t, "engine.toml", engineKit)
	m := fold(t, []*Sheet{s}, Taking{})
	if r := m.Check("bore-oval.1").Remedies; len(r) != 1 || r[0].Key != "new-liner" || len(r[0].Renews) != 1 {
		t.Errorf("remedies with dry liners: %v", r)
	}
	if last := m.Test("last"); !slices.Equal(last.Needs, []machine.TestID{"first"}) {
		t.Errorf("the last test needs %v, want what the one left out needed", last.Needs)
	}
	if got := m.Test("last").Points; !slices.Equal(got, []machine.Ref{"check:bore-oval", "joint:head-on-block"}) {
		t.Errorf("points to %v", got)
	}
	if len(m.Symptoms) != 0 {
		t.Error("a symptom whose one suspect is left out is still there")
	}
}

func TestNotesOfAKitTakenAlone(t *testing.T) {
	s := sheet(t, "pump.toml", pumpKit)
	fold(t, []*Sheet{s}, Taking{})
	_, notes, err := Expand([]*Sheet{s}, Taking{})
	if err != nil {
		t.Fatal(err)
	}
	for _, want := range []Note{
		{"pump", `part "jet"`, `left out: it depends on choice "liners", whose kit is not taken`},
		{"pump", `joint "pump-on-block"`, `only pump of its parts is on the machine; add what it is joined to, or withdraw it`},
		{"pump", `part "plug"`, `no joint of it is on the machine, so a left-over piece would not be noticed; add the joint it goes back with`},
		{"pump", `check "block-face"`, `left out: nothing it hangs on is on the machine`},
	} {
		if !slices.Contains(notes, want) {
			t.Errorf("no note %v among %v", want, notes)
		}
	}
}

func TestBodiesComeInOrder(t *testing.T) {
	sheets := []*Sheet{sheet(t, "engine.toml", engineKit), sheet(t, "pump.toml", pumpKit)}
	bodies, notes, err := Expand(sheets, Taking{Choices: map[string]map[string]string{"engine": {"liners": "wet"}}})
	if err != nil || len(notes) > 0 {
		t.Fatal(err, notes)
	}
	order := map[machine.Kind]int{}
	for i, b := range machine.Bodies() {
		order[b.Kind()] = i
	}
	for i := 1; i < len(bodies); i++ {
		if order[bodies[i].Kind()] < order[bodies[i-1].Kind()] {
			t.Fatalf("%s comes after %s", bodies[i].Kind(), bodies[i-1].Kind())
		}
	}
	m := fold(t, sheets, Taking{Choices: map[string]map[string]string{"engine": {"liners": "wet"}}})
	if p := m.Part("jet.3"); p == nil || p.Qty != 3 {
		t.Errorf("jet.3 is %v; a kit may name the counts of a kit it uses", p)
	}
	again, _, _ := Expand(sheets, Taking{Choices: map[string]map[string]string{"engine": {"liners": "wet"}}})
	if !reflect.DeepEqual(bodies, again) {
		t.Error("the same taking gave other bodies")
	}
}

func TestTakingIsRefusedInWords(t *testing.T) {
	s := sheet(t, "engine.toml", engineKit)
	for _, c := range []struct {
		take Taking
		want string
	}{
		{Taking{Counts: map[string]map[string]int{"engine": {"cylinders": 9}}}, `kit "engine", count "cylinders": 9 was given; it goes from 2 to 4`},
		{Taking{Counts: map[string]map[string]int{"engine": {"cylinder": 3}}}, `kit "engine", count "cylinder": the kit asks for no such count; did you mean "cylinders"? If not, leave it out`},
		{Taking{Choices: map[string]map[string]string{"engine": {"liners": "damp"}}}, `kit "engine", choice "liners": "damp" was given; write dry, wet or none`},
		{Taking{Choices: map[string]map[string]string{"engine": {"heads": "one"}}}, `kit "engine", choice "heads": the kit asks for no such choice; leave it out`},
		{Taking{Counts: map[string]map[string]int{"axle": {"hubs": 2}}}, `kit "axle", the kit: counts are given for it, but it is not among the kits taken`},
		{Taking{Choices: map[string]map[string]string{"axle": {"hubs": "two"}}}, `kit "axle", the kit: choices are given for it, but it is not among the kits taken`},
	} {
		_, _, err := Expand([]*Sheet{s}, c.take)
		var refused TakingError
		if !errors.As(err, &refused) || err.Error() != c.want {
			t.Errorf("%v: %v\nwant %s", c.take, err, c.want)
		}
	}
	if _, _, err := Expand([]*Sheet{s, s}, Taking{}); err == nil || !strings.Contains(err.Error(), "taken twice") {
		t.Errorf("the same kit twice: %v", err)
	}
}

func TestAFamilyOfTwoKitsMustComeOutAlike(t *testing.T) {
	a := "[kit]\nid=\"a\"\n[[count]]\nid=\"n\"\nleast=1\nmost=9\ndefault=2\n[[places]]\nfamily=\"side\"\nname=\"side\"\ncount=\"n\"\n"
	b := strings.Replace(a, `id="a"`, `id="b"`, 1)
	sheets := []*Sheet{sheet(t, "a.toml", a), sheet(t, "b.toml", b)}
	m := fold(t, sheets, Taking{})
	if len(m.Places) != 1 {
		t.Errorf("%d families, want the like ones once", len(m.Places))
	}
	_, _, err := Expand(sheets, Taking{Counts: map[string]map[string]int{"b": {"n": 3}}})
	if err == nil || !strings.Contains(err.Error(), `b.toml:8: places "side": these places come out as [1 2 3] here and as [1 2] in another kit; give both the same counts`) {
		t.Errorf("unlike families: %v", err)
	}
}

// TestASurfaceReadAtEveryPlace takes a crankshaft: one piece with a journal
// for each main.
func TestASurfaceReadAtEveryPlace(t *testing.T) {
	crank := `
[[part]]
id = "crank"
name = "Crankshaft"
assembly = "block"
[[part.feature]]
id = "journal"
name = "journal"
sort = "journal"
[[joint]]
id = "crank-in-block"
name = "Crankshaft in block"
assembly = "block"
sort = "plain bearing"
parts = ["crank", "block"]
[[check]]
id = "journal-size"
name = "Main journal"
assembly = "block"
places = "main"
parts = ["crank"]
when = "apart"
by = "size"
outer = "crank/journal"
unit = "mm"
[check.size]
symbol = "d"
feature = "crank/journal"
meaning = "journal"
[[check.limit]]
low = "0.999*d"
from = "common practice"
[[check.remedy]]
key = "grind"
name = "Grind"
where = "machine shop"
reworks = ["crank/journal"]
`
	s := sheet(t, "crank.toml", engineKit+crank)
	if faults := Inspect(s); len(faults) > 0 {
		t.Fatal(faults)
	}
	m := fold(t, []*Sheet{s}, Taking{})
	for _, at := range []string{"1", "4"} {
		c := m.Check(machine.CheckID("journal-size." + at))
		id := machine.FeatureID("crank/journal-" + at)
		if c.Outer == nil || c.Outer.ID != id || c.Size.Feature != id || !slices.Equal(c.Remedies[0].Reworks, []machine.FeatureID{id}) {
			t.Errorf("check at main %s: %v, size %v, reworks %v", at, c.Outer, c.Size, c.Remedies[0].Reworks)
		}
	}
	if f := m.Feature("crank/journal-2"); f.Name != "journal, main 2" || m.Feature("crank/journal") != nil {
		t.Errorf("the journal of main 2 is called %q", f.Name)
	}
	once := strings.Replace(crank, "places = \"main\"\n", "", 1)
	once = strings.Replace(once, "journal-size", "journal-once", 1)
	mixed := Inspect(sheet(t, "mixed.toml", engineKit+crank+once[strings.Index(once, "[[check]]"):]))
	if len(mixed) != 3 || !strings.Contains(mixed[0].Problem, `surface "crank/journal" is read at every main, so it is not told which one is meant`) {
		t.Errorf("a check of the same surface without places: %v", mixed)
	}
}
