package catalogue

import "fmt"

// below lists, for a kind, pairs of dimensions of which the first must be the
// smaller: a bore within its outside diameter, a groove within its shaft.
var below = map[Kind][][2]string{
	Ball:           {{"d", "D"}},
	Roller:         {{"d", "D"}},
	Taper:          {{"d", "D"}},
	Needle:         {{"d", "D"}},
	Thrust:         {{"d", "D"}},
	RollingBearing: {{"d", "D"}},
	OilSeal:        {{"d", "D"}},
	ShaftCirclip:   {{"groove", "d"}},
	BoreCirclip:    {{"d", "groove"}},
	HalfMoonKey:    {{"h", "D"}},
	VBelt:          {{"inside", "outside"}},
	Thread:         {{"minor", "d"}, {"pitch", "d"}},
}

// mayBeZero are the dimensions for which 0 means something.
var mayBeZero = map[string]bool{"taper": true}

// Impossible says why no part can have such dimensions: what was got and what
// is wanted instead, both "" where a part could. It is a size that is not above
// 0, or two that cannot go together. get gives a dimension by name and whether
// it is known.
func Impossible(kind Kind, get func(name string) (float64, bool)) (got, want string) {
	for _, s := range Specs(kind) {
		v, ok := get(s.Name)
		if ok && (v < 0 || v == 0 && !mayBeZero[s.Name]) {
			return fmt.Sprintf("%s %s is %g", s.Words, s.Name, v), "above 0"
		}
	}
	for _, p := range below[kind] {
		a, okA := get(p[0])
		b, okB := get(p[1])
		if okA && okB && a >= b {
			return fmt.Sprintf("%s is %g and %s is %g", p[0], a, p[1], b), p[0] + " below " + p[1]
		}
	}
	return "", ""
}
