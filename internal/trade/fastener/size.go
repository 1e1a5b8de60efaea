package fastener

import (
	"regexp"
	"strconv"
	"strings"
)

// Size is a fastener as written on a label: "M10x1.25x60", "M8x35 10.9",
// "M12x1.25 nut".
type Size struct {
	Thread   Thread
	Guessed  bool    // no pitch was written: the coarse thread was taken
	LengthMM float64 // 0 where none was written
	Mark     string  // the class, where one stands there: "10.9"
	Words    string  // what else stands there: "brass nut"
}

var (
	sizeText  = regexp.MustCompile(`^(?i:M\s*)(\d+(?:[.,]\d+)?)(?:\s*[x×*]\s*(\d+(?:[.,]\d+)?))?(?:\s*[x×*]\s*(\d+(?:[.,]\d+)?))?(?:$|[\s,])`)
	inchText  = regexp.MustCompile(`^(\d+(?:-\d+)?/\d+|\d+)-(\d+)\s*(UN[CF])(?:\s*[x×*]\s*\S+)?(?:$|[\s,])`)
	classText = regexp.MustCompile(`\b(?:4\.6|4\.8|5\.6|5\.8|6\.8|8\.8|9\.8|10\.9|12\.9)\b|\b[Gg]rade [258]\b`)
)

// Size reads a fastener. Of M8x35 the 35 is a length, for no pitch of the table
// is above 6 mm or above half its diameter. Errors: UnknownThreadError, also for what is no
// threaded fastener at all: "dowel 12".
func (l List) Size(text string) (Size, error) {
	text = strings.TrimSpace(text)
	s := Size{Mark: strings.ToLower(classText.FindString(text))}
	name, end := "", 0
	if m := sizeText.FindStringSubmatch(text); m != nil {
		d, first, second := number(m[1]), number(m[2]), number(m[3])
		end = len(m[0])
		name = "M" + strings.ReplaceAll(m[1], ",", ".")
		switch {
		case first > 0 && first <= min(6, d/2):
			name += "x" + strings.ReplaceAll(m[2], ",", ".")
			s.LengthMM = second
		default:
			s.Guessed, s.LengthMM = true, first
		}
		name = l.coarse(name)
	} else if m := inchText.FindStringSubmatch(text); m != nil {
		name, end = m[1]+"-"+m[2]+" "+m[3], len(m[0])
	}
	if name == "" {
		return Size{}, UnknownThreadError{Text: text}
	}
	t, err := l.Named(name)
	if err != nil {
		return Size{}, err
	}
	s.Thread = t
	s.Words = strings.Trim(strings.Replace(text[end:], classText.FindString(text), "", 1), " ,")
	return s, nil
}

// coarse turns "M10x1.5" into "M10", as the table names a coarse thread.
func (l List) coarse(name string) string {
	size, pitch, written := strings.Cut(name, "x")
	if !written {
		return name
	}
	if t, err := l.Named(size); err == nil && t.Pitch == number(pitch) {
		return size
	}
	return name
}

// number reads a figure with point or comma; 0 where none stands.
func number(text string) float64 {
	v, _ := strconv.ParseFloat(strings.ReplaceAll(text, ",", "."), 64) // empty is 0
	return v
}
