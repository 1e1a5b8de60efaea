package labels

import (
	"fmt"
	"strings"

	"matchmark/internal/machine"
	"matchmark/internal/trade/traymark"
)

// How a tag is cut, mm: the corner clipped off, the foot of the saw cut, and
// how far it leans.
const (
	clip = 7.0
	kerf = 1.6
	lean = 3.0
	stub = 4.4 // what the saw cuts off, at its narrow end
)

// The tag's rooms, mm: the middle of the hole, the top of what is written, the
// height of the word, and the height from which the code stands below the name.
const (
	hole     = 5.0
	tagTop   = 2.4
	wordTall = 5.4
	tallTag  = 34.0
)

// Lettering of a tag, mm to the em.
var (
	tagName  = lettering{Text, 5.6, 2.5, "the name"}
	tagWord  = lettering{Bold, 4.4, 3, "the word"}
	tagLies  = lettering{Text, 2.6, 2, "the tray"}
	tagDate  = lettering{Text, 2.4, 2, "the date"}
	tagOwner = lettering{Heading, 2.6, 1.9, "the machine's name"}
)

// tag draws a tie-on tag in the outline of its call, so that side-cutters can
// follow the line: whole where the part goes back, a corner clipped where it is
// made good, sawn through where it is renewed, dashed where nobody judged it.
// The hole for the string is on the left. A tall tag has the code under the
// name, a low one beside it.
func (p *pen) tag(l Label, w, h float64) {
	right := p.outline(l.Call, w, h)
	p.ring(Point{hole, h / 2}, 2.2, 0.5)
	for i := range l.Dots { // three a row, below the hole
		p.ring(Point{hole + float64(i%3-1)*dotStep, h/2 + 5 + float64(i/3)*dotStep}, dotRound, 0)
	}
	left := hole + 4.4
	rest := area{left, tagTop, right - left, h - tagTop - 1.6}
	if h < tallTag {
		p.rule(Point{left, h - 1.6}, 10)
		from := left + ruleWide(10) + 1.2
		p.row(tagOwner, Point{from, h - 1.7}, right-from, false, l.Machine)
		if l.Link != "" {
			p.code(l.Link, left+CodeLeast, tagTop, CodeLeast, CodeLeast)
			rest.X, rest.W = rest.X+CodeLeast+2.4, rest.W-CodeLeast-2.4
		}
		rest.H -= 3.8 + tagLies.Most*tailHang
		p.lies(l, area{rest.X, rest.Y + rest.H, rest.W, 0}, rest.W > 34)
		rest.H -= tagLies.Most*capRise + 0.8
	} else {
		side := min(19.5, h-19)
		foot := area{left, h - 2 - side, right - left, side}
		rest.H = foot.Y - tagTop - 1
		if l.Link != "" {
			p.code(l.Link, left+side, foot.Y, side, side)
			foot.X, foot.W = left+side+2.4, foot.W-side-2.4
		}
		p.rule(Point{foot.X, h - 2}, 10)
		p.row(tagOwner, Point{foot.X, h - 5.4}, foot.W, false, l.Machine)
		if !l.Date.IsZero() {
			p.row(tagDate, Point{foot.X, h - 9}, foot.W, false, l.Date.Format("2 Jan 2006"))
		}
		p.lies(l, area{foot.X, h - 12.6, foot.W, 0}, false)
	}
	p.word(l.Call, area{rest.X, rest.Y - 0.4, rest.W, wordTall})
	p.block(tagName, area{rest.X, rest.Y + wordTall + 0.8, rest.W, rest.H - wordTall - 0.8}, l.Name)
}

// lies writes the part's number and where it lies, and the day of its call at
// the end of the row where dated.
func (p *pen) lies(l Label, row area, dated bool) {
	var words []string
	if l.Number > 0 {
		words = append(words, fmt.Sprintf("No. %d", l.Number))
	}
	if l.Mark != "" {
		words = append(words, Called(l.Mark))
	}
	width := row.W
	if dated && !l.Date.IsZero() {
		p.row(tagDate, Point{row.X + row.W, row.Y}, 17, true, l.Date.Format("2 Jan 2006"))
		width -= 18
	}
	p.row(tagLies, Point{row.X, row.Y}, width, false, strings.Join(words, ", "))
}

// word writes the call: white on black where the tag is sawn, as its picture
// on the page is solid.
func (p *pen) word(c machine.Call, in area) {
	if c != machine.Renew {
		p.row(tagWord, Point{in.X, in.Y + in.H - 1.2}, in.W, false, callWord(c))
		return
	}
	p.path(0, true, box(in.X, in.Y, in.W, in.H)...)
	n := len(p.items)
	p.row(tagWord, Point{in.X + 1.2, in.Y + in.H - 1.5}, in.W-2.4, false, callWord(c))
	for i := n; i < len(p.items); i++ {
		p.items[i].Knocked = true
	}
}

// outline draws the edge of a tag and gives how far to the right may be
// written.
func (p *pen) outline(c machine.Call, w, h float64) float64 {
	const line = 0.7
	e := line / 2
	switch c {
	case machine.GoesBack:
		p.path(line, false, box(e, e, w-line, h-line)...)
		return w - 2.4
	case machine.MakeGood:
		p.path(line, false, round(Point{e, e}, Point{w - clip, e}, Point{w - e, clip}, Point{w - e, h - e}, Point{e, h - e})...)
		return w - clip - 1
	case machine.Renew:
		top := w - stub
		p.path(line, false, round(Point{e, e}, Point{top - kerf, e}, Point{top - kerf - lean, h - e}, Point{e, h - e})...)
		p.area(Point{top, 0}, Point{w, 0}, Point{w, h}, Point{top - lean, h})
		return top - kerf - lean - 1
	}
	p.path(0.5, false, box(0.25, 0.25, w-0.5, h-0.5)...).Dash = 2
	return w - 2.4
}

// Called names a mark in words: "tray 14", "tray C4K", and a place as it is.
func Called(mark string) string {
	if mark != "" && mark[0] >= '0' && mark[0] <= '9' || traymark.Made(mark) {
		return "tray " + mark
	}
	return mark
}
