package reckon

import (
	"errors"
	"fmt"

	"matchmark/internal/trade/electric"
	"matchmark/internal/trade/quantity"
)

func glowTopics() []Topic {
	volts := func(key, ask string) Input { return ofDim(key, ask, quantity.Voltage, "V") }
	speed := func(key, ask string) Input { return ofDim(key, ask, quantity.Speed, "rpm") }
	return []Topic{
		{Name: "glow", Title: "glow plugs: may they hang on this system, what they take, which are dead", Group: electrics, Do: glow,
			Inputs: []Input{counted("plugs", "how many").need(), volts("marked", "volts marked on a plug").need(), choice("wiring", "how they are joined", string(electric.Parallel), string(electric.Series)).deflt(string(electric.Parallel)),
				systemInput(), ofDim("cold", "resistance of one good plug, cold", quantity.Resistance, "Ω"), ofDim("bus", "resistance read from the bus to earth", quantity.Resistance, "Ω"),
				Input{Key: "amps", Ask: "current of each plug, read one by one", Dim: quantity.Current, Unit: "A", Many: true}},
			Source: "Ohm; spread of 15 % common practice, no source", Sure: "cold resistances are small: zero the meter's leads", Example: []string{"plugs=3", "marked=11 V", "cold=0.9", "bus=0.45"}},
		{Name: "glow-resistor", Title: "resistor in series with glow plugs", Group: electrics, Do: glowResistor,
			Inputs: []Input{counted("plugs", "how many, all in series").need(), volts("marked", "volts of one plug").need(), ofDim("amps", "current of the plugs hot", quantity.Current, "A").need(), systemInput()},
			Source: "Ohm", Sure: "exact for the figures of the plugs", Example: []string{"plugs=2", "marked=1.7 V", "amps=45"}},
		{Name: "pulley", Title: "generator speed by pulleys, the largest pulley that cuts in at idle, and the belt", Group: electrics, Do: pulley,
			Inputs: []Input{length("driver", "pitch diameter on the crank").need(), length("driven", "pitch diameter on the generator").need(), speed("engine", "engine speed").need(),
				ofDim("slip", "slip of the belt; a flat one about 2 %", quantity.Ratio, "%").deflt("0 %"), speed("idle", "idle speed, with cut-in"), speed("cut-in", "speed at which the generator begins to charge"), length("centre", "distance of the shafts, for the belt")},
			Source: "ratio of pitch diameters; open belt by its usual formula and exactly", Sure: "as true as the pitch diameters; a worn belt rides deeper", Example: []string{"driver=140", "driven=70", "engine=2200", "idle=650", "cut-in=1100", "centre=310"}},
		{Name: "crank-speed", Title: "engine speed from the starter's, and what it gives", Group: electrics, Do: crankSpeed,
			Inputs: []Input{speed("starter", "speed of the starter's pinion").need(), counted("pinion", "teeth of the pinion").need(), counted("ring", "teeth of the flywheel").need(),
				volts("volts", "at the starter, with amps"), ofDim("amps", "starter takes", quantity.Current, "A"), ofDim("efficiency", "of the starter", quantity.Ratio, "%").deflt("50 %")},
			Source: "counted teeth; efficiency of about half, common practice, no source", Sure: "exact in speed, rough in power", Example: []string{"starter=2000", "pinion=9", "ring=110", "volts=9.5", "amps=300"}},
	}
}

func glow(v Values) (Answer, error) {
	wiring, n := electric.Wiring(v.word("wiring")), v.count("plugs")
	a := Answer{Cautions: []string{"A glow plug is hot enough to burn and to fire ether: never start fluid with glow plugs."}}
	err := electric.MayTake(v.num("marked"), v.num("system"), wiring, n)
	var burns electric.BurnError
	switch {
	case errors.As(err, &burns):
		a.Lines = append(a.Lines, say("on this system", "they burn out: "+err.Error()))
	case err != nil:
		return Answer{}, err
	default:
		a.Lines = append(a.Lines, say("on this system", "they may hang there"))
	}
	each := v.num("system")
	if wiring == electric.Series {
		each /= float64(n)
	}
	if times, err := electric.PowerTimes(v.num("marked"), each); err == nil {
		a.Lines = append(a.Lines, value("power against what is marked", times, "times", 2))
	}
	if err := v.glowCurrents(&a, wiring, each, n); err != nil {
		return Answer{}, err
	}
	return a, nil
}

// glowCurrents adds what resistances and currents that were read say.
func (v Values) glowCurrents(a *Answer, wiring electric.Wiring, each float64, n int) error {
	if v.has("cold") {
		amps, err := electric.ColdAmps(each, v.num("cold"))
		if err != nil {
			return err
		}
		a.Lines = append(a.Lines, value("one plug takes, cold", amps, "A", 1).with("less as it heats"))
		if wiring == electric.Parallel {
			if amps, err = electric.BankAmps(each, v.num("cold"), n); err != nil {
				return err
			}
			a.Lines = append(a.Lines, value("all take, cold", amps, "A", 1))
		}
	}
	if v.has("bus") {
		if !v.has("cold") {
			return v.wrong("bus", "the resistance of one good plug, cold, was wanted beside it")
		}
		seen, err := electric.SeenAtBus(v.num("bus"), v.num("cold"), n)
		if err != nil {
			return err
		}
		a.Lines = append(a.Lines, say("the bus says", fmt.Sprintf("in %s, %d of %d take current", seen.Wiring, seen.Good, n)))
	}
	if v.has("amps") {
		f, err := electric.Spread(v.nums("amps"))
		if err != nil {
			return err
		}
		f.Got, f.Low, f.High = 100*f.Got, 100*f.Low, 100*f.High
		a.Lines = append(a.Lines, findingLine(f, "%"))
	}
	return nil
}

func glowResistor(v Values) (Answer, error) {
	r, err := electric.SeriesResistor(v.num("system"), v.num("marked"), v.num("amps"), v.count("plugs"))
	if err != nil {
		return Answer{}, err
	}
	return Answer{Lines: []Line{value("resistor", r.Ohm, "Ω", 3), value("volts across it", r.Volts, "V", 2), value("heat in it", r.Watts, "W", 0)}, Cautions: []string{"It glows: away from wires and fuel."}}, nil
}

func pulley(v Values) (Answer, error) {
	rpm, err := electric.Driven(v.num("engine"), v.num("driver"), v.num("driven"), v.num("slip"))
	if err != nil {
		return Answer{}, err
	}
	a := Answer{Lines: []Line{value("generator turns", rpm, "rpm", 0), value("ratio", v.num("driver")/v.num("driven"), "to 1", 3)}}
	if v.has("idle") != v.has("cut-in") {
		return Answer{}, fmt.Errorf("idle and cut-in were wanted together")
	}
	if v.has("idle") {
		mm, err := electric.LargestDriven(v.num("driver"), v.num("idle"), v.num("cut-in"))
		if err != nil {
			return Answer{}, err
		}
		a.Lines = append(a.Lines, value("largest generator pulley that cuts in at idle", mm, "mm", 1))
	}
	if v.has("centre") {
		usual, exact, err := electric.OpenBelt(max(v.num("driver"), v.num("driven")), min(v.num("driver"), v.num("driven")), v.num("centre"))
		if err != nil {
			return Answer{}, err
		}
		a.Lines = append(a.Lines, value("belt, along the pitch line", exact, "mm", 1).with(fixed(usual, 1)+" by the usual formula"))
	}
	return a, nil
}

func crankSpeed(v Values) (Answer, error) {
	rpm, err := electric.CrankSpeed(v.num("starter"), v.count("pinion"), v.count("ring"))
	if err != nil {
		return Answer{}, err
	}
	a := Answer{Lines: []Line{value("engine turns", rpm, "rpm", 0)}}
	if v.has("volts") != v.has("amps") {
		return Answer{}, fmt.Errorf("volts and amps were wanted together")
	}
	if !v.has("volts") {
		return a, nil
	}
	in, out, err := electric.StarterPower(v.num("volts"), v.num("amps"), v.num("efficiency"))
	if err != nil {
		return Answer{}, err
	}
	a.Lines = append(a.Lines, value("starter takes", in, "kW", 2), value("starter gives", out, "kW", 2).on("efficiency common practice, no source"))
	return a, nil
}
