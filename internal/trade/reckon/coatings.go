package reckon

import (
	"fmt"
	"strings"

	"matchmark/internal/trade/coating"
	"matchmark/internal/trade/quantity"
)

const (
	coatings    = "Coatings"
	paintHazard = "Two-pack hardeners and spray mist harm lungs for good: air-fed mask, no flame, and the sheet of the paint first."
)

func coatingTopics() []Topic {
	um := func(key, ask string) Input { return plain(key, ask, "µm") }
	share := func(key, ask string) Input { return ofDim(key, ask, quantity.Ratio, "%") }
	celsius := func(key, ask string) Input { return ofDim(key, ask, quantity.Temperature, "°C") }
	var kinds []string
	for _, p := range coating.Paints() {
		kinds = append(kinds, p.Kind)
	}
	paint := choice("paint", "kind of paint", kinds...).need()
	return []Topic{
		{Name: "film", Title: "wet film for a dry one, or the other way, and coverage", Group: coatings, Do: film, Example: []string{"dry=75", "solids=60 %", "thinner=10 %"},
			Inputs: []Input{um("dry", "dry film; or give wet"), um("wet", "wet film, by the comb; or give dry"), share("solids", "solids by volume, from the sheet").need(), share("thinner", "thinner, of the paint's volume").deflt("0 %")},
			Source: "ISO 3233, volume solids", Sure: "exact for the solids of the sheet"},
		{Name: "paint-litres", Title: "litres of paint to buy", Group: coatings, Do: paintLitres, Example: []string{"area=8", "dry=50", "solids=45 %", "lost=30 %"},
			Inputs: []Input{plain("area", "area", "m²").need(), um("dry", "dry film of one coat").need(), share("solids", "solids by volume").need(), share("lost", "paint lost: brush about 5 %, gun on small parts 30 to 50 %").deflt("30 %"),
				counted("coats", "coats").deflt("1"), um("profile", "blasted profile, peak to valley").deflt("0 µm")}, Source: "ISO 3233; losses common practice, no source", Sure: "as sure as the loss: a gun on small parts wastes half"},
		{Name: "paint-area", Title: "area of simple shapes", Group: coatings, Do: paintArea, Example: []string{"shapes=tube 700 250; disc 600 100; box 900 500 300"},
			Inputs: []Input{text("shapes", "shape and sizes in mm: sheet l w; box l w h; drum d l; tube d l; disc d hole; cone D d h; dome d; fender r degrees w; ring R r").many().need()}, Source: "plane and solid geometry", Sure: "exact for the shape; ribs and edges add"},
		{Name: "paint-weather", Title: "may paint go on: dew point, the steel and the 3 K rule", Group: coatings, Do: paintWeather, Example: []string{"air=20", "humidity=70 %", "steel=18"},
			Inputs: []Input{celsius("air", "air").need(), celsius("steel", "the steel's own temperature").need(), share("humidity", "relative; or give wet"), celsius("wet", "wet thermometer of a ventilated pair; or give humidity"), ofDim("barometer", "air pressure, with wet", quantity.Pressure, "hPa").deflt("1013 hPa")},
			Source: "Magnus after WMO No. 8; ISO 8502-4 (3 K); 85 % common practice, no source", Sure: "half a kelvin; measure the steel, not the air"},
		{Name: "paint-mix", Title: "parts of a mixed paint by volume, or hardener by mass", Group: coatings, Do: paintMix, Example: []string{"total=660 mL", "ratio=2:1", "thinner=10 %"},
			Inputs: []Input{ofDim("total", "volume wanted, mixed", quantity.Volume, "L"), text("ratio", "by volume, as 4:1 or 4:1:1").need(), share("thinner", "thinner, of the mixed paint").deflt("0 %"),
				ofDim("base", "mass of base to harden, in place of total", quantity.Mass, "kg"), plain("base-density", "density of the base", "kg/L"), plain("hardener-density", "density of the hardener", "kg/L")},
			Source: "ratio arithmetic", Sure: "exact; ratios by volume and by mass differ"},
		{Name: "paint-hours", Title: "when the next coat goes on, and when the work can be handled", Group: coatings, Do: paintHours, Example: []string{"paint=two-pack enamel", "temperature=15", "coats=2", "since=10 h"},
			Inputs: []Input{paint, celsius("temperature", "of the shop").deflt("20 °C"), counted("coats", "coats").deflt("1"), ofDim("since", "time since the last coat", quantity.Time, "h")},
			Source: coating.Paint{}.Source(), Sure: "from the quick to the slow paint of a kind; the sheet of the paint in hand comes first"},
		{Name: "film-check", Title: "does a measured dry film pass", Group: coatings, Do: filmCheck, Example: []string{"readings=85;95;105;110;112", "nominal=100"},
			Inputs: []Input{{Key: "readings", Ask: "single readings", Dim: quantity.Number, Unit: "µm", Many: true, Needed: true}, um("nominal", "nominal film").need()}, Source: "ISO 19840, from memory", Sure: "the rule is from memory"},
	}
}

func film(v Values) (Answer, error) {
	key, err := v.either("dry", "wet")
	if err != nil {
		return Answer{}, err
	}
	solids, thinner := 100*v.num("solids"), 100*v.num("thinner")
	dry, a := v.num("dry"), Answer{Working: []string{"wet = dry·(1 + thinner)/solids"}}
	if key == "wet" {
		if dry, err = coating.Dry(v.num("wet"), solids, thinner); err != nil {
			return Answer{}, err
		}
		a.Lines = append(a.Lines, value("dries to", dry, "µm", 1))
	} else {
		wet, err := coating.Wet(dry, solids, thinner)
		if err != nil {
			return Answer{}, err
		}
		a.Lines = append(a.Lines, value("put on wet", wet, "µm", 1))
	}
	m2, err := coating.Coverage(dry, solids)
	if err != nil {
		return Answer{}, err
	}
	a.Lines = append(a.Lines, value("one litre covers", m2, "m²", 2).with("without loss"))
	return a, nil
}

func paintLitres(v Values) (Answer, error) {
	l, err := coating.Job{Area: v.num("area"), Dry: v.num("dry"), SolidsPercent: 100 * v.num("solids"), Lost: v.num("lost"), Coats: v.count("coats")}.Litres()
	if err != nil {
		return Answer{}, err
	}
	a := Answer{Lines: []Line{value("paint to buy", l, "L", 2)}, Working: []string{"area·film·coats/(10·solids), over what is not lost"}, Cautions: []string{paintHazard}}
	if v.num("profile") != 0 {
		more, err := coating.ProfileLitres(v.num("profile"), v.num("area"), 100*v.num("solids"))
		if err != nil {
			return Answer{}, err
		}
		a.Lines = append(a.Lines, value("beside it, to fill the profile", more, "L", 2).on("half the profile, rule of the trade"))
	}
	return a, nil
}

// shapes are the areas by name, with how many sizes each wants.
func shapes() map[string]struct {
	sizes int
	area  func([]float64) (float64, error)
} {
	type f = func(a, b float64) (float64, error)
	two := func(g f) func([]float64) (float64, error) {
		return func(s []float64) (float64, error) { return g(s[0], s[1]) }
	}
	three := func(g func(a, b, c float64) (float64, error)) func([]float64) (float64, error) {
		return func(s []float64) (float64, error) { return g(s[0], s[1], s[2]) }
	}
	one := func(s []float64) (float64, error) { return coating.Dome(s[0]) }
	return map[string]struct {
		sizes int
		area  func([]float64) (float64, error)
	}{"sheet": {2, two(coating.Sheet)}, "drum": {2, two(coating.Drum)}, "tube": {2, two(coating.Tube)}, "disc": {2, two(coating.Disc)}, "ring": {2, two(coating.Ring)},
		"box": {3, three(coating.Box)}, "cone": {3, three(coating.Cone)}, "fender": {3, three(coating.Fender)}, "dome": {1, one}}
}

func paintArea(v Values) (Answer, error) {
	const want = "shapes with their sizes in mm, such as tube 700 250; box 900 500 300, were wanted"
	sum, a := 0.0, Answer{}
	for _, item := range v.words("shapes") {
		fields := strings.Fields(item)
		if len(fields) == 0 {
			return Answer{}, v.wrong("shapes", want)
		}
		shape, ok := shapes()[tidy(fields[0])]
		if !ok || len(fields) != shape.sizes+1 {
			return Answer{}, v.wrong("shapes", want)
		}
		var sizes []float64
		for _, f := range fields[1:] {
			x, err := v.part("shapes", f, quantity.Number, "", want)
			if err != nil {
				return Answer{}, err
			}
			sizes = append(sizes, x)
		}
		m2, err := shape.area(sizes)
		if err != nil {
			return Answer{}, err
		}
		sum += m2
		a.Lines = append(a.Lines, value(item, m2, "m²", 4))
	}
	a.Lines = append(a.Lines, value("together", sum, "m²", 3))
	return a, nil
}

func paintWeather(v Values) (Answer, error) {
	key, err := v.either("humidity", "wet")
	if err != nil {
		return Answer{}, err
	}
	percent, a := 100*v.num("humidity"), Answer{}
	if key == "wet" {
		if percent, err = coating.FromWetBulb(v.num("air"), v.num("wet"), 1e4*v.num("barometer")); err != nil {
			return Answer{}, err
		}
		a.Lines = append(a.Lines, value("humidity", percent, "%", 1))
	}
	w, err := coating.MayPaint(v.num("air"), percent, v.num("steel"))
	if err != nil {
		return Answer{}, err
	}
	words := "yes"
	if !w.May {
		words = "no: " + w.Why
	}
	a.Lines = append(a.Lines, value("dew point", w.DewC, "°C", 2), value("steel is over it by", w.Margin, "K", 2), say("paint may go on", words))
	if most, err := coating.DampestAir(v.num("air")); err == nil {
		a.Lines = append(a.Lines, value("dampest air for steel as warm as it", most, "%", 1))
	}
	return a, nil
}

func paintMix(v Values) (Answer, error) {
	var ratio []float64
	for _, part := range strings.Split(v.word("ratio"), ":") {
		x, err := v.part("ratio", part, quantity.Number, "", "parts by volume, as 4:1, were wanted")
		if err != nil {
			return Answer{}, err
		}
		ratio = append(ratio, x)
	}
	key, err := v.either("total", "base")
	if err != nil {
		return Answer{}, err
	}
	a := Answer{Cautions: []string{paintHazard}}
	if key == "base" {
		if len(ratio) != 2 || !v.has("base-density") || !v.has("hardener-density") {
			return Answer{}, v.wrong("base", "a ratio of two parts and both densities were wanted beside it")
		}
		g, err := coating.HardenerGrams(1000*v.num("base"), ratio[0], ratio[1], v.num("base-density"), v.num("hardener-density"))
		if err != nil {
			return Answer{}, err
		}
		a.Lines = []Line{value("hardener", g, "g", 1)}
		return a, nil
	}
	var parts []float64
	if v.num("thinner") != 0 {
		parts, err = coating.Thinned(1000*v.num("total"), 100*v.num("thinner"), ratio...)
	} else {
		parts, err = coating.Parts(1000*v.num("total"), ratio...)
	}
	if err != nil {
		return Answer{}, err
	}
	for i, p := range parts {
		name := fmt.Sprintf("part %d", i+1)
		if i == len(ratio) {
			name = "thinner"
		}
		a.Lines = append(a.Lines, value(name, p, "mL", 1))
	}
	return a, nil
}

func paintHours(v Values) (Answer, error) {
	p, err := coating.PaintOf(v.word("paint"))
	if err != nil {
		return Answer{}, err
	}
	at, byRule, err := p.At(v.num("temperature"))
	if err != nil {
		return Answer{}, err
	}
	cure, _, err := p.Cure(v.count("coats"), v.num("temperature"))
	if err != nil {
		return Answer{}, err
	}
	line := func(name string, h coating.Hours) Line { return between(name, h.Low, h.High, "h", 1) }
	a := Answer{Lines: []Line{line("dust no longer sticks", at.DustFree), line("next coat after", at.RecoatFrom), line("can be handled", at.Handle), line("bears fitting", at.Fit), line("all coats, until handled", cure)}}
	if at.RecoatTo > 0 {
		a.Lines = append(a.Lines, value("next coat before", at.RecoatTo, "h", 0).with("later: sand first"))
	}
	if byRule {
		a.Marked = []string{"hours at this temperature are by a rule of thumb: twice as long for each 10 K colder"}
	}
	if v.has("since") {
		w, err := p.Recoat(v.num("since")/3600, v.num("temperature"))
		if err != nil {
			return Answer{}, err
		}
		a.Lines = append(a.Lines, say("the next coat now", string(w)))
	}
	a.Cautions = []string{paintHazard}
	return a, nil
}

func filmCheck(v Values) (Answer, error) {
	r, err := coating.ByNominal(v.nums("readings"), v.num("nominal"))
	if err != nil {
		return Answer{}, err
	}
	return Answer{Lines: []Line{say("passes", strings.TrimSpace(yes(r.Pass)+" "+r.Why)), value("mean", r.Mean, "µm", 1)}, Source: r.Rules, Marked: []string{"the rule is from memory"}}, nil
}
