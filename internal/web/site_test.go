package web

import (
	"bytes"
	"encoding/xml"
	"io"
	"net/http"
	"net/http/httptest"
	"net/url"
	"strings"
	"testing"
	"time"

	"matchmark/internal/bench"
	"matchmark/internal/kit"
	"matchmark/internal/machine"
	"matchmark/internal/store"
)

// clock of the tests.
var clock = time.Date(2026, 12, 1, 14, 20, 0, 0, time.UTC)

func fixed() time.Time { return clock }

// house is a site with one machine, made of every kit of the library.
type house struct {
	t    *testing.T
	site http.Handler
	shop *bench.Shop
	b    *bench.Bench
	tick int
}

func newHouse(t *testing.T) *house {
	t.Helper()
	h := &house{t: t}
	now := func() time.Time { h.tick++; return clock.Add(time.Duration(h.tick) * time.Second) }
	h.shop = bench.NewShop(store.OpenMemory(), now)
	sheets, taking, err := kit.Whole()
	if err != nil {
		t.Fatal(err)
	}
	bodies, _, err := kit.Expand(sheets, taking)
	if err != nil {
		t.Fatal(err)
	}
	named := &machine.MachineNamed{Name: "Wendle Codlin 18", Serial: "0418"}
	h.b, err = h.shop.Start(t.Context(), "codlin", named.Name, bench.Who{By: "R."}, append([]machine.Body{named}, bodies...))
	if err != nil {
		t.Fatal(err)
	}
	h.site = New(h.shop, Options{By: "R.", Hosts: []string{"bench.home.arpa"}, Now: now})
	return h
}

// record keeps facts without going through a page.
func (h *house) record(bodies ...machine.Body) *bench.View {
	h.t.Helper()
	v, err := h.b.Record(h.t.Context(), bench.Who{By: "R."}, bodies...)
	if err != nil {
		h.t.Fatal(err)
	}
	return v
}

func (h *house) view() *bench.View {
	h.t.Helper()
	v, err := h.b.View(h.t.Context())
	if err != nil {
		h.t.Fatal(err)
	}
	return v
}

// ask sends one request; a form makes it a post.
func (h *house) ask(method, path string, form url.Values) *page {
	h.t.Helper()
	var body io.Reader
	if form != nil {
		body = strings.NewReader(form.Encode())
	}
	r := httptest.NewRequest(method, "http://localhost:8080"+path, body)
	if form != nil {
		r.Header.Set("Content-Type", "application/x-www-form-urlencoded")
	}
	return h.send(r)
}

// send is a request from this computer, unless it says from where.
func (h *house) send(r *http.Request) *page {
	h.t.Helper()
	if r.RemoteAddr == "192.0.2.1:1234" { // what httptest puts there
		r.RemoteAddr = "127.0.0.1:1234"
	}
	w := httptest.NewRecorder()
	h.site.ServeHTTP(w, r)
	return readPage(h.t, r.Method+" "+r.URL.Path, w)
}

// page is an answer, parsed.
type page struct {
	t        *testing.T
	name     string
	status   int
	header   http.Header
	raw      []byte
	text     string // all words, spaces made single
	elements []xml.StartElement
}

// readPage parses an answer and holds every page to the house rules.
func readPage(t *testing.T, name string, w *httptest.ResponseRecorder) *page {
	t.Helper()
	p := &page{t: t, name: name, status: w.Code, header: w.Header(), raw: w.Body.Bytes()}
	if !strings.HasPrefix(p.header.Get("Content-Type"), "text/html") || p.header.Get("Content-Disposition") != "" {
		return p // a file to take away is no page of the site
	}
	d := xml.NewDecoder(bytes.NewReader(p.raw))
	d.Strict, d.AutoClose, d.Entity = false, xml.HTMLAutoClose, xml.HTMLEntity
	var words strings.Builder
	for {
		tok, err := d.Token()
		if err == io.EOF {
			break
		}
		if err != nil {
			t.Fatalf("%s: the page does not parse: %v", name, err)
		}
		switch tok := tok.(type) {
		case xml.StartElement:
			p.elements = append(p.elements, tok.Copy())
			words.WriteByte(' ')
		case xml.EndElement:
			words.WriteByte(' ')
		case xml.CharData:
			words.Write(tok)
		}
	}
	p.text = strings.Join(strings.Fields(words.String()), " ")
	p.holdToRules()
	return p
}

func attr(e xml.StartElement, name string) (string, bool) {
	for _, a := range e.Attr {
		if a.Name.Local == name {
			return a.Value, true
		}
	}
	return "", false
}

// holdToRules: no inline style or script, ids once, every field with a label,
// every picture with words, none of the words this project avoids.
func (p *page) holdToRules() {
	p.t.Helper()
	ids, labels := map[string]bool{}, map[string]bool{}
	for _, e := range p.elements {
		if to, ok := attr(e, "for"); ok {
			labels[to] = true
		}
	}
	label := 0
	for _, e := range p.elements {
		for _, a := range e.Attr {
			n := a.Name.Local
			if n == "style" || strings.HasPrefix(n, "on") {
				p.t.Errorf("%s: <%s %s=…> is inline; the policy forbids it", p.name, e.Name.Local, n)
			}
			if n == "id" && ids[a.Value] {
				p.t.Errorf("%s: id %q stands twice", p.name, a.Value)
			}
			if n == "id" {
				ids[a.Value] = true
			}
		}
		switch e.Name.Local {
		case "style":
			p.t.Errorf("%s: inline <style>", p.name)
		case "script":
			if _, ok := attr(e, "src"); !ok {
				p.t.Errorf("%s: inline <script>", p.name)
			}
		case "label":
			label++
		case "img":
			if alt, ok := attr(e, "alt"); !ok || alt == "" {
				p.t.Errorf("%s: a picture without words", p.name)
			}
		case "input", "select", "textarea":
			p.holdField(e, labels)
		}
	}
	p.holdForms()
	for _, word := range []string{"workflow", "dashboard", "Submit", "asset", "ticket", "work order"} {
		if strings.Contains(p.text, word) {
			p.t.Errorf("%s: says %q", p.name, word)
		}
	}
	if p.header.Get("Content-Security-Policy") != policy {
		p.t.Errorf("%s: policy is %q", p.name, p.header.Get("Content-Security-Policy"))
	}
}

// holdForms: a form that keeps something carries its own word, each another.
func (p *page) holdForms() {
	p.t.Helper()
	open, seen := "", map[string]bool{}
	for _, e := range p.elements {
		switch name, _ := attr(e, "name"); {
		case e.Name.Local == "form" || e.Name.Local == "footer":
			if open != "" {
				p.t.Errorf("%s: the form to %s has no word of its own", p.name, open)
			}
			open = ""
			if method, _ := attr(e, "method"); method == "post" {
				open, _ = attr(e, "action")
			}
			if open == "/demo" || open == "/ground" || open == "/language" {
				open = ""
			}
		case name == onceField:
			word, _ := attr(e, "value")
			if word == "" || seen[word] {
				p.t.Errorf("%s: the form to %s has the word %q", p.name, open, word)
			}
			open, seen[word] = "", true
		}
	}
}

// holdField: a field has a label by its id, or stands in a tick's label.
func (p *page) holdField(e xml.StartElement, labels map[string]bool) {
	p.t.Helper()
	kind, _ := attr(e, "type")
	if kind == "hidden" || kind == "checkbox" || kind == "radio" {
		return
	}
	if id, _ := attr(e, "id"); !labels[id] {
		name, _ := attr(e, "name")
		p.t.Errorf("%s: field %q has no label", p.name, name)
	}
}

// value is what a field of the page holds.
func (p *page) value(field string) string {
	for _, e := range p.elements {
		if n, _ := attr(e, "name"); n == field {
			v, _ := attr(e, "value")
			return v
		}
	}
	return ""
}

// says fails where the page lacks a word.
func (p *page) says(words ...string) {
	p.t.Helper()
	for _, w := range words {
		if !strings.Contains(p.text, w) {
			p.t.Errorf("%s: lacks %q in: %s", p.name, w, clip(p.text, 1200))
		}
	}
}

func (p *page) is(status int) *page {
	p.t.Helper()
	if p.status != status {
		p.t.Fatalf("%s: status %d, want %d: %s", p.name, p.status, status, clip(p.text, 600))
	}
	return p
}
