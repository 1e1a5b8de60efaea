package judge

import (
	"fmt"
	"reflect"
	"slices"
	"testing"
	"time"

	"matchmark/internal/machine"
	"pgregory.net/rapid"
)

// everyWay is two cylinders whose checks are judged in every way there is.
func everyWay() *log {
	const piston, bore = machine.FeatureID("piston/skirt"), machine.FeatureID("liner/bore")
	size := &machine.SizeSource{Symbol: "D", Feature: bore}
	formula, plain := common(machine.Limit{NewLow: "0.0005*D", High: "0.002*D"}), common(machine.Limit{NewHigh: "0.05", High: "0.15"})
	l := (&log{}).add(&machine.PlacesSet{Places: machine.Places{Family: "cylinder", Name: "cylinder", Labels: []machine.Place{"1", "2"}}},
		&machine.DatumSet{Datum: machine.Datum{ID: "volts", Name: "System volts", Unit: "V"}},
		&machine.PartAdded{ID: "liner", Name: "Liner", Qty: 1, Places: "cylinder", Material: "cast iron"},
		&machine.PartAdded{ID: "piston", Name: "Piston", Qty: 1, Places: "cylinder", Material: "aluminium"},
		&machine.FeatureAdded{Part: "liner", Feature: "bore", Name: "bore", Sort: machine.Bore, Tool: "bore-gauge-ring", Levels: []string{"top", "low"}, Unworn: "above the ring travel"},
		&machine.FeatureAdded{Part: "piston", Feature: "skirt", Name: "skirt", Sort: machine.Shaft})
	for i, by := range []string{machine.BySize, machine.ByWear, machine.ByTaper, machine.ByOval, machine.ByClearance, machine.ByStack, machine.ByReading, machine.ByEye, machine.ByPassage} {
		c := &machine.CheckAdded{ID: machine.CheckID("by-" + by), Name: "By " + by, Places: "cylinder", When: machine.Apart, By: by, Unit: "mm", Parts: []machine.PartID{"liner"},
			Limits: []machine.Limit{plain}, Remedies: []machine.Remedy{{Key: "rebore", Reworks: []machine.FeatureID{bore}}}}
		if i%2 == 0 {
			c.Size, c.Limits = size, []machine.Limit{formula, plain}
		}
		switch by {
		case machine.ByClearance:
			c.Outer, c.Inner, c.Unit = bore, piston, "thou"
		case machine.ByStack:
			c.Terms = []machine.Term{{Feature: bore, Times: 1}, {Feature: piston, Times: -1}}
		case machine.ByReading:
			c.Tool = "feeler"
		default:
			c.Outer = bore
		}
		l.add(c)
	}
	return l.add(&machine.CheckAdded{ID: "charge", Name: "Charge", When: machine.Running, By: machine.ByReading, Unit: "V",
		Size: &machine.SizeSource{Symbol: "U", Datum: "volts"}, Limits: []machine.Limit{common(machine.Limit{Low: "1.1*U"})}})
}

// someFact draws what judging may read.
func someFact(t *rapid.T) machine.Body {
	at := rapid.SampledFrom([]string{".1", ".2"}).Draw(t, "cylinder")
	mm := machine.Amount{Value: 76 + float64(rapid.IntRange(-3, 40).Draw(t, "µm"))/100, Unit: "mm", Step: 0.01}
	bore, skirt := machine.FeatureID("liner"+at+"/bore"), machine.FeatureID("piston"+at+"/skirt")
	check := machine.CheckID(rapid.SampledFrom([]string{"by-reading" + at, "by-wear" + at, "by-eye" + at, "by-passage" + at, "charge"}).Draw(t, "check"))
	reading := &machine.ReadingTaken{Feature: rapid.SampledFrom([]machine.FeatureID{bore, skirt}).Draw(t, "surface"), Amount: mm,
		Level: rapid.SampledFrom([]string{"", "top", "low"}).Draw(t, "level"), Unworn: rapid.IntRange(0, 3).Draw(t, "unworn") == 0,
		Tool: rapid.SampledFrom([]string{"", "micrometer", "own"}).Draw(t, "tool"), Setting: rapid.SampledFrom([]string{"", "ring"}).Draw(t, "setting")}
	if rapid.Bool().Draw(t, "warm") {
		temp := float64(rapid.IntRange(5, 30).Draw(t, "temperature"))
		reading.TempC = &temp
	}
	volts, step := mm.Value/5, rapid.SampledFrom([]float64{0.25, 0.5}).Draw(t, "step")
	return rapid.SampledFrom([]machine.Body{reading, reading, reading,
		&machine.ReadingTaken{Check: check, Amount: machine.Amount{Value: 0.1, Unit: "mm", Step: 0.01}}, &machine.LookTaken{Check: check, OK: len(at)%2 == 0, Words: at},
		&machine.SettingTaken{Tool: "micrometer", Setting: "ring", Nominal: mm, Read: machine.Amount{Value: mm.Value + 0.01, Unit: "mm", Step: 0.001}},
		&machine.NominalSet{Feature: bore, Amount: mm, From: machine.Paperwork}, &machine.InstrumentSet{Instrument: machine.Instrument{ID: "own", Unit: "mm", Step: 0.001, HalfWidth: 0.004}},
		&machine.DatumSet{Datum: machine.Datum{ID: "volts", Value: &volts}}, &machine.LimitSet{Check: "by-wear", Limit: machine.Limit{High: "0.1", From: machine.Paperwork}},
		&machine.RemedyDone{Check: check, Key: "rebore", Step: step, Reworked: []machine.FeatureID{bore}}, &machine.RemedyDone{Check: "charge", Key: "clean", Opens: []machine.CheckID{check}}, &machine.RemedyDone{Check: check, Key: "renew", Renewed: []machine.PartID{"piston" + machine.PartID(at)}},
	}).Draw(t, "fact")
}

// TestAgainIsAll: what is carried over from an earlier part of a log, facts of
// an earlier time that arrive late included, is what judging afresh finds.
func TestAgainIsAll(t *testing.T) {
	start := time.Date(2024, 5, 1, 8, 0, 0, 0, time.UTC)
	rapid.Check(t, func(t *rapid.T) {
		var entries []machine.Entry
		keep := func(minute int, b machine.Body) machine.EntryID {
			id := machine.EntryID(fmt.Sprintf("e%06d", len(entries)))
			entries = append(entries, machine.Entry{ID: id, By: "Ann", Body: b, At: start.Add(time.Duration(minute) * time.Minute)})
			return id
		}
		for _, b := range everyWay().bodies {
			keep(0, b)
		}
		var before *machine.Machine
		var was Findings
		for range rapid.IntRange(2, 5).Draw(t, "rounds") {
			for range rapid.IntRange(0, 6).Draw(t, "facts") {
				id := keep(rapid.IntRange(0, 60).Draw(t, "minute"), someFact(t))
				if rapid.IntRange(0, 5).Draw(t, "undone") == 0 {
					keep(61, &machine.EntryWithdrawn{Target: id})
				}
			}
			m := machine.Again(entries, before)
			got, want := Again(m, before, was), All(m)
			same(t, m, got, want)
			for _, c := range m.Checks {
				if one := One(m, c); !reflect.DeepEqual(one, want.Of(c.ID)) {
					t.Fatalf("%s judged alone is\n%+v\nand among all\n%+v", c.ID, one, want.Of(c.ID))
				}
			}
			before, was = m, got
		}
	})
}

func same(t *rapid.T, m *machine.Machine, got, want Findings) {
	t.Helper()
	if len(got.List) != len(want.List) {
		t.Fatalf("%d findings, want %d", len(got.List), len(want.List))
	}
	for i, f := range got.List {
		if c := m.Checks[i]; f.Check != c || got.Of(c.ID) != f {
			t.Fatalf("the finding on %s is of another machine", c.ID)
		}
		if !reflect.DeepEqual(f, want.List[i]) {
			t.Fatalf("%s:\n%+v\nwant\n%+v", f.Check.ID, *f, *want.List[i])
		}
	}
}

// TestAgainCarriesOver: a reading on one surface leaves the findings on others
// as they were worked out before.
func TestAgainCarriesOver(t *testing.T) {
	l := everyWay()
	fold := func(before *machine.Machine) *machine.Machine { return machine.Again(l.entries(), before) }
	before := fold(nil)
	was := All(before)
	l.add(size("piston.1/skirt", "", "", 75.9))
	m := fold(before)
	if n := newsBetween(before, m); n.bearOn(m, m.Check("by-wear.1")) || n.bearOn(m, m.Check("by-clearance.2")) || !n.bearOn(m, m.Check("by-clearance.1")) || !n.bearOn(m, m.Check("by-stack.1")) {
		t.Errorf("a reading of piston 1 bears on the wrong checks: %+v", n)
	}
	if !slices.EqualFunc(Again(m, before, was).List, All(m).List, func(a, b *Finding) bool { return reflect.DeepEqual(a, b) }) {
		t.Error("the findings are not those of judging afresh")
	}
}

// TestEveryFieldOfAReadingCounts: a reading that differs in any field from
// another, whatever fields a later version adds, is not the same.
func TestEveryFieldOfAReadingCounts(t *testing.T) {
	temp := 21.0
	differ := map[reflect.Type]any{
		reflect.TypeFor[machine.Stamp]():     machine.Stamp{Entry: "e", At: time.Unix(1, 0)},
		reflect.TypeFor[machine.Amount]():    machine.Amount{Value: 1},
		reflect.TypeFor[string]():            "x",
		reflect.TypeFor[bool]():              true,
		reflect.TypeFor[int]():               1,
		reflect.TypeFor[*float64]():          &temp,
		reflect.TypeFor[*machine.Setting]():  &machine.Setting{},
		reflect.TypeFor[[]machine.EntryID](): []machine.EntryID{"e"},
	}
	all := reflect.TypeFor[machine.Reading]()
	for i := range all.NumField() {
		a, b := new(machine.Reading), new(machine.Reading)
		if !sameReading(a, b) {
			t.Fatal("two empty readings are not the same")
		}
		other, known := differ[all.Field(i).Type]
		if !known {
			t.Errorf("no other value for field %s", all.Field(i).Name)
			continue
		}
		reflect.ValueOf(b).Elem().Field(i).Set(reflect.ValueOf(other))
		if sameReading(a, b) || sameReading(b, a) {
			t.Errorf("readings with another %s are taken as the same", all.Field(i).Name)
		}
	}
	set := func(read float64) *machine.Reading {
		s := &machine.Setting{}
		s.Read.Value = read
		return &machine.Reading{Set: s}
	}
	if !sameReading(set(1), set(1)) || sameReading(set(1), set(2)) {
		t.Error("a setting piece counts by what was read of it")
	}
}

// TestAgainAfterACorrectedRework: a rework kept with another check, corrected
// to another step, moves the size that wear counts from.
func TestAgainAfterACorrectedRework(t *testing.T) {
	bore := machine.FeatureID("liner.1/bore")
	done := func(step float64) machine.Body {
		return &machine.RemedyDone{Check: "by-eye.1", Key: "rebore", Step: step, Reworked: []machine.FeatureID{bore}}
	}
	l := everyWay().add(made(bore, 76), done(0.25), size(bore, "top", "", 76.6), size(bore, "low", "", 76.6))
	entries := l.entries()
	before := machine.Again(entries, nil)
	was := All(before)
	n := slices.IndexFunc(entries, func(e machine.Entry) bool { return e.Kind() == "remedy-done" })
	m := machine.Again(append(entries, machine.Entry{ID: "right", Supersedes: entries[n].ID, At: entries[len(entries)-1].At, By: "Ann", Body: done(0.5)}), before)
	got, want := Again(m, before, was).Of("by-wear.1"), All(m).Of("by-wear.1")
	if !reflect.DeepEqual(got, want) || want.Value == was.Of("by-wear.1").Value {
		t.Errorf("wear is %g, want %g and not %g as before", got.Value, want.Value, was.Of("by-wear.1").Value)
	}
}
