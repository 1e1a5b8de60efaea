package benchlock

import (
	"crypto/ecdsa"
	"crypto/tls"
	"crypto/x509"
	"encoding/pem"
	"errors"
	"fmt"
	"io/fs"
	"net/netip"
	"os"
	"path/filepath"
	"runtime"
	"slices"
	"time"
)

// The files of a lock's folder.
const (
	authorityCert = "authority.crt"
	authorityKey  = "authority.key" // the one secret that phones trust; it never leaves the folder
	leafFile      = "this-computer.pem"
)

// Want is what a lock should vouch for.
type Want struct {
	Shop  string       // what the authority is called after, where it has to be made
	Names []string     // host names, beside localhost
	Addrs []netip.Addr // those it may not vouch for are left out
}

// Open opens the lock of a folder, and makes it where there is none. The folder
// and its keys are for their owner's eyes only.
// Errors: *OpenKeyError, *NameError, ErrEnded; those of the file system.
func Open(dir string, want Want, now func() time.Time) (*Lock, error) {
	l := &Lock{dir: dir, now: now, names: []string{"localhost"}, addrs: []netip.Addr{netip.MustParseAddr("127.0.0.1")}}
	for _, name := range want.Names {
		if !VouchesName(name) {
			return nil, &NameError{name}
		}
		if !slices.Contains(l.names, name) {
			l.names = append(l.names, name)
		}
	}
	for _, a := range want.Addrs {
		if a = a.Unmap(); Vouches(a) && !slices.Contains(l.addrs, a) {
			l.addrs = append(l.addrs, a)
		}
	}
	if err := os.MkdirAll(dir, 0o700); err != nil {
		return nil, err
	}
	err := l.load()
	if errors.Is(err, fs.ErrNotExist) {
		err = l.found(want.Shop)
	}
	if err != nil {
		return nil, err
	}
	if l.authority.NotAfter.Sub(now()) < renewBefore {
		return nil, fmt.Errorf("%w on %s; remove the folder %s, start again and let each phone trust the new one",
			ErrEnded, l.authority.NotAfter.Format("2 Jan 2006"), dir)
	}
	l.leaf = l.kept()
	_, err = l.present(nil)
	return l, err
}

// NameError is a host name that the authority may not vouch for.
type NameError struct{ Name string }

func (e *NameError) Error() string {
	return fmt.Sprintf("the bench lock cannot vouch for %q; it may for names that end in .local or .home.arpa", e.Name)
}

// OpenKeyError is a key file that others can read.
type OpenKeyError struct {
	File string
	Mode fs.FileMode
}

func (e *OpenKeyError) Error() string {
	return fmt.Sprintf("the key %s is open to others (mode %04o), who may have read it; if nobody else uses this computer, run chmod 600 on it, "+
		"else remove its folder and let each phone trust the new authority", e.File, e.Mode)
}

// ErrEnded says that the authority has no time left.
var ErrEnded = errors.New("the bench lock's authority ends")

// found makes the authority. The key is written first: a certificate without
// its key would be of no use and stand in the way.
func (l *Lock) found(shop string) error {
	name := "Matchmark bench lock, " + l.now().Format("2 Jan 2006")
	if shop != "" {
		name = "Matchmark bench lock of " + shop + ", " + l.now().Format("2 Jan 2006")
	}
	cert, key, err := makeAuthority(name, l.now())
	if err != nil {
		return err
	}
	text, err := keyPEM(key)
	if err == nil {
		err = write(filepath.Join(l.dir, authorityKey), text, 0o600)
	}
	if err == nil {
		err = write(filepath.Join(l.dir, authorityCert), certPEM(cert.Raw), 0o644)
	}
	l.authority, l.key = cert, key
	return err
}

// load reads the authority; fs.ErrNotExist where there is no whole one.
func (l *Lock) load() error {
	certName, keyName := filepath.Join(l.dir, authorityCert), filepath.Join(l.dir, authorityKey)
	text, err := os.ReadFile(certName)
	if err != nil {
		return err
	}
	info, err := os.Stat(keyName)
	if err != nil {
		return fmt.Errorf("the bench lock has its certificate %s but not its key (%v); bring the key back, or remove the folder and let each phone trust a new authority", certName, err)
	}
	if mode := info.Mode().Perm(); mode&0o077 != 0 && runtime.GOOS != "windows" {
		return &OpenKeyError{keyName, mode}
	}
	key, err := os.ReadFile(keyName)
	if err != nil {
		return err
	}
	pair, err := tls.X509KeyPair(text, key)
	if err != nil {
		return fmt.Errorf("the bench lock in %s is not whole: %w; bring both files back, or remove the folder and let each phone trust a new authority", l.dir, err)
	}
	private, ok := pair.PrivateKey.(*ecdsa.PrivateKey)
	if !ok || !pair.Leaf.IsCA {
		return fmt.Errorf("what lies in %s is no bench lock; move it away", l.dir)
	}
	l.authority, l.key = pair.Leaf, private
	return nil
}

// kept is the leaf of the folder, nil where there is none to go on with.
func (l *Lock) kept() *tls.Certificate {
	text, err := os.ReadFile(filepath.Join(l.dir, leafFile))
	if err != nil {
		return nil
	}
	pair, err := tls.X509KeyPair(text, text)
	if err != nil {
		return nil
	}
	pair.Certificate = append(pair.Certificate[:1], l.authority.Raw)
	return &pair
}

// renew makes a leaf and keeps it.
func (l *Lock) renew() (*tls.Certificate, error) {
	leaf, err := l.makeLeaf()
	if err != nil {
		return nil, err
	}
	key, err := keyPEM(leaf.PrivateKey.(*ecdsa.PrivateKey))
	if err != nil {
		return nil, err
	}
	return leaf, write(filepath.Join(l.dir, leafFile), append(certPEM(leaf.Certificate[0]), key...), 0o600)
}

func certPEM(der []byte) []byte {
	return pem.EncodeToMemory(&pem.Block{Type: "CERTIFICATE", Bytes: der})
}

func keyPEM(key *ecdsa.PrivateKey) ([]byte, error) {
	der, err := x509.MarshalPKCS8PrivateKey(key)
	return pem.EncodeToMemory(&pem.Block{Type: "PRIVATE KEY", Bytes: der}), err
}

// write keeps a file whole or not at all; it is never open to more than mode
// says, not even while it is written.
func write(name string, data []byte, mode fs.FileMode) error {
	f, err := os.CreateTemp(filepath.Dir(name), ".new-*") // 0600
	if err != nil {
		return err
	}
	defer os.Remove(f.Name())
	_, err = f.Write(data)
	err = errors.Join(err, f.Chmod(mode), f.Sync(), f.Close())
	if err != nil {
		return err
	}
	return os.Rename(f.Name(), name)
}
