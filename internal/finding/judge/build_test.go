package judge

import (
	"fmt"
	"testing"
	"time"

	"matchmark/internal/machine"
)

// log is a machine under test: facts in the order given, a minute apart.
type log struct{ bodies []machine.Body }

func (l *log) add(b ...machine.Body) *log { l.bodies = append(l.bodies, b...); return l }

func (l *log) entries() []machine.Entry {
	entries := make([]machine.Entry, len(l.bodies))
	for i, b := range l.bodies {
		entries[i] = machine.Entry{ID: machine.EntryID(fmt.Sprintf("e%06d", i)), By: "Ann", Body: b,
			At: time.Date(2024, 5, 1, 8, 0, 0, 0, time.UTC).Add(time.Duration(i) * time.Minute)}
	}
	return entries
}

func (l *log) fold(t testing.TB) *machine.Machine {
	t.Helper()
	m := machine.Fold(l.entries())
	for _, q := range m.Questions {
		t.Fatalf("the log is not clean: %s %s", q.Kind, q.Text)
	}
	return m
}

func (l *log) one(t testing.TB, id machine.CheckID) *Finding {
	t.Helper()
	m := l.fold(t)
	c := m.Check(id)
	if c == nil {
		t.Fatalf("no check %s", id)
	}
	return One(m, c)
}

// direct is a machine with one check read directly.
func direct(unit, tool string, limits ...machine.Limit) *log {
	return (&log{}).add(&machine.CheckAdded{ID: "gap", Name: "Ring gap", When: machine.Apart, By: machine.ByReading,
		Unit: unit, Tool: tool, Limits: limits})
}

// read is a direct reading in the unit held inside.
func read(value, step float64, unit string) *machine.ReadingTaken {
	return &machine.ReadingTaken{Check: "gap", Amount: machine.Amount{Value: value, Unit: unit, Step: step}}
}

// fit is a machine with a bore (three heights, two directions, cast iron) and
// a journal (one height, two directions, steel) and the checks given.
func fit(checks ...*machine.CheckAdded) *log {
	l := (&log{}).add(
		&machine.PartAdded{ID: "liner", Name: "Liner", Qty: 1, Material: "cast iron"},
		&machine.PartAdded{ID: "shaft", Name: "Shaft", Qty: 1, Material: "steel"},
		&machine.FeatureAdded{Part: "liner", Feature: "bore", Name: "bore", Sort: machine.Bore, Tool: "bore-gauge-ring",
			Levels: []string{"top", "middle", "low"}, Axes: []string{"along", "across"}, Unworn: "above the ring travel"},
		&machine.FeatureAdded{Part: "shaft", Feature: "journal", Name: "journal", Sort: machine.Shaft, Tool: "micrometer",
			Axes: []string{"along", "across"}})
	for _, c := range checks {
		c.When = machine.Apart
		if c.Unit == "" {
			c.Unit = "mm"
		}
		l.add(c)
	}
	return l
}

const (
	bore    = machine.FeatureID("liner/bore")
	journal = machine.FeatureID("shaft/journal")
)

func size(of machine.FeatureID, level, axis string, mm float64) *machine.ReadingTaken {
	return &machine.ReadingTaken{Feature: of, Level: level, Axis: axis, Amount: machine.Amount{Value: mm, Unit: "mm", Step: 0.001}}
}

// bores reads the six points, height by height, along before across.
func bores(mm ...float64) []machine.Body {
	var out []machine.Body
	points := []machine.Point{{Level: "top", Axis: "along"}, {Level: "top", Axis: "across"}, {Level: "middle", Axis: "along"},
		{Level: "middle", Axis: "across"}, {Level: "low", Axis: "along"}, {Level: "low", Axis: "across"}}
	for i, v := range mm {
		out = append(out, size(bore, points[i].Level, points[i].Axis, v))
	}
	return out
}

func common(l machine.Limit) machine.Limit {
	l.From = machine.CommonPractice
	return l
}
