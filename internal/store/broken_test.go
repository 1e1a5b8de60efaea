package store

import (
	"database/sql"
	"os"
	"path/filepath"
	"testing"
)

// TestBrokenLayingOut: a file whose very first step was broken off, with pages
// on the disk already, is taken back to nothing and laid out anew. What a killed
// program leaves is copied here from one that still runs.
func TestBrokenLayingOut(t *testing.T) {
	dir := t.TempDir()
	half, path := filepath.Join(dir, "half.db"), filepath.Join(dir, "m.db")
	db, err := sql.Open("sqlite", half)
	if err != nil {
		t.Fatal(err)
	}
	defer db.Close()
	db.SetMaxOpenConns(1)
	for _, step := range []string{"PRAGMA cache_size = 5", "BEGIN IMMEDIATE", "CREATE TABLE a (x BLOB)",
		"INSERT INTO a SELECT randomblob(3000) FROM (WITH RECURSIVE n(i) AS (SELECT 1 UNION ALL SELECT i + 1 FROM n WHERE i < 40) SELECT i FROM n)"} {
		if _, err := db.Exec(step); err != nil {
			t.Fatalf("%s: %v", step, err)
		}
	}
	for _, end := range []string{"", "-journal"} {
		data, err := os.ReadFile(half + end)
		if err != nil || len(data) == 0 {
			t.Fatalf("nothing of %s is on the disk yet: %v", half+end, err)
		}
		if err := os.WriteFile(path+end, data, 0o600); err != nil {
			t.Fatal(err)
		}
	}
	log := checkedLog{mustOpen(t, path), t}
	defer log.Close()
	if err := log.Create(t.Context(), "m", "Machine"); err != nil {
		t.Fatal(err)
	}
}
