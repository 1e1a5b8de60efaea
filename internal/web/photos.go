package web

import (
	"html/template"

	"matchmark/internal/machine"
	"matchmark/internal/trade/spelling"
)

// photoRow is one photo as listed.
type photoRow struct {
	Small, Full, Words string
	Data               template.URL // the picture itself, in a file that stands alone
}

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
		out = append(out, photoRow{Small: at + "/small", Full: at, Words: words + ", " + p.By + ", " + day(p.At)})
	}
	return out
}
