// Package benchlock is the shop's own local authority: it vouches to phones for
// the computer the pages come from, so that their browsers allow what they allow
// only to secure pages. The authority is made once and kept beside the book;
// what it vouches for is named in it critically and is never on the internet:
// private IPv4 addresses, and names that end in .local, .home.arpa or localhost
// (RFC 5280 §4.2.1.10; RFC 1918; RFC 6762; RFC 8375; RFC 6761 §6.3).
//
// What it cannot detect: whether a phone's system keeps to those limits, and
// whether someone copied the key while it lay open to others.
package benchlock

import (
	"crypto/ecdsa"
	"crypto/sha256"
	"crypto/tls"
	"crypto/x509"
	"fmt"
	"net/netip"
	"slices"
	"strings"
	"sync"
	"time"
)

// Lock is an authority with the certificate it made for this computer. It is
// safe for use by several goroutines.
type Lock struct {
	dir       string
	now       func() time.Time
	authority *x509.Certificate
	key       *ecdsa.PrivateKey

	mu    sync.Mutex
	names []string
	addrs []netip.Addr
	leaf  *tls.Certificate
}

// Certificate is the authority's own, in DER: what a phone has to trust.
func (l *Lock) Certificate() []byte { return l.authority.Raw }

// Name is what the authority calls itself, to find it in a phone's list.
func (l *Lock) Name() string { return l.authority.Subject.CommonName }

// Ends is when phones have to trust a new authority.
func (l *Lock) Ends() time.Time { return l.authority.NotAfter }

// Fingerprint is the SHA-256 of the certificate, in pairs, to compare by eye.
func (l *Lock) Fingerprint() string {
	sum := sha256.Sum256(l.authority.Raw)
	return fmt.Sprintf("% X", sum)
}

// private are the addresses that the authority may vouch for.
var private = []netip.Prefix{netip.MustParsePrefix("10.0.0.0/8"), netip.MustParsePrefix("172.16.0.0/12"),
	netip.MustParsePrefix("192.168.0.0/16"), netip.MustParsePrefix("127.0.0.0/8")}

// ends are the names that it may vouch for, and all under them.
var ends = []string{"local", "home.arpa", "localhost"}

// Vouches tells whether the authority may vouch for an address.
func Vouches(a netip.Addr) bool {
	a = a.Unmap()
	return slices.ContainsFunc(private, func(p netip.Prefix) bool { return p.Contains(a) })
}

// VouchesName tells whether the authority may vouch for a name.
func VouchesName(name string) bool {
	name = strings.ToLower(name)
	return slices.ContainsFunc(ends, func(end string) bool { return name == end || strings.HasSuffix(name, "."+end) })
}

// TLS is how to listen: TLS 1.2 or newer, HTTP/2 first, with a certificate for
// the very address that was called, also where the computer got a new one.
func (l *Lock) TLS() *tls.Config {
	return &tls.Config{MinVersion: tls.VersionTLS12, NextProtos: []string{"h2", "http/1.1"},
		GetCertificate: func(hello *tls.ClientHelloInfo) (*tls.Certificate, error) {
			var called []netip.Addr
			if at, err := netip.ParseAddrPort(hello.Conn.LocalAddr().String()); err == nil {
				called = append(called, at.Addr())
			}
			return l.present(called)
		}}
}

// present gives the certificate, made anew where it nears its end or lacks an
// address.
func (l *Lock) present(also []netip.Addr) (*tls.Certificate, error) {
	l.mu.Lock()
	defer l.mu.Unlock()
	for _, a := range also {
		if a = a.Unmap(); Vouches(a) && !slices.Contains(l.addrs, a) {
			l.addrs = append(l.addrs, a)
		}
	}
	if l.leaf != nil && l.good(l.leaf.Leaf) {
		return l.leaf, nil
	}
	leaf, err := l.renew()
	if err != nil {
		return nil, err
	}
	l.leaf = leaf
	return leaf, nil
}
