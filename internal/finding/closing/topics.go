package closing

import (
	"fmt"
	"math"
	"slices"
	"strconv"
	"strings"

	"matchmark/internal/finding/judge"
	"matchmark/internal/machine"
)

// topics names what reckon can be asked beside this joint, with what is known
// already, written as reckon reads it.
func (s *Sheet) topics(d *Desk) {
	s.Given = map[string][]string{}
	add := func(topic string, given ...string) {
		if !slices.Contains(s.Reckon, topic) {
			s.Reckon = append(s.Reckon, topic)
			s.Given[topic] = given
		}
	}
	for _, t := range s.Tightening {
		if len(t.Torques) == 0 {
			continue
		}
		given := []string{"thread=" + t.Thread, "class=" + t.Torques[0].Class, "friction=" + t.Friction}
		if t.into != "" {
			given = append(given, "into="+t.into)
		}
		if t.loose {
			given = append(given, "flats="+mm(flatsD*t.d), "hole="+mm(holeD*t.d))
		}
		add("torque", given...)
		add("crowfoot", "torque="+floored(t.Torques[0].HighNM))
		add("reuse")
	}
	switch {
	case s.Shims == nil:
	case s.Joint.Plan.Thicker == "":
		add("shim-influence")
	default:
		add("shim-pack", s.Shims.given(s.Joint.Plan.Thicker)...)
	}
	for _, h := range s.Heat {
		if h.bearing() {
			add("bearing-heat", "bore="+mm(h.OnMM), "tight="+mm(h.TightMM)+" mm")
			continue
		}
		add("shrink", "part="+string(h.kind()), "diameter="+mm(h.OnMM), "tight="+mm(h.TightMM), "ring="+typed(expands(h.Ring.Material)), "shaft="+typed(expands(h.Check.Inner.Part.Material)))
		add("press", "diameter="+mm(h.OnMM), "tight="+mm(h.TightMM))
	}
	for _, c := range s.Joint.Checks {
		if topic := topicOf[c.Type]; topic != "" {
			add(topic, window(topic, d.finding(c))...)
		}
	}
	if s.Shims != nil && says(strings.Join(s.Joint.AsFound, " "), "spill") {
		add("spill-shim")
	}
	if s.Joint.Sort == "rolling bearing" || s.Joint.Sort == "press" && bearingIn(s.Joint) != nil {
		add("bearing-heat")
	}
	slices.Sort(s.Reckon)
}

// topicOf is the sum that belongs to a check of the kits, beside those that
// follow from fasteners, shims and fits.
var topicOf = map[machine.CheckID]string{
	"squish": "bump", "comp-volume": "compression-ratio", "comp-volume-direct": "compression-ratio",
	"lash": "valve-lash", "valve-timing": "valve-timing",
	"ring-gap": "ring-gap", "ring-gap-second": "ring-gap", "ring-gap-third": "ring-gap",
}

// window is the clearance wanted between piston and head, where the limits say.
func window(topic string, f *judge.Finding) []string {
	lo, hi := f.Limit.NewLow, f.Limit.NewHigh
	if topic != "bump" || math.IsInf(lo, 0) || math.IsInf(hi, 0) || !(lo < hi) {
		return nil
	}
	return []string{"low=" + mm(lo), "high=" + mm(hi)}
}

// given is what a trial build tells reckon of a pack.
func (s *Shims) given(sense string) []string {
	out := []string{"sense=" + sense}
	if w := s.Want; w != nil && w.HighMM > 0 {
		out = append(out, "fitted="+mm(w.FittedMM), "measured="+mm(w.ReadMM), "low="+mm(w.Float.Lo), "target="+mm(w.Float.Target), "high="+mm(w.Float.Hi))
	}
	var stock []string
	for _, o := range s.Out {
		stock = append(stock, fmt.Sprintf("%sx%d", mm(o.ThicknessMM), max(o.Count, 1)))
	}
	if len(stock) > 0 {
		out = append(out, "stock="+strings.Join(stock, ";"))
	}
	return out
}

// typed is a metal as reckon reads it.
func typed(id string) string { return strings.ReplaceAll(id, "-", " ") }

// mm prints a size for reckon, to the µm.
func mm(v float64) string { return strconv.FormatFloat(v, 'f', 3, 64) }

// bearingIn finds the rolling bearing of a joint, nil where there is none.
func bearingIn(j *machine.Joint) *machine.Part {
	for _, p := range j.Parts {
		if isBearing(p) {
			return p
		}
	}
	return nil
}

func (h Heat) bearing() bool { return isBearing(h.Ring) }

func isBearing(p *machine.Part) bool {
	words := fmt.Sprint(p.Name, " ", p.Material)
	return says(words, "bearing") && !says(words, "shell", "bush", "cap") || says(p.Material, "ball bearing", "roller", "needle")
}
