package spelling

import (
	"strings"
	"unicode"
	"unicode/utf8"
)

// An puts "a" or "an" in front of a name, by how it is spoken: "an oil seal",
// "a unit", "an M8 nut", "an 8 mm pin".
// Source: common English usage, from memory.
func An(name string) string {
	if spokenOpen(name) {
		return "an " + name
	}
	return "a " + name
}

// spokenOpen tells whether a name begins with a vowel as it is spoken.
func spokenOpen(name string) bool {
	first, n := utf8.DecodeRuneInString(name)
	second, _ := utf8.DecodeRuneInString(name[n:])
	switch {
	case unicode.IsDigit(first):
		whole := name[:len(name)-len(strings.TrimLeft(name, "0123456789"))]
		return first == '8' || whole == "11" || whole == "18"
	case !unicode.IsLower(second): // a letter said by its name: O-ring, M8, SAE
		return strings.ContainsRune("AEFHILMNORSXaefhilmnorsx", first)
	}
	word := strings.ToLower(name)
	for _, shut := range []string{"uni", "use", "usu", "eu", "one", "once"} {
		if strings.HasPrefix(word, shut) {
			return false
		}
	}
	return strings.ContainsRune("aeiou", unicode.ToLower(first)) || strings.HasPrefix(word, "hour")
}
