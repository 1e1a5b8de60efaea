package heard

import (
	"strings"
	"unicode"
	"unicode/utf8"
)

// longest is how many bytes of a line are read; what follows is left over.
const longest = 2000

// word is one word, number or mark of the line.
type word struct {
	text     string // small letters; a number in digits, "0.3", "5/16"
	from, to int    // bytes of the line
	number   bool
	glued    bool // nothing stands between it and the one before
	said     bool // a number in words
	taken    Sort // what it was understood as
}

// split cuts a line into words: runs of letters, numbers, single marks.
func split(line string) []word {
	var out []word
	end := len(line)
	if end > longest {
		end = longest
		for end > 0 && !utf8.RuneStart(line[end]) {
			end--
		}
	}
	for i := 0; i < end; {
		r, n := utf8.DecodeRuneInString(line[i:])
		from := i
		switch {
		case unicode.IsSpace(r):
			i += n
			continue
		case startsNumber(line[i:end], out, from):
			i += numberRun(line[i:end])
		case fractionOf(r) != "":
			i += n
		case unicode.IsLetter(r):
			i += letterRun(line[i:end])
		default:
			i += n
		}
		w := word{text: strings.ToLower(line[from:i]), from: from, to: i, glued: len(out) > 0 && out[len(out)-1].to == from}
		w.number = isDigit(line[from]) || line[from] == '.' && i-from > 1
		if f := fractionOf(r); f != "" {
			w.text, w.number = f, true
		}
		if w.number {
			w.text = plain(w.text)
		}
		if w.text == "×" || w.text == "*" {
			w.text = "x"
		}
		out = append(out, w)
	}
	return out
}

// fractionOf spells the single-character fractions.
func fractionOf(r rune) string {
	return map[rune]string{'½': "1/2", '¼': "1/4", '¾': "3/4", '⅛': "1/8", '⅜': "3/8", '⅝': "5/8", '⅞': "7/8"}[r]
}

// plain writes a number with a point and a figure before it.
func plain(text string) string {
	text = strings.ReplaceAll(text, ",", ".")
	if strings.HasPrefix(text, ".") {
		text = "0" + text
	}
	return text
}

func isDigit(b byte) bool { return b >= '0' && b <= '9' }

// startsNumber: a digit, or a point before one that ends no other word.
func startsNumber(text string, before []word, at int) bool {
	if isDigit(text[0]) {
		return true
	}
	ends := len(before) > 0 && before[len(before)-1].to == at
	return text[0] == '.' && len(text) > 1 && isDigit(text[1]) && !ends
}

// numberRun is how long the number at the start is: digits with one point or
// decimal comma, or a fraction.
func numberRun(text string) int {
	i, marks := 0, 0
	for i < len(text) {
		switch c := text[i]; {
		case isDigit(c):
			i++
			continue
		case (c == '.' || c == ',' || c == '/') && marks == 0 && i+1 < len(text) && isDigit(text[i+1]):
			if c == ',' && countsNext(text[i+1:]) {
				return i
			}
			marks++
			i++
			continue
		}
		break
	}
	return i
}

// countsNext tells whether the figures behind a comma begin the next item,
// "tray 14,2 shims", rather than decimals.
func countsNext(text string) bool {
	rest := strings.ToLower(strings.TrimLeft(strings.TrimLeft(text, "0123456789"), " "))
	for _, s := range []string{"shim", "dot", "bolt", "nut", "stud", "screw", "off ", "m5", "m6", "m8", "m1", "x m", "broken", "missing", "punch"} {
		if strings.HasPrefix(rest, s) {
			return true
		}
	}
	return false
}

func letterRun(text string) int {
	for i, r := range text {
		apostrophe := (r == '\'' || r == '’') && i+utf8.RuneLen(r) < len(text)
		if !unicode.IsLetter(r) && !apostrophe && !unicode.Is(unicode.Mn, r) {
			return i
		}
	}
	return len(text)
}

// breaks tells whether a mark ends what is said of one thing.
func (w word) breaks() bool { return strings.ContainsAny(w.text, ",;.!?") && !w.number }

// isMark tells a single mark from a word.
func (w word) isMark() bool {
	r, _ := utf8.DecodeRuneInString(w.text)
	return !w.number && !unicode.IsLetter(r)
}

func onlyBlank(text string) bool { return strings.TrimSpace(text) == "" }

// stem takes the plural and the owner's s off a word.
func stem(w string) string {
	w = strings.TrimSuffix(strings.TrimSuffix(w, "'s"), "’s")
	switch {
	case len(w) < 4 || strings.HasSuffix(w, "ss") || strings.HasSuffix(w, "us"):
		return w
	case strings.HasSuffix(w, "ies"):
		return w[:len(w)-3] + "y"
	case strings.HasSuffix(w, "ches"), strings.HasSuffix(w, "shes"), strings.HasSuffix(w, "xes"), strings.HasSuffix(w, "sses"):
		return w[:len(w)-2]
	}
	return strings.TrimSuffix(w, "s")
}
