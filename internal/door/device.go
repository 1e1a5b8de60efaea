package door

import (
	"cmp"
	"context"
	"errors"
	"fmt"
	"log/slog"
	"slices"
	"strings"
	"time"
)

// Devices stand under passFront. When one was last seen stands apart, so that a
// late note of it never brings back a device that was let out.
const (
	passFront = "device/"
	seenFront = "door/seen/"
)

// seenEvery is how often at most a device is written down as seen.
const seenEvery = time.Hour

// Device is one that was let in.
type Device struct {
	ID    string    `json:"id"`
	Name  string    `json:"name"` // "Ansa's phone"
	By    string    `json:"by"`   // who records with it
	Since time.Time `json:"since"`
	Seen  time.Time `json:"seen"` // to the hour
}

type pass struct {
	Name  string    `json:"name"`
	By    string    `json:"by"`
	Hash  string    `json:"hash"` // of the token
	Since time.Time `json:"since"`
}

// Join lets a device in for a key and gives it its token, which is shown once.
// name is what the device is called, by who records with it.
// Errors: ErrNoCode, *WrongCodeError; the store's.
func (d *Door) Join(ctx context.Context, key Key, name, by string) (Device, string, error) {
	if err := d.spend(ctx, key); err != nil {
		return Device{}, "", err
	}
	id, secret, now := hash(word(16))[:10], word(32), d.now()
	if err := d.write(ctx, passFront+id, pass{Name: name, By: by, Hash: hash(secret), Since: now}); err != nil {
		return Device{}, "", err
	}
	d.note(ctx, id, now)
	return Device{ID: id, Name: name, By: by, Since: now, Seen: now}, id + "." + secret, nil
}

// Known finds the device that a token belongs to, and notes that it was seen.
func (d *Door) Known(ctx context.Context, token string) (dev Device, known bool, err error) {
	id, secret, cut := strings.Cut(token, ".")
	if !cut || id == "" || len(token) > 100 {
		return Device{}, false, nil
	}
	var p pass
	found, err := d.read(ctx, passFront+id, &p)
	if err != nil || !found || !fits(secret, p.Hash) {
		return Device{}, false, err
	}
	now := d.now()
	d.note(ctx, id, now)
	return Device{ID: id, Name: p.Name, By: p.By, Since: p.Since, Seen: now}, true, nil
}

// note writes down that a device was seen, at most every hour. A note that
// cannot be written shuts nobody out.
func (d *Door) note(ctx context.Context, id string, now time.Time) {
	d.mu.Lock()
	defer d.mu.Unlock()
	if last, ok := d.noted[id]; ok && now.Sub(last) < seenEvery {
		return
	}
	d.noted[id] = now
	if err := d.write(ctx, seenFront+id, now); err != nil {
		slog.Warn("device seen, not noted", "device", id, "err", err)
	}
}

// Devices lists who was let in, the last seen first.
func (d *Door) Devices(ctx context.Context) ([]Device, error) {
	names, err := d.shelf.Papers(ctx, passFront)
	if err != nil {
		return nil, err
	}
	var list []Device
	for _, name := range names {
		var p pass
		found, err := d.read(ctx, name, &p)
		if err != nil {
			return nil, err
		}
		if !found {
			continue // let out since the names were listed
		}
		dev := Device{ID: strings.TrimPrefix(name, passFront), Name: p.Name, By: p.By, Since: p.Since, Seen: p.Since}
		if _, err := d.read(ctx, seenFront+dev.ID, &dev.Seen); err != nil {
			return nil, err
		}
		list = append(list, dev)
	}
	slices.SortFunc(list, func(a, b Device) int { return cmp.Or(b.Seen.Compare(a.Seen), cmp.Compare(a.ID, b.ID)) })
	return list, nil
}

// ErrNoDevice says that no device of that id was let in.
var ErrNoDevice = errors.New("no such device")

// LetOut ends a device's pass at once and gives the device it was.
// Errors: ErrNoDevice.
func (d *Door) LetOut(ctx context.Context, id string) (Device, error) {
	var p pass
	found, err := d.read(ctx, passFront+id, &p)
	if err != nil {
		return Device{}, err
	}
	if !found {
		return Device{}, fmt.Errorf("%w: %q", ErrNoDevice, id)
	}
	return Device{ID: id, Name: p.Name, By: p.By, Since: p.Since}, d.takeOff(ctx, passFront+id, seenFront+id)
}
