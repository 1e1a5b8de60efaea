package reckon

import (
	"errors"
	"fmt"
	"math"
	"strings"

	"matchmark/internal/trade/metrology"
	"matchmark/internal/trade/quantity"
	"matchmark/internal/trade/shim"
)

func injectorShim(v Values) (Answer, error) {
	builds, err := v.trials("trials", quantity.Pressure, "bar", v.num("u"))
	if err != nil {
		return Answer{}, err
	}
	learned, err := shim.LearnInfluence("opening pressure", builds, nil)
	if err != nil {
		return Answer{}, err
	}
	if !(learned.PerMM[0] > 0) {
		return Answer{}, v.wrong("trials", "a pressure that rises with the pack was wanted")
	}
	pack := learned.Ref[0] + (v.num("target")-learned.Base)/learned.PerMM[0]
	if !(pack >= 0) || !(v.num("target") > 0) {
		return Answer{}, v.wrong("target", "a pressure that a pack of 0 or more reaches was wanted")
	}
	at := learned.At([]float64{pack})
	a := Answer{Lines: []Line{value("pack wanted", pack, "mm", 3), value("each 0.05 mm moves it by", learned.PerMM[0]*0.05*10, "bar", 1),
		value("standard uncertainty there", at.U*10, "bar", 1)},
		Working:  []string{fmt.Sprintf("pack = %.3f + (wanted - read)/rate, rate %.1f bar a mm from the trials", learned.Ref[0], learned.PerMM[0]*10)},
		Cautions: []string{"Spray goes through skin: keep hands out of it, test into a closed vessel, wear a shield; a puncture is a matter for a hospital at once."}}
	if outside(pack, builds) {
		a.Marked = []string{"the pack lies outside the trial builds: the line is carried on past what was read"}
	}
	return a, nil
}

func outside(pack float64, builds []shim.Build) bool {
	low, high := builds[0].Packs[0], builds[0].Packs[0]
	for _, b := range builds {
		low, high = min(low, b.Packs[0]), max(high, b.Packs[0])
	}
	return pack < low || pack > high
}

// trials reads builds typed as packs and a reading, 0.50/1.20/0.18, the
// reading last.
func (v Values) trials(key string, dim quantity.Dimension, unit string, u float64) ([]shim.Build, error) {
	const want = "packs in mm and the reading, parted by /, the reading last, were wanted"
	var out []shim.Build
	for _, item := range v.words(key) {
		fields := strings.Split(item, "/")
		if len(fields) < 2 {
			return nil, v.wrong(key, want)
		}
		var b shim.Build
		for _, f := range fields[:len(fields)-1] {
			mm, err := v.part(key, f, quantity.Length, "mm", want)
			if err != nil {
				return nil, err
			}
			b.Packs = append(b.Packs, mm)
		}
		read, err := v.part(key, fields[len(fields)-1], dim, unit, want)
		if err != nil {
			return nil, err
		}
		b.Reading = metrology.Estimate{Value: read, U: u}
		out = append(out, b)
	}
	return out, nil
}

func influenceTopic() Topic {
	return Topic{Name: "shim-influence", Title: "how a reading answers to the packs, learned from trial builds", Group: shims,
		Inputs: []Input{text("trials", "packs in mm and the reading last: 0.50/1.20/0.18; first as it stood, then one with each position changed").many().need(),
			length("u", "standard uncertainty of a reading").deflt("0.01 mm")},
		Source: "least squares over the trial builds, GUM 5.2.2; no formula of the gears is assumed", Sure: "within the packs that were tried; a spare trial build shows whether the line holds", Do: shimInfluence,
		Example: []string{"trials=0.50/1.20/0.18; 0.60/1.20/0.21; 0.50/1.30/0.11"}}
}

func shimInfluence(v Values) (Answer, error) {
	builds, err := v.trials("trials", quantity.Length, "mm", v.num("u"))
	if err != nil {
		return Answer{}, err
	}
	f, err := shim.LearnInfluence("the reading", builds, nil)
	if err != nil {
		return Answer{}, err
	}
	var a Answer
	for i, per := range f.PerMM {
		a.Lines = append(a.Lines, value(fmt.Sprintf("position %d moves it by", i+1), per, "mm for each mm", 3).with("± "+fixed(2*math.Sqrt(max(0, f.Cov[i+1][i+1])), 3)+" at two standard uncertainties"))
	}
	a.Lines = append(a.Lines, value("spare trial builds", float64(f.Spare), "", 0))
	if f.Spare == 0 {
		a.Marked = append(a.Marked, "no spare trial build: whether the reading answers in a straight line was not tested")
	}
	if f.Crooked {
		a.Marked = append(a.Marked, "the builds do not lie on a straight line: go in small steps and learn again")
	}
	return a, nil
}

func coupledTopic(stock Input) Topic {
	return Topic{Name: "shim-coupled", Title: "packs at several positions that share one drawer and move the same readings", Group: shims,
		Inputs: []Input{text("positions", "places that take a pack, as pinion; crown wheel").many().need(), text("readings", "what is read, as backlash; preload").many().need(),
			text("trials", "each build: packs in mm, then the readings in mm, parted by /").many().need(),
			{Key: "low", Ask: "least that will do, one for each reading", Dim: quantity.Length, Unit: "mm", Many: true, Needed: true},
			{Key: "high", Ask: "most that will do, one for each reading", Dim: quantity.Length, Unit: "mm", Many: true, Needed: true},
			stock.need(), counted("most", "most shims at a position").deflt("4"), length("u", "standard uncertainty of a reading").deflt("0.01 mm"),
			length("shim-u", "standard uncertainty of each shim").deflt("0.003 mm"),
			choice("aim", "which of the sets that land is best", string(shim.Fewest), string(shim.Surest)).deflt(string(shim.Fewest))},
		Source: "influence learned from the trial builds; exact search, our own", Sure: "a pick marked as trial is built, read and learned from before it is closed for good", Do: shimCoupled,
		Example: []string{"positions=pinion; crown wheel", "readings=backlash; preload", "trials=0.50/1.20/0.18/0.02; 0.60/1.20/0.21/0.02; 0.50/1.30/0.11/0.12",
			"low=0.13;0.00", "high=0.18;0.06", "stock=0.05x4; 0.1x6; 0.2x4; 0.5x3; 1.0x2"}}
}

// coupledTrials turns each build's list of packs and readings into one list of
// builds for each reading.
func (v Values) coupledTrials(positions, readings int) ([][]shim.Build, error) {
	out := make([][]shim.Build, readings)
	for _, item := range v.words("trials") {
		fields := strings.Split(item, "/")
		want := fmt.Sprintf("%d packs and %d readings in mm, parted by /, were wanted for each build", positions, readings)
		if len(fields) != positions+readings {
			return nil, v.wrong("trials", want)
		}
		var mm []float64
		for _, f := range fields {
			x, err := v.part("trials", f, quantity.Length, "mm", want)
			if err != nil {
				return nil, err
			}
			mm = append(mm, x)
		}
		for k := range out {
			out[k] = append(out[k], shim.Build{Packs: mm[:positions], Reading: metrology.Estimate{Value: mm[positions+k], U: v.num("u")}})
		}
	}
	return out, nil
}

func (v Values) coupled() (shim.Coupled, error) {
	stock, err := v.stock()
	if err != nil {
		return shim.Coupled{}, err
	}
	c := shim.Coupled{Stock: stock, ShimU: v.num("shim-u"), Aim: shim.Aim(v.word("aim")), Show: 5}
	if n := v.num("most"); n < 1 || n > 8 {
		return c, v.wrong("most", "1 to 8 shims were wanted")
	}
	for _, name := range v.words("positions") {
		c.Positions = append(c.Positions, shim.Position{Name: name, MaxShims: v.count("most")})
	}
	names := v.words("readings")
	for _, key := range []string{"low", "high"} {
		if len(v.nums(key)) != len(names) {
			return c, v.wrong(key, fmt.Sprintf("one figure for each of the %d readings was wanted", len(names)))
		}
	}
	builds, err := v.coupledTrials(len(c.Positions), len(names))
	if err != nil {
		return c, err
	}
	for k, name := range names {
		f, err := shim.LearnInfluence(name, builds[k], nil)
		if err != nil {
			return c, err
		}
		c.Outcomes = append(c.Outcomes, shim.Outcome{Influence: f, Lo: v.nums("low")[k], Hi: v.nums("high")[k]})
	}
	return c, nil
}

func shimCoupled(v Values) (Answer, error) {
	c, err := v.coupled()
	if err != nil {
		return Answer{}, err
	}
	sets, err := c.Solve()
	var nearest shim.NearestError
	if errors.As(err, &nearest) {
		return Answer{Lines: []Line{say("packs", "no set lands: "+err.Error())}}, nil
	}
	if err != nil {
		return Answer{}, err
	}
	a := Answer{Cautions: []string{"Read again with the packs in; contact pattern and backlash are judged together on the built gears."}}
	for i, s := range sets.List {
		a.Lines = append(a.Lines, setLines(fmt.Sprintf("set %d: ", i+1), c, s)...)
	}
	a.Lines = append(a.Lines, value("sets that land", float64(sets.Found), "", 0))
	if sets.Incomplete != "" {
		a.Marked = append(a.Marked, "the search is incomplete: "+sets.Incomplete)
	}
	return a, nil
}

// setLines says one set of packs: each pack, each reading to expect, and
// whether it is a trial still.
func setLines(set string, c shim.Coupled, s shim.Set) []Line {
	var out []Line
	for i, p := range s.Packs {
		out = append(out, value(set+c.Positions[i].Name, p.MM(), "mm", 3).with(p.String()))
	}
	for i, r := range s.Readings {
		out = append(out, value(set+c.Outcomes[i].Influence.Name+" to expect", r.Value, "mm", 3).with(percent(s.Chances[i])+" to land"))
	}
	if s.Trial {
		out = append(out, say(set+"so", "build it as a trial, read again and learn from it"))
	}
	return out
}
