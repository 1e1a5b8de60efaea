package web

import (
	"math"
	"strconv"
	"strings"
	"time"
	"unicode/utf8"

	"matchmark/internal/machine"
	"matchmark/internal/trade/metrology"
)

// plural joins a count and its noun: "1 point", "3 points".
func plural(n int, one, many string) string {
	if n == 1 {
		return "1 " + one
	}
	return strconv.Itoa(n) + " " + many
}

// clip keeps the start of a text that is too long to repeat.
func clip(text string, n int) string {
	if utf8.RuneCountInString(text) <= n {
		return text
	}
	return string([]rune(text)[:n]) + "…"
}

// calling is how a machine is named under a page's title.
func calling(m *machine.Machine) string {
	if m.Serial == "" {
		return m.Name
	}
	return m.Name + ", no. " + m.Serial
}

func titleOf(m *machine.Machine, asOf time.Time) titleBlock {
	return titleBlock{Machine: m.Name, Number: m.Serial, Owner: m.Owner, AsOf: minute(asOf)}
}

// day is a date as written in a shop: "1 Dec 2026".
func day(t time.Time) string { return t.Format("2 Jan 2006") }

// minute adds the time of day.
func minute(t time.Time) string { return t.Format("2 Jan 2006, 15:04") }

// lately says only the time for the same day, the day as well for another.
func lately(t, now time.Time) string {
	if t.In(now.Location()).Format(time.DateOnly) == now.Format(time.DateOnly) {
		return t.In(now.Location()).Format("15:04")
	}
	return t.In(now.Location()).Format("2 Jan, 15:04")
}

// figure prints a value as its unit is read: millimetres to the micron, the
// rest to four figures.
func figure(v float64, unit string) string {
	switch {
	case math.IsInf(v, 0) || math.IsNaN(v):
		return "none"
	case unit == "mm":
		return trimZeros(strconv.FormatFloat(v, 'f', 3, 64), 2)
	}
	places := 3
	for a := math.Abs(v); a >= 10 && places > 0; a /= 10 {
		places--
	}
	return trimZeros(strconv.FormatFloat(v, 'f', places, 64), 0)
}

// trimZeros drops zeros behind a number of decimals: with 2, 0.620 is 0.62 and
// 92.000 is 92.00.
func trimZeros(text string, least int) string {
	point := strings.IndexByte(text, '.')
	if point < 0 {
		return text
	}
	for len(text)-point-1 > least && text[len(text)-1] == '0' {
		text = text[:len(text)-1]
	}
	return strings.TrimSuffix(text, ".")
}

// withUnit puts the unit behind a figure; a ratio has none.
func withUnit(v float64, unit string) string {
	if unit == "" || unit == "ratio" {
		return figure(v, unit)
	}
	return figure(v, unit) + " " + unit
}

// contains tells whether a name holds a word, whatever the capitals.
func contains(name, ask string) bool {
	return strings.Contains(strings.ToLower(name), strings.ToLower(ask))
}

// percent says a probability to whole hundredths, never 0 or 100 for what is
// not so.
func percent(p float64) string {
	switch {
	case p > 0.99 && p < 1:
		return "over 99 %"
	case p > 0 && p < 0.01:
		return "under 1 %"
	}
	return strconv.FormatFloat(100*p, 'f', 0, 64) + " %"
}

// figureOf prints an amount without its unit.
func figureOf(a machine.Amount) string { return figure(a.Value, a.Unit) }

// toolName is an instrument's name; one that no list has goes by its id.
func toolName(id string) string {
	if in, ok := metrology.InstrumentByID(id); ok {
		return in.Name
	}
	if id == "" {
		return "instrument not named"
	}
	return id
}
