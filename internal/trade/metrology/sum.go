package metrology

import "math"

// Difference is a − b. shared is the standard uncertainty of an error that is
// the same in both, such as a bore gauge set by the micrometer that measured
// the journal: it cancels. u² = (u_a² − s²) + (u_b² − s²).
// Method: GUM 5.2.2 with the covariance s² of GUM F.1.2.3.
// Errors: RangeError, also where shared is larger than either uncertainty.
func Difference(a, b Estimate, shared float64) (Estimate, error) {
	return combineTwo(a, b, shared, -1)
}

// Sum is a + b; an error shared by both counts twice:
// u² = (u_a² − s²) + (u_b² − s²) + (2s)².
// Method and errors: as Difference.
func Sum(a, b Estimate, shared float64) (Estimate, error) {
	return combineTwo(a, b, shared, 1)
}

// combineTwo adds a and sign·b, splitting the shared error from each.
func combineTwo(a, b Estimate, shared, sign float64) (Estimate, error) {
	for _, e := range []Estimate{a, b} {
		if err := e.Check(); err != nil {
			return Estimate{}, err
		}
	}
	const slack = 1 + 1e-9 // a shared error computed as the whole of one side
	if notFinite(shared) || shared < 0 || shared > min(a.U, b.U)*slack {
		return Estimate{}, RangeError{"shared standard uncertainty", shared, "between zero and the smaller of both uncertainties"}
	}
	parts := []Part{
		{"first alone", without(a.U, shared), a.Dof},
		{"second alone", without(b.U, shared), b.Dof},
		{"shared", shared * (1 + sign), 0},
	}
	return Estimate{
		Value: a.Value + sign*b.Value,
		U:     SumSquares(parts[0].U, parts[1].U, parts[2].U),
		Dof:   EffectiveDof(parts),
	}, nil
}

// without takes s out of u by squares.
func without(u, s float64) float64 {
	return math.Sqrt(max(0, (u-s)*(u+s)))
}

// Weighted sums cᵢ·eᵢ for independent estimates: a stack of parts.
// Method: GUM 5.1.2. Errors: RangeError, also for unequal lengths.
func Weighted(list []Estimate, coefficients []float64) (Estimate, error) {
	if len(list) != len(coefficients) {
		return Estimate{}, RangeError{"number of coefficients", float64(len(coefficients)), "one for each estimate"}
	}
	var total Estimate
	parts := make([]Part, len(list))
	for i, e := range list {
		if err := e.Check(); err != nil {
			return Estimate{}, err
		}
		c := coefficients[i]
		if notFinite(c) {
			return Estimate{}, RangeError{"coefficient", c, "a finite number"}
		}
		total.Value += c * e.Value
		parts[i] = Part{U: math.Abs(c) * e.U, Dof: e.Dof}
		total.U = math.Hypot(total.U, parts[i].U)
	}
	total.Dof = EffectiveDof(parts)
	return total, total.Check()
}
