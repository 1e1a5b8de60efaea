package play

import (
	"time"

	"matchmark/internal/machine"
)

// nobodyCanPlace is the piece that belongs to nothing: the log keeps it and
// asks.
func (s *story) nobodyCanPlace() {
	s.minutes(5)
	s.say(&machine.PartCounted{Part: "brass-collar", Found: 1, Words: "Fell out of the bonnet. 22 mm over, 14 through, a flat on one side. Whose is it?"})
}

// oilFilterCorner is where the two contradict each other about three joints on
// the side of the engine.
func (s *story) oilFilterCorner() {
	s.who = ansa
	s.pull("oil-filter-fit", "oil-switch-fit")
	s.say(&machine.InTheWay{Joint: "oil-switch-fit", Any: [][]machine.JointID{{"oil-filter-fit"}},
		Photo: s.album.keep("oil-filter-corner", draw(view{sort: "threaded", title: "Oil filter over the pressure switch", turn: 0.4})),
		Note:  "The switch cannot be turned with the filter on."})
	s.who = per
	s.pull("relief-fit")
	s.minutes(5)
	s.say(&machine.OrderStated{First: "oil-filter-fit", Then: "relief-fit", Why: "Filter first, then the relief plug can be tightened square against it."})
	s.minutes(200)
	s.who = ansa
	s.say(&machine.OrderStated{First: "relief-fit", Then: "oil-switch-fit", Why: "The relief plug's spanner needs the room where the switch sits."})
	s.who = per
}

// dynamo is made good on the way and closed, one check unmade.
func (s *story) dynamo() {
	s.on(13, time.October, 9*time.Hour)
	s.say(&machine.PartCleaned{Part: "gen-body", Method: "dry brush", Note: "and contact solvent"},
		&machine.PartCleaned{Part: "gen-rotor", Method: "contact solvent"})
	s.minutes(20)
	s.say(&machine.ReadingTaken{Check: "gen-brush-len", Amount: *s.amount("0.86", "ratio"), Tool: "vernier", Note: "19.0 against 22 of a new one"})
	s.minutes(15)
	s.shut("genbrush-fit", "genrotor-fit")
	s.say(&machine.HoldPassed{Joint: "genbody-fit", Check: "gen-comm", Initials: "P.",
		Why: "No vee blocks here to run the commutator true. It is bright and even; to be looked at when the belt is next off."})
	s.shut("genbody-fit")
}

// shut closes joints for good with what came out of them.
func (s *story) shut(ids ...machine.JointID) {
	for _, id := range ids {
		j := s.whole().Joint(id)
		b := &machine.JointClosed{Joint: id, As: machine.Final}
		if n := len(j.Removals); n > 0 {
			b.Fasteners, b.Shims = j.Removals[n-1].Fasteners, j.Removals[n-1].Shims
		}
		s.minutes(10)
		s.say(b)
	}
	s.whole()
}

// wrongCylinder is a reading put down for the wrong journal and withdrawn, and
// a slip of the key that was corrected.
func (s *story) wrongCylinder() {
	s.minutes(3)
	wrong := s.say(&machine.ReadingTaken{Feature: "crankshaft/main-journal-4", Level: "front", Axis: "0 degrees",
		Amount: *s.amount("41.984", "mm"), Tool: "micrometer"})
	s.minutes(2)
	s.say(&machine.EntryWithdrawn{Target: wrong, Why: "That was crankpin 1, not main 4."})
	slip := s.say(&machine.NominalSet{Feature: "crankshaft/crankpin-2", Amount: *s.amount("24.000", "mm"), From: machine.Unworn, Source: "fillet side"})
	s.minutes(1)
	s.sayAt(s.at, s.who, slip, &machine.NominalSet{Feature: "crankshaft/crankpin-2", Amount: *s.amount("42.000", "mm"), From: machine.Unworn,
		Source: "fillet side; figures had changed places"})
}

// twoAtOnce: Ansa is at bore 3 with the bore gauge while Per reads the steering
// box beside her; both read one point of the bore, and both figures are kept.
func (s *story) twoAtOnce(in session) {
	m := s.machine()
	bore := m.Feature("liner.3/bore")
	var hers, his []machine.Body
	hers = append(hers, s.reading(in, bore, machine.Point{}, true))
	for _, p := range bore.Points() {
		hers = append(hers, s.reading(in, bore, p, false))
	}
	for _, id := range s.surfacesOf("sector-clear") {
		ft := m.Feature(id)
		if ft.Unworn != "" {
			his = append(his, s.reading(session{}, ft, machine.Point{}, true))
		}
		for _, p := range ft.Points() {
			his = append(his, s.reading(session{}, ft, p, false))
		}
		s.measured[id] = true
	}
	s.measured[bore.ID] = true
	again := s.readingNoted(in, bore, bore.Points()[1], false, "read after Ansa, same gauge, to see")
	his = append(his[:3], append([]machine.Body{again}, his[3:]...)...)
	s.minutes(10)
	for i := range max(len(hers), len(his)) {
		if i < len(hers) {
			s.sayAt(s.at, ansa, "", hers[i])
		}
		if i < len(his) {
			s.sayAt(s.at.Add(7*time.Second+300*time.Millisecond), per, "", his[i])
		}
		s.pass(29 * time.Second)
	}
}

// oldBill is a figure on paper that is stricter than the trade's.
func (s *story) oldBill() {
	s.minutes(15)
	s.say(&machine.LimitSet{Check: "ring-gap.1", Limit: machine.Limit{High: "0.80", NewHigh: "0.35", NewLow: "0.20", From: machine.Paperwork,
		Source: "rebuilder's bill found in the tool box, undated: \"ring gap 1 not over 0.80\""}})
}
