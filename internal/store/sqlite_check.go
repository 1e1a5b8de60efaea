package store

import (
	"context"
	"database/sql"
	"errors"

	"matchmark/internal/machine"
)

// Check looks at one moment of the file, whoever writes meanwhile. Damage that
// stops the reading is a fault of the report too.
func (s *sqliteLog) Check(ctx context.Context) (Report, error) {
	tx, err := s.db.BeginTx(ctx, &sql.TxOptions{ReadOnly: true})
	if err != nil {
		return Report{}, fault("check", s.path, err)
	}
	defer tx.Rollback()
	c := newChecker()
	for _, look := range []func(context.Context, *sql.Tx, *checker) error{checkFile, s.checkLogs, checkBlobs} {
		err := fault("check", s.path, look(ctx, tx, c))
		if errors.Is(err, ErrDamaged) || errors.Is(err, ErrNotADatabase) {
			c.fault(Fault{}, "%v", err)
			return c.report, nil // what is missing cannot be told apart from what was not read
		}
		if err != nil {
			return Report{}, err
		}
	}
	return c.done(), nil
}

// checkFile lets SQLite look at its own pages and ties between tables.
func checkFile(ctx context.Context, tx *sql.Tx, c *checker) error {
	rows, err := tx.QueryContext(ctx, "PRAGMA integrity_check")
	if err != nil {
		return err
	}
	defer rows.Close()
	for rows.Next() {
		var text string
		if err := rows.Scan(&text); err != nil {
			return err
		}
		if text != "ok" {
			c.fault(Fault{}, "the file is damaged: %s", text)
		}
	}
	if err := rows.Err(); err != nil {
		return err
	}
	var orphans int
	if err := tx.QueryRowContext(ctx, "SELECT count(*) FROM pragma_foreign_key_check").Scan(&orphans); err != nil {
		return err
	}
	if orphans > 0 {
		c.fault(Fault{}, "%d entries belong to no machine", orphans)
	}
	return nil
}

func (s *sqliteLog) checkLogs(ctx context.Context, tx *sql.Tx, c *checker) error {
	rows, err := tx.QueryContext(ctx, "SELECT id FROM machine ORDER BY id")
	if err != nil {
		return err
	}
	defer rows.Close()
	for rows.Next() {
		var id machine.MachineID
		if err := rows.Scan(&id); err != nil {
			return err
		}
		if err := s.checkLog(ctx, tx, c, id); err != nil {
			return err
		}
	}
	return rows.Err()
}

func (s *sqliteLog) checkLog(ctx context.Context, tx *sql.Tx, c *checker, id machine.MachineID) error {
	number, h, err := readHead(ctx, tx.StmtContext(ctx, s.head), "check", id)
	if err != nil {
		return err
	}
	rows, err := tx.QueryContext(ctx, "SELECT seq, id, line, link FROM entry WHERE machine = ? ORDER BY seq", number)
	if err != nil {
		return err
	}
	defer rows.Close()
	c.begin(h)
	for rows.Next() {
		var seq int64
		var entry machine.EntryID
		var text, sum sql.RawBytes
		if err := rows.Scan(&seq, &entry, &text, &sum); err != nil {
			return err
		}
		var kept link
		copy(kept[:], sum)
		c.entry(seq, entry, text, kept)
	}
	c.end()
	return rows.Err()
}

func checkBlobs(ctx context.Context, tx *sql.Tx, c *checker) error {
	rows, err := tx.QueryContext(ctx, "SELECT sum, data FROM blob ORDER BY sum")
	if err != nil {
		return err
	}
	defer rows.Close()
	for rows.Next() {
		var sum machine.Sum
		var data sql.RawBytes
		if err := rows.Scan(&sum, &data); err != nil {
			return err
		}
		c.blob(sum, data)
	}
	return rows.Err()
}
