package closing

import (
	"fmt"
	"math"
	"strings"

	"matchmark/internal/machine"
)

// nm prints a torque as a wrench is read; floored never above what it is.
func nm(v float64) string {
	if v < 10 {
		return fmt.Sprintf("%.1f", v)
	}
	return fmt.Sprintf("%.0f", v)
}

func floored(v float64) string {
	if v < 10 {
		return fmt.Sprintf("%.1f", math.Floor(v*10)/10)
	}
	return fmt.Sprintf("%.0f", math.Floor(v))
}

func behind(sign, text string) string {
	if text == "" {
		return ""
	}
	return sign + text
}

func lower(text string) string {
	if text == "" {
		return ""
	}
	return strings.ToLower(text[:1]) + text[1:]
}

// says tells whether a text names one of the words, in any case.
func says(text string, words ...string) bool {
	text = strings.ToLower(text)
	for _, w := range words {
		if strings.Contains(text, w) {
			return true
		}
	}
	return false
}

func when(s machine.Stamp) string {
	if s.At.IsZero() {
		return ""
	}
	return " on " + s.At.Format("2 January 2006")
}
