package cli

import (
	"bytes"
	"context"
	"errors"
	"fmt"
	"io"
	"log"
	"net"
	"net/http"
	"os"
	"os/signal"
	"path/filepath"
	"syscall"
	"time"

	"matchmark/internal/bench"
	"matchmark/internal/benchlock"
	"matchmark/internal/door"
	"matchmark/internal/store"
)

// listening is where pages are served, and to whom.
type listening struct {
	Addr  string   `help:"Address to serve at. 0.0.0.0:7462 lets in phones on the same network, each by a code." default:"127.0.0.1:7462"`
	Names []string `name:"name" help:"A name this computer goes by on the network, such as bench.local." placeholder:"NAME"`
	Lock  bool     `help:"Serve by https too, under an authority of this shop's own that each phone is told to trust once."`
}

// Serving is what the pages need to know of how they are served.
type Serving struct {
	Names []string
	Reach func() []string // addresses that other devices open, without a stroke at the end
	Door  *door.Door
	Lock  *benchlock.Lock // nil without
}

type serveCmd struct{ listening }

// Run serves a book. The shop's own is made where there is none yet: that is
// the first run.
func (c *serveCmd) Run(r *run) error {
	shop, done, err := r.open(r.book == "")
	if err != nil {
		return err
	}
	defer done()
	return r.serve(shop, c.listening, func(url string) {
		fmt.Fprintf(r.Out, "Serving %s at %s\nStop it with Ctrl-C; what is in the book stays there.\n", r.bookPath(), url)
	})
}

// serve serves the pages until the command is interrupted. Only one server at
// a time holds a book; commands beside it are welcome. A port that reaches
// beyond this computer comes with a code for the first device.
func (r *run) serve(shop *bench.Shop, l listening, ready func(url string)) error {
	host, _, err := net.SplitHostPort(l.Addr)
	if err != nil || host != "localhost" && host != "" && net.ParseIP(host) == nil {
		return fmt.Errorf("%q is no address to serve at; write it as 127.0.0.1:7462, or 0.0.0.0:7462 for the whole network", l.Addr)
	}
	listener, err := net.Listen("tcp", l.Addr)
	if err != nil {
		return fmt.Errorf("cannot serve at %s: %w; name another address with --addr", l.Addr, err)
	}
	at := place{Addr: listener.Addr().String(), Lock: l.Lock}
	release, err := store.Claim(r.bookPath(), at.here())
	if err != nil {
		_ = listener.Close()
		return err
	}
	defer release()
	serving := Serving{Names: l.Names, Reach: at.reach, Door: door.New(shop.Log(), r.Now)}
	if l.Lock {
		serving.Lock, err = benchlock.Open(r.lockDir(), benchlock.Want{Shop: r.Device, Names: l.Names, Addrs: at.addrs()}, r.Now)
	}
	if err == nil {
		err = at.note(r.ctx, shop.Log())
	}
	if err != nil {
		_ = listener.Close()
		return err
	}
	ready(at.here())
	if err := r.welcome(at, serving); err != nil {
		_ = listener.Close()
		return err
	}
	return r.listen(listener, r.Pages(shop, serving), serving.Lock)
}

// lockDir is where the bench lock lies: beside the book, one for all books of
// a folder, so that a phone has to trust one only.
func (r *run) lockDir() string { return filepath.Join(filepath.Dir(r.bookPath()), "bench-lock") }

// listen answers until the command is interrupted. With a lock the one port
// speaks both https and http.
func (r *run) listen(listener net.Listener, pages http.Handler, lock *benchlock.Lock) error {
	server := &http.Server{Handler: pages, ReadHeaderTimeout: 10 * time.Second, ReadTimeout: 5 * time.Minute,
		IdleTimeout: 2 * time.Minute, MaxHeaderBytes: 64 << 10, ErrorLog: log.New(calm{r.Err}, "", log.LstdFlags)}
	ctx, stop := signal.NotifyContext(r.ctx, os.Interrupt, syscall.SIGTERM)
	defer stop()
	go func() {
		<-ctx.Done()
		last, cancel := context.WithTimeout(context.Background(), 5*time.Second)
		defer cancel()
		_ = server.Shutdown(last)
	}()
	ended := make(chan error, 2)
	if lock == nil {
		ended <- server.Serve(listener)
	} else {
		server.TLSConfig = lock.TLS()
		secure, plain := benchlock.Split(listener)
		go func() { ended <- server.ServeTLS(secure, "", "") }()
		go func() { ended <- server.Serve(plain) }()
	}
	if err := <-ended; !errors.Is(err, http.ErrServerClosed) {
		return fmt.Errorf("the server stopped: %w; what is in the book is safe", err)
	}
	return nil
}

// calm leaves out what a phone that does not trust the lock yet brings about
// with every try.
type calm struct{ to io.Writer }

func (c calm) Write(line []byte) (int, error) {
	if bytes.Contains(line, []byte("TLS handshake error")) {
		return len(line), nil
	}
	return c.to.Write(line)
}
