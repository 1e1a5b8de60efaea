package draw

import (
	"fmt"
	"html"
	"math"
	"strconv"
	"strings"
)

// Shapes are the symbols that one page draws, each written once and used where
// it stands.
type Shapes struct {
	ids map[string]string
	out strings.Builder
}

// id is the name of a shape as drawn in a box, written down at its first use.
func (sh *Shapes) id(s Symbol, w, h float64, turned bool) string {
	key := fmt.Sprintf("%s %.1f %.1f %t", s.Sort, w, h, turned)
	if id, ok := sh.ids[key]; ok {
		return id
	}
	if sh.ids == nil {
		sh.ids = map[string]string{}
	}
	id := "y" + strconv.Itoa(len(sh.ids)+1)
	sh.ids[key] = id
	d := s.trace(w, h, turned)
	fmt.Fprintf(&sh.out, `<g id="%s"><path class="so" d="%s"/>`, id, d.body)
	if d.fine != "" {
		fmt.Fprintf(&sh.out, `<path class="sf" d="%s"/>`, d.fine)
	}
	sh.out.WriteString("</g>")
	return id
}

// Definitions are all shapes used so far, to stand in <defs>.
func (sh *Shapes) Definitions() string { return sh.out.String() }

// Page is what a sheet needs of the page it stands on.
type Page struct {
	Title  string // said of the whole sheet
	Here   string // id of the item chosen, if any
	Shapes *Shapes
	Href   func(items []Item) string
	Say    func(items []Item) string // name of a link
}

// sheetWriter writes one sheet.
type sheetWriter struct {
	strings.Builder
	page Page
}

// SVG writes the sheet. Links lie over the drawing in a group of their own, so
// that a small screen can leave them out and keep the picture.
func (s Sheet) SVG(p Page) string {
	w := sheetWriter{page: p}
	fmt.Fprintf(&w, `<svg class="plan" viewBox="0 0 %s %s" role="group" aria-label="%s">`, figure(Width), figure(s.Height), html.EscapeString(p.Title))
	w.frame(s.Height)
	w.axes(s.Axes)
	w.leaders(s.Balloons)
	for _, m := range s.Marks {
		w.mark(m)
	}
	w.dots(s.Balloons)
	w.WriteString(`<g class="hits">`)
	for _, n := range s.Notes {
		w.note(n)
	}
	w.links(s)
	w.WriteString("</g></svg>")
	return w.String()
}

// zones is how many zones a side of some length has.
func zones(length float64, most float64) int { return max(2, int(math.Round(length/most))) }

// frame draws the border with its zones: figures along, letters down.
func (w *sheetWriter) frame(height float64) {
	const edge = 1.0
	inner, deep := Width-2*margin, height-2*margin
	fmt.Fprintf(w, `<path class="fr" d="M%s %sH%sV%sH%sZM%s %sH%sV%sH%sZ`, figure(edge), figure(edge), figure(Width-edge), figure(height-edge), figure(edge),
		figure(margin), figure(margin), figure(Width-margin), figure(height-margin), figure(margin))
	cols, rows := zones(inner, 160), min(zones(deep, 150), len(letters))
	for i := 1; i < cols; i++ {
		x := figure(margin + inner*float64(i)/float64(cols))
		fmt.Fprintf(w, "M%s %sV%sM%s %sV%s", x, figure(edge), figure(margin), x, figure(height-margin), figure(height-edge))
	}
	for i := 1; i < rows; i++ {
		y := figure(margin + deep*float64(i)/float64(rows))
		fmt.Fprintf(w, "M%s %sH%sM%s %sH%s", figure(edge), y, figure(margin), figure(Width-margin), y, figure(Width-edge))
	}
	w.WriteString(`"/><g class="zone" aria-hidden="true">`)
	for i := range cols {
		x := margin + inner*(float64(i)+0.5)/float64(cols)
		w.word(point{x, margin / 2}, strconv.Itoa(i+1), "")
		w.word(point{x, height - margin/2}, strconv.Itoa(i+1), "")
	}
	for i := range rows {
		y := margin + deep*(float64(i)+0.5)/float64(rows)
		w.word(point{margin / 2, y}, string(letters[i]), "")
		w.word(point{Width - margin/2, y}, string(letters[i]), "")
	}
	w.WriteString("</g>")
}

// letters of the zones; I and O are left out, being too like figures
// (ISO 5457, from memory).
const letters = "ABCDEFGHJKLMNPQRSTUVWXYZ"

// word writes a text round a point, in a group that the style may scale.
func (w *sheetWriter) word(at point, text, class string) {
	if class != "" {
		class = ` class="` + class + `"`
	}
	fmt.Fprintf(w, `<g transform="translate(%s)"><text%s>%s</text></g>`, whole(at), class, html.EscapeString(text))
}

func (w *sheetWriter) note(n Note) {
	class := "note"
	if n.Left {
		class = "note left"
	}
	w.word(n.At, n.Text, class)
}

func (w *sheetWriter) axes(axes []Axis) {
	if len(axes) == 0 {
		return
	}
	w.WriteString(`<path class="cl" d="`)
	for _, a := range axes {
		fmt.Fprintf(w, "M%s%sL%s%s", figure(a.From.x), spaced(a.From.y), figure(a.To.x), spaced(a.To.y))
	}
	w.WriteString(`"/>`)
}

// leaders are thin lines from balloons to their symbols, under the symbols'
// own lines.
func (w *sheetWriter) leaders(balloons []Balloon) {
	w.strokes("ld", balloons, func(b Balloon) string { return stretch(b.At, b.To) })
}

// dots end the leaders, over the symbols: the end of the line once more, and a
// stroke of no length with round ends.
func (w *sheetWriter) dots(balloons []Balloon) {
	w.strokes("ld", balloons, func(b Balloon) string {
		return stretch(point{b.To.x + (b.At.x-b.To.x)*b.back(), b.To.y + (b.At.y-b.To.y)*b.back()}, b.To)
	})
	w.strokes("dot", balloons, func(b Balloon) string { return "M" + whole(b.To) + "h0" })
}

// strokes writes what belongs to balloons as one path for each class, in the
// order in which the classes come.
func (w *sheetWriter) strokes(class string, balloons []Balloon, draw func(Balloon) string) {
	var order []string
	paths := map[string]string{}
	for _, b := range balloons {
		c := class + w.leader(b)
		if paths[c] == "" {
			order = append(order, c)
		}
		paths[c] += draw(b)
	}
	for _, c := range order {
		fmt.Fprintf(w, `<path class="%s" d="%s"/>`, c, paths[c])
	}
}

// stretch is a line from one place to another.
func stretch(from, to point) string { return "M" + whole(from) + "L" + whole(to) }

// whole is a place to the unit, less than a dot of the screen: enough for a
// leader.
func whole(p point) string { return fmt.Sprintf("%.0f %.0f", p.x, p.y) }

// back is the share of a leader that lies over its symbol, at its dot.
func (b Balloon) back() float64 {
	return min(1, 8/max(math.Hypot(b.At.x-b.To.x, b.At.y-b.To.y), 1))
}

// leader is the class of a balloon's leader: it leads to one part, and marks
// only that one as chosen.
func (w *sheetWriter) leader(b Balloon) string {
	if b.Shown == "" && b.Items[0].ID != w.page.Here {
		return ""
	}
	return w.classOf(b)
}

func (w *sheetWriter) classOf(b Balloon) string {
	class := ""
	if b.Shown != "" {
		class = " " + b.Shown
	}
	for _, it := range b.Items {
		if it.ID == w.page.Here {
			return class + " here"
		}
	}
	return class
}

// stateClass is the class that the style draws a state by.
func stateClass(it Item) string { return "s-" + it.State }

func (w *sheetWriter) mark(m Mark) {
	class := stateClass(m.Item)
	if m.Item.ID == w.page.Here {
		class += " here"
	}
	fmt.Fprintf(w, `<use href="#%s" x="%s" y="%s" class="%s"/>`, w.page.Shapes.id(m.Symbol, m.At.w, m.At.h, m.Turned), figure(m.At.x), figure(m.At.y), class)
}

// links lays a link over every target, with the balloon in it that belongs to
// it alone; a balloon for several stands by itself. On the general arrangement
// a link holds its balloon as it is shown small and as it is shown large.
func (w *sheetWriter) links(s Sheet) {
	alone := map[string][]Balloon{}
	var order []string
	for _, b := range s.Balloons {
		if b.Shown == "" && len(b.Items) > 1 {
			w.balloon(b)
			continue
		}
		id := b.Items[0].ID
		if alone[id] == nil {
			order = append(order, id)
		}
		alone[id] = append(alone[id], b)
	}
	for _, m := range s.Marks {
		if m.Target.w > 0 {
			w.link([]Item{m.Item}, m.Target, alone[m.Item.ID])
			delete(alone, m.Item.ID)
		}
	}
	for _, id := range order {
		if balloons := alone[id]; balloons != nil {
			w.link(balloons[0].Items, box{}, balloons)
		}
	}
}

// link writes one link over a target, or over its balloons where it has none.
func (w *sheetWriter) link(items []Item, target box, balloons []Balloon) {
	var classes []string
	if len(balloons) == 1 && balloons[0].Shown != "" {
		classes = append(classes, balloons[0].Shown)
	}
	here := ""
	for _, it := range items {
		if it.ID == w.page.Here {
			classes, here = append(classes, "here"), ` aria-current="true"`
		}
	}
	w.WriteString("<a")
	if len(classes) > 0 {
		fmt.Fprintf(w, ` class="%s"`, strings.Join(classes, " "))
	}
	fmt.Fprintf(w, `%s href="%s" aria-label="%s">`, here, html.EscapeString(w.page.Href(items)), html.EscapeString(w.page.Say(items)))
	if target.w > 0 {
		fmt.Fprintf(w, `<rect x="%s" y="%s" width="%s" height="%s"/>`, figure(target.x), figure(target.y), figure(target.w), figure(target.h))
	}
	for _, b := range balloons {
		w.balloon(b)
	}
	w.WriteString("</a>")
}

// balloon draws the ring with its number in it. What presses it is drawn
// smaller with it where it stands for itself.
func (w *sheetWriter) balloon(b Balloon) {
	class := w.classOf(b)
	if class != "" {
		class = ` class="` + strings.TrimSpace(class) + `"`
	}
	fmt.Fprintf(w, `<g%s transform="translate(%s%s)" aria-hidden="true"><g class="bk">`, class, figure(b.At.x), spaced(b.At.y))
	if b.Target.w > 0 {
		fmt.Fprintf(w, `<rect x="%s" y="%s" width="%s" height="%s"/>`, figure(-b.Target.w/2), figure(-b.Target.h/2), figure(b.Target.w), figure(b.Target.h))
	}
	if b.Width > 2*radius {
		fmt.Fprintf(w, `<rect class="bal" x="%s" y="-%s" width="%s" height="%s" rx="%s"/>`, figure(-b.Width/2), figure(radius), figure(b.Width), figure(2*radius), figure(radius))
	} else {
		fmt.Fprintf(w, `<circle class="bal" r="%s"/>`, figure(radius))
	}
	fmt.Fprintf(w, `<text>%s</text></g></g>`, b.Text())
}

// Small writes a symbol by itself, whole and as large as its box allows.
func (sh *Shapes) Small(m Machine, it Item) string {
	s := m.symbolOf(it)
	w, h := s.Width, s.Height
	id := sh.id(s, w, h, false)
	return fmt.Sprintf(`<svg class="sym" viewBox="-4 -4 %s %s" aria-hidden="true"><use href="#%s" class="%s"/></svg>`, figure(w+8), figure(h+8), id, stateClass(it))
}
