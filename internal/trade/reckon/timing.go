package reckon

import (
	"fmt"
	"strings"

	"matchmark/internal/trade/engine"
	"matchmark/internal/trade/quantity"
)

func timingTopics() []Topic {
	rim := length("rim", "diameter of the rim").need()
	laid := choice("laid", "how the length is taken", "tape round the rim", "rule across").deflt("tape round the rim")
	angle := func(key, ask string) Input { return ofDim(key, ask, quantity.Angle, "deg") }
	return []Topic{
		{Name: "rim", Title: "degrees of the crank and millimetres on the rim, one from the other", Group: engines, Do: rimOf, Example: []string{"rim=300", "degrees=20"},
			Inputs: []Input{rim, angle("degrees", "angle; or give length"), length("length", "on the rim; or give degrees"), laid, length("u", "standard uncertainty of the length").deflt("0.3 mm"), length("u-rim", "standard uncertainty of the diameter").deflt("0.5 mm")},
			Source: "geometry; GUM 5.1.2", Sure: "a straight rule reads the chord, a tape the arc"},
		{Name: "top", Title: "true top dead centre from a stop touched from both sides", Group: engines, Do: top, Example: []string{"first=-31.5", "second=30.5"},
			Inputs: []Input{angle("first", "reading turned against the stop one way").need(), angle("second", "and the other way").need()}, Source: "middle of the two", Sure: "better than a dial on the piston, which stands still there"},
		{Name: "spill", Title: "start of delivery from lengths on the rim", Group: engines, Do: spill, Example: []string{"rim=300", "lengths=45.0;46.0;45.5"},
			Inputs: []Input{rim, {Key: "lengths", Ask: "from the spill to the mark of top, each repeat", Dim: quantity.Length, Unit: "mm", Many: true, Needed: true}, laid, angle("u-top", "standard uncertainty of the mark of top").deflt("0.5"), length("u-rim", "standard uncertainty of the diameter").deflt("0.5 mm")},
			Source: "geometry; repeats by GUM 4.2", Sure: "as sure as the mark of top: repeats do not lessen that"},
		{Name: "spill-shim", Title: "pump shim that gives a wanted spill, from two trial builds", Group: engines, Do: spillShim, Example: []string{"first=0.6/15", "second=0.4/17", "wanted=18"},
			Inputs: []Input{text("first", "pack in mm/spill in degrees before top").need(), text("second", "and of the other build").need(), angle("wanted", "spill wanted, before top").need()},
			Source: "straight line through the trials; no rate is assumed", Sure: "within 1 mm of the trials; find the spill again with the pack in"},
		{Name: "lost-spill", Title: "where to look for the spill of an engine whose figure is lost", Group: engines, Do: lostSpill, Example: []string{"rated=2600", "pipe=0.40 m"},
			Inputs: []Input{ofDim("rated", "rated speed", quantity.Speed, "rpm").need(), ofDim("pipe", "length of the injection pipe", quantity.Length, "m").need()}, Source: "wave in the pipe and delay of ignition, " + custom, Sure: "± 3 degrees, indirect injection; what was found before stripping goes before it"},
		{Name: "valve-timing", Title: "opening, closing and lobe centre from dial readings", Group: engines, Do: valveTiming, Example: []string{"readings=-40/0;-30/0.10;-25/0.35;-20/0.70;60/8.0;140/0.70;145/0.35;150/0.10;160/0", "lift=0.5"},
			Inputs: []Input{text("readings", "angle/lift in mm, the angle rising").many().need(), length("lift", "check lift").need(), text("other", "readings of the other valve, for the overlap").many()},
			Source: "straight lines between readings", Sure: "needs readings every 5 degrees about the crossings"},
		{Name: "cam-tooth", Title: "how many teeth a camshaft is out", Group: engines, Do: camTooth, Example: []string{"measured=126", "wanted=110", "teeth=24"},
			Inputs: []Input{angle("measured", "lobe centre found").need(), angle("wanted", "lobe centre wanted").need(), counted("teeth", "teeth of the crank gear").need()}, Source: "360/teeth", Sure: "tells a wrong tooth from a small error"},
	}
}

func (v Values) laid() engine.Laid {
	if strings.HasPrefix(v.word("laid"), "rule") {
		return engine.Rule
	}
	return engine.Tape
}

func rimOf(v Values) (Answer, error) {
	key, err := v.either("degrees", "length")
	if err != nil {
		return Answer{}, err
	}
	if key == "degrees" {
		mm, err := engine.RimMM(v.num("degrees"), v.num("rim"), v.laid())
		return one("on the rim", mm, "mm", 2, err)
	}
	e, err := engine.RimDeg(est(v.num("length"), v.num("u")), est(v.num("rim"), v.num("u-rim")), v.laid())
	if err != nil {
		return Answer{}, err
	}
	return Answer{Lines: []Line{value("angle", e.Value, "deg", 2).with("± " + fixed(2*e.U, 2) + " at two standard uncertainties")}}, nil
}

func top(v Values) (Answer, error) {
	x, err := engine.TopByStop(v.num("first"), v.num("second"))
	return one("top dead centre lies at", x, "deg", 2, err)
}

func spill(v Values) (Answer, error) {
	s, err := engine.BySpill(v.nums("lengths"), est(v.num("rim"), v.num("u-rim")), v.num("u-top"), v.laid())
	if err != nil {
		return Answer{}, err
	}
	return Answer{Lines: []Line{value("spill before top", s.BeforeTopDeg.Value, "deg", 2).with("± " + fixed(2*s.BeforeTopDeg.U, 2) + " at two standard uncertainties"), value("repeats part by", s.SpreadDeg, "deg", 2)}, Cautions: []string{sprayHazard}}, nil
}

// sprayHazard stands with all work on the injection.
const sprayHazard = "Fuel under pressure goes through skin: keep hands out of it; a puncture is a matter for a hospital at once."

func (v Values) trial(key string) (engine.Trial, error) {
	const want = "pack in mm/spill in degrees, such as 0.6/15, were wanted"
	pack, deg, found := strings.Cut(v.word(key), "/")
	if !found {
		return engine.Trial{}, v.wrong(key, want)
	}
	mm, err := v.part(key, pack, quantity.Length, "mm", want)
	if err != nil {
		return engine.Trial{}, err
	}
	at, err := v.part(key, deg, quantity.Angle, "deg", want)
	return engine.Trial{ShimMM: mm, SpillDeg: at}, err
}

func spillShim(v Values) (Answer, error) {
	a, err := v.trial("first")
	if err != nil {
		return Answer{}, err
	}
	b, err := v.trial("second")
	if err != nil {
		return Answer{}, err
	}
	pack, per, err := engine.Retime(a, b, v.num("wanted"))
	if err != nil {
		return Answer{}, err
	}
	out := Answer{Lines: []Line{value("pack", pack, "mm", 3), value("each 0.1 mm moves the spill by", per*0.1, "deg", 2)}, Working: []string{fmt.Sprintf("%.2f degrees a mm from the trials", per)}, Cautions: []string{sprayHazard}}
	if pack < min(a.ShimMM, b.ShimMM) || pack > max(a.ShimMM, b.ShimMM) {
		out.Marked = []string{"the pack lies outside the two trials: the line is carried on past what was read"}
	}
	return out, nil
}

func lostSpill(v Values) (Answer, error) {
	r, err := engine.UnknownSpill(v.num("rated"), v.num("pipe")/1000)
	if err != nil {
		return Answer{}, err
	}
	return Answer{Lines: []Line{between("look between, before top", r.Lo, r.Hi, "deg", 1)}, Marked: []string{"a rule of thumb with ± 3 degrees beside it, no source"},
		Cautions: []string{"Start late and go one degree a step, never earlier than the first knock.", sprayHazard}}, nil
}

func (v Values) lifts(key string) (engine.Timing, error) {
	const want = "angle/lift in mm, such as -25/0.35, parted by semicolons, were wanted"
	var list []engine.Reading
	for _, item := range v.words(key) {
		a, l, found := strings.Cut(item, "/")
		if !found {
			return engine.Timing{}, v.wrong(key, want)
		}
		deg, err := v.part(key, a, quantity.Angle, "deg", want)
		if err != nil {
			return engine.Timing{}, err
		}
		mm, err := v.part(key, l, quantity.Length, "mm", want)
		if err != nil {
			return engine.Timing{}, err
		}
		list = append(list, engine.Reading{CrankDeg: deg, LiftMM: mm})
	}
	return engine.AtLift(list, v.num("lift"))
}

func valveTiming(v Values) (Answer, error) {
	t, err := v.lifts("readings")
	if err != nil {
		return Answer{}, err
	}
	a := Answer{Lines: []Line{value("opens at", t.OpensDeg, "deg", 1), value("closes at", t.ClosesDeg, "deg", 1), value("stays open", t.DurationDeg, "deg", 1), value("lobe centre", t.CentreDeg, "deg", 1).with("if the lobe is symmetrical"), value("highest reading", t.PeakMM, "mm", 2)},
		Cautions: []string{"Turn by hand: a valve that meets a piston bends."}}
	if v.has("other") {
		o, err := v.lifts("other")
		if err != nil {
			return Answer{}, err
		}
		a.Lines = append(a.Lines, value("overlap", engine.OverlapDeg(t, o), "deg", 1).with("the first as inlet, the other as exhaust, at the check lift"))
	}
	return a, nil
}

func camTooth(v Values) (Answer, error) {
	m, err := engine.TeethOut(v.num("measured"), v.num("wanted"), v.count("teeth"))
	if err != nil {
		return Answer{}, err
	}
	return Answer{Lines: []Line{value("out by", m.OffDeg, "deg", 1).with("above zero is late"), value("teeth", float64(m.Teeth), "", 0), value("left over", m.RestDeg, "deg", 1).with("key, stretch, wear or reading"), value("one tooth", m.Tooth, "deg of the crank", 2)},
		Cautions: []string{"Turn by hand two turns after any change: a valve that meets a piston bends."}}, nil
}
