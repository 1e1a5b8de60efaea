package store

import (
	"context"
	"database/sql"
	"errors"
	"slices"
	"time"

	"matchmark/internal/machine"
)

func (s *sqliteLog) Create(ctx context.Context, id machine.MachineID, name string) error {
	if err := createFault(ctx, id, name); err != nil {
		return err
	}
	first := firstLink(id)
	return fault("create", "machine "+string(id), s.write(ctx, func(tx *sql.Tx) error {
		_, err := tx.ExecContext(ctx, "INSERT INTO machine (id, name, link) VALUES (?, ?, ?) ON CONFLICT (id) DO NOTHING",
			string(id), name, first[:])
		if err != nil {
			return err
		}
		var kept string
		if err := tx.QueryRowContext(ctx, "SELECT name FROM machine WHERE id = ?", string(id)).Scan(&kept); err != nil {
			return err
		}
		return sameName(id, kept, name)
	}))
}

func (s *sqliteLog) Append(ctx context.Context, id machine.MachineID, entries []machine.Entry) ([]machine.Entry, error) {
	lines, err := writeLines(id, entries)
	if err != nil {
		return nil, err
	}
	out := slices.Clone(entries)
	err = s.write(ctx, func(tx *sql.Tx) error {
		number, h, err := readHead(ctx, tx, "append to", id)
		if err != nil {
			return err
		}
		before := h.entries
		for i, l := range lines {
			if out[i].Seq, err = keepLine(ctx, tx, number, &h, l); err != nil {
				return err
			}
		}
		if h.entries == before {
			return nil
		}
		_, err = tx.ExecContext(ctx, "UPDATE machine SET entries = ?, last = ?, link = ? WHERE number = ?",
			h.entries, lastText(h.last), h.link[:], number)
		return err
	})
	if err != nil {
		return nil, fault("append to", "machine "+string(id), err)
	}
	return out, nil
}

// readHead finds a machine and where its log stands.
func readHead(ctx context.Context, q asker, op string, id machine.MachineID) (number int64, h head, err error) {
	h.id = id
	var last string
	var sum []byte
	err = q.QueryRowContext(ctx, "SELECT number, name, entries, last, link FROM machine WHERE id = ?", string(id)).
		Scan(&number, &h.name, &h.entries, &last, &sum)
	if errors.Is(err, sql.ErrNoRows) {
		return 0, h, noMachine(op, id)
	}
	copy(h.link[:], sum)
	h.last = parseLast(last)
	return number, h, err
}

// keepLine adds a line unless its id is there, and returns its Seq.
func keepLine(ctx context.Context, tx *sql.Tx, number int64, h *head, l line) (int64, error) {
	next := h.link.next(l.text)
	done, err := tx.ExecContext(ctx, "INSERT INTO entry (machine, seq, id, line, link) VALUES (?, ?, ?, ?, ?) ON CONFLICT (machine, id) DO NOTHING",
		number, h.entries+1, string(l.id), string(l.text), next[:])
	if err != nil {
		return 0, err
	}
	added, err := done.RowsAffected()
	if err != nil {
		return 0, err
	}
	if added == 1 {
		h.entries++
		h.link = next
		if l.at.After(h.last) {
			h.last = l.at
		}
		return h.entries, nil
	}
	var seq int64
	var kept string
	err = tx.QueryRowContext(ctx, "SELECT seq, line FROM entry WHERE machine = ? AND id = ?", number, string(l.id)).Scan(&seq, &kept)
	if err == nil && !sameFact([]byte(kept), l.text) {
		err = conflict(h.id, l.id)
	}
	return seq, err
}

func (s *sqliteLog) Since(ctx context.Context, id machine.MachineID, seq int64) ([]machine.Entry, error) {
	number, h, err := readHead(ctx, s.db, "read", id)
	if err != nil {
		return nil, fault("read", "machine "+string(id), err)
	}
	rows, err := s.db.QueryContext(ctx, "SELECT seq, id, line FROM entry WHERE machine = ? AND seq > ? ORDER BY seq", number, seq)
	if err != nil {
		return nil, fault("read", "machine "+string(id), err)
	}
	defer rows.Close()
	var out []machine.Entry
	if n := h.entries - max(seq, 0); n > 0 {
		out = make([]machine.Entry, 0, n)
	}
	for rows.Next() {
		var n int64
		var entry string
		var text sql.RawBytes
		if err := rows.Scan(&n, &entry, &text); err != nil {
			return nil, fault("read", "machine "+string(id), err)
		}
		out = append(out, readLine(machine.EntryID(entry), n, text))
	}
	return out, fault("read", "machine "+string(id), rows.Err())
}

func (s *sqliteLog) Machines(ctx context.Context) ([]Listing, error) {
	rows, err := s.db.QueryContext(ctx, "SELECT id, name, entries, last FROM machine ORDER BY id")
	if err != nil {
		return nil, fault("list", s.path, err)
	}
	defer rows.Close()
	var out []Listing
	for rows.Next() {
		var l Listing
		var last string
		if err := rows.Scan(&l.ID, &l.Name, &l.Entries, &last); err != nil {
			return nil, fault("list", s.path, err)
		}
		l.Last = parseLast(last)
		out = append(out, l)
	}
	return out, fault("list", s.path, rows.Err())
}

// lastText writes the time of the latest entry for the machine's row.
func lastText(t time.Time) string {
	if t.IsZero() {
		return ""
	}
	return t.UTC().Format(time.RFC3339Nano)
}

// parseLast reads it; what cannot be read is no time, and Check says so.
func parseLast(text string) time.Time {
	t, err := time.Parse(time.RFC3339Nano, text)
	if err != nil {
		return time.Time{}
	}
	return t
}
