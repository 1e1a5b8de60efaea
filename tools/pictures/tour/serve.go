package tour

import (
	"context"
	"net/http/httptest"
	"time"

	"matchmark/internal/bench"
	"matchmark/internal/demo"
	"matchmark/internal/store"
	"matchmark/internal/web"
)

// Serve serves the demo from memory with a clock that stands still, so that
// its pictures change only when the pages do. It gives the address and what
// stops it, open pages or not: each holds a stream that never ends by itself.
func Serve(ctx context.Context) (url string, stop func(), err error) {
	clock := func() time.Time { return time.Date(2026, 11, 24, 17, 0, 0, 0, time.UTC) }
	log := store.OpenMemory()
	if err := demo.Load(ctx, log); err != nil {
		return "", nil, err
	}
	server := httptest.NewUnstartedServer(nil)
	server.Config.Handler = web.New(bench.NewShop(log, clock), web.Options{Hosts: []string{server.Listener.Addr().String()}, By: "Ansa", Now: clock})
	server.Start()
	return server.URL, func() {
		_ = server.Listener.Close() // nobody comes back
		server.CloseClientConnections()
		server.Close()
	}, nil
}
