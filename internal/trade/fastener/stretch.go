package fastener

import (
	"fmt"
	"math"
	"strings"

	"matchmark/internal/trade/metrology"
)

// SteelModulus is the modulus of bolt steel, MPa. Source: VDI 2230, from memory.
const SteelModulus = 205000.0

// Stretch is how much longer a bolt gets at a preload in N, mm: the sum of
// F·L/(E·A) over plain shank (mm of it, at the nominal diameter or the neck)
// and free thread (mm of it, at the stress area). Heads and nuts give a little
// more. Method: Hooke. Errors: RangeError.
func (j Joint) Stretch(preload, shank, thread float64) (float64, error) {
	if err := j.Check(); err != nil {
		return 0, err
	}
	for _, c := range []struct {
		name string
		got  float64
	}{{"preload, N", preload}, {"length of the shank, mm", shank}, {"length of the free thread, mm", thread}} {
		if !(c.got >= 0) || math.IsInf(c.got, 0) {
			return 0, metrology.RangeError{Field: c.name, Got: c.got, Want: "zero or more"}
		}
	}
	d := j.Thread.D
	if j.Neck > 0 {
		d = j.Neck
	}
	return preload / SteelModulus * (shank/(math.Pi/4*d*d) + thread/j.Thread.StressArea()), nil
}

// Used is a bolt that came out of the machine, as it was looked over.
type Used struct {
	Stretch bool    // tightened by angle or into yield, or the book says to renew it
	Length  float64 // mm, of a new one or of the shortest of the set; 0 not measured
	Grown   float64 // mm, how much longer than that it is
	Necked  bool    // thinner somewhere along the thread or shank
	Damaged bool    // a nut does not run down by hand
	Pitted  bool    // rust has left pits
	Bent    bool
	Cracked bool
}

// growth is the lasting growth that counts as stretched. Source: our own
// figure; 0.2 % is yield by definition (ISO 898-1, Rp0.2).
const growth = 0.001

// Reuse says whether a used bolt may go back; nil is yes, for what was looked
// at. Errors: RefusedError with every reason; RangeError for lengths.
func (u Used) Reuse() error {
	if !(u.Length >= 0) || math.IsInf(u.Length, 0) {
		return metrology.RangeError{Field: "length of the bolt, mm", Got: u.Length, Want: "zero (not measured) or more"}
	}
	if math.IsNaN(u.Grown) || math.IsInf(u.Grown, 0) || u.Grown != 0 && u.Length == 0 {
		return metrology.RangeError{Field: "growth of the bolt, mm", Got: u.Grown, Want: "a number, with a length beside it"}
	}
	var why []string
	for _, c := range []struct {
		is   bool
		what string
	}{
		{u.Stretch, "it is a stretch bolt: it has been past its yield and holds only once"},
		{u.Length > 0 && u.Grown > growth*u.Length, fmt.Sprintf("it has grown %.3f mm: more than 0.1 %% of its length", u.Grown)},
		{u.Necked, "it is necked"},
		{u.Damaged, "its thread is damaged"},
		{u.Pitted, "rust has pitted it"},
		{u.Bent, "it is bent"},
		{u.Cracked, "it is cracked"},
	} {
		if c.is {
			why = append(why, c.what)
		}
	}
	if len(why) > 0 {
		return RefusedError{Reasons: why}
	}
	return nil
}

// RefusedError says why a bolt must not go back.
type RefusedError struct{ Reasons []string }

func (e RefusedError) Error() string {
	return "the bolt must not go back; renew it: " + strings.Join(e.Reasons, "; ")
}
