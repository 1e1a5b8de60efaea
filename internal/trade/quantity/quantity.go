package quantity

import (
	"math"
	"math/big"
	"strings"
	"unicode/utf8"
)

// Quantity is a value with its meaning and the words it came in.
type Quantity struct {
	Value float64   // in the inside unit of Dim
	Dim   Dimension // what it measures
	Typed string    // the text as typed
	Unit  string    // symbol of the unit typed or assumed
	Step  float64   // place value of the last digit typed, in the inside unit
	Note  string    // how a doubtful spelling was read; often empty
}

const maxText = 120 // bytes of one typed quantity

// Parse reads one quantity. want is the dimension asked for, AnyDimension to
// take what comes. deflt is the symbol of the unit to assume when none is
// typed; "" refuses a bare number, except where want is a ratio, a count or a
// number.
//
// A lone comma is a decimal comma: "1,234" is 1.234. With comma and point the
// later one is the decimal mark. "Ra" before or after a number makes it a
// roughness.
//
// Errors: NumberError, NoUnitError, DimensionError, AmbiguousError,
// UnknownUnitError. A value that is returned is finite.
func Parse(text string, want Dimension, deflt string) (Quantity, error) {
	body := trimSpaces(text)
	switch {
	case body == "":
		return Quantity{}, NumberError{Typed: text}
	case len(text) > maxText || !utf8.ValidString(text):
		return Quantity{}, NumberError{Typed: shorten(text), Why: "is not one quantity"}
	}
	if value, ok := leadingRa(body); ok {
		if want == AnyDimension {
			want = Roughness
		}
		if want != Roughness {
			return Quantity{}, DimensionError{Typed: text, Got: Roughness, Want: want}
		}
		body, deflt = value, "µm"
	}
	n, why := scanNumber(body)
	if why != "" {
		return Quantity{}, NumberError{Typed: text, Why: why}
	}
	f, err := unitOf(text, n, want, deflt)
	if err != nil {
		return Quantity{}, err
	}
	return build(text, n, f)
}

// leadingRa cuts the roughness mark from "Ra 0.4" and "Ra = 0.4".
func leadingRa(body string) (value string, ok bool) {
	after, found := strings.CutPrefix(body, "Ra")
	value = strings.TrimPrefix(trimSpaces(after), "=")
	value = trimSpaces(value)
	return value, found && value != "" && (isDigit(rune(value[0])) || value[0] == '.' || value[0] == ',')
}

// unitOf finds the unit typed behind a number, or the one to assume.
func unitOf(text string, n number, want Dimension, deflt string) (found, error) {
	if n.rest != "" {
		f, err := lookup(text, n.rest, want)
		if _, unknown := err.(UnknownUnitError); unknown && startsNumber(n.rest) {
			return found{}, NumberError{Typed: text, Why: "holds more than one number"}
		}
		return f, err
	}
	if deflt != "" {
		return lookup(text, deflt, want)
	}
	if entry, ok := info(want); ok && entry.bare {
		u, _ := bySymbol(want, "")
		return found{unit: u}, nil
	}
	if want == AnyDimension && n.form == proportion {
		u, _ := bySymbol(Ratio, "")
		return found{unit: u}, nil
	}
	return found{}, NoUnitError{Typed: text, Want: want}
}

// startsNumber reports whether a text goes on with another number.
func startsNumber(rest string) bool {
	rest = strings.TrimLeft(rest, "-+\u2212\u2013±/:., ")
	return rest != "" && (isDigit(rune(rest[0])) || startsWithGlyph(rest))
}

// build turns a number and a unit into a quantity and checks its range.
func build(text string, n number, f found) (Quantity, error) {
	u := f.unit
	switch {
	case n.form == fraction && !u.binary:
		return Quantity{}, NumberError{Typed: text, Why: "is a fraction; " + string(u.dim) + " in " + u.symbol + " is written as a decimal"}
	case n.form == proportion && !(u.dim == Ratio && u.symbol == ""):
		return Quantity{}, NumberError{Typed: text, Why: "is a proportion; one number was wanted"}
	case u.dim == Count && (!n.value.IsInt() || n.value.Sign() < 0):
		return Quantity{}, NumberError{Typed: text, Why: "is not a count: a whole number was wanted"}
	}
	inside, ok := u.toInside(n.value)
	if !ok {
		return Quantity{}, NumberError{Typed: text, Why: "must not be zero"}
	}
	if u.dim == Temperature && inside.Cmp(absoluteZero) < 0 {
		return Quantity{}, NumberError{Typed: text, Why: "is below absolute zero"}
	}
	value, _ := inside.Float64()
	if math.IsInf(value, 0) || (value == 0 && inside.Sign() != 0) {
		return Quantity{}, NumberError{Typed: text, Why: "is out of range"}
	}
	step, ok := stepInside(n, u)
	if !ok {
		return Quantity{}, NumberError{Typed: text, Why: "is out of range"}
	}
	return Quantity{Value: value, Dim: u.dim, Typed: text, Unit: u.symbol, Step: step, Note: f.note}, nil
}

// absoluteZero in °C.
var absoluteZero = exact("-273.15")

// stepInside carries the step of the last digit to the inside unit; for an
// inverse unit by the slope mul/x² at the value.
func stepInside(n number, u unit) (float64, bool) {
	step := new(big.Rat).Mul(n.step, u.mul)
	if u.inverse {
		step.Quo(step, new(big.Rat).Mul(n.value, n.value))
	}
	value, _ := step.Float64()
	return math.Abs(value), value != 0 && !math.IsInf(value, 0)
}

// shorten keeps the start of a text that is too long to repeat.
func shorten(text string) string {
	text = strings.ToValidUTF8(text, "?")
	if r := []rune(text); len(r) > 40 {
		return string(r[:40]) + "…"
	}
	return text
}
