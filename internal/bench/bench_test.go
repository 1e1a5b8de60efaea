package bench

import (
	"context"
	"errors"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"matchmark/internal/kit"
	"matchmark/internal/machine"
	"matchmark/internal/store"
)

// tractor starts a whole tractor from the kits in a store.
func tractor(t testing.TB, log store.Log) *Bench {
	t.Helper()
	sheets, take, err := kit.Whole()
	if err != nil {
		t.Fatal(err)
	}
	bodies, _, err := kit.Expand(sheets, take)
	if err != nil {
		t.Fatal(err)
	}
	named := &machine.MachineNamed{Name: "Try"}
	b, err := NewShop(log, time.Now).Start(t.Context(), "try", "Try", ansa, append([]machine.Body{named}, bodies...))
	if err != nil {
		t.Fatal(err)
	}
	return b
}

var ansa = Who{By: "Ansa", Device: "tablet"}

func record(t testing.TB, b *Bench, bodies ...machine.Body) *View {
	t.Helper()
	v, err := b.Record(t.Context(), ansa, bodies...)
	if err != nil {
		t.Fatal(err)
	}
	return v
}

func TestAHeldClosingIsRefusedAndNothingRecorded(t *testing.T) {
	b := tractor(t, store.OpenMemory())
	v := record(t, b, &machine.JointOpened{Joint: "rocker-cover-head", Tray: "3"})
	before := v.Machine.Entries
	closing := &machine.JointClosed{Joint: "rocker-cover-head", As: machine.Final}
	_, err := b.Record(t.Context(), ansa, closing)
	var held *HeldError
	if !errors.As(err, &held) || len(held.Holds) == 0 {
		t.Fatalf("closing over open checks gave %v, want a HeldError with holds", err)
	}
	if v, _ := b.View(t.Context()); v.Machine.Entries != before {
		t.Fatalf("a refused closing left %d entries, want %d", v.Machine.Entries, before)
	}

	// Every hold passed by hand in the same breath lets it close, unless it
	// guards life or is a joint beneath.
	bodies := []machine.Body{}
	for _, h := range held.Holds {
		if h.Check == nil {
			t.Fatalf("unexpected hold beneath: %s", h.Why)
		}
		bodies = append(bodies, &machine.HoldPassed{Joint: h.Joint.ID, Check: h.Check.ID, Initials: "AM", Why: "trial of the program"})
	}
	v = record(t, b, append(bodies, closing)...)
	if s := v.Machine.Joint("rocker-cover-head").State; s != machine.Closed {
		t.Fatalf("the cover is %q after passing its holds, want %q", s, machine.Closed)
	}
}

func TestWhatHappenedIsNeverRefused(t *testing.T) {
	b := tractor(t, store.OpenMemory())
	record(t, b, &machine.JointOpened{Joint: "rocker-cover-head"})
	stamper := store.Stamper{By: "Per", Device: "phone"}
	entries := stamper.Stamp(&machine.JointClosed{Joint: "rocker-cover-head", As: machine.Final})
	for range 3 { // sent three times, kept once
		if _, err := b.Keep(t.Context(), entries); err != nil {
			t.Fatal(err)
		}
	}
	v, err := b.View(t.Context())
	if err != nil {
		t.Fatal(err)
	}
	if n := len(v.Machine.Joint("rocker-cover-head").Closings); n != 1 {
		t.Errorf("closed %d times, want once", n)
	}
	if len(v.Plan().Breaches) == 0 {
		t.Error("the closing over open checks is not listed as a breach")
	}
}

func TestALifeGateCannotBePassed(t *testing.T) {
	b := tractor(t, store.OpenMemory())
	v, _ := b.View(t.Context())
	for _, c := range v.Machine.Checks {
		if !c.Life || len(c.Joints) == 0 {
			continue
		}
		_, err := b.Record(t.Context(), ansa, &machine.HoldPassed{Joint: c.Joints[0].ID, Check: c.ID, Initials: "AM", Why: "in a hurry"})
		if err == nil || !strings.Contains(err.Error(), "guards life") {
			t.Fatalf("%s was passed by hand: %v", c.ID, err)
		}
		return
	}
	t.Fatal("no check guards life")
}

// TestTwoBenchesOnOneFile: two programs on one book see each other's entries.
func TestTwoBenchesOnOneFile(t *testing.T) {
	path := filepath.Join(t.TempDir(), "book.db")
	open := func() store.Log {
		log, err := store.Open(path)
		if err != nil {
			t.Fatal(err)
		}
		t.Cleanup(func() { _ = log.Close() })
		return log
	}
	one := tractor(t, open())
	two, err := NewShop(open(), time.Now).Bench(t.Context(), "try")
	if err != nil {
		t.Fatal(err)
	}
	changed, stop := one.Changed()
	defer stop()
	record(t, two, &machine.Noted{Text: "from the other program"})
	v, err := one.View(t.Context())
	if err != nil {
		t.Fatal(err)
	}
	if len(v.Machine.Notes) != 1 {
		t.Fatalf("the first program sees %d notes of the second, want 1", len(v.Machine.Notes))
	}
	select {
	case <-changed:
	default:
		t.Error("the change was not told")
	}
}

func TestTypedReadings(t *testing.T) {
	b := tractor(t, store.OpenMemory())
	v := record(t, b, &machine.NominalSet{Feature: "liner.2/bore", Amount: machine.Amount{Value: 76, Unit: "mm", Typed: "76"}, From: machine.Unworn})
	bore := Typed{Feature: "liner.2/bore", Level: "middle", Axis: "pin"}
	rows := []struct {
		text, temp string
		want       float64
		say        string // part of the refusal; empty is kept
		doubt      bool
	}{
		{text: "76.03", want: 76.03},
		{text: "76,03", want: 76.03},
		{text: "2.9933 in", want: 76.02982},
		{text: "abc", say: "abc"},
		{text: "", say: ""},
		{text: "5 kgf·m", say: "a length was wanted"},
		{text: "2.9933", say: "on inches", doubt: true},
		{text: "7603", say: "expected", doubt: true},
		{text: "76.03", temp: "warm", say: "warm"},
	}
	for _, row := range rows {
		in := bore
		in.Text, in.Temp = row.text, row.temp
		r, err := v.Reading(in)
		if row.say == "" && row.text != "" {
			if err != nil || abs(r.Amount.Value-row.want) > 1e-9 || r.Amount.Typed != row.text {
				t.Errorf("%q: got %+v, %v; want %v", row.text, r, err, row.want)
			}
			continue
		}
		var bad *InputError
		if !errors.As(err, &bad) || !strings.Contains(bad.Say, row.say) || bad.Doubt != row.doubt {
			t.Errorf("%q %q: got %v, want a refusal with %q, doubt %v", row.text, row.temp, err, row.say, row.doubt)
		}
		if row.doubt {
			in.Sure = true
			if _, err := v.Reading(in); err != nil {
				t.Errorf("%q, sure: %v", row.text, err)
			}
		}
	}
	for _, in := range []Typed{{Feature: "liner.9/bore", Text: "1"}, {Check: "no-check", Text: "1"}, {Feature: "liner.2/bore", Text: "76", Tool: "crystal ball"}} {
		if _, err := v.Reading(in); err == nil {
			t.Errorf("%+v was taken", in)
		}
	}
}

func abs(x float64) float64 { return max(x, -x) }

func TestAnUnknownMachineIsNamed(t *testing.T) {
	shop := NewShop(store.OpenMemory(), time.Now)
	_, err := shop.Bench(context.Background(), "nobody")
	var unknown *UnknownMachineError
	if !errors.As(err, &unknown) {
		t.Fatalf("got %v", err)
	}
}
