package main_test

import (
	"context"
	"encoding/json"
	"image"
	"image/jpeg"
	"net"
	"net/netip"
	"net/url"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"
	"time"

	"github.com/chromedp/chromedp"
	"github.com/chromedp/chromedp/kb"

	"matchmark/internal/trial"
)

// ownAddr is an address of this computer that other devices could call; want
// chooses among several.
func ownAddr(t *testing.T, want func(netip.Addr) bool) netip.Addr {
	t.Helper()
	all, err := net.InterfaceAddrs()
	if err != nil {
		t.Fatal(err)
	}
	for _, one := range all {
		if p, err := netip.ParsePrefix(one.String()); err == nil && p.Addr().Is4() && p.Addr().IsGlobalUnicast() && want(p.Addr()) {
			return p.Addr()
		}
	}
	return netip.Addr{}
}

// pairCode asks the program for a code, beside the server.
func pairCode(t *testing.T, s *trial.Server, more ...string) (address, digits string) {
	t.Helper()
	var code struct{ Address, Digits string }
	text := s.Run(t, append([]string{"pair", "--json", "--book", s.Book()}, more...)...)
	if err := json.Unmarshal([]byte(text), &code); err != nil {
		t.Fatalf("%v in %s", err, text)
	}
	return code.Address, code.Digits
}

// inTheLog waits until an entry with all these words is in the book. However
// busy the machine, the page's outbox sends what it keeps.
func inTheLog(t *testing.T, s *trial.Server, words ...string) {
	t.Helper()
	log := ""
	for end := time.Now().Add(time.Minute); time.Now().Before(end); time.Sleep(100 * time.Millisecond) {
		log = s.Run(t, "log", "show", "--book", s.Book(), "--last", "5", "--json")
		for line := range strings.Lines(log) {
			if !slices.ContainsFunc(words, func(w string) bool { return !strings.Contains(line, w) }) {
				return
			}
		}
	}
	t.Errorf("no entry of the log holds %q:\n%s", words, log)
}

// comeIn pairs a tab by the address that its camera would read.
func comeIn(tab *trial.Tab, address, by string) {
	tab.Open(address)
	tab.Until("the code to be taken", "document.activeElement.id === 'by' && !location.hash && document.getElementById('secret').value.length === 22")
	tab.Keys(by + kb.Enter)
	tab.Until("the way in", "location.pathname === '/'")
}

// TestCheck13: plain http beyond this computer. Over an address of this computer
// that is not the loopback one, and so without a secure context, a phone pairs
// by the picture's address and records a reading and a photo, under its
// person's name, with nothing on the console.
func TestCheck13(t *testing.T) {
	addr := ownAddr(t, func(netip.Addr) bool { return true })
	if !addr.IsValid() {
		t.Skip("SKIPPED: this computer has no address but the loopback one")
	}
	s := trial.Serve(t, t.TempDir(), "demo", "--addr", "0.0.0.0:0")
	address, _ := pairCode(t, s, "--at", addr.String())
	base := address[:strings.Index(address, "pair#")]
	if !strings.Contains(base, addr.String()) {
		t.Fatalf("the code leads to %s, want %s", base, addr)
	}
	tab := trial.NewTab(t, 390, 844)
	comeIn(tab, address, "Ansa")
	if trial.Ask[bool](tab, "isSecureContext || 'serviceWorker' in navigator || 'locks' in navigator || typeof crypto.randomUUID === 'function'") {
		t.Fatal("this is a secure context; the check would prove nothing")
	}
	if trial.Ask[string](tab, "document.cookie") != "" {
		t.Error("a script can read the pass")
	}

	tab.Open(base + "m/codlin")
	run := trial.Ask[string](tab, "(document.querySelector('a[href*=\"/run/\"]')||{}).href||''")
	tab.Open(run)
	tab.Until("the reading field", active)
	figure := trial.Ask[string](tab, "(document.querySelector('.cells .num')||{}).innerText||'52.03'")
	tab.SelectAll()
	tab.Keys(figure + kb.Enter)
	inTheLog(t, s, `"reading-taken"`, `"by":"Ansa"`, `"device":"Computer"`)

	file := filepath.Join(t.TempDir(), "photo.jpg")
	f, err := os.Create(file)
	if err != nil {
		t.Fatal(err)
	}
	if err := jpeg.Encode(f, image.NewGray(image.Rect(0, 0, 640, 480)), nil); err != nil {
		t.Fatal(err)
	}
	if err := f.Close(); err != nil {
		t.Fatal(err)
	}
	tab.Open(base + "m/codlin/photo?part=crankshaft")
	tab.Do(chromedp.SetUploadFiles(chromedp.CSS("#photo"), []string{file}))
	tab.Until("the photo made small", `document.querySelector("img.chosen")?.naturalWidth`) // it pushes the button down
	tab.Set("#line", "seen from a phone")
	tab.Click("form[enctype] button.main")
	inTheLog(t, s, `"photo-added"`, "seen from a phone", `"by":"Ansa"`)
	tab.Quiet()

	t.Run("let out, and in again", func(t *testing.T) {
		tab.Open(run)
		tab.Until("the reading field", active)
		var list []struct{ ID, By string }
		if err := json.Unmarshal([]byte(s.Run(t, "devices", "list", "--json", "--book", s.Book())), &list); err != nil || len(list) != 1 || list[0].By != "Ansa" {
			t.Fatalf("%+v, %v", list, err)
		}
		s.Run(t, "devices", "drop", list[0].ID, "--book", s.Book())
		tab.Allow("401")
		tab.SelectAll()
		tab.Keys(figure + kb.Enter)
		tab.Until("the reading kept here", "document.body.innerText.includes('Kept here: ')")
		tab.Open(base + "m/codlin")
		tab.Until("the pairing page", "document.getElementById('digits')")
		address, _ := pairCode(t, s, "--at", addr.String())
		tab.Open(base + "pair")
		comeIn(tab, address, "Ann") // read while the page stood open
		inTheLog(t, s, `"reading-taken"`, `"by":"Ann"`)
	})
}

// TestAPhoneWithoutScripts pairs by the six digits.
func TestAPhoneWithoutScripts(t *testing.T) {
	addr := ownAddr(t, func(netip.Addr) bool { return true })
	if !addr.IsValid() {
		t.Skip("SKIPPED: this computer has no address but the loopback one")
	}
	s := trial.Serve(t, t.TempDir(), "demo", "--addr", addr.String()+":0")
	_, digits := pairCode(t, s)
	tab := trial.NewTab(t, 360, 740)
	tab.NoScript(true)
	tab.Allow("401")
	tab.Open(s.URL + "m/codlin/fits")
	tab.Set("#digits", digits)
	tab.Set("#by", "Bo")
	tab.Click("button.main")
	tab.Until("the page that was wanted", "location.pathname === '/m/codlin/fits' && document.querySelector('nav')")
	tab.Quiet()
}

// lockName is a name that the bench lock may vouch for (RFC 8375). The browser
// is told that it is this computer.
const lockName = "shed.home.arpa"

// TestTheBrowserTrustsTheLock: once the authority is in the browser's store
// the page is a secure context; before, it is refused by name.
func TestTheBrowserTrustsTheLock(t *testing.T) {
	s := trial.Serve(t, t.TempDir(), "demo", "--addr", "127.0.0.1:0", "--lock", "--name", lockName)
	at, err := url.Parse(s.URL)
	if err != nil {
		t.Fatal(err)
	}
	page := lockName + ":" + at.Port() + "/m/codlin"
	flags := map[string]any{"host-resolver-rules": "MAP " + lockName + " 127.0.0.1"}

	t.Setenv("HOME", t.TempDir())
	stranger := trial.OwnBrowser(t, flags).Tab(t, 800, 600)
	if err := visit(stranger, "https://"+page); err == nil || !strings.Contains(err.Error(), "ERR_CERT_AUTHORITY_INVALID") {
		t.Errorf("a browser that was not told: %v", err)
	}

	s.TrustLock(t)
	told := trial.OwnBrowser(t, flags).Tab(t, 800, 600)
	told.Open("http://" + page)
	const secure = "isSecureContext && 'serviceWorker' in navigator && !!navigator.mediaDevices"
	if trial.Ask[bool](told, secure) {
		t.Fatal("plain http under that name is a secure context; the test would prove nothing")
	}
	told.Open("https://" + page)
	if !trial.Ask[bool](told, secure) {
		t.Error("https under the lock is no secure context")
	}
	told.Quiet()

	addr := ownAddr(t, netip.Addr.IsPrivate)
	if !addr.IsValid() {
		t.Log("this computer has no private IPv4 address; the lock is tried under a name only")
		return
	}
	lan := trial.Serve(t, s.Home, "demo", "--addr", addr.String()+":0", "--lock", "--book", filepath.Join(filepath.Dir(s.Book()), "second.db"))
	text := lan.Run(t, "pair", "--json", "--book", filepath.Join(filepath.Dir(s.Book()), "second.db"))
	var code struct{ Address string }
	if err := json.Unmarshal([]byte(text), &code); err != nil {
		t.Fatal(err)
	}
	comeIn(told, code.Address, "Ansa")
	if !strings.HasPrefix(code.Address, "https://"+addr.String()) || !trial.Ask[bool](told, secure) {
		t.Errorf("at %s the page is no secure context", code.Address)
	}
	told.Quiet()
}

// visit opens an address and tells why it could not be.
func visit(tab *trial.Tab, at string) error {
	ctx, cancel := context.WithTimeout(tab.Ctx, 30*time.Second)
	defer cancel()
	return chromedp.Do(ctx, chromedp.Navigate(at))
}

// TestFirstServe: the shop's own book is made at the first serve, and the page
// offers three ways to begin; a book that was named and is not there is not
// made.
func TestFirstServe(t *testing.T) {
	s := trial.Serve(t, t.TempDir(), "serve")
	tab := trial.NewTab(t, 390, 844)
	tab.Open(s.URL)
	for _, way := range []string{"Start a machine", "Look round the demo", "Open a backup"} {
		if !strings.Contains(tab.Says(), way) {
			t.Errorf("the first page lacks %q:\n%s", way, tab.Says())
		}
	}
	tab.Quiet()
	named := filepath.Join(s.Home, "slip.db")
	if said := s.Refused(t, "serve", "--addr", "127.0.0.1:0", "--book", named); !strings.Contains(said, "there is no book at "+named) {
		t.Errorf("a book that is not there:\n%s", said)
	}
	if _, err := os.Stat(named); !os.IsNotExist(err) {
		t.Errorf("it was made: %v", err)
	}
}
