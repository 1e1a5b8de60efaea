package web

import (
	"bytes"
	"compress/gzip"
	"embed"
	"errors"
	"html/template"
	"io/fs"
	"log/slog"
	"net/http"
	"path"
	"regexp"
	"strings"
	"sync"

	"matchmark/internal/trade/spelling"
)

//go:embed templates/*.html
var templateFiles embed.FS

// pageSet holds one template per page, each with the shared pieces.
type pageSet map[string]*template.Template

var assetCall = regexp.MustCompile(`asset "([^"]*)"`)

// loadPages parses every page and makes sure that each asset it names exists.
func loadPages(assets *assetSet) pageSet {
	funcs := template.FuncMap{"once": newOnce(), "asset": assets.address, "plural": plural, "lower": spelling.Inside}
	names, err := fs.Glob(templateFiles, "templates/*.html")
	if err != nil {
		panic(err)
	}
	shared := template.New("").Funcs(funcs)
	for _, name := range names {
		text, err := templateFiles.ReadFile(name)
		if err != nil {
			panic(err)
		}
		for _, m := range assetCall.FindAllSubmatch(text, -1) {
			if _, err := assets.address(string(m[1])); err != nil {
				panic(name + ": " + err.Error())
			}
		}
		if strings.HasPrefix(path.Base(name), "_") {
			template.Must(shared.Parse(string(text)))
		}
	}
	set := pageSet{}
	for _, name := range names {
		if base := path.Base(name); !strings.HasPrefix(base, "_") {
			t := template.Must(template.Must(shared.Clone()).ParseFS(templateFiles, name))
			set[strings.TrimSuffix(base, ".html")] = t
		}
	}
	return set
}

// frame is what every page carries round its own data.
type frame struct {
	Title   string // of the page: "On the bench now"
	Sub     string // the machine: "Wendle Codlin 18, no. 0418"
	Demo    bool
	Base    string // "/m/<id>", empty outside a machine
	Entries int    // of the machine's book, as shown
	Here    string // which page of the nav this is
	Nav     []navItem
	Ground  string
	Gloves  string   // "thick": large targets, one column
	Lang    string   // the page is in: "en"
	Tongues []tongue // the others
	Path    string   // to come back to after the ground was changed
	Back    string   // where the back arrow leads, if the page has one
	Shut    bool     // a page for a stranger, who is offered no other
	Run     bool     // a page whose own bar takes the place of the nav
	Scripts []string
	Block   titleBlock
	Data    any
}

type navItem struct {
	Name, At string
	Here     bool
	Bar      bool // in the phone's bar
	Rest     bool // behind “More” where the row is short
}

// titleBlock is the drawing's title block.
type titleBlock struct{ Machine, Number, Owner, AsOf string }

var packers = sync.Pool{New: func() any {
	z, _ := gzip.NewWriterLevel(nil, gzip.BestCompression) // the level is a constant of the package
	return z
}}

// send renders a page whole before the first byte leaves, so that a broken
// template never gives half a page.
func (s *site) send(w http.ResponseWriter, r *http.Request, name string, status int, f frame) error {
	f.Shut = shut(r)
	f.Lang, f.Tongues = s.tongues(s.spoken(r))
	var out bytes.Buffer
	if err := s.pages[name].ExecuteTemplate(&out, "page", f); err != nil {
		return err
	}
	page := s.inLanguage(r, out.Bytes())
	head := w.Header()
	head.Set("Content-Type", "text/html; charset=utf-8")
	head.Set("Cache-Control", "no-cache")
	head.Add("Vary", "Accept-Encoding, Cookie")
	if !strings.Contains(r.Header.Get("Accept-Encoding"), "gzip") {
		w.WriteHeader(status)
		_, err := w.Write(page)
		gone(r, err)
		return nil
	}
	head.Set("Content-Encoding", "gzip")
	w.WriteHeader(status)
	z := packers.Get().(*gzip.Writer)
	defer packers.Put(z)
	z.Reset(w)
	_, err := z.Write(page)
	gone(r, errors.Join(err, z.Close()))
	return nil
}

// gone notes that a client went away while its answer was being sent. The head
// had left by then, so there is nobody to tell and nothing to mend.
func gone(r *http.Request, err error) {
	if err != nil {
		slog.Debug("client went away", "path", r.URL.Path, "err", err)
	}
}
