package store

import (
	"context"
	"database/sql"
	"errors"
	"slices"
	"time"

	"matchmark/internal/machine"
)

// The statements of Append, which are prepared once and used for every entry.
const (
	headSQL   = "SELECT number, name, entries, last, link FROM machine WHERE id = ?"
	insertSQL = "INSERT INTO entry (machine, seq, id, line, link) VALUES (?, ?, ?, ?, ?) ON CONFLICT (machine, id) DO NOTHING"
	updateSQL = "UPDATE machine SET entries = ?, last = ?, link = ? WHERE number = ?"
)

// statements holds them prepared.
type statements struct{ head, insert, update *sql.Stmt }

func (s *sqliteLog) prepareStatements(ctx context.Context) (err error) {
	for text, to := range map[string]**sql.Stmt{headSQL: &s.head, insertSQL: &s.insert, updateSQL: &s.update} {
		if *to, err = s.db.PrepareContext(ctx, text); err != nil {
			return err
		}
	}
	return nil
}

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
		a, err := s.beginAppend(ctx, tx, id)
		if err != nil {
			return err
		}
		before := a.head.entries
		for i, l := range lines {
			if out[i].Seq, err = a.keep(ctx, l); err != nil {
				return err
			}
		}
		if a.head.entries == before {
			return nil
		}
		_, err = tx.StmtContext(ctx, s.update).ExecContext(ctx, a.head.entries, lastText(a.head.last), a.head.link[:], a.number)
		return err
	})
	if err != nil {
		return nil, fault("append to", "machine "+string(id), err)
	}
	return out, nil
}

// readHead finds a machine and where its log stands.
func readHead(ctx context.Context, ask *sql.Stmt, op string, id machine.MachineID) (number int64, h head, err error) {
	h.id = id
	var last string
	var sum []byte
	err = ask.QueryRowContext(ctx, string(id)).Scan(&number, &h.name, &h.entries, &last, &sum)
	if errors.Is(err, sql.ErrNoRows) {
		return 0, h, noMachine(op, id)
	}
	copy(h.link[:], sum)
	h.last = parseLast(last)
	return number, h, err
}

// appending is one append on its way.
type appending struct {
	tx     *sql.Tx
	insert *sql.Stmt
	number int64 // of the machine
	head   head
}

func (s *sqliteLog) beginAppend(ctx context.Context, tx *sql.Tx, id machine.MachineID) (a appending, err error) {
	a.tx, a.insert = tx, tx.StmtContext(ctx, s.insert)
	a.number, a.head, err = readHead(ctx, tx.StmtContext(ctx, s.head), "append to", id)
	return a, err
}

// keep adds a line unless its id is there, and returns its Seq.
func (a *appending) keep(ctx context.Context, l line) (int64, error) {
	h := &a.head
	next := h.link.next(l.text)
	done, err := a.insert.ExecContext(ctx, a.number, h.entries+1, string(l.id), string(l.text), next[:])
	if err != nil {
		return 0, err
	}
	added, err := done.RowsAffected()
	if err != nil {
		return 0, err
	}
	if added == 0 {
		return a.kept(ctx, l)
	}
	h.entries, h.link = h.entries+1, next
	if l.at.After(h.last) {
		h.last = l.at
	}
	return h.entries, nil
}

// kept finds the Seq of a line that is there, and refuses one that says other.
func (a *appending) kept(ctx context.Context, l line) (seq int64, err error) {
	var text string
	err = a.tx.QueryRowContext(ctx, "SELECT seq, line FROM entry WHERE machine = ? AND id = ?", a.number, string(l.id)).Scan(&seq, &text)
	if err == nil && !sameFact([]byte(text), l.text) {
		err = conflict(a.head.id, l.id)
	}
	return seq, err
}

func (s *sqliteLog) Since(ctx context.Context, id machine.MachineID, seq int64) ([]machine.Entry, error) {
	number, h, err := readHead(ctx, s.head, "read", id)
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
