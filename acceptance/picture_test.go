package acceptance_test

import (
	"bytes"
	"image"
	"image/png"
	"os"
	"path/filepath"
	"sync"
	"testing"

	"matchmark/internal/trial"
	"matchmark/tools/pictures/tour"
)

// most is the share of dots of a picture that may change.
const most = 0.001

// keptSheets asks that what is seen is also held to the sheets in docs/pictures.
const keptSheets = "MATCHMARK_SHEETS"

// TestCheck27: Screenshot diff <= 0.1 % for the page set. Two browsers that know
// nothing of one another paint the pages, both grounds, three sizes, and must
// paint the same. The sheets of docs/pictures are one browser's painting of one
// day: lettering and lines differ from one build of a browser to the next, so
// they are the baseline only where MATCHMARK_SHEETS is set, for the one who
// changes a page: go run ./tools/pictures, change, and see what else changed.
// Sheets are painted in sixteen inks, to stay small; so is what is seen now. A
// dot counts where it differs by more than a fifth of the scale, which leaves
// out the soft edges of letters.
func TestCheck27(t *testing.T) {
	holds(t, 27)
	trial.NewTab(t, 390, 844) // skips here where there is no browser
	url, stop, err := tour.Serve(t.Context())
	if err != nil {
		t.Fatal(err)
	}
	defer stop()
	kept := os.Getenv(keptSheets) != ""
	work := make(chan string)
	var crew sync.WaitGroup
	for range 2 {
		tab, other := trial.NewTab(t, 390, 844), trial.OwnBrowser(t, nil).Tab(t, 390, 844)
		crew.Go(func() {
			for path := range work {
				sheet := taken(t, tab, url, path)
				if kept {
					compare(t, sheet, keptSheet(t, path))
				} else {
					compare(t, sheet, taken(t, other, url, path).Lay())
				}
			}
		})
	}
	for i, path := range tour.Pages() {
		if kept || i%3 == 0 { // every third page is enough to find what is not steady
			work <- path
		}
	}
	close(work)
	crew.Wait()
}

func taken(t *testing.T, tab *trial.Tab, url, path string) tour.Sheet {
	sheet, err := tour.TakeSheet(tab.Ctx, url, path)
	if err != nil {
		t.Errorf("%s: %v", path, err)
	}
	return sheet
}

// keptSheet is the sheet of docs/pictures, nil where there is none.
func keptSheet(t *testing.T, path string) *image.Paletted {
	name := filepath.Join("..", "docs", "pictures", tour.PageName(path)+".png")
	data, err := os.ReadFile(name)
	if err != nil {
		t.Errorf("%s has no picture; go run ./tools/pictures: %v", path, err)
		return nil
	}
	img, err := png.Decode(bytes.NewReader(data))
	if err != nil {
		t.Errorf("%s: %v", name, err)
	}
	flat, _ := img.(*image.Paletted)
	return flat
}

// compare holds a sheet to another painting of it.
func compare(t *testing.T, sheet tour.Sheet, to *image.Paletted) {
	places, size := tour.Places()
	if to == nil || to.Bounds().Size() != size || len(sheet.Seen) != len(places) {
		t.Errorf("%s: no whole sheet to compare", sheet.Path)
		return
	}
	now := sheet.Lay()
	for i, r := range places {
		if got := tour.Unlike(to.SubImage(r), now.SubImage(r), 51); got > most {
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

// TestSheetOnASlowLine: letters that come too late for the first painting do not
// make a picture differ.
func TestSheetOnASlowLine(t *testing.T) {
	tab, slow := trial.NewTab(t, 390, 844), trial.NewTab(t, 390, 844)
	url, stop, err := tour.Serve(t.Context())
	if err != nil {
		t.Fatal(err)
	}
	defer stop()
	slow.SlowLine(400, 0.3)
	compare(t, taken(t, slow, url, "/outbox"), taken(t, tab, url, "/outbox").Lay())
}
