package spelling

import (
	"unicode"
	"unicode/utf8"
)

// Inside takes the capital off a name that goes into a sentence; one that
// begins with an abbreviation or a mark keeps it: "PTO shaft", "M10 nut".
func Inside(name string) string {
	first, n := utf8.DecodeRuneInString(name)
	second, _ := utf8.DecodeRuneInString(name[n:])
	if len(name) == n || unicode.IsUpper(first) && unicode.IsLower(second) {
		return recased(name, unicode.ToLower(first), n)
	}
	return name
}

// Head puts a capital at the head of a sentence.
func Head(text string) string {
	first, n := utf8.DecodeRuneInString(text)
	return recased(text, unicode.ToUpper(first), n)
}

// recased puts another letter in the place of the first, which takes n bytes.
func recased(text string, first rune, n int) string {
	if n == 0 || text[:n] == string(first) {
		return text
	}
	return string(first) + text[n:]
}
