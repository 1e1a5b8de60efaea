package judge

import (
	"fmt"
	"math"
	"strings"

	"matchmark/internal/machine"
)

// sentence joins a check's name and what is said of it.
func sentence(name string, rest ...string) string { return name + ": " + strings.Join(rest, " ") }

// valueWords says what was found: "Ring gap, cylinder 2, top: 0.62 mm."
func valueWords(f *Finding, step float64, repeats int) string {
	name := f.Check.Name
	if f.At != "" {
		name += ", " + f.At
	}
	return sentence(name, withUnit(meanFigure(f.Value, decimals(step, f.U), repeats), f.Check)+".")
}

// meanFigure prints a mean of several readings to one place more, where that
// place says something.
func meanFigure(v float64, digits, repeats int) string {
	short := figure(v, digits)
	if repeats < 2 {
		return short
	}
	long := figure(v, digits+1)
	if strings.HasSuffix(long, "0") {
		return short
	}
	return long
}

// withUnit puts the unit and the meaning of a check behind a figure.
func withUnit(text string, c *machine.Check) string {
	return text + space(c.Unit) + space(c.Says)
}

// verdictWords is the sentence of a judged check.
func verdictWords(f *Finding, got measured, repeats int, rule bounds) string {
	out := valueWords(f, got.step, repeats)
	if f.Verdict == Worn && f.Read < f.Points {
		out += fmt.Sprintf(" %d of %d points read.", f.Read, f.Points)
	}
	out += " " + rule.sentence() + " "
	tight := rule.hard && f.Value-rule.Low < rule.High-f.Value
	switch f.Verdict {
	case Sound:
		if f.Value > rule.NewHigh {
			return out + "Sound: reusable, past new."
		}
		if f.Value < rule.NewLow && rule.Low < rule.NewLow && rule.NewLow > 0 {
			return out + "Sound: reusable, below new."
		}
		return out + "Sound."
	case Worn:
		return out + choose(tight, "Too tight.", "Worn.")
	}
	if got.odd != "" {
		return out + "Doubtful: " + got.odd + "."
	}
	return out + fmt.Sprintf("Doubtful: %s sure to be within.", percent(f.P))
}

// sentence is the limit in short words, with its provenance.
func (b bounds) sentence() string {
	from := string(b.From)
	if from == "" {
		from = "provenance not given"
	}
	low := choose(b.hard, "Least for a rebuilt fit ", "Least ")
	switch {
	case math.IsInf(b.Low, -1):
		return "Limit " + b.high + ", " + from + "."
	case math.IsInf(b.High, 1):
		return low + b.low + ", " + from + "."
	case b.hard:
		return low + b.low + ", limit " + b.high + ", " + from + "."
	}
	return "Limits " + b.low + " to " + b.high + ", " + from + "."
}

// percent prints a probability so that rounding never moves it over a level
// it was decided by.
func percent(p float64) string {
	switch {
	case p > 0.999:
		return "over 99.9 %"
	case p < 0.001:
		return "under 0.1 %"
	case p > 0.5:
		return trimZero(math.Floor(p*1000) / 10)
	}
	return trimZero(math.Ceil(p*1000) / 10)
}

func trimZero(v float64) string { return strings.TrimSuffix(figure(v, 1), ".0") + " %" }

// odds is the working of the probability.
func odds(r ruled, worst candidate, s scale, step float64) string {
	line := fmt.Sprintf("probability of being within the limit %s, with u %s%s", percent(r.p), tiny(worst.est.U), space(s.unit))
	if r.corrected != nil && r.verdict != Worn {
		line = fmt.Sprintf("%s; without the noise in it the spread is %s, u %s, so it is not called worn", line,
			figure(r.corrected.Value, decimals(step, r.corrected.U)+1), tiny(r.corrected.U))
	}
	if r.stepped > 0 {
		line = fmt.Sprintf("%s; with the steps of the gauge against it %s, so it is not called sound", line, percent(r.stepped))
	}
	return line
}

// unread says that a check is not read, or how far, and what to read.
func unread(f *Finding, got measured) (text, settle string) {
	switch {
	case f.Read == 0:
		text = sentence(f.Check.Name, "not read.")
	case f.Read < f.Points:
		text = sentence(f.Check.Name, fmt.Sprintf("%d of %d points read.", f.Read, f.Points))
	default:
		text = sentence(f.Check.Name, "read, but it cannot be worked out.")
	}
	const most = 6
	if n := len(got.missing); n > 0 {
		list := strings.Join(got.missing[:min(n, most)], "; ")
		if n > most {
			list += fmt.Sprintf("; and %d more", n-most)
		}
		settle = "Read " + list + "."
	}
	if got.wanted != "" {
		settle = strings.TrimSpace(settle + " " + capital(got.wanted) + ".")
	}
	if settle == "" {
		settle = "Measure again."
	}
	return text, settle
}
