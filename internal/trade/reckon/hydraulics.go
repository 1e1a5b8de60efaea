package reckon

import (
	"errors"
	"fmt"
	"strings"

	"matchmark/internal/trade/hydraulic"
	"matchmark/internal/trade/quantity"
)

const (
	hydraulics = "Hydraulics"
	textbook   = "textbook"
	oilHazard  = "Lower every load and let the pressure off before a line is opened; never feel for a leak with a hand: oil goes through skin."
)

func hydraulicTopics() []Topic {
	bars := func(key, ask string) Input { return ofDim(key, ask, quantity.Pressure, "bar") }
	flow := plain("flow", "flow", "L/min")
	eta := func(key, ask string) Input { return ofDim(key, ask, quantity.Ratio, "%") }
	return []Topic{
		{Name: "gear-pump", Title: "displacement of a gear pump from its gears, and its flow", Group: hydraulics, Do: gearPump, Example: []string{"module=3", "teeth=12", "width=20", "speed=2000"},
			Inputs: []Input{length("module", "module of the gears").need(), length("width", "face width").need(), counted("teeth", "teeth of one gear; or tip and centre"), length("tip", "tip diameter; with centre, in place of teeth"),
				length("centre", "distance of the shafts"), ofDim("speed", "speed of the pump, for the flow", quantity.Speed, "rpm"), eta("volumetric", "volumetric efficiency").deflt("90 %")},
			Source: textbook + ", two equal spur gears, first order", Sure: "about 10 % by teeth, better by tip and centre: profile shift shows there"},
		{Name: "pump-flow", Title: "flow, power and torque of a pump of known displacement", Group: hydraulics, Do: pumpFlow, Example: []string{"displacement=8", "speed=1500", "volumetric=92 %", "pressure=150 bar"},
			Inputs: []Input{plain("displacement", "oil in one turn", "cm³").need(), ofDim("speed", "speed of the pump", quantity.Speed, "rpm").need(), eta("volumetric", "volumetric efficiency").deflt("90 %"),
				bars("pressure", "gauge, for power and torque"), eta("overall", "overall efficiency").deflt("85 %")}, Source: textbook, Sure: "as sure as the efficiencies: measure two flows for the first"},
		{Name: "pump-wear", Title: "volumetric efficiency from two flows", Group: hydraulics, Do: pumpWear, Example: []string{"free=19.6", "loaded=16.2"},
			Inputs: []Input{plain("free", "flow without load", "L/min").need(), plain("loaded", "flow under load at the same speed", "L/min").need()}, Source: textbook, Sure: "at the oil's temperature of the test"},
		{Name: "cylinder", Title: "force and speed of a cylinder, and the stress of its wall", Group: hydraulics, Do: cylinder, Example: []string{"bore=80", "rod=40", "pressure=150 bar", "flow=20"},
			Inputs: []Input{length("bore", "bore").need(), length("rod", "rod; 0 for a ram").deflt("0"), bars("pressure", "gauge").need(), flow, length("wall", "thinnest wall measured")}, Source: textbook, Sure: "without friction; pressure that was read, not hoped for"},
		{Name: "lift", Title: "force at the ball ends from piston force and two measured moves", Group: hydraulics, Do: lift, Example: []string{"bore=80", "pressure=120 bar", "piston-way=10", "ball-way=45"},
			Inputs: []Input{length("bore", "bore of the lift cylinder").need(), bars("pressure", "gauge, as read").need(), length("piston-way", "small move of the piston").need(), length("ball-way", "move of the ball ends with it").need(),
				plain("sinks", "how fast the loaded ball ends sink", "mm/min")}, Source: "virtual work; no lever is measured", Sure: "without friction; for the height at which the moves were measured"},
		{Name: "relief", Title: "where a relief valve may stand", Group: hydraulics, Do: relief, Example: []string{"found=150 bar", "ratings=hose/160 bar; cylinder wall/140 bar"},
			Inputs: []Input{bars("found", "pressure read before stripping; left out where it was never read"), bars("wanted", "pressure that is asked for"), text("ratings", "weakest ratings that somebody wrote down, as hose/160 bar").many()},
			Source: "never above what was found, nor above the weakest rating", Sure: "strength does not show in a size: what was not read cannot be had"},
	}
}

func gearPump(v Values) (Answer, error) {
	var d hydraulic.Displacement
	var err error
	switch {
	case v.has("teeth") && (v.has("tip") || v.has("centre")):
		return Answer{}, v.wrong("teeth", "either teeth, or tip and centre, were wanted")
	case v.has("teeth"):
		d, err = hydraulic.GearPump(v.num("module"), v.count("teeth"), v.num("width"))
	case v.has("tip") && v.has("centre"):
		d, err = hydraulic.GearPumpByTip(v.num("tip"), v.num("centre"), v.num("width"), v.num("module"))
	default:
		return Answer{}, fmt.Errorf("teeth, or tip and centre, were wanted")
	}
	if err != nil {
		return Answer{}, err
	}
	a := Answer{Lines: []Line{between("oil in one turn", d.Low, d.High, "cm³", 2).with("about " + fixed(d.CM3, 2))}}
	if !v.has("speed") {
		return a, nil
	}
	low, err := hydraulic.Flow(d.Low, v.num("speed"), v.num("volumetric"))
	if err != nil {
		return Answer{}, err
	}
	high, err := hydraulic.Flow(d.High, v.num("speed"), v.num("volumetric"))
	a.Lines = append(a.Lines, between("flow", low, high, "L/min", 1))
	return a, err
}

func pumpFlow(v Values) (Answer, error) {
	q, err := hydraulic.Flow(v.num("displacement"), v.num("speed"), v.num("volumetric"))
	if err != nil {
		return Answer{}, err
	}
	a := Answer{Lines: []Line{value("flow", q, "L/min", 2)}, Cautions: []string{oilHazard}}
	if !v.has("pressure") {
		return a, nil
	}
	bar := 10 * v.num("pressure")
	kw, err := hydraulic.Power(bar, q, v.num("overall"))
	if err != nil {
		return Answer{}, err
	}
	// what turns the pump is what is lost by friction, not by leaking
	nm, err := hydraulic.Torque(v.num("displacement"), bar, min(1, v.num("overall")/v.num("volumetric")))
	if err != nil {
		return Answer{}, err
	}
	a.Lines = append(a.Lines, value("power at the shaft", kw, "kW", 2), value("torque at the shaft", nm, "N·m", 2))
	a.Working = []string{"flow V·n·η/1000, power p·Q/600/η, torque V·p/(20π) over the mechanical part of η"}
	return a, nil
}

func pumpWear(v Values) (Answer, error) {
	e, err := hydraulic.Volumetric(v.num("free"), v.num("loaded"))
	if err != nil {
		return Answer{}, err
	}
	return Answer{Lines: []Line{value("volumetric efficiency", 100*e, "%", 1)}, Cautions: []string{oilHazard}}, nil
}

func cylinder(v Values) (Answer, error) {
	bar := 10 * v.num("pressure")
	push, err := hydraulic.Force(v.num("bore"), bar)
	if err != nil {
		return Answer{}, err
	}
	a := Answer{Lines: []Line{value("push", push/1000, "kN", 2)}, Cautions: []string{oilHazard}}
	if v.num("rod") != 0 {
		pull, err := hydraulic.Pull(v.num("bore"), v.num("rod"), bar)
		if err != nil {
			return Answer{}, err
		}
		a.Lines = append(a.Lines, value("pull", pull/1000, "kN", 2))
	}
	if v.has("flow") {
		mms, err := hydraulic.Speed(v.num("bore"), v.num("flow"))
		if err != nil {
			return Answer{}, err
		}
		a.Lines = append(a.Lines, value("moves out", mms, "mm/s", 1))
	}
	if v.has("wall") {
		stress, err := hydraulic.Hoop(bar, v.num("bore"), v.num("wall"))
		if err != nil {
			return Answer{}, err
		}
		most, err := hydraulic.WallBar(v.num("bore"), v.num("wall"))
		if err != nil {
			return Answer{}, err
		}
		a.Lines = append(a.Lines, value("stress in the wall", stress, "MPa", 1), value("the wall comes to 80 MPa at", most, "bar", 0).on("stress for unknown steel, common practice, no source; it allows no pressure above what was found"))
	}
	return a, nil
}

func lift(v Values) (Answer, error) {
	f, err := hydraulic.Force(v.num("bore"), 10*v.num("pressure"))
	if err != nil {
		return Answer{}, err
	}
	n, err := hydraulic.Lift(f, v.num("piston-way"), v.num("ball-way"))
	if err != nil {
		return Answer{}, err
	}
	a := Answer{Lines: []Line{value("force at the ball ends", n/1000, "kN", 2), value("force of the piston", f/1000, "kN", 2)}, Working: []string{fmt.Sprintf("piston force × %g/%g", v.num("piston-way"), v.num("ball-way"))},
		Cautions: []string{oilHazard, "Never work under a raised lift that stands on oil alone."}}
	if v.has("sinks") {
		leak, err := hydraulic.Leak(v.num("bore"), v.num("sinks")*v.num("piston-way")/v.num("ball-way"))
		if err != nil {
			return Answer{}, err
		}
		a.Lines = append(a.Lines, value("oil gets past", leak, "cm³/min", 2))
	}
	return a, nil
}

// relief answers where the valve may stand. A pressure that was never read, or
// one above what was found, is refused without a number.
func relief(v Values) (Answer, error) {
	ratings, err := v.ratings()
	if err != nil {
		return Answer{}, err
	}
	a := Answer{Cautions: []string{oilHazard, "More pressure is never made by a screw: find what leaks."}}
	r, err := hydraulic.SetRelief(10*v.num("found"), ratings)
	var unknown hydraulic.UnknownError
	if errors.As(err, &unknown) {
		a.Lines = []Line{say("may stand at", "no figure: "+err.Error())}
		return a, nil
	}
	if err != nil {
		return Answer{}, err
	}
	a.Lines = []Line{value("may stand at", r.Bar, "bar", 1).with(r.Words)}
	if r.Member != "" {
		a.Lines = append(a.Lines, say("weakest", r.Member))
	}
	if v.has("wanted") {
		switch err := hydraulic.Allow(10*v.num("wanted"), 10*v.num("found"), ratings); {
		case errors.As(err, &unknown):
			a.Lines = append(a.Lines, say("the pressure asked for", "refused: "+err.Error()))
		case err != nil:
			return Answer{}, err
		default:
			a.Lines = append(a.Lines, say("the pressure asked for", "may be set"))
		}
	}
	return a, nil
}

func (v Values) ratings() ([]hydraulic.Rating, error) {
	const want = "ratings as member/pressure, such as hose/160 bar, were wanted"
	var out []hydraulic.Rating
	for _, item := range v.words("ratings") {
		of, p, found := strings.Cut(item, "/")
		if !found || strings.TrimSpace(of) == "" {
			return nil, v.wrong("ratings", want)
		}
		mpa, err := v.part("ratings", p, quantity.Pressure, "bar", want)
		if err != nil {
			return nil, err
		}
		out = append(out, hydraulic.Rating{Of: strings.TrimSpace(of), Bar: 10 * mpa, Source: "as typed"})
	}
	return out, nil
}
