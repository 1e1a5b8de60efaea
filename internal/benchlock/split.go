package benchlock

import (
	"errors"
	"net"
	"sync"
	"time"
)

// firstByte is how long a caller may take to say anything.
const firstByte = 10 * time.Second

// handshake is the first byte of every TLS connection (RFC 8446 §5.1,
// ContentType handshake); no HTTP request begins with it.
const handshake = 22

// Split parts one port in two: callers that speak TLS, and those that do not.
// Closing either closes both.
func Split(l net.Listener) (secure, plain net.Listener) {
	s := &splitter{under: l, closed: make(chan struct{})}
	a := &half{splitter: s, come: make(chan net.Conn)}
	b := &half{splitter: s, come: make(chan net.Conn)}
	go s.accept(a, b)
	return a, b
}

type splitter struct {
	under  net.Listener
	once   sync.Once
	closed chan struct{}
	err    error // why accepting ended; read after closed
}

type half struct {
	*splitter
	come chan net.Conn
}

func (s *splitter) accept(secure, plain *half) {
	for {
		conn, err := s.under.Accept()
		if errors.Is(err, net.ErrClosed) {
			s.end(err)
			return
		}
		if err != nil { // such as too many open files, which passes
			time.Sleep(50 * time.Millisecond)
			continue
		}
		go s.sort(conn, secure, plain)
	}
}

// sort reads a caller's first byte, puts it back and hands the caller on.
func (s *splitter) sort(conn net.Conn, secure, plain *half) {
	p := &peeked{Conn: conn}
	_ = conn.SetReadDeadline(time.Now().Add(firstByte))
	if n, err := conn.Read(p.first[:]); err != nil || n == 0 {
		_ = conn.Close()
		return
	}
	_ = conn.SetReadDeadline(time.Time{})
	to := plain
	if p.first[0] == handshake {
		to = secure
	}
	select {
	case to.come <- p:
	case <-s.closed:
		_ = conn.Close()
	}
}

func (s *splitter) end(err error) {
	s.once.Do(func() {
		s.err = err
		close(s.closed)
	})
}

func (h *half) Accept() (net.Conn, error) {
	select {
	case conn := <-h.come:
		return conn, nil
	case <-h.closed:
		return nil, h.err
	}
}

func (h *half) Close() error {
	h.end(net.ErrClosed)
	return h.under.Close()
}

func (h *half) Addr() net.Addr { return h.under.Addr() }

// peeked is a connection whose first byte was read already.
type peeked struct {
	net.Conn
	first [1]byte
	given bool
}

func (p *peeked) Read(b []byte) (int, error) {
	if p.given || len(b) == 0 {
		return p.Conn.Read(b)
	}
	p.given = true
	return copy(b, p.first[:]), nil
}
