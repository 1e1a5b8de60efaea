package wedge

import (
	"fmt"
	"regexp"
	"strings"
	"unicode/utf8"
)

// Figure is a reading as a plain number.
type Figure struct {
	Text string // sign, digits and at most one point: "-0.123"; its zeros at the end are kept
	Unit string // mm or in
}

func (f Figure) String() string { return f.Text + " " + f.Unit }

// figureForm is a figure behind its prefix, spaces made single: sign, whole
// digits, decimal mark and digits, unit parted by a mark or not, and a mark
// that a box between may add at the end.
var figureForm = regexp.MustCompile(`^([+-]?) ?([0-9]{0,9})(?:([.,])([0-9]{0,9}))? ?([,;:]?) ?((?i:mm|inch|in)|"|″)? ?([,;]?)$`)

// Read makes a figure of what arrived. The unit sent goes before the profile's.
// Errors: *Refusal.
func (p Profile) Read(raw string) (Figure, error) {
	if utf8.RuneCountInString(raw) > longest || !utf8.ValidString(raw) {
		return Figure{}, &Refusal{raw, NotReading}
	}
	text := plain(raw)
	if text == "" {
		return Figure{}, &Refusal{raw, Nothing}
	}
	text = plain(cutPrefix(p.Prefix, text))
	m := figureForm.FindStringSubmatch(text)
	if m == nil || m[2]+m[4] == "" {
		return Figure{}, &Refusal{raw, whyNot(text)}
	}
	sign, whole, mark, part := m[1], m[2], m[3], m[4]
	if mark == "," && part != "" {
		switch {
		case p.Mark == Point:
			return Figure{}, &Refusal{raw, HasComma}
		case m[5] == "," || m[7] == ",":
			return Figure{}, &Refusal{raw, TwoCommas}
		}
	}
	f := Figure{Text: number(sign, whole, part), Unit: p.Unit}
	switch strings.ToLower(m[6]) {
	case "mm":
		f.Unit = MM
	case "in", "inch", `"`, "″":
		f.Unit = Inch
	}
	return f, nil
}

// number joins the digits without zeros in front, and without a minus before
// nothing.
func number(sign, whole, part string) string {
	whole = strings.TrimLeft(whole, "0")
	out := whole
	if out == "" {
		out = "0"
	}
	if part != "" {
		out += "." + part
	}
	if sign == "-" && strings.Trim(whole+part, "0") != "" {
		out = "-" + out
	}
	return out
}

// spaces are the blanks and unseen characters that mean nothing in a reading:
// control characters, spaces of all widths, the mark of byte order.
const spaces = "\u0085\u00a0\u1680\u2000\u2001\u2002\u2003\u2004\u2005\u2006\u2007\u2008\u2009\u200a\u200b\u2028\u2029\u202f\u205f\u3000\ufeff"

// minuses are the characters that tools and keyboards send for a minus.
const minuses = "\u2010\u2011\u2012\u2013\u2212\ufe63\uff0d"

// plain makes blanks single spaces, takes them off the ends, and makes every
// minus the one of the keyboard.
func plain(raw string) string {
	text := strings.Map(func(r rune) rune {
		switch {
		case r < ' ' || r == 0x7f || strings.ContainsRune(spaces, r):
			return ' '
		case strings.ContainsRune(minuses, r):
			return '-'
		}
		return r
	}, raw)
	return strings.Trim(manySpaces.ReplaceAllString(text, " "), " ")
}

var (
	manySpaces = regexp.MustCompile(` {2,}`)
	twoFigures = regexp.MustCompile(`[0-9] ?[a-zA-Z"″]{0,4}[ ,;]+[+-]?[0-9]`)
)

// whyNot tells two readings in one from what is no reading.
func whyNot(text string) Why {
	if twoFigures.MatchString(text) {
		return TwoFigures
	}
	return NotReading
}

// Why a reading is refused.
type Why string

const (
	Nothing    Why = "nothing arrived"
	NotReading Why = "not a reading"
	TwoFigures Why = "two figures"
	HasComma   Why = "comma for a point"
	TwoCommas  Why = "comma twice"
)

// Refusal names what arrived and why it is not taken.
type Refusal struct {
	Raw string
	Why Why
}

func (r *Refusal) Error() string {
	raw := r.Raw
	if utf8.RuneCountInString(raw) > 40 {
		raw = string([]rune(raw)[:40]) + "…"
	}
	switch r.Why {
	case Nothing:
		return "nothing arrived"
	case TwoFigures:
		return fmt.Sprintf("%q is two figures in one", raw)
	case HasComma:
		return fmt.Sprintf("%q has a comma where this tool sends a point; teach the tool again, or key the figure in", raw)
	case TwoCommas:
		return fmt.Sprintf("%q has a comma as decimal mark and one more; set the tool so that only one is sent", raw)
	}
	return fmt.Sprintf("%q is not a reading", raw)
}
