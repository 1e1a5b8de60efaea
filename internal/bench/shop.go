package bench

import (
	"context"
	"fmt"
	"slices"
	"sync"
	"time"

	"matchmark/internal/machine"
	"matchmark/internal/store"
)

// Shop is all machines of one store.
type Shop struct {
	log  store.Log
	now  func() time.Time
	mu   sync.Mutex
	open map[machine.MachineID]*Bench
}

// NewShop opens no machine yet; each is read when first asked for.
func NewShop(log store.Log, now func() time.Time) *Shop {
	return &Shop{log: log, now: now, open: map[machine.MachineID]*Bench{}}
}

// Machines lists the machines of the store.
func (s *Shop) Machines(ctx context.Context) ([]store.Listing, error) { return s.log.Machines(ctx) }

// Log is the store below, for integrity checks and attachments.
func (s *Shop) Log() store.Log { return s.log }

// Bench gives the one bench of a machine. Errors: *UnknownMachineError.
func (s *Shop) Bench(ctx context.Context, id machine.MachineID) (*Bench, error) {
	s.mu.Lock()
	defer s.mu.Unlock()
	if b := s.open[id]; b != nil {
		return b, nil
	}
	list, err := s.log.Machines(ctx)
	if err != nil {
		return nil, err
	}
	if !slices.ContainsFunc(list, func(l store.Listing) bool { return l.ID == id }) {
		return nil, &UnknownMachineError{ID: id, Have: list}
	}
	b := &Bench{id: id, log: s.log, now: s.now}
	s.open[id] = b
	return b, nil
}

// Start makes a machine from declaring facts and opens its bench.
func (s *Shop) Start(ctx context.Context, id machine.MachineID, name string, who Who, bodies []machine.Body) (*Bench, error) {
	return s.StartOnce(ctx, id, name, who, "", bodies)
}

// StartOnce is Start for a form that may arrive more than once; see RecordOnce.
func (s *Shop) StartOnce(ctx context.Context, id machine.MachineID, name string, who Who, once string, bodies []machine.Body) (*Bench, error) {
	if err := s.log.Create(ctx, id, name); err != nil {
		return nil, err
	}
	b, err := s.Bench(ctx, id)
	if err != nil {
		return nil, err
	}
	if _, err := b.RecordOnce(ctx, who, once, bodies...); err != nil {
		return nil, err
	}
	return b, nil
}

// UnknownMachineError names a machine that is not in the store.
type UnknownMachineError struct {
	ID   machine.MachineID
	Have []store.Listing
}

func (e *UnknownMachineError) Error() string {
	if len(e.Have) == 0 {
		return fmt.Sprintf("machine %q is not in this file, which holds none yet; start one with `matchmark machine new`", e.ID)
	}
	ids := ""
	for i, l := range e.Have {
		if i > 0 {
			ids += ", "
		}
		ids += string(l.ID)
	}
	return fmt.Sprintf("machine %q is not in this file; it holds %s", e.ID, ids)
}
