package play

import (
	"time"

	"matchmark/internal/machine"
)

// cleanUp is the week at the washing bench, and the passages proved clear.
func (s *story) cleanUp() {
	s.who = per
	s.on(6, time.November, 9*time.Hour)
	s.clean(25, "block", "head", "crankshaft", "camshaft", "sump", "timing-cover", "rocker-cover")
	s.clean(6, places[machine.PartID]("piston", cylinders...)...)
	s.clean(6, places[machine.PartID]("con-rod", cylinders...)...)
	s.clean(4, places[machine.PartID]("main-cap", mains...)...)
	s.clean(3, places[machine.PartID]("main-shell", mains...)...)
	s.who = ansa
	s.clean(5, places[machine.PartID]("valve", valves...)...)
	s.clean(3, places[machine.PartID]("valve-spring", valves...)...)
	s.clean(4, places[machine.PartID]("rocker", valves...)...)
	s.clean(4, places[machine.PartID]("tappet", valves...)...)
	s.clean(4, places[machine.PartID]("pushrod", valves...)...)
	s.clean(8, "rocker-shaft", "idler-gear", "idler-shaft", "oil-pump-body", "oil-pump-rotor", "oil-pump-cover", "exhaust-manifold", "inlet-manifold")
	s.who = per
	s.on(9, time.November, 0)
	s.clean(8, "flywheel", "clutch-cover", "bell-housing", "release-shaft", "release-fork", "front-axle", "front-support", "starter-arm", "starter-body")
	s.clean(6, places[machine.PartID]("kingpin", "left", "right")...)
	s.clean(6, places[machine.PartID]("hub", "left", "right")...)
	s.clean(6, places[machine.PartID]("spindle", "left", "right")...)
	s.clean(5, "fuel-tank", "rad-core", "wp-housing", "stat-housing", "gb-top", "fork-12", "fork-3r", "rail-12", "rail-3r", "axle-pivot")
	s.clean(4, places[machine.PartID]("injector-body", cylinders...)...)
	s.passages()
}

// passages are proved one by one, before anything can hide them.
func (s *story) passages() {
	s.who = ansa
	s.on(10, time.November, 8*time.Hour)
	s.check("main-gallery", "crank-drillings", "rod-drilling", "cam-feeds", "idler-feed", "oil-return", "head-water",
		"water-jacket", "relief-return", "filter-bypass", "rocker-feed-way", "breather-way")
	s.who = per
	s.check("wp-telltale", "stat-jiggle", "rad-tubes", "tank-vent", "tank-standpipe", "banjo-special", "return-line", "bell-drain")
	s.blockedBreather()
}

// blockedBreather was proved blocked, cleaned and proved clear.
func (s *story) blockedBreather() {
	s.minutes(8)
	s.say(&machine.LookTaken{Check: "case-breathers", OK: false, Words: "solid with rust and paint, not a breath"})
	s.minutes(40)
	s.say(&machine.RemedyDone{Check: "case-breathers", Key: "clean", Note: "drilled out by hand, boiled, blown through"})
	s.minutes(5)
	s.say(&machine.LookTaken{Check: "case-breathers", OK: true, Words: "a breath goes through"})
}
