package web

import (
	"context"
	"crypto/tls"
	"fmt"
	"io"
	"maps"
	"net"
	"net/http"
	"net/http/httptest"
	"net/netip"
	"net/url"
	"regexp"
	"slices"
	"strings"
	"testing"
	"time"

	"matchmark/internal/bench"
	"matchmark/internal/benchlock"
	"matchmark/internal/door"
	"matchmark/internal/machine"
	"matchmark/internal/store"
)

// lan is the address of this box on the network, as phones call it.
const lan = "192.168.1.5:7462"

// yard is a small shop, its clock held still, with phones outside.
type yard struct {
	*house
	at   time.Time
	log  store.Log
	lock *benchlock.Lock
}

func newYard(t *testing.T, opt Options) *yard {
	t.Helper()
	y := &yard{house: &house{t: t}, at: clock, log: store.OpenMemory(), lock: opt.Lock}
	now := func() time.Time { return y.at }
	y.shop = bench.NewShop(y.log, now)
	var err error
	facts := []machine.Body{&machine.MachineNamed{Name: "Wendle Codlin 18"}, &machine.PartAdded{ID: "crankshaft", Name: "Crankshaft"}}
	if y.b, err = y.shop.Start(t.Context(), "codlin", "Wendle Codlin 18", bench.Who{By: "R."}, facts); err != nil {
		t.Fatal(err)
	}
	opt.By, opt.Now = "R.", now
	opt.Reach = func() []string { return []string{"http://" + lan} }
	y.site = New(y.shop, opt)
	return y
}

// phone is a browser outside, with what it was given.
type phone struct {
	*yard
	ip, host string
	cookies  map[string]string
}

func (y *yard) phone(ip string) *phone {
	return &phone{yard: y, ip: ip, host: lan, cookies: map[string]string{}}
}

func (p *phone) request(method, path string, form url.Values) *http.Request {
	r := httptest.NewRequest(method, "http://"+p.host+path, strings.NewReader(form.Encode()))
	if method == "POST" {
		r.Header.Set("Content-Type", "application/x-www-form-urlencoded")
		r.Header.Set("Origin", "http://"+p.host)
	}
	r.RemoteAddr = net.JoinHostPort(p.ip, "50123")
	at := net.TCPAddrFromAddrPort(netip.MustParseAddrPort(lan))
	r = r.WithContext(context.WithValue(r.Context(), http.LocalAddrContextKey, net.Addr(at)))
	for name, value := range p.cookies {
		r.AddCookie(&http.Cookie{Name: name, Value: value})
	}
	return r
}

func (p *phone) do(r *http.Request) *page {
	p.t.Helper()
	got := p.send(r)
	for _, c := range (&http.Response{Header: got.header}).Cookies() {
		p.cookies[c.Name] = c.Value
	}
	return got
}

func (p *phone) ask(method, path string, form url.Values) *page {
	p.t.Helper()
	return p.do(p.request(method, path, form))
}

func (y *yard) code() door.Code {
	y.t.Helper()
	c, err := door.New(y.log, func() time.Time { return y.at }).NewCode(y.t.Context())
	if err != nil {
		y.t.Fatal(err)
	}
	return c
}

func (p *phone) join(key url.Values) *page {
	p.t.Helper()
	form := url.Values{"by": {"Ansa"}, "name": {"Ansa's phone"}, "back": {"/m/codlin"}}
	for k, v := range key {
		form[k] = v
	}
	return p.ask("POST", "/pair", form)
}

// in is a phone that was let in.
func (y *yard) in(ip string) *phone {
	y.t.Helper()
	p := y.phone(ip)
	p.join(url.Values{"secret": {y.code().Secret}}).is(303)
	return p
}

var wild = regexp.MustCompile(`\{[^}]*\}`)

// TestEveryAddressIsShutToStrangers walks all addresses of the site, so that a
// new one cannot be forgotten: without a pass each answers with the pairing
// page, and those that do not are these few.
func TestEveryAddressIsShutToStrangers(t *testing.T) {
	y := newYard(t, Options{})
	all := (&site{assets: loadAssets()}).routes().all
	if len(all) < 40 {
		t.Fatalf("only %d addresses were found", len(all))
	}
	before := y.entries()
	open := map[string]bool{}
	for _, pattern := range all {
		method, path, cut := strings.Cut(pattern, " ")
		if !cut {
			method, path = "GET", pattern
		}
		path = strings.TrimSuffix(wild.ReplaceAllString(path, "x"), "/x$")
		path = strings.Replace(strings.Replace(path, "/m/x", "/m/codlin", 1), "{$}", "", 1)
		for _, ip := range []string{"192.168.1.77", "203.0.113.9", "fd00::77"} {
			p := y.phone(ip).ask(method, path, url.Values{"text": {"from outside"}, "do": {"note"}})
			shut := p.status == http.StatusUnauthorized && strings.Contains(p.text, "Six digits")
			if !shut {
				open[pattern] = true
			}
			if shut && strings.Contains(p.text, "Codlin") {
				t.Errorf("%s tells a stranger of the machines: %s", pattern, clip(p.text, 300))
			}
		}
	}
	want := []string{"GET /a/{hash}/{name}", "GET /lock", "GET /lock.crt", "GET /pair", "GET /sw.js", "POST /ground", "POST /language", "POST /pair"}
	if got := slices.Sorted(maps.Keys(open)); !slices.Equal(got, want) {
		t.Errorf("open to strangers is %q, want %q", got, want)
	}
	if got := y.entries(); got != before {
		t.Errorf("strangers recorded %d entries", got-before)
	}
	for _, bad := range []string{"//m/codlin", "/pair/../m/codlin", "/a/../m/codlin", "/nowhere"} {
		r := y.phone("192.168.1.77").request("GET", "/", nil)
		r.URL.Path = bad
		if p := y.send(r); p.status == 200 || strings.Contains(p.text, "Codlin") {
			t.Errorf("%s answers %d: %s", bad, p.status, clip(p.text, 200))
		}
	}
}

func (y *yard) entries() int {
	y.t.Helper()
	v, err := y.b.View(y.t.Context())
	if err != nil {
		y.t.Fatal(err)
	}
	return v.Machine.Entries
}

// TestThisComputerIsOpen as it was, by IPv4 and IPv6; a peer that cannot be
// told is a stranger.
func TestThisComputerIsOpen(t *testing.T) {
	y := newYard(t, Options{})
	for addr, want := range map[string]int{"127.0.0.1:1": 200, "[::1]:1": 200, "[::ffff:127.0.0.1]:1": 200, "127.8.8.8:1": 200,
		"192.168.1.77:1": 401, "[::ffff:192.168.1.77]:1": 401, "[fe80::1%eth0]:1": 401, "@": 401, "": 401} {
		r := httptest.NewRequest("GET", "http://localhost:7462/m/codlin", nil)
		r.RemoteAddr = addr
		if p := y.send(r); p.status != want {
			t.Errorf("from %q: %d, want %d", addr, p.status, want)
		}
	}
}

// TestAPhoneComesInAndRecordsByItsPerson: once by each key; its facts bear the
// name given and the device's.
func TestAPhoneComesInAndRecordsByItsPerson(t *testing.T) {
	y := newYard(t, Options{})
	p := y.phone("192.168.1.77")
	shut := p.ask("GET", "/m/codlin/part/crankshaft", nil).is(401)
	if back := shut.value("back"); back != "/m/codlin/part/crankshaft" {
		t.Errorf("the pairing page leads back to %q", back)
	}
	if shut.header.Get("WWW-Authenticate") == "" {
		t.Error("401 without its header (RFC 9110 §11.6.1)")
	}
	code := y.code()
	done := p.join(url.Values{"digits": {code.Spaced()}}).is(303)
	if to := done.header.Get("Location"); to != "/m/codlin" {
		t.Errorf("it is led to %q", to)
	}
	p.ask("GET", "/m/codlin", nil).is(200)
	p.ask("POST", "/m/codlin/part/crankshaft", url.Values{"do": {"note"}, "text": {"journals blued"}, "once": {"w1"}}).is(303)
	log, err := y.log.Since(t.Context(), "codlin", 0)
	if err != nil {
		t.Fatal(err)
	}
	last := log[len(log)-1]
	if last.By != "Ansa" || last.Device != "Ansa's phone" {
		t.Errorf("recorded by %q on %q", last.By, last.Device)
	}
	thief := y.phone("192.168.1.78")
	thief.join(url.Values{"digits": {code.Digits}}).is(422).says("not good any more")
	thief.join(url.Values{"secret": {code.Secret}}).is(422).says("not good any more")
	thief.ask("GET", "/m/codlin", nil).is(401)
}

// TestCookieFlags: out of reach of scripts and other sites; under TLS held to
// TLS and to this host by its name.
func TestCookieFlags(t *testing.T) {
	y := newYard(t, Options{})
	plain := y.phone("192.168.1.77").join(url.Values{"secret": {y.code().Secret}}).is(303).header.Get("Set-Cookie")
	r := y.phone("192.168.1.78").request("POST", "/pair", url.Values{"by": {"A"}, "secret": {y.code().Secret}})
	r.TLS = tlsState
	secure := y.send(r).is(303).header.Get("Set-Cookie")
	for _, want := range []string{"HttpOnly", "SameSite=Strict", "Path=/;", "Max-Age=34560000"} {
		if !strings.Contains(plain, want) || !strings.Contains(secure, want) {
			t.Errorf("no %s in %q and %q", want, plain, secure)
		}
	}
	if !strings.HasPrefix(secure, "__Host-pass=") || !strings.Contains(secure, "; Secure") || strings.Contains(secure, "Domain") {
		t.Errorf("under TLS: %q", secure)
	}
	if !strings.HasPrefix(plain, "pass=") || strings.Contains(plain, "; Secure") {
		t.Errorf("without TLS: %q", plain)
	}
}

// TestALostNameLosesNoCode: the form comes back as it was, the code unspent.
func TestALostNameLosesNoCode(t *testing.T) {
	y := newYard(t, Options{})
	p, c := y.phone("192.168.1.77"), y.code()
	back := p.join(url.Values{"by": {" "}, "secret": {c.Secret}}).is(422)
	back.says("Your name is missing")
	if back.value("secret") != c.Secret || back.value("name") != "Ansa's phone" {
		t.Error("what was typed is lost")
	}
	p.join(url.Values{"secret": {c.Secret}}).is(303)
}

// TestExpiryAndLockout at the page.
func TestExpiryAndLockout(t *testing.T) {
	y := newYard(t, Options{})
	c := y.code()
	y.at = y.at.Add(door.CodeLasts)
	y.phone("192.168.1.77").join(url.Values{"secret": {c.Secret}}).is(422).says("ten minutes")

	c = y.code()
	wrong := url.Values{"digits": {"000000"}}
	if c.Digits == "000000" {
		wrong = url.Values{"digits": {"000001"}}
	}
	for i := range door.MaxMissed {
		p := y.phone(fmt.Sprintf("192.168.1.%d", 80+i)).join(wrong).is(422)
		if left := door.MaxMissed - 1 - i; left > 0 {
			p.says(plural(left, "try", "tries") + " left")
		}
	}
	y.phone("192.168.1.90").join(url.Values{"digits": {c.Digits}}).is(422).says("not good any more")
}

// TestPairingIsSlow: one stranger, and all of them together, have few tries.
func TestPairingIsSlow(t *testing.T) {
	y := newYard(t, Options{})
	one := y.phone("192.168.1.77")
	for range 5 {
		one.join(url.Values{"digits": {"1"}}).is(422)
	}
	p := one.join(url.Values{"digits": {"1"}}).is(429)
	if p.header.Get("Retry-After") != "11" {
		t.Errorf("Retry-After %q", p.header.Get("Retry-After"))
	}
	p.says("Too many at once", "11 seconds")
	for i := range 5 {
		y.phone(fmt.Sprintf("fd00:0:0:%d::1", i)).join(url.Values{"digits": {"1"}}).is(422)
	}
	y.phone("192.168.1.200").join(url.Values{"digits": {"1"}}).is(429)
	neighbours := newYard(t, Options{})
	for i := range 5 {
		neighbours.phone(fmt.Sprintf("fd00::%d", i+1)).join(url.Values{"digits": {"1"}}).is(422)
	}
	neighbours.phone("fd00::99").join(url.Values{"digits": {"1"}}).is(429)
}

// TestAnOutboxComesHome: 200 records at once pass, and a flood does not.
func TestAnOutboxComesHome(t *testing.T) {
	y := newYard(t, Options{})
	p := y.in("192.168.1.77")
	note := func(i int) *page {
		return p.ask("POST", "/m/codlin/part/crankshaft", url.Values{"do": {"note"}, "text": {"note"}, "once": {fmt.Sprint("w", i)}})
	}
	for i := range 200 {
		note(i).is(303)
	}
	passed := 0
	for i := range 200 {
		if note(1000+i).status == 303 {
			passed++
		}
	}
	if passed != 50 {
		t.Errorf("%d of 200 more passed in the same instant, want 50", passed)
	}
	refused := note(5000).is(429)
	if refused.header.Get("Retry-After") != "1" {
		t.Errorf("Retry-After %q", refused.header.Get("Retry-After"))
	}
	p.ask("GET", "/m/codlin", nil).is(200)
	y.in("192.168.1.78").ask("POST", "/m/codlin/part/crankshaft", url.Values{"do": {"note"}, "text": {"another's"}, "once": {"x"}}).is(303)
	y.at = y.at.Add(time.Second)
	note(6000).is(303)
}

// TestLetOutAtOnce: the page that lets out takes effect for the very next
// request, and what the device sends then is not kept.
func TestLetOutAtOnce(t *testing.T) {
	y := newYard(t, Options{})
	p, other := y.in("192.168.1.77"), y.in("192.168.1.78")
	list := other.ask("GET", "/devices", nil).is(200)
	list.says("Ansa's phone this one", "Let out")
	devices, err := door.New(y.log, fixed).Devices(t.Context())
	if err != nil || len(devices) != 2 {
		t.Fatalf("%+v, %v", devices, err)
	}
	for _, d := range devices {
		if strings.HasPrefix(p.cookies["pass"], d.ID) {
			other.ask("POST", "/devices", url.Values{"out": {d.ID}}).is(200).says("Ansa's phone of Ansa is out")
		}
	}
	before := y.entries()
	p.ask("POST", "/m/codlin/part/crankshaft", url.Values{"do": {"note"}, "text": {"too late"}, "once": {"z"}}).is(401).says("is not in the book")
	p.ask("GET", "/m/codlin", nil).is(401)
	other.ask("GET", "/m/codlin", nil).is(200)
	if got := y.entries(); got != before {
		t.Error("a device that was let out recorded")
	}
	other.ask("POST", "/devices", url.Values{"out": {"nobody"}}).is(200).says("let out before")
}

// TestOneBrowserOnePass: joining again under another name ends the first pass.
func TestOneBrowserOnePass(t *testing.T) {
	y := newYard(t, Options{})
	p := y.in("192.168.1.77")
	p.join(url.Values{"by": {"Bo"}, "secret": {y.code().Secret}}).is(303)
	devices, err := door.New(y.log, fixed).Devices(t.Context())
	if err != nil || len(devices) != 1 || devices[0].By != "Bo" {
		t.Errorf("%+v, %v", devices, err)
	}
}

// TestForeignPagesOnPlainHTTP: browsers send no Sec-Fetch-Site there, so Origin
// against Host has to hold, for a phone that was let in and for this computer.
func TestForeignPagesOnPlainHTTP(t *testing.T) {
	y := newYard(t, Options{Hosts: []string{"bench.local"}})
	p := y.in("192.168.1.77")
	before := y.entries()
	form := url.Values{"do": {"note"}, "text": {"from elsewhere"}, "once": {"f"}}
	for _, origin := range []string{"http://evil.example", "http://192.168.1.6:7462", "http://192.168.1.5:80", "http://bench.local:7462", "null"} {
		for _, ip := range []string{"192.168.1.77", "127.0.0.1"} {
			r := p.request("POST", "/m/codlin/part/crankshaft", form)
			r.RemoteAddr = ip + ":50123"
			r.Header.Set("Origin", origin)
			if got := y.send(r); got.status != 403 {
				t.Errorf("from %s of origin %s: %d, want 403", ip, origin, got.status)
			}
		}
	}
	if got := y.entries(); got != before {
		t.Error("a foreign page recorded")
	}
	p.host = "bench.local:7462"
	p.ask("POST", "/m/codlin/part/crankshaft", form).is(303)
}

// TestHostsOnTheNetwork: the address that was called and names given; a name
// that a foreign page made lead here is refused even from this computer.
func TestHostsOnTheNetwork(t *testing.T) {
	y := newYard(t, Options{Hosts: []string{"bench.local"}})
	for host, want := range map[string]int{lan: 200, "192.168.1.5": 200, "bench.local:7462": 200, "192.168.1.6:7462": 421,
		"evil.example:7462": 421, "192.168.1.5.evil.example": 421, "[::ffff:192.168.1.5]:7462": 200, "[fd00::5]:7462": 421} {
		for _, ip := range []string{"192.168.1.77", "127.0.0.1"} {
			p := y.phone(ip)
			p.host = host
			if got := p.ask("GET", "/pair", nil); got.status != want {
				t.Errorf("from %s as %s: %d, want %d", ip, host, got.status, want)
			}
		}
	}
}

// TestDevicesPageMakesACode that lets one in, shown nowhere but there.
func TestDevicesPageMakesACode(t *testing.T) {
	y := newYard(t, Options{})
	p := y.house.ask("POST", "/devices", url.Values{"at": {"http://" + lan}}).is(200)
	digits := regexp.MustCompile(`\d{3} \d{3}`).FindString(p.text)
	p.says("http://"+lan+"/pair", "until 14:30")
	if strings.Contains(string(p.raw), "#") && strings.Contains(string(p.raw), "/pair#") {
		t.Error("the page spells out the secret")
	}
	y.phone("192.168.1.77").join(url.Values{"digits": {digits}}).is(303)
	if again := y.house.ask("GET", "/devices", nil).is(200); strings.Contains(again.text, digits) {
		t.Error("the digits are shown again")
	}
	y.house.ask("POST", "/devices", url.Values{"at": {"http://evil.example"}}).is(200).says("http://" + lan + "/pair")
}

var tlsState = &tls.ConnectionState{Version: tls.VersionTLS13, HandshakeComplete: true}

// TestAStreamEndsWithItsDevice: what was open when a device was let out is shut
// within seconds.
func TestAStreamEndsWithItsDevice(t *testing.T) {
	y := newYard(t, Options{})
	p := y.in("192.168.1.77")
	s := httptest.NewServer(http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		r.RemoteAddr = "192.168.1.77:50123"
		y.site.ServeHTTP(w, r)
	}))
	defer s.Close()
	r, err := http.NewRequestWithContext(t.Context(), "GET", s.URL+"/m/codlin/live", nil)
	if err != nil {
		t.Fatal(err)
	}
	r.AddCookie(&http.Cookie{Name: "pass", Value: p.cookies["pass"]})
	got, err := http.DefaultClient.Do(r)
	if err != nil || got.StatusCode != 200 {
		t.Fatalf("%v, %v", got, err)
	}
	defer got.Body.Close()
	ended := make(chan struct{})
	go func() {
		_, _ = io.Copy(io.Discard, got.Body)
		close(ended)
	}()
	select {
	case <-ended:
		t.Fatal("the stream ends by itself")
	case <-time.After(3 * time.Second):
	}
	id, _, _ := strings.Cut(p.cookies["pass"], ".")
	y.house.ask("POST", "/devices", url.Values{"out": {id}}).is(200)
	select {
	case <-ended:
	case <-time.After(5 * time.Second):
		t.Error("the stream still runs five seconds after its device was let out")
	}
}
