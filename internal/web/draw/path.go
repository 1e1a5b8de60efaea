package draw

import (
	"fmt"
	"math"
	"strconv"
	"strings"
)

// point is a place on a sheet, in units.
type point struct{ x, y float64 }

// stroke is one command of a symbol's path with its figures.
type stroke struct {
	do   byte
	args []float64
}

// Commands of a symbol's path, all absolute and in hundredths of its box:
//
//	M x y   L x y   H x   V y   Q x y x y   Z   as in SVG
//	A rx ry large sweep x y                     an arc, its radii in hundredths too
//	R x y w h                                   a rectangle
//	O x y r                                     a round circle; r in hundredths of the shorter side
//
// taking says how many figures a command has.
var taking = map[byte]int{'M': 2, 'L': 2, 'H': 1, 'V': 1, 'Q': 4, 'Z': 0, 'A': 6, 'R': 4, 'O': 3}

// parse reads a symbol's path. A command may be followed by several sets of
// figures. Errors name the text that is no path.
func parse(text string) ([]stroke, error) {
	var out []stroke
	for text = strings.TrimSpace(text); text != ""; text = strings.TrimSpace(text) {
		do := text[0]
		n, known := taking[do]
		if !known {
			return nil, fmt.Errorf("%q is no command", clipped(text))
		}
		end := strings.IndexFunc(text[1:], func(r rune) bool { return r >= 'A' && r <= 'Z' })
		words := text[1:]
		if end >= 0 {
			words = text[1 : 1+end]
		}
		text = text[1+len(words):]
		var args []float64
		for _, w := range strings.Fields(words) {
			v, err := strconv.ParseFloat(w, 64)
			if err != nil {
				return nil, fmt.Errorf("%q is no figure", w)
			}
			args = append(args, v)
		}
		if n == 0 && len(args) > 0 || n > 0 && (len(args) == 0 || len(args)%n != 0) {
			return nil, fmt.Errorf("%c takes %d figures, not %d", do, n, len(args))
		}
		if n == 0 {
			out = append(out, stroke{do: do})
		}
		for len(args) > 0 {
			out = append(out, stroke{do, args[:n]})
			args = args[n:]
		}
	}
	return out, nil
}

func clipped(text string) string { return text[:min(len(text), 12)] }

// tracer writes a path into a box of w by h units; turned swaps the axes, so
// that what lay from left to right stands from top to bottom.
type tracer struct {
	out    strings.Builder
	w, h   float64 // of the box as drawn
	turned bool
	at     point // in hundredths, before turning
	pen    point // where a straight line begins, as drawn
	down   bool  // the pen is where the line before ended
	start  point // of the present outline, as drawn
	last   point // as drawn
	edges  []edge
}

// edge is a straight stretch of an outline; curves are taken as a few chords.
type edge struct{ from, to point }

// trace gives the SVG path of strokes in a box, and the edges it goes along.
func trace(strokes []stroke, w, h float64, turned bool) (string, []edge) {
	t := tracer{w: w, h: h, turned: turned}
	for _, s := range strokes {
		t.stroke(s)
	}
	return t.out.String(), t.edges
}

func (t *tracer) place(x, y float64) point {
	if t.turned {
		x, y = y, x
	}
	return point{x / 100 * t.w, y / 100 * t.h}
}

func (t *tracer) to(do string, x, y float64) {
	p := t.place(x, y)
	t.at = point{x, y}
	if do == "M" {
		t.start, t.last = p, p
	}
	t.along(p)
	t.out.WriteString(t.line(do, p))
	t.pen, t.down = p, true
}

// line writes a command to a point, the shortest way where it goes level or
// upright.
func (t *tracer) line(do string, p point) string {
	x, y := figure(p.x), figure(p.y)
	switch {
	case do == "L" && t.down && y == figure(t.pen.y):
		return "H" + x
	case do == "L" && t.down && x == figure(t.pen.x):
		return "V" + y
	}
	return do + x + " " + y
}

func (t *tracer) along(p point) {
	if p != t.last {
		t.edges = append(t.edges, edge{t.last, p})
		t.last = p
	}
}

func (t *tracer) shut() {
	t.along(t.start)
	t.out.WriteString("z")
	t.down = false
}

func (t *tracer) stroke(s stroke) {
	a := s.args
	switch s.do {
	case 'M', 'L':
		t.to(string(s.do), a[0], a[1])
	case 'H':
		t.to("L", a[0], t.at.y)
	case 'V':
		t.to("L", t.at.x, a[0])
	case 'Q':
		c := t.place(a[0], a[1])
		t.out.WriteString("Q" + figure(c.x) + spaced(c.y))
		t.along(t.place(t.at.x/4+a[0]/2+a[2]/4, t.at.y/4+a[1]/2+a[3]/4))
		t.to(" ", a[2], a[3])
	case 'A':
		t.arc(a)
	case 'R':
		for i, p := range []point{{a[0], a[1]}, {a[0] + a[2], a[1]}, {a[0] + a[2], a[1] + a[3]}, {a[0], a[1] + a[3]}} {
			t.to(string("MLLL"[i]), p.x, p.y)
		}
		t.shut()
	case 'O':
		t.circle(a[0], a[1], a[2])
	case 'Z':
		t.shut()
	}
}

func (t *tracer) arc(a []float64) {
	rx, ry, sweep := a[0]/100*t.w, a[1]/100*t.h, a[3]
	if t.turned {
		rx, ry, sweep = a[1]/100*t.w, a[0]/100*t.h, 1-sweep
	}
	t.out.WriteString("A" + figure(rx) + spaced(ry) + " 0 " + figure(a[2]) + spaced(sweep))
	for _, p := range chords(t.last, t.place(a[4], a[5]), rx, ry, a[2] != 0, sweep != 0) {
		t.along(p)
	}
	t.to(" ", a[4], a[5])
}

// chords are points along an elliptic arc from p to q, without its ends. The
// centre is found as SVG 2, appendix B.2.4 does it, for axes that lie level.
func chords(p, q point, rx, ry float64, large, sweep bool) []point {
	x, y := (p.x-q.x)/2, (p.y-q.y)/2
	over := x*x/(rx*rx) + y*y/(ry*ry)
	if over > 1 { // too small to reach: grown until it does
		rx, ry, over = rx*math.Sqrt(over), ry*math.Sqrt(over), 1
	}
	k := math.Sqrt(max(0, 1/over-1))
	if large == sweep {
		k = -k
	}
	cx, cy := k*rx*y/ry, -k*ry*x/rx
	from, to := math.Atan2((y-cy)/ry, (x-cx)/rx), math.Atan2((-y-cy)/ry, (-x-cx)/rx)
	if sweep && to < from {
		to += 2 * math.Pi
	}
	if !sweep && to > from {
		to -= 2 * math.Pi
	}
	const n = 10
	var out []point
	for i := 1; i < n; i++ {
		sin, cos := math.Sincos(from + (to-from)*float64(i)/n)
		out = append(out, point{(p.x+q.x)/2 + cx + rx*cos, (p.y+q.y)/2 + cy + ry*sin})
	}
	return out
}

func (t *tracer) circle(x, y, r float64) {
	c, radius := t.place(x, y), r/100*min(t.w, t.h)
	t.down = false
	t.last = point{c.x + radius, c.y}
	for i := 1; i <= 16; i++ {
		sin, cos := math.Sincos(math.Pi * float64(i) / 8)
		t.along(point{c.x + radius*cos, c.y + radius*sin})
	}
	rr, d := figure(radius), figure(2*radius)
	fmt.Fprintf(&t.out, "M%s %sa%s %s 0 1 0 %s 0a%s %s 0 1 0 -%s 0z", figure(c.x-radius), figure(c.y), rr, rr, d, rr, rr, d)
}

// figure prints a length to a tenth of a unit.
func figure(v float64) string {
	v = math.Round(v*10) / 10
	if v == 0 {
		v = 0 // no minus before nought
	}
	return strconv.FormatFloat(v, 'f', -1, 64)
}

// spaced is a figure that follows another.
func spaced(v float64) string { return " " + figure(v) }
