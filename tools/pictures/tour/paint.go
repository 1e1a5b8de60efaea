package tour

import (
	"bytes"
	"image"
	"image/color"
	"image/png"
)

// inks are the colours a kept picture is painted in: the tokens of scribe.css
// on both grounds, and the grey of the paper between. Soft edges of letters fall
// to the second and third ink of their ground. Sixteen take four bits a dot.
var inks = color.Palette{
	hex(0x101F57), hex(0x0A153D), hex(0x1B2E75), hex(0xF4F7FB), hex(0xBFCBEC), hex(0x8597CF), hex(0xF0C869), // blue
	hex(0xEDF1EF), hex(0xFBFCFB), hex(0x0F1830), hex(0x45506A), hex(0x76819A), hex(0x8E3A24), hex(0x1B2F7A), // film
	hex(0x808080), hex(0x4A5A96),
}

func hex(rgb uint32) color.RGBA {
	return color.RGBA{uint8(rgb >> 16), uint8(rgb >> 8), uint8(rgb), 255}
}

// flat paints each dot of a picture in the nearest ink.
func flat(from *image.RGBA) *image.Paletted {
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
