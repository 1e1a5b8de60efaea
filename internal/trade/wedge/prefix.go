package wedge

import (
	"strings"
	"unicode/utf8"
)

// anyDigit and anyLetter are the two signs of a prefix that stand for more
// than themselves.
const (
	anyDigit  = '#'
	anyLetter = '@'
)

// longestPrefix is how many characters a prefix has at most.
const longestPrefix = 16

func prefixFault(prefix string) error {
	if prefix == "" {
		return nil
	}
	if utf8.RuneCountInString(prefix) > longestPrefix || !utf8.ValidString(prefix) {
		return &FaultError{"prefix", "a prefix has 16 characters at most"}
	}
	for _, r := range plain(prefix) {
		if r != anyDigit && !isDigit(r) && !strings.ContainsRune("+-., ", r) {
			return nil
		}
	}
	return &FaultError{"prefix", "a prefix needs a letter or a mark beside its digits; without one a figure keyed in would lose its first digits"}
}

// cutPrefix takes a prefix off a plain text that begins with it. One that does
// not, such as a figure keyed in by hand, comes back whole.
func cutPrefix(prefix, text string) string {
	rest := text
	for _, want := range plain(prefix) {
		r, size := utf8.DecodeRuneInString(rest)
		switch {
		case size == 0:
			return text
		case want == anyDigit && isDigit(r), want == anyLetter && isLetter(r), want == r:
			rest = rest[size:]
		default:
			return text
		}
	}
	return rest
}

func isDigit(r rune) bool  { return r >= '0' && r <= '9' }
func isLetter(r rune) bool { return r >= 'a' && r <= 'z' || r >= 'A' && r <= 'Z' }
