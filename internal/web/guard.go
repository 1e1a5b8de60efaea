package web

import (
	"net"
	"net/http"
	"net/netip"
	"slices"
	"strings"
)

// policy lets nothing run or load but what this site serves.
const policy = "default-src 'none'; script-src 'self'; style-src 'self'; img-src 'self' blob:; media-src 'self' blob:; " +
	"font-src 'self'; connect-src 'self'; worker-src 'self'; manifest-src 'self'; form-action 'self'; base-uri 'none'; frame-ancestors 'none'"

const (
	maxForm  = 256 << 10 // bytes of a posted form without photos
	maxPhoto = 20 << 20  // bytes of one photo
)

// guard sets the headers every answer carries, refuses names the site is not
// served under (against a foreign page that resolves its own name here) and
// writes that another site sent.
func (s *site) guard(next *roads) http.Handler {
	cross := http.NewCrossOriginProtection()
	cross.SetDenyHandler(http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		s.refuse(w, r, http.StatusForbidden, "That came from another site", "Nothing was kept. Open the page here and record it again.")
	}))
	safe := cross.Handler(s.gate(next))
	return http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		head := w.Header()
		head.Set("Content-Security-Policy", policy)
		head.Set("X-Content-Type-Options", "nosniff")
		head.Set("Referrer-Policy", "same-origin")
		head.Set("Permissions-Policy", "camera=(self), microphone=(self), geolocation=()")
		if r.TLS != nil || loopback(hostName(r)) { // elsewhere browsers ignore it, with an error on the console
			head.Set("Cross-Origin-Opener-Policy", "same-origin")
		}
		head.Set("Cross-Origin-Resource-Policy", "same-origin")
		if !s.served(r) {
			s.refuse(w, r, http.StatusMisdirectedRequest, "This box does not answer to that name",
				"Nothing was shown or kept. Open it by the address it was started with.")
			return
		}
		limit := int64(maxForm)
		if strings.HasPrefix(r.Header.Get("Content-Type"), "multipart/form-data") {
			limit = maxPhoto + maxForm
		}
		r.Body = http.MaxBytesReader(w, r.Body, limit)
		safe.ServeHTTP(w, r)
	})
}

// served tells whether the site answers to a request's Host header: to the
// loopback names, the names it was given, and the very address the request came
// in at. A foreign page can make its own name lead here, but not be one of these.
func (s *site) served(r *http.Request) bool {
	name := hostName(r)
	if loopback(name) {
		return true
	}
	if at, ok := r.Context().Value(http.LocalAddrContextKey).(net.Addr); ok {
		called, errCalled := netip.ParseAddr(name)
		came, errCame := netip.ParseAddrPort(at.String())
		if errCalled == nil && errCame == nil && called.Unmap() == came.Addr().Unmap().WithZone("") {
			return true
		}
	}
	return slices.ContainsFunc(s.opt.Hosts, func(h string) bool { return strings.EqualFold(h, name) || strings.EqualFold(h, r.Host) })
}

// hostName is the name or address that a request was sent to, without its port.
func hostName(r *http.Request) string {
	name := r.Host
	if h, _, err := net.SplitHostPort(name); err == nil {
		name = h
	}
	return strings.ToLower(strings.Trim(name, "[]"))
}

func loopback(name string) bool {
	return name == "localhost" || name == "127.0.0.1" || name == "::1"
}
