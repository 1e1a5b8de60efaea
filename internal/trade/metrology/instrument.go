package metrology

import "math"

// Instrument is a kind of gauge with what one careful reading of it is worth.
// Figures are in Unit; a limit of error is taken as a rectangle.
type Instrument struct {
	ID        string
	Name      string
	Kind      string  // what it looks at: outside, bore, gap, torque …
	Unit      string  // inside unit of the dimension it measures
	Step      float64 // smallest step read off
	HalfWidth float64 // limit of error ± of scale and setting
	Relative  float64 // limit of error ± as a share of the reading, beside HalfWidth
	Repeat    float64 // standard deviation of a careful hand's repeats; 0 not known
	SetBy     string  // ID of the instrument it is set with, whose error it takes over
	Source    string
}

// Fixed is the standard uncertainty that repeats do not lessen: scale,
// setting and step at a reading. It counts the step as fixed, for readings
// that fall on one line agree without being any closer.
func (in Instrument) Fixed(reading float64) float64 {
	return SumSquares(FromHalfWidth(in.HalfWidth), FromHalfWidth(in.Relative*reading), FromStep(in.Step))
}

// Single is what one reading is worth. Method: GUM 4.3, 5.1.2.
func (in Instrument) Single(reading float64) Estimate {
	parts := []Part{{"fixed", in.Fixed(reading), 0}, {"repeat", in.Repeat, priorDof}}
	return Estimate{Value: reading, U: SumSquares(parts[0].U, parts[1].U), Dof: EffectiveDof(parts)}
}

// ReadTo gives the instrument as read to another step: finer, where the eye
// divides the space between two lines, or coarser. A step that is not above
// zero changes nothing; none finer than a tenth of the own step is believed.
func (in Instrument) ReadTo(step float64) Instrument {
	if step > 0 && !math.IsInf(step, 0) {
		in.Step = max(step, in.Step/10)
	}
	return in
}

// Check reports why an instrument cannot be used, or nil. Errors: RangeError.
func (in Instrument) Check() error {
	for _, f := range []struct {
		name  string
		value float64
	}{{"step", in.Step}, {"limit of error", in.HalfWidth}, {"relative limit of error", in.Relative}, {"repeat", in.Repeat}} {
		if notFinite(f.value) || f.value < 0 {
			return RangeError{f.name + " of " + in.ID, f.value, "zero or more"}
		}
	}
	return nil
}

// SharedError is the standard uncertainty of the error that readings of two
// instruments have in common: the scale error of one used for both, or of the
// one that the other was set with. The steps are never shared.
func SharedError(a, b Instrument) float64 {
	scale := func(in Instrument) float64 { return FromHalfWidth(in.HalfWidth) }
	switch {
	case a.ID == "" || b.ID == "":
		return 0
	case a.ID == b.ID, a.SetBy == b.ID, b.SetBy == a.ID:
		return min(scale(a), scale(b))
	}
	return 0
}

// InstrumentByID finds an instrument of the library.
func InstrumentByID(id string) (in Instrument, ok bool) {
	for _, in := range Instruments() {
		if in.ID == id {
			return in, true
		}
	}
	return Instrument{}, false
}
