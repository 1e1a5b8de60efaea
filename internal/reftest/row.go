// Package reftest holds the reference rows that tests compare results with.
//
// A row names where its wanted value comes from; a row without a source is
// refused. The package cannot tell whether a source says what the row claims:
// that is the reader's check, made easy by printing every input on failure.
package reftest

import (
	"fmt"
	"math"
	"strings"
	"testing"
)

// Kind says how the wanted value of a row is known.
type Kind string

// The kinds of provenance, from strongest to weakest.
const (
	Published Kind = "P"      // printed in a standard or handbook: edition and page
	Computed  Kind = "C"      // computed by another tool or route: tool, version, digits
	ByHand    Kind = "H"      // worked by hand, the working shown
	Earlier   Kind = "R"      // our own earlier output; never the only kind for a function
	Memory    Kind = "memory" // recalled, not seen; never the only check of a function
)

// Row is one reference value: inputs, what is wanted, how close, and why.
// Tol is absolute, in the unit of Want; it is half the last printed digit of
// the source, or the source text says why it is something else.
type Row[In any] struct {
	ID     string
	In     In
	Want   float64
	Tol    float64
	Source string
	Kind   Kind
}

// Check says what is wrong with a row, or nil.
// Errors: an empty ID or source, an unknown kind, a tolerance or wanted value
// that is negative or not finite.
func (r Row[In]) Check() error {
	switch {
	case strings.TrimSpace(r.ID) == "":
		return fmt.Errorf("reference row with inputs %+v has no id", r.In)
	case strings.TrimSpace(r.Source) == "":
		return fmt.Errorf("reference row %s has no source", r.ID)
	case !(r.Tol >= 0) || math.IsInf(r.Tol, 0):
		return fmt.Errorf("reference row %s has tolerance %v", r.ID, r.Tol)
	case math.IsNaN(r.Want) || math.IsInf(r.Want, 0):
		return fmt.Errorf("reference row %s wants %v", r.ID, r.Want)
	}
	switch r.Kind {
	case Published, Computed, ByHand, Earlier, Memory:
		return nil
	}
	return fmt.Errorf("reference row %s has kind %q", r.ID, r.Kind)
}

// Run passes every row to f in a subtest named by the row id.
// Two rows with one id are refused.
func Run[In any](t *testing.T, rows []Row[In], f func(In) (float64, error)) {
	t.Helper()
	seen := make(map[string]bool, len(rows))
	for _, r := range rows {
		if err := r.Check(); err != nil {
			t.Error(err)
			continue
		}
		if seen[r.ID] {
			t.Errorf("reference row id %s is used twice", r.ID)
			continue
		}
		seen[r.ID] = true
		t.Run(r.ID, func(t *testing.T) {
			got, err := f(r.In)
			if err != nil {
				t.Fatalf("row %s: inputs %+v: %v", r.ID, r.In, err)
			}
			if !Near(got, r.Want, r.Tol) {
				t.Errorf("row %s: inputs %+v: got %.12g, want %.12g within %.3g (%s: %s)",
					r.ID, r.In, got, r.Want, r.Tol, r.Kind, r.Source)
			}
		})
	}
}

// Near reports whether got lies within tol of want; not-a-number never does.
func Near(got, want, tol float64) bool {
	return math.Abs(got-want) <= tol
}
