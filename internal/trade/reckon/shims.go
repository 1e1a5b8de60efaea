package reckon

import (
	"errors"
	"fmt"
	"strings"

	"matchmark/internal/trade/metrology"
	"matchmark/internal/trade/quantity"
	"matchmark/internal/trade/shim"
)

const (
	shims      = "Shims"
	shimSource = "fitted, measured and wanted float of the trial build; exact search over the stock, our own"
)

func shimTopics() []Topic {
	trial := []Input{length("fitted", "pack in the trial build").need(),
		length("measured", "float read with it; below zero is preload").need(),
		length("target", "float wanted; below zero is preload").need(),
		choice("sense", "what a thicker pack does to the float: ask the part, both occur on one machine", string(shim.Closes), string(shim.Opens)).need(),
		length("low", "least float that will do; left out, the target less the slack"), length("high", "most float that will do; left out, the target and the slack"),
		length("slack", "how far off the target will do, where low and high are left out").deflt("0.05 mm"),
		length("u", "standard uncertainty of the float read").deflt("0.01 mm"), length("shim-u", "standard uncertainty of each shim").deflt("0.003 mm")}
	stock := text("stock", "shims in the drawer as thickness x pieces, 0.1x6; 0.25x2").many()
	return []Topic{
		{Name: "shim-pack", Title: "which shims of the drawer bring a float to what is wanted", Group: shims,
			Inputs: append(trial, stock.need(), choice("aim", "which of the packs that do is best", string(shim.Fewest), string(shim.Nearest), string(shim.Surest)).deflt(string(shim.Fewest)),
				counted("most", "most shims in the pack; left out, no limit")),
			Source: shimSource, Sure: "the packs are exact for the thicknesses typed; the chance holds for the uncertainties typed", Do: shimPack,
			Example: []string{"fitted=0.5", "measured=0.42", "target=0.15", "sense=closes", "stock=0.1;0.15;0.2;0.3;0.5;1.0", "most=3"}},
		{Name: "shim-odds", Title: "how likely a pack is to land the float in its limits", Group: shims,
			Inputs: append(trial, length("pack", "pack that is to go in").need(), counted("pieces", "shims in it").deflt("1")),
			Source: "JCGM 106:2012 clause 7; GUM 5.1.2", Sure: "as sure as the uncertainties typed", Do: shimOdds,
			Example: []string{"fitted=0.85", "measured=0.14", "target=-0.03", "sense=opens", "pack=0.70", "pieces=3", "slack=0.03"}},
		{Name: "valve-shim", Title: "valve clearance by shim: which thickness to fit", Group: shims,
			Inputs: []Input{length("fitted", "shim that is in").need(), length("measured", "clearance read with it").need(), length("target", "clearance wanted").need(),
				length("step", "steps that shims are sold in").deflt("0.05 mm"),
				choice("sense", "a shim under or in the bucket closes the clearance", string(shim.Closes), string(shim.Opens)).deflt(string(shim.Closes))},
			Source: "fitted + measured - target; common practice, no source", Sure: "exact for what was read", Do: valveShim,
			Example: []string{"fitted=2.80", "measured=0.32", "target=0.20"}},
		{Name: "injector-shim", Title: "opening pressure of an injector by shim, from two trial builds", Group: shims,
			Inputs: []Input{text("trials", "pack in mm and opening pressure read with it, as 1.00/118 bar; 1.20/131 bar").many().need(),
				ofDim("target", "opening pressure wanted", quantity.Pressure, "bar").need(),
				ofDim("u", "standard uncertainty of a pressure read", quantity.Pressure, "bar").deflt("2 bar")},
			Source: "straight line through the trial builds, GUM 5.2.2; no rate of a spring is assumed", Sure: "as sure as the tester's gauge; read again with the pack in", Do: injectorShim,
			Example: []string{"trials=1.00/118 bar; 1.20/138 bar", "target=130 bar"}},
		coupledTopic(stock), influenceTopic(),
	}
}

// float reads what a trial build showed and what is wanted.
func (v Values) float() (metrology.Estimate, shim.Float, error) {
	f := shim.Float{Target: v.num("target"), Lo: v.num("target") - v.num("slack"), Hi: v.num("target") + v.num("slack")}
	if v.has("low") {
		f.Lo = v.num("low")
	}
	if v.has("high") {
		f.Hi = v.num("high")
	}
	if !(v.num("u") >= 0) {
		return metrology.Estimate{}, f, v.wrong("u", "an uncertainty of 0 or more was wanted")
	}
	return metrology.Estimate{Value: v.num("measured"), U: v.num("u")}, f, nil
}

// stock reads thickness x pieces.
func (v Values) stock() ([]shim.Shim, error) {
	var out []shim.Shim
	for _, item := range v.words("stock") {
		const want = "shims as thickness x pieces, such as 0.1x6; 0.25x2, were wanted"
		thick, pieces, found := strings.Cut(strings.ReplaceAll(item, "×", "x"), "x")
		mm, err := v.part("stock", thick, quantity.Length, "mm", want)
		if err != nil {
			return nil, err
		}
		n := 1.0
		if found {
			if n, err = v.part("stock", pieces, quantity.Count, "", want); err != nil {
				return nil, err
			}
		}
		out = append(out, shim.Shim{MM: mm, Count: int(n)})
	}
	return out, nil
}

func shimPack(v Values) (Answer, error) {
	stock, err := v.stock()
	if err != nil {
		return Answer{}, err
	}
	measured, f, err := v.float()
	if err != nil {
		return Answer{}, err
	}
	w, err := shim.ForFloat(v.num("fitted"), measured, f, shim.Sense(v.word("sense")), v.num("shim-u"))
	if err != nil {
		return Answer{}, err
	}
	w.MaxShims, w.Aim = v.count("most"), shim.Aim(v.word("aim"))
	found, err := shim.OneGap(stock, w)
	var unreachable shim.UnreachableError
	if errors.As(err, &unreachable) {
		return Answer{Lines: append(wantedPack(w), say("pack", "none of the stock does: "+err.Error()))}, nil
	}
	if err != nil {
		return Answer{}, err
	}
	a := Answer{Lines: wantedPack(w), Working: []string{v.shimSum()},
		Cautions: []string{"Turn the shaft, read the float again with the pack in, and close only on that reading."}}
	for i, p := range found.Picks[:min(10, len(found.Picks))] {
		a.Lines = append(a.Lines, value(fmt.Sprintf("pack %d", i+1), p.Pack.MM(), "mm", 3).with(
			fmt.Sprintf("%s: %s, float off the target by %+.3f mm, lands with %s", pieces(p.Pack.Count()), laid(p.Pack), v.floatOff(p.OffMM), percent(p.Chance))))
	}
	if n := len(found.Picks); found.More || n > 10 {
		a.Lines = append(a.Lines, say("more", "packs that are equally good were found than these ten"))
	}
	return a, nil
}

// floatOff is what a pack off its target does to the float.
func (v Values) floatOff(packOff float64) float64 {
	if shim.Sense(v.word("sense")) == shim.Closes {
		return -packOff
	}
	return packOff
}

func (v Values) shimSum() string {
	if shim.Sense(v.word("sense")) == shim.Closes {
		return fmt.Sprintf("pack = fitted %g + measured %g - target %g, for a thicker pack closes the float", v.num("fitted"), v.num("measured"), v.num("target"))
	}
	return fmt.Sprintf("pack = fitted %g - measured %g + target %g, for a thicker pack opens the float", v.num("fitted"), v.num("measured"), v.num("target"))
}

func wantedPack(w shim.Want) []Line {
	return []Line{value("pack wanted", w.Target, "mm", 3), between("packs that do", w.Lo, w.Hi, "mm", 3)}
}

func laid(p shim.Pack) string {
	var out []string
	for _, mm := range p.Lay() {
		out = append(out, fixed(mm, 3))
	}
	return join(out, " + ") + " in that order"
}

func pieces(n int) string {
	if n == 1 {
		return "1 shim"
	}
	return whole(n) + " shims"
}

func percent(p float64) string { return fixed(100*p, 1) + " % chance" }

func shimOdds(v Values) (Answer, error) {
	measured, f, err := v.float()
	if err != nil {
		return Answer{}, err
	}
	w, err := shim.ForFloat(v.num("fitted"), measured, f, shim.Sense(v.word("sense")), v.num("shim-u"))
	if err != nil {
		return Answer{}, err
	}
	if n := v.num("pieces"); n < 1 || n > 50 {
		return Answer{}, v.wrong("pieces", "1 to 50 shims were wanted")
	}
	u := metrology.SumSquares(append(make([]float64, 0), w.U, metrology.SumSquares(repeat(v.num("shim-u"), v.count("pieces"))...))...)
	p, err := metrology.ConformProbability(v.num("pack"), u, w.Lo, w.Hi)
	if err != nil {
		return Answer{}, err
	}
	return Answer{Lines: append(wantedPack(w), value("chance of landing", 100*p, "%", 1), value("standard uncertainty", u, "mm", 4),
		value("float to expect", v.num("target")+v.floatOff(v.num("pack")-w.Target), "mm", 3)),
		Working: []string{v.shimSum(), "chance = normal probability between the limits, uncertainty of float and shims by squares"}}, nil
}

func repeat(x float64, n int) []float64 {
	out := make([]float64, n)
	for i := range out {
		out[i] = x
	}
	return out
}

func valveShim(v Values) (Answer, error) {
	mm, err := shim.Thickness(v.num("fitted"), v.num("measured"), v.num("target"), shim.Sense(v.word("sense")))
	if err != nil {
		return Answer{}, err
	}
	a := Answer{Lines: []Line{value("shim wanted", mm, "mm", 3)}, Working: []string{v.shimSum()},
		Cautions: []string{"Turn the engine by hand two turns and read again before running it."}}
	step := v.num("step")
	if !(step >= 0.005 && step <= 1) {
		return Answer{}, v.wrong("step", "a step from 0.005 to 1 mm was wanted")
	}
	for _, n := range []float64{float64(int(mm/step + 1e-9)), float64(int(mm/step+1e-9)) + 1} {
		off := v.floatOff(n*step - mm)
		a.Lines = append(a.Lines, value("sold as", n*step, "mm", 3).with(fmt.Sprintf("gives a clearance of %s mm", fixed(v.num("target")+off, 3))))
	}
	return a, nil
}
