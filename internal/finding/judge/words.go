package judge

import (
	"fmt"
	"math"
	"strconv"
	"strings"

	"matchmark/internal/machine"
	"matchmark/internal/trade/metrology"
	"matchmark/internal/trade/spelling"
)

// figure prints a value with fixed decimals; digits < 0 prints as many as tell
// it apart. There is no minus zero.
func figure(v float64, digits int) string {
	text := strconv.FormatFloat(v, 'f', digits, 64)
	if strings.Trim(text, "-0.") == "" {
		text = strings.TrimPrefix(text, "-")
	}
	return text
}

// decimals is how many places to print: those that were typed, else those the
// uncertainty leaves a meaning.
func decimals(step, u float64) int {
	if step <= 0 {
		step = u
	}
	if !(step > 0) || math.IsInf(step, 0) {
		return 3
	}
	return min(max(int(math.Ceil(-math.Log10(step)-1e-9)), 0), 4)
}

// tiny prints a small figure to two significant places.
func tiny(v float64) string {
	if v == 0 || math.IsInf(v, 0) || math.IsNaN(v) {
		return "0"
	}
	places := 1 - int(math.Floor(math.Log10(math.Abs(v))))
	return figure(v, min(max(places, 0), 8))
}

func quote(text string) string { return strconv.Quote(text) }

// space puts a unit behind a figure.
func space(unit string) string {
	if unit == "" {
		return ""
	}
	return " " + unit
}

func in(where string) string {
	if where == "" {
		return ""
	}
	return " (" + where + ")"
}

func bracketed(source string) string { return in(source) }

func said(words string) string {
	if words == "" {
		return ""
	}
	return ", " + strings.TrimRight(strings.TrimSpace(words), ".")
}

func because(how string) string {
	if how == "" {
		return "."
	}
	return ": " + strings.TrimRight(strings.TrimSpace(how), ".") + "."
}

func capital(text string) string {
	for i, r := range text {
		if i == 0 {
			return strings.ToUpper(string(r)) + text[len(string(r)):]
		}
	}
	return text
}

// pointWords names a point: "top, along"; empty for the one unnamed point.
func pointWords(p machine.Point) string {
	switch {
	case p.Level == "":
		return p.Axis
	case p.Axis == "":
		return p.Level
	}
	return p.Level + ", " + p.Axis
}

// orOnly names a point where there must be a word.
func orOnly(p machine.Point) string {
	if w := pointWords(p); w != "" {
		return strings.ReplaceAll(w, ", ", " ")
	}
	return "as read"
}

// lead puts a point in front of what is said of it.
func lead(at string) string {
	if at == "" {
		return ""
	}
	return at + ": "
}

func atPoint(at string) string {
	if at == "" {
		return ""
	}
	return " at " + at
}

func missingWords(ft *machine.Feature, p machine.Point) string {
	if at := pointWords(p); at != "" {
		return ft.Called() + " " + strings.ReplaceAll(at, ", ", " ")
	}
	return ft.Called()
}

// prefixed puts a feature's name in front of lines about it.
func prefixed(ft *machine.Feature, lines []string) []string {
	out := make([]string, len(lines))
	for i, l := range lines {
		out[i] = ft.Called() + ", " + l
	}
	return out
}

// repeatWords is the working of one point. shift is the correction to 20 °C,
// where it was brought there.
func repeatWords(at []take, r metrology.Result, e metrology.Estimate, g *gauge, s scale, brought bool, shift float64) []string {
	f := math.Abs(s.factor)
	d := decimals(at[0].step*f, f*e.U)
	from := g.Name
	if g.assumed != "" {
		from = g.assumed
	}
	mean := ""
	if len(at) > 1 {
		d++
		mean = fmt.Sprintf(", mean of %d readings: %s", len(at), takenWords(at, s))
	}
	if brought {
		mean += fmt.Sprintf("; brought to 20 °C by %s mm, the gauge taken as right", signed(shift))
	}
	lines := []string{fmt.Sprintf("%s%s%s, u %s (%s)%s", lead(pointWords(at[0].point)), figure(s.show(e.Value), d),
		space(s.unit), tiny(f*e.U), from, mean)}
	if !brought && s.length() && warmest(at) != 0 {
		lines = append(lines, fmt.Sprintf("%s °C from 20 °C, but the material's expansion is not known: not brought to 20 °C", signed(warmest(at))))
	}
	if g.coarse {
		lines = append(lines, fmt.Sprintf("typed to %s%s, coarser than the instrument shows; judged as typed", tiny(f*g.Step), space(s.unit)))
	}
	if r.TooSpread {
		lines = append(lines, fmt.Sprintf("the repeats spread over %s%s, more than this instrument should: dirt, or the hand", tiny(f*r.Spread), space(s.unit)))
	}
	return lines
}

// takenWords lists repeats as used, in the order of their size.
func takenWords(at []take, s scale) string {
	out := make([]string, len(at))
	for i, t := range at {
		out[i] = figure(s.show(t.value), decimals(t.step*math.Abs(s.factor), 0.001))
	}
	return strings.Join(out, ", ")
}

// signed prints a change with its sign, to a tenth of a micrometre at most.
func signed(v float64) string {
	text := strings.TrimSuffix(strings.TrimRight(figure(v, 4), "0"), ".")
	if v > 0 {
		return "+" + text
	}
	return text
}

// warmest is the largest distance from 20 °C that was noted, 0 for none.
func warmest(at []take) float64 {
	most := 0.0
	for _, t := range at {
		if t.temp != nil && math.Abs(*t.temp-metrology.Reference) > math.Abs(most) {
			most = *t.temp - metrology.Reference
		}
	}
	return most
}

// apartFrom names a repeat that stands apart from the others by the Grubbs
// test, with its unit; empty where none does. It is used all the same.
func apartFrom(at []take, s scale) string {
	if len(at) < 3 || at[0].value == at[len(at)-1].value {
		return ""
	}
	values := make([]float64, len(at))
	for i, t := range at {
		values[i] = t.value
	}
	o, err := metrology.FindOutlier(values, 0.05)
	if err != nil || !o.Suspect {
		return ""
	}
	return figure(s.show(o.Value), decimals(at[o.Index].step*math.Abs(s.factor), 0.001)) + space(s.unit)
}

// limitWords joins the words of a limit judged by eye.
func limitWords(l machine.Limit) string {
	switch {
	case l.WornWords == "":
		return l.NewWords
	case l.NewWords == "":
		return "worn: " + l.WornWords
	}
	return "sound: " + l.NewWords + "; worn: " + l.WornWords
}

func lookLimit(b Bounds) string {
	if b.Words == "" {
		return ""
	}
	return fmt.Sprintf("limit, %s%s: %s", b.From, bracketed(b.Source), b.Words)
}

// missingSize says what to enter so that a formula can be worked out.
func missingSize(z *machine.SizeSource, ft *machine.Feature, d *machine.Datum) string {
	switch {
	case d != nil && d.Name != "":
		return "enter " + spelling.Inside(d.Name)
	case ft != nil:
		return "enter or measure " + ft.Called()
	case z.Meaning != "":
		return "enter " + z.Meaning
	}
	return "the check does not say what " + z.Symbol + " is: correct the check"
}

// shownBound prints a bound: a plain figure as it is written, a formula's to
// three significant places and no fewer than the value's.
func shownBound(text string, v float64, worked bool, digits int) string {
	if !worked {
		if _, err := strconv.ParseFloat(strings.TrimSpace(text), 64); err == nil {
			return strings.TrimSpace(text)
		}
	}
	if v == 0 {
		return "0"
	}
	places := 2 - int(math.Floor(math.Log10(math.Abs(v))))
	return figure(v, max(digits, min(max(places, 0), 4)))
}

// limitWorking is the working of the ruling limit.
func (b *bench) limitWorking(bd bounds, l machine.Limit, s scale) []string {
	var parts []string
	for _, p := range []struct{ name, text string }{{"new low", l.NewLow}, {"new high", l.NewHigh}, {"low", l.Low}, {"high", l.High}} {
		if p.text == "" {
			continue
		}
		if e := b.parse(p.text); e.err == nil {
			p.text = e.Words()
		}
		parts = append(parts, p.name+" "+p.text)
	}
	lines := []string{"limit, " + string(bd.From) + bracketed(bd.Source) + ": " + strings.Join(parts, ", ") + space(s.unit)}
	if bd.Size != "" {
		lines = append(lines, "with "+bd.Size)
	}
	if bd.hard {
		lines = append(lines, "the fit is rebuilt or renewed, so its new low holds as well: tighter seizes")
	}
	if bd.Missing != "" {
		lines = append(lines, bd.Missing)
	}
	return lines
}
