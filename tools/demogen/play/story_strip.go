package play

import (
	"time"

	"matchmark/internal/machine"
)

// takeApart is five weeks: from the bonnet to the crankshaft.
func (s *story) takeApart() {
	s.frontOff()
	s.engineDressed()
	s.headOff()
	s.split()
	s.bottomEnd()
	s.gearboxTop()
}

// frontOff: tinwork, electrics, cooling, front wheels.
func (s *story) frontOff() {
	s.who = per
	s.on(7, time.October, 0)
	s.pull("bonnet-on", "grille-fit", "lead-battery-neg", "battery-fit")
	s.who = ansa
	s.strip("cooling-rad")
	s.pictureTray("1")
	s.who = per
	s.on(8, time.October, 0)
	s.pull("seat-fit", "cushion-fit")
	s.strip("body-tin", "electrical-loom", "electrical-battery")
	s.nobodyCanPlace()
	s.who = ansa
	s.on(12, time.October, 0)
	s.strip("cooling-pump")
	s.who = per
	s.strip("electrical-charge", "electrical-glow", "electrical-starter")
	s.pictureTray("9")
	s.dynamo()
}

// engineDressed: fuel, air, the pump and what hangs on the engine.
func (s *story) engineDressed() {
	s.who = per
	s.on(14, time.October, 0)
	s.oilFilterCorner()
	s.strip("fuel-supply", "fuel-inject")
	s.who = ansa
	s.on(16, time.October, 0)
	s.strip("engine-air")
	s.orderFromTheSurvey()
	s.who = per
	s.on(19, time.October, 0)
	s.pull("gov-port", "rack-link", "gov-spring-fit", "ip-block", "stop-fit", "throttle-link-hand", "throttle-link-foot")
	s.pictureTray("17")
}

// headOff: rockers, head, valves.
func (s *story) headOff() {
	s.who = ansa
	s.on(20, time.October, 0)
	s.strip("engine-head")
	s.pictureTray("22")
}

// split: the front comes off the engine, the engine off the gearbox.
func (s *story) split() {
	s.who = per
	s.on(26, time.October, 0)
	s.pull("wheel-front-fit.left", "wheel-front-fit.right")
	s.strip("steering-front", "steering-box")
	s.who = ansa
	s.on(28, time.October, 0)
	s.pull("lines-split", "suction-fit", "pressure-fit", "hp-mount", "hpcoupling-fit", "bell-engine")
	s.strip("clutch")
	s.orderTheClutch()
}

// bottomEnd: sump, timing gears, pistons, crankshaft.
func (s *story) bottomEnd() {
	s.who = ansa
	s.on(29, time.October, 0)
	s.pull("pickup-block")
	s.strip("engine-lub")
	s.who = per
	s.strip("engine-timing", "fuel-pump", "fuel-control")
	s.who = ansa
	s.on(2, time.November, 0)
	s.pull("rod-cap-bolt.1", "rod-big-end.1", "piston-bore.1", "rod-cap-bolt.3", "rod-big-end.3", "piston-bore.3",
		"rod-cap-bolt.2", "rod-big-end.2", "piston-bore.2")
	s.strip("engine-piston", "engine-crank", "engine-block")
	s.pictureTray("40")
}

// gearboxTop: the top cover and the shift, no further.
func (s *story) gearboxTop() {
	s.theGasketsCome()
	s.who = per
	s.on(5, time.November, 0)
	s.strip("gearbox-case", "gearbox-shift")
	s.pull("mesh-1", "mesh-2", "mesh-3", "mesh-rev")
	s.say(&machine.Noted{Of: machine.RefPart("gb-case"), Text: "Left it at that: the shafts only come out rearwards, and the back end stays together this winter."})
}
