package book

import (
	"fmt"
	"math"
	"slices"

	"matchmark/internal/finding/judge"
	"matchmark/internal/machine"
)

// Measured is the size of a surface as read: its least and its greatest
// diameter with the standard uncertainty of the nearer to worn.
type Measured struct {
	Known     bool    `json:"known"`
	LeastMM   float64 `json:"leastMm"`
	MostMM    float64 `json:"mostMm"`
	UMM       float64 `json:"uMm,omitempty"`
	Read      int     `json:"pointsRead"`
	Points    int     `json:"points"`
	Corrected bool    `json:"corrected"` // by setting and temperature; else as shown by the instrument
	Words     string  `json:"words"`
}

// measured takes the size of a surface from judge, which corrects for setting
// and temperature. Where it gives none because points are missing, the readings
// stand as they were shown, and the words say so.
func measured(m *machine.Machine, ft *machine.Feature) Measured {
	out := Measured{Points: len(ft.Points())}
	out.LeastMM, out.MostMM = math.Inf(1), math.Inf(-1)
	for _, r := range ft.Current() {
		if !r.Unworn && (r.Amount.Unit == "" || r.Amount.Unit == "mm") {
			out.Read++
			out.LeastMM, out.MostMM = min(out.LeastMM, r.Amount.Value), max(out.MostMM, r.Amount.Value)
		}
	}
	if out.Read == 0 {
		return Measured{Points: out.Points, Words: "not measured"}
	}
	out.Known = true
	least, ok1 := extreme(m, ft, machine.Limit{Low: "0.001", From: machine.OwnDecision})
	most, ok2 := extreme(m, ft, machine.Limit{High: "1000000", From: machine.OwnDecision})
	if ok1 && ok2 {
		out.Corrected = true
		out.LeastMM, out.MostMM, out.UMM = least.Value, most.Value, most.U
		if ft.Sort == machine.Shaft {
			out.UMM = least.U
		}
	}
	out.Words = out.say()
	return out
}

// extreme is the point of a surface that lies nearest to a far-off limit: its
// smallest or its largest.
func extreme(m *machine.Machine, ft *machine.Feature, far machine.Limit) (*judge.Finding, bool) {
	c := &machine.Check{ID: machine.CheckID(ft.ID), Name: ft.Name, By: machine.BySize, Outer: ft, Unit: "mm", When: machine.Apart, Limits: []machine.Limit{far}}
	f := judge.One(m, c)
	return f, f.Verdict != judge.NotRead && f.Verdict != judge.NoLimit
}

func (d Measured) say() string {
	text := size(d.LeastMM) + " mm"
	if size(d.LeastMM) != size(d.MostMM) {
		text = size(d.LeastMM) + " to " + size(d.MostMM) + " mm"
	}
	if d.UMM > 0 {
		text += fmt.Sprintf(", u %.4f mm", d.UMM)
	}
	if !d.Corrected {
		text += fmt.Sprintf(", as shown, %d of %d points", d.Read, max(d.Points, d.Read))
	}
	return text
}

// Surface is one surface to be worked, from what size and to what.
type Surface struct {
	Feature   machine.FeatureID  `json:"feature"`
	Name      string             `json:"name"`
	From      Measured           `json:"from"`
	NominalMM float64            `json:"nominalMm,omitempty"` // 0 where not known
	NominalBy machine.Provenance `json:"nominalFrom,omitempty"`
	NominalIn string             `json:"nominalSource,omitempty"`
	StepMM    float64            `json:"stepMm,omitempty"`
	TargetMM  float64            `json:"targetMm,omitempty"` // nominal with the step; 0 where not known
	To        string             `json:"to"`                 // the size asked for, in words
	Tolerance string             `json:"tolerance"`          // always to be agreed with the shop
	Fits      []Fit              `json:"fits"`
}

// surface draws up one surface of a job that takes a size.
func (s *sheet) surface(ft *machine.Feature, step float64) Surface {
	out := Surface{Feature: ft.ID, Name: surfaceName(ft), From: measured(s.m, ft), StepMM: step}
	out.NominalMM, out.NominalBy, out.NominalIn = asMade(ft)
	out.To = s.target(&out, ft)
	out.Fits = s.fits(ft)
	out.Tolerance = tolerance(out.Fits)
	return out
}

// asMade is the size a surface was made to: its nominal, or the mean of its
// unworn readings where that is the better known. 0 where neither is.
func asMade(ft *machine.Feature) (mm float64, from machine.Provenance, source string) {
	var fresh []float64
	for _, r := range ft.Current() {
		if r.Unworn && (r.Amount.Unit == "" || r.Amount.Unit == "mm") {
			fresh = append(fresh, r.Amount.Value)
		}
	}
	switch {
	case ft.Nominal != nil && (len(fresh) == 0 || ft.Nominal.From.Rank() < machine.CommonPractice.Rank()):
		return ft.Nominal.MM, ft.Nominal.From, ft.Nominal.Source
	case len(fresh) > 0:
		for _, v := range fresh {
			mm += v / float64(len(fresh))
		}
		return mm, machine.Unworn, fmt.Sprintf("mean of %d unworn readings", len(fresh))
	}
	return 0, "", ""
}

// target says to what size a surface goes: a bore up by the step, a journal
// down.
func (s *sheet) target(out *Surface, ft *machine.Feature) string {
	way, sign := "oversize", 1.0
	if ft.Sort == machine.Shaft {
		way, sign = "undersize", -1
	}
	switch {
	case out.StepMM == 0:
		return "what cleans it up and gives the fit wanted; it takes no size step"
	case ft.Sort != machine.Bore && ft.Sort != machine.Shaft:
		return fmt.Sprintf("%.2f mm off", out.StepMM)
	case out.NominalMM == 0:
		return fmt.Sprintf("%.2f mm %s; size as made not known: find it on an unworn place before cutting", out.StepMM, way)
	}
	out.TargetMM = out.NominalMM + sign*out.StepMM
	return fmt.Sprintf("%s mm: %.2f mm %s of %s mm (%s)", size(out.TargetMM), out.StepMM, way, size(out.NominalMM), origin(out.NominalBy, out.NominalIn))
}

// surfaceName is the part's name with the surface's.
func surfaceName(ft *machine.Feature) string {
	name := ft.Name
	if name == "" {
		name = ft.ID.Name()
	}
	if ft.Part == nil {
		return name
	}
	return ft.Part.Name + ", " + name
}

// unique drops repeats and keeps the order of the first.
func unique[T comparable](list []T) []T {
	out := []T{}
	for _, v := range list {
		if !slices.Contains(out, v) {
			out = append(out, v)
		}
	}
	return out
}
