package identify

import (
	"fmt"
	"math"
	"strconv"
	"strings"

	"matchmark/internal/trade/catalogue"
	"matchmark/internal/trade/quantity"
	"matchmark/internal/trade/spelling"
)

// explained is how many candidates get a Why.
const explained = 5

// explain fills in why, what next and the sentence.
func explain(ans *Answer, a Ask, specs []catalogue.Spec) {
	for i := 0; i < len(ans.Ranked) && i < explained; i++ {
		ans.Ranked[i].Why = why(ans.Ranked[i].Item, a.Measured, specs)
	}
	next(ans, a, specs)
	ans.Sentence = sentence(ans)
}

// why sets each reading against the item: "bore 25: read 24.98, 0.02 under".
func why(it catalogue.Item, ms []Measured, specs []catalogue.Spec) string {
	var parts []string
	for _, m := range ms {
		words := specs[specIndex(specs, m.Dim)].Words
		d, ok := it.Dim(m.Dim)
		if !ok {
			parts = append(parts, words+": the table does not give it")
			continue
		}
		if d.Range {
			parts = append(parts, fmt.Sprintf("%s over %s to %s: read %s", words, num(d.Nominal+d.Lo), num(d.Nominal+d.Hi), num(m.Value)))
			continue
		}
		text := fmt.Sprintf("%s %s: read %s", words, num(d.Nominal), num(m.Value))
		if off := round(m.Value - d.Nominal); off > 0 {
			text += ", " + num(off) + " over"
		} else if off < 0 {
			text += ", " + num(-off) + " under"
		}
		parts = append(parts, text)
	}
	return strings.Join(parts, "; ")
}

// sentence says the answer as a fitter would.
func sentence(ans *Answer) string {
	if len(ans.Ranked) == 0 || ans.None >= 0.5 {
		s := fmt.Sprintf("Not a size of the tables for %s (%s).", spelling.An(string(ans.Kind)), quantity.Percent(ans.None))
		if len(ans.Ranked) > 0 && ans.Ranked[0].P >= nextLeast {
			s += " Nearest: " + named(ans.Ranked[0]) + "."
		}
		return s + " Measure again, and look for a mark."
	}
	top := ans.Ranked[0]
	if ans.Settled {
		s := named(top) + "."
		if len(top.Equivalents) > 0 {
			s += " Same size: " + strings.Join(top.Equivalents, ", ") + "; the mark decides."
		}
		return s
	}
	names := []string{named(top)}
	for _, c := range ans.Ranked[1:] {
		if len(names) == 3 || c.P < 0.05 {
			break
		}
		names = append(names, named(c))
	}
	s := "Not settled: " + strings.Join(names, " or ") + "."
	if ans.None >= 0.05 {
		s += " In no table: " + quantity.Percent(ans.None) + "."
	}
	if ans.Next != "" {
		s += " To tell them apart: " + ans.Next + "."
	} else {
		s += " No further size would tell them apart; the mark decides."
	}
	return s
}

func named(c Candidate) string { return c.Item.Designation + " (" + quantity.Percent(c.P) + ")" }

func round(v float64) float64 { return math.Round(v*1000) / 1000 }

func num(v float64) string { return strconv.FormatFloat(round(v), 'f', -1, 64) }
