package book

import (
	"fmt"
	"math"
	"strconv"
	"strings"

	"matchmark/internal/finding/judge"
	"matchmark/internal/machine"
)

// Limit is a bound in words, with where it comes from.
type Limit struct {
	Text   string             `json:"text"` // "0.029 to 0.063 mm"
	From   machine.Provenance `json:"from,omitempty"`
	Source string             `json:"source,omitempty"`
}

// String is the limit with its provenance: "up to 0.10 mm (common practice, no
// source)".
func (l Limit) String() string { return l.Text + " (" + origin(l.From, l.Source) + ")" }

// origin names where a figure comes from; never silent.
func origin(from machine.Provenance, source string) string {
	if from == "" {
		from = "source not stated"
	}
	if source == "" {
		return string(from)
	}
	return string(from) + ", " + source
}

// asNew is what a check should come to when the work is done: its limit for a
// new fit, else the one it is judged worn by. The ruling limit speaks first,
// then the others by rank. ok is false where nothing is known.
func asNew(f *judge.Finding) (l Limit, ok bool) {
	if f == nil {
		return Limit{}, false
	}
	for _, b := range append([]judge.Bounds{f.Limit}, f.Others...) {
		if t := span(b.NewLow, b.NewHigh, f.Check.Unit); t != "" && b.Missing == "" {
			return Limit{t, b.From, b.Source}, true
		}
	}
	b := f.Limit
	switch t := span(b.Low, b.High, f.Check.Unit); {
	case b.Missing != "":
		return Limit{"not worked out: " + b.Missing, b.From, b.Source}, true
	case t != "":
		return Limit{t, b.From, b.Source}, true
	case b.Words != "":
		return Limit{b.Words, b.From, b.Source}, true
	}
	return Limit{}, false
}

// wornBy is the limit that a check was judged by.
func wornBy(f *judge.Finding) (l Limit, ok bool) {
	b := f.Limit
	if t := span(b.Low, b.High, f.Check.Unit); t != "" && b.Missing == "" {
		return Limit{t, b.From, b.Source}, true
	}
	if b.Words != "" {
		return Limit{b.Words, b.From, b.Source}, true
	}
	return Limit{}, false
}

// span puts two bounds in words; empty where there is none.
func span(low, high float64, unit string) string {
	if unit == "count" {
		unit = ""
	}
	unit = behind(" ", unit)
	hasLow, hasHigh := bounded(low), bounded(high)
	switch {
	case hasLow && hasHigh:
		return figure(low) + " to " + figure(high) + unit
	case hasLow:
		return "at least " + figure(low) + unit
	case hasHigh:
		return "up to " + figure(high) + unit
	}
	return ""
}

func bounded(v float64) bool { return !math.IsInf(v, 0) && !math.IsNaN(v) }

// figure writes a bound to three figures below 1 and three decimals above, a
// true minus before it.
func figure(v float64) string {
	to := 1000.0
	if a := math.Abs(v); a > 0 && a < 1 {
		to = math.Pow(10, 2-math.Floor(math.Log10(a)))
	}
	s := strconv.FormatFloat(math.Round(v*to)/to, 'f', -1, 64)
	return strings.Replace(s, "-", "−", 1)
}

// size writes a length to the micrometre.
func size(mm float64) string { return fmt.Sprintf("%.3f", mm) }
