package door

import (
	"context"
	"crypto/rand"
	"errors"
	"fmt"
	"math/big"
	"strings"
	"time"
)

// CodeLasts is how long a code is good.
const CodeLasts = 10 * time.Minute

// MaxMissed is how many times the digits of a code may be typed wrong.
const MaxMissed = 5

// codePaper is where the one live code stands. A new one takes its place.
const codePaper = "door/code"

// Code lets one device in. It exists in full only where it is made.
type Code struct {
	Secret string // for the fragment of an address, 128 bits
	Digits string // six, for fingers
	Until  time.Time
}

// Spaced is the digits in two groups, as they are read out: "482 913".
func (c Code) Spaced() string { return c.Digits[:3] + " " + c.Digits[3:] }

// Address is what the camera opens. The secret stands behind the #, which no
// browser sends, so that no log ever holds it. base is "http://192.168.1.5:7462".
func (c Code) Address(base string) string { return base + "/pair#" + c.Secret }

type codeOnShelf struct {
	ID     string    `json:"id"`
	Secret string    `json:"secret"` // hash
	Digits string    `json:"digits"` // hash of id and digits
	Until  time.Time `json:"until"`
}

// NewCode makes a code; the one before it is good no more.
func (d *Door) NewCode(ctx context.Context) (Code, error) {
	n, err := rand.Int(rand.Reader, big.NewInt(1_000_000))
	if err != nil {
		return Code{}, err
	}
	c := Code{Secret: word(16), Digits: fmt.Sprintf("%06d", n), Until: d.now().Add(CodeLasts)}
	id := word(6)
	return c, d.write(ctx, codePaper, codeOnShelf{ID: id, Secret: hash(c.Secret), Digits: hash(id + c.Digits), Until: c.Until})
}

// ErrNoCode says that no code is good now: it was used, is older than
// CodeLasts, was missed MaxMissed times, or a newer one took its place.
var ErrNoCode = errors.New("no pairing code is good now")

// WrongCodeError says that the digits fit no code, and how many tries the code
// has left.
type WrongCodeError struct{ Left int }

func (e *WrongCodeError) Error() string {
	return fmt.Sprintf("wrong pairing code, %d tries left", e.Left)
}

// Key is what a device brings: the secret, or else the digits.
type Key struct{ Secret, Digits string }

// spend uses up the live code, where the key fits it. A wrong secret is no try:
// it comes from an old picture, and 128 bits are not guessed.
func (d *Door) spend(ctx context.Context, key Key) error {
	d.mu.Lock()
	defer d.mu.Unlock()
	var c codeOnShelf
	found, err := d.read(ctx, codePaper, &c)
	if err != nil {
		return err
	}
	if !found || !d.now().Before(c.Until) {
		return ErrNoCode
	}
	if key.Secret != "" {
		if !fits(key.Secret, c.Secret) {
			return ErrNoCode
		}
		return d.takeOff(ctx, codePaper)
	}
	digits := strings.Join(strings.FieldsFunc(key.Digits, func(r rune) bool { return r == ' ' || r == '-' }), "")
	if fits(c.ID+digits, c.Digits) {
		return d.takeOff(ctx, codePaper)
	}
	if d.code != c.ID {
		d.code, d.missed = c.ID, 0
	}
	d.missed++
	if left := MaxMissed - d.missed; left > 0 {
		return &WrongCodeError{Left: left}
	}
	if err := d.takeOff(ctx, codePaper); err != nil {
		return err
	}
	return ErrNoCode
}
