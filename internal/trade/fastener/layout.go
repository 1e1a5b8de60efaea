package fastener

import (
	"fmt"
	"math"
	"slices"
	"strconv"
	"strings"

	"matchmark/internal/trade/metrology"
)

// Layout is how the bolts of a joint lie, as written in a line:
//
//	circle 6            evenly on a circle, or "circle" alone: the shape is known, the number is not
//	rows 2x5            two rows of five
//	edge 300x180 10     ten round the edge of a rectangle 300 mm wide and 180 high
//	field 0,0; 40,12.5  each by its place, mm, x to the right and y up
//
// "edge 300x180" and "rows 2" leave the number open as well.
type Layout struct {
	Shape      Shape
	Count      int     // 0 where it is open
	Lines      int     // rows of Rows
	Wide, High float64 // mm, of Edge
	places     []Bolt  // of Field
}

// Shape is the kind of a Layout.
type Shape string

// The shapes.
const (
	OnCircle Shape = "circle"
	InRows   Shape = "rows"
	OnEdge   Shape = "edge"
	InField  Shape = "field"
)

// ParseLayout reads a layout. Errors: text that is none of the above, with
// what was wanted; RangeError for a number of bolts outside 1 to 500.
func ParseLayout(text string) (Layout, error) {
	word, rest, _ := strings.Cut(strings.TrimSpace(text), " ")
	l := Layout{Shape: Shape(word)}
	var err error
	switch l.Shape {
	case OnCircle:
		err = l.readCount(text, rest)
	case InRows:
		err = l.readRows(text, rest)
	case OnEdge:
		err = l.readEdge(text, rest)
	case InField:
		err = l.readField(text, rest)
	default:
		err = badLayout(text, `circle 6, rows 2x5, edge 300x180 10 or field x,y; x,y`)
	}
	if err != nil {
		return Layout{}, err
	}
	if l.Count < 0 || l.Count > mostBolts {
		return Layout{}, metrology.RangeError{Field: "number of bolts in layout " + strconv.Quote(text), Got: float64(l.Count), Want: fmt.Sprintf("1 to %d", mostBolts)}
	}
	return l, nil
}

func badLayout(text, want string) error {
	return fmt.Errorf("layout %q: %s was wanted", text, want)
}

// readCount reads the number behind a shape; none leaves it open.
func (l *Layout) readCount(text, rest string) error {
	rest = strings.TrimSpace(rest)
	if rest == "" {
		return nil
	}
	n, err := strconv.Atoi(rest)
	if err != nil || n < 1 {
		return badLayout(text, "a whole number of bolts")
	}
	l.Count = n
	return nil
}

func (l *Layout) readRows(text, rest string) error {
	lines, each, open := strings.Cut(strings.TrimSpace(rest), "x")
	r, err := strconv.Atoi(lines)
	if err != nil || r < 1 || r > mostBolts {
		return badLayout(text, "rows 2x5, two rows of five")
	}
	l.Lines = r
	if !open {
		return nil
	}
	c, err := strconv.Atoi(each)
	if err != nil || c < 1 || c > mostBolts {
		return badLayout(text, "rows 2x5, two rows of five")
	}
	l.Count = r * c
	return nil
}

func (l *Layout) readEdge(text, rest string) error {
	sides, n, _ := strings.Cut(strings.TrimSpace(rest), " ")
	wide, high, _ := strings.Cut(sides, "x")
	var err error
	if l.Wide, err = strconv.ParseFloat(wide, 64); err == nil {
		l.High, err = strconv.ParseFloat(high, 64)
	}
	if err != nil || !(l.Wide > 0) || !(l.High > 0) || !finite(l.Wide) || !finite(l.High) {
		return badLayout(text, "edge 300x180 10, width and height in mm and the number")
	}
	if err := l.readCount(text, n); err != nil {
		return err
	}
	if l.Count > 0 && l.Count < 4 {
		return badLayout(text, "four bolts or more round an edge")
	}
	return nil
}

func (l *Layout) readField(text, rest string) error {
	for i, place := range strings.Split(rest, ";") {
		x, y, _ := strings.Cut(strings.TrimSpace(place), ",")
		px, errX := strconv.ParseFloat(strings.TrimSpace(x), 64)
		py, errY := strconv.ParseFloat(strings.TrimSpace(y), 64)
		if errX != nil || errY != nil || !finite(px) || !finite(py) {
			return badLayout(text, "a place x,y in mm for each bolt, parted by semicolons")
		}
		l.places = append(l.places, Bolt{Number: i + 1, X: px, Y: py})
	}
	l.Count = len(l.places)
	if _, err := fieldOf(l.places); err != nil {
		return fmt.Errorf("layout %q: %w", text, err)
	}
	return nil
}

// Bolts lays out n bolts, or the layout's own number where n is 0. A circle
// and an edge take any number that came off; rows take one that fills them; a
// field is one set of places and takes its own only. Circles and rows are
// drawn 100 mm large and apart: an order does not depend on it.
// Errors: CountError where n does not fit or no number is known.
func (l Layout) Bolts(n int) ([]Bolt, error) {
	if n == 0 {
		n = l.Count
	}
	switch {
	case n < 1 || n > mostBolts:
	case l.Shape == OnCircle:
		return Circle(n, 100), nil
	case l.Shape == InRows && n%l.Lines == 0:
		return Rows(l.Lines, n/l.Lines, 100), nil
	case l.Shape == OnEdge && n >= 4:
		return edge(n, l.Wide, l.High), nil
	case l.Shape == InField && n == l.Count:
		return slices.Clone(l.places), nil
	}
	return nil, CountError{Shape: l.Shape, Lines: l.Lines, Count: l.Count, Got: n}
}

// CountError says that a number of bolts does not fit a layout.
type CountError struct {
	Shape        Shape
	Lines, Count int
	Got          int
}

func (e CountError) Error() string {
	switch {
	case e.Got == 0:
		return fmt.Sprintf("layout %s: how many bolts is not known; a number was wanted", e.Shape)
	case e.Shape == InRows:
		return fmt.Sprintf("layout of %d rows: %d bolts do not fill them; a multiple was wanted", e.Lines, e.Got)
	case e.Shape == InField:
		return fmt.Sprintf("layout field: %d bolts; %d, one for each place, was wanted", e.Got, e.Count)
	}
	return fmt.Sprintf("layout %s: %d bolts; another number was wanted", e.Shape, e.Got)
}

// edge is n bolts round a rectangle, clockwise from the top left corner: one in
// each corner, the rest shared out by the length of the sides and evenly along
// each, opposite sides alike; one over goes on the top.
func edge(n int, wide, high float64) []Bolt {
	pairs := (n - 4) / 2
	long := int(math.Round(float64(pairs) * wide / (wide + high)))
	short := pairs - long
	over := (n - 4) % 2
	var out []Bolt
	side := func(fromX, fromY, toX, toY float64, between int) {
		for i := range between + 1 {
			t := float64(i) / float64(between+1)
			out = append(out, Bolt{Number: len(out) + 1, X: fromX + t*(toX-fromX), Y: fromY + t*(toY-fromY)})
		}
	}
	side(0, high, wide, high, long+over)
	side(wide, high, wide, 0, short)
	side(wide, 0, 0, 0, long)
	side(0, 0, 0, high, short)
	return out
}
