// Package door lets other devices into the shop and out again. Whoever sits at
// the shop's own computer makes a code: a secret for the phone's camera and six
// digits to type instead. The first device that brings either back gets a pass,
// and the code is spent. Passes stand on the shop's shelf, each under
// "device/<id>", only as hashes.
//
// What it cannot detect: who holds a phone that was let in, and a listener on a
// network without TLS, who can read a pass as it goes by.
package door

import (
	"context"
	"crypto/rand"
	"crypto/sha256"
	"crypto/subtle"
	"encoding/base64"
	"encoding/hex"
	"encoding/json"
	"errors"
	"fmt"
	"sync"
	"time"

	"matchmark/internal/store"
)

// Door is the one way in. It is safe for use by several goroutines; a code made
// or a device let out by another process counts at once.
type Door struct {
	shelf store.Shelf
	now   func() time.Time

	mu     sync.Mutex
	code   string               // id of the code last tried
	missed int                  // how often its digits were wrong
	noted  map[string]time.Time // when a device was last written down as seen
}

// New opens a door on a shelf.
func New(shelf store.Shelf, now func() time.Time) *Door {
	return &Door{shelf: shelf, now: now, noted: map[string]time.Time{}}
}

// word is n random bytes as text that stands in an address unchanged.
func word(n int) string {
	b := make([]byte, n)
	rand.Read(b) // never fails
	return base64.RawURLEncoding.EncodeToString(b)
}

// hash is how a secret stands on the shelf. A plain SHA-256 is enough for 128
// random bits and more. For six digits it is not: they are safe by their ten
// minutes and five tries, not by their hash.
func hash(secret string) string {
	sum := sha256.Sum256([]byte(secret))
	return hex.EncodeToString(sum[:])
}

// fits compares a secret with a hash in a time that tells nothing.
func fits(secret, want string) bool {
	return subtle.ConstantTimeCompare([]byte(hash(secret)), []byte(want)) == 1
}

// read takes a paper from the shelf; found is false where there is none.
func (d *Door) read(ctx context.Context, name string, into any) (found bool, err error) {
	data, err := d.shelf.Paper(ctx, name)
	if err != nil || data == nil {
		return false, err
	}
	if err := json.Unmarshal(data, into); err != nil {
		return false, fmt.Errorf("paper %s: %w", name, err)
	}
	return true, nil
}

func (d *Door) write(ctx context.Context, name string, from any) error {
	data, err := json.Marshal(from)
	if err != nil {
		return err
	}
	return d.shelf.PutPaper(ctx, name, data)
}

func (d *Door) takeOff(ctx context.Context, names ...string) error {
	var all []error
	for _, name := range names {
		all = append(all, d.shelf.PutPaper(ctx, name, nil))
	}
	return errors.Join(all...)
}
