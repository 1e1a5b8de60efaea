// Command matchmark remembers how a machine came apart, finds what is worn,
// and sees that it goes back right. This file only wires the parts together.
package main

import (
	"context"
	"net/http"
	"os"
	"os/user"
	"path/filepath"
	"runtime/debug"
	"time"

	"matchmark/internal/bench"
	"matchmark/internal/cli"
	"matchmark/internal/machine"
	"matchmark/internal/web"
)

// roomForGarbage is how much memory may be waiting to be freed, in per cent of
// what is in use: a bench computer is small. Measured on the demo with every
// page opened twice: 76 MB in place of 87, for a quarter more processor time.
const roomForGarbage = 50

func main() {
	if os.Getenv("GOGC") == "" {
		debug.SetGCPercent(roomForGarbage)
	}
	by := "bench"
	if u, err := user.Current(); err == nil && u.Username != "" {
		by = u.Username
	}
	device, err := os.Hostname()
	if err != nil {
		device = "bench"
	}
	os.Exit(cli.Main(context.Background(), os.Args[1:], cli.Surroundings{
		In: os.Stdin, Out: os.Stdout, Err: os.Stderr, Now: time.Now,
		DataDir: dataDir(), By: by, Device: device,
		Pages: func(shop *bench.Shop, s cli.Serving) http.Handler {
			return web.New(shop, web.Options{Hosts: s.Names, By: by, Now: time.Now, Door: s.Door, Reach: s.Reach, Lock: s.Lock})
		},
		BookFile: func(ctx context.Context, shop *bench.Shop, id machine.MachineID) ([]byte, error) {
			return web.BookFile(ctx, shop, id, time.Now)
		},
	}))
}

// dataDir is where the shop's book lies when none is named.
func dataDir() string {
	base, err := os.UserConfigDir()
	if err != nil {
		base = os.TempDir()
	}
	return filepath.Join(base, "matchmark")
}
