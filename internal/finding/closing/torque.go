package closing

import (
	"cmp"
	"fmt"
	"math"
	"slices"

	"matchmark/internal/trade/fastener"
)

// Torque is a range for one class of bolt.
type Torque struct {
	If      string  // when it holds: "head reads 10.9"
	Class   string  // strength reckoned with
	LowNM   float64 // least that may reach the aim
	HighNM  float64
	LimitNM float64 // never above
	By      string  // what sets the limit: the bolt, or the thread it sits in
	Bite    string  // how deep the thread is taken to bite
	Deep    *Deep   // what a deeper thread allows; nil where the bolt decides anyway
	Stages  []Stage
	Working []string
	Source  string
	Say     string // "22 to 27 N·m, never above 27."
}

// Deep is the range where the thread bites so deep that the bolt decides.
type Deep struct {
	MM            float64 // of thread that bears
	LowNM, HighNM float64
	Say           string
}

// Stage is one pass with its torque; both 0 by hand.
type Stage struct {
	Words     string
	LowNM     float64
	HighNM    float64
	OnceAgain bool // one after the other round, not in the order
}

// spec is what a torque depends on.
type spec struct {
	thread, class, friction string
	metal                   metal
}

// threadShare keeps the aim below what the tapped hole holds, so that a range
// is left for the wrench. Source: own figure.
const threadShare = 0.8

// torque works out one class once. The aim is 70 % of proof, less where the
// thread in its metal, bitten into as deep as the rule of thumb at its least,
// would not hold that. Method: package fastener, Advise and Seat. Errors: of
// these; a friction that is not known.
func (d *Desk) torque(key spec, t fastener.Thread) (Torque, error) {
	if have, ok := d.worked[key]; ok {
		return have, nil
	}
	class, err := fastener.ClassOf(t, key.class)
	if err != nil {
		return Torque{}, err
	}
	head, headSource := headOf(t)
	bolt := fastener.Joint{Thread: t, Class: class, Head: head, Friction: d.friction[key.friction]}
	a, err := bolt.Advise(fastener.UsualShare)
	if err != nil {
		return Torque{}, err
	}
	out := Torque{Class: class.Name, LimitNM: a.LimitNM, By: "0.9 of the bolt's yield at the lowest friction"}
	if key.metal.name != "" {
		if a, err = out.seat(bolt, key.metal, a); err != nil {
			return Torque{}, err
		}
	}
	out.LowNM, out.HighNM = a.UseNM.Lo, min(a.UseNM.Hi, out.LimitNM)
	if !(out.LowNM > 0) || !(out.LowNM < out.HighNM) || math.IsInf(out.HighNM, 0) {
		return Torque{}, fmt.Errorf("the range of %s class %s closes on itself", t.Designation, class.Name)
	}
	out.Source = a.Source + "; head: " + headSource
	out.Working = append(out.Working, fmt.Sprintf("Aimed at %.1f kN, %.0f %% of proof; %s to %s N·m would reach it.", a.PreloadN/1000, 100*a.Share, nm(a.NeedNM.Lo), nm(a.NeedNM.Hi)))
	out.Stages = stagesOf(out.LowNM, out.HighNM)
	out.Say = fmt.Sprintf("%s to %s N·m, never above %s. %s", nm(out.LowNM), floored(out.HighNM), floored(out.LimitNM), NotMakers)
	d.worked[key] = out
	return out, nil
}

// seat holds the torque to what the tapped hole stands.
func (out *Torque) seat(bolt fastener.Joint, m metal, a fastener.Advice) (fastener.Advice, error) {
	parent, err := fastener.ParentOf(m.name)
	if err != nil {
		return a, err
	}
	deep := parent.RuleD.Lo * bolt.Thread.D
	seat, err := bolt.Seat(fastener.Seat{Parent: parent, Engagement: deep}, a.PreloadN)
	if err != nil {
		return a, err
	}
	if most := threadShare * seat.HoldsN; a.PreloadN > most {
		if a, err = bolt.Advise(a.Share * most / a.PreloadN); err != nil {
			return a, err
		}
		if seat, err = bolt.Seat(fastener.Seat{Parent: parent, Engagement: deep}, a.PreloadN); err != nil {
			return a, err
		}
	}
	strips, err := bolt.Torque(seat.HoldsN)
	if err != nil {
		return a, err
	}
	if strips.Lo < out.LimitNM {
		if err := out.deepen(bolt, parent); err != nil {
			return a, err
		}
		out.LimitNM, out.By = strips.Lo, fmt.Sprintf("the thread in %s (%s)", m.name, m.from)
	}
	out.Bite = fmt.Sprintf("Taken to bite %.1f mm, %g diameters, in %s (%s); %.0f mm would hold the aim. Measure the depth: less, and the thread strips first.",
		deep, parent.RuleD.Lo, m.name, m.from, math.Ceil(seat.NeedMM))
	out.Working = append(out.Working, fmt.Sprintf("The thread holds %.1f kN there, with %g in hand (%s).", seat.HoldsN/1000, fastener.Margin, seat.Source))
	return a, nil
}

// deepen works out the thread that holds all the bolt may be given, and the
// range with it.
func (out *Torque) deepen(bolt fastener.Joint, parent fastener.Parent) error {
	full, err := bolt.Advise(fastener.UsualShare)
	if err != nil {
		return err
	}
	most, err := bolt.Preload(full.LimitNM)
	if err != nil {
		return err
	}
	seat, err := bolt.Seat(fastener.Seat{Parent: parent, Engagement: parent.RuleD.Hi * bolt.Thread.D}, most.Hi)
	if err != nil {
		return err
	}
	out.Deep = &Deep{MM: math.Ceil(seat.NeedMM), LowNM: full.UseNM.Lo, HighNM: full.UseNM.Hi}
	out.Deep.Say = fmt.Sprintf("With %.0f mm of thread or more the bolt decides: %s to %s N·m.", out.Deep.MM, nm(full.UseNM.Lo), floored(full.UseNM.Hi))
	return nil
}

// A head that is in no table, in diameters. Source: common practice, no source.
const (
	flatsD = 1.6 // across the flats
	holeD  = 1.1
)

// headOf is the ring under the head: the table, else 1.6 diameters across flats
// over a hole of 1.1. Common practice, no source.
func headOf(t fastener.Thread) (fastener.Head, string) {
	if h, err := fastener.HexHead(t); err == nil {
		return h, h.Source
	}
	h, _ := fastener.Across(flatsD*t.D, holeD*t.D) // in proportion, so never out of range
	return h, "taken as 1.6 diameters across flats over a hole of 1.1 (common practice, no source): measure it"
}

// stagesOf spreads a range over the usual passes, as fastener.PatternOf has
// them.
func stagesOf(low, high float64) []Stage {
	out := []Stage{{Words: "By hand until the parts touch all round"}}
	for _, share := range []float64{0.30, 0.65, 1} {
		out = append(out, Stage{Words: fmt.Sprintf("%s to %s N·m", nm(share*low), floored(share*high)), LowNM: share * low, HighNM: share * high})
	}
	last := out[len(out)-1]
	last.Words, last.OnceAgain = "The same once more, one after the other round, until none turns", true
	return append(out, last)
}

// ranges lists the torques of all sets, the weakest class first.
func ranges(sets []Tightening) []Torque {
	var out []Torque
	for _, t := range sets {
		out = append(out, t.Torques...)
	}
	slices.SortStableFunc(out, func(a, b Torque) int { return cmp.Compare(a.most(), b.most()) })
	return out
}

// most is the most that the class may be given, with all the thread it wants.
func (q Torque) most() float64 {
	if q.Deep != nil {
		return q.Deep.HighNM
	}
	return q.LimitNM
}
