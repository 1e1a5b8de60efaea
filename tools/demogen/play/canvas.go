package play

import (
	"bytes"
	"fmt"
	"math"
	"strings"
)

// The drawings look scribed: bright lines on layout blue.
const (
	ground   = "#101F57"
	bright   = "#F4F7FB"
	wide     = 480
	high     = 360
	lettered = 16 // px, the smallest text
)

// canvas is one drawing as it grows.
type canvas struct{ body bytes.Buffer }

func (c *canvas) add(format string, args ...any) { fmt.Fprintf(&c.body, format, args...) }

func (c *canvas) circle(x, y, r float64) { c.add(`<circle cx="%s" cy="%s" r="%s"/>`, n(x), n(y), n(r)) }

// numbered is a bolt or hole with its number, over whatever lies beneath.
func (c *canvas) numbered(x, y float64, number int) {
	c.add(`<circle cx="%s" cy="%s" r="14" fill="%s"/>`, n(x), n(y), ground)
	c.label(x, y+6, lettered, fmt.Sprint(number))
}

// dashed is a hidden or pitch line.
func (c *canvas) dashed(x, y, r float64) {
	c.add(`<circle cx="%s" cy="%s" r="%s" stroke-dasharray="7 5"/>`, n(x), n(y), n(r))
}

func (c *canvas) line(x1, y1, x2, y2 float64) {
	c.add(`<path d="M%s %sL%s %s"/>`, n(x1), n(y1), n(x2), n(y2))
}

func (c *canvas) box(x, y, w, h float64) {
	c.add(`<rect x="%s" y="%s" width="%s" height="%s"/>`, n(x), n(y), n(w), n(h))
}

// path draws through points, closed where asked.
func (c *canvas) path(closed bool, points ...[2]float64) {
	var d strings.Builder
	for i, p := range points {
		d.WriteString(map[bool]string{true: "M", false: "L"}[i == 0] + n(p[0]) + " " + n(p[1]))
	}
	if closed {
		d.WriteString("Z")
	}
	c.add(`<path d="%s"/>`, d.String())
}

// punch is a centre-punch dot, which means a match mark and nothing else.
func (c *canvas) punch(x, y float64) {
	c.add(`<circle cx="%s" cy="%s" r="4" fill="%s" stroke="none"/>`, n(x), n(y), bright)
}

// label writes in the middle of a place.
func (c *canvas) label(x, y float64, size int, text string) {
	c.add(`<text x="%s" y="%s" font-size="%d">%s</text>`, n(x), n(y), max(size, lettered), escape(text))
}

// svg closes the drawing under a title.
func (c *canvas) svg(title string) []byte {
	lines := wrap(title, 42)
	var out bytes.Buffer
	fmt.Fprintf(&out, `<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 %d %d"><title>%s</title><rect width="%d" height="%d" fill="%s"/>`,
		wide, high, escape(title), wide, high, ground)
	fmt.Fprintf(&out, `<g fill="none" stroke="%s" stroke-width="2" stroke-linejoin="round">`, bright)
	out.Write(bytes.ReplaceAll(c.body.Bytes(), []byte("<text "), []byte(`<text class="t" `)))
	out.WriteString(`</g>`)
	for i, l := range lines {
		fmt.Fprintf(&out, `<text class="t" x="%d" y="%d" font-size="18">%s</text>`, wide/2, high-14-20*(len(lines)-1-i), escape(l))
	}
	fmt.Fprintf(&out, `<style>.t{fill:%s;stroke:none;font-family:monospace;text-anchor:middle}</style></svg>`+"\n", bright)
	return out.Bytes()
}

// wrap breaks a title at spaces into lines of so many letters at most.
func wrap(text string, most int) []string {
	var lines []string
	line := ""
	for _, w := range strings.Fields(text) {
		if line != "" && len(line)+1+len(w) > most {
			lines, line = append(lines, line), ""
		}
		if line != "" {
			line += " "
		}
		line += w
	}
	return append(lines, line)
}

func escape(text string) string {
	return strings.NewReplacer("&", "&amp;", "<", "&lt;", ">", "&gt;").Replace(text)
}

// n writes a coordinate to a tenth, without idle zeros.
func n(x float64) string {
	return strings.TrimSuffix(fmt.Sprintf("%.1f", math.Round(x*10)/10), ".0")
}

// around is a point on a circle, the angle in turns from the top, clockwise.
func around(x, y, r, turn float64) [2]float64 {
	s, c := math.Sincos(2 * math.Pi * turn)
	return [2]float64{x + r*s, y - r*c}
}
