package acceptance_test

import (
	"bytes"
	"errors"
	"image"
	"image/png"
	"io/fs"
	"os"
	"path/filepath"
	"sync"
	"testing"

	"matchmark/internal/trial"
	"matchmark/tools/pictures/tour"
)

// most is the share of dots of a picture that may change.
const most = 0.001

// TestCheck27: Screenshot diff <= 0.1 % for the page set: every page, both
// grounds, three sizes, against the sheets of docs/pictures, which are the
// baseline and the project's pictures in one. Sheets are painted in sixteen inks,
// to stay small; so is what is seen now. A dot counts where it then differs by
// more than a fifth of the scale, which leaves out the soft edges of letters.
// Where a page is meant to change: go run ./tools/pictures, and look at it.
func TestCheck27(t *testing.T) {
	holds(t, 27)
	t.Parallel()
	trial.NewTab(t, 390, 844) // skips here where there is no browser
	server, err := tour.Serve(t.Context())
	if err != nil {
		t.Fatal(err)
	}
	defer server.Close()
	work := make(chan string)
	var crew sync.WaitGroup
	for range 3 {
		tab := trial.NewTab(t, 390, 844)
		crew.Go(func() {
			for path := range work {
				sheet, err := tour.TakeSheet(tab.Ctx, server.URL, path)
				if err != nil {
					t.Errorf("%s: %v", path, err)
					continue
				}
				compare(t, sheet)
			}
		})
	}
	for _, path := range tour.Pages() {
		work <- path
	}
	close(work)
	crew.Wait()
}

// compare holds a sheet to the one that is kept.
func compare(t *testing.T, sheet tour.Sheet) {
	name := filepath.Join("..", "docs", "pictures", tour.PageName(sheet.Path)+".png")
	data, err := os.ReadFile(name)
	if errors.Is(err, fs.ErrNotExist) {
		t.Errorf("%s has no picture; go run ./tools/pictures", sheet.Path)
		return
	}
	if err != nil {
		t.Error(err)
		return
	}
	kept, err := png.Decode(bytes.NewReader(data))
	if err != nil {
		t.Errorf("%s: %v", name, err)
		return
	}
	flat, isFlat := kept.(*image.Paletted)
	places, size := tour.Places()
	if !isFlat || flat.Bounds().Size() != size {
		t.Errorf("%s is no sheet of this size; go run ./tools/pictures", name)
		return
	}
	now := sheet.Lay()
	for i, r := range places {
		if got := tour.Unlike(flat.SubImage(r), now.SubImage(r), 51); got > most {
			t.Errorf("%v: %.2f %% of the dots changed, want at most %.1f %%", sheet.Views[i], 100*got, 100*most)
		}
	}
}

// TestUnlikeBites: one dot in a hundred is found, a shade is not.
func TestUnlikeBites(t *testing.T) {
	a, b := image.NewGray(image.Rect(0, 0, 10, 10)), image.NewGray(image.Rect(0, 0, 10, 10))
	b.Pix[7], b.Pix[8] = 255, 30
	if got := tour.Unlike(a, b, 51); got != 0.01 {
		t.Errorf("one dot of a hundred differs, found %g", got)
	}
	if got := tour.Unlike(a, image.NewGray(image.Rect(0, 0, 9, 10)), 51); got != 1 {
		t.Errorf("pictures of other sizes differ by %g, want 1", got)
	}
}
