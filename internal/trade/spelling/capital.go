package spelling

import "unicode"

// Inside takes the capital off a name that goes into a sentence; one that
// begins with an abbreviation or a mark keeps it: "PTO shaft", "M10 nut".
func Inside(name string) string {
	r := []rune(name)
	if len(r) == 1 || len(r) > 1 && unicode.IsUpper(r[0]) && unicode.IsLower(r[1]) {
		r[0] = unicode.ToLower(r[0])
	}
	return string(r)
}

// Head puts a capital at the head of a sentence.
func Head(text string) string {
	r := []rune(text)
	if len(r) > 0 {
		r[0] = unicode.ToUpper(r[0])
	}
	return string(r)
}
