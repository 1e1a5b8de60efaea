package bench

import (
	"path/filepath"
	"testing"
	"time"

	"matchmark/internal/machine"
	"matchmark/internal/store"
)

// TestOneFormIsKeptOnce: the same word any number of times is one record; a
// changed word, or one sent again after it was withdrawn, is a new one. The
// last row of each case says how many bench facts there are.
func TestOneFormIsKeptOnce(t *testing.T) {
	note := func(text string) machine.Body { return &machine.Noted{Of: "tray:14", Text: text} }
	type sent struct {
		once   string
		bodies []machine.Body
	}
	a, b := sent{"f1", []machine.Body{note("a")}}, sent{"f1", []machine.Body{note("b")}}
	two := sent{"f1", []machine.Body{note("a"), note("b")}}
	for name, row := range map[string]struct {
		sent []sent
		want int
	}{
		"the same form three times":       {[]sent{a, a, a}, 1},
		"two forms that say the same":     {[]sent{a, {"f2", a.bodies}}, 2},
		"filled in otherwise":             {[]sent{a, b, b}, 2},
		"otherwise, and back again":       {[]sent{a, b, a, a}, 3},
		"several facts at once":           {[]sent{two, two, two}, 2},
		"no word of its own":              {[]sent{{"", a.bodies}, {"", a.bodies}}, 2},
		"another form between the copies": {[]sent{a, {"f2", b.bodies}, a}, 2},
		"nothing said":                    {[]sent{{"f1", nil}, {"f1", nil}}, 0},
	} {
		bench := tractor(t, store.OpenMemory())
		for _, s := range row.sent {
			if _, err := bench.RecordOnce(t.Context(), ansa, s.once, s.bodies...); err != nil {
				t.Fatalf("%s: %v", name, err)
			}
		}
		if v, _ := bench.View(t.Context()); len(v.Machine.Events) != row.want {
			t.Errorf("%s: %d facts kept, want %d", name, len(v.Machine.Events), row.want)
		}
	}
}

// TestAWithdrawnWordIsSaidAnew: undo, then the same form again.
func TestAWithdrawnWordIsSaidAnew(t *testing.T) {
	b := tractor(t, store.OpenMemory())
	note := &machine.Noted{Of: "tray:14", Text: "a"}
	for range 3 { // kept, withdrawn, kept anew
		v, err := b.RecordOnce(t.Context(), ansa, "f1", note)
		if err != nil || len(v.Machine.Notes) != 1 {
			t.Fatalf("%d notes, %v; want one", len(v.Machine.Notes), err)
		}
		if kept, err := b.Kept(t.Context(), "f1", note); !kept || err != nil {
			t.Fatalf("kept is %v, %v", kept, err)
		}
		record(t, b, &machine.EntryWithdrawn{Target: v.Machine.Notes[0].Entry})
		if kept, _ := b.Kept(t.Context(), "f1", note); kept {
			t.Fatal("a withdrawn word counts as kept")
		}
	}
}

// TestAFormIsKnownAfterARestart: the word is in the ids, not in memory.
func TestAFormIsKnownAfterARestart(t *testing.T) {
	file := filepath.Join(t.TempDir(), "book.db")
	note := &machine.Noted{Of: "tray:14", Text: "a"}
	for i := range 3 {
		log, err := store.Open(file)
		if err != nil {
			t.Fatal(err)
		}
		var b *Bench
		if i == 0 {
			b = tractor(t, log)
		} else if b, err = NewShop(log, time.Now).Bench(t.Context(), "try"); err != nil {
			t.Fatal(err)
		}
		v, err := b.RecordOnce(t.Context(), ansa, "f1", note)
		if err != nil || len(v.Machine.Notes) != 1 {
			t.Errorf("round %d: %d notes, %v", i, len(v.Machine.Notes), err)
		}
		if err := log.Close(); err != nil {
			t.Fatal(err)
		}
	}
}

// TestAClosingSentTwiceIsNoSecondClosing: kept the first time, it is not
// refused as held or shut the second.
func TestAClosingSentTwiceIsNoSecondClosing(t *testing.T) {
	b := tractor(t, store.OpenMemory())
	record(t, b, &machine.JointOpened{Joint: "rocker-cover-head", Tray: "3"})
	var bodies []machine.Body
	for _, h := range mustView(t, b).MayClose(mustView(t, b).Machine.Joint("rocker-cover-head"), true) {
		bodies = append(bodies, &machine.HoldPassed{Joint: h.Joint.ID, Check: h.Check.ID, Initials: "AM", Why: "trial of the program"})
	}
	bodies = append(bodies, &machine.JointClosed{Joint: "rocker-cover-head", As: machine.Final})
	for range 3 {
		v, err := b.RecordOnce(t.Context(), ansa, "f1", bodies...)
		if err != nil || v.Machine.Joint("rocker-cover-head").Made != 1 {
			t.Fatalf("closed %d times, %v; want once", v.Machine.Joint("rocker-cover-head").Made, err)
		}
	}
}

func mustView(t *testing.T, b *Bench) *View {
	t.Helper()
	v, err := b.View(t.Context())
	if err != nil {
		t.Fatal(err)
	}
	return v
}

// TestFiguresInTheUnitAskedFor: exact factors of the inch and the kilogram-force
// (ISO 80000-1; CGPM 1901 for 9.80665).
func TestFiguresInTheUnitAskedFor(t *testing.T) {
	for _, row := range []struct {
		text, unit string
		want       float64
	}{{"0.01 in", "mm", 0.254}, {"5,5 kgf·m", "N·m", 53.936575}, {"12", "bar", 12}, {"0.4", "ratio", 0.4}} {
		if got, err := InUnit(row.text, row.unit); err != nil || got-row.want > 1e-9 || row.want-got > 1e-9 {
			t.Errorf("%s in %s is %v, %v; want %v", row.text, row.unit, got, err, row.want)
		}
	}
	if _, err := InUnit("3 kg", "mm"); err == nil {
		t.Error("3 kg passes as a length")
	}
}
