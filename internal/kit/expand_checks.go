package kit

import "matchmark/internal/machine"

// findChecks settles which checks are there.
func (x *expander) findChecks(t *taken) error {
	for i, k := range t.sheet.Checks {
		path, name := at("check", i), "check "+quote(k.ID)
		ok, err := x.stands(t, seat{path, name, k.Only, k.Assembly, k.Places})
		if err != nil {
			return err
		}
		if !ok || x.shadowed(t, aCheck, k.ID, i) {
			continue
		}
		if len(standing[string](x, aJoint, k.Joints))+len(standing[string](x, aPart, k.Parts)) == 0 {
			x.note(t, name, "left out: nothing it hangs on is on the machine")
			continue
		}
		if lost := x.lostSurface(k); lost != "" {
			x.note(t, name, "left out: surface %s is not on the machine", lost)
			continue
		}
		x.add(aCheck, k.ID)
	}
	return nil
}

// surfaces lists the surfaces a check is worked out from, as named.
func (k Check) surfaces() []string {
	out := []string{k.Outer, k.Inner}
	for _, s := range k.Terms {
		out = append(out, s.Feature)
	}
	return out
}

// lostSurface is a surface the check compares that is not there.
func (x *expander) lostSurface(k Check) string {
	for _, id := range k.surfaces() {
		if id != "" && !x.has(aFeature, id) {
			return id
		}
	}
	return ""
}

func (x *expander) addChecks(t *taken) error {
	for i, k := range t.sheet.Checks {
		if !x.has(aCheck, k.ID) || x.shadowed(t, aCheck, k.ID, i) {
			continue
		}
		reckon, err := x.reckonings(t, at("check", i), "check "+quote(k.ID), k.Reckon)
		if err != nil {
			return err
		}
		b := &machine.CheckAdded{ID: machine.CheckID(k.ID), Name: k.Name, Assembly: machine.AssemblyID(k.Assembly),
			Places: machine.Family(k.Places), Joints: standing[machine.JointID](x, aJoint, k.Joints),
			Parts: standing[machine.PartID](x, aPart, k.Parts), When: k.When, Dry: k.Dry, By: k.By,
			Outer: machine.FeatureID(k.Outer), Inner: machine.FeatureID(k.Inner), Unit: k.Unit, Says: k.Says, How: k.How,
			Tool: k.Tool, Repeats: k.Repeats, Size: x.size(t, k), HiddenBy: standing[machine.JointID](x, aJoint, k.HiddenBy),
			Hazards: k.Hazards, Life: k.Life, Reckon: reckon}
		for _, s := range k.Terms {
			b.Terms = append(b.Terms, machine.Term{Feature: machine.FeatureID(s.Feature), Times: s.Times})
		}
		for _, l := range k.Limits {
			b.Limits = append(b.Limits, machine.Limit{NewLow: l.NewLow, NewHigh: l.NewHigh, Low: l.Low, High: l.High,
				NewWords: l.NewWords, WornWords: l.WornWords, From: machine.Provenance(l.From), Source: l.Source, Find: l.Find})
		}
		for _, r := range k.Remedies {
			if x.possible(r) {
				b.Remedies = append(b.Remedies, x.remedy(r))
			}
		}
		x.bodies = append(x.bodies, b)
	}
	return nil
}

// size is where the letter of the formulas gets its value; a feature that is
// not there is dropped, so that the person is asked for the figure.
func (x *expander) size(t *taken, k Check) *machine.SizeSource {
	if k.Size == nil {
		return nil
	}
	z := &machine.SizeSource{Symbol: k.Size.Symbol, Feature: machine.FeatureID(k.Size.Feature), Datum: k.Size.Datum, Meaning: k.Size.Meaning}
	if z.Feature != "" && !x.has(aFeature, k.Size.Feature) {
		z.Feature = ""
		x.note(t, "check "+quote(k.ID), "surface %s, the size of its limit, is not on the machine", k.Size.Feature)
	}
	if z.Datum != "" && !x.has(aDatum, z.Datum) {
		z.Datum = ""
		x.note(t, "check "+quote(k.ID), "datum %s, the size of its limit, belongs to a kit that is not taken", k.Size.Datum)
	}
	return z
}

// possible tells whether there is something left that a remedy works on.
func (x *expander) possible(r Remedy) bool {
	return len(r.Renews)+len(r.Reworks) == 0 ||
		len(standing[string](x, aPart, r.Renews))+len(standing[string](x, aFeature, r.Reworks)) > 0
}

func (x *expander) remedy(r Remedy) machine.Remedy {
	out := machine.Remedy{Key: r.Key, Name: r.Name, Cost: r.Cost, Days: r.Days, Where: r.Where, Beware: r.Beware,
		Group: machine.SizeGroup(r.Group), Steps: r.Steps, Odds: r.Odds,
		Renews: standing[machine.PartID](x, aPart, r.Renews), Reworks: standing[machine.FeatureID](x, aFeature, r.Reworks),
		Mends: standing[machine.CheckID](x, aCheck, r.Mends), Opens: standing[machine.CheckID](x, aCheck, r.Opens)}
	for _, s := range r.Shifts {
		if x.has(aCheck, s.Check) {
			out.Shifts = append(out.Shifts, machine.Shift{Check: machine.CheckID(s.Check), By: s.By})
		}
	}
	return out
}
