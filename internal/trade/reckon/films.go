package reckon

import (
	"errors"
	"fmt"

	"matchmark/internal/trade/lubricant"
	"matchmark/internal/trade/oilfilm"
	"matchmark/internal/trade/quantity"
)

const (
	filmSource = "Raimondi and Boyd 1958, full round bearings, read between the points; Petroff"
	filmSure   = "for comparing, never for passing or failing: a steady load on a true bearing. At the firing stroke the real film is thicker"
)

func oilInputs() []Input {
	return []Input{plain("viscosity", "dynamic viscosity of the oil at the film; or give an oil and its temperature", "mPa·s"),
		text("oil", "grade of a usual oil, such as 15W-40 or 30, in place of viscosity"),
		ofDim("kv40", "viscosity of the oil at 40 °C, from its sheet; with kv100 in place of a grade", quantity.Viscosity, "mm²/s"),
		ofDim("kv100", "and at 100 °C", quantity.Viscosity, "mm²/s"), plain("density", "density at 15 °C; left out, 0.88 or that of the usual oil", "g/cm³"),
		ofDim("temperature", "temperature of the film; needed with an oil", quantity.Temperature, "°C")}
}

func journalInputs() []Input {
	return []Input{length("diameter", "journal").need(), length("length", "bearing surface under load; a groove in the middle halves it").need(),
		length("clearance", "bore less journal, across the diameter").need()}
}

func filmTopics() []Topic {
	duty := []Input{{Key: "speed", Ask: "speeds, idle first", Dim: quantity.Speed, Unit: "rpm", Many: true, Needed: true},
		{Key: "load", Ask: "steady loads, one for each speed", Dim: quantity.Force, Unit: "N", Many: true, Needed: true}}
	return []Topic{
		{Name: "oil-film", Title: "how thick the oil is under a journal, against the roughness, with its friction", Group: bearings,
			Inputs: withAll(journalInputs(), duty, oilInputs(), []Input{ofDim("ra-journal", "finish of the journal", quantity.Roughness, "µm"), ofDim("ra-bearing", "finish of the bearing", quantity.Roughness, "µm")}),
			Source: filmSource, Sure: filmSure, Do: oilFilm, Example: []string{"diameter=50", "length=25", "clearance=0.05", "speed=700; 2400", "load=800; 3000", "oil=15W-40", "temperature=90", "ra-journal=0.2", "ra-bearing=0.4"}},
		{Name: "clearance-cost", Title: "what more clearance costs in oil film", Group: bearings,
			Inputs: withAll(journalInputs(), duty, oilInputs(), []Input{length("added", "clearance more than that, across the diameter").deflt("0.02 mm")}),
			Source: filmSource, Sure: filmSure, Do: clearanceCost, Example: []string{"diameter=50", "length=25", "clearance=0.05", "speed=2400", "load=3000", "viscosity=12", "added=0.02 mm"}},
	}
}

// viscosity is the dynamic viscosity in mPa·s that was given, or that of an
// oil at a temperature.
func (v Values) viscosity() (mpas float64, working string, err error) {
	oil := v.has("oil") || v.has("kv40") || v.has("kv100")
	switch {
	case v.has("viscosity") && oil:
		return 0, "", v.wrong("viscosity", "either a viscosity or an oil was wanted, not both")
	case v.has("viscosity"):
		return v.num("viscosity"), fmt.Sprintf("viscosity %g mPa·s as typed", v.num("viscosity")), nil
	case !oil || !v.has("temperature"):
		return 0, "", MissingError{Topic: v.Topic, Inputs: []Input{plain("viscosity", "or oil, or kv40 and kv100, with the temperature of the film", "mPa·s")}}
	}
	thin, density, name, err := v.oil()
	if err != nil {
		return 0, "", err
	}
	c := v.num("temperature")
	kv, err := thin.At(c)
	if err != nil {
		return 0, "", err
	}
	there, err := lubricant.Density(density, c)
	if err != nil {
		return 0, "", err
	}
	mpas, err = lubricant.Dynamic(kv.MM2S, there)
	return mpas, fmt.Sprintf("%s at %g °C: %.2f mm²/s × %.3f g/cm³ = %.2f mPa·s (ASTM D341)", name, c, kv.MM2S, there, mpas), err
}

// oil is how an oil thins with its density: of a usual grade, or by two
// figures of its sheet.
func (v Values) oil() (lubricant.Thinning, float64, string, error) {
	density := 0.88
	if v.has("density") {
		density = v.num("density")
	}
	if !v.has("oil") {
		if !v.has("kv40") || !v.has("kv100") {
			return lubricant.Thinning{}, 0, "", MissingError{Topic: v.Topic, Inputs: oilInputs()[2:4]}
		}
		thin, err := lubricant.Pair(v.num("kv40"), v.num("kv100"))
		return thin, density, fmt.Sprintf("oil of %g and %g mm²/s", v.num("kv40"), v.num("kv100")), err
	}
	t, ok := lubricant.TypicalOf(v.word("oil"))
	if !ok {
		var names []string
		for _, k := range lubricant.Typicals() {
			names = append(names, k.Grade)
		}
		return lubricant.Thinning{}, 0, "", v.wrong("oil", "one of these usual oils, or kv40 and kv100 of the one in hand, was wanted: "+join(names, ", "))
	}
	if !v.has("density") {
		density = t.Density15
	}
	thin, err := lubricant.Pair(t.KV40, t.KV100)
	return thin, density, "a usual " + t.Grade, err
}

// usualOil marks an answer that took the figures of a usual oil.
func (v Values) usualOil() []string {
	if !v.has("oil") {
		return nil
	}
	return []string{"the figures of a usual oil were taken, common practice without a source; those of the can in hand replace them"}
}

func (v Values) journal() oilfilm.Journal {
	return oilfilm.Journal{DiameterMM: v.num("diameter"), LengthMM: v.num("length"), ClearanceMM: v.num("clearance")}
}

func (v Values) duties(mpas float64) ([]oilfilm.Duty, error) {
	speeds, loads := v.nums("speed"), v.nums("load")
	if len(speeds) != len(loads) {
		return nil, v.wrong("load", fmt.Sprintf("one load for each of the %d speeds was wanted", len(speeds)))
	}
	var out []oilfilm.Duty
	for i := range speeds {
		out = append(out, oilfilm.Duty{RPM: speeds[i], LoadN: loads[i], ViscosityMPaS: mpas})
	}
	return out, nil
}

func oilFilm(v Values) (Answer, error) {
	mpas, working, err := v.viscosity()
	if err != nil {
		return Answer{}, err
	}
	duties, err := v.duties(mpas)
	if err != nil {
		return Answer{}, err
	}
	a := Answer{Working: []string{working, "clearance is across the diameter; the formulas take half of it"}, Marked: v.usualOil()}
	for _, d := range duties {
		at := fmt.Sprintf("at %g rpm, %g N: ", d.RPM, d.LoadN)
		f, err := v.journal().Film(d)
		var beyond oilfilm.BeyondError
		if errors.As(err, &beyond) {
			a.Lines = append(a.Lines, say(at+"least film", beyondWords(beyond)))
			a.Marked = append(a.Marked, at+"outside the table; no figure is given past its end")
			continue
		}
		if err != nil {
			return Answer{}, err
		}
		floor, err := v.journal().Petroff(d)
		if err != nil {
			return Answer{}, err
		}
		a.Lines = append(a.Lines, value(at+"least film", f.LeastUM, "µm", 2), value(at+"friction costs", f.LossW, "W", 1),
			value(at+"friction", f.Friction, "", 5).with(fixed(floor, 5)+" by Petroff, which is the floor"))
		a.Working = append(a.Working, fmt.Sprintf("%sS = %.4f, eccentricity %.3f, mean pressure %.2f MPa, %s", at, f.S, f.Eccentricity, f.MeanMPa, f.Method))
		if err := v.rough(&a, at, f.LeastUM); err != nil {
			return Answer{}, err
		}
	}
	least, err := oilfilm.Trumpler(v.num("diameter"))
	if err != nil {
		return Answer{}, err
	}
	a.Lines = append(a.Lines, value("a designer of new bearings asks for", least, "µm", 1).on("Shigley 12-7 after Trumpler, from memory; a rule of design, no limit of wear"))
	return a, nil
}

func beyondWords(b oilfilm.BeyondError) string {
	side := "thinner"
	if b.Thick() {
		side = "thicker"
	}
	return fmt.Sprintf("%s than %.1f µm, where the table ends", side, b.EndOfTable*b.ClearUM)
}

// rough holds a film against the finish of both surfaces, where it was given.
func (v Values) rough(a *Answer, at string, leastUM float64) error {
	if !v.has("ra-journal") && !v.has("ra-bearing") {
		return nil
	}
	if !v.has("ra-journal") || !v.has("ra-bearing") {
		key := "ra-journal"
		if v.has("ra-bearing") {
			key = "ra-bearing"
		}
		return v.wrong(key, "the finish of journal and bearing were wanted together")
	}
	m, err := oilfilm.Roughness{JournalUM: v.num("ra-journal"), BearingUM: v.num("ra-bearing")}.Over(leastUM)
	if err != nil {
		return err
	}
	a.Lines = append(a.Lines, value(at+"film over roughness", m.Lambda, "", 2).with(string(m.Regime)).on(m.Source))
	return nil
}

func clearanceCost(v Values) (Answer, error) {
	mpas, working, err := v.viscosity()
	if err != nil {
		return Answer{}, err
	}
	duties, err := v.duties(mpas)
	if err != nil {
		return Answer{}, err
	}
	a := Answer{Working: []string{working}, Marked: v.usualOil()}
	for _, d := range duties {
		c, err := oilfilm.Cost(v.journal(), d, v.num("added"))
		if err != nil {
			return Answer{}, err
		}
		at := fmt.Sprintf("at %g rpm, %g N: ", d.RPM, d.LoadN)
		a.Lines = append(a.Lines, value(at+"film before", c.Before.LeastUM, "µm", 2), value(at+"film after", c.After.LeastUM, "µm", 2),
			value(at+"film lost", c.LostUM, "µm", 2).with(fixed(100*c.LostShare, 0)+" %"), value(at+"oil leaks", c.LeakTimes, "times as much", 2).on("cube of the clearance, textbook"))
	}
	return a, nil
}
