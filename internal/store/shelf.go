package store

import (
	"context"
	"database/sql"
	"errors"
	"fmt"
	"maps"
	"slices"
	"strings"
)

// paperFault refuses what cannot stand on the shelf.
func paperFault(ctx context.Context, name string, data []byte) error {
	if name == "" {
		return &Error{Op: "keep", Object: "paper", Kind: ErrInvalid, Cause: errors.New("a paper needs a name")}
	}
	if len(data) > MaxPaper {
		return &Error{Op: "keep", Object: "paper " + name, Kind: ErrInvalid,
			Cause: fmt.Errorf("%d bytes, at most %d fit", len(data), MaxPaper)}
	}
	return ctx.Err()
}

func (m *memoryLog) Paper(ctx context.Context, name string) ([]byte, error) {
	m.mu.RLock()
	defer m.mu.RUnlock()
	return slices.Clone(m.papers[name]), ctx.Err()
}

func (m *memoryLog) PutPaper(ctx context.Context, name string, data []byte) error {
	if err := paperFault(ctx, name, data); err != nil {
		return err
	}
	m.mu.Lock()
	defer m.mu.Unlock()
	if len(data) == 0 {
		delete(m.papers, name)
		return nil
	}
	m.papers[name] = slices.Clone(data)
	return nil
}

func (m *memoryLog) Papers(ctx context.Context, front string) ([]string, error) {
	m.mu.RLock()
	defer m.mu.RUnlock()
	names := slices.DeleteFunc(slices.Sorted(maps.Keys(m.papers)), func(n string) bool { return !strings.HasPrefix(n, front) })
	return names, ctx.Err()
}

func (s *sqliteLog) Paper(ctx context.Context, name string) (data []byte, err error) {
	err = s.db.QueryRowContext(ctx, "SELECT data FROM paper WHERE name = ?", name).Scan(&data)
	if errors.Is(err, sql.ErrNoRows) {
		return nil, nil
	}
	return data, fault("read", "paper "+name, err)
}

func (s *sqliteLog) PutPaper(ctx context.Context, name string, data []byte) error {
	if err := paperFault(ctx, name, data); err != nil {
		return err
	}
	return fault("keep", "paper "+name, s.write(ctx, func(tx *sql.Tx) error {
		if len(data) == 0 {
			_, err := tx.ExecContext(ctx, "DELETE FROM paper WHERE name = ?", name)
			return err
		}
		_, err := tx.ExecContext(ctx, "INSERT INTO paper (name, data) VALUES (?, ?) ON CONFLICT (name) DO UPDATE SET data = excluded.data", name, data)
		return err
	}))
}

func (s *sqliteLog) Papers(ctx context.Context, front string) ([]string, error) {
	rows, err := s.db.QueryContext(ctx, "SELECT name FROM paper WHERE substr(name, 1, length(?1)) = ?1 ORDER BY name", front)
	if err != nil {
		return nil, fault("list", "papers", err)
	}
	defer rows.Close()
	var names []string
	for rows.Next() {
		var name string
		if err := rows.Scan(&name); err != nil {
			return nil, fault("list", "papers", err)
		}
		names = append(names, name)
	}
	return names, fault("list", "papers", rows.Err())
}
