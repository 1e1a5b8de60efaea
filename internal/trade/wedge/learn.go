package wedge

import (
	"fmt"
	"math"
	"strconv"
	"strings"
)

// Arrival is one reading as it came: what was typed and what followed it.
type Arrival struct {
	Raw string
	End End
}

// Lesson is what two readings of a tool teach: one with its jaws closed, one
// of a piece of known size.
type Lesson struct {
	Profile  Profile
	Says     bool    // the unit is sent with the figure, not only set
	Closed   Figure  // the readings as figures
	Piece    Figure  //
	Step     float64 // of the last digit sent, mm
	ZeroMM   float64 // what the tool shows with its jaws closed, mm
	ErrorMM  float64 // what it shows too much at the piece, mm
	SizeMM   float64 // of the piece
	OneError bool    // both errors are the same to a step: zero the tool
}

// near is the share of a known piece's size by which a tool that works is off
// at most; mm and inch lie a factor of 25.4 apart. Our own judgement.
const near = 0.1

// Learn works out what a tool types. sizeMM is the size of the piece.
// The zero reading may be up to a tenth of the piece, else something was
// between the jaws.
// Errors: *Refusal for an arrival that holds no figure; *LessonError.
func Learn(closed, piece Arrival, sizeMM float64) (Lesson, error) {
	if !(sizeMM > 0) || math.IsInf(sizeMM, 0) {
		return Lesson{}, &LessonError{"the size of the piece must be above zero"}
	}
	prefix, err := prefixOf(closed.Raw, piece.Raw)
	if err != nil {
		return Lesson{}, err
	}
	l := Lesson{Profile: Profile{Prefix: prefix, Unit: MM, End: piece.End}, SizeMM: sizeMM}
	if closed.End != piece.End {
		return Lesson{}, &LessonError{"the two readings did not end alike; press once for each, and wait between"}
	}
	if l.Profile.Mark, err = markOf(closed.Raw, piece.Raw, prefix); err != nil {
		return Lesson{}, err
	}
	if l.Closed, l.Piece, l.Says, err = l.bothFigures(closed.Raw, piece.Raw); err != nil {
		return Lesson{}, err
	}
	if !l.Says {
		if l.Profile.Unit, err = unitBySize(l.Piece, sizeMM); err != nil {
			return Lesson{}, err
		}
		l.Closed.Unit, l.Piece.Unit = l.Profile.Unit, l.Profile.Unit
	}
	return l.measured()
}

// bothFigures reads the two arrivals; says tells whether they carry a unit,
// which is then the profile's.
func (l *Lesson) bothFigures(closed, piece string) (a, b Figure, says bool, err error) {
	other := l.Profile
	other.Unit = Inch
	if a, err = l.Profile.Read(closed); err != nil {
		return a, b, false, err
	}
	if b, err = l.Profile.Read(piece); err != nil {
		return a, b, false, err
	}
	again, _ := other.Read(piece) // read above: it can be read
	if again.Unit == b.Unit {
		says, l.Profile.Unit = true, b.Unit
		if a.Unit != b.Unit {
			return a, b, says, &LessonError{"the unit changed between the two readings; measure both again"}
		}
	}
	return a, b, says, nil
}

// unitBySize tells mm from inch by the piece.
func unitBySize(f Figure, sizeMM float64) (string, error) {
	v := f.number()
	for _, unit := range []string{MM, Inch} {
		if math.Abs(v*mmIn(unit)-sizeMM) <= near*sizeMM {
			return unit, nil
		}
	}
	return "", &LessonError{fmt.Sprintf("%s arrived for a piece of %s mm: that is neither mm nor inches. Measure the piece again, or mend its size",
		f.Text, strconv.FormatFloat(sizeMM, 'f', -1, 64))}
}

// measured works out step and errors.
func (l Lesson) measured() (Lesson, error) {
	unit := mmIn(l.Piece.Unit)
	l.ZeroMM = l.Closed.number() * unit
	l.ErrorMM = l.Piece.number()*unit - l.SizeMM
	_, digits, _ := strings.Cut(l.Piece.Text, ".")
	l.Step = math.Pow10(-len(digits)) * unit
	switch {
	case math.Abs(l.ErrorMM) > near*l.SizeMM:
		return Lesson{}, &LessonError{fmt.Sprintf("%s arrived for a piece of %s mm. Measure the piece again, or mend its size",
			l.Piece, strconv.FormatFloat(l.SizeMM, 'f', -1, 64))}
	case math.Abs(l.ZeroMM) > near*l.SizeMM:
		return Lesson{}, &LessonError{fmt.Sprintf("%s arrived with the jaws closed. Close them on nothing and press again", l.Closed)}
	}
	l.OneError = math.Abs(l.ZeroMM) > l.Step/2 && math.Abs(l.ZeroMM-l.ErrorMM) <= 1.01*l.Step
	return l, nil
}

// mmIn is how many mm one of the unit has.
func mmIn(unit string) float64 {
	if unit == Inch {
		return 25.4
	}
	return 1
}

// number is the figure's value; the text of a Figure always is a number.
func (f Figure) number() float64 {
	v, _ := strconv.ParseFloat(f.Text, 64)
	return v
}

// markOf finds the decimal mark that was sent; a reading without decimals
// leaves it to the other.
func markOf(closed, piece, prefix string) (Mark, error) {
	found := Either
	for _, raw := range []string{closed, piece} {
		m := figureForm.FindStringSubmatch(plain(cutPrefix(prefix, plain(raw))))
		if m == nil || m[4] == "" {
			continue
		}
		this := Point
		if m[3] == "," {
			this = Comma
		}
		if found != Either && found != this {
			return Either, &LessonError{"one reading has a point and the other a comma; set the tool to one of them"}
		}
		found = this
	}
	return found, nil
}

// prefixOf finds what stands before the figures of both arrivals.
func prefixOf(closed, piece string) (string, error) {
	a, err := before(closed)
	if err != nil {
		return "", err
	}
	b, err := before(piece)
	if err != nil {
		return "", err
	}
	x, y := []rune(a), []rune(b)
	if len(x) != len(y) {
		return "", &LessonError{fmt.Sprintf("the readings begin differently: %q and %q. Measure both again", a, b)}
	}
	for i := range x {
		switch {
		case isDigit(x[i]) && isDigit(y[i]):
			x[i] = anyDigit
		case isLetter(x[i]) && isLetter(y[i]) && x[i] != y[i]:
			x[i] = anyLetter
		case x[i] != y[i]:
			return "", &LessonError{fmt.Sprintf("the readings begin differently: %q and %q. Measure both again", a, b)}
		}
	}
	prefix := strings.TrimRight(string(x), " ")
	return prefix, prefixFault(prefix)
}

// before is what stands before the figure of an arrival: the shortest text
// that leaves one, not broken off within a number.
func before(raw string) (string, error) {
	text := plain(raw)
	if text == "" {
		return "", &Refusal{raw, Nothing}
	}
	for i := range text {
		if i > 0 && (isDigit(rune(text[i-1])) || text[i-1] == '.' || text[i-1] == ',' || text[i-1] == '-' || text[i-1] == '+') {
			continue
		}
		if m := figureForm.FindStringSubmatch(text[i:]); m != nil && m[2]+m[4] != "" {
			return text[:i], nil
		}
	}
	return "", &Refusal{raw, whyNot(text)}
}

// LessonError says why two readings teach nothing, with what to do.
type LessonError struct{ Why string }

func (e *LessonError) Error() string { return e.Why }
