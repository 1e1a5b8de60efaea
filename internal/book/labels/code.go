package labels

import (
	"fmt"
	"image/color"
	"net/url"
	"strings"

	"github.com/boombuler/barcode/qr"

	"matchmark/internal/machine"
)

// CodeLeast is the least side of a code without its margin, mm.
const CodeLeast = 18.0

// quiet is the empty margin a code needs, in modules (ISO/IEC 18004).
const quiet = 4

// moduleLeast is the least side of one module, mm: three dots of a 200 dpi
// printer, common practice, no source.
const moduleLeast = 0.38

// Link is the address in the code of a tray: short, and a plain address, so
// that the phone's own camera opens it. Empty where the shop has no address.
func Link(address string, id machine.MachineID, mark string) string {
	if address == "" {
		return ""
	}
	return strings.TrimSuffix(address, "/") + "/t/" + url.PathEscape(string(id)) + "/" + url.PathEscape(mark)
}

// ReadAddress takes the address of the shop's pages as typed: scheme and host,
// http where no scheme is given. Empty is no address, and no code.
func ReadAddress(typed string) (string, error) {
	typed = strings.TrimSpace(typed)
	if typed == "" {
		return "", nil
	}
	if !strings.Contains(typed, "://") {
		typed = "http://" + typed
	}
	u, err := url.Parse(typed)
	if err != nil || u.Scheme != "http" && u.Scheme != "https" || u.Hostname() == "" || u.User != nil ||
		strings.Trim(u.Path, "/") != "" || u.RawQuery != "" || u.Fragment != "" || len(typed) > 120 {
		return "", fmt.Errorf("“%s” is no address of these pages; write it as http://192.168.1.20:7462", typed)
	}
	return u.Scheme + "://" + strings.ToLower(u.Host), nil
}

// code draws a code with its upper right corner at a place: level Q, so that a
// quarter of it may be dirty. It grows beyond side where its modules would
// become too small, and is left out, with a note, where it would outgrow most.
func (p *pen) code(link string, right, top, side, most float64) {
	if link == "" {
		return
	}
	modules, err := qr.Encode(link, qr.Q, qr.Auto)
	if err != nil {
		p.notes = append(p.notes, "the address "+link+" does not go into a code")
		return
	}
	n := modules.Bounds().Dx()
	if need := float64(n) * moduleLeast; need > side {
		side = need
	}
	if side > most {
		p.notes = append(p.notes, "the address "+link+" is too long for a code on this label; a shorter host name or a larger label helps")
		return
	}
	unit, left := side/float64(n), right-side
	var dark []Stroke
	for y := range n {
		for x := 0; x < n; x++ {
			from := x
			for x < n && modules.At(x, y) == color.Black {
				x++
			}
			if x > from {
				dark = append(dark, box(float64(from), float64(y), float64(x-from), 1)...)
			}
		}
	}
	it := p.path(0, true, dark...)
	it.At, it.Unit = Point{left, top}, unit
}
