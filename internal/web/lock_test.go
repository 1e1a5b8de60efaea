package web

import (
	"bytes"
	"crypto/x509"
	"net/netip"
	"net/url"
	"strings"
	"testing"

	"matchmark/internal/benchlock"
)

func newLock(t *testing.T) *benchlock.Lock {
	t.Helper()
	l, err := benchlock.Open(t.TempDir(), benchlock.Want{Shop: "shed", Addrs: []netip.Addr{netip.MustParseAddr("192.168.1.5")}}, fixed)
	if err != nil {
		t.Fatal(err)
	}
	return l
}

// TestOutsideTheLock: without TLS a stranger gets the certificate and how to
// trust it, and nothing else; a pass or a code sent that way opens nothing.
func TestOutsideTheLock(t *testing.T) {
	y := newYard(t, Options{Lock: newLock(t)})
	p := y.phone("192.168.1.77")
	to := p.ask("GET", "/m/codlin/part/crankshaft?x=1", nil).is(303).header.Get("Location")
	if to != "/lock?to=%2Fm%2Fcodlin%2Fpart%2Fcrankshaft%3Fx%3D1" {
		t.Fatalf("led to %q", to)
	}
	page := p.ask("GET", to, nil).is(200)
	page.says(y.lock.Fingerprint(), "Matchmark bench lock of shed", "Certificate Trust Settings", "CA certificate", "not tried on a real phone")
	if !strings.Contains(string(page.raw), `href="https://`+lan+`/m/codlin/part/crankshaft?x=1"`) {
		t.Error("the page does not lead on to the one that was wanted")
	}
	for _, bad := range []string{"//evil.example/", "https://evil.example/", "/\\evil.example"} {
		page := p.ask("GET", "/lock?to="+url.QueryEscape(bad), nil).is(200)
		if !strings.Contains(string(page.raw), `href="https://`+lan+`/pair"`) {
			t.Errorf("to %q leads elsewhere", bad)
		}
	}
	code := y.code()
	p.join(url.Values{"secret": {code.Secret}}).is(403).says("outside the bench lock")
	p.ask("GET", "/pair", nil).is(303)
	file := p.ask("GET", "/lock.crt", nil).is(200)
	if kind := file.header.Get("Content-Type"); kind != "application/x-x509-ca-cert" {
		t.Errorf("the certificate comes as %q", kind)
	}
	if c, err := x509.ParseCertificate(file.raw); err != nil || !c.IsCA || !bytes.Equal(c.Raw, y.lock.Certificate()) {
		t.Errorf("the certificate is not the authority's: %v", err)
	}

	r := p.request("POST", "/pair", url.Values{"by": {"Ansa"}, "secret": {code.Secret}})
	r.TLS = tlsState
	p.do(r).is(303)
	p.cookies["pass"] = p.cookies["__Host-pass"]
	p.ask("GET", "/m/codlin", nil).is(303)
	for path, want := range map[string]int{"/m/codlin": 200, "/lock": 200, "/devices": 200} {
		r := p.request("GET", path, nil)
		r.TLS = tlsState
		got := p.do(r).is(want)
		if path == "/lock" {
			got.says("this device trusts it")
		}
	}
	y.house.ask("GET", "/m/codlin", nil).is(200)
}

// TestWithoutTheLock the page says so, and there is no certificate.
func TestWithoutTheLock(t *testing.T) {
	y := newYard(t, Options{})
	y.phone("192.168.1.77").ask("GET", "/lock", nil).is(200).says("without the bench lock", "--lock")
	y.phone("192.168.1.77").ask("GET", "/lock.crt", nil).is(404)
}
