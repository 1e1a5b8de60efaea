package identify

import "math"

// Span is the base tangent length over k teeth of an external spur gear with z
// teeth: m·cos α·[(k − ½)π + z·inv α] + 2·x·m·sin α, mm. alphaDeg in degrees.
// Two spans differ by the base pitch π·m·cos α whatever the profile shift x.
// Method: ISO 21771 (clause not seen). Only sense where k teeth touch on the
// involute; that is not checked.
func Span(m, alphaDeg float64, z, k int, x float64) float64 {
	a := alphaDeg * math.Pi / 180
	inv := math.Tan(a) - a
	return m*math.Cos(a)*((float64(k)-0.5)*math.Pi+float64(z)*inv) + 2*x*m*math.Sin(a)
}

// basePitch is π·m·cos α, mm.
func basePitch(m, alphaDeg float64) float64 {
	return math.Pi * m * math.Cos(alphaDeg*math.Pi/180)
}
