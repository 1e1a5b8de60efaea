package picture

import (
	"bytes"
	"encoding/binary"
	"image"
	"image/jpeg"
	"testing"
	"time"
)

// wide and high are the sides of a photo of 12 megapixels as its sensor stores
// it.
const wide, high = 4000, 3000

// sensorPhoto is a photo of 12 megapixels held on its side: four quarters that
// differ in brightness and colour, finely ruled so that the file is of a usual
// size.
func sensorPhoto() *image.YCbCr {
	img := image.NewYCbCr(image.Rect(0, 0, wide, high), image.YCbCrSubsampleRatio420)
	for y := range high {
		for x := range wide {
			light := uint8(40)
			if x < wide/2 {
				light = 160
			}
			img.Y[img.YOffset(x, y)] = light + uint8(x*7+y*3)%16
			img.Cb[img.COffset(x, y)], img.Cr[img.COffset(x, y)] = 128, 128
			if y < high/2 {
				img.Cr[img.COffset(x, y)] = 220
			}
		}
	}
	return img
}

// cameraSaid is an Exif segment as a phone writes it: maker, turn 6, the time,
// and a place in degrees, minutes and seconds. Layout: Exif 2.3, 4.5.2, 4.6.4
// to 4.6.6; tags 0x010F, 0x0112, 0x8769 with 0x9003, 0x8825 with 1 to 4 (from
// memory).
func cameraSaid() []byte {
	const first = 8
	taken := uint32(first + 2 + 4*12 + 4)
	place := taken + 2 + 12 + 4
	data := place + 2 + 4*12 + 4
	le, maker, at := binary.LittleEndian, "Invented Optics\x00", "2026:05:12 09:30:00\x00"
	b := []byte("II*\x00\x08\x00\x00\x00")
	entry := func(tag, kind uint16, count, value uint32) {
		b = le.AppendUint32(le.AppendUint32(le.AppendUint16(le.AppendUint16(b, tag), kind), count), value)
	}
	end := func() { b = le.AppendUint32(b, 0) }
	b = le.AppendUint16(b, 4)
	entry(0x010F, 2, uint32(len(maker)), data)
	entry(0x0112, 3, 1, 6)
	entry(0x8769, 4, 1, taken)
	entry(0x8825, 4, 1, place)
	end()
	b = le.AppendUint16(b, 1)
	entry(0x9003, 2, uint32(len(at)), data+uint32(len(maker)))
	end()
	rationals := data + uint32(len(maker)+len(at))
	b = le.AppendUint16(b, 4)
	entry(0x0001, 2, 2, uint32('N'))
	entry(0x0002, 5, 3, rationals)
	entry(0x0003, 2, 2, uint32('E'))
	entry(0x0004, 5, 3, rationals+24)
	end()
	b = append(append(b, maker...), at...)
	for _, r := range []uint32{52, 1, 31, 1, 4711, 100, 13, 1, 24, 1, 1742, 100} {
		b = le.AppendUint32(b, r)
	}
	return append([]byte("Exif\x00\x00"), b...)
}

// TestTwelveMegapixels is check 23 as the box does it: a photo of 12 megapixels
// with a turn and a place is stored upright, at most 2048 px long, with nothing
// of what the camera said; the thumbnail is 480 px.
func TestTwelveMegapixels(t *testing.T) {
	var plain bytes.Buffer
	if err := jpeg.Encode(&plain, sensorPhoto(), &jpeg.Options{Quality: 90}); err != nil {
		t.Fatal(err)
	}
	said := cameraSaid()
	data := append([]byte("\xff\xd8\xff\xe1"), binary.BigEndian.AppendUint16(nil, uint16(len(said)+2))...)
	data = append(append(data, said...), plain.Bytes()[2:]...)
	start := time.Now()
	kept, err := Keep(data)
	if err != nil {
		t.Fatal(err)
	}
	t.Logf("%d KB became %d KB in %v", len(data)>>10, len(kept.Data)>>10, time.Since(start))
	img, err := jpeg.Decode(bytes.NewReader(kept.Data))
	if err != nil {
		t.Fatal(err)
	}
	if got := img.Bounds().Size(); got != (image.Point{1536, 2048}) {
		t.Errorf("stored %v, want 1536 × 2048", got)
	}
	// Turn 6: the stored left side is the top, the stored top the right side
	// (Exif 2.3, 4.6.4). The stored left is light, the stored top reddish.
	light := func(x, y int) (bool, bool) {
		r, _, b, _ := img.At(x, y).RGBA()
		r, b = r>>8, b>>8
		return b > 120, r > b+60
	}
	for _, row := range []struct {
		x, y        int
		bright, red bool
	}{{300, 300, true, false}, {1200, 300, true, true}, {300, 1700, false, false}, {1200, 1700, false, true}} {
		if bright, red := light(row.x, row.y); bright != row.bright || red != row.red {
			t.Errorf("at %d,%d: bright %v, red %v; want %v, %v", row.x, row.y, bright, red, row.bright, row.red)
		}
	}
	if want := time.Date(2026, 5, 12, 9, 30, 0, 0, time.UTC); kept.TakenAt.Format(time.DateTime) != want.Format(time.DateTime) {
		t.Errorf("taken at %v, want %v", kept.TakenAt, want)
	}
	place := binary.LittleEndian.AppendUint32(binary.LittleEndian.AppendUint32(nil, 52), 1)
	for _, mark := range [][]byte{[]byte("Exif"), []byte("Invented Optics"), place, {0xff, 0xe1}} {
		if !bytes.Contains(data, mark) {
			t.Fatalf("the photo that was sent lacks %q", mark)
		}
		if bytes.Contains(kept.Data, mark) {
			t.Errorf("%q is in what was stored", mark)
		}
	}
	small, err := Small(kept.Data)
	if err != nil {
		t.Fatal(err)
	}
	if c, err := jpeg.DecodeConfig(bytes.NewReader(small)); err != nil || c.Width != 360 || c.Height != 480 {
		t.Errorf("thumbnail %d × %d: %v", c.Width, c.Height, err)
	}
}
