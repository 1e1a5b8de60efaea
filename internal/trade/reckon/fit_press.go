package reckon

import (
	"fmt"
	"strings"

	"matchmark/internal/trade/fit"
	"matchmark/internal/trade/metrology"
	"matchmark/internal/trade/quantity"
)

// elastic is what metals give way by: textbook figures, from memory; alloys of
// one name differ by some per cent.
func elastic(word string) fit.Elastic {
	return map[string]fit.Elastic{"steel": {E: 207e3, Nu: 0.292}, "cast iron": {E: 110e3, Nu: 0.26},
		"aluminium": {E: 71e3, Nu: 0.33}, "bronze": {E: 111e3, Nu: 0.35}}[word]
}

// rub is the friction of a seat; common practice, no source.
func rub(word string) fit.Band {
	if word == "dry" {
		return fit.Band{Lo: 0.10, Hi: 0.20}
	}
	return fit.Band{Lo: 0.06, Hi: 0.14}
}

func pressFit(v Values) (Answer, error) {
	p := fit.Press{Diameter: v.num("diameter"), Outer: v.num("outer"), Bore: v.num("bore"), Length: v.num("length"),
		Hub: elastic(v.word("hub")), Shaft: elastic(v.word("shaft")), Friction: rub(v.word("state"))}
	if _, err := v.either("tight", "fit"); err != nil {
		return Answer{}, err
	}
	a := Answer{Cautions: []string{"Stand aside of the press, guard against splinters: cast iron bursts without warning."},
		Marked: []string{"moduli are textbook figures, from memory"}}
	if v.has("tight") {
		at, err := p.At(v.num("tight"))
		if err != nil {
			return Answer{}, err
		}
		a.Lines = pressed("", at)
		return a, nil
	}
	f, err := fit.ParseFit(v.word("fit"))
	if err != nil {
		return Answer{}, err
	}
	if f.Hole.Nominal != p.Diameter {
		return Answer{}, v.wrong("fit", fmt.Sprintf("a fit of the diameter %g mm was wanted", p.Diameter))
	}
	least, most, err := p.Range(f)
	if err != nil {
		return Answer{}, err
	}
	a.Lines = append(pressed("loosest: ", least), pressed("tightest: ", most)...)
	a.Marked = append(a.Marked, remembered(f.Hole, f.Shaft)...)
	return a, nil
}

func pressed(at string, p fit.Pressed) []Line {
	return []Line{value(at+"pressure", p.PressureMPa, "MPa", 2), between(at+"force to press home or off", p.ForceN.Lo/1000, p.ForceN.Hi/1000, "kN", 1),
		between(at+"torque at which it slips", p.TorqueNM.Lo, p.TorqueNM.Hi, "N·m", 0), value(at+"pull round the bore of the hub", p.HubHoopMPa, "MPa", 1),
		value(at+"equivalent stress of the hub", p.HubMisesMPa, "MPa", 1).with("hold it against the yield of the hub")}
}

func shrink(v Values) (Answer, error) {
	h, err := fit.Shrink{Kind: fit.Heated(v.word("part")), Diameter: v.num("diameter"), Interference: v.num("tight"), Gap: v.num("gap"),
		PerK: metal(v.word("ring")).PerK, ShaftPerK: metal(v.word("shaft")).PerK, Room: v.num("room")}.Plan()
	if err != nil {
		return Answer{}, err
	}
	a := heatingAnswer(h)
	a.Working = []string{fmt.Sprintf("(interference %g + gap %g)/(coefficient × diameter %g)", v.num("tight"), v.num("gap"), v.num("diameter"))}
	return a, nil
}

// links reads +40±0.10 or +40 +0.2 -0.1; the sign is that of the chain.
func (v Values) links() ([]fit.Link, error) {
	const want = "sizes as +40±0.10 or +40 +0.2 -0.1, parted by semicolons, were wanted"
	var out []fit.Link
	for i, item := range v.words("links") {
		fields := strings.Fields(strings.NewReplacer("+-", "±", "±", " ± ", "−", "-").Replace(strings.ReplaceAll(item, "+-", "±")))
		if len(fields) != 3 {
			return nil, v.wrong("links", want)
		}
		size, err := v.part("links", strings.TrimPrefix(fields[0], "+"), quantity.Length, "mm", want)
		if err != nil {
			return nil, err
		}
		l := fit.Link{Name: fmt.Sprintf("link %d", i+1), Nominal: size, Factor: 1}
		if size < 0 || strings.HasPrefix(fields[0], "-") {
			l.Nominal, l.Factor = -size, -1
		}
		if fields[1] == "±" {
			l.Plus, err = v.part("links", fields[2], quantity.Length, "mm", want)
			l.Minus = l.Plus
		} else {
			var plus, minus float64
			if plus, err = v.part("links", strings.TrimPrefix(fields[1], "+"), quantity.Length, "mm", want); err == nil {
				minus, err = v.part("links", fields[2], quantity.Length, "mm", want)
			}
			l.Plus, l.Minus = plus, -minus
		}
		if err != nil {
			return nil, err
		}
		out = append(out, l)
	}
	return out, nil
}

func stack(v Values) (Answer, error) {
	links, err := v.links()
	if err != nil {
		return Answer{}, err
	}
	s, err := fit.Stack(links)
	if err != nil {
		return Answer{}, err
	}
	return Answer{Lines: []Line{value("nominal", s.Nominal, "mm", 4), between("every part at its worst", s.Centre-s.Worst, s.Centre+s.Worst, "mm", 4),
		between("root of the sum of squares", s.Centre-s.RSS, s.Centre+s.RSS, "mm", 4), between("that times 1.5", s.Centre-s.Inflated, s.Centre+s.Inflated, "mm", 4).on("Bender 1962, from memory")},
		Working: []string{fmt.Sprintf("middle %.4f, worst ± %.4f, squares ± %.4f", s.Centre, s.Worst, s.RSS)}}, nil
}

// paired chooses shafts by a target, or by the chance to keep limits.
func (v Values) paired() (fit.Choice, []float64, error) {
	holes, shafts := v.nums("holes"), v.nums("shafts")
	limits := v.has("low") && v.has("high")
	switch {
	case v.has("clearance") && (v.has("low") || v.has("high")):
		return fit.Choice{}, nil, v.wrong("clearance", "either clearance, or low and high, were wanted")
	case v.has("clearance"):
		c, err := fit.SelectByTarget(holes, shafts, v.num("clearance"))
		return c, shafts, err
	case !limits:
		return fit.Choice{}, nil, MissingError{Topic: v.Topic, Inputs: []Input{length("clearance", "or low and high")}}
	}
	with := func(sizes []float64) []metrology.Estimate {
		var out []metrology.Estimate
		for _, s := range sizes {
			out = append(out, metrology.Estimate{Value: s, U: v.num("u")})
		}
		return out
	}
	c, err := fit.SelectByChance(with(holes), with(shafts), 0, v.num("low"), v.num("high"))
	return c, shafts, err
}
