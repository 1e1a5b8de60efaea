package door

import (
	"image/color"

	"github.com/boombuler/barcode/qr"
)

// Squares is a QR code: rows of modules, true where dark, with the four light
// modules around it that ISO/IEC 18004 asks for.
type Squares [][]bool

const quiet = 4

// Picture draws an address as a QR code, error correction M.
func Picture(address string) (Squares, error) {
	code, err := qr.Encode(address, qr.M, qr.Auto)
	if err != nil {
		return nil, err
	}
	n := code.Bounds().Dx()
	s := make(Squares, n+2*quiet)
	for y := range s {
		s[y] = make([]bool, n+2*quiet)
	}
	for y := range n {
		for x := range n {
			s[y+quiet][x+quiet] = color.GrayModel.Convert(code.At(x, y)).(color.Gray).Y < 128
		}
	}
	return s, nil
}

// Dark tells a module; outside the picture all is light.
func (s Squares) Dark(x, y int) bool {
	return y >= 0 && y < len(s) && x >= 0 && x < len(s[y]) && s[y][x]
}
