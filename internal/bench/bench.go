package bench

import (
	"context"
	"fmt"
	"strings"
	"sync"
	"time"

	"matchmark/internal/finding/sequence"
	"matchmark/internal/machine"
	"matchmark/internal/store"
)

// Who records: the author, the device, and when, where that was before now.
type Who struct {
	By, Device string
	At         time.Time // when it happened, by the clock of the book; zero is now
	Behind     string    // the form that was filled in before this one: what this one says comes after it
}

// Bench is one machine: its log as read so far and the view folded from it.
// It is safe for use by several goroutines.
type Bench struct {
	id  machine.MachineID
	log store.Log
	now func() time.Time

	mu      sync.Mutex
	entries []machine.Entry
	seq     int64
	view    *View
	stamper store.Stamper
	waiting map[chan struct{}]bool
}

// ID is the machine's.
func (b *Bench) ID() machine.MachineID { return b.id }

// View is the machine as the store has it now, other writers' entries
// included.
func (b *Bench) View(ctx context.Context) (*View, error) {
	b.mu.Lock()
	defer b.mu.Unlock()
	return b.refresh(ctx)
}

// refresh reads what came since and folds again when anything did.
func (b *Bench) refresh(ctx context.Context) (*View, error) {
	fresh, err := b.log.Since(ctx, b.id, b.seq)
	if err != nil {
		return nil, err
	}
	if len(fresh) > 0 || b.view == nil {
		b.entries = append(b.entries, fresh...)
		if n := len(fresh); n > 0 {
			b.seq = fresh[n-1].Seq
		}
		b.view = b.view.next(b.id, b.entries, b.now)
		b.tell()
	}
	return b.view, nil
}

// Record stamps facts with the present time and keeps them, all or none.
// Errors: *HeldError for a closing that would hide an open check; the store's.
func (b *Bench) Record(ctx context.Context, who Who, bodies ...machine.Body) (*View, error) {
	b.mu.Lock()
	defer b.mu.Unlock()
	view, err := b.refresh(ctx)
	if err != nil {
		return nil, err
	}
	return b.record(ctx, view, who, nil, bodies)
}

// record stamps facts and keeps them; ids, where given, are theirs.
func (b *Bench) record(ctx context.Context, view *View, who Who, ids []machine.EntryID, bodies []machine.Body) (*View, error) {
	if err := refuse(view, bodies); err != nil {
		return nil, err
	}
	b.stamper.By, b.stamper.Device, b.stamper.Now = who.By, who.Device, b.now
	entries := b.stamper.Stamp(bodies...)
	for i, id := range ids {
		entries[i].ID = id
	}
	b.backdate(entries, who)
	if _, err := b.log.Append(ctx, b.id, entries); err != nil {
		return nil, err
	}
	return b.refresh(ctx)
}

// Keep keeps entries that a device has already stamped: they happened, so
// none is refused. The same entry twice is kept once.
func (b *Bench) Keep(ctx context.Context, entries []machine.Entry) (*View, error) {
	b.mu.Lock()
	defer b.mu.Unlock()
	if _, err := b.log.Append(ctx, b.id, entries); err != nil {
		return nil, err
	}
	return b.refresh(ctx)
}

// Entries lists the log as kept, in the store's order.
func (b *Bench) Entries(ctx context.Context) ([]machine.Entry, error) {
	return b.log.Since(ctx, b.id, 0)
}

// Changed is closed at the next change of the machine; stop waiting with the
// returned function.
func (b *Bench) Changed() (<-chan struct{}, func()) {
	b.mu.Lock()
	defer b.mu.Unlock()
	if b.waiting == nil {
		b.waiting = map[chan struct{}]bool{}
	}
	ch := make(chan struct{})
	b.waiting[ch] = true
	return ch, func() {
		b.mu.Lock()
		defer b.mu.Unlock()
		delete(b.waiting, ch)
	}
}

func (b *Bench) tell() {
	for ch := range b.waiting {
		close(ch)
		delete(b.waiting, ch)
	}
}

// refuse finds a closing among the bodies that is held. A hold passed by hand
// in the same batch counts, unless the hold guards life.
func refuse(v *View, bodies []machine.Body) error {
	passed := map[machine.CheckID]bool{}
	for _, body := range bodies {
		if p, ok := body.(*machine.HoldPassed); ok {
			if strings.TrimSpace(p.Initials) == "" || strings.TrimSpace(p.Why) == "" {
				return fmt.Errorf("a hold is passed with initials and a reason; give both")
			}
			if c := v.Machine.Check(p.Check); c != nil && c.Life {
				return &HeldError{Joint: v.Machine.Joint(p.Joint), Life: c}
			}
			passed[p.Check] = true
		}
	}
	for _, body := range bodies {
		c, ok := body.(*machine.JointClosed)
		if !ok {
			continue
		}
		j := v.Machine.Joint(c.Joint)
		if j == nil {
			continue // the fold will ask about it
		}
		var holds []sequence.Hold
		for _, h := range v.MayClose(j, c.As == machine.Final) {
			if h.Check == nil || h.Life || !passed[h.Check.ID] {
				holds = append(holds, h)
			}
		}
		if len(holds) > 0 {
			return &HeldError{Joint: j, Holds: holds}
		}
	}
	return nil
}

// HeldError refuses a closing and names what holds it, or refuses to pass a
// hold that guards life.
type HeldError struct {
	Joint *machine.Joint
	Holds []sequence.Hold
	Life  *machine.Check
}

func (e *HeldError) Error() string {
	if e.Life != nil {
		return fmt.Sprintf("%s guards life and cannot be passed by hand. Make the check", e.Life.Name)
	}
	words := make([]string, len(e.Holds))
	for i, h := range e.Holds {
		words[i] = h.Why
	}
	return fmt.Sprintf("%s is held: %s. Nothing was closed; clear the hold, or pass it with initials and a reason",
		e.Joint.Name, strings.Join(words, "; "))
}
