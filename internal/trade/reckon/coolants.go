package reckon

import (
	"fmt"
	"strings"

	"matchmark/internal/trade/coolant"
	"matchmark/internal/trade/quantity"
)

const coolants = "Coolant"

func coolantTopics() []Topic {
	base := choice("base", "what it is made of", string(coolant.Ethylene), string(coolant.Propylene)).deflt(string(coolant.Ethylene))
	share := func(key, ask string) Input { return ofDim(key, ask, quantity.Ratio, "%") }
	litres := func(key, ask string) Input { return ofDim(key, ask, quantity.Volume, "L") }
	const adds = "volumes taken as adding up"
	return []Topic{
		{Name: "coolant-freeze", Title: "where a coolant freezes, or how strong it must be", Group: coolants, Do: freeze, Example: []string{"strength=50 %"},
			Inputs: []Input{base, share("strength", "by volume; or give a temperature"), ofDim("cold", "temperature that it is to stand; or give a strength", quantity.Temperature, "°C")},
			Source: "ASHRAE secondary coolants, from memory; Lange's Handbook table 5.13", Sure: "one or two kelvin: tables are of pure glycol; count on the warmer figure"},
		{Name: "coolant-mix", Title: "what fills of several strengths give together", Group: coolants, Do: mix, Example: []string{"fills=6 L/50; 2 L/0"},
			Inputs: []Input{text("fills", "litres and strength in %, parted by /").many().need()}, Source: "volumes times strengths", Sure: adds},
		{Name: "coolant-refill", Title: "how much to drain and refill to reach a strength", Group: coolants, Do: refill, Example: []string{"system=8 L", "now=30 %", "wanted=50 %"},
			Inputs: []Input{litres("system", "coolant in the full system").need(), share("now", "strength by volume").need(), share("wanted", "strength wanted").need(), share("with", "strength of what is filled up").deflt("100 %"),
				litres("drained", "what one draining gives, to tell how often")},
			Source: "V·(wanted - now)/(refill - now)", Sure: adds + ", well mixed in between"},
		{Name: "coolant-flush", Title: "what to pour in after a flush, and how many fills of water it takes", Group: coolants, Do: flush, Example: []string{"system=8 L", "stays=2 L", "wanted=45 %"},
			Inputs: []Input{litres("system", "coolant in the full system").need(), litres("stays", "what does not drain from the block").need(), share("wanted", "strength wanted").need(), share("concentrate", "strength of the concentrate").deflt("100 %"),
				share("left", "share of the old coolant that may stay").deflt("5 %")}, Source: "volumes times strengths", Sure: adds},
		{Name: "coolant-boil", Title: "where water boils under a pressure cap", Group: coolants, Do: boil, Example: []string{"cap=0.5 bar", "height=400 m"},
			Inputs: []Input{ofDim("cap", "opening pressure of the cap, gauge", quantity.Pressure, "bar").need(), ofDim("height", "above the sea", quantity.Length, "m").deflt("0 m")},
			Source: "IAPWS-IF97 region 4; ISO 2533 for the height", Sure: "0.1 K for pure water; half ethylene glycol boils seven or eight kelvin higher, from memory"},
		{Name: "coolant-metals", Title: "which of two metals that touch in the coolant is eaten", Group: coolants, Do: touch, Example: []string{"a=copper", "b=cast Al-Si"},
			Inputs: []Input{text("a", "one metal, such as iron, copper, brass, cast Al-Si").need(), text("b", "the other").need()},
			Source: "MIL-STD-889 and MIL-F-14072 as reprinted; limits printed beside the table", Sure: "a ranking, not a rate: it says who is eaten, not how fast"},
		{Name: "coolant-heat", Title: "heat that a stream of coolant carries off", Group: coolants, Do: coolantHeat, Example: []string{"flow=48", "rise=6 K", "density=1.06", "heat=3.4"},
			Inputs: []Input{plain("flow", "flow", "L/min").need(), ofDim("rise", "rise through the engine", quantity.TempDifference, "K").need(), plain("density", "density", "kg/L").deflt("1.0"), plain("heat", "specific heat; 3.4 for half glycol, 4.19 for water", "kJ/(kg·K)").deflt("4.19")},
			Source: "mass flow × specific heat × rise", Sure: "as sure as the flow"},
		{Name: "coolant-room", Title: "room that a filling wants as it warms", Group: coolants, Do: coolantRoom, Example: []string{"system=12 L", "cold-density=998.2", "hot-density=961.9"},
			Inputs: []Input{litres("system", "coolant in the full system").need(), plain("cold-density", "density cold; water at 20 °C 998.2", "kg/m³").deflt("998.2"), plain("hot-density", "density hot; water at 95 °C 961.9", "kg/m³").deflt("961.9")},
			Source: "the mass stays", Sure: "for water; glycol swells more"},
	}
}

func freeze(v Values) (Answer, error) {
	g := coolant.Glycol(v.word("base"))
	key, err := v.either("strength", "cold")
	if err != nil {
		return Answer{}, err
	}
	percent := 100 * v.num("strength")
	var a Answer
	if key == "cold" {
		if percent, err = coolant.Strength(g, v.num("cold")); err != nil {
			return Answer{}, err
		}
		a.Lines = append(a.Lines, value("strength that freezes there", percent, "% by volume", 1).with("without margin"))
	}
	f, err := coolant.Freeze(g, percent)
	if err != nil {
		return Answer{}, err
	}
	a.Lines = append(a.Lines, between("begins to freeze", f.ColdC, f.WarmC, "°C", 1).with("count on the warmer").on(join(f.Sources, "; ")))
	a.Cautions = []string{"Ethylene glycol is sweet and poisonous: no open pan where children or animals are."}
	return a, nil
}

func mix(v Values) (Answer, error) {
	const want = "litres and strength in %, such as 6 L/50, parted by semicolons, were wanted"
	var fills []coolant.Fill
	for _, item := range v.words("fills") {
		l, p, found := strings.Cut(item, "/")
		if !found {
			return Answer{}, v.wrong("fills", want)
		}
		litres, err := v.part("fills", l, quantity.Volume, "L", want)
		if err != nil {
			return Answer{}, err
		}
		share, err := v.part("fills", p, quantity.Ratio, "%", want)
		if err != nil {
			return Answer{}, err
		}
		fills = append(fills, coolant.Fill{Litres: litres, Percent: 100 * share})
	}
	f, err := coolant.Mix(fills...)
	if err != nil {
		return Answer{}, err
	}
	return Answer{Lines: []Line{value("together", f.Litres, "L", 2), value("strength", f.Percent, "% by volume", 1)}}, nil
}

func refill(v Values) (Answer, error) {
	s := coolant.Fill{Litres: v.num("system"), Percent: 100 * v.num("now")}
	l, err := coolant.Change(s, 100*v.num("wanted"), 100*v.num("with"))
	if err != nil {
		return Answer{}, err
	}
	a := Answer{Lines: []Line{value("drain and refill", l, "L", 2)}, Working: []string{fmt.Sprintf("%g·(%g - %g)/(%g - %g) = %.3f", s.Litres, 100*v.num("wanted"), s.Percent, 100*v.num("with"), s.Percent, l)}}
	if !v.has("drained") {
		return a, nil
	}
	for n := 1; n <= 4; n++ {
		p, err := coolant.Cycles(s, v.num("drained"), 100*v.num("with"), n)
		if err != nil {
			return Answer{}, err
		}
		a.Lines = append(a.Lines, value(fmt.Sprintf("after draining %g L, times %d", v.num("drained"), n), p, "% by volume", 1))
	}
	return a, nil
}

func flush(v Values) (Answer, error) {
	glycol, water, err := coolant.AfterFlush(v.num("system"), v.num("stays"), 100*v.num("wanted"), 100*v.num("concentrate"))
	if err != nil {
		return Answer{}, err
	}
	n, left, err := coolant.Fills(v.num("system"), v.num("system")-v.num("stays"), v.num("left"))
	if err != nil {
		return Answer{}, err
	}
	return Answer{Lines: []Line{value("fills of water", float64(n), "", 0).with(fmt.Sprintf("leave %s %% of the old coolant", fixed(100*left, 1))), value("pour in concentrate", glycol, "L", 2), value("and water", water, "L", 2)},
		Cautions: []string{"Never open a hot cap. Old coolant goes to the collecting point, not to the ground."}}, nil
}

func boil(v Values) (Answer, error) {
	air, err := coolant.Atmosphere(v.num("height") / 1000)
	if err != nil {
		return Answer{}, err
	}
	c, err := coolant.UnderCap(v.num("cap")*10, air)
	if err != nil {
		return Answer{}, err
	}
	return Answer{Lines: []Line{value("boils without a cap", c.OpenC, "°C", 1), value("boils under the cap", c.UnderCapC, "°C", 1), value("the cap gains", c.Rise(), "K", 1)},
		Working: []string{fmt.Sprintf("air at %g m is %.4f bar", v.num("height")/1000, air)}, Cautions: []string{"Never open a hot cap: what is above 100 °C boils out at once."}}, nil
}

func touch(v Values) (Answer, error) {
	a, err := coolant.MetalNamed(v.word("a"))
	if err != nil {
		return Answer{}, err
	}
	b, err := coolant.MetalNamed(v.word("b"))
	if err != nil {
		return Answer{}, err
	}
	c := coolant.Touch(a, b)
	eaten := c.Corrodes
	if eaten == "" {
		eaten = "neither"
	}
	out := Answer{Lines: []Line{say("pair", a.Name+" with "+b.Name), value("difference of index", c.Volts, "V", 2), say("eaten", eaten), say("may be", c.Class), say("so", c.Advice)}}
	for _, m := range []coolant.Metal{a, b} {
		if m.Memory {
			out.Marked = append(out.Marked, "index of "+m.Name+" is from memory")
		}
	}
	return out, nil
}

func coolantHeat(v Values) (Answer, error) {
	kw, err := coolant.HeatFlow(v.num("flow")/60, v.num("density"), v.num("heat"), v.num("rise"))
	if err != nil {
		return Answer{}, err
	}
	return Answer{Lines: []Line{value("heat", kw, "kW", 2)}}, nil
}

func coolantRoom(v Values) (Answer, error) {
	l, err := coolant.Expansion(v.num("system"), v.num("cold-density"), v.num("hot-density"))
	if err != nil {
		return Answer{}, err
	}
	return Answer{Lines: []Line{value("room wanted", l, "L", 3)}}, nil
}
