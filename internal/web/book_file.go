package web

import (
	"bytes"
	"context"
	"encoding/base64"
	"html/template"
	"log/slog"
	"mime"
	"net/http"
	"regexp"
	"strings"
	"time"

	"matchmark/internal/bench"
	"matchmark/internal/machine"
)

// bookFile is the frame of the book as one file.
type bookFile struct {
	Title, Sub string
	Style      template.CSS
	Block      titleBlock
	Data       bookView
}

// BookFile writes the book of a machine as one HTML file that needs nothing
// beside it: no script, no server, no network; style, lettering and photos are
// inside. Prices and addresses are not in it. Errors: the store's.
func BookFile(ctx context.Context, shop *bench.Shop, id machine.MachineID, now func() time.Time) ([]byte, error) {
	b, err := shop.Bench(ctx, id)
	if err != nil {
		return nil, err
	}
	view, err := b.View(ctx)
	if err != nil {
		return nil, err
	}
	assets := loadAssets()
	s := &site{shop: shop, assets: assets, pages: loadPages(assets), opt: Options{Now: now}}
	return s.bookFile(ctx, view)
}

func (s *site) bookFile(ctx context.Context, view *bench.View) ([]byte, error) {
	m := view.Machine
	bv := viewBook(view, "")
	for i, p := range m.Photos {
		data, kind, err := s.shop.Log().Blob(ctx, p.Sum)
		if err != nil || !strings.HasPrefix(kind, "image/") {
			slog.Warn("a photo is not in the book's file", "photo", p.Sum, "err", err)
			bv.Photos[i].Words += ". The picture is not in the box"
			continue
		}
		bv.Photos[i].Data = dataURL(kind, data)
	}
	var out bytes.Buffer
	err := s.pages["book"].ExecuteTemplate(&out, "file", bookFile{Title: "Book", Sub: calling(m), Style: s.assets.inside(styleSheet),
		Block: titleOf(m, view.AsOf), Data: bv})
	return out.Bytes(), err
}

// dataURL carries an attachment of the store, an image by its type, inside the
// page itself.
func dataURL(kind string, data []byte) template.URL {
	return template.URL("data:" + kind + ";base64," + base64.StdEncoding.EncodeToString(data))
}

var cssFile = regexp.MustCompile(`url\(([^#)][^)]*)\)`)

// inside is the style sheet with its fonts in it.
func (a *assetSet) inside(name string) template.CSS {
	css := cssFile.ReplaceAllFunc(a.by[a.at[name]].plain, func(m []byte) []byte {
		f := a.by[a.at[string(m[len("url("):len(m)-1])]]
		return []byte("url(" + string(dataURL(f.kind, f.plain)) + ")")
	})
	return template.CSS(css)
}

// bookFilePage hands the file over.
func bookFilePage(v *visit) error {
	data, err := v.bookFile(v.r.Context(), v.view)
	if err != nil {
		return err
	}
	head := v.w.Header()
	head.Set("Content-Type", "text/html; charset=utf-8")
	head.Set("Content-Disposition", mime.FormatMediaType("attachment", map[string]string{"filename": wordOf(v.view.Machine.Name, "machine") + "-book.html"}))
	head.Set("Content-Security-Policy", "sandbox; default-src 'none'; style-src 'unsafe-inline'; img-src data:; font-src data:")
	if v.r.Method == http.MethodHead {
		return nil
	}
	_, err = v.w.Write(data)
	gone(v.r, err)
	return nil
}
