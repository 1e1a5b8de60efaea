// Package wedge reads what a measuring tool types when it speaks as a
// keyboard: a calliper, a micrometer or a box between tool and computer. What
// such tools send differs too much to be guessed, so each tool has a Profile,
// learnt from two readings of it (Learn). It is pure. The pages read the same
// forms by the same rules in assets/wedge.js; one corpus holds both to it.
//
// What it cannot detect: a tool set to inches that sends no unit and whose
// profile says millimetres, other than by what the point should measure; and a
// figure that lost a digit on its way.
package wedge

import (
	"fmt"
	"slices"
)

// End is what follows a reading.
type End string

const (
	Enter End = "enter"
	Tab   End = "tab"
	Quiet End = "quiet" // nothing: no key for 300 ms
)

// Ends lists the known ends.
func Ends() []End { return []End{Enter, Tab, Quiet} }

// Mark is the decimal mark that a tool sends.
type Mark string

const (
	Either Mark = ""      // not known: a lone point or comma is the decimal mark
	Point  Mark = "point" // and a comma parts the figure from its unit
	Comma  Mark = "comma" // and nothing else: it cannot part the unit as well
)

// The units a tool can be on.
const (
	MM   = "mm"
	Inch = "in"
)

// Profile is what one tool types.
type Profile struct {
	Prefix string `json:"prefix,omitempty"` // before each figure: # for any digit, @ for any letter, all else for itself
	Unit   string `json:"unit"`             // mm or in: what a figure without a unit is in
	Mark   Mark   `json:"mark,omitempty"`
	End    End    `json:"end"`
}

// longest is how many characters one reading has at most, prefix and unit
// included.
const longest = 64

// Fault says what is wrong with a profile, nil for a good one. A prefix of
// digits alone is refused: a figure keyed in by hand would lose its first
// digits to it.
// Errors: *FaultError.
func (p Profile) Fault() error {
	switch {
	case p.Unit != MM && p.Unit != Inch:
		return &FaultError{"unit", fmt.Sprintf("the unit is %q; a tool is on mm or on in", p.Unit)}
	case !slices.Contains([]Mark{Either, Point, Comma}, p.Mark):
		return &FaultError{"mark", fmt.Sprintf("the decimal mark is %q; point or comma was wanted", p.Mark)}
	case !slices.Contains(Ends(), p.End):
		return &FaultError{"end", fmt.Sprintf("a reading ends with %q; Enter, Tab or quiet was wanted", p.End)}
	}
	return prefixFault(p.Prefix)
}

// FaultError says which setting of a profile cannot stand.
type FaultError struct {
	Field string // unit, mark, end, prefix
	Why   string
}

func (e *FaultError) Error() string { return e.Why }
