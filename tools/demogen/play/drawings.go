package play

import (
	"fmt"
	"strings"
)

// view is what a drawing is made of: the joint's sort, what was counted at it
// and how it was marked.
type view struct {
	sort, title string
	bolts       int
	shims       []string // thicknesses as typed
	dots        int      // punch dots on each part
	turn        float64  // 0 to 1, so that no two are quite alike
}

const (
	midX = wide / 2.0
	midY = 150.0
)

// draw makes the drawing of a joint.
func draw(v view) []byte {
	c := &canvas{}
	switch {
	case len(v.shims) > 0:
		c.shimPack(v)
	case v.sort == "mesh":
		c.gearPair(v)
	case v.sort == "gasket":
		c.flange(v, true)
	case v.sort == "bolted" && v.bolts > 6:
		c.flange(v, false)
	case v.sort == "bolted" || v.sort == "staked" || v.sort == "riveted":
		c.boltCircle(v)
	case v.sort == "wire" || v.sort == "cable":
		c.terminals(v)
	case v.sort == "hose" || v.sort == "threaded":
		c.pipe(v)
	case v.sort == "linkage" || v.sort == "pinned" || v.sort == "spring-loaded":
		c.lever(v)
	case v.sort == "plain bearing" || v.sort == "rolling bearing" || v.sort == "seal":
		c.bearing(v)
	default:
		c.stack(v)
	}
	return c.svg(v.title)
}

// boltCircle is a round flange with its bolts numbered from the top.
func (c *canvas) boltCircle(v view) {
	c.circle(midX, midY, 130)
	c.circle(midX, midY, 44+20*v.turn)
	c.dashed(midX, midY, 104)
	for i := range max(v.bolts, 2) {
		p := around(midX, midY, 104, float64(i)/float64(max(v.bolts, 2))+v.turn/8)
		c.numbered(p[0], p[1], i+1)
	}
	c.marks(v, around(midX, midY, 122, v.turn), around(midX, midY, 138, v.turn))
}

// flange is the outline of a cover or gasket with its holes numbered.
func (c *canvas) flange(v view, gasket bool) {
	x, y, w, h := 50.0, 30.0, 380.0, 230.0
	cut := 20 + 30*v.turn
	c.path(true, [2]float64{x + cut, y}, [2]float64{x + w - 20, y}, [2]float64{x + w, y + 60}, [2]float64{x + w, y + h - cut},
		[2]float64{x + w - cut, y + h}, [2]float64{x + 30, y + h}, [2]float64{x, y + h - 40}, [2]float64{x, y + cut})
	if gasket {
		for i := range 3 {
			c.circle(x+w/2+float64(i-1)*112, y+h/2, 44)
		}
	} else {
		c.box(x+60, y+56, w-120, h-112)
	}
	holes := max(v.bolts, 6)
	for i := range holes {
		px, py := along(x+24, y+24, w-48, h-48, float64(i)/float64(holes)+v.turn/40)
		c.numbered(px, py, i+1)
	}
	c.marks(v, [2]float64{x + w/2, y + 8}, [2]float64{x + w/2, y - 8})
}

// along is a point on the border of a box, at a share of the way round.
func along(x, y, w, h, share float64) (float64, float64) {
	at := share * 2 * (w + h)
	switch {
	case at < w:
		return x + at, y
	case at < w+h:
		return x + w, y + at - w
	case at < 2*w+h:
		return x + w - (at - w - h), y + h
	}
	return x, y + h - (at - 2*w - h)
}

// gearPair is two gears in mesh with the dots that face each other.
func (c *canvas) gearPair(v view) {
	big, small := 14+int(6*v.turn), 10
	c.gear(150, midY, 96, big, 0.25)
	c.gear(340, midY, 74, small, 0.25+0.5/float64(small)+0.5)
	c.marks(v, [2]float64{226 - 11*float64(v.dots), midY}, [2]float64{282, midY})
	c.label(150, midY+46, 16, fmt.Sprintf("z %d", big))
	c.label(344, midY+40, 16, fmt.Sprintf("z %d", small))
}

// gear is a wheel of so many teeth, one of them at the given turn.
func (c *canvas) gear(x, y, r float64, teeth int, at float64) {
	var pts [][2]float64
	step := 1 / float64(teeth)
	for i := range teeth {
		t := at + float64(i)*step
		pts = append(pts, around(x, y, r-9, t-0.36*step), around(x, y, r+9, t-0.16*step), around(x, y, r+9, t+0.16*step), around(x, y, r-9, t+0.36*step))
	}
	c.path(true, pts...)
	c.circle(x, y, r/4)
	c.dashed(x, y, r)
}

// shimPack is the pack laid out in order, each with its thickness.
func (c *canvas) shimPack(v view) {
	w := min(120, 380/float64(len(v.shims)))
	x := midX - w*float64(len(v.shims)-1)/2
	for i, t := range v.shims {
		c.circle(x+float64(i)*w, midY-10, w/2-10)
		c.circle(x+float64(i)*w, midY-10, w/4-4)
		c.label(x+float64(i)*w, midY+w/2+20, 18, t)
	}
	c.label(midX, 44, 16, "as they lay, left is next to the part")
}

// terminals are wire ends with the numbers that are taped to them.
func (c *canvas) terminals(v view) {
	for i := range 4 {
		y := 46 + 62*float64(i)
		c.line(40, y, 200, y+14*v.turn)
		c.box(200, y-16, 76, 34)
		c.label(238, y+7, 18, fmt.Sprint(int(30*v.turn)+i+1))
		c.line(276, y+14*v.turn, 360, y)
		c.circle(384, y, 24)
		c.circle(384, y, 10)
	}
}

// pipe is a pipe end with its union and the bore beneath.
func (c *canvas) pipe(v view) {
	y := midY - 20 + 40*v.turn
	c.path(false, [2]float64{30, y - 22}, [2]float64{200, y - 22}, [2]float64{224, y - 8})
	c.path(false, [2]float64{30, y + 22}, [2]float64{200, y + 22}, [2]float64{224, y + 8})
	c.path(true, [2]float64{150, y - 48}, [2]float64{236, y - 48}, [2]float64{250, y - 30}, [2]float64{250, y + 30}, [2]float64{236, y + 48}, [2]float64{150, y + 48})
	c.line(150, y-16, 250, y-16)
	c.line(150, y+16, 250, y+16)
	c.box(300, y-60, 140, 120)
	for i := range 6 {
		c.line(300+14*float64(i), y-34, 310+14*float64(i), y+34)
	}
	c.marks(v, [2]float64{196, y - 62}, [2]float64{330, y - 74})
}

// lever is an arm on its pin, with the rod that hangs on it.
func (c *canvas) lever(v view) {
	e := around(150, midY+30, 170, 0.13+0.12*v.turn)
	c.circle(150, midY+30, 40)
	c.circle(150, midY+30, 16)
	c.path(false, [2]float64{136, midY - 8}, [2]float64{e[0] - 16, e[1] - 8})
	c.path(false, [2]float64{172, midY + 64}, [2]float64{e[0] + 14, e[1] + 12})
	c.circle(e[0], e[1], 20)
	c.circle(e[0], e[1], 8)
	c.line(e[0], e[1]+20, e[0]+50, 270)
	c.marks(v, [2]float64{150, midY - 4}, [2]float64{150, midY - 20})
}

// bearing is a shaft in its bush or bearing, cut through.
func (c *canvas) bearing(v view) {
	r := 60 + 24*v.turn
	c.box(90, midY-r-44, 300, 44)
	c.box(90, midY+r, 300, 44)
	for i := range 9 {
		x := 96 + 34*float64(i)
		c.line(x, midY-r, x+22, midY-r-44)
		c.line(x, midY+r+44, x+22, midY+r)
	}
	c.line(40, midY-r+12, 440, midY-r+12)
	c.line(40, midY+r-12, 440, midY+r-12)
	c.add(`<path d="M30 %s H450" stroke-dasharray="18 5 4 5"/>`, n(midY))
	c.marks(v, [2]float64{410, midY - r + 22}, [2]float64{374, midY - r - 20})
}

// stack is a row of parts drawn apart along one axis, in order.
func (c *canvas) stack(v view) {
	x := 60.0
	for i := range 5 {
		h := 60 + 130*frac(v.turn*float64(3+2*i)+0.31*float64(i))
		c.box(x, midY-h/2, 46, h)
		c.line(x+12, midY-h/2, x+12, midY+h/2)
		x += 78
	}
	c.add(`<path d="M30 %s H450" stroke-dasharray="18 5 4 5"/>`, n(midY))
	c.marks(v, [2]float64{84, midY - 14}, [2]float64{162, midY - 14})
}

// marks punches the same number of dots on both parts.
func (c *canvas) marks(v view, a, b [2]float64) {
	for i := range v.dots {
		c.punch(a[0]+11*float64(i), a[1])
		c.punch(b[0]+11*float64(i), b[1])
	}
}

// trayLayout is what lies under one tray mark, in the order it came off.
func trayLayout(mark string, names []string) []byte {
	c := &canvas{}
	c.box(30, 24, 420, 270)
	for i, name := range names[:min(len(names), 8)] {
		x, y := 135+210*float64(i%2), 62+62*float64(i/2)
		c.box(x-96, y-24, 192, 48)
		if len(name) > 19 {
			name = strings.TrimRight(name[:18], " ,") + "."
		}
		c.label(x, y+6, 16, name)
	}
	return c.svg("Tray " + mark)
}

func frac(x float64) float64 { return x - float64(int(x)) }
