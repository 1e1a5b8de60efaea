// Package acceptance_test holds the program to its 29 acceptance checks: the
// built program, served from a folder of its own, seen through Chromium. One
// test per check, named by its number, or a pointer to the package whose test
// it is.
package acceptance_test

import (
	"os"
	"testing"

	"matchmark/internal/trial"
)

func TestMain(m *testing.M) { os.Exit(trial.Main(m)) }
