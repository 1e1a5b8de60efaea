package picture

import (
	"bytes"
	"encoding/binary"
	"errors"
	"hash/crc32"
	"image"
	"image/color"
	"image/jpeg"
	"image/png"
	"testing"
)

// quarters is a picture whose four corners differ, so that a turn shows.
func quarters(w, h int) image.Image {
	img := image.NewRGBA(image.Rect(0, 0, w, h))
	for y := range h {
		for x := range w {
			c := color.RGBA{A: 255}
			switch {
			case x < w/2 && y < h/2:
				c.R = 255
			case x >= w/2 && y < h/2:
				c.G = 255
			case x < w/2:
				c.B = 255
			default:
				c.R, c.G, c.B = 255, 255, 255
			}
			img.Set(x, y, c)
		}
	}
	return img
}

// withExif puts an Exif segment with a turn, a time and a place into a JPEG.
// Layout: Exif 2.3, 4.5.2 and 4.6; tags 0x0112, 0x8769 with 0x9003, 0x8825
// (from memory).
func withExif(t *testing.T, img image.Image, turn uint16) []byte {
	t.Helper()
	var plain bytes.Buffer
	if err := jpeg.Encode(&plain, img, &jpeg.Options{Quality: 95}); err != nil {
		t.Fatal(err)
	}
	le := binary.LittleEndian
	tiff := []byte("II*\x00\x08\x00\x00\x00")
	entry := func(tag, kind uint16, count, value uint32) {
		tiff = le.AppendUint16(tiff, tag)
		tiff = le.AppendUint16(tiff, kind)
		tiff = le.AppendUint32(tiff, count)
		tiff = le.AppendUint32(tiff, value)
	}
	tiff = le.AppendUint16(tiff, 3)
	taken := uint32(8 + 2 + 3*12 + 4)
	gps := taken + 2 + 12 + 4 + 20
	entry(0x0112, 3, 1, uint32(turn))
	entry(0x8769, 4, 1, taken)
	entry(0x8825, 4, 1, gps)
	tiff = le.AppendUint32(tiff, 0)
	tiff = le.AppendUint16(tiff, 1)
	entry(0x9003, 2, 20, taken+2+12+4)
	tiff = le.AppendUint32(tiff, 0)
	tiff = append(tiff, "2026:05:12 09:30:00\x00"...)
	tiff = le.AppendUint16(tiff, 1)
	entry(0x0001, 2, 2, uint32('N'))
	tiff = le.AppendUint32(tiff, 0)
	body := append([]byte("Exif\x00\x00"), tiff...)
	out := []byte{0xff, 0xd8, 0xff, 0xe1}
	out = binary.BigEndian.AppendUint16(out, uint16(len(body)+2))
	out = append(out, body...)
	return append(out, plain.Bytes()[2:]...)
}

// corner names the colour near a corner.
func corner(img image.Image, right, low bool) string {
	b := img.Bounds()
	x, y := b.Min.X+b.Dx()/8, b.Min.Y+b.Dy()/8
	if right {
		x = b.Max.X - b.Dx()/8
	}
	if low {
		y = b.Max.Y - b.Dy()/8
	}
	r, g, bl, _ := img.At(x, y).RGBA()
	switch {
	case r > 0xc000 && g > 0xc000 && bl > 0xc000:
		return "white"
	case r > 0xa000:
		return "red"
	case g > 0xa000:
		return "green"
	case bl > 0xa000:
		return "blue"
	}
	return "?"
}

// TestUpright: each of the eight turns ends with red at the top left, green at
// the top right and blue at the bottom left, and nothing of the camera's words
// is left.
func TestUpright(t *testing.T) {
	want := quarters(64, 48)
	for turn := 1; turn <= 8; turn++ {
		stored := image.NewRGBA(image.Rect(0, 0, 64, 48))
		if turn >= 5 {
			stored = image.NewRGBA(image.Rect(0, 0, 48, 64))
		}
		sw, sh := stored.Bounds().Dx(), stored.Bounds().Dy()
		for y := range sh {
			for x := range sw { // the camera stores what place() undoes
				ux, uy := place(turn, x, y, sw, sh)
				stored.Set(x, y, want.At(ux, uy))
			}
		}
		kept, err := Keep(withExif(t, stored, uint16(turn)))
		if err != nil {
			t.Fatalf("turn %d: %v", turn, err)
		}
		img, err := jpeg.Decode(bytes.NewReader(kept.Data))
		if err != nil {
			t.Fatal(err)
		}
		got := [4]string{corner(img, false, false), corner(img, true, false), corner(img, false, true), corner(img, true, true)}
		if got != [4]string{"red", "green", "blue", "white"} || img.Bounds().Dx() != 64 || img.Bounds().Dy() != 48 {
			t.Errorf("turn %d: corners %v in %v", turn, got, img.Bounds())
		}
		if bytes.Contains(kept.Data, []byte("Exif")) {
			t.Errorf("turn %d: the camera's words are still there", turn)
		}
		if kept.TakenAt.Format("2006-01-02 15:04") != "2026-05-12 09:30" {
			t.Errorf("turn %d: taken at %v", turn, kept.TakenAt)
		}
	}
}

// TestTurnSix checks the turn that phones write most against its meaning,
// written out by hand: value 6 says that the stored row 0 is the right side,
// so the stored top left comes to lie at the top right.
func TestTurnSix(t *testing.T) {
	if x, y := place(6, 0, 0, 4, 3); x != 2 || y != 0 {
		t.Errorf("stored top left goes to %d,%d, want 2,0", x, y)
	}
	if x, y := place(8, 0, 0, 4, 3); x != 0 || y != 3 {
		t.Errorf("value 8: stored top left goes to %d,%d, want 0,3", x, y)
	}
	if x, y := place(3, 0, 0, 4, 3); x != 3 || y != 2 {
		t.Errorf("value 3: stored top left goes to %d,%d, want 3,2", x, y)
	}
}

// TestSizes: a large photo is brought to 2048 px, a thumbnail to 480.
func TestSizes(t *testing.T) {
	var data bytes.Buffer
	if err := png.Encode(&data, quarters(3000, 1500)); err != nil {
		t.Fatal(err)
	}
	kept, err := Keep(data.Bytes())
	if err != nil {
		t.Fatal(err)
	}
	small, err := Small(kept.Data)
	if err != nil {
		t.Fatal(err)
	}
	for _, row := range []struct {
		data []byte
		w, h int
	}{{kept.Data, 2048, 1024}, {small, 480, 240}} {
		c, err := jpeg.DecodeConfig(bytes.NewReader(row.data))
		if err != nil || c.Width != row.w || c.Height != row.h {
			t.Errorf("got %dx%d (%v), want %dx%d", c.Width, c.Height, err, row.w, row.h)
		}
	}
}

// bomb is a PNG head that claims a size; nothing stands behind it.
func bomb(w, h uint32) []byte {
	head := binary.BigEndian.AppendUint32([]byte("IHDR"), w)
	head = append(binary.BigEndian.AppendUint32(head, h), 8, 6, 0, 0, 0)
	out := binary.BigEndian.AppendUint32([]byte("\x89PNG\r\n\x1a\n"), 13)
	out = append(out, head...)
	return binary.BigEndian.AppendUint32(out, crc32.ChecksumIEEE(head))
}

// TestRefused: each by its own name.
func TestRefused(t *testing.T) {
	for name, row := range map[string]struct {
		data []byte
		want error
	}{
		"heic":        {append([]byte{0, 0, 0, 24}, "ftypheic........"...), ErrHEIC},
		"burst":       {append([]byte{0, 0, 0, 24}, "ftypmsf1........"...), ErrHEIC},
		"film":        {append([]byte{0, 0, 0, 24}, "ftypisom........"...), ErrSort},
		"text":        {[]byte("hello"), ErrSort},
		"empty":       {nil, ErrSort},
		"bomb":        {bomb(40000, 40000), ErrLarge},
		"long bomb":   {bomb(1<<30, 1), ErrLarge},
		"wide bomb":   {bomb(19000, 19000), ErrLarge},
		"head only":   {bomb(100, 100), ErrBroke},
		"three bytes": {[]byte("\xff\xd8\xff"), ErrBroke},
	} {
		if _, err := Keep(row.data); !errors.Is(err, row.want) {
			t.Errorf("%s: got %v, want %v", name, err, row.want)
		}
	}
}

// FuzzKeep: no upload makes it panic or keep something that is no JPEG.
func FuzzKeep(f *testing.F) {
	f.Add(bomb(10, 10))
	f.Add([]byte("\xff\xd8\xff\xe1\x00\x10Exif\x00\x00II*\x00\x08\x00\x00\x00"))
	f.Fuzz(func(t *testing.T, data []byte) {
		kept, err := Keep(data)
		if err == nil {
			if _, err := jpeg.DecodeConfig(bytes.NewReader(kept.Data)); err != nil {
				t.Errorf("kept what is no JPEG: %v", err)
			}
		}
	})
}
