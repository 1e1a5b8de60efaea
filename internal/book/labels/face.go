package labels

import (
	"embed"
	"fmt"
	"slices"
	"sync"

	"golang.org/x/image/font"
	"golang.org/x/image/font/sfnt"
	"golang.org/x/image/math/fixed"
)

//go:embed faces/*.ttf
var faceFiles embed.FS

// Face is one of the faces labels are lettered in.
type Face int

const (
	Text Face = iota
	Bold
	Heading
	faces
)

// String is the file and the name the face has in the PDF.
func (f Face) String() string { return [...]string{"text", "bold", "heading"}[f] }

// cut is a face as read: its file and the measures of its letters.
type cut struct {
	data    []byte
	font    *sfnt.Font
	letters map[rune]form
}

// form is a letter's number in its face, and its measures in ems.
type form struct {
	g                  sfnt.GlyphIndex
	wide, above, below float64
}

// lettersEnd is behind the last letter looked for in the faces.
const lettersEnd = 0x2400

// cuts reads the faces, once, from files of this package; a face that cannot be
// read is a broken build, which every test of the package shows.
var cuts = sync.OnceValue(func() *[faces]cut {
	var all [faces]cut
	for f := range faces {
		data, err := faceFiles.ReadFile("faces/" + f.String() + ".ttf")
		if err != nil {
			panic(err)
		}
		parsed, err := sfnt.Parse(data)
		if err != nil {
			panic(fmt.Sprintf("labels: face %s: %v", f, err))
		}
		all[f] = cut{data, parsed, formsOf(parsed)}
	}
	return &all
})

// formsOf measures every letter of a face.
func formsOf(f *sfnt.Font) map[rune]form {
	var buf sfnt.Buffer
	out := map[rune]form{}
	em := fixed.I(int(f.UnitsPerEm()))
	ems := func(v fixed.Int26_6) float64 { return float64(v) / float64(em) }
	for r := rune(' '); r < lettersEnd; r++ {
		g, err := f.GlyphIndex(&buf, r)
		if err != nil || g == 0 {
			continue
		}
		bounds, advance, err := f.GlyphBounds(&buf, g, em, font.HintingNone)
		if err != nil {
			continue
		}
		out[r] = form{g, ems(advance), -ems(bounds.Min.Y), ems(bounds.Max.Y)}
	}
	return out
}

// turns lists, for each face, the faces asked for a letter, in that order: the
// heading face takes its figures from the text face, because its 1 is a bare
// stroke.
var turns = [faces][]Face{Text: {Text, Heading}, Bold: {Bold, Heading}, Heading: {Heading, Text}}

// formOf finds a letter and the face that has it; false where none has it.
func formOf(face Face, r rune) (Face, form, bool) {
	for _, f := range turns[face] {
		if f == Heading && face == Heading && r >= '0' && r <= '9' {
			continue
		}
		if l, ok := cuts()[f].letters[r]; ok {
			return f, l, true
		}
	}
	return face, form{wide: boxWide, above: boxTall}, false
}

// Unprintable lists the letters of a text that no face here has, each once.
func Unprintable(text string) []rune {
	var out []rune
	for _, r := range text {
		if _, _, ok := formOf(Text, r); !ok && !slices.Contains(out, r) {
			out = append(out, r)
		}
	}
	return out
}

// The empty box in place of a missing letter, in ems.
const (
	boxWide = 0.62
	boxTall = 0.72
)

// letter is one letter set at a place.
type letter struct {
	form
	r    rune
	face Face
	x    float64 // from the start of the text, ems
}

// set measures a text: each letter with its place, and the width of all, in
// ems.
func set(face Face, text string) ([]letter, float64) {
	var out []letter
	x := 0.0
	for _, r := range text {
		f, l, _ := formOf(face, r)
		out = append(out, letter{form: l, r: r, face: f, x: x})
		x += l.wide
	}
	return out, x
}

// wide is the width of a text at one millimetre to the em.
func wide(face Face, text string) float64 {
	x := 0.0
	for _, r := range text {
		_, l, _ := formOf(face, r)
		x += l.wide
	}
	return x
}

// tall is how high the tallest letter of a text stands above the baseline, and
// how deep the deepest hangs below, in ems.
func tall(face Face, text string) (above, below float64) {
	for _, r := range text {
		_, l, _ := formOf(face, r)
		above, below = max(above, l.above), max(below, l.below)
	}
	return above, below
}

// outline draws a letter about its origin, y downwards, one millimetre to the
// em.
func outline(face Face, g sfnt.GlyphIndex) []Stroke {
	var buf sfnt.Buffer
	f := cuts()[face].font
	em := fixed.I(int(f.UnitsPerEm()))
	segments, err := f.LoadGlyph(&buf, g, em, nil)
	if err != nil {
		return nil
	}
	at := func(p fixed.Point26_6) Point { return Point{float64(p.X) / float64(em), float64(p.Y) / float64(em)} }
	var out []Stroke
	for _, s := range segments {
		switch s.Op {
		case sfnt.SegmentOpMoveTo:
			out = append(out, Stroke{Op: 'M', P: [3]Point{at(s.Args[0])}})
		case sfnt.SegmentOpLineTo:
			out = append(out, Stroke{Op: 'L', P: [3]Point{at(s.Args[0])}})
		case sfnt.SegmentOpQuadTo:
			out = append(out, Stroke{Op: 'Q', P: [3]Point{at(s.Args[0]), at(s.Args[1])}})
		case sfnt.SegmentOpCubeTo:
			out = append(out, Stroke{Op: 'C', P: [3]Point{at(s.Args[0]), at(s.Args[1]), at(s.Args[2])}})
		}
	}
	return out
}
