package spelling

import "strings"

// longest is how many letters of a word are compared; beyond it a word is as
// far from any other as it is long.
const longest = 40

// Distance is how many letters to put in, leave out or change to make one word
// of the other, without regard to case. Method: Levenshtein 1966.
// Cost: product of the lengths.
func Distance(a, b string) int {
	x, y := []rune(strings.ToLower(a)), []rune(strings.ToLower(b))
	if len(x) > longest {
		return len(x)
	}
	row := make([]int, len(y)+1)
	for j := range row {
		row[j] = j
	}
	for i, r := range x {
		diagonal := row[0]
		row[0] = i + 1
		for j, s := range y {
			cost := diagonal
			if r != s {
				cost = 1 + min(diagonal, row[j], row[j+1])
			}
			diagonal, row[j+1] = row[j+1], cost
		}
	}
	return row[len(y)]
}
