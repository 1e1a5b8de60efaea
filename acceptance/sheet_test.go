package acceptance_test

import (
	"bytes"
	"encoding/json"
	"image"
	"image/jpeg"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/chromedp/chromedp"

	"matchmark/internal/machine"
	"matchmark/internal/trial"
)

// TestRemovalInThreeTaps: a photo, another joint than the one understood, Keep:
// that is a removal with its bolts, shims, tray and photo in the book. The line
// is understood while it is typed.
func TestRemovalInThreeTaps(t *testing.T) {
	s := trial.Serve(t, t.TempDir())
	tab := trial.NewTab(t, 390, 844)
	tab.Open(s.URL + "m/codlin/photo")
	file := filepath.Join(t.TempDir(), "cover.jpg")
	var photo bytes.Buffer
	if err := jpeg.Encode(&photo, image.NewGray(image.Rect(0, 0, 1200, 900)), nil); err != nil {
		t.Fatal(err)
	}
	if err := os.WriteFile(file, photo.Bytes(), 0o600); err != nil {
		t.Fatal(err)
	}
	tab.Do(chromedp.SetUploadFiles(chromedp.CSS("#photo"), []string{file})) // tap 1
	tab.Until("the small photo", `document.querySelector("img.chosen")?.naturalWidth`)
	tab.Do(chromedp.Focus(chromedp.CSS("#line")))
	trial.Ask[bool](tab, `(window.seen = [], document.getElementById("line").addEventListener("input", () => { window.last = performance.now(); }),
		new MutationObserver(() => window.seen.push(performance.now() - window.last)).observe(document.getElementById("heard"), {childList: true}), true)`)
	tab.Keys("brake cover off, 4 M8x25, 2 shims 0.3 left, tray 14")
	tab.Until("the line as understood", `document.querySelector("#heard .gist")?.innerText.includes("tray 14")`)
	t.Logf("understood %.0f ms after the last key", trial.Ask[float64](tab, "window.seen.at(-1)"))
	shown := trial.Ask[string](tab, `document.querySelector("#heard .heard").innerText`)
	for _, want := range []string{"Brake cover, on the left", "4 bolts M8x25", "2 shims 0.30 mm left", "tray 14"} {
		if !strings.Contains(shown, want) {
			t.Errorf("the sheet lacks %q: %q", want, shown)
		}
	}
	tab.Click("#heard .picks button[value=brake-cover-fit\\.right]") // tap 2
	tab.Until("the joint that was chosen", `document.querySelector("#heard [name=joint]")?.value === "brake-cover-fit.right" && !document.querySelector(".keepbar button").disabled`)
	tab.Click(".keepbar button") // tap 3
	tab.Until("the joint's page", `location.pathname.endsWith("/joint/brake-cover-fit.right")`)
	last := s.Run(t, "log", "show", "--book", s.Book(), "--last", "1", "--json")
	var e struct {
		Kind string
		Body machine.JointOpened
	}
	if err := json.Unmarshal([]byte(last), &e); err != nil || e.Kind != "joint-opened" {
		t.Fatalf("%s: %v", last, err)
	}
	if body := e.Body; body.Joint != "brake-cover-fit.right" || body.Tray != "14" || len(body.Fasteners) != 1 || body.Fasteners[0].Count != 4 || len(body.Shims) != 1 || len(body.Photos) != 1 {
		t.Errorf("in the book stands %s", last)
	}
	tab.Quiet()
}
