package store

import (
	"bytes"
	"context"
	"errors"
	"maps"
	"slices"
	"sync"

	"matchmark/internal/machine"
)

// memoryLog keeps everything in memory, as lines, so that a caller who alters
// an entry it was given alters nothing kept.
type memoryLog struct {
	mu       sync.RWMutex
	machines map[machine.MachineID]*memoryMachine
	blobs    map[machine.Sum]memoryBlob
	papers   map[string][]byte
}

type memoryMachine struct {
	head
	rows []memoryRow
	seqs map[machine.EntryID]int64
}

type memoryRow struct {
	id   machine.EntryID
	text []byte
	link link
}

type memoryBlob struct {
	data      []byte
	mediaType string
}

// OpenMemory returns an empty store that lives as long as the process.
func OpenMemory() Log {
	return &memoryLog{machines: map[machine.MachineID]*memoryMachine{}, blobs: map[machine.Sum]memoryBlob{}, papers: map[string][]byte{}}
}

func (m *memoryLog) Create(ctx context.Context, id machine.MachineID, name string) error {
	if err := createFault(ctx, id, name); err != nil {
		return err
	}
	m.mu.Lock()
	defer m.mu.Unlock()
	if old := m.machines[id]; old != nil {
		return sameName(id, old.name, name)
	}
	m.machines[id] = &memoryMachine{head: head{id: id, name: name, link: firstLink(id)}, seqs: map[machine.EntryID]int64{}}
	return nil
}

// createFault refuses what cannot name a machine.
func createFault(ctx context.Context, id machine.MachineID, name string) error {
	if id == "" || name == "" {
		return &Error{Op: "create", Object: "machine " + string(id), Kind: ErrInvalid,
			Cause: errors.New("a machine needs an id and a name")}
	}
	return ctx.Err()
}

// sameName lets a repeated Create pass and refuses another machine's id.
func sameName(id machine.MachineID, kept, asked string) error {
	if kept == asked {
		return nil
	}
	return &Error{Op: "create", Object: "machine " + string(id), Kind: ErrConflict,
		Advice: "the machine under this id is " + kept + "; give the new one an id of its own"}
}

func (m *memoryLog) Append(ctx context.Context, id machine.MachineID, entries []machine.Entry) ([]machine.Entry, error) {
	lines, err := writeLines(id, entries)
	if err != nil {
		return nil, err
	}
	if err := ctx.Err(); err != nil {
		return nil, err
	}
	m.mu.Lock()
	defer m.mu.Unlock()
	mm := m.machines[id]
	if mm == nil {
		return nil, noMachine("append to", id)
	}
	if err := mm.conflicts(lines); err != nil {
		return nil, err
	}
	out := slices.Clone(entries)
	for i, l := range lines {
		out[i].Seq = mm.keep(l)
	}
	return out, nil
}

// conflicts looks at a whole batch before any of it is kept.
func (mm *memoryMachine) conflicts(lines []line) error {
	batch := map[machine.EntryID][]byte{}
	for _, l := range lines {
		if seq, known := mm.seqs[l.id]; known && !sameFact(mm.rows[seq-1].text, l.text) {
			return conflict(mm.id, l.id)
		}
		if first, twice := batch[l.id]; twice && !bytes.Equal(first, l.text) {
			return conflict(mm.id, l.id)
		}
		batch[l.id] = l.text
	}
	return nil
}

// keep adds a line unless its id is there, and returns its Seq.
func (mm *memoryMachine) keep(l line) int64 {
	if seq, known := mm.seqs[l.id]; known {
		return seq
	}
	mm.link = mm.link.next(l.text)
	mm.rows = append(mm.rows, memoryRow{l.id, l.text, mm.link})
	mm.entries++
	mm.seqs[l.id] = mm.entries
	if l.at.After(mm.last) {
		mm.last = l.at.UTC()
	}
	return mm.entries
}

func (m *memoryLog) Since(ctx context.Context, id machine.MachineID, seq int64) ([]machine.Entry, error) {
	if err := ctx.Err(); err != nil {
		return nil, err
	}
	m.mu.RLock()
	defer m.mu.RUnlock()
	mm := m.machines[id]
	if mm == nil {
		return nil, noMachine("read", id)
	}
	var out []machine.Entry
	for n := max(seq, 0) + 1; n <= mm.entries; n++ {
		out = append(out, readLine(mm.rows[n-1].id, n, mm.rows[n-1].text))
	}
	return out, nil
}

func (m *memoryLog) Machines(ctx context.Context) ([]Listing, error) {
	if err := ctx.Err(); err != nil {
		return nil, err
	}
	m.mu.RLock()
	defer m.mu.RUnlock()
	var out []Listing
	for _, id := range slices.Sorted(maps.Keys(m.machines)) {
		out = append(out, m.machines[id].listing())
	}
	return out, nil
}

func (h head) listing() Listing {
	return Listing{ID: h.id, Name: h.name, Entries: h.entries, Last: h.last}
}

func (m *memoryLog) PutBlob(ctx context.Context, data []byte, mediaType string) (machine.Sum, error) {
	if err := blobFault(ctx, data); err != nil {
		return "", err
	}
	m.mu.Lock()
	defer m.mu.Unlock()
	sum := sumOf(data)
	if _, known := m.blobs[sum]; !known {
		m.blobs[sum] = memoryBlob{bytes.Clone(data), mediaType}
	}
	return sum, nil
}

// blobFault refuses attachments of no size or of too much.
func blobFault(ctx context.Context, data []byte) error {
	var why error
	switch {
	case len(data) == 0:
		why = errors.New("it is empty")
	case len(data) > MaxBlob:
		why = errors.New("it is larger than 64 MiB")
	default:
		return ctx.Err()
	}
	return &Error{Op: "keep", Object: "attachment", Kind: ErrInvalid, Cause: why}
}

func (m *memoryLog) Blob(ctx context.Context, sum machine.Sum) ([]byte, string, error) {
	if err := ctx.Err(); err != nil {
		return nil, "", err
	}
	m.mu.RLock()
	defer m.mu.RUnlock()
	b, ok := m.blobs[sum]
	if !ok {
		return nil, "", noBlob(sum)
	}
	return bytes.Clone(b.data), b.mediaType, nil
}

func (m *memoryLog) Check(ctx context.Context) (Report, error) {
	m.mu.RLock()
	defer m.mu.RUnlock()
	c := newChecker()
	for _, id := range slices.Sorted(maps.Keys(m.machines)) {
		if err := ctx.Err(); err != nil {
			return Report{}, err
		}
		mm := m.machines[id]
		c.begin(mm.head)
		for i, r := range mm.rows {
			c.entry(int64(i+1), r.id, r.text, r.link)
		}
		c.end()
	}
	for _, sum := range slices.Sorted(maps.Keys(m.blobs)) {
		c.blob(sum, m.blobs[sum].data)
	}
	return c.done(), nil
}

func (m *memoryLog) Close() error { return nil }
