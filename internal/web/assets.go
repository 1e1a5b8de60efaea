package web

import (
	"bytes"
	"compress/gzip"
	"crypto/sha256"
	"embed"
	"encoding/hex"
	"fmt"
	"io/fs"
	"net/http"
	"path"
	"regexp"
	"strings"
)

//go:embed all:assets
var assetFiles embed.FS

// assetSet serves the embedded files under addresses that carry their hash,
// so that a browser may keep each for ever.
type assetSet struct {
	at map[string]string // name → /a/<hash>/<name>
	by map[string]asset  // address → file
}

type asset struct {
	kind   string
	plain  []byte
	packed []byte // gzip; nil where it would not be smaller
}

var kinds = map[string]string{".css": "text/css; charset=utf-8", ".js": "text/javascript; charset=utf-8",
	".woff2": "font/woff2", ".svg": "image/svg+xml"}

// loadAssets hashes every served file once; style sheets last, because they
// carry the addresses of the rest.
func loadAssets() *assetSet {
	set := &assetSet{at: map[string]string{}, by: map[string]asset{}}
	names, err := fs.Glob(assetFiles, "assets/*")
	if err != nil {
		panic(err)
	}
	for _, styles := range []bool{false, true} {
		for _, name := range names {
			ext := path.Ext(name)
			if kinds[ext] == "" || styles != (ext == ".css") {
				continue
			}
			data, err := assetFiles.ReadFile(name)
			if err != nil {
				panic(err)
			}
			if styles {
				data = set.link(data)
			}
			set.add(path.Base(name), kinds[ext], data)
		}
	}
	return set
}

var cssURL = regexp.MustCompile(`url\(([a-z0-9-]+\.[a-z0-9]+)\)`)

// link puts the hashed addresses into a style sheet.
func (a *assetSet) link(css []byte) []byte {
	return cssURL.ReplaceAllFunc(css, func(m []byte) []byte {
		at, err := a.address(string(m[4 : len(m)-1]))
		if err != nil {
			panic(err)
		}
		return []byte("url(" + at + ")")
	})
}

func (a *assetSet) add(name, kind string, data []byte) {
	sum := sha256.Sum256(data)
	at := "/a/" + hex.EncodeToString(sum[:5]) + "/" + name
	f := asset{kind: kind, plain: data}
	if packed := pack(data); !strings.HasSuffix(name, ".woff2") && len(packed) < len(data) {
		f.packed = packed
	}
	a.at[name], a.by[at] = at, f
}

func pack(data []byte) []byte {
	var out bytes.Buffer
	z, _ := gzip.NewWriterLevel(&out, gzip.BestCompression) // the level is a constant of the package
	z.Write(data)
	z.Close()
	return out.Bytes()
}

// address is the template function: the hashed address of an asset.
func (a *assetSet) address(name string) (string, error) {
	at, ok := a.at[name]
	if !ok {
		return "", fmt.Errorf("asset %q is not embedded", name)
	}
	return at, nil
}

func (a *assetSet) ServeHTTP(w http.ResponseWriter, r *http.Request) {
	f, ok := a.by[r.URL.Path]
	if !ok {
		http.NotFound(w, r)
		return
	}
	head := w.Header()
	head.Set("Content-Type", f.kind)
	head.Set("Cache-Control", "public, max-age=31536000, immutable")
	head.Add("Vary", "Accept-Encoding")
	data := f.plain
	if f.packed != nil && strings.Contains(r.Header.Get("Accept-Encoding"), "gzip") {
		head.Set("Content-Encoding", "gzip")
		data = f.packed
	}
	w.Write(data)
}
