package kit

import (
	"slices"

	"matchmark/internal/machine"
)

// findTests settles which tests are there.
func (x *expander) findTests(t *taken) error {
	for i, v := range t.sheet.Tests {
		ok, err := x.stands(t, seat{path: at("test", i), name: "test " + quote(v.ID), only: v.Only})
		if err != nil {
			return err
		}
		if ok && !x.shadowed(t, aTest, v.ID, i) {
			x.add(aTest, v.ID)
		}
	}
	return nil
}

func (x *expander) addTests(t *taken) error {
	for i, v := range t.sheet.Tests {
		if !x.has(aTest, v.ID) || x.shadowed(t, aTest, v.ID, i) {
			continue
		}
		reckon, err := x.reckonings(t, at("test", i), "test "+quote(v.ID), v.Reckon)
		if err != nil {
			return err
		}
		b := &machine.TestAdded{ID: machine.TestID(v.ID), Name: v.Name, System: v.System, Order: v.Order, Needs: x.needs(v),
			Do: v.Do, Pass: v.Pass, Tool: v.Tool, From: machine.Provenance(v.From), Source: v.Source, Caution: v.Caution,
			Hazards: v.Hazards, Life: v.Life, Reckon: reckon}
		for _, id := range v.Points {
			if ref := x.ref(id); ref != "" {
				b.Points = append(b.Points, ref)
			}
		}
		x.bodies = append(x.bodies, b)
	}
	return nil
}

// needs lists the tests that must have passed. A test that is left out hands
// on its own needs, so that a chain of gates does not fall apart.
func (x *expander) needs(v Test) []machine.TestID {
	var out []machine.TestID
	seen := map[string]bool{v.ID: true}
	list := slices.Clone(v.Needs)
	for len(list) > 0 {
		id := list[0]
		list = list[1:]
		if seen[id] {
			continue
		}
		seen[id] = true
		if x.has(aTest, id) {
			out = append(out, machine.TestID(id))
		} else if it, ok := x.index.first[aTest][id]; ok {
			list = append(list, it.sheet.Tests[it.at].Needs...)
		}
	}
	return out
}

// addCleaning declares what may touch what; a rule for parts that are all left
// out is left out with them.
func (x *expander) addCleaning(t *taken) error {
	for i, v := range t.sheet.Cleaning {
		parts := standing[machine.PartID](x, aPart, v.For)
		if len(parts) == 0 && len(v.For) > 0 || x.shadowed(t, aCleaning, v.ID, i) {
			continue
		}
		b := &machine.CleaningAdded{ID: v.ID, For: parts, Permitted: v.Permitted}
		for _, f := range v.Forbidden {
			b.Forbidden = append(b.Forbidden, machine.Forbid(f))
		}
		x.add(aCleaning, v.ID, b)
	}
	return nil
}

// addSymptoms declares the symptoms that have a suspect left.
func (x *expander) addSymptoms(t *taken) error {
	for i, v := range t.sheet.Symptoms {
		b := &machine.SymptomAdded{ID: v.ID, Text: v.Text, When: v.When, Next: v.Next}
		for _, s := range v.Suspects {
			if ref := x.ref(s.Of); ref != "" {
				b.Suspects = append(b.Suspects, machine.Suspect{Of: ref, Weight: s.Weight, Words: s.Words})
			}
		}
		if len(b.Suspects) > 0 && !x.shadowed(t, aSymptom, v.ID, i) {
			x.add(aSymptom, v.ID, b)
		}
	}
	return nil
}
