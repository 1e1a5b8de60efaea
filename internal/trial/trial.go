// Package trial is for tests only: the built program served from a folder of
// its own, and tabs of one Chromium shared by the tests of a package.
//
// A package that uses it hands its tests over:
//
//	func TestMain(m *testing.M) { os.Exit(trial.Main(m)) }
//
// Tests that open a tab are skipped, with the reason, where there is no
// Chromium and under -short. It cannot tell how a page behaves in another
// browser or on a real phone.
package trial

import (
	"os"
	"os/exec"
	"path/filepath"
	"sync"
	"testing"
)

// house is what the tests of one package share.
var house struct {
	begun   bool
	dir     string // holds the program
	build   sync.Once
	program string
	fault   error
	browser browser
}

// Main runs the tests of a package, then shuts the browser and removes the
// program they shared. It returns the code to exit with.
func Main(m *testing.M) int {
	dir, err := os.MkdirTemp("", "trial")
	if err != nil {
		panic(err)
	}
	house.begun, house.dir = true, dir
	defer os.RemoveAll(dir)
	defer house.browser.shut()
	return m.Run()
}

// needMain fails a test of a package that does not run by Main, which would
// leave the program and the browser behind.
func needMain(t testing.TB) {
	t.Helper()
	if !house.begun {
		t.Fatal("this package uses trial and has no TestMain that calls trial.Main")
	}
}

// Program is the path of the program, built once for all tests of a package
// as it is released: without C.
func Program(t testing.TB) string {
	t.Helper()
	needMain(t)
	house.build.Do(func() {
		house.program = filepath.Join(house.dir, "matchmark")
		cmd := exec.Command("go", "build", "-o", house.program, "matchmark/cmd/matchmark")
		cmd.Env = append(os.Environ(), "CGO_ENABLED=0")
		if out, err := cmd.CombinedOutput(); err != nil {
			house.program, house.fault = string(out), err
		}
	})
	if house.fault != nil {
		t.Fatalf("the program does not build: %v\n%s", house.fault, house.program)
	}
	return house.program
}
