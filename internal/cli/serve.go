package cli

import (
	"context"
	"errors"
	"fmt"
	"net"
	"net/http"
	"os"
	"os/signal"
	"syscall"
	"time"

	"matchmark/internal/bench"
	"matchmark/internal/store"
)

// listening is where pages are served.
type listening struct {
	Addr string `help:"Address to serve at." default:"127.0.0.1:7462"`
}

type serveCmd struct{ listening }

func (c *serveCmd) Run(r *run) error {
	shop, done, err := r.open(false)
	if err != nil {
		return err
	}
	defer done()
	return r.serve(shop, c.Addr, r.bookPath(), func(url string) {
		fmt.Fprintf(r.Out, "Serving %s at %s\nStop it with Ctrl-C; what is in the book stays there.\n", r.bookPath(), url)
	})
}

// serve serves the pages until the command is interrupted. Only one server at
// a time holds a book; commands beside it are welcome.
func (r *run) serve(shop *bench.Shop, addr, book string, ready func(url string)) error {
	host, _, err := net.SplitHostPort(addr)
	if err != nil {
		return fmt.Errorf("%q is no address to serve at; write it as 127.0.0.1:7462", addr)
	}
	if ip := net.ParseIP(host); host != "localhost" && (ip == nil || !ip.IsLoopback()) {
		return fmt.Errorf("%s reaches beyond this computer, which needs pairing and is not built yet; serve at 127.0.0.1", addr)
	}
	listener, err := net.Listen("tcp", addr)
	if err != nil {
		return fmt.Errorf("cannot serve at %s: %w; name another address with --addr", addr, err)
	}
	url := "http://" + listener.Addr().String() + "/"
	release, err := store.Claim(book, url)
	if err != nil {
		_ = listener.Close()
		return err
	}
	defer release()
	server := &http.Server{Handler: r.Pages(shop, []string{listener.Addr().String()}),
		ReadHeaderTimeout: 10 * time.Second, IdleTimeout: 2 * time.Minute}
	ctx, stop := signal.NotifyContext(r.ctx, os.Interrupt, syscall.SIGTERM)
	defer stop()
	go func() {
		<-ctx.Done()
		last, cancel := context.WithTimeout(context.Background(), 5*time.Second)
		defer cancel()
		_ = server.Shutdown(last)
	}()
	ready(url)
	if err := server.Serve(listener); !errors.Is(err, http.ErrServerClosed) {
		return fmt.Errorf("the server stopped: %w; what is in the book is safe", err)
	}
	return nil
}
