package reckon

import (
	"strconv"
	"strings"
)

// Answer is what a topic gives.
type Answer struct {
	Lines    []Line
	Working  []string // how it was reckoned, a step a line
	Source   string
	Sure     string // how sure it is
	Cautions []string
	Marked   []string // what reaches beyond a table, or rests on memory
}

// Form says which fields of a Line are filled.
type Form string

// The forms of a line.
const (
	Figure Form = "figure" // Value
	Range  Form = "range"  // Low and High
	Saying Form = "words"  // Words alone
)

// Line is one figure, range or word of an answer.
type Line struct {
	Name      string
	Form      Form
	Low, High float64
	Value     float64
	Unit      string
	Digits    int    // decimals that are worth printing
	Words     string // the answer in words, or a remark beside a figure
	Basis     string // what this line rests on, where that is not the whole answer's source
}

// String is the figure with its unit, without the name.
func (l Line) String() string {
	text := ""
	switch l.Form {
	case Figure:
		text = fixed(l.Value, l.Digits)
	case Range:
		text = fixed(l.Low, l.Digits)
		if high := fixed(l.High, l.Digits); high != text {
			text += " to " + high
		}
	}
	if text != "" && l.Unit != "" {
		text += " " + l.Unit
	}
	return strings.TrimSpace(text + "  " + l.Words)
}

// value is a line with one figure, range_ one with a range, say one of words.
func value(name string, v float64, unit string, digits int) Line {
	return Line{Name: name, Form: Figure, Value: v, Unit: unit, Digits: digits}
}

func between(name string, low, high float64, unit string, digits int) Line {
	return Line{Name: name, Form: Range, Low: low, High: high, Unit: unit, Digits: digits}
}

func say(name, words string) Line { return Line{Name: name, Form: Saying, Words: words} }

// on adds what a line rests on, with adds a remark.
func (l Line) on(basis string) Line { l.Basis = basis; return l }

func (l Line) with(words string) Line { l.Words = words; return l }

// fixed prints a figure with decimals; a zero never has a sign.
func fixed(v float64, digits int) string {
	text := strconv.FormatFloat(v, 'f', digits, 64)
	if strings.Trim(text, "-0.") == "" {
		return strings.TrimPrefix(text, "-")
	}
	return text
}

// join is strings.Join under a short name; whole prints a whole number.
func join(words []string, between string) string { return strings.Join(words, between) }

func whole(n int) string { return strconv.Itoa(n) }

func yes(b bool) string {
	if b {
		return "yes"
	}
	return "no"
}
