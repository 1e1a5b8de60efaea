package kit

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"matchmark/internal/trade/formula"
)

const (
	mostPlaces = 100  // labels of one family of places
	mostPieces = 1000 // of one part at one place
)

// whole works out a count formula such as "2*cylinders + 2".
// Errors: of formula; and a result that is no whole number from 0 on.
func whole(text string, counts map[string]int) (int, error) {
	expr, vars, err := counting(text, counts)
	if err != nil {
		return 0, err
	}
	v, err := expr.Eval(vars)
	if err != nil {
		return 0, err
	}
	n := math.Round(v)
	if math.Abs(v-n) > 1e-9 || n < 0 || n > math.MaxInt32 {
		return 0, fmt.Errorf("it comes to %g, which is no count", v)
	}
	return int(n), nil
}

// counting reads a count formula. Ids of counts may have hyphens, names in a
// formula may not: they become underlines.
func counting(text string, counts map[string]int) (formula.Expr, map[string]float64, error) {
	vars := make(map[string]float64, len(counts))
	names := make([]string, 0, len(counts))
	for id, n := range counts {
		vars[strings.ReplaceAll(id, "-", "_")] = float64(n)
		if strings.Contains(id, "-") {
			names = append(names, id)
		}
	}
	slices.SortFunc(names, func(a, b string) int {
		if len(a) != len(b) {
			return len(b) - len(a)
		}
		return strings.Compare(a, b)
	})
	for _, id := range names {
		text = underlined(text, id)
	}
	expr, err := formula.Parse(text)
	return expr, vars, err
}

// underlined writes id with underlines wherever it stands as a whole word.
func underlined(text, id string) string {
	var b strings.Builder
	for {
		i := strings.Index(text, id)
		if i < 0 {
			b.WriteString(text)
			return b.String()
		}
		end := i + len(id)
		b.WriteString(text[:i])
		if i > 0 && inWord(text[i-1]) || end < len(text) && inWord(text[end]) {
			b.WriteString(text[i:end])
		} else {
			b.WriteString(strings.ReplaceAll(id, "-", "_"))
		}
		text = text[end:]
	}
}

func inWord(c byte) bool {
	return c == '_' || c >= 'a' && c <= 'z' || c >= 'A' && c <= 'Z' || c >= '0' && c <= '9'
}

// countNames lists the names a count formula uses, with hyphens where the ids
// have them.
func countNames(expr formula.Expr, counts map[string]int) []string {
	var out []string
	for _, v := range expr.Vars() {
		name := v
		for id := range counts {
			if strings.ReplaceAll(id, "-", "_") == v {
				name = id
			}
		}
		out = append(out, name)
	}
	return out
}
