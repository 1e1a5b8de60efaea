package store

import (
	"context"
	"database/sql"
	"errors"
	"fmt"
	"net/url"
	"os"
	"path/filepath"
	"strings"
	"time"

	"modernc.org/sqlite"
	sqlite3 "modernc.org/sqlite/lib"
)

// sqliteLog keeps everything in one SQLite file.
//
// Attachments lie in the same file. A copy of one file is then a whole backup,
// an entry can never name a photo that a forgotten folder held, and no name
// that came from outside ever becomes a path. The price is a larger file and
// one more copy in memory when a photo is read; for photos of a few MB and a
// ceiling of MaxBlob that is small. A folder named by sums was the other way.
//
// Writing is in write-ahead mode with a full flush at every commit, so that an
// acknowledged entry is on the disk; readers do not wait for writers.
type sqliteLog struct {
	db   *sql.DB
	path string
	turn chan struct{} // one writer of this process at a time; others wait in line
	statements
}

// waitMS is how long a writer waits for another program, in milliseconds.
const waitMS = 10000

// Open opens the store in a file, and makes it where there is none.
// Errors: ErrNotADatabase and ErrNewer leave the file untouched;
// ErrUnreachable, ErrReadOnly, ErrFull, ErrBusy, ErrDamaged.
func Open(path string) (Log, error) { return open(path) }

// open takes further PRAGMA settings for every connection.
func open(path string, settings ...string) (Log, error) {
	if err := probe(path); err != nil {
		return nil, err
	}
	db, err := sql.Open("sqlite", dsn(path, url.Values{
		"_txlock": {"immediate"},
		"_pragma": append([]string{fmt.Sprintf("busy_timeout(%d)", waitMS), "synchronous(FULL)", "fullfsync(1)",
			"foreign_keys(1)"}, settings...),
	}))
	if err != nil {
		return nil, fault("open", path, err)
	}
	db.SetMaxOpenConns(4)
	db.SetMaxIdleConns(4)
	s := &sqliteLog{db: db, path: path, turn: make(chan struct{}, 1)}
	if err := s.prepare(context.Background()); err != nil {
		db.Close()
		return nil, fault("open", path, err)
	}
	return s, nil
}

// prepare lays the tables and only then turns on write-ahead mode, so that the
// mark of the program is in the file itself from its first page on.
func (s *sqliteLog) prepare(ctx context.Context) error {
	if err := migrate(ctx, s.db, s.path); err != nil {
		return err
	}
	if err := s.writeAhead(ctx); err != nil {
		return err
	}
	return s.prepareStatements(ctx)
}

// writeAhead turns on write-ahead mode, which the file then remembers. SQLite
// does not wait for the lock of this step by itself where two programs lay out
// one new file at once.
func (s *sqliteLog) writeAhead(ctx context.Context) (err error) {
	const step = 20
	for range waitMS / step {
		var mode string
		err = s.db.QueryRowContext(ctx, "PRAGMA journal_mode = WAL").Scan(&mode)
		if !errors.Is(fault("open", s.path, err), ErrBusy) {
			return err
		}
		time.Sleep(step * time.Millisecond)
	}
	return err
}

// dsn names a file and its options. The path is made absolute and escaped, so
// that a "?" or "%" in it is only a letter.
func dsn(path string, options url.Values) string {
	if abs, err := filepath.Abs(path); err == nil {
		path = abs
	}
	path = filepath.ToSlash(path)
	if !strings.HasPrefix(path, "/") {
		path = "/" + path // C:/… is written file:///C:/…
	}
	u := url.URL{Path: path}
	return "file://" + u.EscapedPath() + "?" + options.Encode()
}

// probe looks at a file without a lock and without writing, save for a step
// that was broken off, and refuses what is not ours. It reads through SQLite because a plain open and close of the
// file would drop the locks another connection of this process holds on it.
func probe(path string) error {
	info, err := os.Stat(path)
	if errors.Is(err, os.ErrNotExist) {
		return nil
	}
	if err == nil && !info.Mode().IsRegular() {
		err = errors.New("it is no plain file")
	}
	if err != nil {
		return &Error{Op: "open", Object: path, Kind: ErrUnreachable, Cause: err}
	}
	if info.Size() == 0 {
		return nil
	}
	look := url.Values{"mode": {"ro"}, "immutable": {"1"}}
	if broken(path) {
		look = url.Values{"mode": {"rw"}, "_pragma": {fmt.Sprintf("busy_timeout(%d)", waitMS)}}
	}
	db, err := sql.Open("sqlite", dsn(path, look))
	if err != nil {
		return fault("open", path, err)
	}
	defer db.Close()
	var mark, pages int
	if err := db.QueryRow("PRAGMA application_id").Scan(&mark); err != nil {
		return fault("open", path, err)
	}
	if err := db.QueryRow("PRAGMA page_count").Scan(&pages); err != nil {
		return fault("open", path, err)
	}
	if pages == 0 {
		return nil // its first step was taken back
	}
	if mark != applicationID {
		return &Error{Op: "open", Object: path, Kind: ErrNotADatabase, Cause: errors.New("another program made it"),
			Advice: "it was left as it is; give the path of the database, or of a new file"}
	}
	steps, err := readScripts()
	if err != nil {
		return err
	}
	at, err := version(context.Background(), db)
	return newerOr(path, at, len(steps), err)
}

// broken tells whether a step on the file was broken off, or is being made: its
// pages are whole only with the journal beside it, by which SQLite takes the
// step back once its lock is free.
func broken(path string) bool {
	info, err := os.Stat(path + "-journal")
	return err == nil && info.Size() > 0
}

// fault says what an error of SQLite means for the worker. What is no error of
// SQLite passes as it is.
func fault(op, object string, err error) error {
	var own *Error
	if err == nil || errors.As(err, &own) || errors.Is(err, context.Canceled) || errors.Is(err, context.DeadlineExceeded) {
		return err
	}
	e := &Error{Op: op, Object: object, Kind: ErrStorage, Cause: err, Advice: keptAdvice}
	var below *sqlite.Error
	if !errors.As(err, &below) {
		return e
	}
	switch below.Code() & 0xff {
	case sqlite3.SQLITE_FULL:
		e.Kind, e.Advice = ErrFull, fullAdvice
	case sqlite3.SQLITE_READONLY, sqlite3.SQLITE_PERM:
		e.Kind, e.Advice = ErrReadOnly, lockAdvice
	case sqlite3.SQLITE_BUSY, sqlite3.SQLITE_LOCKED:
		e.Kind, e.Advice = ErrBusy, busyAdvice
	case sqlite3.SQLITE_NOTADB:
		e.Kind, e.Advice = ErrNotADatabase, "it was left as it is; give the path of the database, or of a new file"
	case sqlite3.SQLITE_CORRUPT:
		e.Kind, e.Advice = ErrDamaged, "stop writing, copy the file away, and restore the last archive or backup"
	case sqlite3.SQLITE_CANTOPEN:
		e.Kind, e.Advice = ErrUnreachable, "see that its folder exists and may be written"
	}
	return e
}

// Close ends the use of the file and folds the write-ahead file back into it.
func (s *sqliteLog) Close() error { return fault("close", s.path, s.db.Close()) }

// write runs act in one transaction, one at a time in this process.
func (s *sqliteLog) write(ctx context.Context, act func(*sql.Tx) error) error {
	select {
	case s.turn <- struct{}{}:
		defer func() { <-s.turn }()
	case <-ctx.Done():
		return ctx.Err()
	}
	tx, err := s.db.BeginTx(ctx, nil)
	if err != nil {
		return err
	}
	defer tx.Rollback()
	if err := act(tx); err != nil {
		return err
	}
	return tx.Commit()
}
