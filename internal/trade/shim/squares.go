package shim

import "math"

// square is an n by n matrix of zeros.
func square(n int) [][]float64 {
	m := make([][]float64, n)
	for i := range m {
		m[i] = make([]float64, n)
	}
	return m
}

// alone is the part of column c of rows that no other column explains, by
// taking off an orthogonal basis of the others, twice against rounding.
func alone(rows [][]float64, c int) (left, whole float64) {
	n := len(rows)
	column := func(j int) []float64 {
		v := make([]float64, n)
		for i := range rows {
			v[i] = rows[i][j]
		}
		return v
	}
	var basis [][]float64
	takeOff := func(v []float64) float64 {
		for range 2 {
			for _, b := range basis {
				d := dot(v, b)
				for i := range v {
					v[i] -= d * b[i]
				}
			}
		}
		return math.Sqrt(dot(v, v))
	}
	for j := range rows[0] {
		if j == c {
			continue
		}
		v := column(j)
		size := math.Sqrt(dot(v, v))
		if r := takeOff(v); size > 0 && r > 1e-9*size {
			for i := range v {
				v[i] /= r
			}
			basis = append(basis, v)
		}
	}
	v := column(c)
	whole = math.Sqrt(dot(v, v))
	return takeOff(v), whole
}

func dot(a, b []float64) (s float64) {
	for i := range a {
		s += a[i] * b[i]
	}
	return s
}

// notTold lists the unknown positions whose column the others explain.
func notTold(rows [][]float64, unknown []int) (out []int) {
	for a, j := range unknown {
		if left, whole := alone(rows, a+1); whole == 0 || left <= 1e-9*whole {
			out = append(out, j)
		}
	}
	return out
}

// leastSquares solves rows·x = y and gives (rowsᵀ·rows)⁻¹, the covariance for
// rows weighted by 1/u. The columns must be independent.
// Method: normal equations, Gauss and Jordan with pivots; at most five columns.
func leastSquares(rows [][]float64, y []float64) (x []float64, cov [][]float64) {
	k := len(rows[0])
	m := make([][]float64, k) // normal matrix beside the unit matrix
	right := make([]float64, k)
	for i := range k {
		m[i] = make([]float64, 2*k)
		m[i][k+i] = 1
		for r, row := range rows {
			right[i] += row[i] * y[r]
			for j := range k {
				m[i][j] += row[i] * row[j]
			}
		}
	}
	for c := range k {
		p := c
		for r := c + 1; r < k; r++ {
			if math.Abs(m[r][c]) > math.Abs(m[p][c]) {
				p = r
			}
		}
		m[c], m[p] = m[p], m[c]
		scale := m[c][c]
		for j := range m[c] {
			m[c][j] /= scale
		}
		for r := range k {
			if f := m[r][c]; r != c && f != 0 {
				for j := range m[r] {
					m[r][j] -= f * m[c][j]
				}
			}
		}
	}
	cov, x = square(k), make([]float64, k)
	for i := range k {
		copy(cov[i], m[i][k:])
		x[i] = dot(cov[i], right)
	}
	return x, cov
}
