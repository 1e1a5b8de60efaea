package kit

import (
	"slices"

	"matchmark/internal/machine"
)

// spreads finds the surfaces that one piece carries several times: a
// crankshaft stands once, but its journal is read at every main. They are the
// surfaces of parts without places that a check with places compares. Given
// are, for each, the families of those checks, sorted; one is right.
//
// Expand declares such a surface once for each place, "main-journal-1",
// "main-journal-2" …, which is where Fold looks for it.
func spreads(sheets []*Sheet, x *index) map[string][]string {
	out := map[string][]string{}
	for _, s := range sheets {
		for _, k := range s.Checks {
			if k.Places == "" {
				continue
			}
			for _, id := range k.surfaces() {
				f, ok := x.first[aFeature][id]
				if ok && f.sheet.Parts[f.up].Places == "" && !slices.Contains(out[id], k.Places) {
					out[id] = append(out[id], k.Places)
				}
			}
		}
	}
	for _, list := range out {
		slices.Sort(list)
	}
	return out
}

// oneSurface wants a reference from a check to meet one surface, and its
// readings to be its own. shared allows a surface that several places have in
// common, as a size may be.
func (c *checker) oneSurface(it item, k Check, field, id string, p Part, shared bool) {
	if families := c.spread[id]; len(families) > 0 && k.Places != families[0] {
		c.fault(it, field, "surface "+quote(id)+" is read at every "+families[0]+", so it is not told which one is meant",
			"give the check places = "+quote(families[0])+", or name another surface")
		return
	}
	switch {
	case p.Places == "" || p.Places == k.Places:
	case !c.onePlace(it.sheet, k.Places, p.Places):
		c.fault(it, field, "surface "+quote(id)+" stands at every "+p.Places+", so it is not told which one is meant",
			"give the check places = "+quote(p.Places))
	case !shared:
		c.fault(it, field, "every "+k.Places+" of one "+p.Places+" would share the readings of surface "+quote(id),
			"give the part places = "+quote(k.Places)+", or the check places = "+quote(p.Places))
	}
}

// spreadOut declares a surface once for each place of a family.
func spreadOut(b machine.FeatureAdded, family machine.Places) []machine.Body {
	var out []machine.Body
	for _, at := range family.Labels {
		one := b
		one.Feature = b.Feature + "-" + string(at)
		one.Name = b.Name + ", " + string(at)
		if family.Name != "" {
			one.Name = b.Name + ", " + family.Name + " " + string(at)
		}
		out = append(out, &one)
	}
	return out
}
