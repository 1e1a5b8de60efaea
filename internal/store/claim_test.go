package store

import (
	"errors"
	"path/filepath"
	"strings"
	"testing"
)

func TestClaim(t *testing.T) {
	path := filepath.Join(t.TempDir(), "m.db")
	release, err := Claim(path, "http://127.0.0.1:8080")
	if err != nil {
		t.Fatal(err)
	}
	if _, err := Claim(path, "http://127.0.0.1:9090"); !errors.Is(err, ErrHeld) || !strings.Contains(err.Error(), "at http://127.0.0.1:8080 (process ") {
		t.Errorf("second claim: %v; want ErrHeld with the first address", err)
	}
	release()
	again, err := Claim(path, "http://127.0.0.1:9090")
	if err != nil {
		t.Fatalf("after release: %v", err)
	}
	again()
	if _, err := Claim(filepath.Join(path, "none", "m.db"), "x"); !errors.Is(err, ErrUnreachable) {
		t.Errorf("claim where no file can be: %v, want ErrUnreachable", err)
	}
}

// TestClaimKilled sees the claim of another process, and sees it fall when the
// process is killed.
func TestClaimKilled(t *testing.T) {
	path := filepath.Join(t.TempDir(), "m.db")
	cmd, out := childCommand(t, "claim", path, "http://127.0.0.1:8080")
	in, err := cmd.StdinPipe()
	if err != nil {
		t.Fatal(err)
	}
	defer in.Close()
	if err := cmd.Start(); err != nil {
		t.Fatal(err)
	}
	if !out.Scan() || out.Text() != "claimed" {
		t.Fatalf("the other process said %q", out.Text())
	}
	if _, err := Claim(path, "x"); !errors.Is(err, ErrHeld) || !strings.Contains(err.Error(), "http://127.0.0.1:8080") {
		t.Errorf("while the other lives: %v, want ErrHeld", err)
	}
	cmd.Process.Kill()
	cmd.Wait()
	release, err := Claim(path, "x")
	if err != nil {
		t.Fatalf("after the kill: %v", err)
	}
	release()
}
