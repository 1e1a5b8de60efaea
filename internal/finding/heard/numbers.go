package heard

import (
	"slices"
	"strconv"
	"strings"
)

// units are the number words up to nineteen; tens those from twenty.
var units = map[string]int{"zero": 0, "nought": 0, "naught": 0, "one": 1, "two": 2, "three": 3, "four": 4, "five": 5, "six": 6,
	"seven": 7, "eight": 8, "nine": 9, "ten": 10, "eleven": 11, "twelve": 12, "thirteen": 13, "fourteen": 14, "fifteen": 15,
	"sixteen": 16, "seventeen": 17, "eighteen": 18, "nineteen": 19}

var tens = map[string]int{"twenty": 20, "thirty": 30, "forty": 40, "fourty": 40, "fifty": 50, "sixty": 60, "seventy": 70, "eighty": 80, "ninety": 90}

// parts are what a number word is divided by: three eighths.
var parts = map[string]int{"half": 2, "halves": 2, "quarter": 4, "quarters": 4, "eighth": 8, "eighths": 8, "sixteenth": 16, "sixteenths": 16}

// figures turns numbers said in words into figures: "twenty five", "point
// three", "nought point one five", "five sixteenths", "half a dozen".
func figures(in []word) []word {
	out := make([]word, 0, len(in))
	for i := 0; i < len(in); {
		text, n := spokenAt(in[i:])
		if n == 0 {
			out = append(out, in[i])
			i++
			continue
		}
		w := word{text: text, from: in[i].from, to: in[i+n-1].to, number: true, said: true, glued: in[i].glued}
		out = append(out, w)
		i += n
	}
	return out
}

// spokenAt reads a number in words at the start: its figures and how many
// words it took; none is 0.
func spokenAt(in []word) (string, int) {
	if t, n := several(in); n > 0 {
		return t, n
	}
	whole, n, inWords := wholeAt(in)
	if n > 0 && n < len(in) && parts[in[n].text] > 0 && whole > 0 && whole < parts[in[n].text] {
		return strconv.Itoa(whole) + "/" + strconv.Itoa(parts[in[n].text]), n + 1
	}
	if d, m := decimalsAt(in[n:]); m > 0 && (inWords || n == 0 || !strings.ContainsAny(in[0].text, "./")) {
		return strconv.Itoa(whole) + "." + d, n + m
	}
	if !inWords {
		return "", 0
	}
	return strconv.Itoa(whole), n
}

// several reads counts that are no numbers: a pair, half a dozen.
func several(in []word) (string, int) {
	for _, s := range []struct {
		says, is string
	}{{"half a dozen", "6"}, {"half dozen", "6"}, {"a dozen", "12"}, {"dozen", "12"}, {"a pair of", "2"}, {"pair of", "2"},
		{"a couple of", "2"}, {"couple of", "2"}, {"a half inch", ""}} {
		if n := begins(in, s.says); n > 0 && s.is != "" {
			return s.is, n
		}
	}
	if n := begins(in, "half inch"); n > 0 {
		return "1/2", 1
	}
	if len(in) > 1 && parts[in[0].text] > 0 && slices.Contains([]string{"inch", "unc", "unf", "whit", "whitworth", "bsf", "bsw"}, in[1].text) {
		return "1/" + strconv.Itoa(parts[in[0].text]), 1
	}
	return "", 0
}

// begins tells how many words a phrase takes at the start, 0 where it is not
// there.
func begins(in []word, phrase string) int {
	n := 0
	for f := range strings.FieldsSeq(phrase) {
		if n >= len(in) || in[n].text != f {
			return 0
		}
		n++
	}
	return n
}

// wholeAt reads a whole number; one in figures counts only as the front of a
// spoken decimal or fraction.
func wholeAt(in []word) (value, n int, inWords bool) {
	if len(in) == 0 {
		return 0, 0, false
	}
	if in[0].number {
		v, err := strconv.Atoi(in[0].text)
		if err != nil {
			return 0, 0, false
		}
		return v, 1, false
	}
	v, ok := units[in[0].text]
	if !ok {
		if v, ok = tens[in[0].text]; !ok {
			return 0, 0, false
		}
		n = 1
		if n < len(in) && in[n].text == "-" {
			n++
		}
		if n < len(in) && units[in[n].text] > 0 && units[in[n].text] < 10 {
			return v + units[in[n].text], n + 1, true
		}
		return v, 1, true
	}
	if len(in) > 1 && in[1].text == "hundred" && v > 0 {
		return hundreds(in, v)
	}
	return v, 1, true
}

func hundreds(in []word, v int) (value, n int, inWords bool) {
	n = 2
	rest := in[2:]
	if len(rest) > 1 && rest[0].text == "and" {
		rest = rest[1:]
		n++
	}
	if len(rest) > 0 && !rest[0].number {
		if more, m, ok := wholeAt(rest); ok && more < 100 {
			return v*100 + more, n + m, true
		}
	}
	return v * 100, 2, true
}

// decimalsAt reads "point one five", "point oh five", "point 3".
func decimalsAt(in []word) (digits string, n int) {
	if len(in) < 2 || in[0].text != "point" {
		return "", 0
	}
	for n = 1; n < len(in); n++ {
		w := in[n]
		v, small := units[w.text]
		switch {
		case w.text == "oh" || w.text == "o":
			digits += "0"
		case small && v < 10:
			digits += strconv.Itoa(v)
		case tens[w.text] > 0 && digits == "":
			v, m, _ := wholeAt(in[n:])
			return strconv.Itoa(v), n + m
		case w.number && digits == "" && !strings.ContainsAny(w.text, "./"):
			return w.text, n + 1
		default:
			return digits, zeroIf(digits == "", n)
		}
	}
	return digits, zeroIf(digits == "", n)
}

func zeroIf(none bool, n int) int {
	if none {
		return 0
	}
	return n
}

// count is the whole number of a word, -1 where it is none.
func (w word) count() int {
	if !w.number {
		return -1
	}
	n, err := strconv.Atoi(w.text)
	if err != nil || n > 999 {
		return -1
	}
	return n
}

// value is the number of a word; ok is false for a fraction or none.
func (w word) value() (float64, bool) {
	if !w.number {
		return 0, false
	}
	v, err := strconv.ParseFloat(w.text, 64)
	return v, err == nil
}

func (w word) isFraction() bool { return w.number && strings.Contains(w.text, "/") }
