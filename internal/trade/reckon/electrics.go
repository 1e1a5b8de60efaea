package reckon

import (
	"fmt"
	"math"

	"matchmark/internal/trade/electric"
	"matchmark/internal/trade/quantity"
)

const (
	electrics  = "Electrics"
	fireHazard = "Take the battery's earth off first. A battery gives gas that burns: no spark, no flame, goggles on."
)

func systemInput() Input {
	return ofDim("system", "volts of the machine: 6, 12 or 24", quantity.Voltage, "V").deflt("12 V")
}

func electricTopics() []Topic {
	volts := func(key, ask string) Input { return ofDim(key, ask, quantity.Voltage, "V") }
	amps := func(key, ask string) Input { return ofDim(key, ask, quantity.Current, "A") }
	run := []Input{amps("amps", "current of the consumer").need(), ofDim("way", "length of the cable one way", quantity.Length, "m").need(), yesNo("frame", "the current comes back through the machine's metal"),
		ofDim("joint", "what the earth joints add", quantity.Resistance, "mΩ").deflt("0"), systemInput(), ofDim("temperature", "of the cable", quantity.Temperature, "°C").deflt("20 °C")}
	const ohm = "Ohm; IEC 60228 class 5 for the cable"
	return []Topic{
		{Name: "cable", Title: "smallest cable for a consumer", Group: electrics, Do: cable, Example: []string{"amps=300", "way=1.2 m", "use=starter"},
			Inputs: append(run, choice("use", "what it feeds, for the drop to aim at", "lamps", "starter"), volts("drop", "most drop, there and back; in place of use")),
			Source: ohm + "; drops to aim at common practice, no source", Sure: "for sound cable: one corroded under its skin is found under load only"},
		{Name: "cable-drop", Title: "what a run of cable loses", Group: electrics, Do: cableDrop, Example: []string{"amps=10", "way=5 m", "area=2.5"},
			Inputs: append(run, plain("area", "cross-section of the copper", "mm²").need()), Source: ohm, Sure: "at most that: the standard gives the largest resistance"},
		{Name: "wire-gauge", Title: "what an AWG number means", Group: electrics, Do: wireGauge, Example: []string{"awg=10"},
			Inputs: []Input{plain("awg", "gauge; 0 is 1/0, -1 is 2/0, -3 is 4/0", "").need()}, Source: "ASTM B258", Sure: "exact for solid wire; stranded has about 2 % more resistance"},
		{Name: "battery", Title: "how full a battery is, from its rested volts or its acid", Group: electrics, Do: battery, Example: []string{"volts=12.4"},
			Inputs: []Input{volts("volts", "after four hours of rest; or give gravity"), plain("gravity", "reading of the hydrometer; or give volts", ""), ofDim("acid", "temperature of the acid", quantity.Temperature, "°C").deflt("25 °C"), systemInput()},
			Source: "three tables of rested volts that disagree; gravity + 0.84 V a cell, textbook", Sure: "a range: the tables part by up to 0.3 V; the load test decides"},
		{Name: "battery-load", Title: "inner resistance of a battery from a load test", Group: electrics, Do: batteryLoad, Example: []string{"open=12.6", "loaded=10.4", "amps=200"},
			Inputs: []Input{volts("open", "without load").need(), volts("loaded", "under load").need(), amps("amps", "the load").need()}, Source: "Ohm", Sure: "as sure as the meters; cold makes it larger"},
		{Name: "charge-hours", Title: "how long charging takes", Group: electrics, Do: chargeHours, Example: []string{"capacity=88", "full=40 %", "amps=8"},
			Inputs: []Input{ofDim("capacity", "of the battery", quantity.Charge, "A·h").need(), ofDim("full", "share of charge that is there", quantity.Ratio, "%").need(), amps("amps", "charging current").need(),
				ofDim("stays", "share of the current that stays in an old battery", quantity.Ratio, "%").deflt("80 %")}, Source: "capacity over current; share that stays common practice, no source", Sure: "rough: the current falls toward the end"},
		{Name: "starter-test", Title: "readings under cranking, judged one by one", Group: electrics, Do: starterTest, Example: []string{"battery=10.1", "starter=9.2", "plus-drop=0.7", "earth-drop=0.2", "rpm=140", "amps=320"},
			Inputs: []Input{systemInput(), volts("battery", "across the battery's posts"), volts("starter", "from the starter's stud to its body"), volts("plus-drop", "from battery post to stud"),
				volts("earth-drop", "from starter body to battery post"), ofDim("rpm", "engine turned at", quantity.Speed, "rpm"), amps("amps", "starter took")},
			Source: electric.Finding{}.Source(), Sure: "usual values, not limits of this machine; leave out what was not read"},
		{Name: "charging", Title: "volts at the battery with the engine running, judged", Group: electrics, Do: charging, Example: []string{"volts=13.2"},
			Inputs: []Input{volts("volts", "at the battery at 2000 rpm").need(), systemInput()}, Source: electric.Finding{}.Source(), Sure: "usual values; a dynamo with a mechanical regulator runs lower"},
		{Name: "fuse", Title: "fuse between a load and its wire", Group: electrics, Do: fuse, Example: []string{"amps=9", "area=2.5"},
			Inputs: []Input{amps("amps", "load").need(), plain("area", "cross-section of the wire", "mm²").need()}, Source: "ISO 8820-3, from memory; what a wire carries own decision on the low side", Sure: "on the safe side; the fuse guards the wire, not the consumer"},
	}
}

func (v Values) run() electric.Run {
	c := v.num("temperature")
	return electric.Run{Amps: v.num("amps"), OneWay: v.num("way") / 1000, Frame: v.is("frame"), Joint: v.num("joint"), Celsius: &c}
}

func cable(v Values) (Answer, error) {
	key, err := v.either("use", "drop")
	if err != nil {
		return Answer{}, err
	}
	most := v.num("drop")
	var marked []string
	if key == "use" {
		most = electric.StarterDrop * v.num("system") / 12
		if v.word("use") == "lamps" {
			most = electric.LampShare * v.num("system")
		}
		marked = []string{"the drop aimed at is common practice, no source"}
	}
	mm2, err := v.run().Smallest(most)
	if err != nil {
		return Answer{}, err
	}
	d, err := v.run().Lost(mm2, v.num("system"))
	if err != nil {
		return Answer{}, err
	}
	a := Answer{Lines: append([]Line{value("smallest cable", mm2, "mm²", 2), value("drop aimed at", most, "V", 2)}, dropLines(d)...), Marked: marked, Cautions: []string{fireHazard}}
	err = carried(&a, mm2, v.num("amps"))
	return a, err
}

// carried says what the cable stands for good beside what it is to carry.
func carried(a *Answer, mm2, amps float64) error {
	c, err := electric.Carries(mm2)
	if err != nil {
		return err
	}
	words := "more than the consumer takes"
	if c < amps {
		words = "less than the consumer takes: for seconds only, as a starter does"
	}
	a.Lines = append(a.Lines, value("carries for good", c, "A", 0).with(words).on("own decision on the low side, no source"))
	return nil
}

func dropLines(d electric.Drop) []Line {
	return []Line{value("loses", d.Volts, "V", 3).with(fixed(100*d.Share, 2) + " % of the system"), value("heat in the cable", d.Watts, "W", 1)}
}

func cableDrop(v Values) (Answer, error) {
	d, err := v.run().Lost(v.num("area"), v.num("system"))
	if err != nil {
		return Answer{}, err
	}
	per, err := electric.PerKm(v.num("area"), electric.Flexible)
	if err != nil {
		return Answer{}, err
	}
	a := Answer{Lines: dropLines(d), Working: []string{fmt.Sprintf("%g A × %g mΩ/m × length there and back, %g mΩ/m at 20 °C", v.num("amps"), per, per)}, Cautions: []string{fireHazard}}
	if v.is("frame") {
		a.Working = []string{fmt.Sprintf("%g A × %g mΩ/m × one way, and the joints", v.num("amps"), per)}
	}
	err = carried(&a, v.num("area"), v.num("amps"))
	return a, err
}

func wireGauge(v Values) (Answer, error) {
	n := v.num("awg")
	if n != math.Trunc(n) || math.Abs(n) > 100 {
		return Answer{}, v.wrong("awg", "a whole gauge was wanted")
	}
	g, err := electric.AWG(int(n))
	if err != nil {
		return Answer{}, err
	}
	return Answer{Lines: []Line{value("diameter", g.MM, "mm", 3), value("area", g.MM2, "mm²", 3), value("resistance at 20 °C", g.OhmKm, "mΩ/m", 3)}}, nil
}

func battery(v Values) (Answer, error) {
	key, err := v.either("volts", "gravity")
	if err != nil {
		return Answer{}, err
	}
	volts, a := v.num("volts"), Answer{Cautions: []string{fireHazard}}
	if key == "gravity" {
		g, err := electric.GravityAt25(v.num("gravity"), v.num("acid"))
		if err != nil {
			return Answer{}, err
		}
		if volts, err = electric.OpenVolts(g, int(math.Round(v.num("system")/2))); err != nil {
			return Answer{}, err
		}
		a.Lines = append(a.Lines, value("gravity at 25 °C", g, "", 3), value("rested volts from it", volts, "V", 2))
		a.Cautions = append(a.Cautions, "Acid burns: rinse eyes and skin with much water at once.")
	}
	c, err := electric.StateOf(volts, v.num("system"))
	if err != nil {
		return Answer{}, err
	}
	a.Lines = append(a.Lines, between("full", c.Low, c.High, "%", 0))
	for _, t := range electric.RestTables() {
		a.Working = append(a.Working, "read from: "+t.Source)
	}
	return a, nil
}

func batteryLoad(v Values) (Answer, error) {
	r, err := electric.Inner(v.num("open"), v.num("loaded"), v.num("amps"))
	if err != nil {
		return Answer{}, err
	}
	most, err := electric.MostPowerAmps(v.num("open"), r)
	if err != nil {
		return Answer{}, err
	}
	return Answer{Lines: []Line{value("inner resistance", 1000*r, "mΩ", 2), value("gives most power at", most, "A", 0)}, Working: []string{fmt.Sprintf("(%g - %g)/%g", v.num("open"), v.num("loaded"), v.num("amps"))}, Cautions: []string{fireHazard}}, nil
}

func chargeHours(v Values) (Answer, error) {
	h, err := electric.ChargeHours(v.num("capacity"), v.num("full"), v.num("amps"), v.num("stays"))
	if err != nil {
		return Answer{}, err
	}
	return Answer{Lines: []Line{value("charging takes", h, "h", 1)}, Cautions: []string{fireHazard}}, nil
}

func starterTest(v Values) (Answer, error) {
	found, err := electric.JudgeCranking(electric.Cranking{System: v.num("system"), Battery: v.num("battery"), Starter: v.num("starter"), PlusDrop: v.num("plus-drop"),
		EarthDrop: v.num("earth-drop"), Rpm: v.num("rpm"), Amps: v.num("amps")})
	if err != nil {
		return Answer{}, err
	}
	if len(found) == 0 {
		return Answer{}, fmt.Errorf("no reading above 0 was given; one of battery, starter, plus-drop, earth-drop and rpm was wanted")
	}
	a := Answer{Cautions: []string{"Stop pulled, gear out, brake on, hands and sleeves away from fan and belts.", fireHazard}}
	for _, f := range found {
		unit := "V"
		if f.What == "cranking speed" {
			unit = "rpm"
		}
		a.Lines = append(a.Lines, findingLine(f, unit))
	}
	return a, nil
}

// findingLine says a reading, whether it is as usual, and what it points to.
func findingLine(f electric.Finding, unit string) Line {
	usual := fmt.Sprintf("usual: %s and more", fixed(f.Low, 2))
	if !math.IsInf(f.High, 0) {
		usual = fmt.Sprintf("usual: %s to %s", fixed(f.Low, 2), fixed(f.High, 2))
	}
	words := "as usual"
	if !f.Good {
		words = "not as usual: " + f.Points
	}
	return value(f.What, f.Got, unit, 2).with(words).on(usual + ", common practice, no source")
}

func charging(v Values) (Answer, error) {
	f, err := electric.Charging(v.num("volts"), v.num("system"))
	if err != nil {
		return Answer{}, err
	}
	return Answer{Lines: []Line{findingLine(f, "V")}, Cautions: []string{"Keep clear of fan and belts."}}, nil
}

func fuse(v Values) (Answer, error) {
	carries, err := electric.Carries(v.num("area"))
	if err != nil {
		return Answer{}, err
	}
	b, err := electric.Fuse(v.num("amps"), carries)
	if err != nil {
		return Answer{}, err
	}
	a := Answer{Lines: []Line{value("blade fuse", b.Amps, "A", 0).with(b.Colour), value("the wire carries", carries, "A", 0)}, Marked: []string{"fuse ratings, colours and times are from memory"}}
	for _, t := range electric.Blows() {
		name := fmt.Sprintf("blows at %g times its rating in", t.Times)
		if t.High == 0 {
			a.Lines = append(a.Lines, value(name, t.Low/3600, "h", 0).with("or more, or not at all"))
			continue
		}
		a.Lines = append(a.Lines, between(name, t.Low, t.High, "s", 2))
	}
	return a, nil
}
