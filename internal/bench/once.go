package bench

import (
	"context"
	"crypto/sha256"
	"encoding/json"
	"fmt"
	"slices"
	"strings"
	"time"

	"github.com/google/uuid"

	"matchmark/internal/machine"
)

// RecordOnce is Record for a form that may arrive more than once: once is the
// form's own word, the same each time it is sent. What it says is kept the
// first time and answered as kept every further time. The same form filled in
// otherwise, or sent again after its word was withdrawn, is a new word and is
// kept. An empty once is Record.
//
// Method: the ids of the entries are made of the form and of what it says
// (UUID version 8, RFC 9562 §5.8), so the store too would refuse the same
// word under another content. Cost beyond Record: one look through the ids.
func (b *Bench) RecordOnce(ctx context.Context, who Who, once string, bodies ...machine.Body) (*View, error) {
	b.mu.Lock()
	defer b.mu.Unlock()
	view, err := b.refresh(ctx)
	if err != nil {
		return nil, err
	}
	if once == "" || len(bodies) == 0 {
		return b.record(ctx, view, who, nil, bodies)
	}
	ids, kept, err := b.wordOf(once, bodies)
	if kept || err != nil {
		return view, err
	}
	return b.record(ctx, view, who, ids, bodies)
}

// Kept tells whether RecordOnce would answer these facts as kept already: the
// form came before, and what it asks for may be refused by now because of it.
func (b *Bench) Kept(ctx context.Context, once string, bodies ...machine.Body) (bool, error) {
	b.mu.Lock()
	defer b.mu.Unlock()
	if _, err := b.refresh(ctx); err != nil || once == "" || len(bodies) == 0 {
		return false, err
	}
	_, kept, err := b.wordOf(once, bodies)
	return kept, err
}

// Said is the last entry kept under a form's word, withdrawn since or not;
// empty where nothing was.
func (b *Bench) Said(ctx context.Context, once string) (machine.EntryID, error) {
	b.mu.Lock()
	defer b.mu.Unlock()
	if _, err := b.refresh(ctx); err != nil || once == "" {
		return "", err
	}
	last, _ := b.lastOf(once)
	return last, nil
}

// backdate gives entries the moment at which they happened. They come after
// what the form behind them said, however long each was under way.
func (b *Bench) backdate(entries []machine.Entry, who Who) {
	if who.At.IsZero() {
		return
	}
	at := who.At.UTC().Round(time.Microsecond)
	if who.Behind != "" {
		front := frontOf(b.id, who.Behind)
		for _, e := range slices.Backward(b.entries) {
			if strings.HasPrefix(string(e.ID), front) && !at.After(e.At) {
				at = e.At.Add(time.Microsecond)
			}
		}
	}
	for i := range entries {
		entries[i].At = at.Add(time.Duration(i) * time.Microsecond)
	}
}

// wordOf gives the ids for what a form says now, or that it said the same last.
func (b *Bench) wordOf(once string, bodies []machine.Body) (ids []machine.EntryID, kept bool, err error) {
	last, withdrawn := b.lastOf(once)
	for nth := 0; ; nth++ {
		if ids, err = b.idsOf(once, nth, bodies); err != nil {
			return nil, false, err
		}
		end := ids[len(ids)-1]
		if end == last && !withdrawn {
			return ids, true, nil
		}
		if !slices.ContainsFunc(b.entries, func(e machine.Entry) bool { return e.ID == end }) {
			return ids, false, nil
		}
	}
}

// lastOf finds what a form said last, and whether that was withdrawn since.
func (b *Bench) lastOf(once string) (last machine.EntryID, withdrawn bool) {
	front := frontOf(b.id, once)
	gone := map[machine.EntryID]bool{}
	for _, e := range slices.Backward(b.entries) {
		if w, ok := e.Body.(*machine.EntryWithdrawn); ok {
			gone[w.Target] = true
		}
		if strings.HasPrefix(string(e.ID), front) {
			return e.ID, gone[e.ID]
		}
	}
	return "", false
}

// idsOf makes the ids of what a form says for the nth time: the first half of
// the form alone, the second of the content.
func (b *Bench) idsOf(once string, nth int, bodies []machine.Body) ([]machine.EntryID, error) {
	front := frontOf(b.id, once)
	ids := make([]machine.EntryID, len(bodies))
	all := sha256.New()
	for i, body := range bodies {
		said, err := json.Marshal(body)
		if err != nil {
			return nil, fmt.Errorf("%s cannot be written down: %w", body.Kind(), err)
		}
		fmt.Fprintf(all, "%d %d %s %s\n", nth, i, body.Kind(), said)
		var id uuid.UUID
		copy(id[8:], all.Sum(nil))
		id[8] = id[8]&0x3f | 0x80
		ids[i] = machine.EntryID(front + id.String()[len(front):])
	}
	return ids, nil
}

// frontOf is how the ids of a form's entries begin.
func frontOf(id machine.MachineID, once string) string {
	sum := sha256.Sum256([]byte("form " + string(id) + " " + once))
	var front uuid.UUID
	copy(front[:8], sum[:])
	front[6] = front[6]&0x0f | 0x80
	return front.String()[:19]
}
