package web

import (
	"crypto/sha256"
	"encoding/hex"
	"fmt"
	"net/http"
	"net/url"
	"slices"
	"strconv"
	"strings"

	"matchmark/internal/book/labels"
	"matchmark/internal/machine"
	"matchmark/internal/trade/spelling"
	"matchmark/internal/trade/traymark"
)

// labelsView is the page on which labels are chosen and looked at.
type labelsView struct {
	Base    string
	What    []option
	Trays   []option
	Parts   []option // parts chosen one by one, if any
	Sizes   []option
	Size    string
	On      int // labels a sheet
	Start   int
	Arrows  []option
	Toward  string
	Address string // typed, or as kept
	Guessed bool   // the address is that of this page, kept nowhere
	Local   bool   // the address is this computer's own: a phone cannot open it
	OffX    string
	OffY    string
	Fault   string
	Notes   []string
	Count   int
	Papers  []paperView
	More    int    // pages not shown
	AllAt   string // where all are
	Make    int
	Fresh   string // marks a form would make, in order
	Tags    []string
	Proof   string
}

// paperView is one sheet or label as it comes out.
type paperView struct {
	At, Words string
	Size      string
	W, H      float64
	Cells     []labels.Cell
}

// How many sheets, and labels of a roll, are shown before all are asked for.
const (
	firstSheets = 1
	firstLabels = 2
)

// mostMade empty labels are made at a time.
const mostMade = 48

// wish is what labels are asked for, from the address of the page.
type wish struct {
	what   string // trays, chosen or parts
	labels []labels.Label
	setup  labels.Setup
	kept   labels.Settings
	query  url.Values
	base   string // address in the codes
}

func labelsPage(v *visit) error {
	w, err := v.wish(v.r.URL.Query())
	if err != nil {
		return err
	}
	return v.showLabels(w, "", http.StatusOK)
}

// wish reads which labels are wanted, and how.
func (v *visit) wish(q url.Values) (wish, error) {
	data, err := v.shop.Log().Paper(v.r.Context(), labels.SettingsPaper)
	if err != nil {
		return wish{}, err
	}
	kept, err := labels.ReadSettings(data)
	if err != nil {
		return wish{}, plight{http.StatusInternalServerError, "The settings of the labels cannot be read", "Nothing of the machine is touched. Run the check of the store; the settings can be kept again."}
	}
	w := wish{what: q.Get("what"), kept: kept, query: q, base: kept.Address}
	if w.base == "" {
		w.base = v.ownAddress()
	}
	w.setup = labels.Setup{Start: 1, Arrow: labels.Arrow(q.Get("arrow")), Toward: clip(strings.TrimSpace(q.Get("toward")), 24), AsOf: v.view.AsOf}
	if !slices.Contains(labels.Arrows(), w.setup.Arrow) {
		w.setup.Arrow = labels.NoArrow
	}
	var ok bool
	if w.setup.Size, ok = labels.SizeOf(q.Get("size")); !ok {
		if w.setup.Size, ok = labels.SizeOf(kept.Size); !ok {
			w.setup.Size = labels.Sizes()[0]
		}
	}
	if n, err := strconv.Atoi(q.Get("start")); err == nil && w.setup.Size.On() > 1 {
		w.setup.Start = n
	}
	off := kept.Offsets[w.setup.Size.ID]
	w.setup.OffX, w.setup.OffY = off.X, off.Y
	w.choose(v, q)
	return w, nil
}

// ownAddress is the address this page was asked for at; where that is this
// computer's alone, one that other devices open, if there is any.
func (v *visit) ownAddress() string {
	scheme := "http://"
	if v.r.TLS != nil {
		scheme = "https://"
	}
	at := scheme + v.r.Host
	if reach := v.opt.Reach(); isLocal(at) && len(reach) > 0 {
		return reach[0]
	}
	return at
}

// choose lists the labels of the choice, in the order of trays or of parts.
func (w *wish) choose(v *visit, q url.Values) {
	m := v.view.Machine
	if w.what == "" {
		w.what = "trays"
		if len(q["part"]) > 0 {
			w.what = "chosenparts"
		}
	}
	code := func(l labels.Label, what string) labels.Label {
		l.Link = labels.Link(w.base, v.view.ID, what)
		return l
	}
	for _, t := range v.labelled() {
		if w.what == "trays" || w.what == "chosen" && slices.Contains(q["tray"], t.Mark) {
			w.labels = append(w.labels, code(labels.Of(m, &t), t.Mark))
		}
	}
	for _, p := range m.Parts {
		if w.what == "parts" && p.Call != machine.NotJudged || w.what == "chosenparts" && slices.Contains(q["part"], string(p.ID)) {
			w.labels = append(w.labels, code(labels.TagOf(m, p), string(machine.RefPart(p.ID))))
		}
	}
}

// labelled are the trays that can have a label.
func (v *visit) labelled() []machine.Tray {
	var out []machine.Tray
	for _, t := range v.view.Machine.Trays {
		if t.Mark != machine.NoTray {
			out = append(out, t)
		}
	}
	return out
}

func (v *visit) showLabels(w wish, fault string, status int) error {
	lv := v.viewLabels(w)
	lv.Fault = fault
	return v.show("labels", status, frame{Title: "Labels", Here: "Trays", Back: v.base() + "/trays", Data: lv})
}

func (v *visit) viewLabels(w wish) labelsView {
	m := v.view.Machine
	s := w.setup
	lv := labelsView{Base: v.base(), Size: s.Size.ID, On: s.Size.On(), Start: s.Start, Toward: s.Toward, Address: w.base, Guessed: w.kept.Address == "",
		OffX: offset(s.OffX), OffY: offset(s.OffY), Count: len(w.labels), Make: 6, Proof: v.base() + "/labels.pdf?proof=1&size=" + s.Size.ID,
		Tags: []string{string(machine.GoesBack), string(machine.MakeGood), string(machine.Renew), string(machine.NotJudged)}}
	lv.Local = isLocal(w.base)
	judged := 0
	for _, p := range m.Parts {
		if p.Call != machine.NotJudged {
			judged++
		}
		if slices.Contains(w.query["part"], string(p.ID)) {
			lv.Parts = append(lv.Parts, option{string(p.ID), p.Name, true})
		}
	}
	trays := v.labelled()
	for _, t := range trays {
		lv.Trays = append(lv.Trays, option{t.Mark, spelling.Head(trayWords(t.Mark)), slices.Contains(w.query["tray"], t.Mark)})
	}
	lv.What = []option{{"trays", "All " + plural(len(trays), "tray", "trays"), w.what == "trays"}, {"chosen", "The trays ticked below", w.what == "chosen"},
		{"parts", "Tags of " + plural(judged, "part with a call", "parts with a call"), w.what == "parts"}}
	if len(lv.Parts) > 0 {
		lv.What = append(lv.What, option{"chosenparts", "Tags of the parts ticked below", w.what == "chosenparts"})
	}
	for _, size := range labels.Sizes() {
		lv.Sizes = append(lv.Sizes, option{size.ID, size.Name, size.ID == s.Size.ID})
	}
	for _, a := range labels.Arrows() {
		lv.Arrows = append(lv.Arrows, option{string(a), arrowWord(a), a == s.Arrow})
	}
	lv.Fresh = strings.Join(v.freshMarks(mostMade), " ")
	lv.preview(v, w)
	return lv
}

// preview lays the labels out and gives the address of each page's picture.
func (lv *labelsView) preview(v *visit, w wish) {
	layout, err := labels.Lay(w.labels, w.setup)
	if err != nil {
		lv.Notes = append(lv.Notes, spelling.Head(err.Error())+".")
		return
	}
	for _, n := range layout.Notes {
		lv.Notes = append(lv.Notes, spelling.Head(n)+".")
	}
	q := url.Values{}
	for _, key := range []string{"what", "tray", "part", "start", "arrow", "toward"} {
		if w.query[key] != nil {
			q[key] = w.query[key]
		}
	}
	q.Set("what", w.what)
	q.Set("size", w.setup.Size.ID)
	most := firstSheets
	if w.setup.Size.On() == 1 {
		most = firstLabels
	}
	if n := len(layout.Pages); n > most && w.query.Get("all") == "" {
		lv.More, lv.AllAt = n-most, v.base()+"/labels?all=1&"+q.Encode()
		layout.Pages = layout.Pages[:most]
	}
	for i, page := range layout.Pages {
		q.Set("page", strconv.Itoa(i+1))
		q.Set("v", likeness(page.SVG()))
		var marks []string
		for _, c := range page.Cells {
			marks = append(marks, labelWords(c.Label))
		}
		lv.Papers = append(lv.Papers, paperView{At: v.base() + "/labels.svg?" + q.Encode(), Words: strings.Join(marks, ", "), Size: w.setup.Size.ID, W: page.W, H: page.H, Cells: page.Cells})
	}
}

// likeness is a short word for a picture's content: another picture at the same
// address has another, so a browser may keep each.
func likeness(data []byte) string {
	sum := sha256.Sum256(data)
	return hex.EncodeToString(sum[:5])
}

func labelWords(l labels.Label) string {
	if l.Tag {
		return l.Name + ", " + string(l.Call)
	}
	return spelling.Head(trayWords(l.Mark))
}

func arrowWord(a labels.Arrow) string {
	if a == labels.NoArrow {
		return "none"
	}
	return string(a)
}

// offset prints an offset as it is typed.
func offset(mm float64) string { return strconv.FormatFloat(mm, 'f', -1, 64) }

// isLocal tells an address that only this computer can open.
func isLocal(address string) bool {
	u, err := url.Parse(address)
	if err != nil {
		return false
	}
	name := u.Hostname()
	return name == "localhost" || name == "::1" || strings.HasPrefix(name, "127.")
}

// freshMarks are marks for trays that are not made yet.
func (v *visit) freshMarks(n int) []string {
	used := v.view.Machine.UsedMarks()
	return traymark.Next(n, string(v.view.ID), func(mark string) bool { return used[mark] || used[strings.ToLower(mark)] })
}

// labelsPDF and labelsSVG are the papers themselves.
func labelsPDF(v *visit) error {
	layout, err := v.layout()
	if err != nil {
		return err
	}
	data, err := layout.PDF()
	if err != nil {
		return err
	}
	return v.paper("application/pdf", "labels.pdf", data)
}

func labelsSVG(v *visit) error {
	layout, err := v.layout()
	if err != nil {
		return err
	}
	n, err := strconv.Atoi(v.asked("page"))
	if err != nil || n < 1 || n > len(layout.Pages) {
		return plight{http.StatusNotFound, "There is no such sheet", fmt.Sprintf("Nothing was changed. There are %s of labels.", plural(len(layout.Pages), "sheet", "sheets"))}
	}
	return v.paper("image/svg+xml", "", layout.Pages[n-1].SVG())
}

// layout puts the labels asked for on paper, or the page to try a printer with.
func (v *visit) layout() (labels.Layout, error) {
	w, err := v.wish(v.r.URL.Query())
	if err != nil {
		return labels.Layout{}, err
	}
	lay := func() (labels.Layout, error) { return labels.Lay(w.labels, w.setup) }
	if v.asked("proof") != "" {
		lay = func() (labels.Layout, error) { return labels.Proof(w.setup) }
	} else if len(w.labels) == 0 {
		return labels.Layout{}, plight{http.StatusNotFound, "No label was chosen", "Nothing was printed. Go back and tick trays, or take all of them."}
	}
	layout, err := lay()
	if err != nil {
		return labels.Layout{}, plight{http.StatusUnprocessableEntity, "The labels do not go on paper so", spelling.Head(err.Error()) + "."}
	}
	return layout, nil
}
