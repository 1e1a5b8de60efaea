package play

import (
	"time"

	"matchmark/internal/machine"
)

// decide is the last week so far: what goes back, what does not, and what is
// sent out.
func (s *story) decide() {
	s.who = ansa
	s.on(20, time.November, 8*time.Hour)
	s.calls()
	s.on(23, time.November, 8*time.Hour+30*time.Minute)
	s.remedies()
	s.sendOut()
	s.who = per
	s.theClutchIsLate()
	s.counts()
	s.on(24, time.November, 9*time.Hour)
	s.say(&machine.Noted{Text: "Half way. Engine apart and measured, gearbox open at the top, back end untouched on its wheels."})
}

// calls are the restorer's word on parts.
func (s *story) calls() {
	for _, c := range []struct {
		call  machine.Call
		why   string
		parts []machine.PartID
	}{
		{machine.GoesBack, "within limits", []machine.PartID{"block", "camshaft", "rocker-shaft", "oil-pump-body", "oil-pump-rotor", "flywheel",
			"timing-cover", "sump", "rocker-cover", "con-rod.1", "con-rod.2", "con-rod.3", "idler-gear", "exhaust-manifold", "inlet-manifold",
			"front-support", "hub.left", "hub.right", "gb-top", "bonnet", "grille"}},
		{machine.MakeGood, "to the machine shop", []machine.PartID{"head", "crankshaft", "liner.1", "liner.2", "liner.3"}},
		{machine.MakeGood, "on the bench", []machine.PartID{"starter-body", "fuel-tank", "injector-body.3"}},
		{machine.Renew, "worn past its limit", []machine.PartID{"valve-guide.ex-1", "valve-guide.ex-3", "rocker-bush.ex-2", "kingpin.left",
			"clutch-plate", "thermostat", "glow-plug.2", "hp-pipe.2", "battery"}},
		{machine.Renew, "perished", []machine.PartID{"hose-top", "hose-bottom", "hose-bypass", "fan-belt", "rad-mount"}},
	} {
		for _, id := range c.parts {
			s.minutes(2)
			s.say(&machine.CallMade{Part: id, Call: c.call, Why: c.why})
		}
	}
}

// remedies that both were sure of.
func (s *story) remedies() {
	for _, r := range []machine.RemedyChosen{
		{Check: "clutch-rivet", Key: "clutch-plate", Why: "nothing else to do"},
		{Check: "king-clear.upper-left", Key: "king-set", Why: "the whole side"},
		{Check: "stat-open", Key: "part-new", Why: "cheap"},
		{Check: "glow-res.2", Key: "part-new", Why: "all three, to match"},
		{Check: "brush-len", Key: "starter-ovh", Why: "while it is apart"},
	} {
		s.minutes(4)
		s.say(&r)
	}
}

// sendOut is what left the shop, and what was bought.
func (s *story) sendOut() {
	s.minutes(10)
	s.say(&machine.Ordered{Order: "head-out", What: "Head: face skimmed flat, exhaust guides, seats cut", Parts: []machine.PartID{"head"}, Out: true,
		From: "Beck Lane Engineering", Due: day(11, time.December), Cost: 9})
	s.minutes(10)
	s.say(&machine.Ordered{Order: "king-pins", What: "King pin set, left, pin and both bushes", Parts: []machine.PartID{"kingpin.left"},
		From: "Tarn Street Friction", Due: day(4, time.December), Cost: 5})
	s.minutes(10)
	s.say(&machine.Ordered{Order: "small-parts", What: "Thermostat, glow plugs, starter brushes, hoses, belt", From: "market counter",
		Parts: []machine.PartID{"thermostat", "glow-plug.2", "starter-brush"}, Due: day(27, time.November), Cost: 3})
}

// counts are pieces that do not make up the number.
func (s *story) counts() {
	s.minutes(10)
	s.say(&machine.PartCounted{Part: "hose-clip", Found: 5, Words: "one of the six was wire"})
	s.minutes(2)
	s.say(&machine.PartCounted{Part: "head-stud", Found: 12, Words: "all there, all one length"})
}
