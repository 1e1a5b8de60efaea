package web

import (
	"math"
	"strconv"
	"strings"
	"time"
	"unicode/utf8"

	"matchmark/internal/machine"
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

// sentence begins with a capital letter.
func sentence(text string) string {
	r, size := utf8.DecodeRuneInString(text)
	return strings.ToUpper(string(r)) + text[size:]
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

// figure prints a value with the decimals its unit is read in.
func figure(v float64, unit string) string {
	if math.IsInf(v, 0) || math.IsNaN(v) {
		return "none"
	}
	return trimZeros(strconv.FormatFloat(v, 'f', decimals(v, unit), 64))
}

// decimals is the place a figure is printed to: microns where millimetres are
// meant, else three significant figures.
func decimals(v float64, unit string) int {
	if unit == "mm" {
		return 3
	}
	switch a := math.Abs(v); {
	case a >= 100:
		return 0
	case a >= 10:
		return 1
	case a >= 1 || a == 0:
		return 2
	}
	return 3
}

// trimZeros drops a last zero behind two decimals: 0.620 is 0.62, 92.000 is
// 92.00.
func trimZeros(text string) string {
	if i := strings.IndexByte(text, '.'); i >= 0 && len(text)-i == 4 && strings.HasSuffix(text, "0") {
		return text[:len(text)-1]
	}
	return text
}

// withUnit puts the unit behind a figure.
func withUnit(v float64, unit string) string {
	if unit == "" {
		return figure(v, unit)
	}
	return figure(v, unit) + " " + unit
}

// contains tells whether a name holds a word, whatever the capitals.
func contains(name, ask string) bool {
	return strings.Contains(strings.ToLower(name), strings.ToLower(ask))
}
