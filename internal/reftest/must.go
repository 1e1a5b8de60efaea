package reftest

import (
	"regexp"
	"strconv"
	"testing"
	"unicode"
)

// Must passes a value on and ends the test on an error.
func Must[T any](t *testing.T) func(T, error) T {
	return func(v T, err error) T {
		t.Helper()
		if err != nil {
			t.Fatal(err)
		}
		return v
	}
}

// Figures finds the figures of a text in order, as a pattern knows them. One
// that is part of a word, such as the 2 of "C2", is none.
func Figures(t *testing.T, pattern *regexp.Regexp, text string) []float64 {
	t.Helper()
	var out []float64
	for _, at := range pattern.FindAllStringIndex(text, -1) {
		if at[0] > 0 && unicode.IsLetter(rune(text[at[0]-1])) {
			continue
		}
		v, err := strconv.ParseFloat(text[at[0]:at[1]], 64)
		if err != nil {
			t.Fatal(err)
		}
		out = append(out, v)
	}
	return out
}
