package benchlock

import (
	"crypto/tls"
	"crypto/x509"
	"errors"
	"io"
	"net"
	"net/http"
	"testing"
	"time"
)

// TestSplitServesBothOnOnePort: callers with and without TLS on one port,
// silent ones in between, and both servers end together.
func TestSplitServesBothOnOnePort(t *testing.T) {
	l := open(t, t.TempDir(), time.Now(), Want{})
	under, err := net.Listen("tcp", "127.0.0.1:0")
	if err != nil {
		t.Fatal(err)
	}
	secure, plain := Split(under)
	say := func(word string) http.Handler {
		return http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) { io.WriteString(w, word+" "+r.Proto) })
	}
	locked, bare := &http.Server{Handler: say("locked"), TLSConfig: l.TLS()}, &http.Server{Handler: say("bare")}
	ended := make(chan error, 2)
	go func() { ended <- locked.ServeTLS(secure, "", "") }()
	go func() { ended <- bare.Serve(plain) }()

	silent, err := net.Dial("tcp", under.Addr().String())
	if err != nil {
		t.Fatal(err)
	}
	defer silent.Close()

	roots := x509.NewCertPool()
	roots.AddCert(l.authority)
	client := &http.Client{Transport: &http.Transport{TLSClientConfig: &tls.Config{RootCAs: roots}, ForceAttemptHTTP2: true}}
	for url, want := range map[string]string{"https://": "locked HTTP/2.0", "http://": "bare HTTP/1.1"} {
		answer, err := client.Get(url + under.Addr().String())
		if err != nil {
			t.Fatal(err)
		}
		got, _ := io.ReadAll(answer.Body)
		answer.Body.Close()
		if string(got) != want {
			t.Errorf("%s says %q, want %q", url, got, want)
		}
	}
	for version, good := range map[uint16]bool{tls.VersionTLS11: false, tls.VersionTLS12: true, tls.VersionTLS13: true} {
		conn, err := tls.Dial("tcp", under.Addr().String(), &tls.Config{RootCAs: roots, MinVersion: tls.VersionTLS10, MaxVersion: version})
		if (err == nil) != good {
			t.Errorf("%s: %v", tls.VersionName(version), err)
		}
		if err == nil {
			conn.Close()
		}
	}
	if err := locked.Close(); err != nil && !errors.Is(err, net.ErrClosed) {
		t.Error(err)
	}
	for range 2 {
		select {
		case err := <-ended:
			if !errors.Is(err, http.ErrServerClosed) && !errors.Is(err, net.ErrClosed) {
				t.Errorf("a server ended with %v", err)
			}
		case <-time.After(5 * time.Second):
			t.Fatal("a server still runs")
		}
	}
}
