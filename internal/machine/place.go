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

// scope tells which places of a family belong to a place of another.
type scope struct {
	every bool
	by    []Place // for each place of the family, what is compared with at
	at    Place
}

// has tells whether the place with index i belongs.
func (s scope) has(i int) bool { return s.every || i < len(s.by) && s.by[i] == s.at }

// reach finds the places of family `to` that belong to place `at` of family
// `from`: the same place, its children, its parent, its siblings under one
// parent; unrelated families meet at every place.
func (a atlas) reach(from Family, at Place, to Family) scope {
	source, target := a[from], a[to]
	switch {
	case target == nil || len(target.Labels) == 0 || at == "":
		return scope{every: true}
	case from == to:
		return scope{by: target.Labels, at: at}
	case source == nil:
		return scope{every: true}
	case source.Under == to:
		return scope{by: target.Labels, at: source.above(at)}
	case target.Under == from:
		return scope{by: target.Above, at: at}
	case target.Under != "" && target.Under == source.Under:
		return scope{by: target.Above, at: source.above(at)}
	}
	return scope{every: true}
}

// kin are the instances of one type, in the order of its family's places.
type kin[T any] struct {
	family Family
	all    []T
}

// near lists the instances that belong to a place of a family.
func (k kin[T]) near(a atlas, from Family, at Place) []T {
	s := a.reach(from, at, k.family)
	n := 0
	for i := range k.all {
		if s.has(i) {
			n++
		}
	}
	out := make([]T, 0, n)
	for i, x := range k.all {
		if s.has(i) {
			out = append(out, x)
		}
	}
	return out
}
