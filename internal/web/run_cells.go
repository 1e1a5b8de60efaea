package web

import (
	"fmt"
	"net/url"
	"slices"
	"strings"

	"matchmark/internal/bench"
	"matchmark/internal/finding/judge"
	"matchmark/internal/machine"
	"matchmark/internal/trade/spelling"
)

// How many columns of cells a phone shows at once, and a wider page.
const (
	widest     = 4
	widestWide = 6
)

// cell is one point of the table. What the script of the page needs to bring
// the point up out of reach of the box stands with it.
type cell struct {
	At     string // where to go to read it
	Key    string
	Text   string
	Words  string
	Lines  string // parted by |
	Nth    int
	Group  int // which surface of the run
	Window int // which window it is held against
	Unworn bool
	Y      int    // of the level in the sketch; 0 for none
	Axis   string // which arrow of the sketch: along, across
	Here   bool
	Landed bool
	More   int // further readings at the point
	Hide   hide
}

// hide says on which pages a column does not show: the script moves the two
// stretches along as the run goes on.
type hide struct{ Narrow, Wide bool }

// Class is for the style sheet.
func (h hide) Class() string {
	return strings.TrimSpace(map[bool]string{true: "n"}[h.Narrow] + map[bool]string{true: " w"}[h.Wide])
}

// cellTable lays surfaces of one pattern side by side: a column for each axis,
// a row for each level.
type cellTable struct {
	Groups []cellGroup
	Rows   []cellRow
	Feet   []footRow
	Axes   []axisHead
}

type cellGroup struct {
	Name  string
	Span  int
	Group int
	Hide  hide
}

type axisHead struct {
	Name  string
	Group int
	Hide  hide
}

type cellRow struct {
	Name  string
	Cells []cell
}

type footRow struct {
	Name   string
	Values []footCell
}

type footCell struct {
	Text  string
	Span  int
	Group int
	Hide  hide
}

// otherPlace is a place of the run to go to where its column does not show.
type otherPlace struct {
	Name, At, Key string
	Done          string
	Group         int
	Hide          hide
}

// layout is a run with what its cells need to know of it.
type layout struct {
	run
	surfaces    []*machine.Feature
	hides       []hide
	now         int
	self, after string
}

// tablesOf lays out all surfaces of a run, in tables of one pattern each. The
// columns about the point now show; the rest are listed as places to go to.
func tablesOf(v *bench.View, r run, now int, self, after string) ([]*cellTable, []otherPlace) {
	l := layout{run: r, surfaces: surfacesOf(r), now: now, self: self, after: after}
	here := r.Points[now].Feature
	l.hides = hidesOf(len(l.surfaces), slices.Index(l.surfaces, here), len(orOne(here.Axes)))
	var out []*cellTable
	for from := 0; from < len(l.surfaces); {
		to := from + 1
		for to < len(l.surfaces) && sameGrid(l.surfaces[from], l.surfaces[to]) {
			to++
		}
		out = append(out, l.table(v, from, to))
		from = to
	}
	return out, l.others()
}

// hidesOf shows as many of n surfaces about the k-th as fit, the one before it
// among them.
func hidesOf(n, k, axes int) []hide {
	out := make([]hide, n)
	stretch := func(columns int) (from, to int) {
		fit := max(columns/axes, 1)
		from = min(max(k-fit+1, 0), max(n-fit, 0))
		return from, from + fit
	}
	near, far := [2]int{}, [2]int{}
	near[0], near[1] = stretch(widest)
	far[0], far[1] = stretch(widestWide)
	for i := range out {
		out[i] = hide{i < near[0] || i >= near[1], i < far[0] || i >= far[1]}
	}
	return out
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
	return slices.Equal(a.Levels, b.Levels) && slices.Equal(a.Axes, b.Axes) && (a.Unworn == "") == (b.Unworn == "")
}

// table fills the rows of surfaces from up to to: one for each level, one more
// for the unworn surface.
func (l layout) table(v *bench.View, from, to int) *cellTable {
	t := &cellTable{}
	first := l.surfaces[from]
	levels, axes := orOne(first.Levels), orOne(first.Axes)
	for g := from; g < to; g++ {
		t.Groups = append(t.Groups, cellGroup{spelling.Head(point{Feature: l.surfaces[g]}.owner()), len(axes), g, l.hides[g]})
		for _, a := range first.Axes {
			t.Axes = append(t.Axes, axisHead{a, g, l.hides[g]})
		}
	}
	for _, level := range levels {
		row := cellRow{Name: level}
		for g := from; g < to; g++ {
			for _, axis := range axes {
				row.Cells = append(row.Cells, l.cell(g, point{Feature: l.surfaces[g], Level: level, Axis: axis}.Key()))
			}
		}
		t.Rows = append(t.Rows, row)
	}
	if first.Unworn != "" {
		row := cellRow{Name: "unworn"}
		for g := from; g < to; g++ {
			row.Cells = append(row.Cells, l.cell(g, point{Feature: l.surfaces[g], Unworn: true}.Key()))
			for range len(axes) - 1 {
				row.Cells = append(row.Cells, cell{Group: g, Hide: l.hides[g]})
			}
		}
		t.Rows = append(t.Rows, row)
	}
	t.Feet = l.feet(v, from, to, len(axes))
	return t
}

func orOne(words []string) []string {
	if len(words) == 0 {
		return []string{""}
	}
	return words
}

// cell is the cell of a point; a key that is no point of the run gives an
// empty one.
func (l layout) cell(group int, key string) cell {
	c := cellAt(l.run, l.now, key, l.self, l.after)
	c.Group, c.Window = group, group
	if l.hides != nil {
		c.Hide = l.hides[group]
	}
	return c
}

func cellAt(r run, now int, key, self, after string) cell {
	i := r.find(key)
	if i < 0 {
		return cell{}
	}
	p := r.Points[i]
	s := sketchOf(p)
	c := cell{At: self + "?at=" + url.QueryEscape(key), Key: key, Words: p.Words(), Lines: strings.Join(p.Lines(), "|"), Nth: i,
		Unworn: p.Unworn, Y: s.Y, Here: i == now}
	if s.Axis && !p.Unworn {
		c.Axis = map[bool]string{true: "across", false: "along"}[s.Across]
	}
	if last := p.last(); last != nil {
		shown := bench.In(last.Amount, unitOf(p))
		c.Text, c.More = figure(shown.Value, shown.Unit), len(p.Reads)-1
		c.Landed = key == after
	}
	return c
}

// feet are the oval and taper of each surface, as the findings have them.
func (l layout) feet(v *bench.View, from, to, span int) []footRow {
	var out []footRow
	for _, by := range []string{machine.ByOval, machine.ByTaper} {
		row := footRow{Name: by}
		any := false
		for g := from; g < to; g++ {
			text := ""
			for _, c := range v.Machine.Checks {
				if c.By == by && slices.Contains(c.Surfaces(), l.surfaces[g]) {
					any = true
					f := v.Judged().Of(c.ID)
					text = "to read"
					if f.Verdict != judge.NotRead && finite(f.Value) {
						text = figure(f.Value, c.Unit) + behind(" ", f.At)
					}
				}
			}
			row.Values = append(row.Values, footCell{text, span, g, l.hides[g]})
		}
		if any {
			out = append(out, row)
		}
	}
	return out
}

// others lists every surface with how far it is read and where to go on.
func (l layout) others() []otherPlace {
	var out []otherPlace
	for g, ft := range l.surfaces {
		done, all, first := 0, 0, ""
		for _, p := range l.Points {
			if p.Feature != ft {
				continue
			}
			all++
			if p.last() != nil {
				done++
			} else if first == "" {
				first = p.Key()
			}
		}
		if first == "" {
			first = l.Points[slices.IndexFunc(l.Points, func(p point) bool { return p.Feature == ft })].Key()
		}
		out = append(out, otherPlace{Name: spelling.Head(point{Feature: ft}.owner()), At: l.self + "?at=" + url.QueryEscape(first), Key: first,
			Done: fmt.Sprintf("%d of %d", done, all), Group: g, Hide: l.hides[g]})
	}
	return out
}

// listOf shows the points of a check that is read directly, one a line.
func listOf(r run, now int, self, after string) []cell {
	var out []cell
	for i, p := range r.Points {
		c := cellAt(r, now, p.Key(), self, after)
		c.Window = windowIndex(r, i)
		out = append(out, c)
	}
	return out
}
