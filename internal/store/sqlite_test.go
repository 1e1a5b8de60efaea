package store

import (
	"bytes"
	"database/sql"
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"matchmark/internal/machine"
)

// fill makes a store in a file with n entries and closes it.
func fill(t testing.TB, path string, n int) {
	t.Helper()
	log := mustOpen(t, path)
	if err := log.Create(t.Context(), "m", "Machine"); err != nil {
		t.Fatal(err)
	}
	var batch []machine.Entry
	for i := range n {
		batch = append(batch, entry(i+1, "x"))
	}
	if _, err := log.Append(t.Context(), "m", batch); err != nil {
		t.Fatal(err)
	}
	if err := log.Close(); err != nil {
		t.Fatal(err)
	}
}

// alter runs SQL on a file past the store.
func alter(t testing.TB, path, text string) {
	t.Helper()
	db, err := sql.Open("sqlite", path)
	if err != nil {
		t.Fatal(err)
	}
	defer db.Close()
	if _, err := db.Exec(text); err != nil {
		t.Fatal(err)
	}
}

// listDir lists the names and bytes of a folder.
func listDir(t testing.TB, dir string) map[string]string {
	t.Helper()
	files, err := os.ReadDir(dir)
	if err != nil {
		t.Fatal(err)
	}
	out := map[string]string{}
	for _, f := range files {
		data, err := os.ReadFile(filepath.Join(dir, f.Name()))
		if err != nil {
			t.Fatal(err)
		}
		out[f.Name()] = string(data)
	}
	return out
}

func TestReopen(t *testing.T) {
	dir := t.TempDir()
	path := filepath.Join(dir, "m.db")
	fill(t, path, 3)
	if files := listDir(t, dir); len(files) != 1 {
		t.Errorf("a closed store is %d files, want 1: a copy of it must be a whole backup", len(files))
	}
	log := checkedLog{mustOpen(t, path), t}
	defer log.Close()
	got, err := log.Append(t.Context(), "m", []machine.Entry{entry(2, "x"), entry(4, "x")})
	if err != nil || got[0].Seq != 2 || got[1].Seq != 4 {
		t.Errorf("after reopening: %v, %v; want numbers 2 and 4", seqs(got), err)
	}
}

// TestSettings reads back what the file and every connection run under.
func TestSettings(t *testing.T) {
	path := filepath.Join(t.TempDir(), "m.db")
	log := mustOpen(t, path).(*sqliteLog)
	defer log.Close()
	want := map[string]string{"journal_mode": "wal", "synchronous": "2", "foreign_keys": "1",
		"busy_timeout": fmt.Sprint(waitMS), "user_version": "2", "application_id": fmt.Sprint(applicationID)}
	for name, value := range want {
		var got string
		if err := log.db.QueryRow("PRAGMA " + name).Scan(&got); err != nil || got != value {
			t.Errorf("%s is %s, %v; want %s", name, got, err, value)
		}
	}
}

// TestRefused gives Open files that are not ours. Each must be named and left
// alone, byte for byte, with nothing beside it.
func TestRefused(t *testing.T) {
	cases := []struct {
		name string
		make func(t *testing.T, path string)
		want error
	}{
		{"a text", func(t *testing.T, path string) { writeFile(t, path, "hello") }, ErrNotADatabase},
		{"a long text", func(t *testing.T, path string) { writeFile(t, path, strings.Repeat("bore 52.013\n", 1000)) }, ErrNotADatabase},
		{"another program's database", func(t *testing.T, path string) { alter(t, path, "CREATE TABLE t (x)") }, ErrNotADatabase},
		{"a cut header", func(t *testing.T, path string) { writeFile(t, path, "SQLite format 3\x00") }, ErrNotADatabase},
		{"a newer version", func(t *testing.T, path string) { fill(t, path, 2); alter(t, path, "PRAGMA user_version = 99") }, ErrNewer},
	}
	for _, c := range cases {
		t.Run(c.name, func(t *testing.T) {
			dir := t.TempDir()
			path := filepath.Join(dir, "given.db")
			c.make(t, path)
			before := listDir(t, dir)
			log, err := Open(path)
			if err == nil {
				log.Close()
			}
			if !errors.Is(err, c.want) || !strings.Contains(err.Error(), path) || !strings.Contains(err.Error(), "left as it is") {
				t.Errorf("open: %v; want %v, naming the file and that it was left as it is", err, c.want)
			}
			after := listDir(t, dir)
			if len(after) != len(before) || after["given.db"] != before["given.db"] {
				t.Errorf("the folder was touched: %d files before, %d after", len(before), len(after))
			}
		})
	}
}

func TestUnreachable(t *testing.T) {
	dir := t.TempDir()
	for name, path := range map[string]string{"a folder": dir, "no folder": filepath.Join(dir, "none", "m.db")} {
		if _, err := Open(path); !errors.Is(err, ErrUnreachable) || !strings.Contains(err.Error(), path) {
			t.Errorf("%s: %v; want ErrUnreachable naming %s", name, err, path)
		}
	}
	empty := filepath.Join(dir, "empty.db") // as a fresh temporary file is
	writeFile(t, empty, "")
	mustOpen(t, empty).Close()
}

func writeFile(t testing.TB, path, text string) {
	t.Helper()
	if err := os.WriteFile(path, []byte(text), 0o644); err != nil {
		t.Fatal(err)
	}
}

// TestFull fills a file that may not grow beyond its pages. What was
// acknowledged must stand, and what was refused must go in once there is room.
func TestFull(t *testing.T) {
	path := filepath.Join(t.TempDir(), "m.db")
	log := checkedLog{mustOpen(t, path, "max_page_count(40)"), t}
	if err := log.Create(t.Context(), "m", "Machine"); err != nil {
		t.Fatal(err)
	}
	acked, refused := 0, entry(0, "")
	for n := 1; n < 1000 && acked == n-1; n++ {
		refused = entry(n, strings.Repeat("swarf ", 200))
		_, err := log.Append(t.Context(), "m", []machine.Entry{refused})
		if err == nil {
			acked = n
		} else if !errors.Is(err, ErrFull) || !strings.Contains(err.Error(), "everything acknowledged before it is kept") {
			t.Fatalf("append to a full disk: %v", err)
		}
	}
	if _, err := log.PutBlob(t.Context(), bytes.Repeat([]byte("photo"), 100000), "image/jpeg"); !errors.Is(err, ErrFull) {
		t.Errorf("attachment to a full disk: %v, want ErrFull", err)
	}
	kept, err := log.Since(t.Context(), "m", 0)
	if err != nil || acked == 0 || len(kept) != acked {
		t.Fatalf("%d acknowledged, %d kept, %v", acked, len(kept), err)
	}
	if err := log.Close(); err != nil {
		t.Fatal(err)
	}
	roomy := checkedLog{mustOpen(t, path), t}
	defer roomy.Close()
	got, err := roomy.Append(t.Context(), "m", []machine.Entry{refused})
	if err != nil || got[0].Seq != int64(acked+1) {
		t.Errorf("with room again: %v, %v; want number %d", seqs(got), err, acked+1)
	}
}

// TestReadOnly writes to a store that may only be read. The tests may run as a
// user whom file permissions do not bind, so SQLite is told to refuse.
func TestReadOnly(t *testing.T) {
	path := filepath.Join(t.TempDir(), "m.db")
	fill(t, path, 2)
	log := checkedLog{mustOpen(t, path, "query_only(1)"), t}
	defer log.Close()
	_, err := log.Append(t.Context(), "m", []machine.Entry{entry(3, "x")})
	if !errors.Is(err, ErrReadOnly) || !strings.Contains(err.Error(), "nothing of this call was stored") {
		t.Errorf("append: %v, want ErrReadOnly", err)
	}
	if kept, err := log.Since(t.Context(), "m", 0); err != nil || len(kept) != 2 {
		t.Errorf("kept %d, %v; want 2", len(kept), err)
	}
}

// TestDamage alters a file past the store; Check must say so and name what.
func TestDamage(t *testing.T) {
	cases := []struct{ name, sql, says string }{
		{"a line changed", "UPDATE entry SET line = replace(line, '\"x\"', '\"y\"') WHERE seq = 2", "entry e0002 does not agree"},
		{"an entry lost", "DELETE FROM entry WHERE seq = 2", "number 3 where 2 was due"},
		{"the tail lost", "DELETE FROM entry WHERE seq = 4", "should have 4 entries and has 3"},
		{"the tail lost and the count mended", "DELETE FROM entry WHERE seq = 4; UPDATE machine SET entries = 3", "do not agree with its sum"},
		{"two entries swapped", "UPDATE entry SET seq = 9 WHERE seq = 2; UPDATE entry SET seq = 2 WHERE seq = 3; UPDATE entry SET seq = 3 WHERE seq = 9", "entry e0003 does not agree"},
		{"an id changed", "UPDATE entry SET id = 'other' WHERE seq = 3", "under the id of another"},
		{"the time of the newest changed", "UPDATE machine SET last = ''", "should end on no time"},
		{"an entry without a machine", "INSERT INTO entry VALUES (7, 1, 'stray', '{}', x'00')", "belong to no machine"},
		{"an attachment changed", "UPDATE blob SET data = x'00'", "was altered"},
		{"an attachment lost", "DELETE FROM blob", "which is not here"},
	}
	for _, c := range cases {
		t.Run(c.name, func(t *testing.T) {
			path := filepath.Join(t.TempDir(), "m.db")
			fill(t, path, 3)
			log := mustOpen(t, path)
			sum, err := log.PutBlob(t.Context(), []byte("photo"), "image/jpeg")
			if err != nil {
				t.Fatal(err)
			}
			e := entry(4, "")
			e.Body = &machine.PhotoAdded{Of: "part:p", Sum: sum}
			if _, err := log.Append(t.Context(), "m", []machine.Entry{e}); err != nil {
				t.Fatal(err)
			}
			checkedLog{log, t}.clean()
			log.Close()
			alter(t, path, c.sql)
			log = mustOpen(t, path)
			defer log.Close()
			report, err := log.Check(t.Context())
			if err != nil || !strings.Contains(fmt.Sprint(report.Faults), c.says) {
				t.Errorf("check: %v, %v; want a fault saying %q", report.Faults, err, c.says)
			}
		})
	}
}

// TestTornPage overwrites pages in the middle of the file, as a failing disk
// may. Nothing may panic, and Check must not call it clean.
func TestTornPage(t *testing.T) {
	path := filepath.Join(t.TempDir(), "m.db")
	fill(t, path, 400)
	data, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	for page := 1; page < len(data)/4096; page++ {
		torn := bytes.Clone(data)
		copy(torn[page*4096:], bytes.Repeat([]byte{0xA5}, 4096))
		writeFile(t, path, string(torn))
		log, err := Open(path)
		if err != nil {
			continue // refused at the door: as good
		}
		report, err := log.Check(t.Context())
		if err == nil && report.Clean() {
			t.Errorf("page %d overwritten, and the check finds nothing", page+1)
		}
		log.Since(t.Context(), "m", 0)
		log.Close()
	}
}

// TestTwoProcesses lets two processes write to one new file at once.
func TestTwoProcesses(t *testing.T) {
	path := filepath.Join(t.TempDir(), "m.db")
	const each = 100
	var ends []func() error
	for _, prefix := range []string{"a", "b"} {
		cmd, out := childCommand(t, "append", path, prefix, fmt.Sprint(each))
		if err := cmd.Start(); err != nil {
			t.Fatal(err)
		}
		ends = append(ends, func() error { readAcks(out); return cmd.Wait() })
	}
	for _, end := range ends {
		if err := end(); err != nil {
			t.Errorf("a writer: %v", err)
		}
	}
	log := checkedLog{mustOpen(t, path), t}
	defer log.Close()
	log.clean()
	kept, err := log.Since(t.Context(), "m", 0)
	if err != nil || len(kept) != 2*each {
		t.Fatalf("kept %d, %v; want %d", len(kept), err, 2*each)
	}
	turns := 0
	for i, e := range kept {
		if e.Seq != int64(i+1) {
			t.Errorf("entry %d has number %d", i+1, e.Seq)
		}
		if i > 0 && e.ID[0] != kept[i-1].ID[0] {
			turns++
		}
	}
	t.Logf("the two writers took turns %d times", turns)
}
