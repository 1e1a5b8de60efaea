package quantity

import (
	"math/big"
	"strings"
)

// form is how a number was written.
type form int

const (
	decimal form = iota
	fraction
	proportion // 22:1
)

// number is what was read of the number part of a text.
type number struct {
	value *big.Rat
	step  *big.Rat // place value of the last digit; 1/8 for 3/8
	form  form
	rest  string // what follows, without leading spaces
}

const (
	maxDigits   = 40 // digits and separators of one number
	maxExponent = 3  // digits of a power of ten
)

// glyphs are the single-character fractions.
var glyphs = map[rune]string{
	'½': "1/2", '¼': "1/4", '¾': "3/4", '⅛': "1/8", '⅜': "3/8", '⅝': "5/8", '⅞': "7/8", '⅓': "1/3", '⅔': "2/3",
}

// scanNumber reads one number from the start of a trimmed text: sign, then
// a decimal, a fraction, a whole number with a fraction, or a proportion.
// A lone comma or point is the decimal mark; with both present the later one
// is. Several commas, or several points, or narrow spaces, part thousands and
// must stand before groups of three.
// why is empty on success and otherwise says what is wrong.
func scanNumber(text string) (n number, why string) {
	negative := false
	for _, sign := range []string{"-", "\u2212", "\u2013", "+"} {
		if after, ok := strings.CutPrefix(text, sign); ok {
			text, negative = strings.TrimLeft(after, " "), sign != "+"
			break
		}
	}
	run := leadingRun(text)
	n, why = scanUnsigned(run, text[len(run):])
	if why == "" && negative {
		n.value.Neg(n.value)
	}
	return n, why
}

// leadingRun cuts the digits, marks and narrow group spaces at the start.
func leadingRun(text string) string {
	end := 0
	for i, r := range text {
		switch {
		case isDigit(r) || r == '.' || r == ',':
			end = i + len(string(r))
		case isGroupSpace(r) && i == end && end > 0 && groupFollows(text[i+len(string(r)):]):
			end = i + len(string(r))
		default:
			return text[:end]
		}
	}
	return text[:end]
}

// groupFollows reports whether text starts with exactly three digits.
func groupFollows(text string) bool {
	digits := 0
	for digits < len(text) && isDigit(rune(text[digits])) {
		digits++
	}
	return digits == 3 && (len(text) == 3 || text[3] != '/')
}

func isDigit(r rune) bool { return r >= '0' && r <= '9' }

// isGroupSpace reports the spaces that part groups of digits (SI Brochure
// 5.4.4); an ordinary space does not, for it also parts two numbers.
func isGroupSpace(r rune) bool {
	return r == '\u00a0' || r == '\u2009' || r == '\u202f' || r == '\u2007'
}

// scanUnsigned joins a run of digits with what follows it.
func scanUnsigned(run, rest string) (number, string) {
	if len(run) > maxDigits {
		return number{}, "has too many digits"
	}
	if n, why, found := scanFraction(run, rest); found {
		return n, why
	}
	if run == "" {
		return number{}, "does not start with a number"
	}
	plain, decimals, why := plainDecimal(run)
	if why != "" {
		return number{}, why
	}
	exponent, rest, why := scanExponent(rest)
	if why != "" {
		return number{}, why
	}
	value, ok := new(big.Rat).SetString(plain + "e" + exponent)
	step, _ := new(big.Rat).SetString("1e" + exponent)
	if !ok {
		return number{}, "is not a number"
	}
	for range decimals {
		step.Quo(step, big.NewRat(10, 1))
	}
	n := number{value: value, step: step, rest: trimSpaces(rest)}
	if after, found := strings.CutPrefix(n.rest, ":"); found {
		return scanProportion(n, trimSpaces(after))
	}
	return n, ""
}

// scanExponent reads "e-3"; without one the exponent is "0".
func scanExponent(rest string) (exponent, after, why string) {
	if rest == "" || (rest[0] != 'e' && rest[0] != 'E') {
		return "0", rest, ""
	}
	i := 1
	if i < len(rest) && (rest[i] == '-' || rest[i] == '+') {
		i++
	}
	start := i
	for i < len(rest) && isDigit(rune(rest[i])) {
		i++
	}
	if i == start {
		return "0", rest, ""
	}
	if i-start > maxExponent {
		return "", "", "is out of range"
	}
	return rest[1:i], rest[i:], ""
}

// scanFraction reads "3/8", "1 1/2", "1-1/2", "½" and "1½"; found is false
// where no fraction stands.
func scanFraction(run, rest string) (n number, why string, found bool) {
	whole, top, after := "0", run, rest
	switch {
	case startsWithGlyph(trimSpaces(rest)):
		text := trimSpaces(rest)
		r := []rune(text)[0]
		if run != "" {
			whole = run
		}
		return joinFraction(whole, glyphs[r], strings.TrimPrefix(text, string(r)))
	case allDigits(run) && !startsWithSlash(rest):
		after = strings.TrimLeft(trimSpaces(rest), "-")
		whole, top = run, leadingDigits(after)
		after = after[len(top):]
	}
	if !allDigits(top) || !startsWithSlash(after) {
		return number{}, "", false
	}
	_, after, _ = cutSlash(after)
	bottom := leadingDigits(after)
	if bottom == "" {
		return number{}, "", false
	}
	return joinFraction(whole, top+"/"+bottom, after[len(bottom):])
}

// joinFraction adds a whole number and a fraction "a/b".
func joinFraction(whole, part, rest string) (number, string, bool) {
	top, bottom, _ := strings.Cut(part, "/")
	if !allDigits(whole) || len(top) > 6 || len(bottom) > 4 {
		return number{}, "is not a fraction that can be read", true
	}
	a, _ := new(big.Rat).SetString(whole)
	t, _ := new(big.Rat).SetString(top)
	b, _ := new(big.Rat).SetString(bottom)
	if b.Sign() == 0 {
		return number{}, "divides by zero", true
	}
	if a.Sign() != 0 && t.Cmp(b) >= 0 {
		return number{}, "is not a whole number and a proper fraction", true
	}
	step := new(big.Rat).Inv(b)
	a.Add(a, t.Quo(t, b))
	return number{value: a, step: step, form: fraction, rest: trimSpaces(rest)}, "", true
}

// scanProportion reads the second half of "22:1".
func scanProportion(n number, after string) (number, string) {
	run := leadingRun(after)
	plain, _, why := plainDecimal(run)
	if why != "" {
		return number{}, why
	}
	second, ok := new(big.Rat).SetString(plain)
	if !ok || second.Sign() == 0 {
		return number{}, "is not a proportion that can be read"
	}
	n.value.Quo(n.value, second)
	n.step.Quo(n.step, second)
	n.form, n.rest = proportion, trimSpaces(after[len(run):])
	return n, ""
}
