package web

import (
	"net/http/httptest"
	"net/url"
	"strings"
	"testing"

	"matchmark/internal/bench"
	"matchmark/internal/demo"
	"matchmark/internal/store"
	"matchmark/internal/web/language"
)

// demoHouse is a house with the demo machine.
func demoHouse(t testing.TB) *house {
	log := store.OpenMemory()
	if err := demo.Load(t.Context(), log); err != nil {
		t.Fatal(err)
	}
	shop := bench.NewShop(log, fixed)
	b, err := shop.Bench(t.Context(), demo.ID)
	if err != nil {
		t.Fatal(err)
	}
	h := &house{shop: shop, b: b, site: New(shop, Options{By: "R.", Now: fixed})}
	h.t, _ = t.(*testing.T)
	return h
}

// runPages are the demo's runs over cylinder, crankshaft, piston and head: as
// read, and with figures that are refused or doubted.
func runPages(h *house) [][]byte {
	var out [][]byte
	send := func(method, path string, form url.Values) []byte {
		r := httptest.NewRequest(method, "http://localhost"+path, strings.NewReader(form.Encode()))
		r.RemoteAddr = "127.0.0.1:4000"
		if form != nil {
			r.Header.Set("Content-Type", "application/x-www-form-urlencoded")
		}
		w := httptest.NewRecorder()
		h.site.ServeHTTP(w, r)
		return w.Body.Bytes()
	}
	for _, run := range []string{"liner/bore", "crankshaft/main-journal", "crankshaft/crankpin", "piston/skirt", "head/face"} {
		path := "/m/codlin/run/f/" + run
		page := string(send("GET", path, nil))
		out = append(out, []byte(page))
		_, point, _ := strings.Cut(page, `name="point" value="`)
		point, _, _ = strings.Cut(point, `"`)
		for _, typed := range []string{"abc", "3.0", "1932", "5 bar", "45 N·m"} {
			if refused := send("POST", path, url.Values{"point": {point}, "reading": {typed}}); len(refused) > 0 {
				out = append(out, refused)
			}
		}
	}
	return out
}

// TestRunIsWholeInGerman: nothing on the page of a run stays English.
func TestRunIsWholeInGerman(t *testing.T) {
	h := demoHouse(t)
	l := language.Load()[0]
	for i, page := range runPages(h) {
		if !strings.Contains(string(page), `id="reading"`) {
			t.Fatalf("page %d is no run: %.300s", i, page)
		}
		l.Page(page, func(text string) { t.Errorf("page %d: %q stays as it is, or in part", i, text) })
	}
}

// BenchmarkGermanPage: a run's page put into German, its texts said before.
func BenchmarkGermanPage(b *testing.B) {
	page := runPages(demoHouse(b))[0]
	l := language.Load()[0]
	for b.Loop() {
		l.Page(page, nil)
	}
}

// BenchmarkGermanFirst: the same with nothing said before.
func BenchmarkGermanFirst(b *testing.B) {
	page := runPages(demoHouse(b))[0]
	for b.Loop() {
		b.StopTimer()
		l := language.Load()[0]
		b.StartTimer()
		l.Page(page, nil)
	}
}
