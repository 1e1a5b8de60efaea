package reckon

import (
	"fmt"

	"matchmark/internal/trade/fit"
	"matchmark/internal/trade/quantity"
)

const (
	fits      = "Fits"
	fitSource = "ISO 286-1:2010 tables 1 to 5"
)

func fitTopics() []Topic {
	elastic := []string{"steel", "cast iron", "aluminium", "bronze"}
	press := []Input{length("diameter", "seat").need(), length("outer", "outside of the hub").need(), length("bore", "bore of the shaft; 0 for a solid one").deflt("0"),
		length("length", "length of the seat").need(), choice("hub", "metal of the hub", elastic...).deflt("steel"), choice("shaft", "metal of the shaft", elastic...).deflt("steel"),
		choice("state", "of the seat", "dry", "oiled").deflt("oiled"),
		ofDim("tight", "interference across the diameter; or give a fit", quantity.Length, "mm"), text("fit", "such as 50 H7/s6, in place of tight")}
	return []Topic{
		{Name: "limits", Title: "limits of a size with its class", Group: fits, Inputs: []Input{text("size", "size and class: 52H7, 2 in h8").need()},
			Source: fitSource, Sure: "as the table; an old drawing may follow another system", Do: limits, Example: []string{"size=52H7"}},
		{Name: "fit", Title: "what a hole and a shaft leave between them", Group: fits, Inputs: []Input{text("fit", "such as 52 H7/k6").need()},
			Source: fitSource, Sure: "as the table; a worn part is measured", Do: fitOf, Example: []string{"fit=52 H7/k6"}},
		{Name: "press", Title: "pressure, force and torque of a press fit, as a range", Group: fits, Inputs: press,
			Source: "Lamé, Shigley 3-56 and 3-57; friction common practice, no source", Sure: "a range: friction is never known to a point; roughness that is pressed flat loses a few µm", Do: pressFit,
			Example: []string{"diameter=40", "outer=60", "length=35", "tight=0.04", "hub=cast iron"}},
		{Name: "shrink", Title: "how hot a ring is made to drop on", Group: fits,
			Inputs: []Input{choice("part", "what is heated", string(fit.Plain), string(fit.HardGear), string(fit.Bearing)).need(), length("diameter", "seat").need(),
				length("tight", "most interference that may be met").need(), length("gap", "room to drop on without sticking").deflt(fixed(fit.DefaultGap, 2)),
				choice("ring", "metal of the ring", metals()...).deflt("steel"), choice("shaft", "metal of the shaft", metals()...).deflt("steel"),
				ofDim("room", "temperature of the shop", quantity.Temperature, "°C").deflt("20 °C")},
			Source: "linear expansion, ISO 1; ceilings common practice, no source", Sure: "within some kelvin; coefficients differ by source", Do: shrink,
			Example: []string{"part=hardened gear or ring gear", "diameter=280", "tight=0.35"}},
		{Name: "stack", Title: "what a chain of toleranced sizes adds up to", Group: fits,
			Inputs: []Input{text("links", "sizes with their sign and tolerance: +40±0.10; -25±0.05; or +40 +0.2 -0.1").many().need()},
			Source: "worst case and root of the sum of squares, Scholz 1995; Bender 1.5 from memory", Sure: "for parts made new; for a handful of old ones add the measured sizes", Do: stack,
			Example: []string{"links=+40±0.10; -25±0.05; -2±0.03; -10±0.05"}},
		{Name: "pairing", Title: "which shaft goes in which hole", Group: fits,
			Inputs: []Input{{Key: "holes", Ask: "measured holes", Dim: quantity.Length, Unit: "mm", Many: true, Needed: true}, {Key: "shafts", Ask: "measured shafts, as many or more", Dim: quantity.Length, Unit: "mm", Many: true, Needed: true},
				length("clearance", "clearance wanted; or give low and high"), length("low", "least clearance that will do"), length("high", "most clearance that will do"),
				length("u", "standard uncertainty of each reading, used with low and high").deflt("0.005 mm")},
			Source: "assignment, exact (Kuhn, Munkres); chances by JCGM 106:2012", Sure: "exact for what was measured", Do: pairing,
			Example: []string{"holes=80.02;80.03;80.05", "shafts=79.93;79.96;79.95", "clearance=0.08"}},
	}
}

func limits(v Values) (Answer, error) {
	s, err := fit.Limits(v.word("size"))
	if err != nil {
		return Answer{}, err
	}
	return Answer{Source: s.Source, Marked: remembered(s), Lines: []Line{between("limits", s.Min(), s.Max(), "mm", 4), between("deviations", s.LowerUM, s.UpperUM, "µm", 1).on(string(s.Basis))}}, nil
}

// remembered marks limits that were recalled.
func remembered(sizes ...fit.Size) []string {
	var out []string
	for _, s := range sizes {
		if s.Basis == fit.Memory {
			out = append(out, s.Class()+" is from memory")
		}
	}
	return out
}

func fitOf(v Values) (Answer, error) {
	f, err := fit.ParseFit(v.word("fit"))
	if err != nil {
		return Answer{}, err
	}
	a := Answer{Marked: remembered(f.Hole, f.Shaft), Lines: []Line{say("kind", string(f.Kind())),
		between("hole", f.Hole.Min(), f.Hole.Max(), "mm", 4).on(string(f.Hole.Basis)), between("shaft", f.Shaft.Min(), f.Shaft.Max(), "mm", 4).on(string(f.Shaft.Basis)),
		between("clearance", f.MinClearanceUM(), f.MaxClearanceUM(), "µm", 1).with("below zero is interference")}}
	return a, nil
}

func pairing(v Values) (Answer, error) {
	c, shafts, err := v.paired()
	if err != nil {
		return Answer{}, err
	}
	holes := v.nums("holes")
	a := Answer{Working: []string{"bring bores and shafts to one temperature before measuring"}}
	for i, to := range c.ShaftOf {
		l := value(fmt.Sprintf("hole %d (%g)", i+1, holes[i]), c.Clearance[i], "mm clearance", 4).with(fmt.Sprintf("takes shaft %d (%g)", to+1, shafts[to]))
		if c.Chance != nil {
			l.Words += ", " + percent(c.Chance[i])
		}
		a.Lines = append(a.Lines, l)
	}
	return a, nil
}
