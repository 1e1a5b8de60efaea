package door

import (
	"image"
	"image/color"
	"strings"
	"testing"

	"matchmark/internal/trial"
)

// TestPictureIsRead: a reader of codes that is not ours reads the address back.
func TestPictureIsRead(t *testing.T) {
	for _, address := range []string{"http://192.168.1.5:7462/pair#" + word(16), "https://10.0.0.12:7462/lock", "http://[fd00::2]:7462/pair#" + word(16)} {
		s, err := Picture(address)
		if err != nil {
			t.Fatal(err)
		}
		const scale = 6
		img := image.NewGray(image.Rect(0, 0, len(s)*scale, len(s)*scale))
		for y := range img.Rect.Dy() {
			for x := range img.Rect.Dx() {
				img.SetGray(x, y, color.Gray{Y: 255})
				if s.Dark(x/scale, y/scale) {
					img.SetGray(x, y, color.Gray{})
				}
			}
		}
		if got := trial.ReadCode(t, img); got != address {
			t.Errorf("read %q, want %q", got, address)
		}
	}
}

func TestPictureRefusesTooMuch(t *testing.T) {
	if _, err := Picture(strings.Repeat("x", 4000)); err == nil {
		t.Error("4000 characters fit no code, yet no error came")
	}
}
