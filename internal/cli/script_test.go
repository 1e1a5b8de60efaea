package cli

import (
	"context"
	"flag"
	"net/http"
	"os"
	"path/filepath"
	"testing"
	"time"

	"github.com/rogpeppe/go-internal/testscript"

	"matchmark/internal/bench"
	"matchmark/internal/machine"
)

var update = flag.Bool("update", false, "rewrite the answers that scripts compare with")

// TestMain makes the command itself runnable inside scripts, with a fixed
// clock and author, in the script's own folder.
func TestMain(m *testing.M) {
	testscript.Main(m, map[string]func(){"matchmark": func() {
		clock := time.Date(2026, 11, 25, 9, 0, 0, 0, time.UTC)
		os.Exit(Main(context.Background(), os.Args[1:], Surroundings{
			In: os.Stdin, Out: os.Stdout, Err: os.Stderr,
			Now:     func() time.Time { return clock },
			DataDir: filepath.Join(os.Getenv("WORK"), "data"), By: "Ansa", Device: "script",
			Pages: func(*bench.Shop, Serving) http.Handler { return http.NotFoundHandler() },
			BookFile: func(_ context.Context, _ *bench.Shop, id machine.MachineID) ([]byte, error) {
				return []byte("the book of " + id + "\n"), nil // the pages have tests of their own
			},
		}))
	}})
}

func TestScripts(t *testing.T) {
	testscript.Run(t, testscript.Params{Dir: "testdata/script", UpdateScripts: *update,
		Setup: func(env *testscript.Env) error {
			env.Setenv("WORK", env.WorkDir)
			return nil
		}})
}
