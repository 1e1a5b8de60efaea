package labels

import (
	"fmt"
	"slices"
	"strings"
	"time"
)

// Size is a stock of labels. All lengths are mm.
type Size struct {
	ID           string
	Name         string
	PageW, PageH float64
	W, H         float64 // of one label
	Cols, Rows   int
	Left, Top    float64 // of the first label
	InX, InY     float64 // kept free within each label: what a printer cannot reach, or cuts beside
}

// Sizes lists the stocks known: the sheet is the usual 3 × 8 of A4 labels
// without gaps, the rolls are 62 mm wide and cut to length.
func Sizes() []Size {
	return []Size{
		{ID: "sheet", Name: "A4 sheet, 3 × 8 labels of 70 × 37 mm", PageW: 210, PageH: 297, W: 70, H: 37, Cols: 3, Rows: 8, Top: 0.5, InX: 5, InY: 4},
		roll(29), roll(40), roll(60),
	}
}

func roll(long float64) Size {
	return Size{ID: fmt.Sprintf("roll%.0f", long), Name: fmt.Sprintf("Roll 62 mm wide, labels %.0f mm long", long),
		PageW: 62, PageH: long, W: 62, H: long, Cols: 1, Rows: 1, InX: 2, InY: 1.5}
}

// SizeOf finds a stock by its id.
func SizeOf(id string) (Size, bool) {
	for _, s := range Sizes() {
		if s.ID == id {
			return s, true
		}
	}
	return Size{}, false
}

// On is how many labels stand on one page.
func (s Size) On() int { return s.Cols * s.Rows }

// Arrow says which way a label points.
type Arrow string

const (
	NoArrow Arrow = ""
	Up      Arrow = "up"
	Left    Arrow = "left"
	Right   Arrow = "right"
)

// Arrows lists them.
func Arrows() []Arrow { return []Arrow{NoArrow, Up, Left, Right} }

// Setup is how labels are put on paper.
type Setup struct {
	Size   Size
	Start  int     // label of the first sheet to begin at, from 1
	OffX   float64 // how far the print is moved to the right, mm
	OffY   float64 // and down
	Arrow  Arrow
	Toward string // what the arrow points to: "front"
	AsOf   time.Time
}

// MostOff is the largest offset, mm; a printer that is further out has taken
// the wrong paper.
const MostOff = 5.0

// MostLabels go out in one go.
const MostLabels = 600

// Page is one sheet of paper, or one label of a roll.
type Page struct {
	W, H  float64
	Cells []Cell
}

// Cell is one label's place on its page, and what is drawn there.
type Cell struct {
	X, Y, W, H float64 // of the label as punched or cut; the drawing is moved by the offsets besides
	Drawing    Drawing
	Label      Label
}

// Layout is labels on paper, with what has to be said about them.
type Layout struct {
	Pages []Page
	Notes []string
}

// Lay puts labels on paper, row by row from the one to start at.
// Errors, in words for the person who prints: a start that is not on the sheet,
// offsets out of reason, too many labels.
func Lay(labels []Label, s Setup) (Layout, error) {
	if err := s.check(len(labels)); err != nil {
		return Layout{}, err
	}
	var out Layout
	for i, l := range labels {
		at := s.Start - 1 + i
		if at%s.Size.On() == 0 || i == 0 {
			out.Pages = append(out.Pages, Page{W: s.Size.PageW, H: s.Size.PageH})
		}
		cell := s.cell(at % s.Size.On())
		drawing, notes := l.draw(cell.W-2*s.Size.InX, cell.H-2*s.Size.InY, s)
		cell.Label, cell.Drawing = l, drawing.shifted(cell.X+s.Size.InX+s.OffX, cell.Y+s.Size.InY+s.OffY)
		page := &out.Pages[len(out.Pages)-1]
		page.Cells = append(page.Cells, cell)
		for _, n := range notes {
			if !slices.Contains(out.Notes, n) {
				out.Notes = append(out.Notes, n)
			}
		}
	}
	return out, nil
}

func (s Setup) check(n int) error {
	on := s.Size.On()
	switch {
	case on == 0:
		return fmt.Errorf("no size of label was chosen; choose one of %s", sizeIDs())
	case s.Start < 1 || s.Start > on:
		if on == 1 {
			return fmt.Errorf("a roll has no label %d to begin at; begin at 1", s.Start)
		}
		return fmt.Errorf("there is no label %d on a sheet of %d; begin at 1 to %d", s.Start, on, on)
	case !(max(s.OffX, -s.OffX) <= MostOff) || !(max(s.OffY, -s.OffY) <= MostOff):
		return fmt.Errorf("an offset of %.1f mm across and %.1f mm down is out of reason; it may be %.0f mm each way. Look whether the right paper is in", s.OffX, s.OffY, MostOff)
	case n > MostLabels:
		return fmt.Errorf("%d labels are more than go out in one go, %d; choose fewer", n, MostLabels)
	}
	return nil
}

func sizeIDs() string {
	var ids []string
	for _, s := range Sizes() {
		ids = append(ids, s.ID)
	}
	return strings.Join(ids, ", ")
}

// cell is the nth label's place on its page, from 0.
func (s Setup) cell(n int) Cell {
	return Cell{X: s.Size.Left + float64(n%s.Size.Cols)*s.Size.W, Y: s.Size.Top + float64(n/s.Size.Cols)*s.Size.H, W: s.Size.W, H: s.Size.H}
}

// Proof is a page to print on plain paper and hold against a sheet of labels:
// the outlines of all of them with their numbers, and rules both ways.
func Proof(s Setup) (Layout, error) {
	if err := s.check(0); err != nil {
		return Layout{}, err
	}
	page := Page{W: s.Size.PageW, H: s.Size.PageH}
	for n := range s.Size.On() {
		cell := s.cell(n)
		var p pen
		p.path(0.2, false, box(0, 0, cell.W, cell.H)...)
		p.line(0.2, Point{cell.W/2 - 3, cell.H / 2}, Point{cell.W/2 + 3, cell.H / 2})
		p.line(0.2, Point{cell.W / 2, cell.H/2 - 3}, Point{cell.W / 2, cell.H/2 + 3})
		p.text(Bold, 5, Point{s.Size.InX + 1, s.Size.InY + 5}, fmt.Sprint(n+1))
		if n == 0 {
			p.rule(Point{s.Size.InX, cell.H - s.Size.InY}, 50)
		}
		cell.Drawing = p.items.shifted(cell.X+s.OffX, cell.Y+s.OffY)
		page.Cells = append(page.Cells, cell)
	}
	return Layout{Pages: []Page{page}}, nil
}
