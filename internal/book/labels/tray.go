package labels

import (
	"fmt"
	"strings"
	"time"

	"matchmark/internal/machine"
)

// MarkTall is the height of a tray's mark, mm, from its foot to the top of its
// tallest character.
const MarkTall = 14.0

// ruleLong is the length of the rule on a label, mm.
const ruleLong = 20

// Match dots, mm: their radius, and from one to the next. A mark has nine at
// most.
const (
	dotRound = 0.9
	dotStep  = 2.2
)

// Sizes of lettering, mm to the em. 2.8 mm is 8 points.
var (
	nameLetters    = lettering{Text, 5.2, 2.8, "the name"}
	machineLetters = lettering{Heading, 3.2, 2.2, "the machine's name"}
	dateLetters    = lettering{Text, 2.8, 2.2, "the date"}
	towardLetters  = lettering{Text, 2.8, 1.9, "what the arrow points to"}
	insideLetters  = lettering{Text, 2.7, 2.7, "what is in it"}
)

// draw draws a label in a room of w × h mm with its corner at 0, 0.
func (l Label) draw(w, h float64, s Setup) (Drawing, []string) {
	var p pen
	if l.Tag {
		p.tag(l, w, h)
	} else {
		p.tray(l, w, h, s)
	}
	for _, text := range append([]string{l.Mark, l.Name, l.Machine, l.Serial, s.Toward}, l.Inside...) {
		if odd := Unprintable(text); len(odd) > 0 {
			p.notes = append(p.notes, fmt.Sprintf("“%s” has letters that these faces do not have (%s); each is printed as an empty box", text, strings.Join(strings.Split(string(odd), ""), " ")))
		}
	}
	return p.items, p.notes
}

// tray draws a tray's label: the mark with a bar that says which way up it is
// read, the code beside it, then name, machine and date, and at the foot the
// rule, the arrow and the dots.
func (p *pen) tray(l Label, w, h float64, s Setup) {
	side := CodeLeast
	if h > 28 {
		side = 20
	}
	column := w
	if l.Link != "" {
		p.code(l.Link, w, 0, side, side+2)
		column = w - side - 2.2
	}
	p.mark(l.Mark, column)
	foot := h - 2.4 // top of the foot
	p.foot(l, w, h, s)
	p.machine(l, Point{0, foot - 1}, column)
	free := foot - 1 - machineLetters.Most*capRise - 0.3 // where the machine's name begins
	names := area{0, MarkTall + 2.3, column, free - MarkTall - 2.3}
	if h > 48 {
		names.H = 11
		p.inside(l, area{0, names.Y + names.H + 1, w, free - names.Y - names.H - 2}, s.AsOf)
	}
	if l.Name == "" {
		p.line(0.25, Point{0, names.Y + names.H - 0.6}, Point{column, names.Y + names.H - 0.6})
		return
	}
	p.block(nameLetters, names, l.Name)
}

// machine names the machine, with its number where there is room for both.
func (p *pen) machine(l Label, at Point, width float64) {
	whole := l.Machine
	if l.Serial != "" {
		whole += ", no. " + l.Serial
	}
	if l.Serial != "" && wide(machineLetters.Face, whole)*numberLeast > width {
		p.notes = append(p.notes, fmt.Sprintf("the machine's number %s is left out: there is no room for it", l.Serial))
		whole = l.Machine
	}
	p.row(machineLetters, at, width, false, whole)
}

// numberLeast is the least lettering at which the machine's number is written
// behind its name, mm to the em.
const numberLeast = 2.4

// mark writes the tray's mark as tall as its room allows, 14 mm at most, with
// a bar under it. A mark of several words may take two lines.
func (p *pen) mark(mark string, width float64) {
	lines := []string{mark}
	size := markSize(mark, MarkTall, width)
	if words := strings.Fields(mark); len(words) > 1 {
		half := halves(words)
		if two := min(markSize(half[0], MarkTall/2-0.8, width), markSize(half[1], MarkTall/2-0.8, width)); two > size {
			lines, size = half, two
		}
	}
	long := 0.0
	for i, line := range lines {
		y := MarkTall - float64(len(lines)-1-i)*(MarkTall/2+0.4)
		p.text(Bold, size, Point{0, y}, line)
		long = max(long, wide(Bold, line)*size)
	}
	if above, _ := tall(Bold, lines[0]); mark != "" && above*size < MarkTall-0.05 {
		p.notes = append(p.notes, fmt.Sprintf("the mark “%s” is %.1f mm high instead of %.0f: it is too long for more", mark, above*size, MarkTall))
	}
	p.path(0, true, box(0, MarkTall+0.9, max(long, 1), 0.7)...)
}

// markSize is the em at which a mark is as tall as wanted, or less where it
// would be too wide.
func markSize(mark string, high, width float64) float64 {
	above, _ := tall(Bold, mark)
	if above == 0 {
		return high
	}
	size := high / above
	return min(size, width/max(wide(Bold, mark), 1e-9))
}

// halves parts words into two lines of about one length.
func halves(words []string) []string {
	best := []string{words[0], strings.Join(words[1:], " ")}
	for i := 2; i < len(words); i++ {
		a, b := strings.Join(words[:i], " "), strings.Join(words[i:], " ")
		if max(wide(Bold, a), wide(Bold, b)) < max(wide(Bold, best[0]), wide(Bold, best[1])) {
			best = []string{a, b}
		}
	}
	return best
}

// foot draws the lowest row, and the dots above its right end.
func (p *pen) foot(l Label, w, h float64, s Setup) {
	p.rule(Point{0, h}, ruleLong)
	for i := range l.Dots {
		p.ring(Point{w - dotRound - float64(l.Dots-1-i)*dotStep, h - 4.4}, dotRound, 0)
	}
	const dated = 20.0
	p.date(l.Date, w, h, dated)
	if left := ruleWide(ruleLong) + 1.2; s.Arrow != NoArrow {
		p.arrow(s.Arrow, Point{left + 1.7, h - 1.2})
		p.row(towardLetters, Point{left + 4, h - 0.7}, w-dated-left-4, false, s.Toward)
	}
}

// date writes a date up to the right edge, or leaves a line to write it on.
func (p *pen) date(t time.Time, w, h, room float64) {
	if t.IsZero() {
		p.line(0.25, Point{w - room + 1, h - 0.2}, Point{w, h - 0.2})
		return
	}
	p.row(dateLetters, Point{w, h - 0.7}, room, true, t.Format("2 Jan 2006"))
}

// rule draws a rule of a known length with its lower left end at a place: a
// stroke each millimetre, longer at five and ten.
func (p *pen) rule(at Point, long int) {
	y := at.Y - 0.1
	path := through(Point{at.X, y}, Point{at.X + float64(long), y})
	for mm := range long + 1 {
		high := 0.8
		if mm%10 == 0 {
			high = 2.2
		} else if mm%5 == 0 {
			high = 1.5
		}
		path = append(path, through(Point{at.X + float64(mm), y}, Point{at.X + float64(mm), y - high})...)
	}
	p.path(0.17, false, path...)
	p.text(Text, ruleSize, Point{at.X + float64(long) + 0.7, y}, ruleWords(long))
}

// ruleSize is the lettering of a rule, mm to the em.
const ruleSize = 2.0

func ruleWords(long int) string { return fmt.Sprintf("%d mm", long) }

// ruleWide is how wide a rule is with its words.
func ruleWide(long int) float64 { return float64(long) + 0.7 + wide(Text, ruleWords(long))*ruleSize }

// arrow draws an arrow 3.4 mm long about its middle.
func (p *pen) arrow(way Arrow, m Point) {
	turn := map[Arrow]func(x, y float64) Point{
		Right: func(x, y float64) Point { return Point{m.X + x, m.Y + y} },
		Left:  func(x, y float64) Point { return Point{m.X - x, m.Y + y} },
		Up:    func(x, y float64) Point { return Point{m.X + y, m.Y - x*0.7} }, // the foot is 2.4 mm high
	}[way]
	if turn == nil {
		return
	}
	p.area(turn(1.7, 0), turn(0.1, 1.15), turn(0.1, 0.35), turn(-1.7, 0.35), turn(-1.7, -0.35), turn(0.1, -0.35), turn(0.1, -1.15))
}

// inside lists what lies in the tray, with the day it was so.
func (p *pen) inside(l Label, in area, asOf time.Time) {
	size := insideLetters.Most
	step := size * lead
	if len(l.Inside) == 0 {
		for y := in.Y + 5.5; y < in.Y+in.H; y += 6 {
			p.line(0.25, Point{in.X, y}, Point{in.X + in.W, y})
		}
		return
	}
	p.text(Heading, size, Point{in.X, in.Y + capRise*size}, "In it on "+asOf.Format("2 Jan 2006"))
	room := max(int((in.H-capRise*size)/step), 1)
	rows := l.Inside
	if len(rows) > room {
		rows = append(rows[:room-1:room-1], fmt.Sprintf("and %d more", len(l.Inside)-room+1))
	}
	for i, row := range rows {
		short, _ := clipped(insideLetters.Face, size, in.W, row)
		p.text(insideLetters.Face, size, Point{in.X, in.Y + capRise*size + float64(i+1)*step}, short)
	}
}

// callWord is the word on a tag.
func callWord(c machine.Call) string {
	if c == "" {
		return string(machine.NotJudged)
	}
	return string(c)
}
