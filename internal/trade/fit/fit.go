package fit

import (
	"fmt"
	"strings"
)

// Kind is what a fit leaves between hole and shaft.
type Kind string

const (
	Clearance    Kind = "clearance"
	Transition   Kind = "transition"
	Interference Kind = "interference"
)

// Fit is a hole and a shaft of one nominal size.
type Fit struct {
	Hole, Shaft Size
}

// ParseFit reads a fit such as "52 H7/k6" or "52 H7 k6".
// Errors: as Limits; also two holes or two shafts.
func ParseFit(text string) (Fit, error) {
	head, tail, found := strings.Cut(text, "/")
	if !found {
		t := strings.TrimSpace(text)
		cut := strings.LastIndexByte(t, ' ')
		if cut < 0 {
			return Fit{}, fmt.Errorf("fit %q has one class; a hole and a shaft such as 52 H7/k6 were wanted", text)
		}
		head, tail = t[:cut], t[cut+1:]
	}
	first, err := Limits(head)
	if err != nil {
		return Fit{}, fmt.Errorf("fit %q: %w", text, err)
	}
	second, err := Of(first.Nominal, strings.TrimSpace(tail))
	if err != nil {
		return Fit{}, fmt.Errorf("fit %q: %w", text, err)
	}
	switch {
	case first.Hole && !second.Hole:
		return Fit{Hole: first, Shaft: second}, nil
	case second.Hole && !first.Hole:
		return Fit{Hole: second, Shaft: first}, nil
	}
	return Fit{}, fmt.Errorf("fit %q has no pair; a hole in capitals and a shaft in small letters were wanted", text)
}

// MaxClearanceUM and MinClearanceUM are hole less shaft at the limits, in µm;
// below zero is interference.
func (f Fit) MaxClearanceUM() float64 { return f.Hole.UpperUM - f.Shaft.LowerUM }
func (f Fit) MinClearanceUM() float64 { return f.Hole.LowerUM - f.Shaft.UpperUM }

// MaxInterference and MinInterference are shaft less hole at the limits, mm,
// and 0 where there is none.
func (f Fit) MaxInterference() float64 { return max(0, -f.MinClearanceUM()) / 1000 }
func (f Fit) MinInterference() float64 { return max(0, -f.MaxClearanceUM()) / 1000 }

// Kind tells the fits apart. A hole that can be as small as the largest shaft
// still is a clearance fit, as H7/h6 (ISO 286-1:2010 3.3, from memory).
func (f Fit) Kind() Kind {
	switch {
	case f.MinClearanceUM() >= 0:
		return Clearance
	case f.MaxClearanceUM() <= 0:
		return Interference
	}
	return Transition
}

func (f Fit) String() string {
	return fmt.Sprintf("%g %s/%s", f.Hole.Nominal, f.Hole.Class(), f.Shaft.Class())
}
