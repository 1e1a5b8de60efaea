package store

import (
	"context"
	"database/sql"
	"embed"
	"fmt"
	"io/fs"
)

//go:embed sql/*.sql
var scripts embed.FS

// applicationID marks a SQLite file as ours: "MtMk", at byte 68 of the file.
const applicationID = 0x4D744D6B

// script is one step of the layout. The version of a file, its user_version,
// is how many scripts have been run on it.
type script struct{ name, text string }

// readScripts lists the steps in order: 001 first.
func readScripts() ([]script, error) {
	names, err := fs.Glob(scripts, "sql/*.sql") // sorted
	if err != nil {
		return nil, err
	}
	out := make([]script, len(names))
	for i, name := range names {
		text, err := fs.ReadFile(scripts, name)
		if err != nil {
			return nil, err
		}
		out[i] = script{name, string(text)}
	}
	return out, nil
}

// migrate brings a file to the newest layout, all steps in one transaction. A
// file of a newer version is left as it is. Two programs that open a new file
// at once wait for one another.
func migrate(ctx context.Context, db *sql.DB, path string) error {
	steps, err := readScripts()
	if err != nil {
		return err
	}
	if at, err := version(ctx, db); err != nil || at >= len(steps) {
		return newerOr(path, at, len(steps), err)
	}
	tx, err := db.BeginTx(ctx, nil)
	if err != nil {
		return err
	}
	defer tx.Rollback()
	at, err := version(ctx, tx) // another program may have been quicker
	if err != nil || at >= len(steps) {
		return newerOr(path, at, len(steps), err)
	}
	for _, s := range steps[at:] {
		if _, err := tx.ExecContext(ctx, s.text); err != nil {
			return fmt.Errorf("%s: %w", s.name, err)
		}
	}
	marks := fmt.Sprintf("PRAGMA application_id = %d; PRAGMA user_version = %d", applicationID, len(steps))
	if _, err := tx.ExecContext(ctx, marks); err != nil {
		return err
	}
	return tx.Commit()
}

// asker is a database or a transaction.
type asker interface {
	QueryRowContext(ctx context.Context, query string, args ...any) *sql.Row
}

func version(ctx context.Context, q asker) (at int, err error) {
	err = q.QueryRowContext(ctx, "PRAGMA user_version").Scan(&at)
	return at, err
}

func newerOr(path string, at, newest int, err error) error {
	if err != nil || at <= newest {
		return err
	}
	return &Error{Op: "open", Object: path, Kind: ErrNewer,
		Cause:  fmt.Errorf("layout %d, this program knows %d", at, newest),
		Advice: "it was left as it is; install the newer version of matchmark to open it"}
}
