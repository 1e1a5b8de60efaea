package machine

import (
	"math"
	"slices"
	"strings"
)

// structure places the declaring facts, in the order in which they lean on one
// another, so that the order of the log does not matter.
func (f *folder) structure(facts []Entry) {
	stages := []func(Entry){f.declareGround, f.declareParts, f.declareFeatures, f.declareJoints, f.declareReach,
		f.declareChecks, f.declareHiding, f.declareRest, f.declareReckonings}
	for _, place := range stages {
		for _, e := range facts {
			place(e)
		}
	}
	for _, c := range f.m.Checks {
		slices.SortStableFunc(c.Limits, func(a, b Limit) int { return a.From.Rank() - b.From.Rank() })
	}
}

// declares tells the facts that say what the machine consists of.
func declares(b Body) bool {
	switch b.(type) {
	case *MachineNamed, *KitTaken, *PlacesSet, *DatumSet, *InstrumentSet, *AssemblyAdded, *PartAdded, *FeatureAdded, *JointAdded,
		*CheckAdded, *LimitSet, *TestAdded, *CleaningAdded, *SymptomAdded:
		return true
	}
	return false
}

// declareGround places names, kits, families of places, data and assemblies.
func (f *folder) declareGround(e Entry) {
	m := f.m
	switch b := e.Body.(type) {
	case *MachineNamed:
		m.Name, m.Serial, m.Owner, m.Note, m.Demo = b.Name, b.Serial, b.Owner, b.Note, b.Demo
	case *KitTaken:
		m.Kits = append(m.Kits, *b)
	case *PlacesSet:
		f.declarePlaces(e, b.Places)
	case *DatumSet:
		f.declareDatum(b.Datum)
	case *InstrumentSet:
		f.declareInstrument(e, b.Instrument)
	case *AssemblyAdded:
		for _, a := range m.Assemblies {
			if a.ID == b.ID {
				f.ask(e, "", "assembly %q is on the machine twice; the first counts. Withdraw one", b.ID)
				return
			}
		}
		m.Assemblies = append(m.Assemblies, Assembly{*b, stamp(e)})
	}
}

func (f *folder) declarePlaces(e Entry, p Places) {
	if p.Family == "" || len(p.Labels) == 0 {
		f.ask(e, "", "a family of places needs a name and at least one place")
		return
	}
	if old := f.m.atlas[p.Family]; old != nil {
		f.ask(e, "", "places %q are declared twice; the first counts. Withdraw one", p.Family)
		return
	}
	p = f.soundLabels(e, p)
	f.m.Places = append(f.m.Places, p)
	f.m.atlas[p.Family] = &p
}

// soundLabels leaves out labels that would give two instances one id, or an id
// that cannot be read back.
func (f *folder) soundLabels(e Entry, p Places) Places {
	out := p
	out.Labels, out.Above = nil, nil
	for i, l := range p.Labels {
		if l == "" || strings.ContainsAny(string(l), "/:") || slices.Contains(out.Labels, l) {
			f.ask(e, "", "%q cannot be one of the places %q: each needs a name of its own without / and :", l, p.Family)
			continue
		}
		out.Labels = append(out.Labels, l)
		if i < len(p.Above) {
			out.Above = append(out.Above, p.Above[i])
		}
	}
	return out
}

// declareDatum keeps the first name and unit of a datum, and its latest value.
func (f *folder) declareDatum(d Datum) {
	old := f.m.Datum(d.ID)
	if old == nil {
		f.m.data[d.ID] = len(f.m.Data)
		f.m.Data = append(f.m.Data, d)
		return
	}
	if d.Value != nil {
		old.Value, old.Typed, old.From, old.Source = d.Value, d.Typed, d.From, d.Source
	}
}

// declareInstrument keeps the latest word on an instrument, in the place of the
// first.
func (f *folder) declareInstrument(e Entry, in Instrument) {
	for _, v := range []float64{in.Step, in.HalfWidth, in.Relative, in.Repeat} {
		if !(v >= 0) || math.IsInf(v, 0) {
			f.ask(e, "", "instrument %q has a figure that is none: give steps and limits of error as figures from 0", in.ID)
			return
		}
	}
	if in.ID == "" || in.Unit == "" {
		f.ask(e, "", "an instrument needs a name of its own and the unit it measures in")
		return
	}
	for i := range f.m.Tools {
		if f.m.Tools[i].ID == in.ID {
			f.m.Tools[i] = in
			return
		}
	}
	f.m.Tools = append(f.m.Tools, in)
}

// called puts the place behind a name: "Liner, cylinder 2".
func (f *folder) called(name string, family Family, at Place) string {
	if at == "" {
		return name
	}
	words := string(at)
	if p := f.m.atlas[family]; p != nil && p.Name != "" {
		words = p.Name + " " + words
	}
	return name + ", " + words
}

// badID tells an id that cannot be used as a type id.
func (f *folder) badID(e Entry, id string) bool {
	if id == "" || strings.ContainsAny(id, ".:/ ") {
		f.ask(e, "", "%q cannot be an id: use letters, figures and hyphens only", id)
		return true
	}
	return false
}

func (f *folder) declareParts(e Entry) {
	b, ok := e.Body.(*PartAdded)
	if !ok || f.badID(e, string(b.ID)) {
		return
	}
	if len(f.partTypes[b.ID].all) > 0 {
		f.ask(e, RefPart(b.ID), "part %q is on the machine twice; the first counts. Withdraw one", b.ID)
		return
	}
	kind := kin[*Part]{family: b.Places}
	labels := f.m.atlas.labels(b.Places)
	block := make([]Part, len(labels))
	for i, at := range labels {
		p := &block[i]
		*p = Part{ID: Instance(b.ID, at), number: len(f.m.Parts), Type: b.ID, Place: at, Name: f.called(b.Name, b.Places, at),
			Assembly: b.Assembly, Qty: max(b.Qty, 1), Material: b.Material, Faults: b.Faults,
			Hazards: b.Hazards, OneUse: b.OneUse, MassKg: b.MassKg, Stamp: stamp(e), Call: NotJudged}
		f.m.Parts = append(f.m.Parts, p)
		f.m.parts[p.ID] = p.number
		kind.all = append(kind.all, p)
	}
	f.partTypes[b.ID] = kind
}

func (f *folder) declareFeatures(e Entry) {
	b, ok := e.Body.(*FeatureAdded)
	if !ok {
		return
	}
	if b.Feature == "" || strings.Contains(b.Feature, "/") {
		f.ask(e, RefPart(b.Part), "%q cannot name a surface: use letters, figures and hyphens only", b.Feature)
		return
	}
	parts := f.partTypes[b.Part].all
	if len(parts) == 0 {
		f.ask(e, RefPart(b.Part), "feature %q belongs to part %q, which is not on the machine. Add the part, or withdraw this", b.Feature, b.Part)
		return
	}
	block := make([]Feature, len(parts))
	for i, p := range parts {
		id := FeatureOf(p.ID, b.Feature)
		if f.m.Feature(id) != nil {
			f.ask(e, RefPart(p.ID), "feature %q is declared twice; the first counts. Withdraw one", id)
			continue
		}
		ft := &block[i]
		*ft = Feature{ID: id, number: len(f.m.Features), Part: p, Name: b.Name, Sort: b.Sort, Levels: b.Levels, Axes: b.Axes, Unworn: b.Unworn, Tool: b.Tool}
		if b.Nominal != 0 {
			ft.Nominal = &Nominal{MM: b.Nominal, From: CommonPractice, Source: "kit"}
		}
		p.Features = append(p.Features, ft)
		f.m.Features = append(f.m.Features, ft)
		f.m.features[id] = ft.number
	}
}

func (f *folder) declareJoints(e Entry) {
	b, ok := e.Body.(*JointAdded)
	if !ok || f.badID(e, string(b.ID)) {
		return
	}
	if len(f.jointTypes[b.ID].all) > 0 {
		f.ask(e, RefJoint(b.ID), "joint %q is on the machine twice; the first counts. Withdraw one", b.ID)
		return
	}
	kind := kin[*Joint]{family: b.Places}
	labels := f.m.atlas.labels(b.Places)
	block := make([]Joint, len(labels))
	for i, at := range labels {
		j := &block[i]
		*j = Joint{ID: Instance(b.ID, at), number: len(f.m.Joints), Type: b.ID, Place: at, Name: f.called(b.Name, b.Places, at),
			Assembly: b.Assembly, Sort: b.Sort, Hazards: b.Hazards, AsFound: b.AsFound, OneWay: b.OneWay,
			Dry: b.Dry, Life: b.Life, Hours: b.Hours, Stamp: stamp(e), State: AsMade,
			Plan: Plan{Fasteners: b.Fasteners, Shims: b.Shims, AtBuild: b.AtBuild, Tighten: b.Tighten,
				Thread: b.Thread, Grade: b.Grade, Layout: b.Layout, Thicker: b.Thicker}}
		for _, typ := range b.Parts {
			near := f.partsNear(e, typ, b.Places, at)
			j.Parts = append(j.Parts, near...)
			if typ == b.Into && len(near) > 0 {
				j.Plan.Into = near[0]
			}
		}
		for _, p := range j.Parts {
			p.Joints = append(p.Joints, j)
		}
		f.m.Joints = append(f.m.Joints, j)
		f.m.joints[j.ID] = j.number
		kind.all = append(kind.all, j)
	}
	f.jointTypes[b.ID] = kind
}

// declareReach links joints to what must be open before them, once all joints
// are known.
func (f *folder) declareReach(e Entry) {
	b, ok := e.Body.(*JointAdded)
	if !ok {
		return
	}
	for _, j := range f.jointTypes[b.ID].all {
		if j.Stamp.Entry == e.ID {
			f.reachOf(e, b, j)
		}
	}
}

func (f *folder) reachOf(e Entry, b *JointAdded, j *Joint) {
	var any [][]JointID
	for _, set := range b.Reach {
		var ids []JointID
		for _, typ := range set {
			for _, k := range f.jointsNear(e, typ, b.Places, j.Place) {
				if k == j {
					f.ask(e, RefJoint(j.ID), "joint %q is said to be in its own way. Correct its reach", j.ID)
					continue
				}
				ids = append(ids, k.ID)
			}
		}
		if len(ids) > 0 {
			any = append(any, ids)
		}
	}
	if len(any) > 0 {
		j.Reach = append(j.Reach, Reach{Any: any, Evidence: Geometry, Stamp: stamp(e)})
	}
}

// partsNear lists the instances of a part type that belong to a place.
func (f *folder) partsNear(e Entry, typ PartID, family Family, at Place) []*Part {
	if len(f.partTypes[typ].all) == 0 {
		f.ask(e, RefPart(typ), "part %q is not on the machine. Add it, or correct this", typ)
		return nil
	}
	return f.partTypes[typ].near(f.m.atlas, family, at)
}

// jointsNear lists the instances of a joint type that belong to a place.
func (f *folder) jointsNear(e Entry, typ JointID, family Family, at Place) []*Joint {
	if len(f.jointTypes[typ].all) == 0 {
		f.ask(e, RefJoint(typ), "joint %q is not on the machine. Add it, or correct this", typ)
		return nil
	}
	return f.jointTypes[typ].near(f.m.atlas, family, at)
}

// declareRest places tests, cleaning rules and symptoms.
func (f *folder) declareRest(e Entry) {
	m := f.m
	switch b := e.Body.(type) {
	case *TestAdded:
		if m.Test(b.ID) != nil {
			f.ask(e, RefTest(b.ID), "test %q is on the machine twice; the first counts. Withdraw one", b.ID)
			return
		}
		t := &Test{TestAdded: *b, Stamp: stamp(e)}
		m.tests[b.ID] = len(m.Tests)
		m.Tests = append(m.Tests, t)
	case *CleaningAdded:
		m.Cleaning = append(m.Cleaning, *b)
	case *SymptomAdded:
		m.Symptoms = append(m.Symptoms, *b)
	}
}
