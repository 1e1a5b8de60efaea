package acceptance_test

import (
	"encoding/xml"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"

	"github.com/chromedp/chromedp"

	"matchmark/internal/trial"
)

// bookFile writes the demo's book as one file and returns its path.
func bookFile(t *testing.T) string {
	t.Helper()
	s := trial.Serve(t, t.TempDir())
	path := filepath.Join(t.TempDir(), "book.html")
	s.Run(t, "papers", "book", "--book", s.Book(), "--into", path)
	s.Kill()
	return path
}

// TestCheck26: Exported book opens from file:// with network off, 0 failed
// requests.
func TestCheck26(t *testing.T) {
	holds(t, 26)
	tab := trial.NewTab(t, 1024, 768)
	tab.Offline(true)
	tab.Open("file://" + bookFile(t))
	for _, want := range []string{"What was measured", "What is not known", "Care from here", "Wendle Codlin 18"} {
		if !strings.Contains(tab.Says(), want) {
			t.Errorf("the book does not say %q", want)
		}
	}
	if n := trial.Ask[int](tab, "performance.getEntriesByType('resource').filter(r => !r.name.startsWith('data:')).length"); n != 0 {
		t.Errorf("the file asks for %d things beside it", n)
	}
	if n := trial.Ask[int](tab, "document.scripts.length + document.querySelectorAll('form, link, iframe').length"); n != 0 {
		t.Errorf("the file carries %d scripts, forms, links or frames", n)
	}
	blank := trial.Ask[[]string](tab, "Promise.all([...document.images].map(i => i.decode().then(() => '', () => i.alt))).then(a => a.filter(Boolean))")
	if all := trial.Ask[int](tab, "document.images.length"); all == 0 || len(blank) > 0 {
		t.Errorf("of %d photos these do not show: %q", all, blank)
	}
	if !trial.Ask[bool](tab, `document.fonts.ready.then(() => document.fonts.check('18px "Scribe Text"'))`) {
		t.Error("the lettering is not in the file")
	}
	tab.Quiet()
}

// TestCheck25Book: PDF of the book: every page has a title block, no clipped
// table, fonts embedded. The PDF is what the browser prints; pdftotext and
// pdffonts (poppler) read it.
func TestCheck25Book(t *testing.T) {
	holds(t, 25)
	for _, tool := range []string{"pdftotext", "pdffonts"} {
		if _, err := exec.LookPath(tool); err != nil {
			t.Skipf("SKIPPED: no %s on this machine; ./test installs poppler-utils where it can", tool)
		}
	}
	tab := trial.NewTab(t, 1024, 768)
	tab.Open("file://" + bookFile(t))
	trial.Ask[bool](tab, "document.fonts.ready.then(() => true)")
	pdf := filepath.Join(t.TempDir(), "book.pdf")
	if err := os.WriteFile(pdf, printed(t, tab), 0o644); err != nil {
		t.Fatal(err)
	}
	fonts := strings.Split(strings.TrimSpace(output(t, "pdffonts", pdf)), "\n")
	if len(fonts) < 3 {
		t.Fatalf("the PDF names no fonts:\n%s", strings.Join(fonts, "\n"))
	}
	for _, line := range fonts[2:] {
		cells := strings.Fields(line) // name type encoding emb sub uni object ID
		if n := len(cells); n < 6 || cells[n-5] != "yes" {
			t.Errorf("a font is not embedded: %s", line)
		}
	}
	for i, p := range pagesOf(t, pdf) {
		var words []string
		for _, w := range p.Words {
			words = append(words, w.Text)
			if w.Left < 25 || w.Right > p.Width-25 { // the margins are 12 mm, 34 points
				t.Errorf("page %d: %q runs from %.0f to %.0f on a sheet of %.0f points", i+1, w.Text, w.Left, w.Right, p.Width)
			}
		}
		text := strings.Join(words, " ")
		for _, want := range []string{"Machine", "Wendle Codlin 18", "As of"} {
			if !strings.Contains(text, want) {
				t.Errorf("page %d has no %q of the title block", i+1, want)
			}
		}
	}
}

// printed is the page as the browser puts it on A4.
func printed(t *testing.T, tab *trial.Tab) []byte {
	t.Helper()
	data, err := chromedp.Run(tab.Ctx, chromedp.PrintToPDF(chromedp.PDFPreferCSSPageSize()))
	if err != nil {
		t.Fatal(err)
	}
	return data
}

func output(t *testing.T, command string, args ...string) string {
	t.Helper()
	out, err := exec.Command(command, args...).CombinedOutput()
	if err != nil {
		t.Fatalf("%s: %v\n%s", command, err, out)
	}
	return string(out)
}

// sheet is one page of a PDF as pdftotext -bbox writes it, in points.
type sheet struct {
	Width float64 `xml:"width,attr"`
	Words []struct {
		Left  float64 `xml:"xMin,attr"`
		Right float64 `xml:"xMax,attr"`
		Text  string  `xml:",chardata"`
	} `xml:"word"`
}

func pagesOf(t *testing.T, pdf string) []sheet {
	t.Helper()
	var doc struct {
		Pages []sheet `xml:"body>doc>page"`
	}
	if err := xml.Unmarshal([]byte(output(t, "pdftotext", "-bbox", pdf, "-")), &doc); err != nil {
		t.Fatal(err)
	}
	if len(doc.Pages) < 3 {
		t.Fatalf("the book has %d pages", len(doc.Pages))
	}
	return doc.Pages
}
