package draw

// box is an upright rectangle on a sheet.
type box struct{ x, y, w, h float64 }

func (b box) right() float64  { return b.x + b.w }
func (b box) bottom() float64 { return b.y + b.h }
func (b box) middle() point   { return point{b.x + b.w/2, b.y + b.h/2} }

// about is the box of a width and height round a point.
func about(p point, w, h float64) box { return box{p.x - w/2, p.y - h/2, w, h} }

// grown is the box with a margin on every side.
func (b box) grown(m float64) box { return box{b.x - m, b.y - m, b.w + 2*m, b.h + 2*m} }

// meets tells whether two boxes share more than an edge.
func (b box) meets(c box) bool {
	const hair = 1e-6
	return b.x < c.right()-hair && c.x < b.right()-hair && b.y < c.bottom()-hair && c.y < b.bottom()-hair
}

// holds tells whether a box lies wholly inside.
func (b box) holds(c box) bool {
	return c.x >= b.x && c.y >= b.y && c.right() <= b.right() && c.bottom() <= b.bottom()
}

// spanning is the least box round two.
func (b box) spanning(c box) box {
	x, y := min(b.x, c.x), min(b.y, c.y)
	return box{x, y, max(b.right(), c.right()) - x, max(b.bottom(), c.bottom()) - y}
}

// cuts tells whether a stretch of line runs through the box.
func (b box) cuts(p, q point) bool {
	enter, leave := 0.0, 1.0
	for _, side := range [4][2]float64{{p.x - q.x, p.x - b.x}, {q.x - p.x, b.right() - p.x}, {p.y - q.y, p.y - b.y}, {q.y - p.y, b.bottom() - p.y}} {
		toward, room := side[0], side[1]
		switch {
		case toward == 0 && room < 0:
			return false
		case toward < 0:
			enter = max(enter, room/toward)
		case toward > 0:
			leave = min(leave, room/toward)
		}
	}
	return enter < leave
}

// cross tells whether two stretches of line cross.
func cross(a, b, c, d point) bool {
	side := func(p, q, r point) float64 { return (q.x-p.x)*(r.y-p.y) - (q.y-p.y)*(r.x-p.x) }
	return side(a, b, c)*side(a, b, d) < 0 && side(c, d, a)*side(c, d, b) < 0
}
