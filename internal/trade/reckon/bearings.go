package reckon

import (
	"fmt"

	"matchmark/internal/trade/bearing"
	"matchmark/internal/trade/fit"
	"matchmark/internal/trade/quantity"
)

const bearings = "Bearings"

func bearingTopics() []Topic {
	kind := choice("kind", "what rolls", string(bearing.Ball), string(bearing.Roller)).deflt(string(bearing.Ball))
	ring := choice("ring", "which ring", string(bearing.Inner), string(bearing.Outer))
	return []Topic{
		{Name: "bearing-orders", Title: "what a rolling bearing is heard at when a part of it is hurt", Group: bearings,
			Inputs: []Input{counted("elements", "balls or rollers of one row, counted").need(), length("ball", "diameter of a ball, or of a roller at its middle").need(),
				length("pitch", "diameter of the circle of their centres").need(), ofDim("angle", "contact angle; 0 for a deep groove", quantity.Angle, "deg").deflt("0"),
				ring.deflt(string(bearing.Inner)), ofDim("speed", "speed of the turning ring", quantity.Speed, "rpm")},
			Source: "rolling without slip, textbook kinematics", Sure: "up to 2 % high: a real bearing slips, the cage most. Another make has another number of balls: count them", Do: bearingOrders,
			Example: []string{"elements=9", "ball=7.94", "pitch=39.04", "speed=1750 rpm"}},
		{Name: "bearing-life", Title: "how long nine bearings of ten last", Group: bearings,
			Inputs: []Input{kind, ofDim("rating", "dynamic rating, from the list of the bearing", quantity.Force, "kN").need(),
				ofDim("radial", "radial load", quantity.Force, "kN").need(), ofDim("axial", "axial load", quantity.Force, "kN").deflt("0"),
				plain("e", "e from the list; needed with an axial load", ""), plain("x", "X from the list", ""), plain("y", "Y from the list", ""),
				ofDim("speed", "speed", quantity.Speed, "rpm").need(), ofDim("reliability", "share that is to last longer: 90, 95, 96, 97, 98 or 99 %", quantity.Ratio, "%").deflt("90 %")},
			Source: "ISO 281 basic rating life; factor for reliability by ISO 281:2007, from memory", Sure: "of many, never of one; dirt and water shorten it many times over", Do: bearingLife,
			Example: []string{"rating=14 kN", "radial=2 kN", "speed=1500 rpm"}},
		{Name: "bearing-seat", Title: "which fit the seat of a bearing ring is made to", Group: bearings,
			Inputs: []Input{ring.need(), kind, choice("load", "how the load stands to this ring", string(bearing.Rotating), string(bearing.Stationary), string(bearing.Uncertain)).need(),
				choice("weight", "load against the rating: light below 0.06, heavy above 0.13", string(bearing.Light), string(bearing.Normal), string(bearing.Heavy)).deflt(string(bearing.Normal)),
				length("size", "bore for the inner ring, outside for the outer").need(), yesNo("slides", "an inner ring that must move along the shaft"), yesNo("split", "the housing is in two halves")},
			Source: "ISO 286 limits, ISO 492 Normal class, published fits tables", Sure: "for a seat made new; one that has held is copied", Do: bearingSeat,
			Example: []string{"ring=inner ring", "load=turns round the ring", "size=35"}},
		{Name: "bearing-play", Title: "which clearance group leaves some play when mounted and warm", Group: bearings,
			Inputs: []Input{kind, length("bore", "bore").need(), length("outside", "outside diameter").need(),
				ofDim("inner-least", "least interference of the inner ring", quantity.Length, "µm").deflt("0"), ofDim("inner-most", "most interference of the inner ring", quantity.Length, "µm").need(),
				ofDim("outer-least", "least interference of the outer ring", quantity.Length, "µm").deflt("0"), ofDim("outer-most", "most interference of the outer ring", quantity.Length, "µm").deflt("0"),
				ofDim("hotter", "inner ring hotter than the outer; 5 to 10 in a gearbox", quantity.TempDifference, "K").deflt("10 K")},
			Source: "ISO 5753-1; interference taken at 0.7 to 0.9, from memory", Sure: "at the worst of all limits; a bearing marked C3 is replaced by C3 whatever this says", Do: bearingPlay,
			Example: []string{"bore=35", "outside=72", "inner-least=2", "inner-most=30"}},
		{Name: "bearing-heat", Title: "how hot to make a bearing so that it drops on", Group: bearings,
			Inputs: []Input{length("bore", "bore").need(), ofDim("tight", "most interference that may be met", quantity.Length, "µm").need(),
				ofDim("room", "temperature of the shop", quantity.Temperature, "°C").deflt("20 °C"), yesNo("sealed", "sealed, or filled with its own grease")},
			Source: "linear expansion; ceilings common practice, no source", Sure: "within some kelvin", Do: bearingHeat, Example: []string{"bore=35", "tight=30 µm"}},
	}
}

func bearingOrders(v Values) (Answer, error) {
	o, err := bearing.Inside{Elements: v.count("elements"), BallMM: v.num("ball"), PitchMM: v.num("pitch"), AngleDeg: v.num("angle")}.Orders(bearing.Ring(v.word("ring")))
	if err != nil {
		return Answer{}, err
	}
	unit, digits := "times a turn", 4
	if v.has("speed") {
		if o, err = o.Hz(v.num("speed")); err != nil {
			return Answer{}, err
		}
		unit, digits = "Hz", 2
	}
	return Answer{Lines: []Line{value("inner ring", o.Inner, unit, digits), value("outer ring", o.Outer, unit, digits), value("cage", o.Cage, unit, digits),
		value("ball, one race", o.Spin, unit, digits), value("ball, both races", o.BothRaces, unit, digits).with("the same hurt, struck on either race")},
		Working: []string{"g = ball/pitch·cos angle; inner n½(1 + g), outer n½(1 - g), ball pitch/(2·ball)·(1 - g²)"}}, nil
}

func bearingLife(v Values) (Answer, error) {
	kind, load := bearing.Kind(v.word("kind")), v.num("radial")
	if v.num("axial") != 0 {
		if !v.has("e") || !v.has("x") || !v.has("y") {
			return Answer{}, v.wrong("axial", "e, x and y from the list of the bearing were wanted beside an axial load")
		}
		var err error
		if load, err = bearing.Equivalent(load, v.num("axial"), bearing.Factors{E: v.num("e"), X: v.num("x"), Y: v.num("y")}); err != nil {
			return Answer{}, err
		}
	}
	l, err := bearing.BasicLife(kind, v.num("rating"), load, v.num("speed"))
	if err != nil {
		return Answer{}, err
	}
	a1, err := bearing.Reliability(100*v.num("reliability"), bearing.ISO281of2007)
	if err != nil {
		return Answer{}, err
	}
	a := Answer{Lines: []Line{value("life", l.MillionTurns, "million turns", 2), value("life", l.Hours, "h", 0), value("equivalent load", load/1000, "kN", 3)},
		Working: []string{fmt.Sprintf("(rating/load)^p = (%g/%g)^p, p 3 for balls, 10/3 for rollers", v.num("rating")/1000, load/1000)}}
	if a1 != 1 {
		a.Lines = append(a.Lines, value(fmt.Sprintf("life that %.0f %% reach", 100*v.num("reliability")), a1*l.Hours, "h", 0))
		a.Marked = []string{"factor for reliability from memory; the edition of 1990 has lower ones"}
	}
	if l.Heavy {
		a.Marked = append(a.Marked, "the load is above half the rating: the formula promises too much")
	}
	return a, nil
}

func bearingSeat(v Values) (Answer, error) {
	a, err := bearing.Advise(bearing.Seating{Ring: bearing.Ring(v.word("ring")), Kind: bearing.Kind(v.word("kind")), Load: bearing.Load(v.word("load")),
		Weight: bearing.Weight(v.word("weight")), SizeMM: v.num("size"), Slides: v.is("slides"), Split: v.is("split")})
	if err != nil {
		return Answer{}, err
	}
	out := Answer{Source: a.Source, Lines: []Line{say("make the seat", a.Seat.String()), between("limits of the seat", a.Seat.Min(), a.Seat.Max(), "mm", 4),
		between("interference", a.LeastTightUM, a.MostTightUM, "µm", 1).with("below zero is clearance"), say("because", a.Why)}}
	if a.Seat.Basis == fit.Memory {
		out.Marked = []string{"limits of " + a.Class + " are from memory"}
	}
	return out, nil
}

func bearingPlay(v Values) (Answer, error) {
	um := func(key string) float64 { return 1000 * v.num(key) }
	m := bearing.Mounted{Kind: bearing.Kind(v.word("kind")), BoreMM: v.num("bore"), OutsideMM: v.num("outside"), HotterK: v.num("hotter"),
		InnerTightUM: fit.Band{Lo: um("inner-least"), Hi: um("inner-most")}, OuterTightUM: fit.Band{Lo: um("outer-least"), Hi: um("outer-most")}}
	c, err := m.Choose()
	if err != nil {
		return Answer{}, err
	}
	a := Answer{Lines: []Line{say("group", string(c.Group)+": "+c.Say)}}
	for _, g := range bearing.Groups() {
		free, err := bearing.Play(m.Kind, m.BoreMM, g)
		if err != nil {
			return Answer{}, err
		}
		left, err := m.Left(g)
		if err != nil {
			return Answer{}, err
		}
		a.Lines = append(a.Lines, between(string(g)+" lying free", free.Lo, free.Hi, "µm", 0), between(string(g)+" mounted and warm", left.Lo, left.Hi, "µm", 1))
	}
	return a, nil
}

func bearingHeat(v Values) (Answer, error) {
	h, err := bearing.Mount{BoreMM: v.num("bore"), TightUM: 1000 * v.num("tight"), RoomC: v.num("room"), Sealed: v.is("sealed")}.Heat()
	if err != nil {
		return Answer{}, err
	}
	return heatingAnswer(h), nil
}

// heatingAnswer says how a ring is heated, whatever it is.
func heatingAnswer(h fit.Heating) Answer {
	a := Answer{Lines: []Line{value("heat the ring to", h.Celsius, "°C", 0), value("hotter than the shaft by", h.RiseK, "K", 0),
		say("heat alone is enough", yes(h.Enough)), say("how", h.Advice), value("ceiling", h.Ceiling.Celsius, "°C", 0).on(h.Ceiling.Source)},
		Cautions: []string{"Hot parts look cold: gloves and tongs. No flame on a bearing, and no oil bath near a flame."}}
	if !h.Enough {
		a.Lines[0] = value("heat alone would need", h.Celsius, "°C", 0)
		a.Cautions = append(a.Cautions, "Dry ice burns skin and takes the air of a closed room.")
	}
	return a
}
