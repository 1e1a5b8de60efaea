package heard

import (
	"slices"
	"strconv"
	"strings"
)

// series are the inch threads by their usual short names; what is said in full
// is shortened.
var series = map[string]string{"unc": "UNC", "unf": "UNF", "unef": "UNEF", "bsf": "BSF", "bsw": "BSW", "whit": "BSW", "whitworth": "BSW", "w": "BSW",
	"bsp": "BSP", "bspt": "BSPT", "npt": "NPT", "ba": "BA"}

// sizeAt reads the size of a thread, with its pitch and length: "M8x1.25x25",
// "M eight by twenty five", "5/16 UNC x 1", "2BA". The size comes back in one
// spelling; n is how many words it took.
func (r *reader) sizeAt(i int) (size string, n int) {
	w := r.free(i)
	if w.text == "m" && r.free(i+1).number && !r.free(i+1).isFraction() {
		return r.metric(i)
	}
	if !w.number {
		return "", 0
	}
	if w.isFraction() || r.is(i+1, "inch", `"`) || series[r.free(i+1).text] != "" {
		return r.inches(i)
	}
	if r.is(i+1, "mm", "mil", "millimetre") {
		if noun, n := r.nounAt(i + 2); n > 0 && noun != "washer" {
			return w.text + " mm", 2
		}
	}
	return "", 0
}

// metric reads M and its figures. Of two figures behind the diameter the
// smaller is the pitch; a lone one is a pitch only where it could be no length.
func (r *reader) metric(i int) (string, int) {
	d, ok := r.w[i+1].value()
	if !ok || d < 1 || d > 64 {
		return "", 0
	}
	at := i + 2
	var more []string
	for len(more) < 2 {
		next := at
		by := r.is(next, "x", "by", "times", "-")
		if by {
			next++
		}
		f := r.free(next)
		v, ok := f.value()
		if !ok || v <= 0 || v > 400 || !by && !r.bareLength(next, v) {
			break
		}
		if by && len(more) == 0 && r.is(at, "x") && r.is(next+1, "off") {
			break // "M8 x 4 off" is a count
		}
		if len(more) == 1 && r.countBehindLength(d, more[0], f) {
			break
		}
		more = append(more, f.text)
		at = next + 1
		if r.is(at, "mm", "mil", "millimetre", "millimetres") {
			at++
		}
	}
	if len(more) == 1 && r.countNotLength(i, at, more[0]) {
		more, at = nil, i+2
	}
	size := "M" + trimmed(r.w[i+1].text)
	if fine := r.is(at, "fine"); fine && len(more) == 0 {
		return size + " fine", at + 1 - i
	}
	for _, m := range ordered(d, more) {
		size += "x" + trimmed(m)
	}
	return size, at - i
}

// bareLength takes a figure without "by" as a length: "M8 25 long", or both in
// words, "M eight twenty five".
func (r *reader) bareLength(i int, v float64) bool {
	if v < 8 {
		return false
	}
	mm := r.is(i+1, "mm", "mil")
	next := i + 1
	if mm {
		next++
	}
	return r.is(next, "long") || mm && r.at(next).text != "head" && r.at(next).text != "heads" || r.at(i).said && r.at(i-1).said
}

// countNotLength tells "M8 x 4" as a count: no bolt is shorter than half its
// thickness, and no count stands in front.
func (r *reader) countNotLength(i, at int, text string) bool {
	v, err := strconv.ParseFloat(text, 64)
	d, _ := r.w[i+1].value()
	counted := r.free(i-1).count() > 0 || r.is(i-1, "off", "x")
	_, noun := r.nounAt(i - 1)
	return err == nil && !strings.Contains(text, ".") && v >= 2 && v < d*0.75 && v > d/3 && !counted && (noun > 0 || at >= len(r.w) || r.at(at).breaks())
}

// countBehindLength tells the 4 of "M8x25 x4" as a count: it is shorter than
// the length and too coarse for a pitch.
func (r *reader) countBehindLength(d float64, length string, f word) bool {
	l, err := strconv.ParseFloat(length, 64)
	return err == nil && f.count() > 0 && float64(f.count()) < l && float64(f.count()) > d/4
}

// ordered puts a pitch in front of a length.
func ordered(d float64, more []string) []string {
	if len(more) == 2 {
		a, _ := strconv.ParseFloat(more[0], 64)
		b, _ := strconv.ParseFloat(more[1], 64)
		if a > b && b < d/2 && b <= 6 {
			slices.Reverse(more)
		}
	}
	return more
}

// trimmed drops a nought that was only said: "08" stays, "8.0" is 8.
func trimmed(text string) string { return strings.TrimSuffix(text, ".0") }

// inches reads a size in inches: "5/16 UNC x 1", "1/4-20 x 3/4", "3/8 whit".
func (r *reader) inches(i int) (string, int) {
	size := r.w[i].text
	at := i + 1
	known := false
	if r.is(at, "inch", `"`, "in") && !(r.is(at, "in") && !r.at(at).glued) {
		at++
	}
	if r.is(at, "-") && r.free(at+1).count() >= 8 {
		size += "-" + r.w[at+1].text
		at, known = at+2, true
	}
	if s := series[r.free(at).text]; s != "" && (s != "BSW" || r.free(at).text != "w" || r.at(at).glued) {
		if s == "BA" {
			size += s
		} else {
			size += " " + s
		}
		at, known = at+1, true
	}
	if r.is(at, "x", "by") && r.free(at+1).number {
		length := r.w[at+1].text
		at += 2
		if r.free(at).isFraction() && !r.w[at-1].isFraction() {
			length += " " + r.w[at].text
			at++
		} else if r.is(at, "-") && r.free(at+1).isFraction() {
			length += " " + r.w[at+1].text
			at += 2
		}
		size += " x " + length
		known = true
		if r.is(at, "inch", "inches", `"`, "in") && !(r.is(at, "in") && !r.at(at).glued) {
			at++
		}
	}
	if _, noun := r.nounAt(at); noun > 0 && r.w[i].isFraction() {
		known = true
	}
	if !known {
		return "", 0
	}
	return size, at - i
}
