package lubricant

import (
	"math"

	"matchmark/internal/trade/metrology"
)

// Index is a viscosity index with what it was reckoned from.
type Index struct {
	Value     float64 // unrounded
	L, H      float64 // the two reference oils at 40 °C, mm²/s
	Procedure string  // "A" up to 100, "B" above
}

// Whole is the index as it is stated, a whole number.
func (i Index) Whole() int { return int(math.Round(i.Value)) }

// ViscosityIndex tells how little an oil thins with heat: 0 as the worst old
// oil, 100 as the best one, above 100 better. Viscosities in mm²/s at 40 and
// 100 °C. Procedure A: 100·(L−U)/(L−H); procedure B, above 100:
// (10^N − 1)/0.00715 + 100 with N = (log H − log U)/log Y.
// Method: D2270; L and H by its quadratic fits, within 0.12 % of its
// table, so the index within 1. Errors: RangeError, below 2 mm²/s at 100 °C (not
// defined there) and where the oil does not thin.
func ViscosityIndex(kv40, kv100 float64) (Index, error) {
	l, h, err := References(kv100)
	if err != nil {
		return Index{}, err
	}
	if err := metrology.Within("viscosity at 40 °C, mm²/s", kv40, kv100, 1e7, "no less than at 100 °C"); err != nil {
		return Index{}, err
	}
	return indexOf(kv40, kv100, l, h), nil
}

func indexOf(u, y, l, h float64) Index {
	if u >= h {
		return Index{Value: 100 * (l - u) / (l - h), L: l, H: h, Procedure: "A"}
	}
	n := (math.Log10(h) - math.Log10(u)) / math.Log10(y)
	return Index{Value: (math.Pow(10, n)-1)/0.00715 + 100, L: l, H: h, Procedure: "B"}
}

// fit is one stretch of the quadratics L = aY² + bY + c, H = dY² + eY + f.
type fit struct{ upTo, a, b, c, d, e, f float64 }

// fits of D2270 appendix X2 by viscosity at 100 °C: the first two rows read
// in a public reprint, the others from memory and held by the standard's
// printed table in the tests.
var fits = []fit{
	{3.8, 1.14673, 1.7576, -0.109, 0.84155, 1.5521, -0.077},
	{4.4, 3.38095, -15.4952, 33.196, 0.78571, 1.7929, -0.183},
	{5.0, 2.5000, -7.2143, 13.812, 0.82143, 1.5679, 0.119},
	{6.4, 0.10100, 16.6350, -45.469, 0.04985, 9.1613, -18.557},
	{7.0, 3.35714, -23.5643, 78.466, 0.22619, 7.7369, -16.656},
	{7.7, 0.01191, 21.4750, -72.870, 0.79762, -0.7321, 14.610},
	{9.0, 0.41858, 16.1558, -56.040, 0.05794, 10.5156, -28.240},
	{12, 0.88779, 7.5527, -16.600, 0.26665, 6.7015, -10.810},
	{15, 0.76720, 10.7972, -38.180, 0.20073, 8.4658, -22.490},
	{18, 0.97305, 5.3135, -2.200, 0.28889, 5.9741, -4.930},
	{22, 0.97256, 5.2500, -0.980, 0.24504, 7.4160, -16.730},
	{28, 0.91413, 7.4759, -21.820, 0.20323, 9.1267, -34.230},
	{40, 0.87031, 9.7157, -50.770, 0.18411, 10.1015, -46.750},
	{55, 0.84703, 12.6752, -133.310, 0.17029, 11.4866, -80.620},
	{70, 0.85921, 11.1009, -83.190, 0.17130, 11.3680, -76.940},
	{math.Inf(1), 0.8353, 14.67, -216, 0.1684, 11.85, -97}, // equations 1 and 2
}

// References are L and H: the viscosities at 40 °C (mm²/s) of oils of index
// 0 and 100 that are as thick at 100 °C. Method: D2270. Errors: RangeError
// outside 2 to 500 mm²/s.
func References(kv100 float64) (l, h float64, err error) {
	if err := metrology.Within("viscosity at 100 °C, mm²/s", kv100, 2, 500, "2 to 500; the index is not defined below"); err != nil {
		return 0, 0, err
	}
	for _, f := range fits {
		if kv100 <= f.upTo {
			y := kv100
			return (f.a*y+f.b)*y + f.c, (f.d*y+f.e)*y + f.f, nil
		}
	}
	return 0, 0, metrology.RangeError{Field: "viscosity at 100 °C, mm²/s", Got: kv100, Want: "2 to 500"}
}
