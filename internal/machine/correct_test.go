package machine

import (
	"fmt"
	"strings"
	"testing"
	"time"
)

// values lists the readings of a feature, those of the present version marked.
func values(f *Feature) string {
	out := ""
	for _, r := range f.Readings {
		mark := ""
		if r.Version == f.Version {
			mark = "*"
		}
		out += fmt.Sprintf("%.2f%s ", r.Amount.Value, mark)
	}
	return out
}

// rebore is the remedy done on cylinder 1.
func rebore() *RemedyDone {
	return &RemedyDone{Check: "bore-wear.1", Key: "rebore", Step: 0.25, Reworked: []FeatureID{"liner.1/bore"}, Opens: []CheckID{"side-play.1"}}
}

// TestCorrections: what supersedes, withdraws and withdraws again leaves.
func TestCorrections(t *testing.T) {
	rows := []struct {
		name string
		say  func(b *book)
		want string
		asks []string
	}{
		{"two devices read one point: both stay", func(b *book) {
			b.say(bore("1", 80.01))
			b.late(18.5, "p1", bore("1", 80.03))
		}, "80.03* 80.01* ", nil},
		{"superseded", func(b *book) { b.correct(b.say(bore("1", 81)), bore("1", 80)) }, "80.00* ", nil},
		{"superseded twice over", func(b *book) { b.correct(b.correct(b.say(bore("1", 82)), bore("1", 81)), bore("1", 80)) }, "80.00* ", nil},
		{"superseded by two devices: both stay", func(b *book) {
			old := b.say(bore("1", 82))
			b.correct(old, bore("1", 81))
			b.correct(old, bore("1", 80))
		}, "81.00* 80.00* ", nil},
		{"withdrawn", func(b *book) { b.say(&EntryWithdrawn{Target: b.say(bore("1", 80))}) }, "", nil},
		{"withdrawn and brought back", func(b *book) {
			b.say(&EntryWithdrawn{Target: b.say(&EntryWithdrawn{Target: b.say(bore("1", 80))})})
		}, "80.00* ", nil},
		{"brought back and withdrawn again", func(b *book) {
			b.say(&EntryWithdrawn{Target: b.say(&EntryWithdrawn{Target: b.say(&EntryWithdrawn{Target: b.say(bore("1", 80))})})})
		}, "", nil},
		{"the correction withdrawn: the first word counts", func(b *book) {
			b.say(&EntryWithdrawn{Target: b.correct(b.say(bore("1", 81)), bore("1", 80))})
		}, "81.00* ", nil},
		{"a correction recorded after the rework stays before it", func(b *book) {
			old := b.say(bore("1", 81))
			b.say(rebore(), bore("1", 80.25))
			b.correct(old, bore("1", 80))
		}, "80.00 80.25* ", nil},
		{"a chain of corrections stays before it", func(b *book) {
			old := b.say(bore("1", 82))
			b.say(rebore())
			b.correct(b.correct(old, bore("1", 81)), bore("1", 80))
		}, "80.00 ", nil},
		{"read offline before the rework, come in after it", func(b *book) {
			b.say(rebore(), bore("1", 80.25))
			b.late(18.5, "p1", bore("1", 80.05))
		}, "80.05 80.25* ", nil},
		{"the rework withdrawn: all count", func(b *book) {
			b.say(bore("1", 80))
			done := b.say(rebore())
			b.say(bore("1", 80.25), &EntryWithdrawn{Target: done})
		}, "80.00* 80.25* ", nil},
		{"two that undo each other", func(b *book) {
			b.say(bore("1", 80), &EntryWithdrawn{Target: "e00021"}, &EntryWithdrawn{Target: "e00020"})
		}, "80.00* ", []string{"undo each other", "undo each other"}},
		{"three in a ring all stay", func(b *book) {
			b.correct("e00021", bore("1", 80))
			b.correct("e00019", bore("1", 81))
			b.correct("e00020", bore("1", 82))
			// e00019 is superseded by e00020, that by e00021, and that by e00019
		}, "80.00* 81.00* 82.00* ", []string{"in a ring", "in a ring", "in a ring"}},
		{"a ring settled from outside", func(b *book) {
			b.correct("e00020", bore("1", 80))
			b.correct("e00019", bore("1", 81))
			b.say(&EntryWithdrawn{Target: "e00019"})
		}, "81.00* ", nil},
		{"a long ring settled from outside", func(b *book) {
			b.correct("e00021", bore("1", 80))
			b.correct("e00019", bore("1", 81))
			b.correct("e00020", bore("1", 82))
			b.say(&EntryWithdrawn{Target: "e00019"}, &EntryWithdrawn{Target: "e00021"})
		}, "81.00* ", nil},
		{"a chain that leads into a ring", func(b *book) {
			b.correct("e00020", bore("1", 80))
			b.correct("e00019", bore("1", 81))
			b.correct(b.correct("e00020", bore("1", 82)), bore("1", 83))
		}, "80.00* 83.00* ", nil},
		{"the middle of a chain withdrawn: the last word stays the last", func(b *book) {
			second := b.correct(b.say(bore("1", 82)), bore("1", 81))
			b.correct(second, bore("1", 80))
			b.say(&EntryWithdrawn{Target: second})
		}, "80.00* ", nil},
		{"both corrections of a chain withdrawn", func(b *book) {
			second := b.correct(b.say(bore("1", 82)), bore("1", 81))
			third := b.correct(second, bore("1", 80))
			b.say(&EntryWithdrawn{Target: second}, &EntryWithdrawn{Target: third})
		}, "82.00* ", nil},
		{"a correction that withdraws what it corrects is withdrawn by it", func(b *book) {
			b.say(bore("1", 80))
			w := b.say(&EntryWithdrawn{Target: "e00021"})
			b.correct(w, bore("1", 81))
		}, "80.00* 81.00* ", []string{"undo each other", "undo each other"}},
		{"what hangs on a ring falls", func(b *book) {
			b.say(bore("1", 80))
			b.say(&EntryWithdrawn{Target: "e00021"})
			b.correct("e00020", &EntryWithdrawn{Target: "e00019"})
		}, "", []string{"undo each other", "undo each other"}},
		{"a withdrawal corrected to another target does both", func(b *book) {
			first, second := b.say(bore("1", 80)), b.say(bore("1", 81))
			b.correct(b.say(&EntryWithdrawn{Target: first}), &EntryWithdrawn{Target: second})
		}, "80.00* ", nil},
		{"undoes itself", func(b *book) { b.say(bore("1", 80), &EntryWithdrawn{Target: "e00020"}) }, "80.00* ", []string{"undoes itself"}},
		{"undoes what is not there", func(b *book) {
			b.say(bore("1", 80), &EntryWithdrawn{Target: "elsewhere"})
			b.correct("elsewhere too", bore("1", 81))
		}, "80.00* 81.00* ", []string{`entry "elsewhere"`, `entry "elsewhere too"`}},
		{"the same entry twice", func(b *book) {
			b.say(bore("1", 80))
			b.entries = append(b.entries, b.entries[len(b.entries)-1])
		}, "80.00* ", nil},
		{"two entries under one id", func(b *book) {
			b.say(bore("1", 80))
			other := b.entries[len(b.entries)-1]
			other.Body = bore("1", 81)
			b.entries = append(b.entries, other)
		}, "80.00* ", []string{"two different entries carry one id"}},
	}
	for _, r := range rows {
		t.Run(r.name, func(t *testing.T) {
			b := engine()
			r.say(b)
			m := Fold(b.entries)
			if got := values(m.Feature("liner.1/bore")); got != r.want {
				t.Errorf("readings %q, want %q", got, r.want)
			}
			questions(t, m, r.asks...)
		})
	}
}

// TestCorrectionKeepsItsPlace: a correction does not come after what followed
// the entry it corrects.
func TestCorrectionKeepsItsPlace(t *testing.T) {
	b := engine()
	opened := b.say(&JointOpened{Joint: "big-end.1", Tray: "3"})
	closed := b.say(&JointClosed{Joint: "big-end.1", As: Final})
	order := b.say(&Ordered{Order: "o", What: "shells"})
	b.say(&Received{Order: "o"})
	b.correct(opened, &JointOpened{Joint: "big-end.1", Tray: "4"})
	b.correct(order, &Ordered{Order: "o", What: "bearing shells"})
	b.correct("e00013", &JointAdded{ID: "seat", Name: "Valve seat", Assembly: "engine", Places: "valve", Parts: []PartID{"valve"}})
	m := Fold(b.entries)
	questions(t, m)
	j := m.Joint("big-end.1")
	if j.State != Closed || len(j.Removals) != 1 || j.Removals[0].Tray != "4" || j.Closings[0].Entry != closed {
		t.Errorf("joint: %q, %+v", j.State, j.Removals)
	}
	if o := m.Order("o"); o.What != "bearing shells" || o.Received == nil {
		t.Errorf("order: %+v", o)
	}
	if got := m.Joint("seat.in-1"); got == nil || got.Name != "Valve seat, valve in-1" || len(m.Joints) != 7 {
		t.Errorf("the corrected joint: %+v of %d", got, len(m.Joints))
	}
}

// TestVersions: what a remedy done opens again.
func TestVersions(t *testing.T) {
	b := engine()
	b.say(bore("1", 80.2), bore("2", 80.2), &ReadingTaken{Check: "side-play.1", Amount: mm(0.2)}, &LookTaken{Check: "bore-wear.1", OK: true},
		&LookTaken{Check: "leak.in-1", OK: true}, &LookTaken{Check: "leak.in-2", OK: true}, rebore())
	m := Fold(b.entries)
	questions(t, m)
	for id, want := range map[CheckID]int{"bore-wear.1": 1, "side-play.1": 1, "bore-wear.2": 0, "side-play.2": 0, "leak.in-1": 0} {
		if got := m.Check(id).Version; got != want {
			t.Errorf("rework: %s is at version %d, want %d", id, got, want)
		}
	}
	if f := m.Feature("liner.1/bore"); f.Version != 1 || len(f.Current()) != 0 || len(f.Readings) != 1 {
		t.Errorf("rework: bore at version %d with %d of %d readings", f.Version, len(f.Current()), len(f.Readings))
	}
	if m.Check("bore-wear.1").Look() != nil || m.Check("leak.in-1").Look() == nil {
		t.Error("rework: a look of before still counts, or one that was not touched does not")
	}
	b.say(&RemedyDone{Check: "bore-wear.2", Key: "new", Renewed: []PartID{"liner.2"}})
	m = Fold(b.entries)
	for id, want := range map[CheckID]int{"bore-wear.2": 1, "leak.in-2": 1, "leak.ex-2": 1, "leak.in-1": 0, "side-play.2": 0, "bore-wear.1": 1} {
		if got := m.Check(id).Version; got != want {
			t.Errorf("renewal: %s is at version %d, want %d", id, got, want)
		}
	}
	if p := m.Part("liner.2"); p.Version != 1 || p.Tray != NoTray || m.Feature("liner.2/bore").Version != 1 || m.Part("liner.1").Version != 0 {
		t.Errorf("renewal: part at version %d", p.Version)
	}
}

// TestReworkOpensTheLooksOnItsSurface: also where the remedy names no check.
func TestReworkOpensTheLooksOnItsSurface(t *testing.T) {
	b := engine()
	b.say(&CheckAdded{ID: "fit", Name: "Fit", Assembly: "engine", Places: "cylinder", When: Apart, By: ByEye, Inner: "liner/bore"}, &LookTaken{Check: "fit.1", OK: true},
		&CheckAdded{ID: "scores", Name: "No scores", Assembly: "engine", Places: "cylinder", When: Apart, By: ByEye, Outer: "liner/bore"},
		&LookTaken{Check: "scores.1", OK: true}, &LookTaken{Check: "scores.2", OK: true}, rebore())
	m := Fold(b.entries)
	questions(t, m)
	if m.Check("fit.1").Look() != nil || m.Check("scores.1").Look() != nil || m.Check("scores.2").Look() == nil {
		t.Error("a look at a surface of before the rework still counts")
	}
	b.say(&RemedyDone{Check: "bore-wear.2", Key: "new", Renewed: []PartID{"liner.2"}})
	if Fold(b.entries).Check("scores.2").Look() != nil {
		t.Error("a look at a surface of the old part still counts")
	}
}

// TestUndoneReadingsStayInSight: a withdrawn reading and a corrected one are
// listed as undone; bringing one back takes it off the list.
func TestUndoneReadingsStayInSight(t *testing.T) {
	at := time.Date(2026, 5, 1, 8, 0, 0, 0, time.UTC)
	entry := func(id, supersedes string, minute int, b Body) Entry {
		return Entry{ID: EntryID(id), Supersedes: EntryID(supersedes), At: at.Add(time.Duration(minute) * time.Minute), By: "A", Body: b}
	}
	read := func(mm float64) Body {
		return &ReadingTaken{Check: "gap", Amount: Amount{Value: mm, Unit: "mm"}}
	}
	log := []Entry{
		entry("c", "", 0, &CheckAdded{ID: "gap", Name: "Gap", When: Apart, By: ByReading, Unit: "mm"}),
		entry("r1", "", 1, read(0.1)), entry("r2", "", 2, read(0.2)), entry("r3", "", 3, read(0.3)),
		entry("w1", "", 4, &EntryWithdrawn{Target: "r1"}), entry("r4", "r2", 5, read(0.4)), entry("w3", "", 6, &EntryWithdrawn{Target: "r3"}),
		entry("b3", "", 7, &EntryWithdrawn{Target: "w3"}),
	}
	m := Fold(log)
	var undone []string
	for _, e := range m.Undone {
		undone = append(undone, string(e.Entry))
	}
	if strings.Join(undone, " ") != "r1 r2" || len(m.Check("gap").Readings) != 2 {
		t.Errorf("undone are %v and %d readings count; want r1 r2 and two", undone, len(m.Check("gap").Readings))
	}
}
