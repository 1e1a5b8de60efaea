package machine

// declareReckonings gives every joint, check and test its reckonings, with
// the ids in them those of its own place, once all else is declared.
func (f *folder) declareReckonings(e Entry) {
	switch b := e.Body.(type) {
	case *JointAdded:
		for _, j := range f.jointTypes[b.ID].all {
			if j.Stamp.Entry == e.ID {
				j.Reckon = f.reckoningsAt(e, RefJoint(j.ID), b.Reckon, b.Places, j.Place)
			}
		}
	case *CheckAdded:
		for _, c := range f.checkTypes[b.ID].all {
			if c.Stamp.Entry == e.ID {
				c.Reckon = f.reckoningsAt(e, RefCheck(c.ID), b.Reckon, b.Places, c.Place)
			}
		}
	case *TestAdded:
		if t := f.m.Test(b.ID); t != nil && t.Stamp.Entry == e.ID {
			t.Reckon = f.reckoningsAt(e, RefTest(b.ID), b.Reckon, "", "")
		}
	}
}

func (f *folder) reckoningsAt(e Entry, about Ref, list []Reckoning, family Family, at Place) []Reckoning {
	var out []Reckoning
	for _, r := range list {
		one := Reckoning{Topic: r.Topic, Title: r.Title, With: make(map[string]string, len(r.With))}
		for key, text := range r.With {
			if text, ok := f.inputAt(text, family, at); ok {
				one.With[key] = text
				continue
			}
			f.ask(e, about, "%q reckons with %q as %s, which is not on the machine. Add it, or correct this", r.Topic, text, key)
		}
		out = append(out, one)
	}
	return out
}

// inputAt turns the type ids of an input into the instances at a place; of
// several it takes the first. ok is false where one is not there.
func (f *folder) inputAt(text string, family Family, at Place) (string, bool) {
	pieces := Pieces(text)
	for i, p := range pieces {
		var ok bool
		if pieces[i].ID, ok = f.sourceAt(p, family, at); !ok {
			return "", false
		}
	}
	return Written(pieces), true
}

func (f *folder) sourceAt(p Piece, family Family, at Place) (string, bool) {
	switch p.Kind {
	case FromDatum:
		return p.ID, f.m.Datum(p.ID) != nil
	case FromEach:
		return p.ID, len(f.partTypes[FeatureID(p.ID).Part()].all) > 0
	case FromEvery:
		return p.ID, len(f.checkTypes[CheckID(p.ID)].all) > 0
	case FromCount:
		return p.ID, f.m.atlas[Family(p.ID)] != nil
	case FromFeature, FromMade:
		return f.surfaceAt(FeatureID(p.ID), family, at)
	case FromReading, FromRepeats, FromLess, FromTight:
		near := f.checkTypes[CheckID(p.ID)].near(f.m.atlas, family, at)
		if len(near) == 0 {
			return "", false
		}
		return string(near[0].ID), true
	case FromThread, FromGrade, FromShims, FromPack:
		near := f.jointTypes[JointID(p.ID)].near(f.m.atlas, family, at)
		if len(near) == 0 {
			return "", false
		}
		return string(near[0].ID), true
	}
	return "", true
}

// surfaceAt is featureNear without a question: a surface that one piece
// carries at several places counts as the one of this place, else the first.
func (f *folder) surfaceAt(typ FeatureID, family Family, at Place) (string, bool) {
	parts := f.partTypes[typ.Part()].near(f.m.atlas, family, at)
	if len(parts) == 0 {
		return "", false
	}
	id := FeatureOf(parts[0].ID, typ.Name())
	if f.m.Feature(id) != nil {
		return string(id), true
	}
	if here := FeatureOf(parts[0].ID, typ.Name()+"-"+string(at)); at != "" && f.m.Feature(here) != nil {
		return string(here), true
	}
	for _, p := range f.m.Places {
		for _, l := range p.Labels {
			if first := FeatureOf(parts[0].ID, typ.Name()+"-"+string(l)); f.m.Feature(first) != nil {
				return string(first), true
			}
		}
	}
	return "", false
}
