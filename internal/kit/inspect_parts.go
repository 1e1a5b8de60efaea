package kit

import (
	"fmt"
	"slices"
	"strings"
)

// parts looks at the parts and their features.
func (c *checker) parts(s *Sheet) {
	for i, p := range s.Parts {
		it := c.item(s, aPart, i, p.ID)
		c.named(it, "name", p.Name)
		c.sitting(it, p.Assembly, p.Places)
		c.only(it, p.Only)
		if p.Qty != "" {
			c.formula(it, "qty", p.Qty, mostPieces)
		}
		c.notBelow(it, "mass_kg", p.MassKg)
		c.hazards(it, p.Hazards)
		if lining(strings.ToLower(p.Name + " " + p.Material)) {
			c.wantHazard(it, p.Hazards, "old lining dust", "old linings may hold asbestos")
		}
		for k, f := range p.Features {
			c.feature(item{s, aFeature, p.ID + "/" + f.ID, fmt.Sprintf("%s.feature.%d", it.path, k), "feature " + quote(p.ID+"/"+f.ID), k, i}, f)
		}
	}
}

func (c *checker) feature(it item, f Feature) {
	c.named(it, "name", f.Name)
	c.word(it, "sort", f.Sort, FeatureSorts())
	c.notBelow(it, "nominal_mm", f.Nominal)
	for _, list := range []struct {
		field string
		words []string
	}{{"levels", f.Levels}, {"axes", f.Axes}} {
		for i, w := range list.words {
			if strings.TrimSpace(w) == "" || slices.Index(list.words, w) < i {
				c.fault(it, at(list.field, i), "the point "+quote(w)+" is empty or stands twice", "give each point a name of its own")
			}
		}
	}
}

// looseParts names the parts that sit in no joint of any kit.
func (c *checker) looseParts() {
	held := map[string]bool{}
	for _, s := range c.sheets {
		for _, j := range s.Joints {
			for _, p := range j.Parts {
				held[p] = true
			}
		}
	}
	for _, s := range c.sheets {
		for i, p := range s.Parts {
			if !held[p.ID] && p.ID != "" {
				c.fault(c.item(s, aPart, i, p.ID), "id", "part "+p.ID+" sits in no joint, so a left-over piece would not be noticed",
					"name the joint it goes back with")
			}
		}
	}
}

// joints looks at the joints; circles among them come later.
func (c *checker) joints(s *Sheet) {
	for i, j := range s.Joints {
		it := c.item(s, aJoint, i, j.ID)
		c.named(it, "name", j.Name)
		c.sitting(it, j.Assembly, j.Places)
		c.word(it, "sort", j.Sort, JointSorts())
		c.only(it, j.Only)
		c.holding(it, j, c.each(it, "parts", aPart, j.Parts))
		c.notBelow(it, "hours", j.Hours)
		c.fastening(it, j)
		c.jointHazards(it, j)
		c.reckonings(it, j.Reckon)
		c.reach(it, j, "behind", j.Behind)
		for k, set := range j.Or {
			c.reach(it, j, at("or_behind", k), set)
			if len(set) == 0 {
				c.fault(it, at("or_behind", k), "an empty way in stands here", "name the joints of this way, or take it out")
			}
		}
		if len(j.Or) > 0 && len(j.Behind) == 0 {
			c.fault(it, "or_behind", "there are other ways in, but behind is empty", "write the first way under behind")
		}
	}
}

// holding wants a joint to hold two pieces, unless its sort stands alone.
func (c *checker) holding(it item, j Joint, parts []item) {
	switch {
	case len(j.Parts) == 0:
		c.fault(it, "parts", "it holds no parts", `write parts = ["…", "…"]`)
	case len(j.Parts) == 1 && len(parts) == 1 && !standsAlone(j.Sort):
		p := parts[0].sheet.Parts[parts[0].at]
		if (p.Qty == "" || p.Qty == "1") && (p.Places == "" || p.Places == j.Places) {
			c.fault(it, "parts", "it holds one part only", "name the part it is joined to")
		}
	}
}

// reach looks at one way in.
func (c *checker) reach(it item, j Joint, field string, ids []string) {
	c.each(it, field, aJoint, ids)
	if i := slices.Index(ids, j.ID); i >= 0 && j.ID != "" {
		c.fault(it, at(field, i), "the joint is said to be behind itself", "take it out here")
	}
}
