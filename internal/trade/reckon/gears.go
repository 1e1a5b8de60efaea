package reckon

import (
	"fmt"

	"matchmark/internal/trade/gear"
	"matchmark/internal/trade/quantity"
)

const (
	gears      = "Gears"
	gearSource = "ISO 21771 and ISO 53, textbook relations"
	gearSure   = "exact for the rack and teeth typed; a worn or cut tooth is not seen"
)

func rackInputs() []Input {
	return []Input{length("module", "module; or give dp"), plain("dp", "diametral pitch, teeth an inch; in place of module", ""),
		ofDim("alpha", "pressure angle of the rack", quantity.Angle, "deg").deflt("20"),
		plain("addendum", "addendum in modules; 0.8 for stub teeth", "").deflt("1"), plain("dedendum", "dedendum in modules; 1 for stub teeth", "").deflt("1.25")}
}

func gearInputs() []Input {
	return append(rackInputs(), counted("teeth", "teeth, counted").need(), plain("shift", "profile shift in modules, outward above zero", "").deflt("0"))
}

func pairInputs() []Input {
	return append(rackInputs(), counted("teeth-a", "teeth of the first gear").need(), counted("teeth-b", "teeth of the second").need(),
		plain("shift-a", "profile shift of the first, in modules", "").deflt("0"), plain("shift-b", "profile shift of the second", "").deflt("0"))
}

func gearTopics() []Topic {
	topic := func(name, title string, in []Input, do func(Values) (Answer, error), example ...string) Topic {
		return Topic{Name: name, Title: title, Group: gears, Inputs: in, Source: gearSource, Sure: gearSure, Do: do, Example: example}
	}
	return []Topic{
		topic("gear-size", "tip, base, root and tooth of a spur gear from its teeth and module", gearInputs(), gearSize, "module=2.5", "teeth=17"),
		topic("gear-span", "span over teeth: what it should be, and what a reading of it says", append(gearInputs(),
			counted("over", "teeth spanned; left out, the number that suits"), length("measured", "span that was read")), gearSpan, "module=2", "teeth=20", "over=3", "measured=15.29"),
		topic("gear-pins", "length over two pins in opposite gaps", append(gearInputs(), length("pin", "diameter of the pins").need(),
			length("measured", "length that was read")), gearPins, "module=2", "teeth=20", "pin=3.5"),
		topic("gear-tooth", "tooth calliper: thickness across and height to set", gearInputs(), gearTooth, "module=2.5", "teeth=17"),
		topic("gear-pair", "centre distance, tips and contact of a pair without backlash", pairInputs(), gearPair, "module=3", "teeth-a=12", "teeth-b=24", "shift-a=0.6", "shift-b=0.36"),
		topic("backlash", "backlash and contact of a pair at its measured centre distance", append(pairInputs(), length("centre", "distance of the shafts").need(),
			length("thin-a", "by how much the teeth of the first are thin, on the arc").deflt("0"), length("thin-b", "and of the second").deflt("0"),
			length("tip-a", "tip diameter measured; left out, the theoretical one"), length("tip-b", "and of the second")), backlash,
			"module=3", "teeth-a=20", "teeth-b=40", "centre=90.1"),
		{Name: "hunting-tooth", Title: "how often the same two teeth meet, and what match marks are worth", Group: gears,
			Inputs: []Input{counted("teeth-a", "teeth of the first gear").need(), counted("teeth-b", "teeth of the second").need()},
			Source: "whole numbers: least common multiple", Sure: "exact for the teeth counted", Do: hunting, Example: []string{"teeth-a=9", "teeth-b=40"}},
	}
}

func (v Values) rack() (gear.Rack, error) {
	r := gear.Rack{ModuleMM: v.num("module"), AngleDeg: v.num("alpha"), Addendum: v.num("addendum"), Dedendum: v.num("dedendum")}
	switch {
	case v.has("module") && v.has("dp"):
		return r, v.wrong("dp", "either module or dp was wanted, not both")
	case v.has("dp"):
		m, err := gear.ModuleOf(v.num("dp"))
		r.ModuleMM = m
		return r, err
	case !v.has("module"):
		return r, MissingError{Topic: v.Topic, Inputs: rackInputs()[:1]}
	}
	return r, nil
}

func (v Values) gear(teeth, shift string) (gear.Gear, error) {
	r, err := v.rack()
	return gear.Gear{Rack: r, Teeth: v.count(teeth), Shift: v.num(shift)}, err
}

func (v Values) gears() (gear.Pair, error) {
	a, err := v.gear("teeth-a", "shift-a")
	if err != nil {
		return gear.Pair{}, err
	}
	b, err := v.gear("teeth-b", "shift-b")
	return gear.Pair{A: a, B: b}, err
}

func gearSize(v Values) (Answer, error) {
	g, err := v.gear("teeth", "shift")
	if err != nil {
		return Answer{}, err
	}
	s, err := g.Sizes()
	if err != nil {
		return Answer{}, err
	}
	a := Answer{Lines: []Line{value("pitch diameter", s.PitchMM, "mm", 4), value("tip diameter", s.TipMM, "mm", 4), value("root diameter", s.RootMM, "mm", 4),
		value("base diameter", s.BaseMM, "mm", 4), value("base pitch", s.BasePitchMM, "mm", 4), value("tooth on the arc", s.ThicknessMM, "mm", 4)},
		Working: []string{fmt.Sprintf("pitch m·z = %g × %d, tip m(z + 2·addendum + 2x), base m·z·cos %g°", g.ModuleMM, g.Teeth, g.AngleDeg)}}
	least, err := gear.Undercut(g.AngleDeg, g.Shift)
	if err == nil && float64(g.Teeth) < least-1 {
		a.Lines = append(a.Lines, say("foot", fmt.Sprintf("undercut: fewer teeth than %s", fixed(least, 1))))
	}
	return a, nil
}

func gearSpan(v Values) (Answer, error) {
	g, err := v.gear("teeth", "shift")
	if err != nil {
		return Answer{}, err
	}
	if err := g.Check(); err != nil {
		return Answer{}, err
	}
	k := v.count("over")
	if !v.has("over") {
		k = g.SpanTeeth()
	}
	w, err := g.SpanOver(k)
	if err != nil {
		return Answer{}, err
	}
	a := Answer{Lines: []Line{value(fmt.Sprintf("span over %d teeth", k), w, "mm", 4).with("without backlash"), value("one tooth more adds", gear.BasePitch(g.ModuleMM, g.AngleDeg), "mm", 4)},
		Working: []string{"m·cos α·[(k - ½)π + z·inv α] + 2·x·m·sin α; two spans differ by the base pitch whatever the shift"}}
	if !v.has("measured") {
		return a, nil
	}
	thin, err := g.ThinningFromSpan(k, v.num("measured"))
	if err != nil {
		return Answer{}, err
	}
	a.Lines = append(a.Lines, value("teeth are thinner by", thin, "mm", 4).with("on the arc, of what was read; backlash and wear together"))
	shift, err := g.ShiftFromSpan(k, v.num("measured"))
	if err != nil {
		return Answer{}, err
	}
	a.Lines = append(a.Lines, value("or the profile shift is", shift, "modules", 3).with("if nothing is worn"))
	return a, nil
}

func gearPins(v Values) (Answer, error) {
	g, err := v.gear("teeth", "shift")
	if err != nil {
		return Answer{}, err
	}
	m, err := g.OverPins(v.num("pin"))
	if err != nil {
		return Answer{}, err
	}
	a := Answer{Lines: []Line{value("over pins", m, "mm", 4).with("without backlash")}, Working: []string{"base diameter/cos φ + pin, inv φ = inv α + pin/db - (π/2 - 2x·tan α)/z; times cos(90°/z) where z is odd"}}
	if v.has("measured") {
		a.Lines = append(a.Lines, value("reads under that by", m-v.num("measured"), "mm", 4))
	}
	return a, nil
}

func gearTooth(v Values) (Answer, error) {
	g, err := v.gear("teeth", "shift")
	if err != nil {
		return Answer{}, err
	}
	c, err := g.Chordal()
	if err != nil {
		return Answer{}, err
	}
	return Answer{Lines: []Line{value("set the height to", c.HeightMM, "mm", 4), value("thickness across", c.ThicknessMM, "mm", 4), value("half angle", c.HalfAngleDeg, "deg", 4)}}, nil
}

func gearPair(v Values) (Answer, error) {
	p, err := v.gears()
	if err != nil {
		return Answer{}, err
	}
	d, err := p.Design()
	if err != nil {
		return Answer{}, err
	}
	return Answer{Lines: []Line{value("centre distance", d.CentreMM, "mm", 3), value("working pressure angle", d.AngleDeg, "deg", 4),
		value("tip of the first", d.TipMM[0], "mm", 3), value("tip of the second", d.TipMM[1], "mm", 3),
		value("root of the first", d.RootMM[0], "mm", 3), value("root of the second", d.RootMM[1], "mm", 3),
		value("contact ratio", d.ContactRatio, "", 3)}}, nil
}

func backlash(v Values) (Answer, error) {
	p, err := v.gears()
	if err != nil {
		return Answer{}, err
	}
	m, err := p.At(gear.Built{CentreMM: v.num("centre"), TipMM: [2]float64{v.num("tip-a"), v.num("tip-b")}, ThinningMM: [2]float64{v.num("thin-a"), v.num("thin-b")}})
	if err != nil {
		return Answer{}, err
	}
	a := Answer{Lines: []Line{value("backlash on the working circle", m.BacklashMM, "mm", 4), value("as a feeler finds it", m.NormalMM, "mm", 4),
		value("working pressure angle", m.AngleDeg, "deg", 4), value("contact ratio", m.ContactRatio, "", 3)}}
	if least, most, err := gear.UsualBacklash(p.A.ModuleMM); err == nil {
		a.Lines = append(a.Lines, between("usual when new", least, most, "mm", 2).on("common practice, no source; never pass or fail"))
	}
	for _, c := range []struct {
		is    bool
		words string
	}{{m.BacklashMM < 0, "the pair binds at this distance"}, {m.ContactRatio < 1, "a tooth lets go before the next one takes: the drive is broken"}, {m.DigsIn, "a tip reaches below the mate's base circle and digs in"}} {
		if c.is {
			a.Cautions = append(a.Cautions, c.words)
		}
	}
	return a, nil
}

func hunting(v Values) (Answer, error) {
	h, err := gear.HuntingTooth(v.count("teeth-a"), v.count("teeth-b"))
	if err != nil {
		return Answer{}, err
	}
	words := "every tooth meets every other: a match mark keeps the timing, not the wear"
	if !h.Hunting {
		words = "each tooth wears into its few partners: put the pair back on its match marks"
	}
	return Answer{Lines: []Line{say("hunting tooth", yes(h.Hunting)), value("the same two teeth meet after", float64(h.TurnsA), "turns of the first", 0),
		value("and", float64(h.TurnsB), "turns of the second", 0), value("partners of a tooth", float64(h.Partners), "", 0), say("so", words)},
		Working: []string{fmt.Sprintf("least common multiple of the teeth is %d", h.Teeth)}}, nil
}
