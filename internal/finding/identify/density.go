package identify

import "math"

const halfLog2Pi = 0.91893853320467274178 // ln √(2π)

// logNormal is the log density of a normal at distance z from its mean.
func logNormal(z, s float64) float64 {
	t := z / s
	return -0.5*t*t - math.Log(s) - halfLog2Pi
}

// logPhi is ln Φ(x), with the asymptotic series in the lower tail where Φ
// itself would round to 0; relative error below 1e-6.
func logPhi(x float64) float64 {
	if x > -8 {
		return math.Log(0.5 * math.Erfc(-x/math.Sqrt2))
	}
	q := 1 / (x * x)
	return -0.5*x*x - math.Log(-x) - halfLog2Pi + math.Log1p(-q*(1-3*q*(1-5*q)))
}

// logExNormal is the log density at z of a normal error with standard deviation
// s plus an exponential with mean tau: an error that is symmetric and a wear
// that only goes up.
func logExNormal(z, s, tau float64) float64 {
	r := s / tau
	return -math.Log(tau) + 0.5*r*r - z/tau + logPhi(z/s-r)
}

// exNormalBelow is the probability that the same sum is below z; with tau 0
// there is no wear.
func exNormalBelow(z, s, tau float64) float64 {
	p := 0.5 * math.Erfc(-z/s/math.Sqrt2)
	if tau == 0 {
		return p
	}
	r := s / tau
	return p - math.Exp(0.5*r*r-z/tau+logPhi(z/s-r))
}

// logSpan is the log density at z where the true value is anywhere in lo to hi
// with equal chance, plus error and wear. Far outside, where the difference
// rounds to 0, the nearer end stands for the span.
func logSpan(z, lo, hi, s, tau float64) float64 {
	if p := (exNormalBelow(z-lo, s, tau) - exNormalBelow(z-hi, s, tau)) / (hi - lo); p > 1e-12 {
		return math.Log(p)
	}
	end := lo
	if z > hi {
		end = hi
	}
	if tau == 0 {
		return math.Min(logNormal(z-end, s), math.Log(1e-12))
	}
	return math.Min(logExNormal(z-end, s, tau), math.Log(1e-12))
}

// logSum is ln Σ exp(v), without overflow; -Inf for nothing.
func logSum(list []float64) float64 {
	top := math.Inf(-1)
	for _, v := range list {
		top = max(top, v)
	}
	if math.IsInf(top, -1) {
		return top
	}
	sum := 0.0
	for _, v := range list {
		sum += math.Exp(v - top)
	}
	return top + math.Log(sum)
}
