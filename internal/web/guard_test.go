package web

import (
	"net/http"
	"net/http/httptest"
	"net/url"
	"regexp"
	"strings"
	"testing"
)

// TestHosts: the site answers to loopback names and those it was given.
func TestHosts(t *testing.T) {
	h := newHouse(t)
	for host, want := range map[string]int{"localhost:8080": 200, "127.0.0.1": 200, "[::1]:9000": 200, "bench.home.arpa": 200,
		"BENCH.home.arpa:80": 200, "evil.example": 421, "localhost.evil.example": 421, "": 421, "192.168.1.9:80": 421} {
		r := httptest.NewRequest("GET", "http://localhost/", nil)
		r.Host = host
		h.send(r).is(want)
	}
}

// TestForeignWrites: a post that another site sent keeps nothing.
func TestForeignWrites(t *testing.T) {
	h := newHouse(t)
	before := h.view().Machine.Entries
	for name, set := range map[string]func(http.Header){
		"fetch metadata": func(g http.Header) { g.Set("Sec-Fetch-Site", "cross-site") },
		"origin only":    func(g http.Header) { g.Set("Origin", "http://evil.example") },
	} {
		form := url.Values{"do": {"note"}, "text": {"from elsewhere"}}
		r := httptest.NewRequest("POST", "http://localhost:8080/m/codlin/part/crankshaft", strings.NewReader(form.Encode()))
		r.Header.Set("Content-Type", "application/x-www-form-urlencoded")
		set(r.Header)
		if p := h.send(r); p.status != 403 {
			t.Errorf("%s: status %d, want 403", name, p.status)
		}
	}
	if after := h.view().Machine.Entries; after != before {
		t.Errorf("%d entries were kept", after-before)
	}
}

// TestHeaders: what every page carries.
func TestHeaders(t *testing.T) {
	p := newHouse(t).ask("GET", "/m/codlin", nil).is(200)
	for name, want := range map[string]string{"X-Content-Type-Options": "nosniff", "Referrer-Policy": "same-origin", "Cache-Control": "no-cache"} {
		if got := p.header.Get(name); got != want {
			t.Errorf("%s is %q, want %q", name, got, want)
		}
	}
	if !strings.Contains(p.header.Get("Permissions-Policy"), "camera=(self)") {
		t.Error("no permissions policy")
	}
}

// TestGround: the button swaps the ground and comes back, to this site only.
func TestGround(t *testing.T) {
	h := newHouse(t)
	for back, want := range map[string]string{"/m/codlin/fits": "/m/codlin/fits", "https://evil.example/": "/", "//evil.example": "/", "/\\evil": "/", "": "/"} {
		p := h.ask("POST", "/ground", url.Values{"back": {back}}).is(303)
		if got := p.header.Get("Location"); got != want {
			t.Errorf("back %q goes to %q, want %q", back, got, want)
		}
	}
	r := httptest.NewRequest("GET", "http://localhost/m/codlin", nil)
	r.AddCookie(&http.Cookie{Name: "ground", Value: "film"})
	p := h.send(r).is(200)
	if g, _ := attr(p.elements[0], "data-ground"); g != "film" {
		t.Errorf("ground is %q", g)
	}
	p.says("Blue ground")
}

// TestAssets: every file under its hashed address, kept for ever, packed where
// that helps; no family name that a licence reserves.
func TestAssets(t *testing.T) {
	h := newHouse(t)
	set := loadAssets()
	if len(set.at) < 6 {
		t.Fatalf("only %d assets", len(set.at))
	}
	fonts := 0
	for name, at := range set.at {
		if !regexp.MustCompile(`^/a/[0-9a-f]{10}/` + regexp.QuoteMeta(name) + `$`).MatchString(at) {
			t.Errorf("%s stands at %s", name, at)
		}
		p := h.ask("GET", at, nil).is(200)
		if !strings.Contains(p.header.Get("Cache-Control"), "immutable") {
			t.Errorf("%s is not immutable", name)
		}
		if strings.HasSuffix(name, ".woff2") {
			fonts += len(p.raw)
		}
	}
	if fonts > 60<<10 {
		t.Errorf("fonts weigh %d bytes, want at most 60 KB", fonts)
	}
	css, _ := assetFiles.ReadFile("assets/scribe.css")
	if strings.Contains(string(css), "Routed Gothic") {
		t.Error("the style sheet calls a modified font by its reserved name")
	}
	for _, m := range regexp.MustCompile(`url\(([^#)]*)\)`).FindAllStringSubmatch(string(set.by[set.at["scribe.css"]].plain), -1) {
		if _, err := set.address(m[1]); err != nil {
			t.Errorf("the style sheet: %v", err)
		}
	}
	for name := range set.at {
		for _, m := range regexp.MustCompile(`(?:from|import)\s*\(?"\./([^"]*)"`).FindAllSubmatch(set.by[set.at[name]].plain, -1) {
			if _, err := set.address(string(m[1])); err != nil {
				t.Errorf("%s: %v", name, err)
			}
		}
	}
	if _, err := set.address("none.css"); err == nil {
		t.Error("a missing asset has an address")
	}
}
