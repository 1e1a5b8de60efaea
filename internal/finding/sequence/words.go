package sequence

import (
	"fmt"
	"slices"
	"strings"

	"matchmark/internal/machine"
	"matchmark/internal/trade/spelling"
)

// jointWords name a step on a joint.
func jointWords(act Act, j *machine.Joint) string {
	name := spelling.Inside(j.Name)
	switch act {
	case Open:
		return "Open " + name
	case Undo:
		return "Take " + name + " apart again after the dry build"
	case Trial:
		return "Close " + name + " on trial"
	}
	return "Close " + name + " for good"
}

// doing names a step inside a sentence: "closing cover", "the check of end
// float". plain leaves the verb away where all speak of the same act.
func doing(s *Step, plain bool) string {
	switch s.Act {
	case Open, Close:
		if plain {
			return spelling.Inside(s.Joint.Name)
		}
		if s.Act == Open {
			return "opening " + spelling.Inside(s.Joint.Name)
		}
		return "closing " + spelling.Inside(s.Joint.Name)
	case Undo:
		return "taking " + spelling.Inside(s.Joint.Name) + " apart"
	case Trial:
		return "the trial of " + spelling.Inside(s.Joint.Name)
	case Check:
		return "the check of " + spelling.Inside(s.Check.Name)
	case Clean:
		return "cleaning " + spelling.Inside(s.Part.Name)
	case Collect:
		return "the arrival of " + spelling.Inside(s.Order.What)
	case Rework:
		return "the rework for " + spelling.Inside(s.Check.Name)
	}
	return "the test " + spelling.Inside(s.Name)
}

// source says where a rule comes from: "in the way, note of 12 May".
func source(r reason) string {
	day := ""
	if !r.stamp.At.IsZero() {
		day = ", " + r.stamp.At.Format("2 Jan")
	}
	by := ""
	if r.stamp.By != "" {
		by = " by " + r.stamp.By
	}
	var text string
	switch r.evidence {
	case machine.Observed:
		text = "in the way, note" + by + day
		if r.photo != "" {
			text = "in the way, photo" + by + day
		}
	case machine.SaidSo:
		text = "stated" + by + day
	case machine.Geometry:
		text = "assumed from kit geometry"
	case machine.Hides:
		text = "assumed from the kit: " + r.note
	case machine.Process:
		text = r.note
	default:
		text = "log order only"
	}
	if r.certainty == Unknown {
		text += "; not known: " + r.note
	}
	return text
}

// most is how many names a sentence takes before it counts the rest.
const most = 4

// list joins names with commas and a last word.
func list(names []string, last string) string {
	if len(names) > most {
		names = append(slices.Clone(names[:most-1]), fmt.Sprintf("%d more", len(names)-most+1))
	}
	if len(names) < 2 {
		return strings.Join(names, "")
	}
	n := len(names) - 1
	return strings.Join(names[:n], ", ") + " " + last + " " + names[n]
}

// say puts a rule in words: who waits for whom, and the source.
func (p *Plan) say(r *rule) string {
	plain := p.plain(r)
	self := doing(&p.Steps[r.step], plain)
	if len(r.any) == 0 {
		return fmt.Sprintf("%s cannot be done (%s)", spelling.Head(self), source(r.reason))
	}
	var alts []string
	count := 0
	for _, alt := range r.any {
		var names []string
		for _, l := range alt {
			names = append(names, doing(&p.Steps[l], plain))
		}
		count += len(alt)
		alts = append(alts, list(names, "and"))
	}
	others := list(alts, "or")
	switch {
	case !r.before:
		return fmt.Sprintf("%s waits for %s (%s)", spelling.Head(self), others, source(r.reason))
	case len(alts) > 1:
		return fmt.Sprintf("%s, whichever is later, waits for %s (%s)", spelling.Head(others), self, source(r.reason))
	case count > 1:
		return fmt.Sprintf("%s wait for %s (%s)", spelling.Head(others), self, source(r.reason))
	}
	return fmt.Sprintf("%s waits for %s (%s)", spelling.Head(others), self, source(r.reason))
}

// plain tells whether all steps of a rule open, or all close.
func (p *Plan) plain(r *rule) bool {
	act := p.Steps[r.step].Act
	if act != Open && act != Close {
		return false
	}
	return every(r.any, func(alt []int) bool {
		return every(alt, func(l int) bool { return p.Steps[l].Act == act })
	})
}

// export turns a rule into its shown form.
func (p *Plan) export(r *rule) Rule {
	out := Rule{Step: p.Steps[r.step].ID, Dir: After, Evidence: r.evidence, Certainty: r.certainty,
		Stamp: r.stamp, Photo: r.photo, Source: source(r.reason), Words: p.say(r)}
	if r.before {
		out.Dir = Before
	}
	for _, alt := range r.any {
		ids := make([]StepID, len(alt))
		for i, l := range alt {
			ids[i] = p.Steps[l].ID
		}
		out.Any = append(out.Any, ids)
	}
	return out
}
