package identify

import (
	"math"

	"matchmark/internal/trade/catalogue"
)

// How far next looks: the candidates it weighs, the least probability that
// counts, and the least gain in bits that is worth a measurement.
const (
	nextMost  = 20
	nextLeast = 1e-4
	nextGain  = 0.02
)

// hermite is the five-point Gauss-Hermite rule for a standard normal
// (Abramowitz and Stegun table 25.10, with x√2 and w/√π).
var hermite = [5][2]float64{{-2.856970013872806, 0.011257411327720693}, {-1.355626179974266, 0.2220759220056127},
	{0, 0.5333333333333333}, {1.355626179974266, 0.2220759220056127}, {2.856970013872806, 0.011257411327720693}}

// bell is a candidate seen through one dimension: its weight and the normal
// that a reading of it would follow.
type bell struct{ p, mean, sd float64 }

// next finds the dimension whose usual measurement is expected to lower the
// entropy of the answer most: one not measured yet, or one measured so roughly
// that the usual way is at least twice as good. Ties go to table order.
func next(ans *Answer, a Ask, specs []catalogue.Spec) {
	wear := a.WearMean
	if wear == 0 {
		wear = DefaultWear
	}
	for _, s := range specs {
		if measuredWell(a.Measured, s) {
			continue
		}
		if bits := gain(bells(ans, s, wear)); bits > nextGain && bits > ans.NextBits+1e-9 {
			ans.Next, ans.NextBits = s.How, bits
		}
	}
}

func measuredWell(ms []Measured, s catalogue.Spec) bool {
	for _, m := range ms {
		if m.Dim == s.Name {
			return s.UsualU > m.U/2
		}
	}
	return false
}

// bells describes the likeliest candidates, and none of these as a wide one.
// A dimension that wears is taken as worn by the mean.
func bells(ans *Answer, s catalogue.Spec, wear float64) []bell {
	var list []bell
	lo, hi := math.Inf(1), math.Inf(-1)
	for i := 0; i < len(ans.Ranked) && i < nextMost && ans.Ranked[i].P > nextLeast; i++ {
		d, ok := ans.Ranked[i].Item.Dim(s.Name)
		if !ok {
			continue
		}
		b := bell{ans.Ranked[i].P, d.Nominal + (d.Lo+d.Hi)/2, math.Hypot(s.UsualU, (d.Hi-d.Lo)*rect)}
		if d.Wears != catalogue.Keeps {
			b.mean += float64(d.Wears) * wear
			b.sd = math.Hypot(b.sd, wear)
		}
		lo, hi = min(lo, b.mean), max(hi, b.mean)
		list = append(list, b)
	}
	if len(list) > 0 && ans.None > nextLeast {
		list = append(list, bell{ans.None, (lo + hi) / 2, hi - lo + 10*list[0].sd})
	}
	return list
}

// gain is the mutual information in bits between the candidate and a reading.
func gain(list []bell) float64 {
	total := 0.0
	for _, b := range list {
		total += b.p
	}
	bits := 0.0
	for _, b := range list {
		for _, node := range hermite {
			y := b.mean + node[0]*b.sd
			mix := 0.0
			for _, c := range list {
				t := (y - c.mean) / c.sd
				mix += c.p / total / c.sd * math.Exp(-0.5*t*t)
			}
			bits += b.p / total * node[1] * (math.Log(1/b.sd) - 0.5*node[0]*node[0] - math.Log(mix))
		}
	}
	return max(0, bits/math.Ln2)
}
