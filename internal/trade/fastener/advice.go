package fastener

import (
	"fmt"
	"math"

	"matchmark/internal/trade/metrology"
)

// UsualShare is the share of the proof stress to aim at where no book says
// otherwise. Source: common practice, no source (0.75 for bolts that come off
// again in Shigley, from memory).
const UsualShare = 0.70

// Advice is the torque of a joint as a range, with what it rests on.
type Advice struct {
	Share    float64 // of the proof stress
	PreloadN float64 // aimed at
	NeedNM   Band    // torque that reaches it, at the lowest and at the highest friction
	LimitNM  float64 // torque that brings the bolt to 0.9 of its yield at the lowest friction: never above
	UseNM    Band    // NeedNM, cut at LimitNM
	Cut      bool    // the limit cut it: at high friction the aim is not reached
	ClampN   Band    // what UseNM may clamp with, over the whole band of friction
	Source   string
}

// Advise gives the torque for a share of the proof stress. A range of torque
// says: in it the aim may be met, below it never, above it the bolt may yield.
// Method: [VDI2230] three-term relation; yield guarded at the lowest friction
// by pull and twist, edition 2001.
// Special cases: where even the lowest friction takes the bolt past 0.9 of its
// yield before the aim, UseNM is LimitNM alone at both ends.
// Errors: RangeError for a share outside 0 to 1 and for the joint.
func (j Joint) Advise(share float64) (Advice, error) {
	if !(share > 0) || share > 1 {
		return Advice{}, metrology.RangeError{Field: "share of the proof stress", Got: share, Want: "above 0 to 1"}
	}
	if err := j.Check(); err != nil {
		return Advice{}, err
	}
	area, _ := j.area()
	a := Advice{Share: share, PreloadN: share * j.Class.Proof * area}
	need, err := j.Torque(a.PreloadN)
	if err != nil {
		return Advice{}, err
	}
	a.NeedNM = need
	most, err := j.PreloadAt(YieldShare, j.Class.Yield, j.Friction.Thread.Lo, Plastic)
	if err != nil {
		return Advice{}, err
	}
	a.LimitNM = most * j.arm(j.Friction.Thread.Lo, j.Friction.Head.Lo) / 1000
	a.UseNM = Band{min(need.Lo, a.LimitNM), min(need.Hi, a.LimitNM)}
	a.Cut = need.Hi > a.LimitNM
	low, err := j.Preload(a.UseNM.Lo)
	if err != nil {
		return Advice{}, err
	}
	high, err := j.Preload(a.UseNM.Hi)
	if err != nil {
		return Advice{}, err
	}
	a.ClampN = Band{low.Lo, high.Hi}
	a.Source = fmt.Sprintf("worked from class %s (%s), friction %s (%s) and %.0f %% of proof stress; not a maker's figure",
		j.Class.Name, j.Class.Source, j.Friction.State, j.Friction.Source, 100*share)
	return a, nil
}

// Guard says what a given torque, as from a book, does to the bolt.
type Guard struct {
	ClampN     Band
	YieldShare float64 // equivalent stress over the least yield, at the lowest friction
	TooMuch    bool    // above 0.9 of the yield
}

// Guard checks a torque in N·m against the yield at the lowest friction.
// Method: as Advise. Errors: as Preload.
func (j Joint) Guard(torque float64) (Guard, error) {
	clamp, err := j.Preload(torque)
	if err != nil {
		return Guard{}, err
	}
	area, _ := j.area()
	g := Guard{ClampN: clamp, YieldShare: clamp.Hi / area * j.twist(j.Friction.Thread.Lo, Plastic) / j.Class.Yield}
	g.TooMuch = g.YieldShare > YieldShare+1e-12
	return g, nil
}

// NutFactor is the K of T = K·F·d over the band of friction.
// Method: three-term relation divided by the diameter. Errors: RangeError.
func (j Joint) NutFactor() (Band, error) {
	t, err := j.Torque(1000 / j.Thread.D) // N that make torque in N·m equal to K
	return t, err
}

// WrenchSetting is what to set a wrench to in N·m, so that a crowfoot or bar
// beyond its square gives the target: T·L/(L + E·cos a). wrench is L from the
// middle of the grip to the square in mm, offset is E in mm, angle a in
// degrees between bar and handle: 0 straight on, 90 has no effect, 180 turned
// back toward the hand. A bar along the axis of the square changes nothing.
// Method: lever arms, common practice, no source.
// Errors: RangeError; an arm that leaves less than a tenth of the wrench.
func WrenchSetting(target, wrench, offset, angle float64) (float64, error) {
	for _, c := range []struct {
		name string
		got  float64
		ok   bool
		want string
	}{
		{"torque, N·m", target, target >= 0, "zero or more"},
		{"wrench from grip to square, mm", wrench, wrench > 0, "above zero"},
		{"offset of the crowfoot, mm", offset, !math.IsNaN(offset), "a number"},
		{"angle of the crowfoot, degrees", angle, angle >= -180 && angle <= 180, "-180 to 180"},
	} {
		if !c.ok || math.IsInf(c.got, 0) {
			return 0, metrology.RangeError{Field: c.name, Got: c.got, Want: c.want}
		}
	}
	arm := wrench + offset*math.Cos(angle*math.Pi/180)
	if arm < wrench/10 {
		return 0, metrology.RangeError{Field: "arm from grip to bolt, mm", Got: arm, Want: "at least a tenth of the wrench"}
	}
	return target * wrench / arm, nil
}
