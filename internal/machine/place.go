package machine

// Places is a family of places that repeats on one machine: the cylinders, the
// mains, the two sides. A family may lie under another: the valves of a
// cylinder.
type Places struct {
	Family Family  `json:"family"`
	Name   string  `json:"name"`            // "cylinder", as said in front of a label
	Labels []Place `json:"labels"`          // "1", "2", … or "left", "right"
	Under  Family  `json:"under,omitempty"` // the family above, if any
	Above  []Place `json:"above,omitempty"` // for each label, its place in Under
}

// above is the label in the family above, empty where there is none.
func (f *Places) above(at Place) Place {
	for i, l := range f.Labels {
		if l == at && i < len(f.Above) {
			return f.Above[i]
		}
	}
	return ""
}

// atlas answers which instances of one item belong to an instance of another.
type atlas map[Family]*Places

// labels lists the places of a family; an item without a family has one
// unnamed place, and a family nobody declared counts as that.
func (a atlas) labels(f Family) []Place {
	if p := a[f]; p != nil && len(p.Labels) > 0 {
		return p.Labels
	}
	return []Place{""}
}

// reach lists the places of family `to` that belong to place `at` of family
// `from`: the same place, its children, its parent, its siblings under one
// parent; unrelated families meet at every place.
func (a atlas) reach(from Family, at Place, to Family) []Place {
	target := a[to]
	if target == nil || len(target.Labels) == 0 {
		return []Place{""}
	}
	if from == to && at != "" {
		return []Place{at}
	}
	source := a[from]
	if source == nil || at == "" {
		return target.Labels
	}
	if source.Under == to {
		return []Place{source.above(at)}
	}
	parent, ok := at, target.Under == from
	if !ok && target.Under != "" && target.Under == source.Under {
		parent, ok = source.above(at), true
	}
	if !ok {
		return target.Labels
	}
	var out []Place
	for i, l := range target.Labels {
		if i < len(target.Above) && target.Above[i] == parent {
			out = append(out, l)
		}
	}
	return out
}
