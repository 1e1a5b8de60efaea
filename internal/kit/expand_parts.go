package kit

import (
	"fmt"

	"matchmark/internal/machine"
)

// findParts settles which parts are there, before any is declared.
func (x *expander) findParts(t *taken) error {
	for i, p := range t.sheet.Parts {
		path, name := at("part", i), "part "+quote(p.ID)
		ok, err := x.stands(t, seat{path, name, p.Only, p.Assembly, p.Places})
		if err != nil {
			return err
		}
		if !ok {
			continue
		}
		n, ok, err := x.pieces(t, path, name, p)
		if err != nil {
			return err
		}
		if ok && n > 0 {
			x.add(aPart, p.ID)
		}
	}
	return nil
}

// pieces works out how many pieces of a part lie at each place; 1 where the
// file does not say.
func (x *expander) pieces(t *taken, path, name string, p Part) (int, bool, error) {
	if p.Qty == "" {
		return 1, true, nil
	}
	n, ok, err := x.count(t, path+".qty", name, p.Qty)
	if err == nil && n > mostPieces {
		err = broken(t, path+".qty", name, fmt.Errorf("%d pieces are too many; at most %d", n, mostPieces))
	}
	return n, ok, err
}

func (x *expander) addParts(t *taken) error {
	for i, p := range t.sheet.Parts {
		if !x.has(aPart, p.ID) || x.shadowed(t, aPart, p.ID, i) {
			continue
		}
		n, _, err := x.pieces(t, at("part", i), "part "+quote(p.ID), p)
		if err != nil {
			return err
		}
		x.bodies = append(x.bodies, &machine.PartAdded{ID: machine.PartID(p.ID), Name: p.Name, Assembly: machine.AssemblyID(p.Assembly),
			Places: machine.Family(p.Places), Qty: n, Material: p.Material, Faults: p.Faults, Hazards: p.Hazards,
			OneUse: p.OneUse, MassKg: p.MassKg})
	}
	return nil
}

// shadowed tells a second declaration of an id: the first counts.
func (x *expander) shadowed(t *taken, n noun, id string, i int) bool {
	first := x.index.first[n][id]
	return first.sheet != t.sheet || first.at != i
}

func (x *expander) addFeatures(t *taken) error {
	for i, p := range t.sheet.Parts {
		if !x.has(aPart, p.ID) || x.shadowed(t, aPart, p.ID, i) {
			continue
		}
		for _, f := range p.Features {
			if x.has(aFeature, p.ID+"/"+f.ID) {
				continue
			}
			x.add(aFeature, p.ID+"/"+f.ID, x.surface(p, f)...)
		}
	}
	return nil
}

// surface declares a feature, once for each place where it is spread.
func (x *expander) surface(p Part, f Feature) []machine.Body {
	b := machine.FeatureAdded{Part: machine.PartID(p.ID), Feature: f.ID, Name: f.Name, Sort: f.Sort,
		Levels: f.Levels, Axes: f.Axes, Unworn: f.Unworn, Nominal: f.Nominal, Tool: f.Tool}
	for _, family := range x.spread[p.ID+"/"+f.ID] {
		if places, ok := x.families[family]; ok {
			return spreadOut(b, places)
		}
	}
	return []machine.Body{&b}
}

// findJoints settles which joints are there.
func (x *expander) findJoints(t *taken) error {
	for i, j := range t.sheet.Joints {
		path, name := at("joint", i), "joint "+quote(j.ID)
		ok, err := x.stands(t, seat{path, name, j.Only, j.Assembly, j.Places})
		if err != nil {
			return err
		}
		if !ok || x.shadowed(t, aJoint, j.ID, i) {
			continue
		}
		parts := standing[machine.PartID](x, aPart, j.Parts)
		if len(parts) == 0 && len(j.Parts) > 0 {
			x.note(t, name, "left out: none of its parts is on the machine")
			continue
		}
		if len(parts) < 2 && len(parts) < len(j.Parts) && !standsAlone(j.Sort) {
			x.note(t, name, "only %s of its parts is on the machine; add what it is joined to, or withdraw it", parts[0])
		}
		x.add(aJoint, j.ID)
	}
	return nil
}

func (x *expander) addJoints(t *taken) error {
	for i, j := range t.sheet.Joints {
		if !x.has(aJoint, j.ID) || x.shadowed(t, aJoint, j.ID, i) {
			continue
		}
		layout, err := x.layout(t, at("joint", i), "joint "+quote(j.ID), j.Layout)
		if err != nil {
			return err
		}
		reckon, err := x.reckonings(t, at("joint", i), "joint "+quote(j.ID), j.Reckon)
		if err != nil {
			return err
		}
		into := j.Into
		if !x.has(aPart, into) {
			into = ""
		}
		x.bodies = append(x.bodies, &machine.JointAdded{ID: machine.JointID(j.ID), Name: j.Name, Assembly: machine.AssemblyID(j.Assembly),
			Sort: j.Sort, Places: machine.Family(j.Places), Parts: standing[machine.PartID](x, aPart, j.Parts), Reach: x.reach(&j),
			Fasteners: j.Fasteners, Shims: j.Shims, AtBuild: j.AtBuild, Tighten: j.Tighten, AsFound: j.AsFound,
			Thread: j.Thread, Grade: j.Grade, Layout: layout, Into: machine.PartID(into), Thicker: j.Thicker,
			Hazards: j.Hazards, OneWay: j.OneWay, Dry: j.Dry, Life: j.Life, Hours: j.Hours, Reckon: reckon})
	}
	return nil
}

// reach gives the ways into a joint with what is left of their blockers. A
// way without any is free, and then nothing is in the way at all.
func (x *expander) reach(j *Joint) [][]machine.JointID {
	var out [][]machine.JointID
	for _, way := range j.ways() {
		ids := standing[machine.JointID](x, aJoint, way)
		if len(ids) == 0 {
			return nil
		}
		out = append(out, ids)
	}
	return out
}

// noteLooseParts names the parts whose joints are all left out.
func (x *expander) noteLooseParts(t *taken) error {
	held := map[string]bool{}
	for _, o := range x.all {
		for _, j := range o.sheet.Joints {
			if x.has(aJoint, j.ID) {
				for _, p := range j.Parts {
					held[p] = true
				}
			}
		}
	}
	for _, p := range t.sheet.Parts {
		if x.has(aPart, p.ID) && !held[p.ID] {
			x.note(t, "part "+quote(p.ID), "no joint of it is on the machine, so a left-over piece would not be noticed; add the joint it goes back with")
		}
	}
	return nil
}
