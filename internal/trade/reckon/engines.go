package reckon

import (
	"fmt"
	"math"
	"strings"

	"matchmark/internal/trade/engine"
	"matchmark/internal/trade/metrology"
	"matchmark/internal/trade/quantity"
)

const (
	engines = "Engine"
	custom  = "common practice, no source"
)

func engineTopics() []Topic {
	bore, stroke := length("bore", "bore").need(), length("stroke", "stroke").need()
	u := func(key, ask, deflt string) Input { return length(key, "standard uncertainty of "+ask).deflt(deflt) }
	volume := func(key, ask string) Input { return ofDim(key, ask, quantity.Volume, "cm³") }
	return []Topic{
		{Name: "displacement", Title: "displacement and piston speed", Group: engines, Do: displacement, Example: []string{"bore=82", "stroke=84", "cylinders=2", "speed=2600"},
			Inputs: []Input{bore, stroke, counted("cylinders", "cylinders").need(), ofDim("speed", "engine speed", quantity.Speed, "rpm")}, Source: "π/4·bore²·stroke", Sure: "exact for what was measured"},
		{Name: "compression-ratio", Title: "compression ratio from measured volumes, and what it is off by", Group: engines, Do: compressionRatio, Example: []string{"bore=80", "stroke=80", "chamber=14.2 cm³", "gasket-bore=81", "gasket=1.2", "below=0.1"},
			Inputs: []Input{bore, stroke, volume("chamber", "room in head, prechamber and piston bowl, by fluid").need(), length("gasket-bore", "bore of the gasket's fire ring"), length("gasket", "gasket as crushed"), length("below", "piston below the deck at top; above it, less than zero").deflt("0"),
				u("u", "bore and stroke", "0.02 mm"), volume("u-chamber", "standard uncertainty of the chamber").deflt("0.2 cm³"), u("u-gasket", "gasket and deck", "0.02 mm")},
			Source: "(swept + clearance)/clearance; uncertainty by GUM 5.1.2", Sure: "half a cm³ moves a small diesel by half a ratio: use a burette"},
		{Name: "bump", Title: "piston to head clearance, and which gasket gives it", Group: engines, Do: bump, Example: []string{"protrusions=0.35; 0.38; 0.33", "gaskets=1 notch/1.10; 2 notches/1.20; 3 notches/1.30", "low=0.75", "high=0.95"},
			Inputs: []Input{{Key: "protrusions", Ask: "each piston above the deck at top; below it, less than zero", Dim: quantity.Length, Unit: "mm", Many: true, Needed: true}, text("gaskets", "gaskets that can be had, as name/crushed thickness").many().need(),
				length("low", "least clearance wanted: the paperwork's where there is one; else 0.6").deflt("0.6 mm"), length("high", "most clearance wanted; else 1.0").deflt("1.0 mm"), length("recess", "of the head over the piston").deflt("0"), u("u", "a protrusion", "0.01 mm"), u("u-gasket", "a crushed gasket", "0.02 mm")},
			Source: "gasket - protrusion + recess; the usual window 0.6 to 1.0 mm is common practice, no source", Sure: "prove it with soft wire before the engine is turned fast"},
		{Name: "lead-wire", Title: "piston to head clearance by crushed wire", Group: engines, Do: leadWire, Example: []string{"readings=0.82;0.88;0.80;0.86", "reckoned=0.85"},
			Inputs: []Input{{Key: "readings", Ask: "crushed wires of one piston, front and back along the pin", Dim: quantity.Length, Unit: "mm", Many: true, Needed: true}, length("reckoned", "clearance reckoned from gasket and protrusion")}, Source: custom, Sure: "some hundredths: the wire shows the closest place"},
		{Name: "ring-gap", Title: "usual ring gap for a bore, and how wear opens it", Group: engines, Do: ringGap, Example: []string{"bore=85", "ring=top"},
			Inputs: []Input{bore, choice("ring", "which ring", "top", "other").deflt("top"), length("worn", "how much the bore has grown").deflt("0")}, Source: "shares of the bore, " + custom, Sure: "a usual range, never pass or fail: the paperwork's figure goes before it"},
		{Name: "bore-taper", Title: "taper of a bore from the gap of one ring", Group: engines, Do: boreTaper, Example: []string{"top=0.62", "bottom=0.34"},
			Inputs: []Input{length("top", "gap with the ring square at the top").need(), length("bottom", "gap at the unworn bottom").need()}, Source: "difference/π", Sure: "a hundredth; a ring that lies askew reads large"},
		{Name: "piston-mass", Title: "spread of pistons by mass, and what to take off", Group: engines, Do: pistonMass, Example: []string{"masses=512;515;513"},
			Inputs: []Input{{Key: "masses", Ask: "pistons with pins", Dim: quantity.Mass, Unit: "g", Many: true, Needed: true}}, Source: "difference to the lightest", Sure: "exact for the scale"},
		{Name: "cranking-pressure", Title: "compression to expect on the starter, as a range", Group: engines, Do: crankingPressure, Example: []string{"ratio=20", "height=400 m", "air=10", "engine=15"},
			Inputs: []Input{plain("ratio", "geometric compression ratio", "").need(), ofDim("height", "above the sea", quantity.Length, "m").deflt("0 m"), ofDim("air", "air", quantity.Temperature, "°C").deflt("20 °C"), ofDim("engine", "metal of the engine", quantity.Temperature, "°C").deflt("20 °C"),
				ofDim("inlet-closes", "inlet closes after bottom dead centre", quantity.Angle, "deg"), plain("rod", "rod length over stroke; needed with inlet-closes", "")},
			Source: "polytropic compression, bands " + custom, Sure: "a wide range: compare cylinders with one another first"},
		{Name: "spring", Title: "rate, force and solid length of a coil spring", Group: engines, Do: spring, Example: []string{"wire=3.5", "outside=31.5", "active=6.5", "coils=8.5", "free=48", "at=38"},
			Inputs: []Input{length("wire", "wire").need(), length("outside", "outside diameter of the coil").need(), plain("active", "coils that work", "").need(), plain("coils", "all coils", "").need(), length("free", "free length, with at"), length("at", "length at which the force is asked"), yesNo("open", "ends closed but not ground"),
				u("u", "the wire", "0.01 mm")},
			Source: "G·d⁴/(8·D³·n), Shigley chapter 10; G of spring steel 78.5 GPa, textbook", Sure: "two per cent in the wire are eight in the rate: measure it bare"},
		{Name: "valve-lash", Title: "by how much lash closes from cold to warm", Group: engines, Do: valveLash, Example: []string{"grows=exhaust valve/100/17/250..350; pushrod/200/11.5/50..70", "opens=block and head/280/10.5/60..80"},
			Inputs: []Input{text("grows", "parts that close it: name/length mm/expansion 1e-6/hotter by K, as valve/100/17/250..350").many().need(), text("opens", "parts that open it, alike").many()},
			Source: "α·length·rise, every part at its worst; " + custom, Sure: "a finger rule for a lash nobody wrote down; never for hydraulic tappets"},
	}
}

func displacement(v Values) (Answer, error) {
	all, err := engine.Swept(v.num("bore"), v.num("stroke"), v.count("cylinders"))
	if err != nil {
		return Answer{}, err
	}
	each, err := engine.Swept(v.num("bore"), v.num("stroke"), 1)
	if err != nil {
		return Answer{}, err
	}
	rated, err := engine.RatedSpeed(v.num("stroke"))
	if err != nil {
		return Answer{}, err
	}
	a := Answer{Lines: []Line{value("displacement", all, "cm³", 2), value("one cylinder", each, "cm³", 2), between("rated speed that the stroke allows", rated.Lo, rated.Hi, "rpm", 0).on("6.5 to 9 m/s, " + custom + "; a bound for a lost plate, not a setting")}}
	if v.has("speed") {
		s, err := engine.PistonSpeed(v.num("stroke"), v.num("speed"))
		if err != nil {
			return Answer{}, err
		}
		a.Lines = append(a.Lines, value("mean piston speed", s, "m/s", 2))
	}
	return a, nil
}

func est(x, u float64) metrology.Estimate { return metrology.Estimate{Value: x, U: u} }

func compressionRatio(v Values) (Answer, error) {
	parts := []engine.Volume{{Name: "chamber", CM3: est(1000*v.num("chamber"), 1000*v.num("u-chamber"))}}
	if v.has("gasket") != v.has("gasket-bore") {
		return Answer{}, fmt.Errorf("gasket and gasket-bore were wanted together")
	}
	if v.has("gasket") {
		g, err := engine.GasketVolume(est(v.num("gasket-bore"), v.num("u")), est(v.num("gasket"), v.num("u-gasket")))
		if err != nil {
			return Answer{}, err
		}
		parts = append(parts, g)
	}
	if below := v.num("below"); below != 0 {
		deck, err := engine.GasketVolume(est(v.num("bore"), v.num("u")), est(math.Abs(below), v.num("u-gasket")))
		if err != nil {
			return Answer{}, err
		}
		deck.Name = "below the deck"
		if below < 0 {
			deck.Name, deck.CM3.Value = "above the deck", -deck.CM3.Value
		}
		parts = append(parts, deck)
	}
	c, err := engine.ByFluid(est(v.num("bore"), v.num("u")), est(v.num("stroke"), v.num("u")), parts)
	if err != nil {
		return Answer{}, err
	}
	a := Answer{Lines: []Line{value("compression ratio", c.Ratio.Value, "to 1", 2).with("± " + fixed(2*c.Ratio.U, 2) + " at two standard uncertainties"), value("swept", c.SweptCM3.Value, "cm³", 2), value("clearance", c.Clearance.Value, "cm³", 2),
		value("one cm³ more clearance", c.PerCM3, "on the ratio", 2)}}
	for _, p := range parts {
		a.Working = append(a.Working, fmt.Sprintf("%s %.3f cm³", p.Name, p.CM3.Value))
	}
	return a, nil
}

func bump(v Values) (Answer, error) {
	const want = "gaskets as name/crushed thickness, such as 2 notches/1.20, were wanted"
	var gaskets []engine.Gasket
	for _, item := range v.words("gaskets") {
		name, thick, found := strings.Cut(item, "/")
		if !found {
			return Answer{}, v.wrong("gaskets", want)
		}
		mm, err := v.part("gaskets", thick, quantity.Length, "mm", want)
		if err != nil {
			return Answer{}, err
		}
		gaskets = append(gaskets, engine.Gasket{Name: strings.TrimSpace(name), CrushedMM: est(mm, v.num("u-gasket"))})
	}
	var protrusions []metrology.Estimate
	for _, p := range v.nums("protrusions") {
		protrusions = append(protrusions, est(p-v.num("recess"), v.num("u")))
	}
	c, err := engine.ChooseGasket(gaskets, protrusions, engine.Range{Lo: v.num("low"), Hi: v.num("high")})
	if err != nil {
		return Answer{}, err
	}
	a := Answer{Lines: []Line{say("gasket", c.Say)}, Cautions: []string{"Turn the engine by hand two full turns before the starter: a piston that strikes is felt."}}
	for _, o := range c.Options {
		a.Lines = append(a.Lines, between("clearance with "+o.Gasket.Name, o.LeastMM, o.MostMM, "mm", 3).with(percent(o.Chance)+" that the worst cylinder lies in the window"))
	}
	if !v.typed("low") || !v.typed("high") {
		a.Marked = []string{"the window 0.6 to 1.0 mm is common practice for small direct injection, no source"}
	}
	return a, nil
}

func leadWire(v Values) (Answer, error) {
	w, err := engine.ByWire(v.nums("readings"))
	if err != nil {
		return Answer{}, err
	}
	a := Answer{Lines: []Line{value("mean", w.MeanMM, "mm", 3), value("least", w.LeastMM, "mm", 3), value("spread", w.SpreadMM, "mm", 3)}}
	if v.has("reckoned") {
		ok, err := w.Agrees(v.num("reckoned"))
		if err != nil {
			return Answer{}, err
		}
		words := "agrees with what was reckoned"
		if !ok {
			words = "does not agree: a burr, another gasket or a piston the wrong way round"
		}
		a.Lines = append(a.Lines, say("against the reckoning", words).on(fmt.Sprintf("%.2f mm apart at most, %s", engine.MisbuiltMM, custom)))
	}
	return a, nil
}

func ringGap(v Values) (Answer, error) {
	r, err := engine.UsualGap(v.num("bore"), v.word("ring") == "top")
	if err != nil {
		return Answer{}, err
	}
	opens, err := engine.GapChange(v.num("worn"))
	if err != nil {
		return Answer{}, err
	}
	a := Answer{Lines: []Line{between("usual gap of a new ring", r.Lo, r.Hi, "mm", 3).on(custom)}, Cautions: []string{"A gap that closes when hot breaks the ring and scores the bore: never file less than the least."}}
	if opens != 0 {
		a.Lines = append(a.Lines, value("that wear changes it by", opens, "mm", 3))
	}
	return a, nil
}

func boreTaper(v Values) (Answer, error) {
	t, err := engine.Taper(v.num("top"), v.num("bottom"))
	return one("taper across the bore", t, "mm", 4, err)
}

func pistonMass(v Values) (Answer, error) {
	var grams []float64
	for _, kg := range v.nums("masses") {
		grams = append(grams, 1000*kg)
	}
	m, err := engine.MatchMass(grams)
	if err != nil {
		return Answer{}, err
	}
	a := Answer{Lines: []Line{value("spread", m.SpreadG, "g", 1), say("so", m.Say)}, Cautions: []string{"From a boss only, never from crown, skirt or the ring lands."}}
	for i, off := range m.OffG {
		a.Lines = append(a.Lines, value(fmt.Sprintf("take off piston %d", i+1), off, "g", 1))
	}
	return a, nil
}
