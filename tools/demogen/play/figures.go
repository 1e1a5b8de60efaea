package play

import "matchmark/internal/machine"

// figures are what the sums of the kits ask for and what was found on the
// bench; the rest of the figures nobody knows.
func (s *story) figures() {
	for _, d := range []struct {
		id, typed, unit string
		from            machine.Provenance
		source          string
	}{
		{"stroke", "76", "mm", machine.Unworn, "depth gauge on piston 1, top to bottom"},
		{"con-rod-length", "128", "mm", machine.Unworn, "pins in both eyes, rod 1"},
		{"main-bearing-width", "21.5", "mm", machine.Unworn, "shell, without the groove"},
		{"crankpin-width", "20", "mm", machine.Unworn, "shell"},
		{"gasket-crushed", "1.20", "mm", machine.Unworn, "old gasket beside the fire ring"},
		{"gasket-bore", "76.5", "mm", machine.Unworn, "old gasket"},
		{"chamber-volume", "14.9 cm³", "cm³", machine.Unworn, "burette, cylinder 1"},
		{"rated-speed", "2600", "rpm", machine.OwnDecision, "plate cannot be read; usual at this stroke"},
		{"idle-speed", "800", "rpm", machine.OwnDecision, "to begin with"},
		{"altitude", "180 m", "m", machine.Handbook, "map"},
		{"air-coldest", "-15", "°C", machine.OwnDecision, "coldest morning it is wanted"},
		{"air-hottest", "30", "°C", machine.OwnDecision, "hay"},
		{"oil-kv40", "105", "mm²/s", machine.Handbook, "sheet of the oil bought"},
		{"oil-kv100", "14.1", "mm²/s", machine.Handbook, "sheet of the oil bought"},
		{"main-load-idle", "600", "N", machine.OwnDecision, "guess, to compare clearances only"},
		{"main-load-rated", "2500", "N", machine.OwnDecision, "guess, to compare clearances only"},
		{"crank-gear-teeth", "24", "count", machine.Unworn, "counted"},
		{"idler-gear-teeth", "37", "count", machine.Unworn, "counted"},
		{"cam-gear-teeth", "48", "count", machine.Unworn, "counted"},
		{"ring-gear-teeth", "104", "count", machine.Unworn, "counted, two chipped among them"},
		{"starter-pinion-teeth", "9", "count", machine.Unworn, "counted"},
		{"flywheel-rim", "296", "mm", machine.Unworn, "tape round the rim"},
	} {
		s.minutes(2)
		s.datum(d.id, d.typed, d.unit, d.from, d.source)
	}
}
