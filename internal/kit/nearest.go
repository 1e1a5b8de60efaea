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
	best, least := "", len(word)/3+1
	sorted := slices.Clone(list)
	slices.Sort(sorted)
	for _, w := range sorted {
		d := apart(word, w)
		if d >= least && len(word) > 3 && len(w) > 3 && (strings.HasPrefix(w, word) || strings.HasPrefix(word, w)) {
			d = least
		}
		if d < least || d == least && best == "" {
			best, least = w, d
		}
	}
	return best
}

// apart counts the single-letter changes between two words.
func apart(a, b string) int {
	x, y := []rune(strings.ToLower(a)), []rune(strings.ToLower(b))
	if len(x) > 60 || len(y) > 60 {
		return max(len(x), len(y))
	}
	row := make([]int, len(y)+1)
	for j := range row {
		row[j] = j
	}
	for i, r := range x {
		diagonal := row[0]
		row[0] = i + 1
		for j, s := range y {
			d := diagonal
			if r != s {
				d = 1 + min(diagonal, row[j], row[j+1])
			}
			diagonal, row[j+1] = row[j+1], d
		}
	}
	return row[len(y)]
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
