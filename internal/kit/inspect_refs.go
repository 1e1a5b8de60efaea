package kit

import (
	"slices"
	"strings"

	"matchmark/internal/machine"
)

// visible tells whether a sheet may name what another declares.
func visible(from, to *Sheet) bool {
	return from == to || slices.Contains(from.Kit.Uses, to.Kit.ID)
}

// known looks an id up and adds a fault where it is not declared, or in a kit
// that is not used. field is where the id stands.
func (c *checker) known(from item, field string, n noun, id string) (item, bool) {
	found, ok := c.index.first[n][id]
	if ok && !visible(from.sheet, found.sheet) && n == aFamily {
		found, ok = c.ownFamily(from.sheet, id)
	}
	switch {
	case ok && visible(from.sheet, found.sheet):
		return found, true
	case ok:
		c.fault(from, field, string(n)+" "+quote(id)+" belongs to kit "+quote(found.sheet.Kit.ID)+", which this kit does not use",
			"add "+quote(found.sheet.Kit.ID)+" to uses, or name something of this kit")
	case id == "":
		c.fault(from, field, "an empty id stands here", "name a "+string(n)+", or take the empty one out")
	default:
		c.fault(from, field, "there is no "+string(n)+" "+quote(id),
			meant(id, c.idsSeen(from.sheet, n), "declare it, or take it out here"))
	}
	return item{}, false
}

// ownFamily finds a family that several kits declare among those in sight.
func (c *checker) ownFamily(s *Sheet, family string) (item, bool) {
	for _, it := range c.index.again {
		if it.noun == aFamily && it.id == family && visible(s, it.sheet) {
			return it, true
		}
	}
	first, ok := c.index.first[aFamily][family]
	return first, ok
}

// idsSeen lists the ids of a noun that a sheet may name.
func (c *checker) idsSeen(s *Sheet, n noun) []string {
	var out []string
	for id, it := range c.index.first[n] {
		if visible(s, it.sheet) && id != "" {
			out = append(out, id)
		}
	}
	slices.Sort(out)
	return out
}

// each looks up a list of ids of one noun.
func (c *checker) each(from item, field string, n noun, ids []string) []item {
	var out []item
	for i, id := range ids {
		if found, ok := c.known(from, at(field, i), n, id); ok {
			out = append(out, found)
		}
		if slices.Index(ids, id) < i {
			c.fault(from, at(field, i), quote(id)+" is named twice here", "take one out")
		}
	}
	return out
}

// pointed looks up an id that may be of a check, a joint or a part, in this
// order.
func (c *checker) pointed(from item, field, id string) {
	for _, n := range []noun{aCheck, aJoint, aPart} {
		if it, ok := c.index.first[n][id]; ok && visible(from.sheet, it.sheet) {
			return
		}
	}
	for _, n := range []noun{aCheck, aJoint, aPart} {
		if it, ok := c.index.first[n][id]; ok {
			c.fault(from, field, string(n)+" "+quote(id)+" belongs to kit "+quote(it.sheet.Kit.ID)+", which this kit does not use",
				"add "+quote(it.sheet.Kit.ID)+" to uses, or name something of this kit")
			return
		}
	}
	all := slices.Concat(c.idsSeen(from.sheet, aCheck), c.idsSeen(from.sheet, aJoint), c.idsSeen(from.sheet, aPart))
	c.fault(from, field, "there is no check, joint or part "+quote(id), meant(id, all, "declare it, or take it out here"))
}

// surface looks up a feature "part/feature" and returns it with its part.
func (c *checker) surface(from item, field, id string) (Part, Feature, bool) {
	part, name, ok := strings.Cut(id, "/")
	if !ok || part == "" || name == "" {
		c.fault(from, field, quote(id)+" does not name a surface", `write "part/feature", such as "liner/bore"`)
		return Part{}, Feature{}, false
	}
	if _, ok := c.index.first[aPart][part]; !ok {
		c.known(from, field, aPart, part)
		return Part{}, Feature{}, false
	}
	found, ok := c.known(from, field, aFeature, id)
	if !ok {
		return Part{}, Feature{}, false
	}
	owner := found.sheet.Parts[found.up]
	return owner, owner.Features[found.at], true
}

// onePlace tells whether an item of one family meets exactly one instance of
// an item of another: the folded machine asks a question where it does not.
func (c *checker) onePlace(s *Sheet, of, other string) bool {
	if other == "" || of == other {
		return true
	}
	it, ok := c.ownFamily(s, of)
	return ok && it.sheet.Places[it.at].Under == other
}

// hazards refuses hazard words nobody has a caution for.
func (c *checker) hazards(it item, words []string) {
	for i, w := range words {
		if !slices.Contains(Hazards(), w) {
			c.fault(it, at("hazards", i), "hazard "+quote(w)+" is not known, so no caution would be shown",
				meant(w, Hazards(), "choose one of: "+strings.Join(Hazards(), ", ")))
		}
	}
}

// provenance refuses a word for where a figure comes from that is not known.
func (c *checker) provenance(it item, from string) {
	if machine.Provenance(from).Rank() == len(machine.Provenances()) {
		c.word(it, "from", from, provenances())
	}
}
