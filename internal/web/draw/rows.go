package draw

// cell is one column of a row: a symbol on the row's axis with its balloon
// above, and a second below it where a part is on both sides.
type cell struct {
	kind kind
	item int // which of the kind's items, in a row of one
}

func (c cell) width() float64 {
	w, _ := c.kind.symbol.size(false)
	last := c.kind.items[len(c.kind.items)-1:]
	return max(w, target, wide(Balloon{Items: last}.Text()))
}

// run is a stretch of cells along one axis.
type run struct {
	cells []cell
	axis  bool // drawn with a centre line
}

// rowsOf packs runs into rows no wider than the sheet, each into the first row
// that has room for it.
func rowsOf(runs []run) [][]run {
	var rows [][]run
	var used []float64
	for _, r := range runs {
		for _, part := range broken(r) {
			w := part.width() + axisGap
			i := 0
			for i < len(rows) && used[i]+w > inside+axisGap {
				i++
			}
			if i == len(rows) {
				rows, used = append(rows, nil), append(used, 0)
			}
			rows[i] = append(rows[i], part)
			used[i] += w
		}
	}
	return rows
}

// axisGap parts two axes in one row.
const axisGap = 30.0

func (r run) width() float64 {
	w := -apart
	for _, c := range r.cells {
		w += c.width() + apart
	}
	return w
}

// broken cuts a run that is wider than a sheet into runs of about like width.
func broken(r run) []run {
	pieces := int((r.width()+apart)/(inside+apart)) + 1
	if pieces == 1 && r.width() <= inside {
		return []run{r}
	}
	goal := r.width() / float64(pieces)
	var out []run
	piece := run{axis: r.axis}
	for _, c := range r.cells {
		with := run{cells: append(piece.cells[:len(piece.cells):len(piece.cells)], c), axis: r.axis}
		if len(piece.cells) > 0 && (with.width() > inside || piece.width() >= goal) {
			out = append(out, piece)
			with = run{cells: []cell{c}, axis: r.axis}
		}
		piece = with
	}
	return append(out, piece)
}

// layRows sets rows of single parts from y downwards and gives where they end.
func (s *Sheet) layRows(rows [][]run, y float64) float64 {
	for _, row := range rows {
		y = s.layRow(row, y)
	}
	return y
}

// layRow sets one row: balloons in a line, symbols on an axis below them, and
// below a symbol how many of it there are.
func (s *Sheet) layRow(row []run, y float64) float64 {
	high, used, gaps, noted := 0.0, 0.0, 0, false
	for _, r := range row {
		used += r.width()
		for _, c := range r.cells {
			high = max(high, c.kind.symbol.Height)
			noted = noted || c.kind.first().Qty > 1
		}
		gaps += len(r.cells) - 1
	}
	loose := inside - used - axisGap*float64(len(row)-1)
	spread := min(loose/float64(max(gaps+2*(len(row)-1), 1)), 40)
	middle := y + 2*radius + 22 + high/2
	x := margin + inset
	for _, r := range row {
		from := x
		for _, c := range r.cells {
			s.setCell(c, point{x + c.width()/2, middle}, y+radius)
			x += c.width() + apart + spread
		}
		if r.axis {
			s.Axes = append(s.Axes, Axis{point{from - 12, middle}, point{x - apart - spread + 12, middle}})
		}
		x += axisGap - apart + spread
	}
	bottom := middle + high/2
	if noted {
		bottom += 34
	}
	return bottom + rowGap
}

// rowGap parts two rows.
const rowGap = 30.0

// setCell sets the symbol of a cell at a point, its balloon at a height.
func (s *Sheet) setCell(c cell, at point, balloon float64) {
	it := c.kind.items[c.item]
	m := mark(it, c.kind.symbol, at, false, 0, 0)
	b := Balloon{Items: []Item{it}, At: point{at.x, balloon}, Width: wide(Balloon{Items: []Item{it}}.Text())}
	b.To = m.enter(b.At, at)
	m.Target = m.At.spanning(b.outline())
	m.Target = m.Target.spanning(about(m.Target.middle(), target, target))
	if it.Qty > 1 {
		s.Notes = append(s.Notes, Note{At: point{at.x, m.At.bottom() + 22}, Text: off(it.Qty)})
	}
	s.Marks = append(s.Marks, m)
	s.Balloons = append(s.Balloons, b)
}
