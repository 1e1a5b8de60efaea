package benchlock

import (
	"crypto/ecdsa"
	"crypto/elliptic"
	"crypto/rand"
	"crypto/tls"
	"crypto/x509"
	"crypto/x509/pkix"
	"math/big"
	"net"
	"net/netip"
	"slices"
	"time"
)

const (
	authorityLasts = 10 * 365 * 24 * time.Hour
	leafLasts      = 397 * 24 * time.Hour // browsers take no more than 398 days of public ones; some of any
	renewBefore    = 30 * 24 * time.Hour
	clockSlack     = 24 * time.Hour // a phone's clock may be behind
)

func newKey() (*ecdsa.PrivateKey, error) { return ecdsa.GenerateKey(elliptic.P256(), rand.Reader) }

func serial() (*big.Int, error) { return rand.Int(rand.Reader, new(big.Int).Lsh(big.NewInt(1), 127)) }

// makeAuthority makes an authority that may sign for servers on this network
// and for nothing else.
func makeAuthority(name string, now time.Time) (*x509.Certificate, *ecdsa.PrivateKey, error) {
	key, err := newKey()
	if err != nil {
		return nil, nil, err
	}
	n, err := serial()
	if err != nil {
		return nil, nil, err
	}
	c := &x509.Certificate{SerialNumber: n, Subject: pkix.Name{CommonName: name, Organization: []string{"Matchmark"}},
		NotBefore: now.Add(-clockSlack), NotAfter: now.Add(authorityLasts),
		IsCA: true, BasicConstraintsValid: true, MaxPathLenZero: true,
		KeyUsage: x509.KeyUsageCertSign | x509.KeyUsageCRLSign, ExtKeyUsage: []x509.ExtKeyUsage{x509.ExtKeyUsageServerAuth},
		PermittedDNSDomainsCritical: true, PermittedDNSDomains: ends}
	for _, p := range private {
		c.PermittedIPRanges = append(c.PermittedIPRanges, &net.IPNet{IP: p.Addr().AsSlice(), Mask: net.CIDRMask(p.Bits(), 32)})
	}
	der, err := x509.CreateCertificate(rand.Reader, c, c, key.Public(), key)
	if err != nil {
		return nil, nil, err
	}
	made, err := x509.ParseCertificate(der)
	return made, key, err
}

// makeLeaf makes the certificate of this computer.
func (l *Lock) makeLeaf() (*tls.Certificate, error) {
	key, err := newKey()
	if err != nil {
		return nil, err
	}
	n, err := serial()
	if err != nil {
		return nil, err
	}
	now := l.now()
	c := &x509.Certificate{SerialNumber: n, Subject: pkix.Name{CommonName: "Matchmark on this computer"},
		NotBefore: now.Add(-clockSlack), NotAfter: now.Add(leafLasts - clockSlack),
		KeyUsage: x509.KeyUsageDigitalSignature, ExtKeyUsage: []x509.ExtKeyUsage{x509.ExtKeyUsageServerAuth},
		BasicConstraintsValid: true, DNSNames: l.names}
	if c.NotAfter.After(l.authority.NotAfter) {
		c.NotAfter = l.authority.NotAfter
	}
	for _, a := range l.addrs {
		c.IPAddresses = append(c.IPAddresses, a.AsSlice())
	}
	der, err := x509.CreateCertificate(rand.Reader, c, l.authority, key.Public(), l.key)
	if err != nil {
		return nil, err
	}
	leaf, err := x509.ParseCertificate(der)
	return &tls.Certificate{Certificate: [][]byte{der, l.authority.Raw}, PrivateKey: key, Leaf: leaf}, err
}

// good tells whether a leaf is by this authority, lasts a while yet and names
// all that it should. More than that is no fault: an address that comes and
// goes does not make a new leaf every time.
func (l *Lock) good(leaf *x509.Certificate) bool {
	now := l.now()
	if leaf.CheckSignatureFrom(l.authority) != nil || now.Before(leaf.NotBefore) || leaf.NotAfter.Sub(now) < renewBefore {
		return false
	}
	for _, a := range l.addrs {
		if !slices.ContainsFunc(leaf.IPAddresses, func(ip net.IP) bool { b, _ := netip.AddrFromSlice(ip); return b.Unmap() == a }) {
			return false
		}
	}
	return !slices.ContainsFunc(l.names, func(name string) bool { return !slices.Contains(leaf.DNSNames, name) })
}
