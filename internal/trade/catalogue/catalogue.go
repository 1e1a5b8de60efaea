package catalogue

import (
	"slices"
	"sync"

	"matchmark/reference"
)

// Catalogue is all items by kind. It is read only.
type Catalogue struct {
	byKind map[Kind][]Item
}

// Standard is the catalogue of the embedded tables, read once and the same for
// everyone. Errors: what a table has wrong, naming file and line.
func Standard() (*Catalogue, error) { return standard() }

var standard = sync.OnceValues(load)

func load() (*Catalogue, error) {
	bands, err := readBands()
	if err != nil {
		return nil, err
	}
	c := &Catalogue{byKind: map[Kind][]Item{}}
	for _, f := range families {
		if f.file == "" {
			continue
		}
		tab, err := reference.Read(f.file)
		if err != nil {
			return nil, err
		}
		if c.byKind[f.kind], err = readItems(f, tab, bands); err != nil {
			return nil, err
		}
	}
	c.byKind[RollingBearing] = allBearings(c)
	return c, nil
}

// widthOf names the dimension that is the overall width of a bearing kind.
var widthOf = []struct {
	kind Kind
	dim  string
}{{Ball, "B"}, {Roller, "B"}, {Taper, "T"}, {Needle, "C"}, {Thrust, "T"}}

// allBearings is every bearing by bore, outside diameter and overall width.
func allBearings(c *Catalogue) []Item {
	var all []Item
	for _, w := range widthOf {
		for _, it := range c.byKind[w.kind] {
			it.Kind = RollingBearing
			dims := make([]Dim, 0, 3)
			for _, d := range it.Dims {
				switch d.Name {
				case "d", "D":
					dims = append(dims, d)
				case w.dim:
					d.Name, d.Wears = "W", Keeps
					dims = append(dims, d)
				}
			}
			it.Dims, it.envelope = dims, ""
			it.envelope = it.Envelope()
			all = append(all, it)
		}
	}
	return all
}

// Of lists the items of a kind in table order; nil for a kind without a table.
// The slice is a copy, the items are shared and must not be changed.
func (c *Catalogue) Of(kind Kind) []Item { return slices.Clone(c.byKind[kind]) }

// Find gives the item of a kind by designation.
func (c *Catalogue) Find(kind Kind, designation string) (Item, bool) {
	for _, it := range c.byKind[kind] {
		if it.Designation == designation {
			return it, true
		}
	}
	return Item{}, false
}
