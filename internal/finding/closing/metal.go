package closing

import (
	"fmt"
	"regexp"
	"strings"

	"matchmark/internal/finding/caution"
	"matchmark/internal/machine"
	"matchmark/internal/trade/fastener"
)

// refusal says why no torque is worked out for a joint, and who knows; empty
// where one may be.
func refusal(j *machine.Joint) string {
	for _, h := range hazardsOf(j) {
		if h == "protective frame" {
			r, _ := caution.Refused("frame-strength")
			return "No torque is worked out for a protective frame. " + r.Answer() + " Ask: " + r.DeferTo + "."
		}
	}
	if j.Life && j.Plan.Thread == "" {
		return "Life hangs on this joint and nothing says what was fitted. No torque is worked out: take it from the paper of this machine, or have it done by " + lifeDefer(j) + "."
	}
	if p := soft(j); p != nil {
		return fmt.Sprintf("%s (%s) decides, not the bolt: tighten crosswise until it just gives all round, and go round once more until none turns.", p.Name, p.Material)
	}
	return ""
}

// lifeDefer is who proves the life joints of a system.
func lifeDefer(j *machine.Joint) string {
	text := strings.ToLower(string(j.Assembly) + " " + j.Name)
	for _, c := range [][2]string{{"brake", "brake service"}, {"steer", "inspection station"}, {"fuel", "pump workshop"}, {"inject", "pump workshop"}, {"govern", "pump workshop"}, {"belt", "certifier of protective frames"}} {
		if strings.Contains(text, c[0]) {
			return c[1]
		}
	}
	return "somebody trained for it"
}

// between tells a part that lies between what is clamped, not on top of it.
var between = regexp.MustCompile(`(?i)\b(gasket|mount|felt|buffer|packing)\b`)

// soft finds what is clamped and gives way long before the bolt: cork, rubber,
// felt, or a gasket joint of the same parts with such a gasket.
func soft(j *machine.Joint) *machine.Part {
	for _, p := range j.Parts {
		if isSoft(p.Material) && between.MatchString(p.Name) {
			return p
		}
	}
	for _, p := range j.Parts {
		for _, k := range p.Joints {
			if k.Sort != "gasket" {
				continue
			}
			if g := gasketOf(k, j); g != nil && isSoft(g.Material) {
				return g
			}
		}
	}
	return nil
}

// gasketOf is the gasket of joint k where all else of k belongs to j.
func gasketOf(k, j *machine.Joint) *machine.Part {
	var gasket *machine.Part
	for _, p := range k.Parts {
		switch {
		case p.OneUse:
			gasket = p
		case !holds(j, p):
			return nil
		}
	}
	return gasket
}

func holds(j *machine.Joint, p *machine.Part) bool {
	for _, q := range j.Parts {
		if p == q {
			return true
		}
	}
	return false
}

func isSoft(material string) bool {
	return says(material, "cork", "rubber", "felt", "vinyl", "webbing", "plastic", "glass") &&
		!says(material, "steel", "iron", "alumin", "brass", "copper")
}

// metal is what the bolts are taken to be screwed into.
type metal struct {
	name string // of fastener.Parents; empty where no part says
	from string // "block", or "weakest of the joint"
}

// weakness orders the metals, the weakest first.
var weakness = []string{"aluminium", "cast iron", "steel"}

// metalOf reads the metal of the part that carries the thread; where that is
// not known, the weakest of what is clamped. A part that may be of two metals
// counts as the weaker.
func (d *Desk) metalOf(j *machine.Joint) metal {
	m, ok := d.metals[j]
	if !ok {
		m = metalOf(j)
		d.metals[j] = m
	}
	return m
}

func metalOf(j *machine.Joint) metal {
	if p := j.Plan.Into; p != nil {
		return metal{weakest(p.Material), lower(p.Name)}
	}
	best := metal{from: "weakest metal of the joint, for nothing says which part carries the thread"}
	for _, p := range j.Parts {
		if fixing.MatchString(p.Name) {
			continue
		}
		if m := weakest(p.Material); m != "" && (best.name == "" || rank(m) < rank(best.name)) {
			best.name = m
		}
	}
	return best
}

func rank(name string) int {
	for i, w := range weakness {
		if w == name {
			return i
		}
	}
	return len(weakness)
}

// weakest reads a material as kits write it: "cast iron/aluminium" counts as
// aluminium, zinc too (our own judgement); a casting as iron, but ductile iron
// as steel, which it comes up to.
func weakest(material string) string {
	material = strings.ReplaceAll(strings.ToLower(material), "ductile iron", "steel")
	switch {
	case says(material, "alumin", "zinc"):
		return "aluminium"
	case says(material, "iron", "cast"):
		return "cast iron"
	case says(material, "steel"):
		return "steel"
	}
	return ""
}

// frictionOf picks the state that thread and head are to be in, from what the
// kit says of the building, with a remark where that is our own judgement.
// Where the kit says nothing: clean and oiled. Common practice, no source.
func (d *Desk) frictionOf(j *machine.Joint) (fastener.Friction, string) {
	build := strings.ToLower(j.Plan.AtBuild)
	switch {
	case strings.Contains(build, "thread-lock"):
		return d.friction["locking compound, wet"], ""
	case strings.Contains(build, "copper paste"):
		return d.friction["clean and oiled"], "Copper paste is reckoned as oil: our own judgement."
	case strings.Contains(build, "clean cones"):
		return d.friction["clean and dry"], "Reckoned for a flat face. A cone seat rubs more and wants more: the paper of wheel or machine first."
	case strings.Contains(build, "seal") && strings.Contains(build, "bolt"):
		return d.friction["clean and oiled"], "Sealant on the thread is reckoned as oil: our own judgement."
	}
	return d.friction["clean and oiled"], ""
}
