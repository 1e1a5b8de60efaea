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
	room := min(len(entries), 512) // a machine has some hundreds of each
	f := &folder{m: &Machine{
		parts: make(map[PartID]*Part, room), features: make(map[FeatureID]*Feature, room),
		joints: make(map[JointID]*Joint, room), checks: make(map[CheckID]*Check, room),
		tests: map[TestID]*Test{}, orders: map[OrderID]*Order{}, data: map[string]*Datum{}, atlas: atlas{}},
		partTypes: map[PartID]kin[*Part]{}, jointTypes: map[JointID]kin[*Joint]{}, checkTypes: map[CheckID]kin[*Check]{}}
	seq := f.arrange(entries)
	speaks := f.live(seq)
	f.m.Entries = len(seq.entries)
	declared := f.structure(seq, speaks)
	f.m.Events = make([]Event, 0, len(speaks)-declared)
	for n := range speaks {
		i := seq.next(n)
		e := seq.entries[i]
		if speaks[i] {
			f.event(e)
		}
		if e.At.After(f.m.Last) {
			f.m.Last = e.At
		}
	}
	f.finish()
	return f.m
}

// folder carries what only building needs.
type folder struct {
	m          *Machine
	partTypes  map[PartID]kin[*Part]
	jointTypes map[JointID]kin[*Joint]
	checkTypes map[CheckID]kin[*Check]
	readings   []Reading // room for the next ones, made many at a time
	stated     bool      // some reading says which others were known where it was taken
	agreed     [][]EntryID
}

// ask records a question about an entry.
func (f *folder) ask(e Entry, about Ref, format string, args ...any) {
	f.m.Questions = append(f.m.Questions, Question{Entry: e.ID, Seq: e.Seq, At: e.At, By: e.By,
		Kind: e.Kind(), About: about, Text: fmt.Sprintf(format, args...)})
}

func stamp(e Entry) Stamp { return Stamp{Entry: e.ID, At: e.At, By: e.By} }

// finish puts limits in rank, sorts questions and fills the trays.
func (f *folder) finish() {
	for _, c := range f.m.Checks {
		slices.SortStableFunc(c.Limits, func(a, b Limit) int { return a.From.Rank() - b.From.Rank() })
	}
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
