package acceptance_test

import (
	"bytes"
	"encoding/binary"
	"encoding/json"
	"image"
	"image/jpeg"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/chromedp/chromedp"

	"matchmark/internal/trial"
)

// turnedPhoto is a JPEG of 12 megapixels that lies on its side and says so,
// with a camera and a place in it. Layout: Exif 2.3, 4.5 and 4.6, tags 0x010F,
// 0x0112 and 0x8825.
func turnedPhoto(t *testing.T) []byte {
	t.Helper()
	img := image.NewYCbCr(image.Rect(0, 0, 4000, 3000), image.YCbCrSubsampleRatio420)
	for y := range 3000 {
		for x := range 4000 {
			img.Y[img.YOffset(x, y)] = uint8(x*y/977 + x/7)
		}
	}
	for i := range img.Cb {
		img.Cb[i], img.Cr[i] = 128, 128
	}
	var out bytes.Buffer
	if err := jpeg.Encode(&out, img, &jpeg.Options{Quality: 85}); err != nil {
		t.Fatal(err)
	}
	le := binary.LittleEndian
	entry := func(b []byte, tag, sort uint16, count, value uint32) []byte {
		b = le.AppendUint16(le.AppendUint16(b, tag), sort)
		return le.AppendUint32(le.AppendUint32(b, count), value)
	}
	maker := "Trial camera\x00"
	tiff := le.AppendUint16([]byte("II*\x00\x08\x00\x00\x00"), 3)
	tiff = entry(tiff, 0x010F, 2, uint32(len(maker)), 50)
	tiff = entry(tiff, 0x0112, 3, 1, 6)
	tiff = entry(tiff, 0x8825, 4, 1, uint32(50+len(maker)))
	tiff = append(le.AppendUint32(tiff, 0), maker...)
	tiff = entry(le.AppendUint16(tiff, 1), 0x0001, 2, 2, 'N')
	tiff = append(le.AppendUint32(tiff, 0), "GPS 52 03 N"...)
	body := append([]byte("Exif\x00\x00"), tiff...)
	app := append([]byte{0xff, 0xe1}, byte((len(body)+2)>>8), byte(len(body)+2))
	data := out.Bytes()
	return append(append(append([]byte{}, data[:2]...), append(app, body...)...), data[2:]...)
}

// TestCheck23ThePhotoIsMadeSmallHere: a photo with a turn and a place in it is
// upright, small and without the place before it leaves the device.
func TestCheck23ThePhotoIsMadeSmallHere(t *testing.T) {
	holds(t, 23)
	s := trial.Serve(t, t.TempDir())
	tab := trial.NewTab(t, 390, 844)
	tab.Open(s.URL + "m/codlin/photo")
	file := filepath.Join(t.TempDir(), "turned.jpg")
	if err := os.WriteFile(file, turnedPhoto(t), 0o600); err != nil {
		t.Fatal(err)
	}
	tab.Do(chromedp.SetUploadFiles(chromedp.CSS("#photo"), []string{file}))
	tab.Until("the small photo", `document.querySelector("img.chosen")?.naturalWidth`)
	got := trial.Ask[struct {
		W, H, Size float64
		Head, Type string
		Taken      string
	}](tab, `(async () => {
		const field = document.getElementById("photo"), f = field.files[0], img = document.querySelector("img.chosen");
		return {w: img.naturalWidth, h: img.naturalHeight, size: f.size, type: f.type, head: await f.text(), taken: field.form.taken.value};
	})()`)
	if got.W != 1536 || got.H != 2048 || got.Type != "image/jpeg" {
		t.Errorf("%v × %v, %s; want upright, 1536 × 2048, a JPEG", got.W, got.H, got.Type)
	}
	for _, mark := range []string{"Exif", "GPS", "Trial camera"} {
		if strings.Contains(got.Head, mark) {
			t.Errorf("%q went along in the photo", mark)
		}
	}
	t.Logf("12 megapixels became %.0f KB", got.Size/1024)
	tab.Click("main button.main")
	tab.Until("the photo in the book", `location.pathname === "/m/codlin" && !document.getElementById("kept").innerText.includes("to send")`)
	e := lastEntries(t, s, 1)[0]
	var body struct{ TakenAt string }
	if err := json.Unmarshal(e.Body, &body); err != nil || body.TakenAt != got.Taken {
		t.Errorf("%s, taken at %q, want %q (%v)", e.Kind, body.TakenAt, got.Taken, err)
	}
	tab.Quiet()
}
