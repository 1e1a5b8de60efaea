package web

import (
	"context"
	"log/slog"
	"net/http"
	"net/netip"
	"strconv"
	"time"

	"matchmark/internal/door"
)

// roads is a mux that knows all its addresses.
type roads struct {
	http.ServeMux
	all []string
}

// HandleFunc adds an address.
func (m *roads) HandleFunc(pattern string, do http.HandlerFunc) { m.Handle(pattern, do) }

// Handle adds an address.
func (m *roads) Handle(pattern string, do http.Handler) {
	m.all = append(m.all, pattern)
	m.ServeMux.Handle(pattern, do)
}

// forStrangers are the addresses that need no pass: what the pairing page is
// made of. Every other one is shut to whoever was not let in, a new one too.
var forStrangers = map[string]bool{
	"GET /a/{hash}/{name}": true,
	"POST /ground":         true,
	"POST /language":       true,
	"GET /sw.js":           true, // holds the names of the assets, and no page
	"GET /pair":            true,
	"POST /pair":           true,
	"GET /lock":            true,
	"GET /lock.crt":        true,
}

// unlocked are those of them that come without TLS where there is a bench lock.
// A code typed there could be read on its way.
var unlocked = map[string]bool{"GET /a/{hash}/{name}": true, "POST /ground": true, "POST /language": true, "GET /lock": true, "GET /lock.crt": true}

const (
	maxStranger = 16 << 10             // bytes of a form from a stranger
	passLasts   = 400 * 24 * time.Hour // browsers keep no cookie longer
)

// What one device may post and one stranger may try. An outbox that comes home
// with 200 records passes at once; fingers type a code in seconds.
func newPosts() *door.Pace { return door.NewPace(50, 250) }
func newTries() *door.Pace { return door.NewPace(0.1, door.MaxMissed).Together(0.5, 2*door.MaxMissed) }

// gate lets through who sits at this computer, who was let in, and anyone to
// the pages for strangers.
func (s *site) gate(next *roads) http.HandlerFunc {
	return func(w http.ResponseWriter, r *http.Request) {
		_, pattern := next.Handler(r)
		stranger := !local(r)
		if stranger && s.opt.Lock != nil && r.TLS == nil && !unlocked[pattern] {
			s.sendToLock(w, r)
			return
		}
		dev, known, err := s.pass(r)
		switch {
		case err != nil:
			slog.Error("pass", "path", r.URL.Path, "err", err)
			s.refuse(w, r, http.StatusInternalServerError, "The book could not be asked who you are",
				"What was kept before is safe. Go back and try again; the log of the program says more.")
			return
		case known:
			r = r.WithContext(context.WithValue(r.Context(), deviceKey{}, dev))
		case stranger && !forStrangers[pattern]:
			s.askIn(w, r)
			return
		}
		if stranger && !known {
			r.Body = http.MaxBytesReader(w, r.Body, maxStranger)
		}
		if stranger && known && r.Method == http.MethodPost {
			if wait := s.posts.Wait(dev.ID, s.opt.Now()); wait > 0 {
				s.tooFast(w, r, wait)
				return
			}
		}
		next.ServeHTTP(w, r)
	}
}

// tooFast answers who has to wait.
func (s *site) tooFast(w http.ResponseWriter, r *http.Request, wait time.Duration) {
	seconds := int(wait/time.Second) + 1
	w.Header().Set("Retry-After", strconv.Itoa(seconds))
	s.refuse(w, r, http.StatusTooManyRequests, "Too many at once",
		"This one was not kept. Wait "+plural(seconds, "second", "seconds")+", go back, and send it again; what you typed still stands there.")
}

// local tells whether a request comes from this computer. A proxy in between
// would make all of them local; there must be none.
func local(r *http.Request) bool { return peer(r).IsLoopback() }

// peer is who sent a request; an invalid address where that cannot be told.
func peer(r *http.Request) netip.Addr {
	at, err := netip.ParseAddrPort(r.RemoteAddr)
	if err != nil {
		return netip.Addr{}
	}
	return at.Addr().Unmap().WithZone("")
}

// caller names a peer for its pace. One IPv6 host may use its whole network of
// 64 bits, so that counts as one.
func caller(r *http.Request) string {
	a := peer(r)
	if a.Is6() {
		p, _ := a.Prefix(64) // 64 bits fit every IPv6 address
		a = p.Addr()
	}
	return a.String()
}

// passCookie is the name of the cookie that carries a pass. Under TLS the
// browser itself holds it to this host and to TLS.
func passCookie(r *http.Request) string {
	if r.TLS != nil {
		return "__Host-pass"
	}
	return "pass"
}

// pass finds the device that a request's pass belongs to.
func (s *site) pass(r *http.Request) (door.Device, bool, error) {
	c, err := r.Cookie(passCookie(r))
	if err != nil {
		return door.Device{}, false, nil
	}
	return s.opt.Door.Known(r.Context(), c.Value)
}

// givePass hands a device its token.
func givePass(w http.ResponseWriter, r *http.Request, token string) {
	http.SetCookie(w, &http.Cookie{Name: passCookie(r), Value: token, Path: "/", MaxAge: int(passLasts / time.Second),
		HttpOnly: true, Secure: r.TLS != nil, SameSite: http.SameSiteStrictMode})
}

// stillIn tells whether the device that a long answer goes to was not let out
// since it began.
func (v *visit) stillIn() bool {
	if local(v.r) {
		return true
	}
	_, known, err := v.pass(v.r)
	return known && err == nil
}

type deviceKey struct{}

// deviceOf is the device that was let in, if the request is from one.
func deviceOf(r *http.Request) (door.Device, bool) {
	dev, ok := r.Context().Value(deviceKey{}).(door.Device)
	return dev, ok
}

// shut tells whether a page is for a stranger, who is offered no other.
func shut(r *http.Request) bool {
	_, in := deviceOf(r)
	return !in && !local(r)
}

// by is the person whose facts this visit keeps.
func (v *visit) by() string {
	if dev, ok := deviceOf(v.r); ok {
		return dev.By
	}
	return v.opt.By
}

// device is what the facts of this visit are recorded on.
func (v *visit) device() string {
	if dev, ok := deviceOf(v.r); ok {
		return dev.Name
	}
	return "web"
}
