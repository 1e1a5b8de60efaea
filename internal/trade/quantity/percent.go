package quantity

import "strconv"

// Percent prints a probability to a tenth of a per cent. It never says 100 for
// what is not certain, nor 0 for what is possible.
func Percent(p float64) string {
	switch {
	case p > 0.999:
		return "over 99.9 %"
	case p < 0.001:
		return "under 0.1 %"
	}
	return strconv.FormatFloat(p*100, 'f', 1, 64) + " %"
}
