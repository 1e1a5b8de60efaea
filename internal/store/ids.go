package store

import (
	"sync"
	"time"

	"github.com/google/uuid"

	"matchmark/internal/machine"
)

// Stamper turns bodies into entries: each with an id, a time, an author and a
// device. The times it gives grow by at least a microsecond from entry to
// entry, so that entries fold in the order in which they were said, also those
// of one call. They are in UTC and whole microseconds, which JSON carries
// without loss.
//
// Where the clock is set back, times go on from the last one by a microsecond
// each until the clock has caught up: order is kept before the hour.
type Stamper struct {
	By     string
	Device string
	Now    func() time.Time // nil is the clock of this computer
	NewID  func() string    // nil is a UUIDv7

	mu   sync.Mutex
	last time.Time
}

// Stamp makes one entry of each body, in the order given.
func (s *Stamper) Stamp(bodies ...machine.Body) []machine.Entry {
	s.mu.Lock()
	defer s.mu.Unlock()
	out := make([]machine.Entry, len(bodies))
	for i, b := range bodies {
		out[i] = machine.Entry{ID: machine.EntryID(s.newID()), At: s.tick(), By: s.By, Device: s.Device, Version: 1, Body: b}
	}
	return out
}

func (s *Stamper) tick() time.Time {
	now := time.Now
	if s.Now != nil {
		now = s.Now
	}
	at := now().UTC().Round(time.Microsecond)
	if !at.After(s.last) {
		at = s.last.Add(time.Microsecond)
	}
	s.last = at
	return at
}

func (s *Stamper) newID() string {
	if s.NewID != nil {
		return s.NewID()
	}
	return uuid.Must(uuid.NewV7()).String() // fails only where the system has no random source
}
