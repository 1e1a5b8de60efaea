package machine

import (
	"encoding/json"
	"fmt"
	"reflect"
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"
	"github.com/google/go-cmp/cmp/cmpopts"
	"pgregory.net/rapid"
)

// fill draws a value for every field of a body. Only what JSON can carry is
// drawn: no infinity, whole microseconds, no minus zero.
func fill(t *rapid.T, v reflect.Value, name string) {
	if v.Type() == reflect.TypeFor[time.Time]() {
		v.Set(reflect.ValueOf(time.UnixMicro(rapid.Int64Range(0, 4e15).Draw(t, name)).UTC()))
		return
	}
	switch v.Kind() {
	case reflect.String:
		v.SetString(rapid.String().Draw(t, name))
	case reflect.Bool:
		v.SetBool(rapid.Bool().Draw(t, name))
	case reflect.Int, reflect.Int64:
		v.SetInt(rapid.Int64().Draw(t, name))
	case reflect.Float64:
		if x := rapid.Float64().Draw(t, name); x != 0 {
			v.SetFloat(x)
		}
	case reflect.Pointer:
		if rapid.Bool().Draw(t, name+" is there") {
			v.Set(reflect.New(v.Type().Elem()))
			fill(t, v.Elem(), name)
		}
	case reflect.Struct:
		for i := range v.NumField() {
			fill(t, v.Field(i), name+"."+v.Type().Field(i).Name)
		}
	case reflect.Slice:
		n := rapid.IntRange(0, 3).Draw(t, name+" length")
		v.Set(reflect.MakeSlice(v.Type(), n, n))
		for i := range n {
			fill(t, v.Index(i), name)
		}
	case reflect.Map:
		v.Set(reflect.MakeMap(v.Type()))
		for range rapid.IntRange(0, 3).Draw(t, name+" length") {
			key, value := reflect.New(v.Type().Key()).Elem(), reflect.New(v.Type().Elem()).Elem()
			fill(t, key, name)
			fill(t, value, name)
			v.SetMapIndex(key, value)
		}
	default:
		t.Fatalf("a body holds a %s, which this test cannot fill", v.Kind())
	}
}

// anyBody draws a body of any kind with anything in it.
func anyBody(t *rapid.T) Body {
	b := newBody(rapid.SampledFrom(Bodies()).Draw(t, "kind").Kind())
	fill(t, reflect.ValueOf(b).Elem(), string(b.Kind()))
	return b
}

// TestReadPrintRead: every kind comes back from its JSON as it was.
func TestReadPrintRead(t *testing.T) {
	seen := map[Kind]bool{}
	rapid.Check(t, func(t *rapid.T) {
		e := Entry{ID: "e", At: noon, By: "b", Device: "d", Version: 1, Body: anyBody(t), Supersedes: EntryID(rapid.SampledFrom([]string{"", "x"}).Draw(t, "supersedes"))}
		seen[e.Kind()] = true
		text, err := json.Marshal(e)
		if err != nil {
			t.Fatal(err)
		}
		back := Decode(text)
		if diff := cmp.Diff(e, back, cmpopts.EquateEmpty()); diff != "" {
			t.Fatalf("%s (-said +read):\n%s", e.Kind(), diff)
		}
		again, err := json.Marshal(back)
		if err != nil || Decode(again).Kind() != e.Kind() {
			t.Fatalf("%s: %v", again, err)
		}
	})
	t.Logf("%d of %d kinds drawn", len(seen), len(Bodies()))
}

// shuffled is a drawn permutation of entries.
func shuffled(t *rapid.T, entries []Entry) []Entry {
	return rapid.Permutation(entries).Draw(t, "order")
}

// pick draws an id: of an instance, of a type, or of nothing.
func pick[T ~string](t *rapid.T, name string, some ...T) T {
	return rapid.SampledFrom(append(some, "nothing", "")).Draw(t, name)
}

// knownIDs draws ids of entries of the drawn log, some of them of readings.
func knownIDs(t *rapid.T) []EntryID {
	return rapid.SliceOfN(rapid.Custom(func(t *rapid.T) EntryID {
		return EntryID(fmt.Sprintf("x%d", rapid.IntRange(0, 12).Draw(t, "known")))
	}), 0, 4).Draw(t, "seen")
}

// benchFact draws a fact about the small engine, mostly one that fits.
func benchFact(t *rapid.T) Body {
	joint := pick[JointID](t, "joint", "cover-bolts", "big-end.1", "big-end.2", "seat.in-1", "big-end")
	part := pick[PartID](t, "part", "cover", "liner.1", "liner.2", "rod.1", "liner")
	check := pick[CheckID](t, "check", "bore-wear.1", "side-play.1", "leak.in-1", "stop-zero", "leak")
	tray, order := pick(t, "tray", "1", "2"), pick[OrderID](t, "order", "o1", "o2")
	size := mm(float64(rapid.IntRange(1, 9).Draw(t, "size")))
	return rapid.SampledFrom([]Body{
		&JointOpened{Joint: joint, Tray: tray, Off: []PartID{part}, Photos: []Sum{"00"}},
		&JointClosed{Joint: joint, As: Trial}, &JointClosed{Joint: joint, As: Final}, &JointClosed{Joint: joint, As: "x"},
		&JointLeft{Joint: joint}, &InTheWay{Joint: joint, Any: [][]JointID{{"cover-bolts", joint}, {"big-end.2"}}},
		&ReachDenied{Joint: joint, Blocker: "cover-bolts"}, &OrderStated{First: joint, Then: "big-end.2"},
		&AsFoundTaken{Joint: joint, What: "torque", Value: &size}, &HoldPassed{Joint: joint, Check: check, Why: "x"},
		&PartMoved{Part: part, Tray: tray}, &TrayMade{Mark: tray, Name: string(part)},
		&Surveyed{Assembly: pick[AssemblyID](t, "assembly", "engine", "none"), Condition: Seized, Words: tray}, &PartCounted{Part: part, Found: 2}, &PartCleaned{Part: part, Method: "brush"},
		&CallMade{Part: part, Call: Renew}, &PartIdentified{Part: part, What: "ball bearing", Designation: "6205", Probability: 0.9}, &PhotoAdded{Of: RefPart(part), Sum: "01"}, &Noted{Of: RefJoint(joint), Text: tray},
		&ReadingTaken{Feature: FeatureOf(part, "bore"), Level: "top", Amount: size}, &ReadingTaken{Check: check, Amount: size},
		&ReadingTaken{Feature: FeatureOf(part, "bore"), Level: "top", Amount: size, Seen: []EntryID{}}, &ReadingTaken{Feature: FeatureOf(part, "bore"), Level: "top", Amount: size, Seen: knownIDs(t)},
		&ReadingTaken{Check: check, Amount: size, Seen: knownIDs(t)}, &ReadingsAgreed{Readings: knownIDs(t)}, &SoundAdded{Of: RefPart(part), Sum: "02", Type: "audio/wav", Seconds: 3},
		&SettingTaken{Tool: tray, Setting: "ring", Nominal: size, Read: size}, &ReadingTaken{Check: check, Amount: size, Tool: tray, Setting: "ring"},
		&LookTaken{Check: check, OK: true}, &NominalSet{Feature: FeatureOf(part, "bore"), Amount: size, From: Handbook},
		&LimitSet{Check: check, Limit: Limit{High: tray, From: Paperwork}}, &RemedyChosen{Check: check, Key: "rebore"},
		&RemedyDone{Check: check, Key: "rebore", Renewed: []PartID{part}, Reworked: []FeatureID{FeatureOf(part, "bore")}, Opens: []CheckID{check}},
		&Ordered{Order: order, Parts: []PartID{part}, Out: true}, &Promised{Order: order, Due: noon}, &Received{Order: order}, &TestRun{Test: "turn-over", Passed: true},
		&PartAdded{ID: "cover", Name: "Second " + tray}, &JointAdded{ID: "seat", Name: "Second " + tray, Parts: []PartID{part}},
		&PlacesSet{Places{Family: "valve", Labels: []Place{Place(tray)}}}, &MachineNamed{Name: tray}, &DatumSet{Datum{ID: tray, Name: string(part)}}, &InstrumentSet{Instrument{ID: tray, Unit: "mm", Step: size.Value}},
	}).Draw(t, "fact")
}

// anyLog draws a log about the small engine: times that collide, ids that
// repeat, entries that undo earlier, later and missing ones.
func anyLog(t *rapid.T) []Entry {
	log := engine().entries
	for i := range rapid.IntRange(0, 40).Draw(t, "length") {
		id := func(name string) EntryID {
			return EntryID(fmt.Sprintf("x%d", rapid.IntRange(0, 45).Draw(t, name)))
		}
		e := Entry{ID: EntryID(fmt.Sprintf("x%d", i)), At: noon.Add(time.Duration(rapid.IntRange(0, 30).Draw(t, "minute")) * time.Minute), By: "ada", Version: 1}
		switch rapid.IntRange(0, 9).Draw(t, "sort") {
		case 0:
			e.Body = &EntryWithdrawn{Target: id("withdraws")}
		case 1:
			e.Body, e.Supersedes = benchFact(t), id("supersedes")
		case 2:
			e.Body, e.Supersedes = &EntryWithdrawn{Target: id("withdraws")}, id("supersedes")
		case 3:
			e.Body, e.ID = benchFact(t), rapid.SampledFrom([]EntryID{"", id("id again")}).Draw(t, "id")
		case 4:
			e.Body = &Unreadable{Was: "new-kind", Raw: json.RawMessage(`{"a":1}`), Why: "not known"}
		default:
			e.Body = benchFact(t)
		}
		log = append(log, e)
	}
	return log
}
