package reckon

import (
	"fmt"
	"strings"

	"matchmark/internal/trade/gear"
	"matchmark/internal/trade/quantity"
)

func trainTopics() []Topic {
	const counts = "exact for the teeth counted"
	path := text("path", "meshes from input to output as driver/driven teeth, 17/43; i after a mesh is a ring gear, 20/60i").many()
	engine := ofDim("engine", "engine speed", quantity.Speed, "rpm")
	radius := length("radius", "rolling radius of the driven wheel")
	return []Topic{
		{Name: "ratio", Title: "ratio of a gear path from counted teeth, and when its match marks meet", Group: gears, Inputs: []Input{path.need(), ofDim("speed", "speed of the input", quantity.Speed, "rpm")},
			Source: "product of driven over driver teeth", Sure: counts, Do: ratio, Example: []string{"path=17/43; 21/39", "speed=2000 rpm"}},
		{Name: "road-speed", Title: "road speed and ratio of every gear", Group: gears,
			Inputs: []Input{text("gears", "each gear as name: meshes joined by +, 1st: 15/45 + 18/36").many().need(),
				text("final", "meshes behind the gearbox").many().need(), engine.need(), radius.need()},
			Source: "counted teeth; way of one turn of the wheel", Sure: "without slip; a pulling wheel slips 5 to 15 %, common practice, no source", Do: roadSpeed,
			Example: []string{"gears=1st: 15/45 + 18/36; 2nd: 20/40 + 18/36; reverse: 15/30 + 30/45 + 18/36", "final=9/40; 12/60", "engine=2200 rpm", "radius=540 mm"}},
		{Name: "rolling-radius", Title: "rolling radius of a tyre from a rolled distance", Group: gears,
			Inputs: []Input{ofDim("way", "way the tractor went, rolled by hand on hard ground", quantity.Length, "mm").need(), plain("turns", "turns of the wheel", "").need()},
			Source: "way/(2π·turns)", Sure: "as true as the tape; load and pressure change it", Do: rollingRadius, Example: []string{"way=17.0 m", "turns=5"}},
		{Name: "pto-speed", Title: "power take-off speed, and the engine speed that gives the standard one", Group: gears,
			Inputs: []Input{text("path", "meshes from engine to power take-off").many().need(), engine.need(), ofDim("wanted", "speed wanted at the power take-off", quantity.Speed, "rpm").deflt("540 rpm")},
			Source: "counted teeth; 540 rpm after ISO 500-1, from memory", Sure: counts, Do: ptoSpeed, Example: []string{"path=17/66", "engine=2200 rpm"}},
		{Name: "gear-orders", Title: "what a gear path is heard at: orders of shafts and meshes", Group: gears,
			Inputs: []Input{path.need(), ofDim("speed", "speed of the input", quantity.Speed, "rpm").need()},
			Source: "counted teeth", Sure: counts, Do: gearOrders, Example: []string{"path=17/43; 21/39", "speed=2000 rpm"}},
		{Name: "module", Title: "module and diametral pitch, one from the other or from two spans", Group: gears,
			Inputs: []Input{length("module", "module"), plain("dp", "diametral pitch, teeth an inch", ""), length("base-pitch", "difference of two spans that lie one tooth apart"),
				ofDim("alpha", "pressure angle, for base-pitch", quantity.Angle, "deg").deflt("20")},
			Source: "m = 25.4/DP; base pitch = π·m·cos α", Sure: "exact; racks of like base pitch cannot be told apart by spans alone", Do: module, Example: []string{"dp=10"}},
	}
}

// path reads meshes such as 17/43 or 20/60i.
func (v Values) path(key string, meshes []string) (gear.Path, error) {
	const want = "meshes as driver/driven teeth, such as 17/43, were wanted"
	var out gear.Path
	for _, text := range meshes {
		text = strings.TrimSpace(text)
		bare, internal := strings.CutSuffix(text, "i")
		a, b, found := strings.Cut(bare, "/")
		if !found {
			return nil, v.wrong(key, want)
		}
		var m gear.Mesh
		for _, side := range []struct {
			text string
			to   *int
		}{{a, &m.Driver}, {b, &m.Driven}} {
			n, err := v.part(key, side.text, quantity.Count, "", want)
			if err != nil {
				return nil, err
			}
			if !(n >= 5 && n <= 1000) {
				return nil, v.wrong(key, "5 to 1000 teeth were wanted")
			}
			*side.to = int(n)
		}
		m.Internal = internal
		out = append(out, m)
	}
	return out, nil
}

func ratio(v Values) (Answer, error) {
	p, err := v.path("path", v.words("path"))
	if err != nil {
		return Answer{}, err
	}
	r, err := p.Ratio()
	if err != nil {
		return Answer{}, err
	}
	turns := "output turns with the input"
	if r.Reversed {
		turns = "output turns against the input"
	}
	a := Answer{Lines: []Line{value("ratio", r.Value(), "to 1", 4).with(fmt.Sprintf("%d to %d exactly; %s", r.In, r.Out, turns))}}
	if v.has("speed") {
		a.Lines = append(a.Lines, value("output speed", v.num("speed")/r.Value(), "rpm", 1))
	}
	if meet, err := p.MarksMeet(); err == nil {
		a.Lines = append(a.Lines, value("all match marks meet every", float64(meet), "turns of the input", 0))
	}
	return a, nil
}

func roadSpeed(v Values) (Answer, error) {
	final, err := v.path("final", v.words("final"))
	if err != nil {
		return Answer{}, err
	}
	var choices []gear.Choice
	for _, text := range v.words("gears") {
		name, meshes, found := strings.Cut(text, ":")
		if !found {
			return Answer{}, v.wrong("gears", "each gear as name: meshes joined by +, such as 1st: 15/45 + 18/36, was wanted")
		}
		p, err := v.path("gears", strings.Split(meshes, "+"))
		if err != nil {
			return Answer{}, err
		}
		choices = append(choices, gear.Choice{Name: strings.TrimSpace(name), Path: p})
	}
	if !(v.num("radius") > 0) {
		return Answer{}, v.wrong("radius", "a radius above 0 was wanted")
	}
	drive, err := gear.Road{EngineRPM: v.num("engine"), Final: final, RollingRadiusMM: v.num("radius")}.Drive(choices)
	if err != nil {
		return Answer{}, err
	}
	a := Answer{Working: []string{"engine speed ÷ ratio × 2π·radius; direction against the first gear of the list"}}
	for _, d := range drive {
		way := ""
		if d.Backward {
			way = ", backward"
		}
		a.Lines = append(a.Lines, value(d.Name, d.KMH, "km/h", 2).with(fmt.Sprintf("ratio %s%s", fixed(d.Ratio.Value(), 2), way)))
	}
	return a, nil
}

func rollingRadius(v Values) (Answer, error) {
	r, err := gear.RollingRadius(v.num("way"), v.num("turns"))
	if err != nil {
		return Answer{}, err
	}
	return Answer{Lines: []Line{value("rolling radius", r, "mm", 1).with("less than half the free tyre")}}, nil
}

func ptoSpeed(v Values) (Answer, error) {
	p, err := v.path("path", v.words("path"))
	if err != nil {
		return Answer{}, err
	}
	r, err := p.Ratio()
	if err != nil {
		return Answer{}, err
	}
	rpm, err := gear.PTOSpeed(v.num("engine"), r.Value())
	if err != nil {
		return Answer{}, err
	}
	engine, err := gear.EngineFor(v.num("wanted"), r.Value())
	if err != nil {
		return Answer{}, err
	}
	return Answer{Lines: []Line{value("power take-off turns", rpm, "rpm", 1), value("engine speed for the one wanted", engine, "rpm", 0), value("ratio", r.Value(), "to 1", 4)},
		Cautions: []string{"Never run the power take-off without its guard; an implement for 540 rpm is not turned faster."}}, nil
}

func gearOrders(v Values) (Answer, error) {
	p, err := v.path("path", v.words("path"))
	if err != nil {
		return Answer{}, err
	}
	o, err := p.Orders(1)
	if err != nil {
		return Answer{}, err
	}
	if !(v.num("speed") > 0) {
		return Answer{}, v.wrong("speed", "a speed above 0 was wanted")
	}
	hz := v.num("speed") / 60
	var a Answer
	for i, s := range o.Shaft {
		a.Lines = append(a.Lines, value(fmt.Sprintf("shaft %d", i+1), s*hz, "Hz", 2).with("order "+fixed(s, 4)))
	}
	for i, m := range o.Mesh {
		a.Lines = append(a.Lines, value(fmt.Sprintf("mesh %d", i+1), m*hz, "Hz", 1).with("order "+fixed(m, 4)))
	}
	return a, nil
}

func module(v Values) (Answer, error) {
	if _, err := v.either("module", "dp", "base-pitch"); err != nil {
		return Answer{}, err
	}
	m := v.num("module")
	var err error
	switch {
	case v.has("dp"):
		m, err = gear.ModuleOf(v.num("dp"))
	case v.has("base-pitch"):
		if !(v.num("alpha") >= 10 && v.num("alpha") <= 35) {
			return Answer{}, v.wrong("alpha", "10 to 35 degrees were wanted")
		}
		m = v.num("base-pitch") / gear.BasePitch(1, v.num("alpha"))
	}
	if err != nil {
		return Answer{}, err
	}
	dp, err := gear.PitchOf(m)
	if err != nil {
		return Answer{}, err
	}
	return Answer{Lines: []Line{value("module", m, "mm", 4), value("diametral pitch", dp, "teeth an inch", 4),
		value("base pitch at that angle", gear.BasePitch(m, v.num("alpha")), "mm", 4)}}, nil
}
