package sequence

import (
	"slices"

	"matchmark/internal/machine"
)

// isDry tells a check read on the dry build.
func isDry(c *machine.Check) bool { return c.When == machine.Made && c.Dry }

// partsOf are the parts a check looks at: those named, else those that carry
// its features.
func partsOf(c *machine.Check) []*machine.Part {
	if len(c.Parts) > 0 {
		return c.Parts
	}
	var out []*machine.Part
	for _, ft := range []*machine.Feature{c.Outer, c.Inner} {
		if ft != nil && !slices.Contains(out, ft.Part) {
			out = append(out, ft.Part)
		}
	}
	return out
}

// jointsOf are the joints through which a check is come at: its own, else
// those of its parts.
func jointsOf(c *machine.Check) []*machine.Joint {
	if len(c.Joints) > 0 {
		return c.Joints
	}
	var out []*machine.Joint
	seen := map[*machine.Joint]bool{}
	for _, p := range partsOf(c) {
		for _, j := range p.Joints {
			if !seen[j] {
				seen[j] = true
				out = append(out, j)
			}
		}
	}
	return out
}

// hiders tells which closings a check must come before: each of own, and all
// joints of some one of the sets. Own joints count where the check is made
// apart or on the dry build. A check of a part alone is hidden by what is said
// to hide it, else, to be on the safe side, by the first closing of any joint
// of the part. A made check cannot be hidden by its own closing, so a kit that
// says so is not followed in that.
func hiders(c *machine.Check) (own []*machine.Joint, sets [][]*machine.Joint) {
	switch {
	case c.When == machine.Running:
		return nil, nil
	case c.When == machine.Made && !c.Dry:
		return nil, withoutOwn(c)
	case len(c.Joints) > 0:
		return c.Joints, c.HiddenBy
	case len(c.HiddenBy) > 0:
		return nil, c.HiddenBy
	}
	return jointsOf(c), nil
}

// withoutOwn are the hiding sets less the check's own joints; a set with no
// other joint falls away.
func withoutOwn(c *machine.Check) [][]*machine.Joint {
	var out [][]*machine.Joint
	for _, set := range c.HiddenBy {
		rest := slices.DeleteFunc(slices.Clone(set), func(j *machine.Joint) bool { return slices.Contains(c.Joints, j) })
		if len(rest) > 0 {
			out = append(out, rest)
		}
	}
	return out
}
