package metrology

import "math"

// Difference is a − b. shared is the standard uncertainty of an error that is
// the same in both, such as a bore gauge set by the micrometer that measured
// the journal: it cancels. u² = (u_a² − s²) + (u_b² − s²).
// Method: GUM 5.2.2 with the covariance s² of GUM F.1.2.3.
// Errors: RangeError, also where shared is larger than either uncertainty.
func Difference(a, b Estimate, shared float64) (Estimate, error) {
	return Linear([]Estimate{a, b}, []float64{1, -1}, func(int, int) float64 { return shared })
}

// Sum is a + b; an error shared by both counts twice:
// u² = (u_a² − s²) + (u_b² − s²) + (2s)².
// Method and errors: as Difference.
func Sum(a, b Estimate, shared float64) (Estimate, error) {
	return Linear([]Estimate{a, b}, []float64{1, 1}, func(int, int) float64 { return shared })
}

// Weighted sums cᵢ·eᵢ for independent estimates: a stack of parts.
// Method: GUM 5.1.2. Errors: RangeError, also for unequal lengths.
func Weighted(list []Estimate, coefficients []float64) (Estimate, error) {
	return Linear(list, coefficients, nil)
}

// Linear sums cᵢ·eᵢ for estimates that have errors in common: shared(i, j),
// i < j, is the standard uncertainty of the error that is the same in both; nil
// is none. u² = Σ cᵢ²uᵢ² + 2·Σ cᵢcⱼ·shared(i, j)². The degrees of freedom are
// those of what each estimate has alone; what is shared is taken as known.
// Method: GUM 5.2.2 with covariances by F.1.2.3, G.4.1.
// Errors: RangeError, also for unequal lengths, and where a shared error is
// larger than one of the two that share it.
func Linear(list []Estimate, coefficients []float64, shared func(i, j int) float64) (Estimate, error) {
	if len(list) != len(coefficients) {
		return Estimate{}, RangeError{"number of coefficients", float64(len(coefficients)), "one for each estimate"}
	}
	total, variance := Estimate{}, 0.0
	most := make([]float64, len(list)) // the largest error each has in common with another
	for i, e := range list {
		c := coefficients[i]
		if err := e.Check(); err != nil {
			return Estimate{}, err
		}
		if notFinite(c) {
			return Estimate{}, RangeError{"coefficient", c, "a finite number"}
		}
		total.Value += c * e.Value
		variance += c * c * e.U * e.U
		for j := 0; shared != nil && j < i; j++ {
			s := shared(j, i)
			const slack = 1 + 1e-9 // a shared error computed as the whole of one side
			if notFinite(s) || s < 0 || s > min(e.U, list[j].U)*slack {
				return Estimate{}, RangeError{"shared standard uncertainty", s, "between zero and the smaller of both uncertainties"}
			}
			variance += 2 * c * coefficients[j] * s * s
			most[i], most[j] = max(most[i], s), max(most[j], s)
		}
	}
	total.U = math.Sqrt(max(0, variance))
	total.Dof = linearDof(list, coefficients, most, total.U)
	return total, total.Check()
}

// linearDof is u⁴/Σ(wᵢ⁴/νᵢ) over what each estimate has alone, wᵢ; 0 is no
// limit. An estimate with a shared error of known size has its few degrees of
// freedom in the rest, ν·(w/u)⁴ of them.
func linearDof(list []Estimate, coefficients, most []float64, u float64) float64 {
	sum := 0.0
	for i, e := range list {
		if e.Dof > 0 && e.U > 0 {
			alone := without(e.U, most[i])
			dof := max(1, e.Dof*math.Pow(alone/e.U, 4))
			sum += math.Pow(coefficients[i]*alone, 4) / dof
		}
	}
	if sum == 0 || u == 0 {
		return 0
	}
	return math.Pow(u, 4) / sum
}

// without takes s out of u by squares.
func without(u, s float64) float64 {
	return math.Sqrt(max(0, (u-s)*(u+s)))
}
