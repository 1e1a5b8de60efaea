package kit

import (
	"fmt"
	"slices"
	"strings"

	"matchmark/internal/machine"
	"matchmark/internal/trade/formula"
)

// limits looks at what a check is judged by.
func (c *checker) limits(it item, k Check) {
	symbol, samples := c.size(it, k)
	if len(k.Limits) == 0 {
		c.fault(it, "id", "it has no limit, so nothing could be said about a reading",
			`add [[check.limit]], or one with find = "…" that says how to find the limit`)
	}
	for i, l := range k.Limits {
		lim := it.within("limit", i, fmt.Sprintf("limit %d", i+1))
		if l.From == "" {
			c.fault(lim, "from", "it does not say where the limit comes from", oneOf(provenances()))
		} else {
			c.provenance(lim, l.From)
		}
		c.judgeable(lim, k, l)
		c.bounds(lim, l, symbol, samples)
	}
}

// judgeable wants bounds for a figure, words for an eye, or else a way to find
// the limit.
func (c *checker) judgeable(lim item, k Check, l Limit) {
	figures := l.NewLow+l.NewHigh+l.Low+l.High != ""
	words := l.NewWords+l.WornWords != ""
	byEye := k.By == machine.ByEye || k.By == machine.ByPassage
	switch {
	case byEye && figures:
		c.fault(lim, "high", "a check by "+k.By+" has no figure to compare", "write sound_words and worn_words instead")
	case !figures && !words && strings.TrimSpace(l.Find) == "":
		c.fault(lim, "", "it has no bound, no words and no way to find one", `write high = "…", or sound_words = "…", or find = "…"`)
	case !byEye && !figures && strings.TrimSpace(l.Find) == "":
		c.fault(lim, "sound_words", "words alone cannot judge a figure", `write a bound such as high = "…", or find = "…", or by = "eye"`)
	}
}

// size looks at the letter of the formulas. It returns the letter and the
// values at which bounds are tried: what the kit says, or else 30 and 100.
func (c *checker) size(it item, k Check) (symbol string, samples []float64) {
	z := k.Size
	if z == nil {
		return "", nil
	}
	in := it
	in.path, in.name = it.path+".size", it.name+", size"
	if expr, err := formula.Parse(z.Symbol); err != nil || !slices.Equal(expr.Vars(), []string{z.Symbol}) {
		c.fault(in, "symbol", quote(z.Symbol)+" is not a letter a formula can use", `write one such as "D"`)
	}
	c.named(in, "meaning", z.Meaning)
	samples = []float64{30, 100}
	switch {
	case (z.Feature == "") == (z.Datum == ""):
		c.fault(in, "symbol", "it must get its value from one place", `write feature = "part/feature", or datum = "…"`)
	case z.Feature != "":
		if f, ok := c.surfaceAt(in, k, "feature", z.Feature, true); ok && f.Nominal > 0 {
			samples = []float64{f.Nominal}
		}
	default:
		if d, ok := c.known(in, "datum", aDatum, z.Datum); ok {
			if v := d.sheet.Data[d.at].Value; v != nil {
				samples = []float64{*v}
			}
		}
	}
	return z.Symbol, samples
}

// bound is one of the four of a limit.
type bound struct {
	field string
	text  string
}

// bounds reads the formulas of a limit and compares them. The right order is
// low, new_low, new_high, high.
func (c *checker) bounds(lim item, l Limit, symbol string, samples []float64) {
	var good []bound
	for _, b := range []bound{{"low", l.Low}, {"new_low", l.NewLow}, {"new_high", l.NewHigh}, {"high", l.High}} {
		if b.text != "" && c.readable(lim, b, symbol) {
			good = append(good, b)
		}
	}
	if len(samples) == 0 {
		samples = []float64{0}
	}
	for _, x := range samples {
		if c.crossed(lim, good, symbol, x) {
			return
		}
	}
}

// readable tells whether a bound's formula can be read and uses the size's
// letter only.
func (c *checker) readable(lim item, b bound, symbol string) bool {
	expr, err := formula.Parse(b.text)
	if err != nil {
		c.fault(lim, b.field, quote(b.text)+" is no formula: "+err.Error(), `write a figure, or a formula such as "0.002*D"`)
		return false
	}
	for _, v := range expr.Vars() {
		if v == symbol {
			continue
		}
		problem, cure := "its formula uses "+quote(v)+", but the check says no size", `add [check.size] with symbol = `+quote(v)
		if symbol != "" {
			problem, cure = "its formula uses "+quote(v)+", but the size's letter is "+quote(symbol), "write "+quote(symbol)+" instead"
		}
		c.fault(lim, b.field, problem, cure)
		return false
	}
	return true
}

// crossed adds a fault where two bounds stand in the wrong order at a size.
func (c *checker) crossed(lim item, list []bound, symbol string, x float64) bool {
	vars := map[string]float64{symbol: x}
	where := ""
	last, lastField := 0.0, ""
	for _, b := range list {
		v, err := formula.Value(b.text, vars)
		if symbol != "" {
			where = fmt.Sprintf(" at %s = %g", symbol, x)
		}
		if err != nil {
			c.fault(lim, b.field, quote(b.text)+" cannot be worked out"+where+": "+err.Error(), "correct the formula")
			return true
		}
		if lastField != "" && v < last {
			c.fault(lim, b.field, fmt.Sprintf("%s is %.4g and %s is %.4g%s%s", lastField, last, b.field, v, where, tighter(lastField, b.field)), rightOrder(symbol))
			return true
		}
		last, lastField = v, b.field
	}
	return false
}

// tighter says what a wrong order of two bounds would mean.
func tighter(below, above string) string {
	switch {
	case below == "new_low" && above == "new_high":
		return ": no new fit could pass"
	case below == "new_high" || above == "new_low":
		return ": worn would be tighter than new"
	}
	return ": nothing could pass"
}

func rightOrder(symbol string) string {
	cure := "let them rise in the order low, new_low, new_high, high"
	if symbol != "" {
		cure += "; for a small or large part give the feature its nominal_mm"
	}
	return cure
}
