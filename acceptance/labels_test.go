package acceptance_test

import (
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"testing"

	"matchmark/internal/trial"
)

// TestCheck25Labels: 62 mm PDF page width 62 ± 0.5 mm; QR decodes from the
// raster at 200 dpi. The PDF is what the served program gives for two trays of
// the demo; pdfinfo, pdftoppm and pdffonts (poppler) and zbarimg read it.
func TestCheck25Labels(t *testing.T) {
	holds(t, 25)
	for _, tool := range []string{"pdfinfo", "pdftoppm", "pdffonts", "zbarimg"} {
		if _, err := exec.LookPath(tool); err != nil {
			t.Skipf("SKIPPED: no %s on this machine; ./test installs poppler-utils and zbar-tools where it can", tool)
		}
	}
	s := trial.Serve(t, t.TempDir())
	for _, size := range []string{"roll29", "roll40", "roll60"} {
		data := get(t, s.URL, "/m/codlin/labels.pdf?what=chosen&tray=14&tray=2&size="+size)
		dir := t.TempDir()
		pdf := filepath.Join(dir, "labels.pdf")
		if err := os.WriteFile(pdf, []byte(data.body), 0o600); err != nil {
			t.Fatal(err)
		}
		wide, pages := 0.0, 0
		for _, line := range strings.Split(output(t, "pdfinfo", "-f", "1", "-l", "9", pdf), "\n") {
			if f := strings.Fields(line); len(f) > 3 && f[0] == "Page" && f[2] == "size:" {
				wide, pages = number(t, f[3])*25.4/72, pages+1
				if wide < 61.5 || wide > 62.5 {
					t.Errorf("%s: a page is %.2f mm wide", size, wide)
				}
			}
		}
		if pages != 2 {
			t.Errorf("%s: %d pages for two labels", size, pages)
		}
		output(t, "pdftoppm", "-r", "200", "-gray", "-png", pdf, filepath.Join(dir, "page"))
		pictures, err := filepath.Glob(filepath.Join(dir, "page*.png"))
		if err != nil {
			t.Fatal(err)
		}
		out, err := exec.Command("zbarimg", append([]string{"-q", "--raw"}, pictures...)...).Output()
		if err != nil {
			t.Fatalf("%s: zbarimg: %v", size, err)
		}
		got := strings.Fields(string(out))
		slices.Sort(got)
		front := strings.TrimSuffix(s.URL, "/") + "/t/codlin/"
		if want := []string{front + "14", front + "2"}; !slices.Equal(got, want) {
			t.Errorf("%s: the codes say %q, want %q", size, got, want)
		}
		for _, line := range strings.Split(strings.TrimSpace(output(t, "pdffonts", pdf)), "\n")[2:] {
			if cells := strings.Fields(line); len(cells) < 6 || cells[len(cells)-5] != "yes" {
				t.Errorf("%s: a font is not embedded: %s", size, line)
			}
		}
	}
	// a code leads to its tray
	if a := get(t, s.URL, "/t/codlin/14"); a.StatusCode != 303 || a.Header.Get("Location") != "/m/codlin/tray/14" {
		t.Errorf("the code of tray 14 leads to %s, %q", a.Status, a.Header.Get("Location"))
	}
}

func number(t *testing.T, text string) float64 {
	t.Helper()
	v, err := strconv.ParseFloat(text, 64)
	if err != nil {
		t.Fatal(err)
	}
	return v
}
