package draw

// pair is what a machine has on two sides: two axes, one above the other, with
// the same kinds along both. The balloons of the first stand above, those of
// the second below.
type pair struct {
	places [2]string
	kinds  []kind
}

// threaded tells whether most of a pair sits on its axes.
func (p pair) threaded() bool {
	n := 0
	for _, k := range p.kinds {
		if k.threaded() {
			n++
		}
	}
	return 3*n > 2*len(p.kinds)
}

// layPairs sets a pair in as many double rows as it needs.
func (s *Sheet) layPairs(p pair, y float64) float64 {
	r := run{axis: true}
	for _, k := range p.kinds {
		r.cells = append(r.cells, cell{kind: k})
	}
	for _, row := range broken(r) {
		y = s.layDouble(p, row, y)
	}
	return y
}

// layDouble sets one double row.
func (s *Sheet) layDouble(p pair, r run, y float64) float64 {
	high := target
	for _, c := range r.cells {
		high = max(high, c.kind.symbol.Height)
	}
	spread := min((inside-r.width())/float64(max(len(r.cells)-1, 1)), 40)
	upper := y + noteRoom + 2*radius + 20 + high/2
	lower := upper + high + apart + 4
	x := margin + inset
	for _, c := range r.cells {
		at := x + c.width()/2
		s.setSide(c.kind.items[0], c.kind.symbol, point{at, upper}, upper-high/2-20-radius)
		s.setSide(c.kind.items[1], c.kind.symbol, point{at, lower}, lower+high/2+20+radius)
		x += c.width() + apart + spread
	}
	end := x - apart - spread + 12
	for i, at := range [2]float64{upper, lower} {
		if p.threaded() {
			s.Axes = append(s.Axes, Axis{point{margin + inset - 12, at}, point{end, at}})
		}
		s.Notes = append(s.Notes, Note{At: point{margin + inset, [2]float64{y + 12, lower + high/2 + 2*radius + 40}[i]}, Text: p.places[i], Left: true})
	}
	return lower + high/2 + 2*radius + 40 + 12 + rowGap
}

// noteRoom is the height of a line of words.
const noteRoom = 34.0

// setSide sets a symbol with its balloon straight above or below.
func (s *Sheet) setSide(it Item, symbol Symbol, at point, balloon float64) {
	m := mark(it, symbol, at, false, 0, 0)
	b := Balloon{Items: []Item{it}, At: point{at.x, balloon}}
	b.Width = wide(b.Text())
	b.To = m.enter(b.At, at)
	m.Target = m.At.spanning(b.outline())
	m.Target = m.Target.spanning(about(m.Target.middle(), target, target))
	s.Marks = append(s.Marks, m)
	s.Balloons = append(s.Balloons, b)
}
