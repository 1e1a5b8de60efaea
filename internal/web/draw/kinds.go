package draw

import "slices"

// kind is a type of part with its instances on one sheet.
type kind struct {
	items  []Item
	sort   string
	symbol Symbol
}

func (k kind) first() Item { return k.items[0] }

// Machine is what the sheets are drawn from. Items are in the order of their
// numbers.
type Machine struct {
	Items     []Item
	Cylinders int
}

// symbolOf chooses an item's symbol, with its count.
func (m Machine) symbolOf(it Item) Symbol {
	sort := SortOf(it)
	switch sort {
	case "gear":
		return Of(sort, it.Teeth)
	case "spring", "fan":
		return Of(sort, 0)
	}
	return Of(sort, m.Cylinders)
}

// kindOf is the kind of an item, without any items yet.
func (m Machine) kindOf(it Item) kind {
	return kind{sort: SortOf(it), symbol: m.symbolOf(it)}
}

// kinds gathers the items that are wanted by type, in the order of the first of
// each.
func (m Machine) kinds(wanted func(Item) bool) []kind {
	var out []kind
	at := map[string]int{}
	for _, it := range m.Items {
		if !wanted(it) {
			continue
		}
		i, ok := at[it.Type]
		if !ok {
			i = len(out)
			at[it.Type] = i
			out = append(out, m.kindOf(it))
		}
		out[i].items = append(out[i].items, it)
	}
	return out
}

// shafts are the symbols that carry others along their axis.
var shafts = []string{"shaft", "spline", "worm", "crankshaft", "camshaft", "bevelpinion", "propshaft", "axleshaft", "armature", "stub", "rail"}

// carries tells whether a kind is a shaft that others may be threaded on.
func (k kind) carries() bool {
	return slices.Contains(shafts, k.sort)
}

// threaded tells whether a kind sits on an axis.
func (k kind) threaded() bool { return k.symbol.axial }
