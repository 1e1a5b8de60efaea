package web

import "strconv"

// secondsWords says a length of time; nothing for none.
func secondsWords(s float64) string {
	if s <= 0 {
		return ""
	}
	return strconv.FormatFloat(s, 'f', 1, 64) + " s"
}
