package labels

import (
	"bytes"
	"fmt"
	"time"

	"codeberg.org/go-pdf/fpdf"
)

// written is the date the PDF bears: always the same, so that the same labels
// give the same bytes.
var written = time.Date(2000, 1, 1, 0, 0, 0, 0, time.UTC)

// unscaled asks the program that prints to leave the size alone (ISO 32000-1,
// table 150, PrintScaling). The writer has no setting for it, but writes the
// language as given; the test looks for it in the file.
const unscaled = "en) /ViewerPreferences << /PrintScaling /None >> /MatchMark (labels"

// PDF writes a layout as a PDF with its faces embedded, one page of paper a
// page. The same layout gives the same bytes.
func (l Layout) PDF() ([]byte, error) {
	f := fpdf.NewCustom(&fpdf.InitType{UnitStr: "mm", Size: fpdf.SizeType{Wd: 210, Ht: 297}})
	f.SetMargins(0, 0, 0)
	f.SetAutoPageBreak(false, 0)
	f.SetCatalogSort(true)
	f.SetCreationDate(written)
	f.SetModificationDate(written)
	f.SetProducer("matchmark", true)
	f.SetTitle("Labels", true)
	f.SetLang(unscaled)
	for face := range faces {
		f.AddUTF8FontFromBytes(face.String(), "", cuts()[face].data)
	}
	for _, page := range l.Pages {
		f.AddPageFormat("P", fpdf.SizeType{Wd: page.W, Ht: page.H})
		for _, cell := range page.Cells {
			for _, it := range cell.Drawing {
				put(f, it)
			}
		}
	}
	var out bytes.Buffer
	if err := f.Output(&out); err != nil {
		return nil, fmt.Errorf("labels as PDF: %w", err)
	}
	return out.Bytes(), nil
}

// put draws one item.
func put(f *fpdf.Fpdf, it Item) {
	ink := 0
	if it.Knocked {
		ink = 255
	}
	f.SetDrawColor(ink, ink, ink)
	f.SetFillColor(ink, ink, ink)
	f.SetTextColor(ink, ink, ink)
	if it.Text != "" {
		write(f, it)
		return
	}
	style := "D"
	if it.Fill {
		style = "F"
	}
	f.SetLineWidth(it.Line)
	var dash []float64
	if it.Dash > 0 {
		dash = []float64{it.Dash, it.Dash * 0.7}
	}
	f.SetDashPattern(dash, 0)
	for _, s := range it.placed() {
		switch s.Op {
		case 'M':
			f.MoveTo(s.P[0].X, s.P[0].Y)
		case 'L':
			f.LineTo(s.P[0].X, s.P[0].Y)
		case 'C':
			f.CurveBezierCubicTo(s.P[0].X, s.P[0].Y, s.P[1].X, s.P[1].Y, s.P[2].X, s.P[2].Y)
		case 'Z':
			f.ClosePath()
		}
	}
	f.DrawPath(style)
}

// write puts a text in runs of one face; a letter no face has is an empty box.
func write(f *fpdf.Fpdf, it Item) {
	letters, _ := set(it.Face, it.Text)
	for i := 0; i < len(letters); {
		from := i
		for i < len(letters) && letters[i].face == letters[from].face && (letters[i].g == 0) == (letters[from].g == 0) {
			i++
		}
		x := it.At.X + letters[from].x*it.Size
		if letters[from].g == 0 {
			for _, l := range letters[from:i] {
				b := missing(it, l)
				f.SetLineWidth(b.Line)
				f.SetDashPattern(nil, 0)
				f.Rect(b.Path[0].P[0].X, b.Path[0].P[0].Y, b.Path[2].P[0].X-b.Path[0].P[0].X, b.Path[2].P[0].Y-b.Path[0].P[0].Y, "D")
			}
			continue
		}
		var run []rune
		for _, l := range letters[from:i] {
			run = append(run, l.r)
		}
		f.SetFont(letters[from].face.String(), "", it.Size*72/25.4)
		f.Text(x, it.At.Y, string(run))
	}
}

// missing is the empty box in place of a letter.
func missing(it Item, l letter) Item {
	return Item{Path: box(it.At.X+(l.x+0.06)*it.Size, it.At.Y-boxTall*it.Size, (boxWide-0.12)*it.Size, boxTall*it.Size), Line: 0.05 * it.Size, Knocked: it.Knocked}
}
