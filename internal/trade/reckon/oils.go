package reckon

import (
	"fmt"
	"math"

	"matchmark/internal/trade/lubricant"
	"matchmark/internal/trade/quantity"
)

const oils = "Oils"

func oilTopics() []Topic {
	two := []Input{ofDim("kv40", "viscosity at 40 °C", quantity.Viscosity, "mm²/s").need(), ofDim("kv100", "viscosity at 100 °C", quantity.Viscosity, "mm²/s").need()}
	return []Topic{
		{Name: "oil-grade", Title: "which grades an oil of two known viscosities belongs to", Group: oils, Inputs: two, Do: oilGrade, Example: []string{"kv40=108", "kv100=14.5"},
			Source: "SAE J300 of 2015, SAE J306 of 2019, ISO 3448, ASTM D2270", Sure: "by viscosity alone: the winter grade needs a cold cranking test"},
		{Name: "oil-index", Title: "viscosity index: how little an oil thins with heat", Group: oils, Inputs: two, Do: oilIndex, Example: []string{"kv40=73.3", "kv100=8.86"},
			Source: "ASTM D2270, quadratic fits to its table", Sure: "within 1 of the table"},
		{Name: "oil-viscosity", Title: "how thick an oil is at a temperature", Group: oils, Do: oilViscosity, Example: []string{"oil=15W-40", "temperature=-10; 40; 90; 120"},
			Inputs: append(oilInputs()[1:5], Input{Key: "temperature", Ask: "temperatures", Dim: quantity.Temperature, Unit: "°C", Many: true, Needed: true}),
			Source: "ASTM D341, short form; usual oils common practice, no source", Sure: "a few per cent between the two known temperatures; thicker than said near the pour point"},
		{Name: "oil-choice", Title: "engine and gear oil for a range of air temperatures", Group: oils, Do: oilChoice, Example: []string{"cold=-12", "hot=32"},
			Inputs: []Input{ofDim("cold", "coldest air at a start", quantity.Temperature, "°C").need(), ofDim("hot", "hottest air at work", quantity.Temperature, "°C").need()},
			Source: "SAE J300 and J306 for the cold half; the hot half common practice, no source", Sure: "a starting guess: what is stamped on the machine comes first"},
		{Name: "oil-table", Title: "the bands of a scale of grades", Group: oils, Do: oilTable, Example: []string{"scale=gear"},
			Inputs: []Input{choice("scale", "which scale", "engine", "gear", "industrial", "grease").need()},
			Source: "SAE J300, SAE J306, ISO 3448; NLGI from memory", Sure: "as the tables; an engine number and a gear number are different scales"},
		{Name: "sump", Title: "litres in a sump at a depth, or the depth of a filling", Group: oils, Do: sump, Example: []string{"floor-length=300", "floor-width=160", "rim-length=340", "rim-width=200", "height=140", "litres=6"},
			Inputs: []Input{length("floor-length", "plan at the floor").need(), length("floor-width", "plan at the floor").need(), length("rim-length", "plan at the rim").need(),
				length("rim-width", "plan at the rim").need(), length("height", "from floor to rim").need(), length("depth", "depth of the oil; or give litres"), ofDim("litres", "filling; or give depth", quantity.Volume, "L")},
			Source: "prismoidal rule, exact for straight walls", Sure: "what stands in the sump is not seen: mark the stick by a measured fill"},
	}
}

func oilGrade(v Values) (Answer, error) {
	n, err := lubricant.Name(v.num("kv40"), v.num("kv100"))
	if err != nil {
		return Answer{}, err
	}
	or := func(list []string, none string) string {
		if len(list) == 0 {
			return none
		}
		return join(list, ", ")
	}
	vg := n.VG
	if vg == "" {
		vg = "in a gap between grades"
	}
	return Answer{Lines: []Line{say("engine oil, hot grade", or(n.Engine, "none")), say("gear oil, hot grade", or(n.Gear, "none")), say("industrial oil", vg),
		value("viscosity index", float64(n.Index.Whole()), "", 0)}}, nil
}

func oilIndex(v Values) (Answer, error) {
	i, err := lubricant.ViscosityIndex(v.num("kv40"), v.num("kv100"))
	if err != nil {
		return Answer{}, err
	}
	return Answer{Lines: []Line{value("viscosity index", float64(i.Whole()), "", 0)}, Working: []string{fmt.Sprintf("procedure %s with L = %.2f and H = %.2f mm²/s", i.Procedure, i.L, i.H)}}, nil
}

func oilViscosity(v Values) (Answer, error) {
	thin, density, name, err := v.oil()
	if err != nil {
		return Answer{}, err
	}
	a := Answer{Working: []string{fmt.Sprintf("%s: log log (v + 0.7) = %.4f - %.4f·log T", name, thin.A, thin.B)}}
	a.Marked = v.usualOil()
	for _, c := range v.nums("temperature") {
		kv, err := thin.At(c)
		if err != nil {
			return Answer{}, err
		}
		there, err := lubricant.Density(density, c)
		if err != nil {
			return Answer{}, err
		}
		mpas, err := lubricant.Dynamic(kv.MM2S, there)
		if err != nil {
			return Answer{}, err
		}
		a.Lines = append(a.Lines, value(fmt.Sprintf("at %g °C", c), kv.MM2S, "mm²/s", 2).with(fixed(mpas, 2)+" mPa·s"))
		if kv.Marked() {
			a.Marked = append(a.Marked, fmt.Sprintf("%g °C lies %.0f K outside the known temperatures: carried on past what was measured", c, kv.Beyond))
		}
	}
	return a, nil
}

func oilChoice(v Values) (Answer, error) {
	if v.num("cold") > v.num("hot") {
		return Answer{}, v.wrong("cold", "a temperature below that of hot was wanted")
	}
	var a Answer
	for _, c := range []struct {
		name   string
		choose func(float64, float64) (lubricant.Choice, error)
	}{{"engine", lubricant.ChooseEngine}, {"gearbox", lubricant.ChooseGear}} {
		oil, err := c.choose(v.num("cold"), v.num("hot"))
		if err != nil {
			return Answer{}, err
		}
		a.Lines = append(a.Lines, say(c.name, oil.Grade))
		a.Working = append(a.Working, c.name+", cold: "+oil.Cold, c.name+", hot: "+oil.Hot)
	}
	a.Cautions = []string{"Yellow metal in an old gearbox: ask whether a gear oil of class GL-5 is safe for it."}
	return a, nil
}

func oilTable(v Values) (Answer, error) {
	unit, a := "mm²/s at 100 °C", Answer{}
	var bands []lubricant.Band
	var err error
	switch v.word("scale") {
	case "engine":
		bands, err = lubricant.EngineBands(lubricant.J300Since2013)
		for _, w := range lubricant.Winters() {
			a.Lines = append(a.Lines, value(w.Grade+" cranks at", w.CrankC, "°C", 0).with(fmt.Sprintf("up to %g mPa·s; pumps at %g °C; at least %g mm²/s at 100 °C", w.CrankMax, w.PumpC, w.LowKV100)))
		}
	case "gear":
		var winters []lubricant.GearWinter
		if bands, err = lubricant.GearBands(lubricant.J306Of2019); err == nil {
			winters, err = lubricant.GearWinters(lubricant.J306Of2019)
		}
		for _, w := range winters {
			a.Lines = append(a.Lines, value(w.Grade+" stays below 150 000 mPa·s to", w.ColdC, "°C", 0).with(fmt.Sprintf("at least %g mm²/s at 100 °C", w.LowKV100)))
		}
	case "industrial":
		unit, bands = "mm²/s at 40 °C", lubricant.IndustrialBands()
		a.Marked = []string{"VG 460 and above are from memory"}
	default:
		unit, bands = "tenths of mm, worked", lubricant.GreaseBands()
		a.Marked = []string{"grades of grease are from memory"}
	}
	for _, b := range bands {
		if math.IsInf(b.High, 1) {
			a.Lines = append(a.Lines, value(b.Grade, b.Low, unit, 2).with("and more"))
			continue
		}
		a.Lines = append(a.Lines, between(b.Grade, b.Low, b.High, unit, 2))
	}
	return a, err
}

func sump(v Values) (Answer, error) {
	s := lubricant.Sump{FloorLength: v.num("floor-length"), FloorWidth: v.num("floor-width"), RimLength: v.num("rim-length"), RimWidth: v.num("rim-width"), Height: v.num("height")}
	if err := s.Check(); err != nil {
		return Answer{}, err
	}
	if _, err := v.either("depth", "litres"); err != nil {
		return Answer{}, err
	}
	full, err := s.Litres(s.Height)
	if err != nil {
		return Answer{}, err
	}
	var l Line
	if v.has("depth") {
		litres, err := s.Litres(v.num("depth"))
		if err != nil {
			return Answer{}, err
		}
		l = value("oil in it", litres, "L", 2)
	} else {
		mm, err := s.Depth(v.num("litres"))
		if err != nil {
			return Answer{}, err
		}
		l = value("stands over the floor", mm, "mm", 1)
	}
	return Answer{Lines: []Line{l, value("full to the rim", full, "L", 2)}}, nil
}
