package fit

import (
	"fmt"
	"strings"
)

// Basis says how a limit is known.
type Basis string

const (
	Read    Basis = "read"    // both figures were read in a reprint of the standard
	Formula Basis = "formula" // a rule of the standard applied to figures that were read
	Memory  Basis = "memory"  // recalled, not seen
)

// upper holds the upper deviations of shafts a to g in µm below zero, one
// column a fine step. lower holds the lower deviations of m to u; a negative
// entry means that the letter has none at that size.
// Source: ISO 286-1:2010 tables 4 and 5, read in a published reprint of
// PN-EN ISO 286-1:2011 and alike in four more published texts.
var (
	upper = map[string][25]float64{
		"a": {270, 270, 280, 290, 290, 300, 300, 310, 320, 340, 360, 380, 410, 460, 520, 580, 660, 740, 820, 920, 1050, 1200, 1350, 1500, 1650},
		"b": {140, 140, 150, 150, 150, 160, 160, 170, 180, 190, 200, 220, 240, 260, 280, 310, 340, 380, 420, 480, 540, 600, 680, 760, 840},
		"c": {60, 70, 80, 95, 95, 110, 110, 120, 130, 140, 150, 170, 180, 200, 210, 230, 240, 260, 280, 300, 330, 360, 400, 440, 480},
		"d": spread([13]float64{20, 30, 40, 50, 65, 80, 100, 120, 145, 170, 190, 210, 230}),
		"e": spread([13]float64{14, 20, 25, 32, 40, 50, 60, 72, 85, 100, 110, 125, 135}),
		"f": spread([13]float64{6, 10, 13, 16, 20, 25, 30, 36, 43, 50, 56, 62, 68}),
		"g": spread([13]float64{2, 4, 5, 6, 7, 9, 10, 12, 14, 15, 17, 18, 20}),
		"h": {},
	}
	lower = map[string][25]float64{
		"m": spread([13]float64{2, 4, 6, 7, 8, 9, 11, 13, 15, 17, 20, 21, 23}),
		"n": spread([13]float64{4, 8, 10, 12, 15, 17, 20, 23, 27, 31, 34, 37, 40}),
		"p": spread([13]float64{6, 12, 15, 18, 22, 26, 32, 37, 43, 50, 56, 62, 68}),
		"r": {10, 15, 19, 23, 23, 28, 28, 34, 34, 41, 43, 51, 54, 63, 65, 68, 77, 80, 84, 94, 98, 108, 114, 126, 132},
		"s": {14, 19, 23, 28, 28, 35, 35, 43, 43, 53, 59, 71, 79, 92, 100, 108, 122, 130, 140, 158, 170, 190, 208, 232, 252},
		"t": {-1, -1, -1, -1, -1, -1, 41, 48, 54, 66, 75, 91, 104, 122, 134, 146, 166, 180, 196, 218, 240, 268, 294, 330, 360},
		"u": {18, 23, 28, 33, 33, 41, 48, 60, 70, 87, 102, 124, 144, 170, 190, 210, 236, 258, 284, 315, 350, 390, 435, 490, 540},
	}
	kLower = [13]float64{0, 1, 1, 1, 2, 2, 2, 3, 3, 4, 4, 4, 5} // IT4 to IT7 only
	// jLower: j5 and j6 share a column, j7 has its own; below zero.
	j56Lower = [13]float64{2, 2, 2, 3, 4, 5, 7, 9, 11, 13, 16, 18, 20}
	j7Lower  = [13]float64{4, 4, 5, 6, 8, 10, 12, 15, 18, 21, 26, 28, 32}
	// holeJ: upper deviations of J6, J7 and J8, which mirror nothing.
	holeJ = map[Grade][13]float64{
		6: {2, 5, 5, 6, 8, 10, 13, 16, 18, 22, 25, 29, 33},
		7: {4, 6, 8, 10, 12, 14, 18, 22, 26, 30, 36, 39, 43},
		8: {6, 10, 12, 15, 20, 24, 28, 34, 41, 47, 55, 60, 66},
	}
)

// spread lays main-step values over the fine steps.
func spread(main [13]float64) (fine [25]float64) {
	for i, bound := range fineSteps {
		k, _ := stepOf(mainSteps, bound)
		fine[i] = main[k]
	}
	return fine
}

// Letters lists the deviation letters that are known, for shafts in order; a
// hole has the same in capitals.
func Letters() []string {
	return strings.Fields("a b c d e f g h js j k m n p r s t u")
}

// place is a size with its steps and the width of its grade.
type place struct {
	nominal    float64
	main, fine int
	grade      Grade
	width      float64 // µm
}

// shaftLimits gives the two deviations of a shaft in µm.
// Errors: a letter that is not known or has no value at that size or grade.
func shaftLimits(letter string, p place) (hi, lo float64, b Basis, err error) {
	if es, ok := upper[letter]; ok {
		if (letter == "a" || letter == "b") && p.nominal <= 1 {
			return 0, 0, "", noSuch(letter, p, "a size above 1 mm")
		}
		return 0 - es[p.fine], 0 - es[p.fine] - p.width, Read, nil // 0 − so that h has no minus zero
	}
	if ei, ok := lower[letter]; ok {
		if ei[p.fine] < 0 {
			return 0, 0, "", noSuch(letter, p, "a size above 24 mm")
		}
		return ei[p.fine] + p.width, ei[p.fine], Read, nil
	}
	switch letter {
	case "js":
		return p.width / 2, -p.width / 2, Read, nil
	case "k":
		if p.grade < 4 || p.grade > 7 {
			return p.width, 0, Read, nil
		}
		return kLower[p.main] + p.width, kLower[p.main], Read, nil
	case "j":
		return shaftJ(p)
	}
	return 0, 0, "", noSuch(letter, p, "one of "+strings.Join(Letters(), " "))
}

func shaftJ(p place) (hi, lo float64, b Basis, err error) {
	switch {
	case p.grade == 5 || p.grade == 6:
		lo = -j56Lower[p.main]
	case p.grade == 7:
		lo = -j7Lower[p.main]
	case p.grade == 8 && p.main == 0:
		lo = -6
	default:
		return 0, 0, "", noSuch("j", p, "grade 5, 6 or 7 (8 up to 3 mm)")
	}
	return lo + p.width, lo, Read, nil
}

func noSuch(letter string, p place, want string) error {
	return fmt.Errorf("deviation %s%s at %g mm is not in ISO 286; %s was wanted", letter, p.grade.digits(), p.nominal, want)
}
