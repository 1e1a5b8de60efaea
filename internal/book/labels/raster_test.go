package labels

import (
	"bytes"
	"fmt"
	"image"
	"image/draw"
	"image/png"
	"math"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"strings"
	"testing"
)

// tool skips a test loudly where a reference program is missing; ./test
// installs it where it can.
func tool(t *testing.T, name, from string) {
	t.Helper()
	if _, err := exec.LookPath(name); err != nil {
		t.Skipf("SKIPPED: no %s here; install %s", name, from)
	}
}

// rastered prints a PDF at a resolution with an outside program (Debian
// poppler-utils) and gives the pages' files.
func rastered(t *testing.T, data []byte, dpi int) []string {
	t.Helper()
	tool(t, "pdftoppm", "poppler-utils")
	dir := t.TempDir()
	file := filepath.Join(dir, "labels.pdf")
	if err := os.WriteFile(file, data, 0o600); err != nil {
		t.Fatal(err)
	}
	if out, err := exec.Command("pdftoppm", "-r", fmt.Sprint(dpi), "-gray", "-png", file, filepath.Join(dir, "page")).CombinedOutput(); err != nil {
		t.Fatalf("pdftoppm: %v: %s", err, out)
	}
	pages, err := filepath.Glob(filepath.Join(dir, "page*.png"))
	if err != nil || len(pages) == 0 {
		t.Fatalf("no pages: %v", err)
	}
	return pages
}

// TestCodesDecode: an outside reader (Debian zbar-tools) reads every code from
// the paper rastered at 200 dpi, of every size, labels and tags alike.
func TestCodesDecode(t *testing.T) {
	tool(t, "zbarimg", "zbar-tools")
	for _, size := range Sizes() {
		labels := append(marked(6), tagged()...)
		labels[1].Mark, labels[1].Link = "crank stand", Link("https://bench.home.arpa", "m", "crank stand")
		var want []string
		for _, l := range labels {
			want = append(want, l.Link)
		}
		args := append([]string{"-q", "--raw"}, rastered(t, pdf(t, lay(t, setup(size.ID), labels...)), 200)...)
		out, err := exec.Command("zbarimg", args...).Output()
		if err != nil {
			t.Fatalf("%s: zbarimg: %v", size.ID, err)
		}
		got := strings.Fields(string(out))
		slices.Sort(got)
		slices.Sort(want)
		if !slices.Equal(got, want) {
			t.Errorf("%s: read %q, want %q", size.ID, got, want)
		}
	}
}

// TestCodeIsLarge: a code is 18 mm or more, of error correction Q, with modules
// of 0.38 mm or more. The level is read from the format bits as ISO/IEC 18004
// table 12 and its mask give them: Q is 11, masked 01.
func TestCodeIsLarge(t *testing.T) {
	for _, link := range []string{home + "/t/m/14", Link(home, "wendle-codlin-18", "C4K"), home + "/t/" + strings.Repeat("x", 60)} {
		var p pen
		p.code(link, 40, 0, CodeLeast, 30)
		if len(p.items) != 1 {
			t.Fatalf("%s: %d items, %v", link, len(p.items), p.notes)
		}
		low, high := p.items.Bounds()
		side := high.X - low.X
		dark := func(x, y float64) bool {
			path := p.items[0].placed()
			for i := 0; i+4 < len(path); i += 5 {
				a, b := path[i].P[0], path[i+2].P[0]
				if x > a.X && x < b.X && y > a.Y && y < b.Y {
					return true
				}
			}
			return false
		}
		n := 0.0 // modules: the finder is 7 of them wide
		for x := low.X + 1e-3; dark(x, low.Y+1e-3); x += 1e-3 {
			n = side / ((x - low.X) / 7)
		}
		unit := side / math.Round(n)
		if side < CodeLeast-1e-9 || unit < moduleLeast-1e-9 {
			t.Errorf("%s: side %.2f mm, module %.3f mm", link, side, unit)
		}
		if dark(low.X+unit/2, low.Y+8.5*unit) || !dark(low.X+1.5*unit, low.Y+8.5*unit) {
			t.Errorf("%s: the level is not Q", link)
		}
	}
}

// TestMarkStands14: the mark is 14 mm high and the rule 20 mm long on the paper
// rastered at 600 dpi, where a dot is 0.042 mm.
func TestMarkStands14(t *testing.T) {
	const dpi = 600
	for _, mark := range []string{"14", "XXX", "T7P", "9", "C4K", "rack"} {
		for _, size := range []string{"roll29", "sheet", "roll40", "roll60"} {
			if size != "roll29" && mark != "14" {
				continue // once is enough: the mark is drawn the same way
			}
			s := setup(size)
			l := lay(t, s, Label{Mark: mark, Name: "Valves", Machine: "Wendle Codlin 18", Date: evening, Link: Link(home, "m", mark)})
			page := gray(t, rastered(t, pdf(t, l), dpi)[0])
			mm := func(v float64) int { return int(v * dpi / 25.4) }
			x, y := mm(s.Size.Left+s.Size.InX), mm(s.Size.Top+s.Size.InY)
			top, foot := inked(page, image.Rect(x, 0, x+mm(34), y+mm(14.5)))
			if high := float64(foot-top) * 25.4 / dpi; math.Abs(high-MarkTall) > 0.3 || float64(top) < float64(y)-2 {
				t.Errorf("%s on %s: %.2f mm high, from %.2f mm", mark, size, high, float64(top)*25.4/dpi)
			}
			long := longest(page, image.Rect(x-mm(1), mm(s.Size.Top+s.Size.H-s.Size.InY-2), x+mm(40), mm(s.Size.Top+s.Size.H-s.Size.InY)+2))
			if got := float64(long) * 25.4 / dpi; math.Abs(got-ruleLong) > 0.25 {
				t.Errorf("%s on %s: the rule is %.2f mm long", mark, size, got)
			}
		}
	}
}

func gray(t *testing.T, file string) *image.Gray {
	t.Helper()
	data, err := os.ReadFile(file)
	if err != nil {
		t.Fatal(err)
	}
	img, err := png.Decode(bytes.NewReader(data))
	if err != nil {
		t.Fatal(err)
	}
	g := image.NewGray(img.Bounds())
	draw.Draw(g, g.Bounds(), img, img.Bounds().Min, draw.Src)
	return g
}

func black(g *image.Gray, x, y int) bool {
	return image.Pt(x, y).In(g.Bounds()) && g.GrayAt(x, y).Y < 128
}

// inked gives the first row with ink in a window, and the one after the last.
func inked(g *image.Gray, in image.Rectangle) (top, foot int) {
	top = -1
	for y := in.Min.Y; y < in.Max.Y; y++ {
		for x := in.Min.X; x < in.Max.X; x++ {
			if black(g, x, y) {
				if top < 0 {
					top = y
				}
				foot = y + 1
				break
			}
		}
	}
	return top, foot
}

// longest is the longest level run of ink in a window.
func longest(g *image.Gray, in image.Rectangle) int {
	best := 0
	for y := in.Min.Y; y < in.Max.Y; y++ {
		run := 0
		for x := in.Min.X; x < in.Max.X; x++ {
			if run++; !black(g, x, y) {
				run = 0
			}
			best = max(best, run)
		}
	}
	return best
}

// TestFacesAreEmbedded: an outside program (Debian poppler-utils) finds every
// face of the PDF in it, and no other.
func TestFacesAreEmbedded(t *testing.T) {
	tool(t, "pdffonts", "poppler-utils")
	for _, size := range Sizes() {
		file := filepath.Join(t.TempDir(), "labels.pdf")
		if err := os.WriteFile(file, pdf(t, lay(t, setup(size.ID), append(marked(3), tagged()...)...)), 0o600); err != nil {
			t.Fatal(err)
		}
		out, err := exec.Command("pdffonts", file).Output()
		if err != nil {
			t.Fatal(err)
		}
		rows := strings.Split(strings.TrimSpace(string(out)), "\n")[2:]
		if len(rows) < 3 {
			t.Fatalf("%s: %s", size.ID, out)
		}
		for _, row := range rows {
			if f := strings.Fields(row); len(f) < 6 || f[len(f)-5] != "yes" {
				t.Errorf("%s: not embedded: %s", size.ID, row)
			}
		}
	}
}

// TestPictureIsThePrint: the SVG rastered by another program (Debian
// librsvg2-bin) shows the same ink as the PDF: at most one black dot in a
// thousand has none of the other's within 0.1 mm.
func TestPictureIsThePrint(t *testing.T) {
	tool(t, "rsvg-convert", "librsvg2-bin")
	for _, size := range []string{"roll29", "roll40", "roll60"} {
		odd := tagged()[2]
		odd.Name = "Öldüse 前蓋"
		for _, one := range []Label{marked(1)[0], odd, {Mark: "14"}} {
			l := lay(t, setup(size), one)
			pdf, svg := gray(t, rastered(t, pdf(t, l), 254)[0]), gray(t, drawn(t, l.Pages[0]))
			if ink, differ := compared(pdf, svg); ink == 0 || differ*1000 > ink {
				t.Errorf("%s, %s: %d of %d inked dots differ", size, one.Mark, differ, ink)
			}
		}
	}
}

// drawn rasters a page's SVG at ten dots a millimetre.
func drawn(t *testing.T, p Page) string {
	t.Helper()
	dir := t.TempDir()
	svg, out := filepath.Join(dir, "page.svg"), filepath.Join(dir, "page.png")
	if err := os.WriteFile(svg, p.SVG(), 0o600); err != nil {
		t.Fatal(err)
	}
	if text, err := exec.Command("rsvg-convert", "-w", fmt.Sprint(10*p.W), "-h", fmt.Sprint(10*p.H), "-o", out, svg).CombinedOutput(); err != nil {
		t.Fatalf("rsvg-convert: %v: %s", err, text)
	}
	return out
}

// compared counts the black dots of both pictures, and those with no ink of
// the other within 0.1 mm: the two programs round the page by up to a dot.
func compared(a, b *image.Gray) (ink, alone int) {
	count := func(a, b *image.Gray) {
		for y := range a.Bounds().Dy() {
			for x := range a.Bounds().Dx() {
				if a.GrayAt(x, y).Y > 60 {
					continue
				}
				ink++
				near := false
				for dy := -1; dy <= 1; dy++ {
					for dx := -1; dx <= 1; dx++ {
						near = near || image.Pt(x+dx, y+dy).In(b.Bounds()) && b.GrayAt(x+dx, y+dy).Y < 160
					}
				}
				if !near {
					alone++
				}
			}
		}
	}
	count(a, b)
	count(b, a)
	return ink, alone
}
