package reckon

import (
	"fmt"

	"matchmark/internal/trade/power"
	"matchmark/internal/trade/quantity"
)

const (
	powers     = "Power and brakes"
	ptoHazard  = "Keep clear of a turning power take-off and of the brake's arm: both break legs. Guard on, nobody in line with the arm."
	roadHazard = "Trial on level closed ground, seat belt and frame where there is one, nobody in the way."
)

func powerTopics() []Topic {
	share := func(key, ask string) Input { return ofDim(key, ask, quantity.Ratio, "%") }
	speed := func(key, ask string) Input { return ofDim(key, ask, quantity.Speed, "rpm") }
	kmh := func(key, ask string) Input { return ofDim(key, ask, quantity.RoadSpeed, "km/h") }
	force := func(key, ask string) Input { return ofDim(key, ask, quantity.Force, "N") }
	return []Topic{
		{Name: "power", Title: "power from torque and speed, or torque from power", Group: powers, Do: powerOf, Example: []string{"torque=100 N·m", "speed=2000 rpm", "litres=1.8"},
			Inputs: []Input{speed("speed", "speed of the shaft").need(), ofDim("torque", "torque; or give power", quantity.Torque, "N·m"), ofDim("power", "power; or give torque", quantity.Power, "kW"), ofDim("litres", "displacement, for the mean pressure of a four-stroke", quantity.Volume, "L")},
			Source: "2π·n·T/60", Sure: "exact for what was read"},
		{Name: "brake-power", Title: "power that a brake with an arm reads", Group: powers, Do: brakePower, Example: []string{"scale=32 kgf", "tare=2 kgf", "arm=0.716 m", "speed=1800 rpm"},
			Inputs: []Input{force("scale", "the scale under the arm").need(), force("tare", "the scale with the brake free").deflt("0 N"), ofDim("arm", "from the shaft to the scale", quantity.Length, "m").need(), speed("speed", "speed of the braked shaft").need()},
			Source: "2π·n·T/60", Sure: "as sure as scale, arm and speed; at the power take-off some per cent are lost before"},
		{Name: "power-correction", Title: "diesel power brought to the standard atmosphere", Group: powers, Do: powerCorrection, Example: []string{"power=14.5 kW", "barometer=99 kPa", "air=30", "humidity=60 %", "fuel=1.1", "litres=1.8", "speed=2000"},
			Inputs: []Input{ofDim("power", "power as measured", quantity.Power, "kW").need(), ofDim("barometer", "air pressure where the test was made", quantity.Pressure, "kPa").need(), ofDim("air", "temperature at the intake", quantity.Temperature, "°C").need(),
				share("humidity", "relative").deflt("50 %"), plain("qc", "fuel for each litre and cycle; or fuel, litres and speed", "mg"), plain("fuel", "fuel used", "g/s"), ofDim("litres", "displacement", quantity.Volume, "L"), speed("speed", "engine speed"),
				choice("intake", "how it breathes", string(power.Natural), string(power.Turbo)).deflt(string(power.Natural)), choice("bounds", "edition of the bounds of the engine factor", "40", "37.2").deflt("40")},
			Source: "ISO 1585, for diesels only; its bounds from memory", Sure: "within the reach of the factor; a figure outside 0.9 to 1.1 is marked"},
		{Name: "thin-air", Title: "density of the air at a height", Group: powers, Do: thinAir, Example: []string{"height=1000 m"}, Inputs: []Input{ofDim("height", "above the sea", quantity.Length, "m").need()}, Source: "ISO 2533 standard atmosphere", Sure: "weather moves it by some per cent"},
		{Name: "fuel-use", Title: "specific fuel consumption from a burette", Group: powers, Do: fuelUse, Example: []string{"burette=320", "time=300 s", "density=0.84", "power=14 kW"},
			Inputs: []Input{plain("burette", "fuel used", "cm³").need(), ofDim("time", "in the time", quantity.Time, "s").need(), plain("density", "of the fuel", "kg/L").deflt("0.84"), ofDim("power", "power", quantity.Power, "kW").need()},
			Source: "mass over power; heating value of diesel fuel 42.7 MJ/kg, textbook", Sure: "as sure as power and burette"},
		{Name: "leak-down", Title: "what a cylinder loses of the air let in", Group: powers, Do: leakDown, Example: []string{"in=6 bar", "cylinder=5.1 bar"},
			Inputs: []Input{ofDim("in", "pressure let in, gauge", quantity.Pressure, "bar").need(), ofDim("cylinder", "pressure in the cylinder, gauge", quantity.Pressure, "bar").need()}, Source: "(in - cylinder)/in", Sure: "depends on the orifice: compare cylinders, listen where it goes"},
		{Name: "compression-spread", Title: "how far the compression of cylinders parts", Group: powers, Do: compressionSpread, Example: []string{"pressures=26;25.5;19;26"},
			Inputs: []Input{{Key: "pressures", Ask: "readings of all cylinders", Dim: quantity.Pressure, Unit: "bar", Many: true, Needed: true}}, Source: "largest and smallest", Sure: "exact; cranking speed and temperature alike for all"},
		{Name: "pto-check", Title: "how far the power take-off runs from its nominal speed", Group: powers, Do: ptoCheck, Example: []string{"speed=552", "nominal=540"},
			Inputs: []Input{speed("speed", "measured").need(), choice("nominal", "nominal speed", "540", "1000").deflt("540")}, Source: "ISO 500-1, from memory; 3 % common practice, no source", Sure: "as sure as the tachometer"},
		{Name: "stop", Title: "deceleration of a brake trial, beside what one regulation asks", Group: powers, Do: stop, Example: []string{"speed=20 km/h", "way=6.5 m", "design=25 km/h"},
			Inputs: []Input{kmh("speed", "at the start of braking").need(), ofDim("way", "on the brakes", quantity.Length, "m").need(), kmh("design", "design speed of the tractor, for the regulation")},
			Source: "v²/(2·s); Regulation (EU) 2015/68 annex II", Sure: "as sure as speed and tape; " + power.LawWords},
		{Name: "stop-way", Title: "way of a stop at a deceleration", Group: powers, Do: stopWay, Example: []string{"speed=25 km/h", "deceleration=3.0", "reaction=1 s"},
			Inputs: []Input{kmh("speed", "at the start").need(), plain("deceleration", "mean", "m/s²").need(), ofDim("reaction", "reaction time", quantity.Time, "s").deflt("1 s")}, Source: "v²/(2·d) and v·t", Sure: "exact for that deceleration; a wet road gives less"},
		{Name: "brake-balance", Title: "how far the brakes of two sides part, and what they slow", Group: powers, Do: brakeBalance, Example: []string{"left=2100 N", "right=1750 N", "mass=1500 kg"},
			Inputs: []Input{force("left", "brake force of the left side").need(), force("right", "of the right side").need(), ofDim("mass", "mass of the machine", quantity.Mass, "kg")}, Source: "difference over the larger; force over mass", Sure: "as sure as the brake stand"},
		{Name: "slope", Title: "force that holds a machine on a slope", Group: powers, Do: slope, Example: []string{"mass=1500 kg", "slope=18 %"}, Inputs: []Input{ofDim("mass", "mass of the machine", quantity.Mass, "kg").need(), share("slope", "rise over run").need()}, Source: "m·g·sin", Sure: "exact; tyres may slide before"},
		{Name: "slip", Title: "slip of the wheels and power at the drawbar", Group: powers, Do: slip, Example: []string{"loaded=37.2", "free=41.0", "pull=8000 N", "speed=5 km/h"},
			Inputs: []Input{ofDim("loaded", "way of some wheel turns, pulling", quantity.Length, "m").need(), ofDim("free", "way of as many turns, not pulling", quantity.Length, "m").need(), force("pull", "at the drawbar"), kmh("speed", "over ground, pulling")}, Source: "ways of equal turns; force times speed", Sure: "as sure as the tape"},
	}
}

// one is an answer of one figure, or the error that came with it.
func one(name string, x float64, unit string, digits int, err error) (Answer, error) {
	if err != nil {
		return Answer{}, err
	}
	return Answer{Lines: []Line{value(name, x, unit, digits)}}, nil
}

func powerOf(v Values) (Answer, error) {
	key, err := v.either("torque", "power")
	if err != nil {
		return Answer{}, err
	}
	kw, a := v.num("power")/1000, Answer{}
	if key == "torque" {
		if kw, err = power.KW(v.num("torque"), v.num("speed")); err == nil {
			a, err = one("power", kw, "kW", 2, nil)
		}
	} else {
		nm, failed := power.Torque(kw, v.num("speed"))
		a, err = one("torque", nm, "N·m", 1, failed)
	}
	if err != nil || !v.has("litres") {
		return a, err
	}
	bar, err := power.MeanPressure(kw, v.num("litres"), v.num("speed"))
	a.Lines = append(a.Lines, value("mean pressure of a four-stroke", bar, "bar", 2))
	return a, err
}

func brakePower(v Values) (Answer, error) {
	kw, err := power.Brake{Scale: v.num("scale"), Tare: v.num("tare"), Arm: v.num("arm") / 1000, Rpm: v.num("speed")}.KW()
	a, err := one("power", kw, "kW", 2, err)
	a.Cautions = []string{ptoHazard}
	return a, err
}

func (v Values) fuelPerCycle() (float64, error) {
	if v.has("qc") {
		return v.num("qc"), nil
	}
	if !v.has("fuel") || !v.has("litres") || !v.has("speed") {
		return 0, fmt.Errorf("qc, or fuel with litres and speed, were wanted")
	}
	return power.FuelPerCycle(v.num("fuel"), v.num("litres"), v.num("speed"))
}

func powerCorrection(v Values) (Answer, error) {
	dry, err := power.Air{Barometer: 1000 * v.num("barometer"), Celsius: v.num("air"), Humidity: 100 * v.num("humidity")}.Dry()
	if err != nil {
		return Answer{}, err
	}
	qc, err := v.fuelPerCycle()
	if err != nil {
		return Answer{}, err
	}
	edition := power.Bounds40
	if v.word("bounds") != "40" {
		edition = power.Bounds37
	}
	c, err := power.Test{KW: v.num("power") / 1000, DryKPa: dry, Celsius: v.num("air"), QC: qc, Intake: power.Intake(v.word("intake")), Edition: edition}.Correct()
	if err != nil {
		return Answer{}, err
	}
	return Answer{Marked: append(c.Doubts, "bounds of the engine factor: "+string(edition)),
		Lines:   []Line{value("corrected power", c.KW, "kW", 2), value("factor", c.Factor, "", 4), value("air factor", c.Air, "", 4), value("engine factor", c.Engine, "", 3)},
		Working: []string{fmt.Sprintf("dry air %.2f kPa, fuel %.1f mg for each litre and cycle; power × air factor ^ engine factor", dry, qc)}}, nil
}

func thinAir(v Values) (Answer, error) {
	x, err := power.Thinner(v.num("height") / 1000)
	return one("density against the sea", 100*x, "%", 1, err)
}

func fuelUse(v Values) (Answer, error) {
	use, err := power.FuelUse(v.num("burette"), v.num("time"), v.num("density"), v.num("power")/1000)
	if err != nil {
		return Answer{}, err
	}
	share, err := power.Thermal(use, 42.7)
	return Answer{Lines: []Line{value("fuel", use, "g/(kW·h)", 1), value("of the fuel's heat", 100*share, "%", 1)}}, err
}

func leakDown(v Values) (Answer, error) {
	x, err := power.LeakDown(v.num("in"), v.num("cylinder"))
	a, err := one("loses", x, "%", 1, err)
	a.Cautions = []string{"Air turns the engine: block it at top dead centre and keep hands off belts and fan."}
	return a, err
}

func compressionSpread(v Values) (Answer, error) {
	s, err := power.SpreadOf(v.nums("pressures"))
	return Answer{Lines: []Line{value("part by", 10*s.Range, "bar", 2), value("lowest against highest", s.Lowest, "%", 1)}}, err
}

func ptoCheck(v Values) (Answer, error) {
	nominal := 540.0
	if v.word("nominal") == "1000" {
		nominal = 1000
	}
	x, good, err := power.ShaftOff(v.num("speed"), nominal)
	words := "within the 3 % that the trade lets pass"
	if !good {
		words = "more than the 3 % that the trade lets pass"
	}
	return Answer{Lines: []Line{value("off the nominal speed by", x, "%", 1).with(words)}, Cautions: []string{ptoHazard}}, err
}

func stop(v Values) (Answer, error) {
	d, err := power.Deceleration(v.num("speed"), v.num("way")/1000)
	if err != nil {
		return Answer{}, err
	}
	a := Answer{Lines: []Line{value("mean deceleration", d, "m/s²", 2)}, Cautions: []string{roadHazard}}
	if !v.has("design") {
		return a, nil
	}
	l, err := power.LimitOf(v.num("speed"), v.num("design"))
	if err != nil {
		return Answer{}, err
	}
	a.Lines = append(a.Lines, value("one regulation asks for a stop within", l.Metres, "m", 2).with("reaction of the brakes in it").on(l.Source), value("and a mean deceleration of", l.Deceleration, "m/s²", 2))
	a.Cautions = append(a.Cautions, l.Law)
	return a, nil
}

func stopWay(v Values) (Answer, error) {
	m, err := power.Distance(v.num("speed"), v.num("deceleration"), v.num("reaction"))
	return one("stops in", m, "m", 2, err)
}

func brakeBalance(v Values) (Answer, error) {
	x, err := power.Balance(v.num("left"), v.num("right"))
	a, err := one("sides part by", x, "% of the larger", 1, err)
	if err != nil || !v.has("mass") {
		return a, err
	}
	d, err := power.Braking(v.num("mass"), v.num("left"), v.num("right"))
	a.Lines, a.Cautions = append(a.Lines, value("slows the machine at", d, "m/s²", 2)), []string{roadHazard}
	return a, err
}

func slope(v Values) (Answer, error) {
	n, err := power.Holding(v.num("mass"), 100*v.num("slope"))
	if err != nil {
		return Answer{}, err
	}
	deg, err := power.SlopeDegrees(100 * v.num("slope"))
	return Answer{Lines: []Line{value("holds it", n, "N", 0), value("angle", deg, "deg", 2)}, Cautions: []string{"Chock the wheels before the brake is trusted."}}, err
}

func slip(v Values) (Answer, error) {
	x, err := power.Slip(v.num("loaded"), v.num("free"))
	a, err := one("slip", x, "%", 2, err)
	if err != nil {
		return a, err
	}
	if v.has("pull") != v.has("speed") {
		return Answer{}, fmt.Errorf("pull and speed were wanted together")
	}
	if v.has("pull") {
		kw, err := power.Drawbar(v.num("pull"), v.num("speed"))
		if err != nil {
			return Answer{}, err
		}
		a.Lines = append(a.Lines, value("power at the drawbar", kw, "kW", 2))
	}
	return a, nil
}
