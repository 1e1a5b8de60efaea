package gear

import (
	"fmt"
	"math"

	"matchmark/internal/trade/metrology"
)

// Pair is two external gears of one rack in mesh.
type Pair struct{ A, B Gear }

// Designed is a pair at the centre distance where it has no backlash, with
// tips cut back so that the bottom clearance stays that of the rack.
type Designed struct {
	CentreMM     float64
	AngleDeg     float64 // working pressure angle
	Involute     float64 // its involute
	Increment    float64 // (a − a₀)/m
	PitchMM      [2]float64
	AddendumMM   [2]float64
	WholeDepthMM float64
	TipMM        [2]float64
	RootMM       [2]float64
	ContactRatio float64
}

func (p Pair) check() error {
	if p.A.Rack != p.B.Rack {
		return fmt.Errorf("gears of two racks: module %g at %g° and %g at %g°; one rack was wanted", p.A.ModuleMM, p.A.AngleDeg, p.B.ModuleMM, p.B.AngleDeg)
	}
	for _, g := range []Gear{p.A, p.B} {
		if _, err := g.Sizes(); err != nil {
			return fmt.Errorf("gear of %d teeth: %w", g.Teeth, err)
		}
	}
	return nil
}

// StandardCentre is m(z₁ + z₂)/2. Errors: as Sizes; gears of two racks.
func (p Pair) StandardCentre() (float64, error) { return p.standard(), p.check() }

func (p Pair) standard() float64 { return p.A.ModuleMM * float64(p.A.Teeth+p.B.Teeth) / 2 }

// Design gives centre distance and sizes of a pair from its profile shifts:
// inv αw = inv α + 2·tan α·(x₁ + x₂)/(z₁ + z₂), a = a₀·cos α/cos αw.
// Method: [ISO21771]. Errors: as StandardCentre; RangeError for shifts that no
// centre distance can take.
func (p Pair) Design() (Designed, error) {
	if err := p.check(); err != nil {
		return Designed{}, err
	}
	a, m, sum := rad(p.A.AngleDeg), p.A.ModuleMM, p.A.Shift+p.B.Shift
	y := inv(a) + 2*math.Tan(a)*sum/float64(p.A.Teeth+p.B.Teeth)
	if y <= 0 {
		return Designed{}, metrology.RangeError{Field: "sum of profile shifts", Got: sum, Want: "more: these teeth meet at no centre distance"}
	}
	w := unroll(y)
	d := Designed{Involute: y, AngleDeg: deg(w), CentreMM: p.standard() * math.Cos(a) / math.Cos(w)}
	d.Increment = (d.CentreMM - p.standard()) / m
	d.WholeDepthMM = m * (p.A.Addendum + p.A.Dedendum + d.Increment - sum)
	for i, g := range []Gear{p.A, p.B} {
		other := sum - g.Shift
		d.PitchMM[i] = 2 * d.CentreMM * float64(g.Teeth) / float64(p.A.Teeth+p.B.Teeth)
		d.AddendumMM[i] = m * (g.Addendum + d.Increment - other)
		d.TipMM[i] = m*float64(g.Teeth) + 2*d.AddendumMM[i]
		d.RootMM[i] = d.TipMM[i] - 2*d.WholeDepthMM
	}
	r, err := p.At(Built{CentreMM: d.CentreMM, TipMM: d.TipMM})
	d.ContactRatio = r.ContactRatio
	return d, err
}

// ShiftSum is the sum of profile shifts for which a centre distance has no
// backlash. Errors: as StandardCentre; RangeError for a centre distance at
// which the base circles overlap the line of action.
func (p Pair) ShiftSum(centreMM float64) (float64, error) {
	w, err := p.working(centreMM)
	if err != nil {
		return 0, err
	}
	a := rad(p.A.AngleDeg)
	return (inv(w) - inv(a)) * float64(p.A.Teeth+p.B.Teeth) / (2 * math.Tan(a)), nil
}

// working is the pressure angle in radians at a centre distance.
func (p Pair) working(centreMM float64) (float64, error) {
	if err := p.check(); err != nil {
		return 0, err
	}
	least := p.standard() * math.Cos(rad(p.A.AngleDeg))
	if !(centreMM > least) || centreMM > 2*p.standard() {
		return 0, metrology.RangeError{Field: "centre distance, mm", Got: centreMM,
			Want: fmt.Sprintf("above %.4g (half the base circles) and near %.4g", least, p.standard())}
	}
	return math.Acos(least / centreMM), nil
}

// Built is what was measured on a pair. Tips of 0 are the theoretical ones.
type Built struct {
	CentreMM   float64
	TipMM      [2]float64
	ThinningMM [2]float64 // by how much each gear's teeth are thin on the reference arc
}

// Meeting is what a pair does as it is built.
type Meeting struct {
	AngleDeg     float64
	BacklashMM   float64 // on the arc of the working pitch circle; below zero binds
	NormalMM     float64 // along the line of action, as a feeler finds it
	ContactRatio float64 // pairs of teeth in touch on average; below 1 the drive is broken
	DigsIn       bool    // a tip reaches below the mate's base circle
}

// At gives backlash and contact ratio of a built pair. Backlash on the working
// pitch circle is (a/a₀)(thinning − 2m·tan α·(x₁ + x₂)) + 2a(inv αw − inv α).
// Method: [ISO21771]. Errors: as ShiftSum; RangeError for a tip below the base
// circle or a thinning that is not a finite number.
func (p Pair) At(b Built) (Meeting, error) {
	w, err := p.working(b.CentreMM)
	if err != nil {
		return Meeting{}, err
	}
	a, out := rad(p.A.AngleDeg), Meeting{AngleDeg: deg(w)}
	thin := b.ThinningMM[0] + b.ThinningMM[1]
	if math.IsNaN(thin) || math.IsInf(thin, 0) {
		return Meeting{}, metrology.RangeError{Field: "thinning of the teeth, mm", Got: thin, Want: "a finite number"}
	}
	wide := b.CentreMM / p.standard()
	out.BacklashMM = wide*(thin-2*p.A.ModuleMM*math.Tan(a)*(p.A.Shift+p.B.Shift)) + 2*b.CentreMM*(inv(w)-inv(a))
	out.NormalMM = out.BacklashMM * math.Cos(w)
	action, path := b.CentreMM*math.Sin(w), -b.CentreMM*math.Sin(w)
	for i, g := range []Gear{p.A, p.B} {
		tip, s := b.TipMM[i], g.sizes()
		if tip == 0 {
			tip = s.TipMM
		}
		if !(tip > s.BaseMM) || math.IsInf(tip, 0) {
			return Meeting{}, metrology.RangeError{Field: fmt.Sprintf("tip diameter of the gear of %d teeth, mm", g.Teeth), Got: tip, Want: fmt.Sprintf("above its base circle, %.4g", s.BaseMM)}
		}
		reach := math.Sqrt((tip-s.BaseMM)*(tip+s.BaseMM)) / 2
		out.DigsIn = out.DigsIn || reach > action
		path += min(reach, action) // no flank below the base circle
	}
	out.ContactRatio = path / BasePitch(p.A.ModuleMM, p.A.AngleDeg)
	return out, nil
}

// UsualBacklash is the range of backlash in mm that general spur gears of a
// module are set with when new. Common practice, no source (rows from memory
// at module 2, 3 and 5, straight lines between): never a limit of a maker, and
// a worn gearbox of this class runs with two or three times as much.
// Errors: RangeError outside module 2 to 5.
func UsualBacklash(moduleMM float64) (least, most float64, err error) {
	switch {
	case moduleMM >= 2 && moduleMM <= 3:
		t := moduleMM - 2
		return 0.05 + 0.03*t, 0.10 + 0.05*t, nil
	case moduleMM > 3 && moduleMM <= 5:
		t := (moduleMM - 3) / 2
		return 0.08 + 0.07*t, 0.15 + 0.10*t, nil
	}
	return 0, 0, metrology.RangeError{Field: "module, mm", Got: moduleMM, Want: "2 to 5, where there is a rule"}
}
