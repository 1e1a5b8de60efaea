package fit

import (
	"fmt"
	"strings"

	"matchmark/internal/trade/quantity"
)

// Size is a nominal size with its limits of deviation.
type Size struct {
	Nominal float64 // mm
	Hole    bool
	Letter  string // capitals for a hole
	Grade   Grade
	UpperUM float64 // upper deviation, µm
	LowerUM float64 // lower deviation, µm
	Basis   Basis
	Source  string
}

// Max and Min are the limits of size in mm.
func (s Size) Max() float64 { return s.Nominal + s.UpperUM/1000 }
func (s Size) Min() float64 { return s.Nominal + s.LowerUM/1000 }

// Class is the letter with its grade, such as H7.
func (s Size) Class() string { return s.Letter + s.Grade.digits() }

func (s Size) String() string { return fmt.Sprintf("%g %s", s.Nominal, s.Class()) }

// Limits reads a size with its class, such as "52H7", "Ø 25,4 js6" or "2 in
// H8", and gives its limits. A size without a unit is in mm. Capitals are
// holes, small letters shafts.
// Method: ISO 286-1:2010; Basis of the answer says whether the figures were
// read, follow by a rule from figures that were read, or were recalled.
// Errors: text that is not a size and a class, naming the text; RangeError for
// a size outside 0 to 500 mm; a class that the standard does not have there.
func Limits(text string) (Size, error) {
	number, class, err := cutClass(text)
	if err != nil {
		return Size{}, err
	}
	q, err := quantity.Parse(number, quantity.Length, "mm")
	if err != nil {
		return Size{}, fmt.Errorf("size and class %q: %w", text, err)
	}
	s, err := Of(q.Value, class)
	if err != nil {
		return Size{}, fmt.Errorf("size and class %q: %w", text, err)
	}
	return s, nil
}

// Of gives the limits of a nominal size in mm and a class such as "k6".
// Errors: as Limits.
func Of(nominal float64, class string) (Size, error) {
	letter := strings.TrimRight(class, "0123456789")
	g, err := parseGrade(class[len(letter):])
	if err != nil {
		return Size{}, fmt.Errorf("class %q: %w", class, err)
	}
	width, err := Tolerance(nominal, g)
	if err != nil {
		return Size{}, err
	}
	p := place{nominal: nominal, grade: g, width: width}
	p.main, _ = stepOf(mainSteps, nominal) // in range: Tolerance saw to it
	p.fine, _ = stepOf(fineSteps, nominal)
	s := Size{Nominal: nominal, Letter: letter, Grade: g}
	switch letter {
	case strings.ToLower(letter):
		s.UpperUM, s.LowerUM, s.Basis, err = shaftLimits(letter, p)
	case strings.ToUpper(letter):
		s.Hole = true
		s.UpperUM, s.LowerUM, s.Basis, err = holeLimits(letter, p)
	default:
		err = fmt.Errorf("class %q mixes capitals and small letters; H7 or h7 was wanted", class)
	}
	if err != nil {
		return Size{}, err
	}
	s.Source = sourceOf(s.Basis)
	return s, nil
}

// sourceOf is what stands beside a limit on a page.
func sourceOf(b Basis) string {
	switch b {
	case Read:
		return "ISO 286-1:2010, table read in a reprint"
	case Formula:
		return "ISO 286-1:2010, by the rule for holes from tables read in a reprint"
	}
	return "ISO 286-1:2010, from memory"
}

// cutClass parts "52H7" into "52" and "H7": the class is the last run of
// letters with its digits.
func cutClass(text string) (number, class string, err error) {
	t := strings.TrimSpace(text)
	letters := strings.TrimRight(t, "0123456789")
	number = strings.TrimRightFunc(letters, isLetter)
	if len(letters) == len(t) || len(number) == len(letters) {
		return "", "", fmt.Errorf("size and class %q has no class; a size with a letter and a grade such as 52 H7 was wanted", text)
	}
	class = t[len(number):]
	number = strings.TrimSpace(strings.TrimLeft(strings.TrimSpace(number), "Øø⌀"))
	if number == "" {
		return "", "", fmt.Errorf("size and class %q has no size; a size with a letter and a grade such as 52 H7 was wanted", text)
	}
	return number, class, nil
}

func isLetter(r rune) bool { return r >= 'a' && r <= 'z' || r >= 'A' && r <= 'Z' }
