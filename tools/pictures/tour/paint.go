package tour

import (
	"bytes"
	"image"
	"image/color"
	"image/png"
	"maps"
	"slices"
)

// shades is how many colours a kept picture has: both grounds, their inks and
// the soft edges of letters.
const shades = 32

// flat paints each dot of a picture in the nearest of some colours.
func flat(from *image.RGBA, inks color.Palette) *image.Paletted {
	nearest := map[color.RGBA]uint8{}
	out := image.NewPaletted(from.Bounds(), inks)
	for y := range from.Bounds().Dy() {
		for x := range from.Bounds().Dx() {
			c := from.RGBAAt(x, y)
			ink, known := nearest[c]
			if !known {
				ink = uint8(inks.Index(c))
				nearest[c] = ink
			}
			out.Pix[y*out.Stride+x] = ink
		}
	}
	return out
}

// commonest picks the colours that stand for the most dots, passing over those
// very near to one picked already. The pages have few colours and soft edges of
// letters, so little is lost.
func commonest(m *image.RGBA) color.Palette {
	count := map[color.RGBA]int{}
	for y := range m.Bounds().Dy() {
		for x := range m.Bounds().Dx() {
			count[m.RGBAAt(x, y)]++
		}
	}
	all := slices.SortedFunc(maps.Keys(count), func(a, b color.RGBA) int {
		if count[a] != count[b] {
			return count[b] - count[a]
		}
		return key(a) - key(b)
	})
	var out color.Palette
	for _, near := range []int{24, 8, 0} {
		for _, c := range all {
			if len(out) < shades && !slices.ContainsFunc(out, func(o color.Color) bool { return apart(o.(color.RGBA), c) <= near }) {
				out = append(out, c)
			}
		}
	}
	return out
}

func key(c color.RGBA) int { return int(c.R)<<16 | int(c.G)<<8 | int(c.B) }

// apart is the largest difference of two colours in one of their parts.
func apart(a, b color.RGBA) int {
	return max(diff(a.R, b.R), diff(a.G, b.G), diff(a.B, b.B))
}

func diff(a, b uint8) int { return max(int(a)-int(b), int(b)-int(a)) }

func rgba(m image.Image, x, y int) color.RGBA {
	return color.RGBAModel.Convert(m.At(x, y)).(color.RGBA)
}

// PNG is a picture as it is kept.
func PNG(m image.Image) ([]byte, error) {
	var out bytes.Buffer
	err := (&png.Encoder{CompressionLevel: png.BestCompression}).Encode(&out, m)
	return out.Bytes(), err
}

// Unlike is the share of dots, 0 to 1, that differ between two pictures by more
// than tolerance in one part of their colour; 1 where their sizes differ.
func Unlike(a, b image.Image, tolerance int) float64 {
	size := a.Bounds().Size()
	if size != b.Bounds().Size() || size.X*size.Y == 0 {
		return 1
	}
	n := 0
	for y := range size.Y {
		for x := range size.X {
			p := rgba(a, a.Bounds().Min.X+x, a.Bounds().Min.Y+y)
			q := rgba(b, b.Bounds().Min.X+x, b.Bounds().Min.Y+y)
			if apart(p, q) > tolerance {
				n++
			}
		}
	}
	return float64(n) / float64(size.X*size.Y)
}
