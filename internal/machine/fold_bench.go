package machine

import "slices"

// event places one bench fact.
func (f *folder) event(e Entry) {
	placed := true
	switch b := e.Body.(type) {
	case nil:
		f.ask(e, "", "the entry says nothing. Record it again")
		return
	case *Unreadable:
		f.ask(e, "", "this line could not be read: %s. It is kept as it came; record the fact again", b.Why)
		return
	case *JointOpened:
		placed = f.jointOpened(e, b)
	case *JointClosed:
		placed = f.jointClosed(e, b)
	case *JointLeft:
		placed = f.jointLeft(e, b)
	case *InTheWay:
		placed = f.inTheWay(e, b)
	case *ReachDenied:
		placed = f.reachDenied(e, b)
	case *OrderStated:
		placed = f.orderStated(e, b)
	case *AsFoundTaken:
		placed = f.onJoint(e, b.Joint, func(j *Joint) { j.Evidence = append(j.Evidence, AsFoundRecord{stamp(e), *b}) })
	case *HoldPassed:
		placed = f.holdPassed(e, b)
	case *PartMoved:
		placed = f.onPart(e, b.Part, func(p *Part) { p.Tray = b.Tray })
	case *TrayMade:
		placed = f.trayMade(e, b)
	case *PartCounted:
		placed = f.onPart(e, b.Part, func(p *Part) { n := b.Found; p.Found, p.FoundNote = &n, b.Words })
	case *PartCleaned:
		placed = f.onPart(e, b.Part, func(p *Part) { p.Cleaned = append(p.Cleaned, Cleaned{stamp(e), b.Method, b.Note}) })
	case *CallMade:
		placed = f.callMade(e, b)
	case *PartIdentified:
		placed = f.partIdentified(e, b)
	case *PhotoAdded:
		placed = f.photoAdded(e, b)
	case *SoundAdded:
		f.askRef(e, b.Of, "the recording is of")
		f.m.Sounds = append(f.m.Sounds, Sound{stamp(e), *b})
	case *Surveyed:
		placed = f.surveyed(e, b)
	case *Noted:
		f.askRef(e, b.Of, "the note is about")
		f.m.Notes = append(f.m.Notes, Note{stamp(e), *b})
	default:
		placed = f.measureEvent(e)
	}
	if placed {
		f.m.Events = append(f.m.Events, Event{stamp(e), e.Body})
	}
}

func orSaid(why string) string {
	if why == "" {
		return "no reason given"
	}
	return why
}

// onJoint runs act on a joint instance, or asks which is meant.
func (f *folder) onJoint(e Entry, id JointID, act func(*Joint)) bool {
	if j := f.m.Joint(id); j != nil {
		act(j)
		return true
	}
	if all := f.jointTypes[id].all; len(all) > 0 {
		f.ask(e, RefJoint(id), "joint %q stands at %d places. Say which one", id, len(all))
		return false
	}
	f.ask(e, RefJoint(id), "joint %q is not on the machine. Choose the joint that is meant, or add it", id)
	return false
}

// onPart runs act on a part instance, or asks which is meant.
func (f *folder) onPart(e Entry, id PartID, act func(*Part)) bool {
	if p := f.m.Part(id); p != nil {
		act(p)
		return true
	}
	if all := f.partTypes[id].all; len(all) > 0 {
		f.ask(e, RefPart(id), "part %q stands at %d places. Say which one", id, len(all))
		return false
	}
	f.ask(e, RefPart(id), "part %q is not on the machine. Choose the part that is meant, or add it", id)
	return false
}

// onCheck runs act on a check instance, or asks which is meant.
func (f *folder) onCheck(e Entry, id CheckID, act func(*Check)) bool {
	if c := f.m.Check(id); c != nil {
		act(c)
		return true
	}
	if all := f.checkTypes[id].all; len(all) > 0 {
		f.ask(e, RefCheck(id), "check %q stands at %d places. Say which one", id, len(all))
		return false
	}
	f.ask(e, RefCheck(id), "check %q is not on the machine. Choose the check that is meant", id)
	return false
}

// jointLeft keeps why a joint is not going to be opened. Opening it after all
// takes that back.
func (f *folder) jointLeft(e Entry, b *JointLeft) bool {
	return f.onJoint(e, b.Joint, func(j *Joint) {
		if j.State != AsMade {
			f.ask(e, RefJoint(j.ID), "%s cannot be left as it is: it has been opened. Withdraw this, or the opening", j.Name)
			return
		}
		j.Left = orSaid(b.Why)
	})
}

// NoTray marks a part that came off without a tray being named.
const NoTray = "no tray"

func (f *folder) jointOpened(e Entry, b *JointOpened) bool {
	return f.onJoint(e, b.Joint, func(j *Joint) {
		if j.State == Open {
			first := j.Removals[len(j.Removals)-1]
			f.ask(e, RefJoint(j.ID), "%s was already open: %s recorded it too. Both are kept. Withdraw the one that is wrong", j.Name, first.By)
		}
		if j.State == Closed {
			f.reopened(j)
		}
		j.State, j.Left = Open, ""
		j.Opened++
		j.Removals = append(j.Removals, Removal{stamp(e), *b})
		for _, id := range b.Off {
			f.onPart(e, id, func(p *Part) { p.Tray = trayOr(b.Tray) })
		}
		for _, sum := range b.Photos {
			f.keepPhoto(Photo{stamp(e), PhotoAdded{Of: RefJoint(j.ID), Sum: sum}})
		}
	})
}

// reopened opens again the made checks of a joint that was closed for good:
// what was measured on it may have moved.
func (f *folder) reopened(j *Joint) {
	for _, c := range j.Checks {
		if c.When == Made {
			c.Version++
		}
	}
}

func trayOr(mark string) string {
	if mark == "" {
		return NoTray
	}
	return mark
}

func (f *folder) jointClosed(e Entry, b *JointClosed) bool {
	return f.onJoint(e, b.Joint, func(j *Joint) {
		if b.As != Trial && b.As != Final {
			f.ask(e, RefJoint(j.ID), "%s was closed %q; it can be closed on trial or final. Record it again", j.Name, b.As)
			return
		}
		if j.State == Closed || j.State == AsMade {
			f.ask(e, RefJoint(j.ID), "%s was closed, but it was not open. Record the opening, or withdraw this", j.Name)
			return
		}
		j.Closings = append(j.Closings, Closing{stamp(e), *b})
		j.State = OnTrial
		if b.As == Final {
			j.State = Closed
			j.Made++
		}
		for _, p := range j.Parts {
			p.Tray = ""
		}
		for _, sum := range b.Photos {
			f.keepPhoto(Photo{stamp(e), PhotoAdded{Of: RefJoint(j.ID), Sum: sum}})
		}
	})
}

func (f *folder) inTheWay(e Entry, b *InTheWay) bool {
	return f.onJoint(e, b.Joint, func(j *Joint) {
		r := Reach{Evidence: Observed, Stamp: stamp(e), Photo: b.Photo, Note: b.Note}
		for _, set := range b.Any {
			var ids []JointID
			for _, id := range set {
				if id == j.ID {
					f.ask(e, RefJoint(j.ID), "%s is said to be in its own way. Say which joint was", j.Name)
					continue
				}
				f.onJoint(e, id, func(k *Joint) { ids = append(ids, k.ID) })
			}
			if len(ids) > 0 {
				r.Any = append(r.Any, ids)
			}
		}
		if len(r.Any) > 0 {
			j.Reach = append(j.Reach, r)
		}
	})
}

// reachDenied takes a blocker out of what the kit said; what was seen on this
// machine is never taken out this way.
func (f *folder) reachDenied(e Entry, b *ReachDenied) bool {
	return f.onJoint(e, b.Joint, func(j *Joint) {
		typ, _ := Split(b.Blocker)
		hit := false
		var kept []Reach
		for _, r := range j.Reach {
			if r.Evidence != Geometry {
				kept = append(kept, r)
				continue
			}
			free := false
			r.Any = slices.Clone(r.Any) // the kit's word is shared by machines of one log
			for i, set := range r.Any {
				r.Any[i] = slices.DeleteFunc(slices.Clone(set), func(id JointID) bool {
					t, _ := Split(id)
					return id == b.Blocker || (t == typ && b.Blocker == t)
				})
				hit = hit || len(r.Any[i]) < len(set)
				free = free || len(r.Any[i]) == 0
			}
			if !free {
				kept = append(kept, r)
			}
		}
		j.Reach = kept
		if !hit {
			f.ask(e, RefJoint(j.ID), "the kit does not say that %q is in the way of %s, so there was nothing to take out", b.Blocker, j.Name)
		}
	})
}

func (f *folder) orderStated(e Entry, b *OrderStated) bool {
	if b.First == b.Then {
		f.ask(e, RefJoint(b.First), "a joint cannot close before itself. Say which two are meant")
		return false
	}
	placed := false
	f.onJoint(e, b.First, func(*Joint) {
		placed = f.onJoint(e, b.Then, func(*Joint) { f.m.Stated = append(f.m.Stated, Stated{stamp(e), *b}) })
	})
	return placed
}

// holdPassed keeps a hold passed by hand. One that guards life stays shut, and
// is no event: the account of the work must not say that it was passed.
func (f *folder) holdPassed(e Entry, b *HoldPassed) bool {
	placed := false
	f.onJoint(e, b.Joint, func(j *Joint) {
		f.onCheck(e, b.Check, func(c *Check) {
			if c.Life || j.Life {
				f.ask(e, RefCheck(c.ID), "%s guards life and cannot be passed by hand. Make the check", c.Name)
				return
			}
			j.Passed = append(j.Passed, Passed{stamp(e), *b})
			placed = true
		})
	})
	return placed
}

func (f *folder) callMade(e Entry, b *CallMade) bool {
	switch b.Call {
	case NotJudged, GoesBack, MakeGood, Renew:
	default:
		f.ask(e, RefPart(b.Part), "%q is no call. It goes back, is made good, is renewed or is not judged", b.Call)
		return false
	}
	return f.onPart(e, b.Part, func(p *Part) { p.Call, p.CallWhy, p.CallBy = b.Call, b.Why, stamp(e) })
}

// partIdentified keeps which standard part it is; the latest word counts.
func (f *folder) partIdentified(e Entry, b *PartIdentified) bool {
	if b.Designation == "" {
		f.ask(e, RefPart(b.Part), "a part was identified as nothing. Say as what, or withdraw this")
		return false
	}
	if !(b.Probability > 0 && b.Probability <= 1) {
		f.ask(e, RefPart(b.Part), "%q has a probability of %v; it lies above 0 and is at most 1. Identify the part again", b.Designation, b.Probability)
		return false
	}
	return f.onPart(e, b.Part, func(p *Part) { p.Identified = &Identified{stamp(e), *b} })
}

// trayMade keeps that a tray is there, and what it is called.
func (f *folder) trayMade(e Entry, b *TrayMade) bool {
	if b.Mark == "" {
		f.ask(e, "", "a tray was made without a mark. Make it again with its mark, or withdraw this")
		return false
	}
	t := f.tray(b.Mark)
	if b.Name != "" {
		t.Name = b.Name
	}
	return true
}

// askRef asks where a note or photo points at something that is not there.
func (f *folder) askRef(e Entry, ref Ref, what string) {
	known := true
	switch id := ref.ID(); ref.Kind() {
	case "joint":
		known = f.m.Joint(JointID(id)) != nil || f.jointTypes[JointID(id)].all != nil
	case "part":
		known = f.m.Part(PartID(id)) != nil || f.partTypes[PartID(id)].all != nil
	case "check":
		known = f.m.Check(CheckID(id)) != nil || f.checkTypes[CheckID(id)].all != nil
	case "test":
		known = f.m.Test(TestID(id)) != nil
	}
	if !known {
		f.ask(e, ref, "%s %q, which is not on the machine. It is kept; choose what is meant", what, ref)
	}
}

func (f *folder) photoAdded(e Entry, b *PhotoAdded) bool {
	f.askRef(e, b.Of, "the photo shows")
	f.keepPhoto(Photo{stamp(e), *b})
	return true
}

// keepPhoto lists a photo and ties it to the joint or part it shows.
func (f *folder) keepPhoto(p Photo) {
	f.m.Photos = append(f.m.Photos, p)
	switch p.Of.Kind() {
	case "joint":
		if j := f.m.Joint(JointID(p.Of.ID())); j != nil {
			j.Photos = append(j.Photos, p)
		}
	case "part":
		if q := f.m.Part(PartID(p.Of.ID())); q != nil {
			q.Photos = append(q.Photos, p)
		}
	}
}
