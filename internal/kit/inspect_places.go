package kit

import (
	"fmt"
	"slices"
	"strings"
)

// families looks at the families of places.
func (c *checker) families(s *Sheet) {
	for i, p := range s.Places {
		it := c.item(s, aFamily, i, p.Family)
		c.named(it, "name", p.Name)
		c.placing(it, p)
		for _, list := range []struct {
			field  string
			labels []string
		}{{"labels", p.Labels}, {"each", p.Each}} {
			for k, l := range list.labels {
				c.letters(it, at(list.field, k), l)
				if slices.Index(list.labels, l) < k {
					c.fault(it, at(list.field, k), "the label "+quote(l)+" stands twice", "take one out")
				}
			}
		}
		c.sameFamily(it, p)
	}
	c.nesting(s)
}

// placing wants exactly one of count, labels, and under with each.
func (c *checker) placing(it item, p Places) {
	ways := 0
	for _, given := range []bool{p.Count != "", len(p.Labels) > 0, p.Under != "" || len(p.Each) > 0} {
		if given {
			ways++
		}
	}
	switch {
	case ways != 1:
		c.fault(it, "family", fmt.Sprintf("its places are given in %d ways", ways), "give count, or labels, or under with each")
	case p.Count != "":
		c.formula(it, "count", p.Count, mostPlaces)
	case p.Under != "" && len(p.Each) == 0:
		c.fault(it, "under", "the places within one "+p.Under+" are not named", `write each = ["in", "ex"] or the like`)
	case p.Under == "" && len(p.Each) > 0:
		c.fault(it, "each", "the family above is not named", `write under = "…"`)
	case p.Under != "":
		c.known(it, "under", aFamily, p.Under)
	}
}

// sameFamily wants a family that two kits declare to be declared alike.
func (c *checker) sameFamily(it item, p Places) {
	first := c.index.first[aFamily][p.Family]
	if first.sheet == it.sheet {
		return
	}
	q := first.sheet.Places[first.at]
	if !sameWords(p, q) {
		c.fault(it, "family", "kit "+quote(first.sheet.Kit.ID)+" declares this family in another way", "declare both alike, or give one another name")
	}
}

func sameWords(p, q Places) bool {
	return p.Name == q.Name && squeeze(p.Count) == squeeze(q.Count) && p.Under == q.Under &&
		slices.Equal(p.Labels, q.Labels) && slices.Equal(p.Each, q.Each)
}

func squeeze(text string) string { return strings.ReplaceAll(text, " ", "") }

// nesting refuses families that lie under one another in a circle.
func (c *checker) nesting(s *Sheet) {
	for i, p := range s.Places {
		seen := []string{p.Family}
		for up := p.Under; up != ""; {
			if up == p.Family {
				c.fault(c.item(s, aFamily, i, p.Family), "under", "these families lie under one another: "+strings.Join(append(seen, up), ", "), "leave one of them without under")
				break
			}
			if slices.Contains(seen, up) {
				break
			}
			seen = append(seen, up)
			it, ok := c.ownFamily(s, up)
			if !ok {
				break
			}
			up = it.sheet.Places[it.at].Under
		}
	}
}

// data looks at the figures of the machine that formulas use.
func (c *checker) data(s *Sheet) {
	for i, d := range s.Data {
		it := c.item(s, aDatum, i, d.ID)
		c.named(it, "name", d.Name)
		c.unit(it, "unit", d.Unit)
		if d.Value != nil || d.From != "" {
			c.provenance(it, d.From)
		}
		first := c.index.first[aDatum][d.ID]
		if q := first.sheet; q != s {
			o := q.Data[first.at]
			if o.Unit != d.Unit || (o.Value == nil) != (d.Value == nil) || o.Value != nil && *o.Value != *d.Value {
				c.fault(it, "id", "kit "+quote(q.Kit.ID)+" declares this datum with another unit or value", "declare both alike, or give one another id")
			}
		}
	}
}

// sitting looks at the assembly and the family an item names.
func (c *checker) sitting(it item, assembly, places string) {
	if assembly == "" {
		c.fault(it, "assembly", "it belongs to no assembly", `write assembly = "…"`)
	} else {
		c.known(it, "assembly", anAssem, assembly)
	}
	if places != "" {
		c.known(it, "places", aFamily, places)
	}
}
