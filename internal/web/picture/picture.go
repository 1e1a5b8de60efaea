// Package picture makes an uploaded photo fit to keep: recognised by its
// content, upright, no larger than the pages need, and without what the camera
// wrote into it beside the picture (place, owner, serial number).
//
// What it cannot detect: whether the photo shows what its caption says.
package picture

import (
	"bytes"
	"errors"
	"fmt"
	"image"
	"image/jpeg"
	"image/png"
	"io"
	"sync"
	"time"

	"github.com/bep/imagemeta"
	"golang.org/x/image/draw"
)

const (
	longEdge  = 2048     // px of a kept photo
	smallEdge = 480      // px of a thumbnail
	quality   = 82       // JPEG
	maxJPEG   = 64 << 20 // pixels; decoded at 1.5 to 3 bytes each
	maxPNG    = 24 << 20 // pixels; decoded at 4 to 8 bytes each
	maxOfEdge = 20000    // px; beyond it the shape is no photo
	mediaJPEG = "image/jpeg"
)

// Why a photo is not taken. Each says what to do.
var (
	ErrHEIC  = errors.New("that photo is HEIC, which this box can't open. On the phone choose Most Compatible, or send a JPEG")
	ErrSort  = errors.New("that file is no JPEG or PNG photo. Send a JPEG")
	ErrLarge = errors.New("that photo has more points than this box takes. Send it at up to 64 megapixels as JPEG, or 24 as PNG")
	ErrBroke = errors.New("that photo did not arrive whole. Send it again")
)

// Kept is a photo ready to store.
type Kept struct {
	Data    []byte
	Type    string    // media type
	TakenAt time.Time // by the camera's clock; zero where it does not say
}

// one photo is decoded at a time, which bounds the memory.
var one sync.Mutex

// Keep makes a photo fit to keep: JPEG, upright, at most 2048 px long, no
// metadata. Errors: ErrHEIC, ErrSort, ErrLarge, ErrBroke.
func Keep(data []byte) (Kept, error) {
	decode, most, err := sort(data)
	if err != nil {
		return Kept{}, err
	}
	shape, _, err := image.DecodeConfig(bytes.NewReader(data))
	if err != nil {
		return Kept{}, ErrBroke
	}
	if shape.Width > maxOfEdge || shape.Height > maxOfEdge || shape.Width*shape.Height > most {
		return Kept{}, ErrLarge
	}
	one.Lock()
	defer one.Unlock()
	img, err := decode(bytes.NewReader(data))
	if err != nil {
		return Kept{}, ErrBroke
	}
	turn, at := camera(data)
	out, err := encode(upright(fit(img, longEdge), turn))
	return Kept{Data: out, Type: mediaJPEG, TakenAt: at}, err
}

// Small makes the thumbnail of a kept photo. Errors: ErrSort, ErrBroke.
func Small(data []byte) ([]byte, error) {
	decode, _, err := sort(data)
	if err != nil {
		return nil, err
	}
	one.Lock()
	defer one.Unlock()
	img, err := decode(bytes.NewReader(data))
	if err != nil {
		return nil, ErrBroke
	}
	return encode(fit(img, smallEdge))
}

// heic are the brands of a HEIF file that holds HEVC pictures, as phones write
// them. ISO/IEC 23008-12, annex B (from memory).
var heic = map[string]bool{"heic": true, "heix": true, "heim": true, "heis": true, "hevc": true, "hevx": true, "hevm": true, "hevs": true, "mif1": true, "msf1": true}

// sort recognises a file by its first bytes, whatever its name says.
func sort(data []byte) (decode func(r io.Reader) (image.Image, error), most int, err error) {
	switch {
	case bytes.HasPrefix(data, []byte("\xff\xd8\xff")):
		return jpeg.Decode, maxJPEG, nil
	case bytes.HasPrefix(data, []byte("\x89PNG\r\n\x1a\n")):
		return png.Decode, maxPNG, nil
	case len(data) > 12 && string(data[4:8]) == "ftyp" && heic[string(data[8:12])]:
		return nil, 0, ErrHEIC
	}
	return nil, 0, ErrSort
}

// camera reads how the camera was held and when; a photo that does not say is
// taken as upright.
func camera(data []byte) (turn int, at time.Time) {
	turn = 1
	var tags imagemeta.Tags
	_, err := imagemeta.Decode(imagemeta.Options{R: bytes.NewReader(data), ImageFormat: formatOf(data), Sources: imagemeta.EXIF,
		ShouldHandleTag: func(t imagemeta.TagInfo) bool {
			return t.Tag == "Orientation" || t.Tag == "DateTimeOriginal"
		},
		HandleTag: func(t imagemeta.TagInfo) error {
			if t.Tag == "Orientation" && t.Namespace == "IFD0" {
				if n, ok := t.Value.(uint16); ok && n >= 1 && n <= 8 {
					turn = int(n)
				}
				return nil
			}
			tags.Add(t)
			return nil
		}, Timeout: 2 * time.Second})
	if err != nil {
		return turn, time.Time{}
	}
	at, err = tags.GetDateTime()
	if err != nil {
		return turn, time.Time{}
	}
	return turn, at
}

func formatOf(data []byte) imagemeta.ImageFormat {
	if data[0] == 0x89 {
		return imagemeta.PNG
	}
	return imagemeta.JPEG
}

// fit scales a picture down to an edge; a smaller one stays.
func fit(img image.Image, edge int) image.Image {
	b := img.Bounds()
	w, h := b.Dx(), b.Dy()
	if max(w, h) <= edge {
		return img
	}
	if w >= h {
		w, h = edge, max(h*edge/w, 1)
	} else {
		w, h = max(w*edge/h, 1), edge
	}
	out := image.NewRGBA(image.Rect(0, 0, w, h))
	draw.BiLinear.Scale(out, out.Bounds(), img, b, draw.Src, nil)
	return out
}

// upright undoes the camera's turn. Orientation values: EXIF 2.3, table 6 in
// 4.6.4 (from memory).
func upright(img image.Image, turn int) image.Image {
	if turn == 1 {
		return img
	}
	b := img.Bounds()
	w, h := b.Dx(), b.Dy()
	ow, oh := w, h
	if turn >= 5 {
		ow, oh = h, w
	}
	out := image.NewRGBA(image.Rect(0, 0, ow, oh))
	for y := range h {
		for x := range w {
			ox, oy := place(turn, x, y, w, h)
			out.Set(ox, oy, img.At(b.Min.X+x, b.Min.Y+y))
		}
	}
	return out
}

// place is where a stored point comes to lie in the upright picture.
func place(turn, x, y, w, h int) (int, int) {
	switch turn {
	case 2:
		return w - 1 - x, y
	case 3:
		return w - 1 - x, h - 1 - y
	case 4:
		return x, h - 1 - y
	case 5:
		return y, x
	case 6:
		return h - 1 - y, x
	case 7:
		return h - 1 - y, w - 1 - x
	case 8:
		return y, w - 1 - x
	}
	return x, y
}

func encode(img image.Image) ([]byte, error) {
	var out bytes.Buffer
	if err := jpeg.Encode(&out, img, &jpeg.Options{Quality: quality}); err != nil {
		return nil, fmt.Errorf("photo: %w", err)
	}
	return out.Bytes(), nil
}
