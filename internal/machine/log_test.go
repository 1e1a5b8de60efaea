package machine

import (
	"bytes"
	"encoding/json"
	"flag"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
)

var update = flag.Bool("update", false, "write the golden files and the schema anew")

// readLog reads the lines of a log in testdata.
func readLog(t testing.TB, path string) (lines [][]byte, entries []Entry) {
	t.Helper()
	text, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	for _, line := range bytes.Split(bytes.TrimSuffix(text, []byte("\n")), []byte("\n")) {
		lines = append(lines, line)
		entries = append(entries, Decode(line))
	}
	return lines, entries
}

// smallLog is the log of version 1.
func smallLog(t testing.TB) []Entry {
	_, entries := readLog(t, "testdata/log/v1/small.jsonl")
	return entries
}

// TestReleasedLogs: the logs of each release fold for ever to what they folded
// to when they were written. A golden file may gain lines for fields that are
// new; a line that changes or goes is a broken promise.
func TestReleasedLogs(t *testing.T) {
	paths, err := filepath.Glob("testdata/log/v*/*.jsonl")
	if err != nil || len(paths) == 0 {
		t.Fatalf("no logs in testdata: %v", err)
	}
	for _, path := range paths {
		t.Run(path, func(t *testing.T) {
			_, entries := readLog(t, path)
			golden := strings.TrimSuffix(path, ".jsonl") + ".golden"
			got := dump(Fold(entries))
			if *update {
				if err := os.WriteFile(golden, []byte(got), 0o644); err != nil {
					t.Fatal(err)
				}
			}
			want, err := os.ReadFile(golden)
			if err != nil {
				t.Fatal(err)
			}
			if diff := cmp.Diff(strings.Split(string(want), "\n"), strings.Split(got, "\n")); diff != "" {
				t.Errorf("folds otherwise than it did (-then +now):\n%s", diff)
			}
		})
	}
}

// TestSmallLog: the logs of version 1 together hold every kind, are read
// without loss, and are written back as they came.
func TestSmallLog(t *testing.T) {
	kinds := map[Kind]bool{}
	for _, name := range []string{"small", "setting", "identified", "instrument", "clash", "tray", "survey"} {
		wholeLog(t, "testdata/log/v1/"+name+".jsonl", kinds)
	}
	for _, b := range Bodies() {
		if !kinds[b.Kind()] {
			t.Errorf("no log of version 1 has a %s", b.Kind())
		}
	}
}

// wholeLog reads one log without loss and adds the kinds it holds.
func wholeLog(t *testing.T, path string, kinds map[Kind]bool) {
	t.Helper()
	lines, entries := readLog(t, path)
	for i, e := range entries {
		kinds[e.Kind()] = true
		if u, ok := e.Body.(*Unreadable); ok {
			t.Errorf("%s, line %d: %s", path, i+1, u.Why)
		}
		text, err := json.Marshal(e)
		if err != nil || !bytes.Equal(text, lines[i]) {
			t.Errorf("line %d written back, %v:\n got %s\nfrom %s", i+1, err, text, lines[i])
		}
	}
	if m := Fold(entries); len(m.Questions) != 0 {
		t.Errorf("questions: %+v", m.Questions)
	}
}
