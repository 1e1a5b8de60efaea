package identify

import (
	"math"

	"matchmark/internal/trade/catalogue"
)

// rect is the standard deviation of a rectangle of width 1 (GUM 4.3.7).
var rect = 1 / math.Sqrt(12)

// logLike is the log density of a reading when the part is an item with
// dimension d. wear is the mean wear of a worn surface.
func logLike(m Measured, d catalogue.Dim, wear float64) float64 {
	sense := float64(d.Wears)
	if m.Mate {
		sense = -sense
	}
	tau := 0.0
	if m.Worn && sense != 0 {
		tau = wear
	}
	if d.Range {
		z, lo, hi := m.Value-d.Nominal, d.Lo, d.Hi
		if sense < 0 {
			z, lo, hi = -z, -hi, -lo
		}
		return logSpan(z, lo, hi, m.U, tau)
	}
	z := m.Value - d.Nominal - (d.Lo+d.Hi)/2
	s := math.Hypot(m.U, (d.Hi-d.Lo)*rect)
	if tau == 0 {
		return logNormal(z, s)
	}
	return logExNormal(sense*z, s, tau)
}

// broad is the density of a reading for a part that is in no table. Such parts
// have sizes in the manner of the ones that are, but between them: each item is
// smeared by the usual step from one table value to the next, and half the
// weight lies evenly over the whole extent of the table.
type broad struct {
	width []float64 // kernel per measured dimension
	flat  []float64 // ln of the even density per measured dimension
}

// broadOf measures steps and extent of each dimension that was measured.
func broadOf(ms []Measured, items []catalogue.Item) broad {
	b := broad{make([]float64, len(ms)), make([]float64, len(ms))}
	values := make([]float64, 0, len(items))
	for j, m := range ms {
		values = values[:0]
		for i := range items {
			if d, ok := items[i].Dim(m.Dim); ok {
				values = append(values, d.Nominal)
			}
		}
		step, extent := steps(values)
		b.width[j] = math.Hypot(step, m.U)
		b.flat[j] = -math.Log(extent + 2*b.width[j])
	}
	return b
}

// log is the log density of the readings under "none of these".
func (b broad) log(ms []Measured, items []catalogue.Item) float64 {
	norm := 0.0
	for _, w := range b.width {
		norm -= math.Log(w) + halfLog2Pi
	}
	terms := make([]float64, len(items))
	even := 0.0
	for i := range items {
		terms[i] = norm - math.Log(float64(len(items)))
		for j, m := range ms {
			if d, ok := items[i].Dim(m.Dim); ok {
				t := (m.Value - d.Nominal) / b.width[j]
				terms[i] -= 0.5 * t * t
			}
		}
	}
	for _, f := range b.flat {
		even += f
	}
	return logSum([]float64{logSum(terms), even}) - math.Ln2
}
