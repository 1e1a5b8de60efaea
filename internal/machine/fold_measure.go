package machine

import "math"

// measureEvent places readings, looks, remedies, orders and test runs.
func (f *folder) measureEvent(e Entry) bool {
	switch b := e.Body.(type) {
	case *ReadingTaken:
		return f.readingTaken(e, b)
	case *ReadingsAgreed:
		return f.readingsAgreed(e, b)
	case *SettingTaken:
		return f.settingTaken(e, b)
	case *LookTaken:
		return f.onCheck(e, b.Check, func(c *Check) {
			c.Looks = append(c.Looks, &Look{stamp(e), b.OK, b.Words, b.Photo, c.Version})
		})
	case *NominalSet:
		return f.nominalSet(e, b)
	case *RemedyChosen:
		return f.onCheck(e, b.Check, func(c *Check) {
			if c.remedy(b.Key) == nil {
				f.ask(e, RefCheck(c.ID), "%s has no remedy %q. Choose one of its own", c.Name, b.Key)
			}
			c.Chosen = &Chosen{stamp(e), *b}
		})
	case *RemedyDone:
		return f.onCheck(e, b.Check, func(c *Check) { f.remedyDone(e, c, b) })
	case *Ordered:
		return f.ordered(e, b)
	case *Promised:
		return f.onOrder(e, b.Order, func(o *Order) { o.Promises = append(o.Promises, Promise{stamp(e), *b}) })
	case *Received:
		return f.onOrder(e, b.Order, func(o *Order) { f.received(e, o) })
	case *TestRun:
		t := f.m.Test(b.Test)
		if t == nil {
			f.ask(e, RefTest(b.Test), "test %q is not on the machine. Choose the test that was run", b.Test)
			return false
		}
		t.Runs = append(t.Runs, Run{stamp(e), *b})
		return true
	}
	return false // a declaring fact: placed already
}

// remedy finds a remedy by its key.
func (c *Check) remedy(key string) *Remedy {
	for i := range c.Remedies {
		if c.Remedies[i].Key == key {
			return &c.Remedies[i]
		}
	}
	return nil
}

// Remedy finds a remedy of the check by its key, nil if it has none such.
func (c *Check) Remedy(key string) *Remedy { return c.remedy(key) }

// newReading gives room for one reading; readings are most of a log.
func (f *folder) newReading() *Reading {
	if len(f.readings) == 0 {
		f.readings = make([]Reading, 64)
	}
	r := &f.readings[0]
	f.readings = f.readings[1:]
	return r
}

func (f *folder) readingTaken(e Entry, b *ReadingTaken) bool {
	if math.IsNaN(b.Amount.Value) || math.IsInf(b.Amount.Value, 0) {
		f.ask(e, "", "the reading %q is not a number. Measure again", b.Amount.Typed)
		return false
	}
	r := f.newReading()
	*r = Reading{Stamp: stamp(e), Amount: b.Amount, Level: b.Level, Axis: b.Axis, Unworn: b.Unworn,
		Tool: b.Tool, Setting: b.Setting, TempC: b.TempC, Note: b.Note, Seen: b.Seen}
	f.stated = f.stated || b.Seen != nil
	if b.Feature == "" {
		return f.onCheck(e, b.Check, func(c *Check) {
			r.Version = c.Version
			r.Set = f.setFor(r, c.Tool)
			c.Readings = append(c.Readings, r)
		})
	}
	ft := f.m.Feature(b.Feature)
	if ft == nil {
		f.ask(e, RefPart(b.Feature.Part()), "%s was read as %s, but %q is not on the machine. Choose the surface that was measured", b.Amount.Typed, b.Feature, b.Feature)
		return false
	}
	r.Version = ft.Version
	r.Set = f.setFor(r, ft.Tool)
	ft.Readings = append(ft.Readings, r)
	return true
}

// setFor is the setting piece that a reading leans on: the latest of its name
// that was read before it with its tool, or with the usual one where it names
// none.
func (f *folder) setFor(r *Reading, usual string) *Setting {
	if r.Setting == "" {
		return nil
	}
	tool := r.Tool
	if tool == "" {
		tool = usual
	}
	for i := len(f.m.Settings) - 1; i >= 0; i-- {
		if s := f.m.Settings[i]; s.Setting == r.Setting && s.Tool == tool {
			return s
		}
	}
	return nil
}

// settingTaken keeps the reading of a setting piece.
func (f *folder) settingTaken(e Entry, b *SettingTaken) bool {
	for _, a := range []Amount{b.Nominal, b.Read} {
		if !(a.Value > 0) || math.IsInf(a.Value, 0) {
			f.ask(e, "", "the setting piece %q was noted as %q, which is no size. Read it again", b.Setting, a.Typed)
			return false
		}
	}
	if b.Tool == "" || b.Setting == "" {
		f.ask(e, "", "a setting piece was read, but not which piece or with what. Name both, as the readings do")
		return false
	}
	f.m.Settings = append(f.m.Settings, &Setting{stamp(e), *b})
	return true
}

func (f *folder) nominalSet(e Entry, b *NominalSet) bool {
	ft := f.m.Feature(b.Feature)
	if ft == nil {
		f.ask(e, RefPart(b.Feature.Part()), "a size was given for %q, which is not on the machine. Choose the surface that is meant", b.Feature)
		return false
	}
	if ft.Nominal != nil && ft.Nominal.From.Rank() < b.From.Rank() {
		return true // the better provenance stays
	}
	ft.Nominal = &Nominal{MM: b.Amount.Value, From: b.From, Source: b.Source, Typed: b.Amount.Typed}
	return true
}

// remedyDone begins new versions: of each reworked feature, of each renewed
// part with its features, and of every check they touch.
func (f *folder) remedyDone(e Entry, c *Check, b *RemedyDone) {
	c.Done = append(c.Done, Done{stamp(e), *b})
	again := map[*Check]bool{c: true}
	for _, id := range b.Reworked {
		ft := f.m.Feature(id)
		if ft == nil {
			f.ask(e, RefPart(id.Part()), "%q was reworked, but it is not on the machine. Choose the surface that is meant", id)
			continue
		}
		ft.Version++
		for _, other := range f.m.Checks {
			if other.reads(ft) {
				again[other] = true
			}
		}
	}
	for _, id := range b.Renewed {
		f.onPart(e, id, func(p *Part) {
			p.Version++
			p.Tray = NoTray
			for _, ft := range p.Features {
				ft.Version++
			}
			for _, other := range f.m.Checks {
				if other.touches(p) {
					again[other] = true
				}
			}
		})
	}
	for _, id := range b.Opens {
		f.onCheck(e, id, func(c *Check) { again[c] = true })
	}
	for other := range again {
		other.Version++
	}
}

// touches tells whether a check is a condition on a part or on a joint of it,
// or is read on one of its surfaces.
func (c *Check) touches(p *Part) bool {
	if c.Outer != nil && c.Outer.Part == p || c.Inner != nil && c.Inner.Part == p {
		return true
	}
	for _, t := range c.Terms {
		if t.Feature != nil && t.Feature.Part == p {
			return true
		}
	}
	for _, q := range c.Parts {
		if q == p {
			return true
		}
	}
	for _, j := range c.Joints {
		for _, q := range j.Parts {
			if q == p {
				return true
			}
		}
	}
	return false
}

func (f *folder) ordered(e Entry, b *Ordered) bool {
	if b.Order == "" || f.m.orders[b.Order] != nil {
		f.ask(e, "", "order %q is already in the book. Give this one a name of its own", b.Order)
		return false
	}
	o := &Order{Ordered: *b, Stamp: stamp(e)}
	f.m.Orders = append(f.m.Orders, o)
	f.m.orders[b.Order] = o
	if b.Out {
		for _, id := range b.Parts {
			f.onPart(e, id, func(p *Part) { p.Away = b.Order })
		}
	}
	return true
}

func (f *folder) onOrder(e Entry, id OrderID, act func(*Order)) bool {
	o := f.m.orders[id]
	if o == nil {
		f.ask(e, "", "order %q is not in the book. Record the order first", id)
		return false
	}
	act(o)
	return true
}

func (f *folder) received(e Entry, o *Order) {
	s := stamp(e)
	o.Received = &s
	for _, id := range o.Parts {
		if p := f.m.Part(id); p != nil && p.Away == o.Order {
			p.Away = ""
		}
	}
}
