package quantity

import (
	"math/big"
	"strings"
)

// unit is one row of the unit table. Inside value = typed·mul + add, or
// mul / typed for an inverse unit such as threads per inch.
type unit struct {
	dim     Dimension
	symbol  string // as printed
	mul     *big.Rat
	add     *big.Rat
	inverse bool
	binary  bool     // fractions such as 3/8 are usual with it
	strict  bool     // upper and lower case must be as listed
	names   []string // other spellings; "·" stands for any separator or none
	note    string
}

// exact multiplies decimal constants without rounding. The texts are
// constants of this package; one that is not a number is a programmer's error.
func exact(factors ...string) *big.Rat {
	product := big.NewRat(1, 1)
	for _, text := range factors {
		r, ok := new(big.Rat).SetString(text)
		if !ok {
			panic("quantity: bad constant " + text)
		}
		product.Mul(product, r)
	}
	return product
}

// over divides two exact products.
func over(a, b *big.Rat) *big.Rat { return new(big.Rat).Quo(a, b) }

// toInside converts a number in the unit to the inside unit; ok is false for
// zero of an inverse unit.
func (u unit) toInside(typed *big.Rat) (inside *big.Rat, ok bool) {
	if u.inverse {
		if typed.Sign() == 0 {
			return nil, false
		}
		return over(u.mul, typed), true
	}
	inside = new(big.Rat).Mul(typed, u.mul)
	if u.add != nil {
		inside.Add(inside, u.add)
	}
	return inside, true
}

// fromInside is the opposite of toInside.
func (u unit) fromInside(inside *big.Rat) (typed *big.Rat, ok bool) {
	if u.inverse {
		return u.toInside(inside)
	}
	typed = new(big.Rat).Set(inside)
	if u.add != nil {
		typed.Sub(typed, u.add)
	}
	return typed.Quo(typed, u.mul), true
}

// key brings a unit as typed to the form in which spellings are compared:
// one mark "·" for any run of spaces, points, stars, hyphens between letters,
// signs of one meaning made one. Case is kept.
func key(text string) string {
	text = unitMarks.Replace(text)
	var b strings.Builder
	gap := false
	for _, r := range text {
		if strings.ContainsRune(" ·.*-", r) {
			gap = true
			continue
		}
		if gap && b.Len() > 0 {
			b.WriteRune('·')
		}
		gap = false
		b.WriteRune(r)
	}
	return b.String()
}

// unitMarks makes marks of one meaning one mark.
var unitMarks = strings.NewReplacer(
	"\u00a0", " ", "\u2009", " ", "\u202f", " ", "\u2007", " ", "\t", " ",
	"\u22c5", "·", "\u2219", "·", "\u2022", "·", "\u00d7", "·", "\u2011", "-", "\u2010", "-",
	"\u2212", "-", "\u207b", "-",
	"\u03bc", "µ", "\u2126", "Ω", "\u00ba", "°", "\u2103", "°C", "\u2109", "°F",
	"\u2033", `"`, "\u201d", `"`, "\u201c", `"`, "\u2032", "'", "\u2019", "'", "''", `"`,
	"\u00b9", "1", "\u00b2", "2", "\u00b3", "3", "^", "", " /", "/", "/ ", "/",
)

// spellings lists every key under which a unit is found.
func (u unit) spellings() []string {
	var list []string
	for _, name := range append([]string{u.symbol}, u.names...) {
		k := key(name)
		list = append(list, k)
		if joined := strings.ReplaceAll(k, "·", ""); joined != k {
			list = append(list, joined)
		}
	}
	return list
}
