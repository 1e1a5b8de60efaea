package fit

import "strings"

// holeLimits gives the two deviations of a hole in µm. letter is in capitals.
//
// A to H mirror the shaft of the same letter. K, M and N to IT8 and P to U to
// IT7 sit higher than the mirror by Δ = ITn − IT(n−1), so that H7/p6 and P7/h6
// are alike; Δ is 0 up to 3 mm. Coarser than that N has ES = 0 above 3 mm and
// P to U are the plain mirror. M6 over 250 to 315 is −9 instead of −11.
// Method: ISO 286-1:2010 tables 2 and 3 (notes on Δ).
// Errors: as shaftLimits.
func holeLimits(letter string, p place) (hi, lo float64, b Basis, err error) {
	small := strings.ToLower(letter)
	if _, ok := upper[small]; ok {
		hi, lo, b, err = shaftLimits(small, p)
		return 0 - lo, 0 - hi, b, err
	}
	switch letter {
	case "JS":
		return shaftLimits("js", p)
	case "J":
		es, ok := holeJ[p.grade]
		if !ok {
			return 0, 0, "", noSuch(letter, p, "grade 6, 7 or 8")
		}
		return es[p.main], es[p.main] - p.width, Read, nil
	case "K", "M", "N":
		return holeMiddle(letter, p)
	}
	ei, ok := lower[small]
	switch {
	case !ok:
		return 0, 0, "", noSuch(letter, p, "one of "+strings.ToUpper(strings.Join(Letters(), " ")))
	case ei[p.fine] < 0:
		return 0, 0, "", noSuch(letter, p, "a size above 24 mm")
	case p.grade > 7:
		return -ei[p.fine], -ei[p.fine] - p.width, Read, nil
	}
	hi = -ei[p.fine] + delta(p)
	return hi, hi - p.width, Formula, nil
}

// holeMiddle: K, M and N.
func holeMiddle(letter string, p place) (hi, lo float64, b Basis, err error) {
	b = Formula
	switch fine := p.grade <= 8; {
	case letter == "M" && p.grade == 6 && p.nominal > 250 && p.nominal <= 315:
		hi, b = -9, Memory
	case letter == "K" && p.main == 0:
		hi, b = 0, Read
	case letter == "K" && fine:
		hi = -kLower[p.main] + delta(p)
	case letter == "K":
		return 0, 0, "", noSuch(letter, p, "grade 8 or finer above 3 mm")
	case fine:
		hi = -lower[strings.ToLower(letter)][p.fine] + delta(p)
	case letter == "N" && p.nominal <= 1:
		return 0, 0, "", noSuch(letter, p, "a size above 1 mm")
	case letter == "N" && p.main > 0:
		hi, b = 0, Read
	default:
		hi, b = -lower[strings.ToLower(letter)][p.fine], Read
	}
	return hi, hi - p.width, b, nil
}

// delta is Δ in µm: the width of the grade less that of the grade below it for
// IT3 to IT8 above 3 mm, else 0.
func delta(p place) float64 {
	if p.main == 0 || p.grade < 3 || p.grade > 8 {
		return 0
	}
	return p.width - widths[p.grade][p.main] // row g holds grade g − 1
}
