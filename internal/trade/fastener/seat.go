package fastener

import (
	"fmt"
	"math"

	"matchmark/internal/trade/metrology"
)

// Parent is a metal that a bolt is screwed into. Old castings have no
// certificate: the strength is a band.
type Parent struct {
	Name       string
	TensileMPa Band
	ShearRatio float64 // shear strength over tensile
	RuleD      Band    // usual engagement in diameters
	Source     string
}

// Parents lists the metals in a fixed order. All figures from memory: shear
// ratios as VDI 2230-1 table of shear strength, engagement by rule of thumb.
func Parents() []Parent {
	const source = "from memory; engagement common practice, no source"
	return []Parent{
		{"steel", Band{400, 600}, 0.6, Band{1, 1}, source},
		{"cast iron", Band{180, 260}, 0.9, Band{1.25, 1.5}, source},
		{"aluminium", Band{160, 240}, 0.6, Band{1.5, 2}, source},
	}
}

// ParentOf finds a metal by name. Errors: one that is not listed.
func ParentOf(name string) (Parent, error) {
	for _, p := range Parents() {
		if p.Name == name {
			return p, nil
		}
	}
	return Parent{}, fmt.Errorf("metal %q is not known; steel, cast iron or aluminium was wanted", name)
}

// Seat is a tapped hole.
type Seat struct {
	Parent     Parent
	Engagement float64 // mm of thread that bears, without chamfers; the length of an insert
	Insert     bool    // a wire thread insert, whose own thread in the parent is larger
}

// Seated is what a tapped hole stands.
type Seated struct {
	StripN  Band    // load that pulls the thread out, over the strength of the parent
	HoldsN  float64 // preload that it may be given: lowest StripN over the margin
	Holds   bool    // HoldsN is at least the preload asked for
	NeedMM  float64 // engagement that would hold it
	RuleMM  Band    // engagement by rule of thumb
	Weakest string  // "thread" or "bolt": which gives way first, the parent at its weakest
	Source  string
}

// Margin is kept between the load that strips a thread and its preload.
// Source: our own figure.
const Margin = 1.25

// insertGrowth is how much larger in diameter the hole for a wire insert is
// tapped, in pitches: a full thread depth on each side. From memory.
const insertGrowth = 1.299038

// lostTurns is the engagement that bears nothing at the ends, in pitches.
// Source: VDI 2230-1, from memory.
const lostTurns = 0.8

// stripPerMM is the area of the parent's thread that shears for each mm of
// engagement, at the smallest bolt and the widest nut thread (6g and 6H):
// π·d_min·(1/2 + tan(flank/2)·(d_min − D₂max)/P).
// Source: FED-STD-H28, from memory; widening of D₂ 1.32·90·P^0.4·d^0.1 µm as
// ISO 965-1, from memory.
func (t Thread) stripPerMM(insert bool) float64 {
	d, pitchD := t.D, t.PitchDiameter()
	if insert {
		d, pitchD = d+insertGrowth*t.Pitch, pitchD+insertGrowth*t.Pitch
	}
	least := d + t.LeastD
	widest := pitchD + 1.32*0.090*math.Pow(t.Pitch, 0.4)*math.Pow(d, 0.1)
	return math.Pi * least * (0.5 + math.Tan(t.Flank/2*math.Pi/180)*(least-widest)/t.Pitch)
}

// Seat checks the tapped hole under a preload in N. The parent is taken at its
// weakest for HoldsN and NeedMM.
// Range: solid metal round the hole; a thin boss bursts before it strips.
// Errors: RangeError for preload, engagement or strength.
func (j Joint) Seat(s Seat, preload float64) (Seated, error) {
	if err := j.Check(); err != nil {
		return Seated{}, err
	}
	for _, c := range []struct {
		name string
		got  float64
		ok   bool
		want string
	}{
		{"preload, N", preload, preload >= 0, "zero or more"},
		{"engagement, mm", s.Engagement, s.Engagement > 0, "above zero"},
		{"weakest parent, MPa", s.Parent.TensileMPa.Lo, s.Parent.TensileMPa.Lo > 0, "above zero"},
		{"strongest parent, MPa", s.Parent.TensileMPa.Hi, s.Parent.TensileMPa.Hi >= s.Parent.TensileMPa.Lo, "at least the weakest"},
		{"shear ratio", s.Parent.ShearRatio, s.Parent.ShearRatio > 0 && s.Parent.ShearRatio <= 1.5, "above 0 to 1.5"},
	} {
		if !c.ok || math.IsInf(c.got, 0) {
			return Seated{}, metrology.RangeError{Field: c.name, Got: c.got, Want: c.want}
		}
	}
	perMM := j.Thread.stripPerMM(s.Insert)
	bears := max(0, s.Engagement-lostTurns*j.Thread.Pitch)
	weak := s.Parent.ShearRatio * s.Parent.TensileMPa.Lo * perMM // N for each mm
	out := Seated{StripN: Band{weak * bears, s.Parent.ShearRatio * s.Parent.TensileMPa.Hi * perMM * bears},
		NeedMM: Margin*preload/weak + lostTurns*j.Thread.Pitch,
		RuleMM: Band{s.Parent.RuleD.Lo * j.Thread.D, s.Parent.RuleD.Hi * j.Thread.D}, Source: s.Parent.Source}
	out.HoldsN = out.StripN.Lo / Margin
	out.Holds = out.HoldsN >= preload
	out.Weakest = "thread"
	if area, _ := j.area(); j.Class.Tensile*area < out.StripN.Lo {
		out.Weakest = "bolt"
	}
	return out, nil
}

// EqualStrength is the engagement in mm at which bolt and nut of one metal are
// equally strong: 2·A_s/(0.5·π·d₂). It takes half the pitch cylinder as shear
// area, which is cautious.
// Source: FED-STD-H28 simplified. For a weaker nut multiply by the ratio of
// the strengths.
func (t Thread) EqualStrength() float64 {
	return 2 * t.StressArea() / (0.5 * math.Pi * t.PitchDiameter())
}
