package labels

import (
	"fmt"
	"math"
	"strconv"
	"strings"

	"golang.org/x/image/font/sfnt"
)

// SVG writes a page at its size in millimetres: the same drawing as the PDF,
// letters as outlines, so that the picture is what comes out on paper whatever
// faces the browser has. The same page gives the same bytes.
func (p Page) SVG() []byte {
	var body strings.Builder
	letters := &cases{seen: map[string]bool{}}
	for _, cell := range p.Cells {
		for _, it := range cell.Drawing {
			it.svg(&body, letters)
		}
	}
	var out strings.Builder
	fmt.Fprintf(&out, `<svg xmlns="http://www.w3.org/2000/svg" width="%[1]smm" height="%[2]smm" viewBox="0 0 %[1]s %[2]s"><rect width="%[1]s" height="%[2]s" fill="#fff"/><defs>%[3]s</defs>%[4]s</svg>`,
		short(p.W), short(p.H), letters.defs.String(), body.String())
	return []byte(out.String())
}

// cases holds the letters used, each drawn once.
type cases struct {
	defs strings.Builder
	seen map[string]bool
}

// glyphUnits is the em of a drawn letter.
const glyphUnits = 400

// of gives the name of a letter's drawing, and draws it when it is new.
func (c *cases) of(face Face, g sfnt.GlyphIndex) string {
	id := face.String()[:1] + strconv.Itoa(int(g))
	if !c.seen[id] {
		c.seen[id] = true
		path := outline(face, g)
		for i := range path {
			for n := range path[i].P {
				path[i].P[n].X = math.Round(path[i].P[n].X * glyphUnits)
				path[i].P[n].Y = math.Round(path[i].P[n].Y * glyphUnits)
			}
		}
		fmt.Fprintf(&c.defs, `<path id="%s" d="%s"/>`, id, pathData(path))
	}
	return id
}

func (it Item) svg(out *strings.Builder, letters *cases) {
	ink := "#000"
	if it.Knocked {
		ink = "#fff"
	}
	if it.Text == "" {
		if it.Fill {
			if it.Unit > 0 {
				fmt.Fprintf(out, `<path transform="translate(%s %s) scale(%s)" d="%s" stroke="%s"/>`, short(it.At.X), short(it.At.Y), strconv.FormatFloat(it.Unit, 'f', 6, 64), rows(it.Path), ink)
				return
			}
			fmt.Fprintf(out, `<path d="%s" fill="%s"/>`, pathData(it.Path), ink)
			return
		}
		dash := ""
		if it.Dash > 0 {
			dash = fmt.Sprintf(` stroke-dasharray="%s %s"`, short(it.Dash), short(it.Dash*0.7))
		}
		fmt.Fprintf(out, `<path d="%s" fill="none" stroke="%s" stroke-width="%s"%s/>`, pathData(it.Path), ink, short(it.Line), dash)
		return
	}
	row, _ := set(it.Face, it.Text)
	fmt.Fprintf(out, `<g transform="translate(%s %s) scale(%s)" fill="%s">`, short(it.At.X), short(it.At.Y), strconv.FormatFloat(it.Size/glyphUnits, 'f', 6, 64), ink)
	var boxes []Item
	for _, l := range row {
		if l.g == 0 {
			boxes = append(boxes, missing(it, l))
			continue
		}
		fmt.Fprintf(out, `<use href="#%s" x="%.0f"/>`, letters.of(l.face, l.g), l.x*glyphUnits)
	}
	out.WriteString("</g>")
	for _, b := range boxes {
		b.svg(out, letters)
	}
}

// pathData writes strokes as SVG path data; what runs level or upright is
// written short.
func pathData(path []Stroke) string {
	var out strings.Builder
	var was Point
	for _, s := range path {
		n := s.points()
		switch {
		case s.Op == 'L' && s.P[0].Y == was.Y:
			out.WriteString("H" + short(s.P[0].X))
		case s.Op == 'L' && s.P[0].X == was.X:
			out.WriteString("V" + short(s.P[0].Y))
		default:
			out.WriteByte(s.Op)
			for k := range n {
				if k > 0 {
					out.WriteByte(' ')
				}
				out.WriteString(short(s.P[k].X) + " " + short(s.P[k].Y))
			}
		}
		if n > 0 {
			was = s.P[n-1]
		}
	}
	return out.String()
}

// rows writes the boxes of a code, each one module high, as level lines one
// module wide: the same area in a third of the words.
func rows(boxes []Stroke) string {
	var out strings.Builder
	x, y := 0.0, -1.0
	for i := 0; i+4 < len(boxes); i += 5 {
		from, to := boxes[i].P[0], boxes[i+1].P[0]
		if from.Y != y {
			fmt.Fprintf(&out, "M%.0f %.1fh%.0f", from.X, from.Y+0.5, to.X-from.X)
		} else {
			fmt.Fprintf(&out, "m%.0f 0h%.0f", from.X-x, to.X-from.X)
		}
		x, y = to.X, from.Y
	}
	return out.String()
}

// short prints a length to the micron, without zeros at its end.
func short(mm float64) string {
	text := strconv.FormatFloat(mm, 'f', 3, 64)
	return strings.TrimSuffix(strings.TrimRight(text, "0"), ".")
}
