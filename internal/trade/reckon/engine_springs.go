package reckon

import (
	"fmt"
	"strings"

	"matchmark/internal/trade/engine"
	"matchmark/internal/trade/quantity"
)

func crankingPressure(v Values) (Answer, error) {
	if v.has("inlet-closes") != v.has("rod") {
		return Answer{}, fmt.Errorf("inlet-closes and rod were wanted together")
	}
	e, err := engine.Cranking{Ratio: v.num("ratio"), HeightM: v.num("height") / 1000, AirC: v.num("air"), EngineC: v.num("engine"), InletClosesDeg: v.num("inlet-closes"), RodOverStroke: v.num("rod")}.Expect()
	if err != nil {
		return Answer{}, err
	}
	return Answer{Source: e.Source, Lines: []Line{between("gauge, at cranking", e.GaugeBar.Lo, e.GaugeBar.Hi, "bar", 1).with("compare cylinders first"), between("air at the end of the stroke", e.EndC.Lo, e.EndC.Hi, "°C", 0), value("air outside", e.AirBar, "bar", 3)},
		Working:  []string{fmt.Sprintf("leak × air × effective ratio ^ exponent - air: leak %.2f to %.2f, ratio %.1f to %.1f, exponent %.2f to %.2f", e.Leak.Lo, e.Leak.Hi, e.Effective.Lo, e.Effective.Hi, e.Exponent.Lo, e.Exponent.Hi)},
		Cautions: []string{"Stop pulled, glow plugs or nozzles out: keep faces away from the holes."}}, nil
}

func spring(v Values) (Answer, error) {
	s := engine.Spring{WireMM: v.num("wire"), MeanMM: v.num("outside") - v.num("wire"), Active: v.num("active"), Total: v.num("coils"), Ground: !v.is("open"), FreeMM: v.num("free"), ShearMPa: engine.SteelShear}
	rate, err := s.RateWithin(v.num("u"), v.num("u"), 0)
	if err != nil {
		return Answer{}, err
	}
	solid, err := s.SolidMM()
	if err != nil {
		return Answer{}, err
	}
	a := Answer{Lines: []Line{value("rate", rate.Value, "N/mm", 3).with("± " + fixed(2*rate.U, 3) + " at two standard uncertainties"), value("solid length", solid, "mm", 2)}, Cautions: []string{"A spring under load hits like a hammer: compress it with the proper tool, face aside."}}
	if v.has("at") != v.has("free") {
		return Answer{}, fmt.Errorf("at and free were wanted together")
	}
	if v.has("at") {
		n, stress, err := s.At(v.num("at"))
		if err != nil {
			return Answer{}, err
		}
		a.Lines = append(a.Lines, value("force there", n, "N", 1), value("stress inside the coil", stress, "MPa", 0))
	}
	return a, nil
}

// growing reads name/length/expansion/rise, the rise as a range.
func (v Values) growing(key string, opens bool) ([]engine.Growing, error) {
	const want = "parts as name/length mm/expansion 1e-6/rise K, such as valve/100/17/250..350, were wanted"
	var out []engine.Growing
	for _, item := range v.words(key) {
		f := strings.Split(item, "/")
		if len(f) != 4 {
			return nil, v.wrong(key, want)
		}
		low, high, ranged := strings.Cut(f[3], "..")
		if !ranged {
			high = low
		}
		var x [4]float64
		for i, t := range []string{f[1], f[2], low, high} {
			dim, unit := quantity.Number, ""
			if i == 0 {
				dim, unit = quantity.Length, "mm"
			}
			var err error
			if x[i], err = v.part(key, t, dim, unit, want); err != nil {
				return nil, err
			}
		}
		out = append(out, engine.Growing{Name: strings.TrimSpace(f[0]), LengthMM: x[0], PerK: engine.Range{Lo: x[1] * 1e-6, Hi: x[1] * 1e-6}, RiseK: engine.Range{Lo: x[2], Hi: x[3]}, Opens: opens})
	}
	return out, nil
}

func valveLash(v Values) (Answer, error) {
	parts, err := v.growing("grows", false)
	if err != nil {
		return Answer{}, err
	}
	opening, err := v.growing("opens", true)
	if err != nil {
		return Answer{}, err
	}
	r, err := engine.LashGrowth(append(parts, opening...))
	if err != nil {
		return Answer{}, err
	}
	return Answer{Lines: []Line{between("lash closes by, at the valve", r.Lo, r.Hi, "mm", 2).with("set cold no less than the upper figure, or the valve hangs open when hot")}, Working: []string{"closing growth less opening growth, every part at its worst"}}, nil
}
