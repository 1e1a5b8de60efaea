package benchlock

import (
	"crypto/ecdsa"
	"crypto/rand"
	"crypto/x509"
	"crypto/x509/pkix"
	"encoding/pem"
	"errors"
	"math/big"
	"net"
	"net/netip"
	"os"
	"os/exec"
	"path/filepath"
	"runtime"
	"strings"
	"testing"
	"time"
)

var start = time.Date(2026, 12, 1, 9, 0, 0, 0, time.UTC)

func at(t time.Time) func() time.Time { return func() time.Time { return t } }

func addrs(all ...string) (list []netip.Addr) {
	for _, a := range all {
		list = append(list, netip.MustParseAddr(a))
	}
	return list
}

func open(t *testing.T, dir string, now time.Time, want Want) *Lock {
	t.Helper()
	l, err := Open(dir, want, at(now))
	if err != nil {
		t.Fatal(err)
	}
	return l
}

var wanted = Want{Shop: "bench-pc", Names: []string{"bench.local", "shed.home.arpa"},
	Addrs: []netip.Addr{netip.MustParseAddr("192.168.1.5"), netip.MustParseAddr("10.3.2.1"), netip.MustParseAddr("203.0.113.9"), netip.MustParseAddr("fd00::2")}}

// verify is what a phone that trusts the authority does with a certificate.
func (l *Lock) verify(leaf *x509.Certificate, name string, when time.Time) error {
	roots := x509.NewCertPool()
	roots.AddCert(l.authority)
	_, err := leaf.Verify(x509.VerifyOptions{Roots: roots, DNSName: name, CurrentTime: when})
	return err
}

// TestLeafVerifies under every name that it should have, for 397 days from the
// day it begins, and under no other.
func TestLeafVerifies(t *testing.T) {
	l := open(t, t.TempDir(), start, wanted)
	leaf := l.leaf.Leaf
	for _, name := range []string{"localhost", "bench.local", "shed.home.arpa", "127.0.0.1", "192.168.1.5", "10.3.2.1"} {
		if err := l.verify(leaf, name, start.Add(366*24*time.Hour)); err != nil {
			t.Errorf("%s: %v", name, err)
		}
	}
	for _, name := range []string{"bench.example", "other.local", "192.168.1.6", "203.0.113.9", "fd00::2"} {
		if l.verify(leaf, name, start) == nil {
			t.Errorf("%s is vouched for", name)
		}
	}
	if got := leaf.NotAfter.Sub(leaf.NotBefore); got != 397*24*time.Hour {
		t.Errorf("it lasts %v", got)
	}
	if leaf.IsCA || leaf.KeyUsage != x509.KeyUsageDigitalSignature {
		t.Errorf("it may do more than serve: CA %v, usage %b", leaf.IsCA, leaf.KeyUsage)
	}
	a := l.authority
	if !a.PermittedDNSDomainsCritical || !a.MaxPathLenZero || a.MaxPathLen != 0 || a.PublicKey.(*ecdsa.PublicKey).Params().BitSize != 256 {
		t.Errorf("the authority's limits: critical %v, path %d", a.PermittedDNSDomainsCritical, a.MaxPathLen)
	}
}

// forge signs, with the authority's own key, a leaf that it should never sign.
func (l *Lock) forge(t *testing.T, change func(*x509.Certificate)) *x509.Certificate {
	t.Helper()
	c := &x509.Certificate{SerialNumber: big.NewInt(7), NotBefore: start.Add(-time.Hour), NotAfter: start.Add(1000 * time.Hour),
		KeyUsage: x509.KeyUsageDigitalSignature, ExtKeyUsage: []x509.ExtKeyUsage{x509.ExtKeyUsageServerAuth}}
	change(c)
	key, err := newKey()
	if err != nil {
		t.Fatal(err)
	}
	der, err := x509.CreateCertificate(rand.Reader, c, l.authority, key.Public(), l.key)
	if err != nil {
		t.Fatal(err)
	}
	leaf, err := x509.ParseCertificate(der)
	if err != nil {
		t.Fatal(err)
	}
	return leaf
}

// forged are leaves that someone with the key could sign. Whoever trusts the
// authority must refuse the bad ones.
var forged = []struct {
	what, name string
	good       bool
	change     func(*x509.Certificate)
}{
	{"a private name", "shop.local", true, func(c *x509.Certificate) { c.DNSNames = []string{"shop.local"} }},
	{"a private address", "172.31.255.254", true, func(c *x509.Certificate) { c.IPAddresses = ips("172.31.255.254") }},
	{"a public name", "bank.example", false, func(c *x509.Certificate) { c.DNSNames = []string{"bank.example"} }},
	{"a public name beside a private one", "shop.local", false, func(c *x509.Certificate) { c.DNSNames = []string{"shop.local", "bank.example"} }},
	{"a name that only ends alike", "notlocal", false, func(c *x509.Certificate) { c.DNSNames = []string{"notlocal"} }},
	{"a public address", "203.0.113.9", false, func(c *x509.Certificate) { c.IPAddresses = ips("203.0.113.9") }},
	{"an address next to a private range", "172.32.0.1", false, func(c *x509.Certificate) { c.IPAddresses = ips("172.32.0.1") }},
	{"an IPv6 address", "2001:db8::1", false, func(c *x509.Certificate) { c.IPAddresses = ips("2001:db8::1") }},
	{"a person", "shop.local", false, func(c *x509.Certificate) {
		c.DNSNames, c.ExtKeyUsage = []string{"shop.local"}, []x509.ExtKeyUsage{x509.ExtKeyUsageClientAuth}
	}},
}

func ips(a string) []net.IP { return []net.IP{net.ParseIP(a)} }

// TestConstraintsHold: by crypto/x509 (RFC 5280 §6.1).
func TestConstraintsHold(t *testing.T) {
	l := open(t, t.TempDir(), start, wanted)
	for _, row := range forged {
		if err := l.verify(l.forge(t, row.change), row.name, start); (err == nil) != row.good {
			t.Errorf("%s: %v, want good %v", row.what, err, row.good)
		}
	}
}

// TestNoAuthorityBelow: what a lower authority signs is refused (path length 0).
func TestNoAuthorityBelow(t *testing.T) {
	l := open(t, t.TempDir(), start, wanted)
	key, err := newKey()
	if err != nil {
		t.Fatal(err)
	}
	lower := &x509.Certificate{SerialNumber: big.NewInt(8), Subject: pkix.Name{CommonName: "lower"}, NotBefore: start.Add(-time.Hour), NotAfter: start.Add(1000 * time.Hour),
		IsCA: true, BasicConstraintsValid: true, KeyUsage: x509.KeyUsageCertSign}
	der, err := x509.CreateCertificate(rand.Reader, lower, l.authority, key.Public(), l.key)
	if err != nil {
		t.Fatal(err)
	}
	if lower, err = x509.ParseCertificate(der); err != nil {
		t.Fatal(err)
	}
	below := &Lock{authority: lower, key: key}
	leaf := below.forge(t, func(c *x509.Certificate) { c.DNSNames = []string{"shop.local"} })
	roots, between := x509.NewCertPool(), x509.NewCertPool()
	roots.AddCert(l.authority)
	between.AddCert(lower)
	var invalid x509.CertificateInvalidError
	if _, err := leaf.Verify(x509.VerifyOptions{Roots: roots, Intermediates: between, DNSName: "shop.local", CurrentTime: start}); !errors.As(err, &invalid) || invalid.Reason != x509.TooManyIntermediates {
		t.Errorf("a leaf of a lower authority: %v", err)
	}
}

// TestOpenSSLAgrees: the same rows by a tool that is not ours.
func TestOpenSSLAgrees(t *testing.T) {
	tool, err := exec.LookPath("openssl")
	if err != nil {
		t.Skip("SKIPPED: no openssl on this machine")
	}
	dir := t.TempDir()
	l := open(t, dir, start, wanted)
	check := func(leaf *x509.Certificate, name string) error {
		file := filepath.Join(t.TempDir(), "leaf.pem")
		if err := os.WriteFile(file, pem.EncodeToMemory(&pem.Block{Type: "CERTIFICATE", Bytes: leaf.Raw}), 0o600); err != nil {
			t.Fatal(err)
		}
		which := "-verify_hostname"
		if _, err := netip.ParseAddr(name); err == nil {
			which = "-verify_ip"
		}
		out, err := exec.Command(tool, "verify", "-x509_strict", "-purpose", "sslserver", "-attime", "1796115600", // 1 Dec 2026, 09:00 UTC
			"-CAfile", filepath.Join(dir, authorityCert), which, name, file).CombinedOutput()
		if err != nil {
			return errors.New(string(out))
		}
		return nil
	}
	if start.Unix() != 1796115600 {
		t.Fatalf("the time given is not the start, %d", start.Unix())
	}
	for _, name := range []string{"localhost", "bench.local", "127.0.0.1", "192.168.1.5"} {
		if err := check(l.leaf.Leaf, name); err != nil {
			t.Errorf("own leaf, %s: %v", name, err)
		}
	}
	for _, row := range forged {
		err := check(l.forge(t, row.change), row.name)
		if (err == nil) != row.good {
			t.Errorf("%s: %v, want good %v", row.what, err, row.good)
		}
		if err != nil && row.what == "a public name" && !strings.Contains(err.Error(), "permitted subtree violation") {
			t.Errorf("%s is refused for another reason: %v", row.what, err)
		}
	}
}

// TestRenewedByItself: near its end, and where the computer has another address
// or name; else the same leaf stays. The authority is always the same.
func TestRenewedByItself(t *testing.T) {
	dir := t.TempDir()
	first := open(t, dir, start, wanted)
	is := func(what string, when time.Time, want Want, same bool) {
		t.Helper()
		l := open(t, dir, when, want)
		if l.Fingerprint() != first.Fingerprint() {
			t.Fatalf("%s: another authority", what)
		}
		if got := l.leaf.Leaf.Equal(first.leaf.Leaf); got != same {
			t.Errorf("%s: same leaf %v, want %v", what, got, same)
		}
		first = l
	}
	fewer := Want{Addrs: addrs("192.168.1.5")}
	more := Want{Addrs: addrs("192.168.1.5", "192.168.7.7")}
	is("opened again", start.Add(time.Hour), wanted, true)
	is("an address gone", start.Add(time.Hour), fewer, true)
	is("an address come", start.Add(time.Hour), more, false)
	is("31 days left", start.Add(365*24*time.Hour), more, true)
	is("29 days left", start.Add(368*24*time.Hour), more, false)
	is("a name come", start.Add(368*24*time.Hour), Want{Names: []string{"new.local"}}, false)
}

// TestRenewedWhileServing: a computer that moves to another network answers
// there with a leaf for its new address.
func TestRenewedWhileServing(t *testing.T) {
	l := open(t, t.TempDir(), start, Want{})
	before := l.leaf.Leaf
	got, err := l.present(addrs("10.9.8.7"))
	if err != nil || l.verify(got.Leaf, "10.9.8.7", start) != nil {
		t.Errorf("at the new address: %v", err)
	}
	if again, err := l.present(addrs("::ffff:10.9.8.7", "203.0.113.9")); err != nil || again != got || again.Leaf.Equal(before) {
		t.Errorf("the same address makes another leaf: %v", err)
	}
}

// TestFiles: keys are for their owner only, and what is wrong is refused in
// words that say what to do.
func TestFiles(t *testing.T) {
	if runtime.GOOS == "windows" {
		t.Skip("SKIPPED: file modes say nothing here")
	}
	dir := filepath.Join(t.TempDir(), "lock")
	open(t, dir, start, wanted)
	for name, want := range map[string]os.FileMode{".": 0o700, authorityKey: 0o600, leafFile: 0o600, authorityCert: 0o644} {
		info, err := os.Stat(filepath.Join(dir, name))
		if err != nil {
			t.Fatal(err)
		}
		if got := info.Mode().Perm(); got != want {
			t.Errorf("%s has mode %04o, want %04o", name, got, want)
		}
	}
	entries, err := os.ReadDir(dir)
	if err != nil || len(entries) != 3 {
		t.Errorf("%d files, %v", len(entries), err)
	}
	key := filepath.Join(dir, authorityKey)
	var loose *OpenKeyError
	if err := os.Chmod(key, 0o640); err != nil {
		t.Fatal(err)
	}
	if _, err := Open(dir, wanted, at(start)); !errors.As(err, &loose) || !strings.Contains(err.Error(), "chmod 600") {
		t.Errorf("a key open to others: %v", err)
	}
	if err := os.Remove(key); err != nil {
		t.Fatal(err)
	}
	if _, err := Open(dir, wanted, at(start)); err == nil || !strings.Contains(err.Error(), "bring the key back") {
		t.Errorf("without its key: %v", err)
	}
	if err := os.WriteFile(key, []byte("no key"), 0o600); err != nil {
		t.Fatal(err)
	}
	if _, err := Open(dir, wanted, at(start)); err == nil || !strings.Contains(err.Error(), "not whole") {
		t.Errorf("with a broken key: %v", err)
	}
}

// TestBrokenLeafIsMadeAgain: only the authority is worth keeping.
func TestBrokenLeafIsMadeAgain(t *testing.T) {
	dir := t.TempDir()
	first := open(t, dir, start, wanted)
	if err := os.WriteFile(filepath.Join(dir, leafFile), []byte("torn"), 0o600); err != nil {
		t.Fatal(err)
	}
	l := open(t, dir, start, wanted)
	if l.Fingerprint() != first.Fingerprint() || l.verify(l.leaf.Leaf, "192.168.1.5", start) != nil {
		t.Error("no good leaf by the same authority")
	}
}

func TestRefusedNamesAndEnd(t *testing.T) {
	var name *NameError
	if _, err := Open(t.TempDir(), Want{Names: []string{"bench.example"}}, at(start)); !errors.As(err, &name) {
		t.Errorf("a public name: %v", err)
	}
	dir := t.TempDir()
	open(t, dir, start, wanted)
	if _, err := Open(dir, wanted, at(start.Add(10*365*24*time.Hour))); !errors.Is(err, ErrEnded) {
		t.Errorf("after ten years: %v", err)
	}
}
