package bench

import (
	"errors"
	"fmt"
	"maps"
	"math/rand/v2"
	"reflect"
	"slices"
	"strings"
	"testing"
	"time"

	"matchmark/internal/demo"
	"matchmark/internal/finding/judge"
	"matchmark/internal/finding/reckoned"
	"matchmark/internal/kit"
	"matchmark/internal/machine"
	"matchmark/internal/trade/reckon"
)

// asked is a reckoning and where it stands.
type asked struct {
	where string
	list  []machine.Reckoning
}

// allAsked lists every joint, check and test that has something worked out.
func allAsked(m *machine.Machine) []asked {
	var out []asked
	add := func(where machine.Ref, list []machine.Reckoning) {
		if len(list) > 0 {
			out = append(out, asked{string(where), list})
		}
	}
	for _, j := range m.Joints {
		add(machine.RefJoint(j.ID), j.Reckon)
	}
	for _, c := range m.Checks {
		add(machine.RefCheck(c.ID), c.Reckon)
	}
	for _, x := range m.Tests {
		add(machine.RefTest(x.ID), x.Reckon)
	}
	return out
}

// wholeKits declares a whole tractor with the usual answers, or with the last
// answer to every question of the kits.
func wholeKits(t testing.TB, last bool) []machine.Body {
	t.Helper()
	sheets, take, err := kit.Whole()
	if err != nil {
		t.Fatal(err)
	}
	for _, s := range sheets {
		for _, c := range s.Choices {
			if last {
				take.Choices[s.Kit.ID][c.ID] = c.Answers[len(c.Answers)-1]
			}
		}
	}
	bodies, _, err := kit.Expand(sheets, take)
	if err != nil {
		t.Fatal(err)
	}
	return bodies
}

func entriesOf(bodies ...machine.Body) []machine.Entry {
	var out []machine.Entry
	for i, b := range bodies {
		out = append(out, machine.Entry{ID: machine.EntryID(fmt.Sprintf("e%06d", i)), By: "ann", Version: 1, Body: b,
			At: time.Date(2025, 5, 1, 8, 0, 0, 0, time.UTC).Add(time.Duration(i) * time.Second)})
	}
	return out
}

// TestNoLonelyCalculators: every topic of the trade's arithmetic is used by a
// joint, check or test of the kits.
func TestNoLonelyCalculators(t *testing.T) {
	sheets, err := kit.Library()
	if err != nil {
		t.Fatal(err)
	}
	homes := map[string]int{}
	count := func(list []kit.Reckoning) {
		for _, r := range list {
			homes[r.Topic]++
		}
	}
	for _, s := range sheets {
		for _, j := range s.Joints {
			count(j.Reckon)
		}
		for _, c := range s.Checks {
			count(c.Reckon)
		}
		for _, x := range s.Tests {
			count(x.Reckon)
		}
	}
	var lonely []string
	n := 0
	for _, topic := range reckon.Topics() {
		if homes[topic.Name] == 0 {
			lonely = append(lonely, topic.Name)
		}
		n += homes[topic.Name]
	}
	if len(lonely) > 0 {
		t.Errorf("%d topics are used by no joint, check or test: %s", len(lonely), strings.Join(lonely, ", "))
	}
	t.Logf("%d topics, %d reckonings in the kits", len(reckon.Topics()), n)
}

// TestReckoningsAnswerOrSayWhatIsMissing walks two tractors as they are before
// anybody measured anything, and the demo.
func TestReckoningsAnswerOrSayWhatIsMissing(t *testing.T) {
	played, err := demo.Entries()
	if err != nil {
		t.Fatal(err)
	}
	for name, entries := range map[string][]machine.Entry{"usual": entriesOf(wholeKits(t, false)...),
		"last answers": entriesOf(wholeKits(t, true)...), "demo": played} {
		m := machine.Fold(entries)
		desk := reckoned.For(m, judge.Findings{})
		answered, missing := 0, 0
		for _, a := range allAsked(m) {
			for _, w := range desk.Of(a.list) {
				switch {
				case w.Err != nil:
					t.Errorf("%s, %s: %s: %v", name, a.where, w.Topic, w.Err)
				case w.Answered() == (len(w.Missing) > 0):
					t.Errorf("%s, %s: %s: answered %v, missing %q", name, a.where, w.Topic, w.Answered(), w.Missing)
				case w.Answered():
					answered++
				default:
					missing++
				}
				for _, f := range w.Filled {
					if f.Typed == "" || f.From == "" || f.Ask == "" {
						t.Errorf("%s, %s: %s: %+v does not say what it is or where from", name, a.where, w.Topic, f)
					}
				}
			}
		}
		t.Logf("%s: %d answered, %d say what is missing", name, answered, missing)
	}
}

// filledIn is the log of a tractor with all that the plausible tables know.
func filledIn(t *testing.T, bodies []machine.Body) []machine.Entry {
	t.Helper()
	m := machine.Fold(entriesOf(bodies...))
	for _, d := range m.Data {
		if v, known := plausibleFigures[d.ID]; d.Value == nil && known {
			bodies = append(bodies, &machine.DatumSet{Datum: machine.Datum{ID: d.ID, Name: d.Name, Unit: d.Unit, Value: &v, From: machine.OwnDecision}})
		}
	}
	for _, ft := range m.Features {
		of := string(machine.FeatureOf(ft.Part.Type, ft.ID.Name()))
		is := func(typ string) bool { return of == typ || strings.HasPrefix(of, typ+"-") }
		for typ, mm := range plausibleSizes {
			for _, at := range ft.Points() {
				if is(typ) {
					bodies = append(bodies, &machine.ReadingTaken{Feature: ft.ID, Level: at.Level, Axis: at.Axis,
						Amount: machine.Amount{Value: mm, Unit: "mm", Typed: fmt.Sprint(mm), Step: 0.001}})
				}
			}
		}
		for typ, mm := range plausibleNominals {
			if is(typ) {
				bodies = append(bodies, &machine.NominalSet{Feature: ft.ID, Amount: machine.Amount{Value: mm, Unit: "mm", Typed: fmt.Sprint(mm)}, From: machine.OwnDecision})
			}
		}
	}
	for _, c := range m.Checks {
		if text, ok := plausibleReadings[string(c.Type)]; ok {
			a, err := Amount(text, c.Unit)
			if err != nil {
				t.Fatal(err)
			}
			for range max(c.Repeats, 1) {
				bodies = append(bodies, &machine.ReadingTaken{Check: c.ID, Amount: a})
			}
		}
	}
	for _, j := range m.Joints {
		open := &machine.JointOpened{Joint: j.ID}
		for _, s := range plausibleShims[string(j.Type)] {
			open.Shims = append(open.Shims, machine.Shim{ThicknessMM: s[0], Count: int(s[1])})
		}
		if size := plausibleBolts[string(j.Type)]; size != "" {
			open.Fasteners = []machine.Fastener{{Size: size, Count: 4}}
		}
		if len(open.Shims)+len(open.Fasteners) > 0 {
			bodies = append(bodies, open)
		}
	}
	return entriesOf(bodies...)
}

// TestEveryReckoningComesToFigures: with every figure entered and every surface
// read, each answers; Reckon itself refuses what is not finite.
func TestEveryReckoningComesToFigures(t *testing.T) {
	seen := map[string]bool{}
	for _, last := range []bool{false, true} {
		m := machine.Fold(filledIn(t, wholeKits(t, last)))
		desk := reckoned.For(m, judge.Findings{})
		for _, a := range allAsked(m) {
			for _, w := range desk.Of(a.list) {
				if !w.Answered() || len(w.Without) > 0 {
					t.Errorf("%s: %s: %v missing %q without %q, given %q", a.where, w.Topic, w.Err, w.Missing, w.Without, w.Given())
					continue
				}
				seen[w.Topic] = true
			}
		}
	}
	for _, topic := range reckon.Topics() {
		if !seen[topic.Name] {
			t.Errorf("%s never came to a figure", topic.Name)
		}
	}
}

// The order in which entries are handed over changes nothing.
func TestReckoningsDoNotHangOnOrder(t *testing.T) {
	entries := filledIn(t, wholeKits(t, false))
	want := everything(machine.Fold(entries))
	r := rand.New(rand.NewPCG(1, 2))
	for range 3 {
		mixed := slices.Clone(entries)
		r.Shuffle(len(mixed), func(i, k int) { mixed[i], mixed[k] = mixed[k], mixed[i] })
		if got := everything(machine.Fold(mixed)); !maps.EqualFunc(got, want, func(a, b []reckoned.Worked) bool { return reflect.DeepEqual(a, b) }) {
			t.Fatal("another order of the same entries gives other answers")
		}
	}
}

func everything(m *machine.Machine) map[string][]reckoned.Worked {
	out := map[string][]reckoned.Worked{}
	desk := reckoned.For(m, judge.Findings{})
	for _, a := range allAsked(m) {
		out[a.where] = desk.Of(a.list)
	}
	return out
}

// A value of the wrong dimension is refused in words that name it.
func TestAWrongDimensionIsRefusedWithWords(t *testing.T) {
	volts := 12.0
	m := machine.Fold(entriesOf(&machine.DatumSet{Datum: machine.Datum{ID: "arm", Name: "Arm", Unit: "V", Value: &volts}}))
	w := reckoned.Of(m, []machine.Reckoning{{Topic: "crowfoot", Title: "x", With: map[string]string{"torque": "60 N·m", "wrench": "datum:arm", "offset": "50"}}})[0]
	var wrong reckon.InputError
	if !errors.As(w.Err, &wrong) || wrong.Key != "wrench" || wrong.Typed != "12 V" || wrong.Want == "" || w.Answered() {
		t.Errorf("%+v", w)
	}
}

// BenchmarkReckonings works out every reckoning of the demo: 20 ms at most.
func BenchmarkReckonings(b *testing.B) {
	entries, err := demo.Entries()
	if err != nil {
		b.Fatal(err)
	}
	m := machine.Fold(entries)
	judged := judge.All(m)
	list := allAsked(m)
	for b.Loop() {
		desk := reckoned.For(m, judged)
		for _, a := range list {
			desk.Of(a.list)
		}
	}
}
