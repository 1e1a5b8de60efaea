package web

import (
	"fmt"
	"net/url"
	"slices"

	"matchmark/internal/bench"
	"matchmark/internal/finding/judge"
	"matchmark/internal/machine"
	"matchmark/internal/trade/spelling"
)

// widest is how many columns of cells a phone shows.
const widest = 4

// cellsOf lays out the surface of the point now with as many neighbours as
// fit, and lists the rest as places to go to.
func cellsOf(v *bench.View, r run, now int, self, after string) (*cellTable, []otherPlace) {
	surfaces := surfacesOf(r)
	here := r.Points[now].Feature
	axes := max(len(here.Axes), 1)
	fit := max(widest/axes, 1)
	k := slices.Index(surfaces, here)
	from := min(max(k-fit+1, 0), max(len(surfaces)-fit, 0))
	if k == 0 {
		from = 0
	}
	shown := surfaces[from:min(from+fit, len(surfaces))]
	shown = slices.DeleteFunc(slices.Clone(shown), func(ft *machine.Feature) bool { return !sameGrid(ft, here) })
	t := gridOf(r, now, shown, self, after)
	t.Feet = feet(v, shown, axes)
	return t, otherPlaces(r, surfaces, shown, self)
}

// surfacesOf lists the surfaces of a run in order.
func surfacesOf(r run) []*machine.Feature {
	var out []*machine.Feature
	for _, p := range r.Points {
		if len(out) == 0 || out[len(out)-1] != p.Feature {
			out = append(out, p.Feature)
		}
	}
	return out
}

func sameGrid(a, b *machine.Feature) bool {
	return slices.Equal(a.Levels, b.Levels) && slices.Equal(a.Axes, b.Axes)
}

// gridOf fills the rows: one for each level, one more for the unworn surface.
func gridOf(r run, now int, shown []*machine.Feature, self, after string) *cellTable {
	t := &cellTable{}
	first := shown[0]
	levels, axes := orOne(first.Levels), orOne(first.Axes)
	for _, ft := range shown {
		t.Groups = append(t.Groups, cellGroup{spelling.Head(point{Feature: ft}.owner()), len(axes)})
		if len(first.Axes) > 0 {
			t.Axes = append(t.Axes, axes...)
		}
	}
	for _, level := range levels {
		row := cellRow{Name: level}
		for _, ft := range shown {
			for _, axis := range axes {
				row.Cells = append(row.Cells, cellAt(r, now, point{Feature: ft, Level: level, Axis: axis}.Key(), self, after))
			}
		}
		t.Rows = append(t.Rows, row)
	}
	if first.Unworn != "" {
		row := cellRow{Name: "unworn"}
		for _, ft := range shown {
			row.Cells = append(row.Cells, cellAt(r, now, point{Feature: ft, Unworn: true}.Key(), self, after))
			for range len(axes) - 1 {
				row.Cells = append(row.Cells, cell{})
			}
		}
		t.Rows = append(t.Rows, row)
	}
	return t
}

func orOne(words []string) []string {
	if len(words) == 0 {
		return []string{""}
	}
	return words
}

func cellAt(r run, now int, key, self, after string) cell {
	i := r.find(key)
	if i < 0 {
		return cell{}
	}
	p := r.Points[i]
	c := cell{At: self + "?at=" + url.QueryEscape(key), Words: p.Words(), Here: i == now}
	if last := p.last(); last != nil {
		shown := bench.In(last.Amount, unitOf(p))
		c.Text, c.More = figure(shown.Value, shown.Unit), len(p.Reads)-1
		c.Landed = key == after
	}
	return c
}

// feet are the oval and taper of each surface shown, as the findings have
// them.
func feet(v *bench.View, shown []*machine.Feature, span int) []footRow {
	var out []footRow
	for _, by := range []string{machine.ByOval, machine.ByTaper} {
		row := footRow{Name: by, Span: span}
		any := false
		for _, ft := range shown {
			text := ""
			for _, c := range v.Machine.Checks {
				if c.By == by && slices.Contains(c.Surfaces(), ft) {
					any = true
					f := v.Judged().Of(c.ID)
					text = "to read"
					if f.Verdict != judge.NotRead && finite(f.Value) {
						text = figure(f.Value, c.Unit) + behind(" ", f.At)
					}
				}
			}
			row.Values = append(row.Values, text)
		}
		if any {
			out = append(out, row)
		}
	}
	return out
}

func otherPlaces(r run, surfaces, shown []*machine.Feature, self string) []otherPlace {
	var out []otherPlace
	for _, ft := range surfaces {
		if slices.Contains(shown, ft) {
			continue
		}
		done, all, first := 0, 0, ""
		for _, p := range r.Points {
			if p.Feature != ft {
				continue
			}
			all++
			if p.last() != nil {
				done++
			} else if first == "" {
				first = p.Key()
			}
			if all == 1 && first == "" {
				first = p.Key()
			}
		}
		out = append(out, otherPlace{Name: spelling.Head(point{Feature: ft}.owner()), At: self + "?at=" + url.QueryEscape(first),
			Done: fmt.Sprintf("%d of %d", done, all)})
	}
	return out
}

// listOf shows the points of a check that is read directly, one a line.
func listOf(r run, now int, self, after string) []cell {
	var out []cell
	for _, p := range r.Points {
		out = append(out, cellAt(r, now, p.Key(), self, after))
	}
	return out
}
