package web

import (
	"matchmark/internal/machine"
	"matchmark/internal/trade/spelling"
)

// photoRow is one photo as listed.
type photoRow struct{ Small, Full, Words string }

func photosOf(m *machine.Machine, base string, list []machine.Photo) []photoRow {
	var out []photoRow
	for _, p := range list {
		at := base + "/p/" + string(p.Sum)
		words := p.Caption
		if words == "" {
			words = spelling.Head(refName(m, p.Of))
		}
		if words == "" {
			words = "Photo"
		}
		out = append(out, photoRow{at + "/small", at, words + ", " + p.By + ", " + day(p.At)})
	}
	return out
}
