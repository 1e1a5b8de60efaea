package store

import (
	"errors"
	"path/filepath"
	"testing"

	"github.com/google/go-cmp/cmp"
)

func testShelf(t *testing.T, log Log) {
	if got, err := log.Paper(t.Context(), "device/1"); got != nil || err != nil {
		t.Fatalf("a paper that is not there: %q, %v", got, err)
	}
	for name, text := range map[string]string{"device/1": "a", "device/2": "b", "device%": "c", "tool": "d"} {
		if err := log.PutPaper(t.Context(), name, []byte(text)); err != nil {
			t.Fatal(err)
		}
	}
	if err := log.PutPaper(t.Context(), "device/1", []byte("changed")); err != nil {
		t.Fatal(err)
	}
	if err := log.PutPaper(t.Context(), "device/2", nil); err != nil {
		t.Fatal(err)
	}
	if got, err := log.Paper(t.Context(), "device/1"); string(got) != "changed" || err != nil {
		t.Errorf("changed paper: %q, %v", got, err)
	}
	for front, want := range map[string][]string{"device/": {"device/1"}, "device%": {"device%"}, "": {"device%", "device/1", "tool"}, "none": nil} {
		if got, err := log.Papers(t.Context(), front); err != nil || len(got)+len(want) > 0 && !cmp.Equal(got, want) {
			t.Errorf("papers %q: %q, %v, want %q", front, got, err, want)
		}
	}
	if err := log.PutPaper(t.Context(), "", []byte("x")); !errors.Is(err, ErrInvalid) {
		t.Errorf("a paper without a name: %v", err)
	}
	if err := log.PutPaper(t.Context(), "big", make([]byte, MaxPaper+1)); !errors.Is(err, ErrInvalid) {
		t.Errorf("a paper too big: %v", err)
	}
}

// TestShelfOutlivesClosing: papers are in the file.
func TestShelfOutlivesClosing(t *testing.T) {
	path := filepath.Join(t.TempDir(), "m.db")
	log := mustOpen(t, path)
	if err := log.PutPaper(t.Context(), "tool", []byte("calliper")); err != nil {
		t.Fatal(err)
	}
	if err := log.Close(); err != nil {
		t.Fatal(err)
	}
	if got, err := mustOpen(t, path).Paper(t.Context(), "tool"); string(got) != "calliper" || err != nil {
		t.Errorf("after opening again: %q, %v", got, err)
	}
}
