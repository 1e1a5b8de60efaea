package kit

import (
	"errors"
	"fmt"
	"slices"

	"matchmark/internal/machine"
	"matchmark/internal/trade/formula"
)

// Note is something a person should know about a taking: what was left out,
// and what hangs in the air because of it.
type Note struct {
	Kit  string
	Item string // `joint "pump-block"`
	Text string
}

// Expand turns kits into the facts that declare a machine, in the order in
// which Fold leans on them: kits, places, data, assemblies, parts, features,
// joints, checks, tests, cleaning, symptoms. Within each, the order is that of
// the sheets and of their files.
//
// An item whose `only` does not hold is left out, and so is one that sits in
// an assembly, a family of places or a count that is not there. References to
// what is left out, or to kits not taken, are dropped. A joint needs one part
// that is there, a check needs a joint or part and the surfaces it compares; a
// remedy that lost every part and surface it works on is left out, and a way
// into a joint whose blockers are all gone is a free way. Notes say where
// this matters.
//
// The sheets should be without faults; of others it may give an error, or a
// machine that Fold asks questions about, but it does not panic.
// Errors: TakingError for counts and choices that do not fit; Fault for what
// cannot be worked out.
// Cost: linear in the items and their references.
func Expand(sheets []*Sheet, take Taking) ([]machine.Body, []Note, error) {
	all, err := settle(sheets, take)
	if err != nil {
		return nil, nil, err
	}
	x := &expander{all: all, index: newIndex(sheets), there: map[noun]map[string]bool{}, families: map[string]machine.Places{}}
	x.spread = spreads(sheets, x.index)
	for _, t := range all {
		x.bodies = append(x.bodies, &machine.KitTaken{Kit: t.sheet.Kit.ID, Title: t.sheet.Kit.Title,
			Edition: t.sheet.Kit.Edition, Counts: t.counts, Choices: t.choices})
	}
	stages := []func(*taken) error{x.addFamilies, x.addData, x.addAssemblies, x.findParts, x.addParts, x.addFeatures,
		x.findJoints, x.findChecks, x.addJoints, x.noteLooseParts, x.addChecks, x.findTests, x.addTests, x.addCleaning, x.addSymptoms}
	for _, stage := range stages {
		for _, t := range all {
			if err := stage(t); err != nil {
				return nil, nil, err
			}
		}
	}
	return x.bodies, x.notes, nil
}

// expander gathers the bodies and knows what is there.
type expander struct {
	all      []*taken
	index    *index
	spread   map[string][]string // see spreads
	there    map[noun]map[string]bool
	families map[string]machine.Places
	bodies   []machine.Body
	notes    []Note
}

func (x *expander) add(n noun, id string, b ...machine.Body) {
	if x.there[n] == nil {
		x.there[n] = map[string]bool{}
	}
	x.there[n][id] = true
	x.bodies = append(x.bodies, b...)
}

func (x *expander) has(n noun, id string) bool { return x.there[n][id] }

func (x *expander) note(t *taken, item, format string, args ...any) {
	x.notes = append(x.notes, Note{t.sheet.Kit.ID, item, fmt.Sprintf(format, args...)})
}

// broken is the error of an item that cannot be worked out.
func broken(t *taken, path, name string, err error) error {
	return brokenItem{Fault{t.sheet.Name, t.sheet.Lines.Of(path), name, err.Error(), ""}}
}

// brokenItem is a fault met while expanding.
type brokenItem struct{ Fault }

func (b brokenItem) Error() string { return b.String() }

// seat is what decides whether an item is there at all.
type seat struct{ path, name, only, assembly, places string }

// stands tells whether an item belongs to this machine. Where it falls because
// another kit is not taken, a note says so.
func (x *expander) stands(t *taken, s seat) (bool, error) {
	list, err := conditions(s.only)
	if err != nil {
		return false, broken(t, s.path+".only", s.name, err)
	}
	for _, c := range list {
		if _, ok := t.seenChoices[c.Choice]; !ok {
			x.note(t, s.name, "left out: it depends on choice %q, whose kit is not taken", c.Choice)
			return false, nil
		}
	}
	if !holds(list, t.seenChoices) {
		return false, nil
	}
	for _, seat := range []struct {
		noun noun
		id   string
	}{{anAssem, s.assembly}, {aFamily, s.places}} {
		if seat.id == "" || x.has(seat.noun, seat.id) {
			continue
		}
		if _, known := x.index.first[seat.noun][seat.id]; !known {
			x.note(t, s.name, "left out: it sits in %s %q, whose kit is not taken", seat.noun, seat.id)
		}
		return false, nil
	}
	return true, nil
}

// count works out a count formula. ok is false where it names a count of a kit
// that is not taken; a note says so.
func (x *expander) count(t *taken, path, name, text string) (n int, ok bool, err error) {
	n, err = whole(text, t.seenCounts)
	var missing formula.MissingError
	if errors.As(err, &missing) {
		x.note(t, name, "left out: it depends on count %q, whose kit is not taken", missing.Name)
		return 0, false, nil
	}
	if err != nil {
		return 0, false, broken(t, path, name, err)
	}
	return n, true, nil
}

// ref points at an id that may be of a check, a joint or a part, in this
// order; empty where none is there.
func (x *expander) ref(id string) machine.Ref {
	switch {
	case x.has(aCheck, id):
		return machine.RefCheck(machine.CheckID(id))
	case x.has(aJoint, id):
		return machine.RefJoint(machine.JointID(id))
	case x.has(aPart, id):
		return machine.RefPart(machine.PartID(id))
	}
	return ""
}

// standing keeps the ids that are there, as the id type of the machine.
func standing[T ~string](x *expander, n noun, ids []string) []T {
	var out []T
	for _, id := range ids {
		if x.has(n, id) && !slices.Contains(out, T(id)) {
			out = append(out, T(id))
		}
	}
	return out
}
