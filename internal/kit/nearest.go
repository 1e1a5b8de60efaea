package kit

import (
	"slices"
	"strings"
)

// nearest is the word of a list that a mistyped word most likely meant, empty
// where none is close: at most a third of its letters differ, or one of the
// two begins with the other. Ties go to the first by the alphabet.
// Cost: product of the lengths, for each word of the list.
func nearest(word string, list []string) string {
	best, least := "", max(1, len(word)/3)
	sorted := slices.Clone(list)
	slices.Sort(sorted)
	for _, w := range sorted {
		d := apart(word, w)
		if d > least && len(word) > 3 && len(w) > 3 && (strings.HasPrefix(w, word) || strings.HasPrefix(word, w)) {
			d = least
		}
		if d < least || d == least && best == "" {
			best, least = w, d
		}
	}
	return best
}

// apart counts the slips between two words: a letter wrong, missing or too
// many, or two neighbours exchanged.
func apart(a, b string) int {
	x, y := []rune(strings.ToLower(a)), []rune(strings.ToLower(b))
	if len(x) > 60 || len(y) > 60 {
		return max(len(x), len(y))
	}
	before, last, row := make([]int, len(y)+1), make([]int, len(y)+1), make([]int, len(y)+1)
	for j := range last {
		last[j] = j
	}
	for i := range x {
		row[0] = i + 1
		for j := range y {
			d := last[j]
			if x[i] != y[j] {
				d = 1 + min(last[j], last[j+1], row[j])
			}
			if i > 0 && j > 0 && x[i] == y[j-1] && x[i-1] == y[j] {
				d = min(d, before[j-1]+1)
			}
			row[j+1] = d
		}
		before, last, row = last, row, before
	}
	return last[len(y)]
}

// meant is the cure for an unknown word: the nearest one, or else the whole
// list when it is short, or else what.
func meant(word string, list []string, what string) string {
	if n := nearest(word, list); n != "" {
		return "did you mean " + quote(n) + "? If not, " + what
	}
	return what
}

// oneOf lists the words to choose from: "write apart, made or running".
func oneOf(list []string) string {
	switch n := len(list); n {
	case 0:
		return "leave it out"
	case 1:
		return "write " + list[0]
	default:
		return "write " + strings.Join(list[:n-1], ", ") + " or " + list[n-1]
	}
}

func quote(word string) string { return `"` + word + `"` }
