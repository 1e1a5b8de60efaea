package play

import (
	"time"

	"matchmark/internal/machine"
)

// survey is the first two days: what the machine is, and what the strip would
// destroy.
func (s *story) survey() {
	s.minutes(20)
	s.say(&machine.Noted{Text: "Came on a trailer. Turns by hand with the starting handle, a hitch once a turn. Water in the gearbox by the look of the dipstick."})
	s.minutes(15)
	s.say(&machine.Noted{Of: machine.RefPart("plate-id"), Text: "Plate so worn that only 0418 can be read with a torch from the side."})
	s.data()
	s.who = per
	s.minutes(30)
	s.say(&machine.ReadingTaken{Check: "batt-ocv", Amount: *s.amount("11.42", "V"), Tool: "multimeter-volt", Note: "charged overnight, rested since noon"})
	s.on(6, time.October, 8*time.Hour+20*time.Minute)
	s.beforeAnythingIsUndone()
	s.leftAlone()
	s.backEnd()
}

// backEnd is what can be looked at on the part that stays on its wheels.
func (s *story) backEnd() {
	s.who = per
	s.minutes(30)
	s.check("rops-check", "rim-true")
	s.minutes(10)
	s.say(&machine.LookTaken{Check: "pto-guard-fitted", OK: false, Words: "cracked from the bolt to the edge; will not carry a foot"})
	s.measure(session{}, s.surfacesOf("link-ball-wear")...)
}

// data are the figures that limits ask for, as far as they are known.
func (s *story) data() {
	for _, d := range []struct{ id, typed, unit, source string }{
		{"system-volts", "12", "V", "battery and lamps"},
		{"glow-plug-volts", "11", "V", "stamped on the plug of cylinder 1"},
		{"radiator-cap-pressure", "0.5 bar", "bar", "stamped on the cap"},
		{"fan-belt-span", "285", "mm", "rule, crank pulley to water pump"},
		{"injector-opening-pressure", "120 bar", "bar", "etched on two of the three holders"},
	} {
		s.minutes(6)
		s.datum(d.id, d.typed, d.unit, machine.Handbook, d.source)
	}
}

// datum gives a declared datum its value.
func (s *story) datum(id, typed, unit string, from machine.Provenance, source string) {
	d := s.machine().Datum(id)
	if d == nil {
		s.fail("the story sets datum %q, which the kits do not have", id)
		return
	}
	set := *d
	value := s.inUnit(typed, unit)
	set.Value, set.Typed, set.From, set.Source = &value, typed, from, source
	s.say(&machine.DatumSet{Datum: set})
}

// beforeAnythingIsUndone takes what cannot be had later.
func (s *story) beforeAnythingIsUndone() {
	m := s.machine()
	s.minutes(40)
	for i, what := range m.Joint("ip-block").AsFound {
		b := &machine.AsFoundTaken{Joint: "ip-block", What: what, Words: "line scribed across both"}
		if i == 0 {
			b.Value, b.Words = s.amount("17.5", "deg"), "drip at the swan neck just stops; three times 17.5, once 18"
		}
		s.say(b)
		s.minutes(6)
	}
	s.datum("spill-target", "17.5", "deg", machine.Unworn, "start of delivery found before strip")
	s.who = ansa
	s.minutes(25)
	for _, id := range []machine.JointID{"tie-thread", "clutch-rod-fit", "thrust-float"} {
		j := m.Joint(id)
		b := &machine.AsFoundTaken{Joint: id, What: j.AsFound[0]}
		s.evidence(j, j.AsFound[0], b)
		s.say(b)
		s.minutes(12)
	}
	s.say(&machine.Noted{Text: "Compression by hand: cylinder 2 has hardly any. Blow-by at the filler when it is turned over."})
}

// leftAlone are joints that both agree not to touch.
func (s *story) leftAlone() {
	s.minutes(10)
	j := s.machine().Joint("maxfuel-fit")
	b := &machine.AsFoundTaken{Joint: j.ID, What: j.AsFound[0]}
	s.evidence(j, j.AsFound[0], b)
	s.say(b, &machine.JointLeft{Joint: "maxfuel-fit", Why: "Sealed. Full-load fuel cannot be found again by measuring."},
		&machine.JointLeft{Joint: "plate-fit", Why: "Rivets are the only ones of their kind. Masked when the dash is painted."})
}
