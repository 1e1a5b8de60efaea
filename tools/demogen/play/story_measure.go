package play

import (
	"time"

	"matchmark/internal/machine"
)

// measureAll is two weeks at the surface plate.
func (s *story) measureAll() {
	s.lengths()
	s.figures()
	s.crank()
	s.dryMains()
	s.bores()
	s.pistons()
	s.headParts()
	s.timing()
	s.fuelAndElectrics()
	s.clutchAndFront()
	s.damage()
}

// damage is drawn before it leaves the shop.
func (s *story) damage() {
	s.who = per
	s.picture("exhaust-manifold", view{sort: "bolted", title: "Stump of the broken stud, cylinder 3", bolts: 6, turn: 0.2})
	s.picture("crankshaft", view{sort: "plain bearing", title: "Crankpin 3, scored on the loaded side", turn: 0.7})
	s.picture("liner.2", view{sort: "seal", title: "Step at the top of bore 2", turn: 0.9})
	s.picture("kingpin.left", view{sort: "plain bearing", title: "Left king pin, worn at the lower bush", turn: 0.1})
	s.picture("clutch-plate", view{sort: "bolted", title: "Clutch plate, rivets showing", bolts: 10, turn: 0.5})
	s.picture("crank-pulley", view{sort: "seal", title: "Groove of the front seal", turn: 0.4})
	s.picture("hp-pipe.2", view{sort: "threaded", title: "Mushroomed cone of pipe 2", turn: 0.8})
	s.picture("head", view{sort: "gasket", title: "Head face, where the straightedge shows light", bolts: 12, turn: 0.3})
	for _, mark := range []string{"12", "20", "28", "35", "44", "50"} {
		s.minutes(3)
		s.pictureTray(mark)
	}
}

// lengths are the figures that flatness is judged by.
func (s *story) lengths() {
	s.who = ansa
	s.on(11, time.November, 8*time.Hour)
	for _, d := range []struct{ id, typed, source string }{
		{"head-length", "342", "rule, corner to corner"},
		{"deck-length", "350", "rule, corner to corner"},
		{"manifold-length", "265", "rule, over the ports"},
		{"gearbox-top-length", "310", "rule, front to rear"},
	} {
		s.minutes(3)
		s.datum(d.id, d.typed, "mm", machine.Unworn, d.source)
	}
}

// crank: tunnels, mains and crankpins, for the dry build of the next day.
func (s *story) crank() {
	s.check("crank-crack", "main-bolt-len", "rod-bolt-len", "flywheel-bolt-len", "head-stud-len")
	s.check("main-surface", "crankpin-surface")
	s.measure(session{inches: true}, "crankshaft/main-journal-1")
	s.word("main-wear.1", "Ansa's micrometer was with Per; read the fillet side with the old one in inches.")
	s.measure(session{}, "crankshaft/main-journal-2", "crankshaft/main-journal-3", "crankshaft/main-journal-4")
	s.wrongCylinder()
	s.measure(session{}, "crankshaft/crankpin-1", "crankshaft/crankpin-2", "crankshaft/crankpin-3")
	for _, id := range []machine.FeatureID{"crankshaft/main-journal-1", "crankshaft/main-journal-2", "crankshaft/main-journal-3",
		"crankshaft/main-journal-4", "crankshaft/crankpin-1", "crankshaft/crankpin-2", "crankshaft/crankpin-3"} {
		s.nominal(id)
	}
	s.measure(session{}, s.surfacesOf("main-tunnel")...)
	s.check("main-align", "crank-runout", "crank-seal-track")
	s.word("crankpin-round.3", "This is the knock. Oil hole of pin 3 was half shut with sludge.")
}

// dryMains puts the crankshaft in once, dry, to crush plastic strip.
func (s *story) dryMains() {
	s.on(12, time.November, 8*time.Hour)
	s.say(&machine.Noted{Text: "Dry build of the mains today: all four, cleaned twice, no oil."})
	s.onTrial("main-shell-saddle", "")
	s.onTrial("crank-mains", "strip across the journal, front and rear")
	s.minutes(20)
	s.say(&machine.JointClosed{Joint: "thrust-float", As: machine.Trial, Note: "old washers"})
	s.onTrial("main-cap-block", "88 N·m in three steps, strip in place, nothing turned")
	s.check("main-clear")
	s.check("crank-float")
	for _, typ := range []machine.JointID{"main-cap-block", "crank-mains", "main-shell-saddle"} {
		for _, id := range places(typ, mains...) {
			s.minutes(5)
			s.say(&machine.JointOpened{Joint: id, Tray: s.lastTray(id), Note: "after the dry build"})
		}
	}
	s.say(&machine.JointOpened{Joint: "thrust-float", Tray: s.lastTray("thrust-float"), Note: "after the dry build"})
	s.say(&machine.Noted{Of: machine.RefPart("crankshaft"), Text: "Clearances are fair for shells of this age, but pin 3 decides: the crankshaft has to go out."})
}

// onTrial closes a joint at all four mains, dry.
func (s *story) onTrial(typ machine.JointID, note string) {
	for _, id := range places(typ, mains...) {
		s.minutes(7)
		b := &machine.JointClosed{Joint: id, As: machine.Trial, Note: note}
		if sets := known[typ]; sets != nil {
			b.Fasteners, b.Torque = sets, s.amount("88", "N·m")
		}
		s.say(b)
	}
}

// lastTray is the mark a joint's pieces lay under when it first came apart.
func (s *story) lastTray(id machine.JointID) string {
	j := s.machine().Joint(id)
	return j.Removals[len(j.Removals)-1].Tray
}

// bores, with two people at the machine at once.
func (s *story) bores() {
	s.who = ansa
	s.on(13, time.November, 8*time.Hour)
	warm := session{tempC: 16.5}
	s.measure(warm, "liner.1/bore", "liner.2/bore")
	s.twoAtOnce(warm)
	for _, id := range []machine.FeatureID{"liner.1/bore", "liner.2/bore", "liner.3/bore"} {
		s.nominal(id)
	}
	s.check("bore-finish", "deck-flat")
}

// pistons and what turns in them, at one temperature with the bores.
func (s *story) pistons() {
	cold := session{tempC: 16.5}
	s.measure(cold, surface("piston.1", "skirt"), surface("piston.2", "skirt"), surface("piston.3", "skirt"))
	s.check("ring-side", "ring-side-second", "ring-side-oil", "ring-gap", "ring-gap-second", "ring-gap-oil")
	s.oldBill()
	s.on(16, time.November, 8*time.Hour)
	one := session{tool: map[string]string{"bore-gauge-ring": "bore-gauge-micrometer"},
		setting: map[string]string{"bore-gauge-micrometer": "micrometer 0-25", "micrometer": "micrometer 0-25"}}
	s.measure(one, s.surfacesOf("pin-fit-piston", "pin-fit-bush")...)
	s.nominal("gudgeon-pin.1/dia")
	s.measure(session{}, s.surfacesOf("rod-tunnel")...)
	s.check("rod-bend")
}

// headParts: face, guides, stems, seats, springs, rockers.
func (s *story) headParts() {
	s.who = ansa
	s.check("head-flat", "head-crack", "comp-volume", "comp-spread")
	s.word("head-flat", "Hollow over cylinder 2, where the gasket blew.")
	s.measure(session{}, s.surfacesOf("stem-clear")...)
	s.nominal("valve.in-1/stem")
	s.nominal("valve.ex-1/stem")
	s.measure(session{}, s.surfacesOf("valve-margin", "seat-width")...)
	s.on(17, time.November, 8*time.Hour)
	s.check("spring-free", "spring-force")
	s.measure(session{}, s.surfacesOf("rocker-play")...)
	s.check("rocker-pad", "pushrod-bend")
}

// timing: camshaft, tappets, idler.
func (s *story) timing() {
	s.who = per
	s.measure(session{}, s.surfacesOf("tappet-fit")...)
	s.check("tappet-face", "cam-lift")
	s.measure(session{}, s.surfacesOf("cam-journal")...)
	s.measure(session{}, s.surfacesOf("idler-clear")...)
	s.check("relief-seat", "gov-free", "gov-spring-hook", "pulley-seal-track")
}

// fuelAndElectrics at Per's bench.
func (s *story) fuelAndElectrics() {
	s.who = per
	s.on(18, time.November, 8*time.Hour)
	s.check("inj-pressure", "inj-balance", "inj-leak", "inj-spray", "hp-pipe-cond", "tank-clean")
	s.check("glow-res", "brush-len")
	s.word("inj-pressure.3", "The pressure it opened at before strip was 100 as well: the spring, not the dirt.")
	s.measure(session{}, s.surfacesOf("starter-bush-clear")...)
	s.check("comm-cond", "stat-open", "cap-press", "rad-leak", "manifold-flat", "inlet-flat")
	s.minutes(15)
	s.say(&machine.ReadingTaken{Check: "wp-play", Amount: *s.amount("0.09", "mm"), Tool: "dial", Note: "pump whole, on the bench"})
}

// clutchAndFront: the rest of what came off ahead of the gearbox.
func (s *story) clutchAndFront() {
	s.who = per
	s.measure(session{}, s.surfacesOf("clutch-rivet", "release-bush-clear", "pilot-brg")...)
	s.check("flywheel-surface", "cover-flat", "clutch-runout")
	s.measure(session{}, s.surfacesOf("rail-clear-12", "rail-clear-3r")...)
	s.check("detent-len", "detent-range-len", "range-dog", "top-case-flat")
	s.who = ansa
	s.on(19, time.November, 8*time.Hour)
	s.measure(session{}, s.surfacesOf("king-clear", "spindle-seat-in", "spindle-seat-out")...)
	s.measure(session{tool: map[string]string{"micrometer": "vernier"}}, s.surfacesOf("pivot-clear")...)
	s.nominal("kingpin-land.lower-left/dia")
	s.nominal("axle-pivot/land-rear")
}
