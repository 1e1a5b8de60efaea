package reckoned

import (
	"fmt"
	"math"
	"slices"
	"strings"
	"testing"
	"time"

	"matchmark/internal/finding/judge"
	"matchmark/internal/machine"
	"matchmark/internal/trade/reckon"
)

func log(bodies ...machine.Body) *machine.Machine {
	var out []machine.Entry
	for i, b := range bodies {
		out = append(out, machine.Entry{ID: machine.EntryID(fmt.Sprintf("e%04d", i)), By: "ann", Version: 1, Body: b,
			At: time.Date(2025, 5, 1, 8, i, 0, 0, time.UTC)})
	}
	return machine.Fold(out)
}

func mm(v float64) machine.Amount { return machine.Amount{Value: v, Unit: "mm", Typed: fmt.Sprint(v)} }

// engine has two cylinders, a ring that shrinks on a wheel, and shims.
func engine(more ...machine.Body) *machine.Machine {
	return log(append([]machine.Body{
		&machine.PlacesSet{Places: machine.Places{Family: "cylinder", Name: "cylinder", Labels: []machine.Place{"1", "2"}}},
		&machine.DatumSet{Datum: machine.Datum{ID: "stroke", Name: "Stroke", Unit: "mm"}},
		&machine.PartAdded{ID: "liner", Name: "Liner", Places: "cylinder"}, &machine.PartAdded{ID: "ring", Name: "Ring"}, &machine.PartAdded{ID: "wheel", Name: "Wheel"},
		&machine.FeatureAdded{Part: "liner", Feature: "bore", Name: "bore", Sort: machine.Bore},
		&machine.FeatureAdded{Part: "ring", Feature: "bore", Name: "bore", Sort: machine.Bore},
		&machine.FeatureAdded{Part: "wheel", Feature: "seat", Name: "seat", Sort: machine.Shaft},
		&machine.JointAdded{ID: "shims", Name: "Shims", Sort: "bolted", Parts: []machine.PartID{"ring", "wheel"}, Thread: "M8 or M10", Grade: "8.8"},
		&machine.CheckAdded{ID: "height", Name: "Piston height", Places: "cylinder", Parts: []machine.PartID{"liner"}, When: machine.Made, By: machine.ByReading, Unit: "mm", Repeats: 2},
		&machine.CheckAdded{ID: "fit", Name: "Ring fit", Parts: []machine.PartID{"ring"}, When: machine.Apart, By: machine.ByClearance, Outer: "ring/bore", Inner: "wheel/seat", Unit: "mm"},
		&machine.CheckAdded{ID: "opens", Name: "Opening pressure", Parts: []machine.PartID{"ring"}, When: machine.Apart, By: machine.ByReading, Unit: "bar"},
	}, more...)...)
}

func one(m *machine.Machine, topic string, with map[string]string) Worked {
	return Of(m, []machine.Reckoning{{Topic: topic, Title: "t", With: with}})[0]
}

// typed gives an input as it was filled, or what is wanted for it.
func typed(t *testing.T, m *machine.Machine, text string) string {
	t.Helper()
	v := For(m, judge.Findings{}).value(text)
	if len(v.wants) > 0 {
		return "wants " + strings.Join(v.wants, "; ")
	}
	return v.text
}

func TestSourcesFill(t *testing.T) {
	stroke := 92.0
	bare := engine()
	full := engine(
		&machine.DatumSet{Datum: machine.Datum{ID: "stroke", Name: "Stroke", Unit: "mm", Value: &stroke, From: machine.Handbook, Source: "p. 7"}},
		&machine.ReadingTaken{Feature: "liner.1/bore", Amount: mm(76.02)}, &machine.ReadingTaken{Feature: "liner.1/bore", Amount: mm(76.04)},
		&machine.ReadingTaken{Feature: "liner.1/bore", Amount: mm(76.50), Unworn: true}, &machine.ReadingTaken{Feature: "liner.2/bore", Amount: mm(76)},
		&machine.NominalSet{Feature: "liner.2/bore", Amount: mm(76), From: machine.Paperwork},
		&machine.ReadingTaken{Check: "height.1", Amount: mm(0.3)}, &machine.ReadingTaken{Check: "height.1", Amount: mm(0.35)},
		&machine.ReadingTaken{Check: "height.2", Amount: mm(0)},
		&machine.ReadingTaken{Check: "opens", Amount: machine.Amount{Value: 11.8, Unit: "MPa", Typed: "118"}},
		&machine.ReadingTaken{Feature: "ring/bore", Amount: mm(279.7)}, &machine.ReadingTaken{Feature: "wheel/seat", Amount: mm(280)},
		&machine.JointOpened{Joint: "shims", Fasteners: []machine.Fastener{{Size: "dowel", Count: 1}, {Size: "M10x1.25x60", Count: 4}},
			Shims: []machine.Shim{{ThicknessMM: 0.2, Count: 2}, {ThicknessMM: 0.1, Count: 1}}})
	for _, c := range []struct{ source, bare, full string }{
		{"datum:stroke", "wants enter “Stroke” among the figures of the machine, in mm", "92 mm"},
		{"{datum:stroke}/2", "wants enter “Stroke” among the figures of the machine, in mm", "92mm/2"},
		{"feature:liner.1/bore", "wants measure bore of Liner, cylinder 1, or enter its nominal size at the part", "76.03 mm"},
		{"feature:liner.2/bore", "wants measure bore of Liner, cylinder 2, or enter its nominal size at the part", "76 mm"},
		{"made:liner.2/bore", "wants enter the size that bore of Liner, cylinder 2 was made to, at the part", "76 mm"},
		{"each:liner/bore", "wants measure bore of Liner, cylinder 1; measure bore of Liner, cylinder 2", "76.03 mm; 76 mm"},
		{"count:cylinder", "2", "2"},
		{"reading:height.1", "wants read “Piston height, cylinder 1”, in mm", "0.35 mm"},
		{"repeats:height.1", "wants read “Piston height, cylinder 1”, in mm, 0 of 2 times so far", "0.3 mm; 0.35 mm"},
		{"repeats:height.2", "wants read “Piston height, cylinder 2”, in mm, 0 of 2 times so far", "wants read “Piston height, cylinder 2”, in mm, 1 of 2 times so far"},
		{"every:height", "wants read “Piston height, cylinder 1”, in mm; read “Piston height, cylinder 2”, in mm", "0.35 mm; 0 mm"},
		{"less:height.1", "wants read “Piston height, cylinder 1”, in mm", "-0.35 mm"},
		{"less:height.2", "wants read “Piston height, cylinder 2”, in mm", "0 mm"},
		{"reading:opens", "wants read “Opening pressure”, in bar", "118 bar"},
		{"tight:fit", "wants measure the surfaces of “Ring fit”", "0.3 mm"},
		{"thread:shims", "wants write the size of the bolts of “Shims” when it comes apart; usual here: M8 or M10", "M10x1.25"},
		{"grade:shims", "8.8", "8.8"},
		{"shims:shims", "wants measure the shims of “Shims” one by one when it comes apart", "0.1 mm x 1; 0.2 mm x 2"},
		{"pack:shims", "wants measure the shims of “Shims” one by one when it comes apart", "0.5 mm"},
		{"22 °C", "22 °C", "22 °C"},
	} {
		if got := typed(t, bare, c.source); got != c.bare {
			t.Errorf("%s, nothing known: %q, want %q", c.source, got, c.bare)
		}
		if got := typed(t, full, c.source); got != c.full {
			t.Errorf("%s: %q, want %q", c.source, got, c.full)
		}
	}
}

// One of two surfaces read is no clearance, and play is no interference.
func TestAnInterferenceIsNeverGuessed(t *testing.T) {
	half := engine(&machine.ReadingTaken{Feature: "ring/bore", Amount: mm(279.7)})
	if got := typed(t, half, "tight:fit"); got != "wants measure the surfaces of “Ring fit”" {
		t.Errorf("one surface: %q", got)
	}
	loose := engine(&machine.ReadingTaken{Feature: "ring/bore", Amount: mm(280.1)}, &machine.ReadingTaken{Feature: "wheel/seat", Amount: mm(280)})
	if got := typed(t, loose, "tight:fit"); !strings.HasPrefix(got, "wants “Ring fit” has play as read") {
		t.Errorf("play: %q", got)
	}
}

// 76.02 and 92 give 417.6 cm³ a cylinder: π/4·bore²·stroke, by hand.
func TestAnswered(t *testing.T) {
	stroke := 92.0
	m := engine(&machine.DatumSet{Datum: machine.Datum{ID: "stroke", Value: &stroke, From: machine.Handbook, Source: "p. 7"}},
		&machine.ReadingTaken{Feature: "liner.1/bore", Amount: mm(76.02)})
	w := one(m, "displacement", map[string]string{"bore": "feature:liner.1/bore", "stroke": "datum:stroke", "cylinders": "count:cylinder", "speed": "datum:rated?"})
	if !w.Answered() || w.Err != nil || len(w.Missing) > 0 || len(w.Without) != 1 {
		t.Fatalf("%+v", w)
	}
	i := slices.IndexFunc(w.Answer.Lines, func(l reckon.Line) bool { return l.Name == "displacement" })
	if want := 2 * math.Pi / 4 * 7.602 * 7.602 * 9.2; math.Abs(w.Answer.Lines[i].Value-want) > 0.01 {
		t.Errorf("displacement %v, want %.2f", w.Answer.Lines[i], want)
	}
	if w.Filled[1] != (Filled{"stroke", "stroke", "92 mm", "Stroke, handbook, p. 7"}) || w.Filled[0].From != "bore of Liner, cylinder 1, as read" {
		t.Errorf("filled: %+v", w.Filled)
	}
	if !slices.Equal(w.Given(), []string{"bore=76.02 mm", "stroke=92 mm", "cylinders=2"}) {
		t.Errorf("given: %q", w.Given())
	}
}

// What is needed and unknown is asked for in the trade's words, and what only
// the topic itself knows to be wanted as well.
func TestMissing(t *testing.T) {
	w := one(engine(), "displacement", map[string]string{"bore": "feature:liner.1/bore", "stroke": "datum:stroke"})
	want := []string{"bore: measure bore of Liner, cylinder 1, or enter its nominal size at the part",
		"stroke: enter “Stroke” among the figures of the machine, in mm",
		"cylinders: nothing on this machine gives it; ask “matchmark reckon displacement” with cylinders=…"}
	if w.Answered() || w.Err != nil || !slices.Equal(w.Missing, want) {
		t.Errorf("%q, %v", w.Missing, w.Err)
	}
	w = one(engine(), "gear-size", map[string]string{"teeth": "17", "module": "datum:stroke?"})
	if w.Answered() || len(w.Without) > 0 || len(w.Missing) != 1 || !strings.Contains(w.Missing[0], "enter “Stroke”") {
		t.Errorf("without module: %+v", w)
	}
	if w = one(engine(), "gear-sise", nil); w.Err == nil {
		t.Error("an unknown topic was answered")
	}
}
