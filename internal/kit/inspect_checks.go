package kit

import (
	"fmt"
	"slices"
	"strings"

	"matchmark/internal/machine"
)

// checks looks at the checks with their limits and remedies.
func (c *checker) checks(s *Sheet) {
	beyond := c.beyond()
	for i, k := range s.Checks {
		it := c.item(s, aCheck, i, k.ID)
		c.named(it, "name", k.Name)
		c.sitting(it, k.Assembly, k.Places)
		c.only(it, k.Only)
		c.word(it, "when", k.When, Whens())
		c.word(it, "by", k.By, Bys())
		joints := c.each(it, "joints", aJoint, k.Joints)
		parts := c.each(it, "parts", aPart, k.Parts)
		if len(k.Joints)+len(k.Parts) == 0 {
			c.fault(it, "id", "it hangs on nothing, so it would hold no closing", `write joints = ["…"] or parts = ["…"]`)
		}
		c.measured(it, k)
		c.hider(it, k, joints, parts, beyond)
		c.dry(it, k, joints)
		c.hazards(it, k.Hazards)
		c.missingHazards(it, k.Hazards, k.Name, k.How)
		if k.Repeats < 0 {
			c.fault(it, "repeats", fmt.Sprintf("repeats is %d", k.Repeats), "write how often it is read, from 1")
		}
		c.limits(it, k)
		c.remedies(it, k)
		c.reckonings(it, k.Reckon)
	}
}

// measured looks at the surfaces, the unit and the points a check needs.
func (c *checker) measured(it item, k Check) {
	byHand := k.By == machine.ByReading || k.By == machine.ByEye || k.By == machine.ByPassage
	if k.By == machine.ByEye || k.By == machine.ByPassage {
		if k.Unit != "" {
			c.fault(it, "unit", "a check by "+k.By+" has no unit", "take the unit out")
		}
	} else {
		c.unit(it, "unit", k.Unit)
	}
	if k.Outer == "" && !byHand && k.By != machine.ByStack && slices.Contains(Bys(), k.By) {
		c.fault(it, "outer", "by "+quote(k.By)+" needs a surface", `write outer = "part/feature"`)
	}
	if k.By == machine.ByClearance && k.Inner == "" {
		c.fault(it, "inner", `by "clearance" needs the inner surface too`, `write inner = "part/feature"`)
	}
	if k.Inner != "" && k.By != machine.ByClearance {
		c.fault(it, "inner", "only a clearance has an inner surface", "take inner out, or write by = \"clearance\"")
	}
	c.stack(it, k)
	for _, side := range []struct{ field, id string }{{"outer", k.Outer}, {"inner", k.Inner}} {
		if side.id == "" {
			continue
		}
		if f, ok := c.surfaceAt(it, k, side.field, side.id, false); ok {
			c.points(it, k, side.field, f)
		}
	}
}

// stack looks at the sizes that a stack adds up.
func (c *checker) stack(it item, k Check) {
	switch {
	case k.By != machine.ByStack:
		if len(k.Terms) > 0 {
			c.fault(it, "term", "only a stack has terms", `take them out, or write by = "stack"`)
		}
		return
	case len(k.Terms) < 2:
		c.fault(it, "by", `by "stack" needs two sizes or more`, `write term = [{ feature = "part/feature", times = 1 }, { feature = "part/feature", times = -1 }]`)
	}
	if k.Outer != "" {
		c.fault(it, "outer", "a stack has terms, no outer surface", "take outer out, and name the surface among the terms")
	}
	for i, s := range k.Terms {
		field := at("term", i)
		c.surfaceAt(it, k, field+".feature", s.Feature, false)
		if s.Times == 0 {
			c.fault(it, field+".times", "the size counts no times", "write times = 1, or -1 where it is taken away")
		}
	}
}

// surfaceAt looks up a surface that a check names and wants it to be told which
// one is meant.
func (c *checker) surfaceAt(it item, k Check, field, id string, shared bool) (Feature, bool) {
	p, f, ok := c.surface(it, field, id)
	if ok {
		c.oneSurface(it, k, field, id, p, shared)
	}
	return f, ok
}

// points wants the points that a form error is reckoned from.
func (c *checker) points(it item, k Check, field string, f Feature) {
	if k.By == machine.ByOval && len(f.Axes) < 2 {
		c.fault(it, field, "an oval needs the surface read on two axes, and "+quote(f.ID)+" has "+fmt.Sprint(len(f.Axes)), `write axes = ["along", "across"] at the feature`)
	}
	if k.By == machine.ByTaper && len(f.Levels) < 2 {
		c.fault(it, field, "a taper needs the surface read at two levels, and "+quote(f.ID)+" has "+fmt.Sprint(len(f.Levels)), `write levels = ["top", "low"] at the feature`)
	}
}

// dry wants a check on the dry build to have a joint that is built dry.
func (c *checker) dry(it item, k Check, joints []item) {
	if !k.Dry {
		return
	}
	if k.When != machine.Made {
		c.fault(it, "on_dry_build", "a check on the dry build is made when its joint is closed", `write when = "made"`)
	}
	built := slices.ContainsFunc(joints, func(j item) bool { return j.sheet.Joints[j.at].Dry })
	if len(joints) > 0 && !built {
		c.fault(it, "on_dry_build", "none of its joints is built dry", "write dry_build = true at the joint, or take this out")
	}
}

// beyond lists for each joint the joints that may be in front of it, near and
// far, over all ways in.
func (c *checker) beyond() map[string]map[string]bool {
	if c.inFront != nil {
		return c.inFront
	}
	c.inFront = map[string]map[string]bool{}
	for id := range c.index.first[aJoint] {
		seen := map[string]bool{}
		list := []string{id}
		for len(list) > 0 {
			it, ok := c.index.first[aJoint][list[0]]
			list = list[1:]
			if !ok {
				continue
			}
			for _, way := range it.sheet.Joints[it.at].ways() {
				for _, k := range way {
					if !seen[k] {
						seen[k] = true
						list = append(list, k)
					}
				}
			}
		}
		c.inFront[id] = seen
	}
	return c.inFront
}

// hider looks at what hides a check: for one made apart, its own joint or one
// in front of it; for one made after closing, never its own joint.
func (c *checker) hider(it item, k Check, joints, parts []item, beyond map[string]map[string]bool) {
	c.each(it, "hidden_by", aJoint, k.HiddenBy)
	own := c.ownJoints(k, joints, parts)
	for i, h := range k.HiddenBy {
		if _, ok := c.index.first[aJoint][h]; !ok {
			continue
		}
		switch k.When {
		case machine.Apart:
			in := slices.ContainsFunc(own, func(j string) bool { return j == h || beyond[j][h] })
			if !in && len(own) > 0 {
				c.fault(it, at("hidden_by", i), "closing "+h+" does not hide it: that is neither its own joint nor in front of it",
					"name one of "+strings.Join(own, ", ")+", or a joint in front of them")
			}
		case machine.Made:
			if slices.Contains(k.Joints, h) {
				c.fault(it, at("hidden_by", i), "it is made once "+h+" is closed, so that closing cannot hide it",
					"name the joint whose closing hides it, or write when = \"apart\"")
			}
		}
	}
}

// ownJoints lists the joints a check is on, and those of the parts it is on.
func (c *checker) ownJoints(k Check, joints, parts []item) []string {
	var out []string
	for _, j := range joints {
		out = append(out, j.id)
	}
	on := map[string]bool{}
	for _, id := range k.surfaces() {
		on[string(machine.FeatureID(id).Part())] = true
	}
	for _, p := range parts {
		on[p.id] = true
	}
	for _, s := range c.sheets {
		for _, j := range s.Joints {
			if !slices.Contains(out, j.ID) && slices.ContainsFunc(j.Parts, func(p string) bool { return p != "" && on[p] }) {
				out = append(out, j.ID)
			}
		}
	}
	return out
}
