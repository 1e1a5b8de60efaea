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
	"strings"
)

//go:embed all:assets
var assetFiles embed.FS

// assetSet serves the embedded files under addresses that carry the hash of
// them all, so that a browser may keep each for ever, and style sheets and
// modules name their neighbours as they stand in the folder.
type assetSet struct {
	build string            // hash of all files
	at    map[string]string // name → /a/<build>/<name>
	by    map[string]asset  // address → file
}

type asset struct {
	kind   string
	plain  []byte
	packed []byte // gzip; nil where it would not be smaller
}

var kinds = map[string]string{".css": "text/css; charset=utf-8", ".js": "text/javascript; charset=utf-8",
	".woff2": "font/woff2", ".svg": "image/svg+xml"}

// styleSheet is the one served sheet: scribe.css, then all scribe-*.css in the
// order of names, so that a topic has the last word on its own.
const styleSheet = "scribe.css"

// loadAssets reads every served file once.
func loadAssets() *assetSet {
	names, err := fs.Glob(assetFiles, "assets/*") // sorted
	if err != nil {
		panic(err)
	}
	files, styles, all := map[string][]byte{}, []byte(nil), sha256.New()
	for _, name := range names {
		if kinds[path.Ext(name)] == "" {
			continue
		}
		data, err := assetFiles.ReadFile(name)
		if err != nil {
			panic(err)
		}
		fmt.Fprintf(all, "%s %d\n%s", name, len(data), data)
		if path.Ext(name) == ".css" {
			if path.Base(name) == styleSheet {
				styles = append(data, styles...)
			} else {
				styles = append(styles, data...)
			}
			continue
		}
		if path.Ext(name) == ".js" {
			data = bare(data)
		}
		files[path.Base(name)] = data
	}
	files[styleSheet] = bareStyles(styles)
	set := &assetSet{build: hex.EncodeToString(all.Sum(nil)[:5]), at: map[string]string{}, by: map[string]asset{}}
	for name, data := range files {
		set.add(name, data)
	}
	return set
}

func (a *assetSet) add(name string, data []byte) {
	at := "/a/" + a.build + "/" + name
	f := asset{kind: kinds[path.Ext(name)], plain: data}
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
