package store

import (
	"context"
	"database/sql"
	"errors"

	"matchmark/internal/machine"
)

func (s *sqliteLog) PutBlob(ctx context.Context, data []byte, mediaType string) (machine.Sum, error) {
	if err := blobFault(ctx, data); err != nil {
		return "", err
	}
	sum := sumOf(data)
	err := s.write(ctx, func(tx *sql.Tx) error {
		_, err := tx.ExecContext(ctx, "INSERT INTO blob (sum, type, data) VALUES (?, ?, ?) ON CONFLICT (sum) DO NOTHING",
			string(sum), mediaType, data)
		return err
	})
	if err != nil {
		return "", fault("keep", "attachment "+string(sum), err)
	}
	return sum, nil
}

func (s *sqliteLog) Blob(ctx context.Context, sum machine.Sum) (data []byte, mediaType string, err error) {
	err = s.db.QueryRowContext(ctx, "SELECT data, type FROM blob WHERE sum = ?", string(sum)).Scan(&data, &mediaType)
	if errors.Is(err, sql.ErrNoRows) {
		return nil, "", noBlob(sum)
	}
	if err != nil {
		return nil, "", fault("read", "attachment "+string(sum), err)
	}
	return data, mediaType, nil
}
