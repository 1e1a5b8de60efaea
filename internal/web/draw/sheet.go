package draw

import (
	"math"
	"strconv"
)

// Measures of a sheet, in units. A sheet is shown at 0.672 pixels to a unit or
// more, so a target of 66 units is never under 44 pixels, nor a gap of 12
// under 8.
const (
	Width     = 1000.0
	margin    = 28.0 // of the frame, where the zone letters stand
	inset     = 18.0 // from the frame to the drawing
	target    = 66.0 // least side of what can be pressed
	apart     = 12.0 // least gap between two of those
	radius    = 26.0 // of a balloon, at its largest
	lettering = 24.0 // height of figures, at their largest
	inside    = Width - 2*(margin+inset)
)

// Sheet is one drawing, laid out.
type Sheet struct {
	Height   float64
	Marks    []Mark
	Balloons []Balloon
	Axes     []Axis
	Notes    []Note
}

// Mark is a symbol in its place. Target is the box that opens it; a mark that
// shares the balloon of its fellows on the general arrangement has none.
type Mark struct {
	Item   Item
	Symbol Symbol
	At     box
	Turned bool
	Target box
	drawn  drawn
}

// Balloon holds the number of one part, or of several that follow one another,
// and leads to a symbol.
type Balloon struct {
	Items  []Item
	At     point
	Width  float64 // of its outline; twice the radius when round
	To     point   // where its leader ends, on the outline of a symbol
	Target box     // on the general arrangement, where the balloon opens the part
	Shown  string  // at which size of the sheet, where that matters
}

// Text is what stands in the balloon.
func (b Balloon) Text() string {
	first := strconv.Itoa(b.Items[0].Number)
	if len(b.Items) == 1 {
		return first
	}
	return first + "–" + strconv.Itoa(b.Items[len(b.Items)-1].Number)
}

// outline is the box of the balloon itself.
func (b Balloon) outline() box { return about(b.At, b.Width, 2*radius) }

// Axis is a centre line.
type Axis struct{ From, To point }

// Note is a word on the sheet, its left end or its middle at a point.
type Note struct {
	At   point
	Text string
	Left bool
}

// wide is the width of a balloon for a text.
func wide(text string) float64 {
	return max(2*radius, TextWidth(text, lettering)+19)
}

// mark sets a symbol round a point, no wider or higher than given; nought is
// no bound.
func mark(it Item, s Symbol, mid point, turned bool, widest, highest float64) Mark {
	w, h := s.size(turned)
	if k := shrink(w, h, widest, highest); k < 1 {
		w, h = k*w, k*h
	}
	at := about(mid, w, h)
	return Mark{Item: it, Symbol: s, At: at, Turned: turned, drawn: s.trace(w, h, turned)}
}

// shrink is the factor that brings a size within bounds, at most 1.
func shrink(w, h, widest, highest float64) float64 {
	k := 1.0
	if widest > 0 && w > widest {
		k = widest / w
	}
	if highest > 0 && h*k > highest {
		k = highest / h
	}
	return k
}

// size is the width and height of a symbol as it lies or stands.
func (s Symbol) size(turned bool) (w, h float64) {
	if turned {
		return s.Height, s.Width
	}
	return s.Width, s.Height
}

// enter is where a leader from a point outside, aimed at a point of the mark,
// ends: a little way inside the first outline it comes to, as a leader with a
// dot does (ISO 128-22, from memory). It goes on past its aim where that lies
// in the open, as the middle of a ring does, and to the nearest corner where it
// meets nothing.
func (m Mark) enter(from, aim point) point {
	long := math.Hypot(aim.x-from.x, aim.y-from.y)
	if long == 0 {
		return aim
	}
	far := 1 + math.Hypot(m.At.w, m.At.h)/long
	end := point{from.x + far*(aim.x-from.x), from.y + far*(aim.y-from.y)}
	first := math.Inf(1)
	for _, e := range m.drawn.edges {
		a, b := point{m.At.x + e.from.x, m.At.y + e.from.y}, point{m.At.x + e.to.x, m.At.y + e.to.y}
		if t, ok := meeting(from, end, a, b); ok {
			first = min(first, t)
		}
	}
	if math.IsInf(first, 1) {
		return m.corner(from)
	}
	t := first + 6/(far*long)
	return point{from.x + t*(end.x-from.x), from.y + t*(end.y-from.y)}
}

// corner is the corner of the outline that lies nearest to a point.
func (m Mark) corner(p point) point {
	best, near := m.At.middle(), math.Inf(1)
	for _, e := range m.drawn.edges {
		c := point{m.At.x + e.to.x, m.At.y + e.to.y}
		if d := math.Hypot(c.x-p.x, c.y-p.y); d < near {
			best, near = c, d
		}
	}
	return best
}

// meeting is how far along p to q the stretch a to b is met.
func meeting(p, q, a, b point) (float64, bool) {
	dx, dy, ex, ey := q.x-p.x, q.y-p.y, b.x-a.x, b.y-a.y
	d := dx*ey - dy*ex
	if d == 0 {
		return 0, false
	}
	t, u := ((a.x-p.x)*ey-(a.y-p.y)*ex)/d, ((a.x-p.x)*dy-(a.y-p.y)*dx)/d
	return t, t >= 0 && t <= 1 && u >= 0 && u <= 1
}
