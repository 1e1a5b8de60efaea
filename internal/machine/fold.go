package machine

import (
	"fmt"
	"slices"
	"strings"
)

// Fold rebuilds the machine from its log.
//
// It is total: any slice of entries gives a Machine, and what cannot be placed
// is listed as a Question. It is deterministic and does not depend on the
// order of the slice: entries speak in the order of (At, ID), those that
// declare the machine first. A correction speaks in the place of the entry it
// supersedes. The same id twice counts once.
// Cost: linear in the entries, apart from the sort.
func Fold(entries []Entry) *Machine {
	f := &folder{m: &Machine{}}
	seq := f.arrange(entries)
	speaks := f.live(seq)
	d := declare(seq.declaring(speaks))
	return f.bench(seq, speaks, d, d.m)
}

// Again gives what Fold gives. before is the machine as an earlier part of the
// log gave it, by Fold or Again, or nil: where the declaring facts are still the
// same, what they came to is copied and not placed once more. before is not
// changed.
func Again(entries []Entry, before *Machine) *Machine {
	f := &folder{m: &Machine{}}
	seq := f.arrange(entries)
	speaks := f.live(seq)
	facts := seq.declaring(speaks)
	var d *declared
	if before != nil && before.base != nil && before.base.by(facts) {
		d = before.base
	} else {
		d = declare(facts)
	}
	m := f.bench(seq, speaks, d, d.copy())
	m.base = d
	return m
}

// bench tells the declared machine m what happened to it.
func (f *folder) bench(seq *sequence, speaks []bool, d *declared, m *Machine) *Machine {
	m.Questions = slices.Concat(f.m.Questions, m.Questions)
	f.m, f.kinds = m, d.kinds
	m.orders = map[OrderID]*Order{}
	m.Entries = len(seq.entries)
	m.Events = make([]Event, 0, len(speaks)-len(d.facts))
	for n := range speaks {
		i := seq.next(n)
		e := seq.entries[i]
		if speaks[i] {
			f.event(e)
		} else if _, reading := e.Body.(*ReadingTaken); reading {
			m.Undone = append(m.Undone, Event{stamp(e), e.Body})
		}
		if e.At.After(m.Last) {
			m.Last = e.At
		}
	}
	f.finish()
	return m
}

// folder carries what only building needs.
type folder struct {
	m *Machine
	kinds
	readings []Reading // room for the next ones, made many at a time
	stated   bool      // some reading says which others were known where it was taken
	agreed   [][]EntryID
}

// kinds are the instances of every type. Once all is declared only their number
// is asked for.
type kinds struct {
	partTypes  map[PartID]kin[*Part]
	jointTypes map[JointID]kin[*Joint]
	checkTypes map[CheckID]kin[*Check]
}

// ask records a question about an entry.
func (f *folder) ask(e Entry, about Ref, format string, args ...any) {
	f.m.Questions = append(f.m.Questions, Question{Entry: e.ID, Seq: e.Seq, At: e.At, By: e.By,
		Kind: e.Kind(), About: about, Text: fmt.Sprintf(format, args...)})
}

func stamp(e Entry) Stamp { return Stamp{Entry: e.ID, At: e.At, By: e.By} }

// finish sorts questions, finds clashes and fills the trays.
func (f *folder) finish() {
	slices.SortStableFunc(f.m.Questions, func(a, b Question) int {
		if c := a.At.Compare(b.At); c != 0 {
			return c
		}
		return strings.Compare(string(a.Entry)+a.Text, string(b.Entry)+b.Text)
	})
	f.findClashes()
	f.fillTrays()
}

// tray finds a tray by its mark, or adds it.
func (f *folder) tray(mark string) *Tray {
	i := slices.IndexFunc(f.m.Trays, func(t Tray) bool { return t.Mark == mark })
	if i < 0 {
		i = len(f.m.Trays)
		f.m.Trays = append(f.m.Trays, Tray{Mark: mark})
	}
	return &f.m.Trays[i]
}

// fillTrays groups what lies off the machine by tray mark: made trays and
// those that something lies in, in the order of their marks.
func (f *folder) fillTrays() {
	for _, j := range f.m.Joints {
		if j.State != Open || len(j.Removals) == 0 {
			continue
		}
		r := j.Removals[len(j.Removals)-1]
		if r.Tray != "" && len(r.Fasteners)+len(r.Shims) > 0 {
			t := f.tray(r.Tray)
			t.Fasteners = append(t.Fasteners, TrayFasteners{Joint: j, Sets: r.Fasteners, Shims: r.Shims})
		}
	}
	for _, p := range f.m.Parts {
		if p.Tray != "" {
			t := f.tray(p.Tray)
			t.Parts = append(t.Parts, p)
		}
	}
	slices.SortStableFunc(f.m.Trays, func(a, b Tray) int { return compareMarks(a.Mark, b.Mark) })
}

// compareMarks orders tray marks by length and then by letters, so that 9
// comes before 10.
func compareMarks(a, b string) int {
	if len(a) != len(b) {
		return len(a) - len(b)
	}
	return strings.Compare(a, b)
}
