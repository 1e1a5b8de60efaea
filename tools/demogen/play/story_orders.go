package play

import (
	"time"

	"matchmark/internal/machine"
)

// day is noon on a date of the story's year.
func day(d int, m time.Month) time.Time { return time.Date(2026, m, d, 12, 0, 0, 0, time.UTC) }

// orderFromTheSurvey buys what a strip uses up.
func (s *story) orderFromTheSurvey() {
	s.minutes(20)
	s.say(&machine.Ordered{Order: "gasket-set", What: "Gaskets, seals and copper washers for the whole engine, cut to pattern",
		Parts: []machine.PartID{"head-gasket", "sump-gasket", "timing-cover-gasket"}, From: "Hollin Gasket & Joint", Due: day(4, time.November), Cost: 2.5})
}

// orderTheClutch is the order that comes late.
func (s *story) orderTheClutch() {
	s.minutes(20)
	s.say(&machine.Ordered{Order: "clutch-plate", What: "Clutch plate, 200 mm, relined on our own hub as pattern", Parts: []machine.PartID{"clutch-plate"},
		From: "Tarn Street Friction", Due: day(10, time.November), Cost: 4})
}

// theGasketsCome, and the clutch does not.
func (s *story) theGasketsCome() {
	s.who = per
	s.on(4, time.November, 15*time.Hour)
	s.say(&machine.Received{Order: "gasket-set", Note: "all there but the thermostat paper, cut it ourselves"})
}

func (s *story) theClutchIsLate() {
	s.minutes(5)
	s.say(&machine.Promised{Order: "clutch-plate", Due: day(2, time.December), Why: "waiting for lining of the right thickness"})
}
