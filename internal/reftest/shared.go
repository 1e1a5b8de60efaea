package reftest

import (
	"os"
	"path/filepath"
	"testing"
)

// Shared returns the path of a file in the folder "shared" that lies beside
// the module, found by walking up from the working directory to go.mod.
// Where the folder or the file is absent the test is skipped, and the skip
// names what was looked for, so that a green run cannot hide it.
func Shared(t testing.TB, name string) string {
	t.Helper()
	root := moduleRoot(t)
	folder := filepath.Join(filepath.Dir(root), "shared")
	if info, err := os.Stat(folder); err != nil || !info.IsDir() {
		t.Skipf("REFERENCE CHECK NOT RUN: folder ../shared beside the module is absent; %s was wanted", name)
	}
	path := filepath.Join(folder, filepath.FromSlash(name))
	if _, err := os.Stat(path); err != nil {
		t.Skipf("REFERENCE CHECK NOT RUN: ../shared/%s is absent", name)
	}
	return path
}

// moduleRoot walks up from the working directory to the folder of go.mod.
func moduleRoot(t testing.TB) string {
	t.Helper()
	dir, err := os.Getwd()
	if err != nil {
		t.Fatalf("reference check: working directory: %v", err)
	}
	for {
		if _, err := os.Stat(filepath.Join(dir, "go.mod")); err == nil {
			return dir
		}
		up := filepath.Dir(dir)
		if up == dir {
			t.Skip("REFERENCE CHECK NOT RUN: no go.mod above the working directory, so ../shared cannot be found")
		}
		dir = up
	}
}
