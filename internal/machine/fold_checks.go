package machine

// declareChecks makes the instances of a check and ties them to joints, parts
// and features.
func (f *folder) declareChecks(e Entry) {
	b, ok := e.Body.(*CheckAdded)
	if !ok || f.badID(e, string(b.ID)) {
		return
	}
	if len(f.checkTypes[b.ID].all) > 0 {
		f.ask(e, RefCheck(b.ID), "check %q is on the machine twice; the first counts. Withdraw one", b.ID)
		return
	}
	kind := kin[*Check]{family: b.Places}
	labels := f.m.atlas.labels(b.Places)
	block := make([]Check, len(labels))
	for i, at := range labels {
		c := &block[i]
		*c = Check{ID: Instance(b.ID, at), number: len(f.m.Checks), Type: b.ID, Place: at, Name: f.called(b.Name, b.Places, at),
			Assembly: b.Assembly, When: b.When, Dry: b.Dry, By: b.By, Unit: b.Unit, Says: b.Says, How: b.How,
			Tool: b.Tool, Repeats: b.Repeats, Hazards: b.Hazards, Life: b.Life, Stamp: stamp(e)}
		c.Limits = append(c.Limits, b.Limits...)
		for _, typ := range b.Joints {
			c.Joints = append(c.Joints, f.jointsNear(e, typ, b.Places, at)...)
		}
		for _, typ := range b.Parts {
			c.Parts = append(c.Parts, f.partsNear(e, typ, b.Places, at)...)
		}
		for _, j := range c.Joints {
			j.Checks = append(j.Checks, c)
		}
		c.Outer = f.featureNear(e, b.Outer, b.Places, at)
		c.Inner = f.featureNear(e, b.Inner, b.Places, at)
		for _, t := range b.Terms {
			c.Terms = append(c.Terms, StackTerm{f.featureNear(e, t.Feature, b.Places, at), t.Times})
		}
		if b.Size != nil {
			size := *b.Size
			if ft := f.featureNear(e, b.Size.Feature, b.Places, at); ft != nil {
				size.Feature = ft.ID
			}
			c.Size = &size
		}
		f.m.Checks = append(f.m.Checks, c)
		f.m.checks[c.ID] = c.number
		kind.all = append(kind.all, c)
	}
	f.checkTypes[b.ID] = kind
}

// featureNear finds the one instance of a feature that belongs to a place; of
// several it takes the first and asks.
func (f *folder) featureNear(e Entry, typ FeatureID, family Family, at Place) *Feature {
	if typ == "" {
		return nil
	}
	parts := f.partsNear(e, typ.Part(), family, at)
	if len(parts) == 0 {
		return nil
	}
	if len(parts) > 1 {
		f.ask(e, RefPart(typ.Part()), "feature %q has several places here; a check needs one. Give the check the same places as the part", typ)
	}
	name := typ.Name()
	ft := f.m.Feature(FeatureOf(parts[0].ID, name))
	if ft == nil { // a feature may be named after the place: "main-journal-2"
		ft = f.m.Feature(FeatureOf(parts[0].ID, name+"-"+string(at)))
	}
	if ft == nil {
		f.ask(e, RefPart(parts[0].ID), "feature %q is not on the machine. Add it, or correct this", typ)
	}
	return ft
}

// declareHiding ties checks to what hides them, and remedies to instances,
// once all joints and checks are known.
func (f *folder) declareHiding(e Entry) {
	switch b := e.Body.(type) {
	case *LimitSet:
		f.addLimit(e, b)
	case *CheckAdded:
		for _, c := range f.checkTypes[b.ID].all {
			if c.Stamp.Entry != e.ID {
				continue
			}
			for _, typ := range b.HiddenBy {
				if set := f.jointsNear(e, typ, b.Places, c.Place); len(set) > 0 {
					c.HiddenBy = append(c.HiddenBy, set)
				}
			}
			for _, r := range b.Remedies {
				c.Remedies = append(c.Remedies, f.remedyAt(e, r, b.Places, c.Place))
			}
		}
	}
}

// addLimit gives one more limit to a check, or to all instances of its type.
func (f *folder) addLimit(e Entry, b *LimitSet) {
	instances := f.checkTypes[b.Check].all
	if c := f.m.Check(b.Check); c != nil {
		instances = []*Check{c}
	}
	for _, c := range instances {
		c.Limits = append(c.Limits, b.Limit)
	}
	if len(instances) == 0 {
		f.ask(e, RefCheck(b.Check), "a limit was set for check %q, which is not on the machine. Choose the check it belongs to", b.Check)
	}
}

// remedyAt turns the type ids of a remedy into the instances at a place.
func (f *folder) remedyAt(e Entry, r Remedy, family Family, at Place) Remedy {
	out := r
	out.Renews, out.Reworks, out.Mends, out.Opens, out.Shifts = nil, nil, nil, nil, nil
	for _, typ := range r.Renews {
		for _, p := range f.partsNear(e, typ, family, at) {
			out.Renews = append(out.Renews, p.ID)
		}
	}
	for _, typ := range r.Reworks {
		if ft := f.featureNear(e, typ, family, at); ft != nil {
			out.Reworks = append(out.Reworks, ft.ID)
		}
	}
	for _, typ := range r.Mends {
		out.Mends = append(out.Mends, f.checksNear(e, typ, family, at)...)
	}
	for _, typ := range r.Opens {
		out.Opens = append(out.Opens, f.checksNear(e, typ, family, at)...)
	}
	for _, s := range r.Shifts {
		for _, id := range f.checksNear(e, s.Check, family, at) {
			out.Shifts = append(out.Shifts, Shift{Check: id, By: s.By})
		}
	}
	return out
}

// checksNear lists the instances of a check type that belong to a place.
func (f *folder) checksNear(e Entry, typ CheckID, family Family, at Place) []CheckID {
	if len(f.checkTypes[typ].all) == 0 {
		f.ask(e, RefCheck(typ), "check %q is not on the machine. Add it, or correct this", typ)
		return nil
	}
	var out []CheckID
	for _, c := range f.checkTypes[typ].near(f.m.atlas, family, at) {
		out = append(out, c.ID)
	}
	return out
}
