package labels

import (
	"math"
	"strings"
)

// Point is a place on the paper, mm from the left and from the top.
type Point struct{ X, Y float64 }

// Stroke is one command of a path: M moves, L draws straight, Q and C bend
// (the last point used is the end), Z closes.
type Stroke struct {
	Op byte
	P  [3]Point
}

// points is how many points a command has.
func (s Stroke) points() int {
	switch s.Op {
	case 'M', 'L':
		return 1
	case 'Q':
		return 2
	case 'C':
		return 3
	}
	return 0
}

// Item is one thing drawn: a path, or a text. All of it is black, or white on
// black where Knocked.
type Item struct {
	Path    []Stroke
	Unit    float64 // of the path, mm, about At; 0 is a path in mm of its own place
	Fill    bool
	Line    float64 // width of the line, mm; 0 draws none
	Dash    float64 // length of dash and gap, mm; 0 is a full line
	Text    string
	Face    Face
	Size    float64 // em of the text, mm
	At      Point   // start of the text's baseline, or of a path in units
	Knocked bool
}

// Drawing is a list of items, drawn in that order.
type Drawing []Item

// shifted is the drawing moved.
func (d Drawing) shifted(dx, dy float64) Drawing {
	out := make(Drawing, len(d))
	for i, it := range d {
		it.At.X, it.At.Y = it.At.X+dx, it.At.Y+dy
		if it.Unit > 0 {
			out[i] = it
			continue
		}
		path := make([]Stroke, len(it.Path))
		for k, s := range it.Path {
			for n := range s.P {
				s.P[n].X, s.P[n].Y = s.P[n].X+dx, s.P[n].Y+dy
			}
			path[k] = s
		}
		it.Path = path
		out[i] = it
	}
	return out
}

// placed gives the item's path in mm.
func (it Item) placed() []Stroke {
	if it.Unit == 0 {
		return it.Path
	}
	out := make([]Stroke, len(it.Path))
	for i, s := range it.Path {
		for n := range s.P {
			s.P[n] = Point{it.At.X + s.P[n].X*it.Unit, it.At.Y + s.P[n].Y*it.Unit}
		}
		out[i] = s
	}
	return out
}

// Bounds is the least box round all that is drawn; lines count with half their
// width, bends with the points that lead them.
func (d Drawing) Bounds() (low, high Point) {
	low, high = Point{math.Inf(1), math.Inf(1)}, Point{math.Inf(-1), math.Inf(-1)}
	reach := func(p Point, r float64) {
		low = Point{min(low.X, p.X-r), min(low.Y, p.Y-r)}
		high = Point{max(high.X, p.X+r), max(high.Y, p.Y+r)}
	}
	for _, it := range d {
		for _, s := range it.placed() {
			for n := range s.points() {
				reach(s.P[n], it.Line/2)
			}
		}
		if it.Text != "" {
			above, below := tall(it.Face, it.Text)
			reach(Point{it.At.X, it.At.Y - above*it.Size}, 0)
			reach(Point{it.At.X + wide(it.Face, it.Text)*it.Size, it.At.Y + below*it.Size}, 0)
		}
	}
	return low, high
}

// pen draws on a label and keeps what has to be said about it.
type pen struct {
	items Drawing
	notes []string
}

func (p *pen) path(line float64, fill bool, strokes ...Stroke) *Item {
	p.items = append(p.items, Item{Path: strokes, Line: line, Fill: fill})
	return &p.items[len(p.items)-1]
}

// line draws from point to point.
func (p *pen) line(width float64, at ...Point) *Item { return p.path(width, false, through(at...)...) }

// area fills what the points go round.
func (p *pen) area(at ...Point) *Item { return p.path(0, true, round(at...)...) }

// ring draws a circle; filled where the line is 0.
func (p *pen) ring(mid Point, r, line float64) *Item {
	return p.path(line, line == 0, circle(mid, r)...)
}

func through(at ...Point) []Stroke {
	out := make([]Stroke, len(at))
	for i, p := range at {
		out[i] = Stroke{Op: 'L', P: [3]Point{p}}
	}
	if len(out) > 0 {
		out[0].Op = 'M'
	}
	return out
}

func round(at ...Point) []Stroke { return append(through(at...), Stroke{Op: 'Z'}) }

func box(x, y, w, h float64) []Stroke {
	return round(Point{x, y}, Point{x + w, y}, Point{x + w, y + h}, Point{x, y + h})
}

// circle is four bends that end where they began; the handle of a quarter is
// 4/3·(√2 − 1) of the radius.
func circle(m Point, r float64) []Stroke {
	k := 4.0 / 3 * (math.Sqrt2 - 1) * r
	return []Stroke{{Op: 'M', P: [3]Point{{m.X + r, m.Y}}},
		{Op: 'C', P: [3]Point{{m.X + r, m.Y + k}, {m.X + k, m.Y + r}, {m.X, m.Y + r}}},
		{Op: 'C', P: [3]Point{{m.X - k, m.Y + r}, {m.X - r, m.Y + k}, {m.X - r, m.Y}}},
		{Op: 'C', P: [3]Point{{m.X - r, m.Y - k}, {m.X - k, m.Y - r}, {m.X, m.Y - r}}},
		{Op: 'C', P: [3]Point{{m.X + k, m.Y - r}, {m.X + r, m.Y - k}, {m.X + r, m.Y}}}}
}

// text writes a line from its left end.
func (p *pen) text(face Face, size float64, at Point, text string) *Item {
	if text = strings.TrimSpace(text); text == "" {
		return &Item{}
	}
	p.items = append(p.items, Item{Text: text, Face: face, Size: size, At: at})
	return &p.items[len(p.items)-1]
}

// clipped gives a text that fits a width at a size: whole, or cut with an
// ellipsis.
func clipped(face Face, size, width float64, text string) (string, bool) {
	if wide(face, text)*size <= width {
		return text, false
	}
	letters := []rune(text)
	for n := len(letters) - 1; n > 0; n-- {
		short := strings.TrimRight(string(letters[:n]), " ,;") + "…"
		if wide(face, short)*size <= width {
			return short, true
		}
	}
	return "…", true
}

// wrapped parts a text into lines that fit a width at a size, broken at spaces
// and, where one word is too long, within it: then broken.
func wrapped(face Face, size, width float64, text string) (lines []string, broken bool) {
	fits := func(s string) bool { return wide(face, s)*size <= width }
	line := ""
	for _, word := range phrases(text) {
		if joined := strings.TrimSpace(line + " " + word); fits(joined) {
			line = joined
			continue
		}
		if line != "" {
			lines = append(lines, line)
		}
		for line = word; !fits(line) && len([]rune(line)) > 1; broken = true {
			letters := []rune(line)
			n := 1
			for n < len(letters)-1 && fits(string(letters[:n+1])) {
				n++
			}
			lines, line = append(lines, string(letters[:n])), string(letters[n:])
		}
	}
	if line != "" {
		lines = append(lines, line)
	}
	return lines, broken
}

// phrases are the words of a text; a word of one or two letters stays with the
// one before, so that "cylinder 2" is not parted.
func phrases(text string) []string {
	var out []string
	for _, word := range strings.Fields(text) {
		if n := len(out); n > 0 && len([]rune(word)) <= 2 {
			out[n-1] += " " + word
			continue
		}
		out = append(out, word)
	}
	return out
}

// area is a rectangle to write in, mm.
type area struct{ X, Y, W, H float64 }

// lettering is how a text is written: its face and the range of its size, mm to
// the em. What names the text in a note.
type lettering struct {
	Face        Face
	Most, Least float64
	What        string
}

// How a line of text sits in its room, in ems: capitals rise to cap, tails
// hang by tail, and lines follow at lead.
const (
	capRise  = 0.76
	tailHang = 0.22
	lead     = 1.16
)

// block writes a text from the top of an area, in the largest size at which it
// fits; what still does not fit is cut and noted. It gives how deep it went.
func (p *pen) block(how lettering, in area, text string) float64 {
	size := how.Most
	room := func() int { return 1 + int(math.Floor((in.H-(capRise+tailHang)*size)/(lead*size))) }
	set, broken := wrapped(how.Face, size, in.W, text)
	for (broken || len(set) > room()) && size > how.Least {
		size = max(size-0.1, how.Least)
		set, broken = wrapped(how.Face, size, in.W, text)
	}
	if n := max(room(), 1); len(set) > n {
		short, _ := clipped(how.Face, size, in.W, strings.Join(set[n-1:], " "))
		set = append(set[:n-1:n-1], short)
		p.notes = append(p.notes, how.What+" “"+text+"” is too long for this label and is cut")
	}
	at := in.Y
	for i, line := range set {
		at = in.Y + capRise*size + float64(i)*lead*size
		p.text(how.Face, size, Point{in.X, at}, line)
	}
	return at
}

// row writes one line that ends at a right edge or begins at a left one, shrunk
// to its width and, where that is not enough, cut and noted.
func (p *pen) row(how lettering, at Point, width float64, right bool, text string) {
	size := how.Most
	for wide(how.Face, text)*size > width && size > how.Least {
		size = max(size-0.1, how.Least)
	}
	short, cut := clipped(how.Face, size, width, text)
	if cut {
		p.notes = append(p.notes, how.What+" “"+text+"” is too long for this label and is cut")
	}
	if right {
		at.X -= wide(how.Face, short) * size
	}
	p.text(how.Face, size, at, short)
}
