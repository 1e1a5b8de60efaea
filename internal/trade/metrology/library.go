package metrology

// Sources of the library. The trade states one figure, U at 95 %, for one
// careful reading; how it divides into scale, step and hand is our own
// judgement, chosen so that twice the standard uncertainty gives that figure.
const (
	tradeFigure = "U (95 %) common practice, no source; division into parts our own"
	ownFigure   = "common practice, no source; figures our own"
)

// Instruments lists the usual instruments in a fixed order. None of the
// figures is a maker's; an instrument with a certificate should be entered
// with its own.
func Instruments() []Instrument {
	return append(lengthInstruments(), otherInstruments()...)
}

// lengthInstruments: mm.
func lengthInstruments() []Instrument {
	return []Instrument{
		{ID: "micrometer", Name: "outside micrometer 0.01, thousandths by vernier or eye", Kind: "outside", Unit: "mm",
			Step: 0.001, HalfWidth: 0.002, Repeat: 0.0016, Source: tradeFigure}, // U 0.004
		{ID: "micrometer-line", Name: "outside micrometer 0.01, read to the line", Kind: "outside", Unit: "mm",
			Step: 0.01, HalfWidth: 0.002, Repeat: 0.0016, Source: ownFigure},
		{ID: "depth-micrometer", Name: "depth micrometer 0.01", Kind: "depth", Unit: "mm",
			Step: 0.01, HalfWidth: 0.005, Repeat: 0.003, Source: ownFigure},
		{ID: "bore-gauge-ring", Name: "bore gauge set in a ring", Kind: "bore", Unit: "mm",
			Step: 0.002, HalfWidth: 0.003, Repeat: 0.0024, Source: tradeFigure}, // U 0.006
		{ID: "bore-gauge-micrometer", Name: "bore gauge set by micrometer", Kind: "bore", Unit: "mm",
			Step: 0.002, HalfWidth: 0.006, Repeat: 0.0035, SetBy: "micrometer", Source: tradeFigure}, // U 0.010
		{ID: "dial", Name: "dial gauge 0.01", Kind: "travel", Unit: "mm",
			Step: 0.01, HalfWidth: 0.005, Repeat: 0.003, Source: tradeFigure}, // U 0.010
		{ID: "feeler", Name: "feeler gauge", Kind: "gap", Unit: "mm",
			Step: 0.02, HalfWidth: 0.005, Repeat: 0.0077, Source: tradeFigure}, // U 0.02
		{ID: "straightedge-feeler", Name: "straightedge and feeler gauge", Kind: "flatness", Unit: "mm",
			Step: 0.02, HalfWidth: 0.01, Repeat: 0.0077, Source: ownFigure},
		{ID: "plastic-strip", Name: "plastic strip, crushed", Kind: "clearance", Unit: "mm",
			Step: 0.013, HalfWidth: 0.005, Repeat: 0.0037, Source: tradeFigure}, // U 0.012
		{ID: "vernier", Name: "vernier calliper 0.02", Kind: "outside", Unit: "mm",
			Step: 0.02, HalfWidth: 0.02, Repeat: 0.0077, Source: tradeFigure}, // U 0.03
		{ID: "digital-calliper", Name: "digital calliper 0.01", Kind: "outside", Unit: "mm",
			Step: 0.01, HalfWidth: 0.02, Repeat: 0.006, Source: ownFigure},
		{ID: "rule", Name: "steel rule", Kind: "outside", Unit: "mm",
			Step: 0.5, HalfWidth: 0.3, Repeat: 0.11, Source: tradeFigure}, // U 0.5
		{ID: "roughness-gauge", Name: "roughness gauge with a stylus, or a card of samples", Kind: "roughness", Unit: "mm",
			Step: 0.00001, Relative: 0.15, Repeat: 0.00002, Source: ownFigure}, // Ra, µm as shown
	}
}

// otherInstruments: units as named.
func otherInstruments() []Instrument {
	return []Instrument{
		{ID: "torque-wrench", Name: "torque wrench", Kind: "torque", Unit: "N·m",
			Step: 1, Relative: 0.04, Repeat: 0.5, Source: "±4 % above 10 N·m: ISO 6789-1, value from memory; the rest our own"},
		{ID: "multimeter-volt", Name: "multimeter, volts, 20 V range", Kind: "voltage", Unit: "V",
			Step: 0.01, HalfWidth: 0.02, Relative: 0.005, Source: ownFigure},
		{ID: "multimeter-ohm", Name: "multimeter, ohms, leads zeroed", Kind: "resistance", Unit: "Ω",
			Step: 0.1, HalfWidth: 0.2, Relative: 0.01, Source: ownFigure},
		{ID: "current-clamp", Name: "current clamp", Kind: "current", Unit: "A",
			Step: 0.1, HalfWidth: 0.5, Relative: 0.025, Source: ownFigure},
		{ID: "oil-gauge", Name: "pressure gauge 0 to 1 MPa, class 1.6", Kind: "pressure", Unit: "MPa",
			Step: 0.01, HalfWidth: 0.016, Source: "1.6 % of full scale: EN 837-1 class 1.6, value from memory; the rest our own"},
		{ID: "compression-gauge", Name: "compression gauge 0 to 7 MPa, class 2.5", Kind: "pressure", Unit: "MPa",
			Step: 0.1, HalfWidth: 0.175, Repeat: 0.05, Source: "2.5 % of full scale: EN 837-1 class 2.5, value from memory; the rest our own"},
		{ID: "hydraulic-gauge", Name: "pressure gauge 0 to 25 MPa, class 1.6", Kind: "pressure", Unit: "MPa",
			Step: 0.25, HalfWidth: 0.4, Source: "1.6 % of full scale: EN 837-1 class 1.6, value from memory; the rest our own"},
		{ID: "protractor", Name: "protractor or degree wheel", Kind: "angle", Unit: "deg",
			Step: 0.5, HalfWidth: 0.5, Repeat: 0.3, Source: ownFigure},
		{ID: "balance", Name: "balance 5 kg, 1 g", Kind: "mass", Unit: "kg",
			Step: 0.001, HalfWidth: 0.002, Source: ownFigure},
		{ID: "spring-balance", Name: "spring balance", Kind: "force", Unit: "N",
			Step: 1, Relative: 0.02, Repeat: 1, Source: ownFigure},
		{ID: "stop-watch", Name: "stop watch, by hand", Kind: "time", Unit: "s",
			Step: 0.01, Repeat: 0.15, Source: ownFigure},
		{ID: "tachometer", Name: "tachometer, optical", Kind: "speed", Unit: "rpm",
			Step: 1, HalfWidth: 1, Relative: 0.001, Source: ownFigure},
		{ID: "thermometer", Name: "thermometer, contact", Kind: "temperature", Unit: "°C",
			Step: 0.1, HalfWidth: 1, Repeat: 0.3, Source: ownFigure},
		{ID: "burette", Name: "burette 50 mL", Kind: "volume", Unit: "L",
			Step: 0.0001, HalfWidth: 0.0001, Repeat: 0.0001, Source: ownFigure},
	}
}
