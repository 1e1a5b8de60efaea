package tour

import (
	"context"
	"image"
	"image/color"
	"image/draw"
)

// margin round the pictures of a sheet, dots.
const margin = 16

// Sheet is the pictures of one page side by side: the sizes across, blue above
// film.
type Sheet struct {
	Path  string
	Views []View
	Seen  []image.Image // one for each view
}

// TakeSheet takes all pictures of a page in a tab.
func TakeSheet(tab context.Context, base, path string) (Sheet, error) {
	s := Sheet{Path: path, Views: Views(path)}
	for _, v := range s.Views {
		seen, err := v.Take(tab, base)
		if err != nil {
			return s, err
		}
		s.Seen = append(s.Seen, seen)
	}
	return s, nil
}

// Places are where each view lies on the sheet, and the size of the sheet.
func Places() ([]image.Rectangle, image.Point) {
	var out []image.Rectangle
	size := image.Point{}
	top := margin
	for range 2 {
		left, low := margin, top
		for _, s := range sizes {
			r := image.Rect(left, top, left+int(s[0]), top+int(s[1]))
			out = append(out, r)
			left, low = r.Max.X+margin, max(low, r.Max.Y)
		}
		top = low + margin
		size = image.Pt(left, top)
	}
	return out, size
}

// Lay lays the pictures out on grey paper, painted in few inks.
func (s Sheet) Lay() *image.Paletted {
	places, size := Places()
	paper := image.NewRGBA(image.Rectangle{Max: size})
	draw.Draw(paper, paper.Bounds(), image.NewUniform(color.Gray{Y: 128}), image.Point{}, draw.Src)
	for i, seen := range s.Seen {
		draw.Draw(paper, places[i], seen, seen.Bounds().Min, draw.Src)
	}
	return flat(paper)
}
