package web

import (
	"bufio"
	"context"
	"net/http"
	"net/http/httptest"
	"strconv"
	"strings"
	"testing"
	"time"

	"matchmark/internal/machine"
)

// served is the house behind a server with tight limits on one request.
func served(t *testing.T, h *house) *httptest.Server {
	s := httptest.NewUnstartedServer(h.site)
	s.Config.ReadTimeout, s.Config.WriteTimeout = 300*time.Millisecond, 300*time.Millisecond
	s.Start()
	t.Cleanup(s.Close)
	return s
}

// stream opens the stream of the machine and gives what it says, "name data"
// each; it is closed when the stream ends.
func stream(t *testing.T, s *httptest.Server) (<-chan string, func()) {
	ctx, stop := context.WithCancel(t.Context())
	t.Cleanup(stop)
	r, _ := http.NewRequestWithContext(ctx, "GET", s.URL+"/m/codlin/live", nil)
	got, err := http.DefaultClient.Do(r)
	if err != nil || got.Header.Get("Content-Type") != "text/event-stream" {
		t.Fatalf("%v, %v", got, err)
	}
	out := make(chan string, 100)
	go func() {
		defer close(out)
		defer got.Body.Close()
		name := ""
		for scan := bufio.NewScanner(got.Body); scan.Scan(); {
			if word, ok := strings.CutPrefix(scan.Text(), "event: "); ok {
				name = word
			} else if data, ok := strings.CutPrefix(scan.Text(), "data:"); ok {
				out <- strings.TrimSpace(name + data)
			}
		}
	}()
	return out, stop
}

// hears waits for one event.
func hears(t *testing.T, from <-chan string, want string, within time.Duration) {
	t.Helper()
	select {
	case got, open := <-from:
		if !open || got != want {
			t.Errorf("the stream says %q (open %v), want %q", got, open, want)
		}
	case <-time.After(within):
		t.Errorf("the stream does not say %q within %s", want, within)
	}
}

// TestAPageHearsOfAChange: at once, within a second, and past the limits that
// the server sets for a request.
func TestAPageHearsOfAChange(t *testing.T) {
	h := newHouse(t)
	n := h.view().Machine.Entries
	heard, _ := stream(t, served(t, h))
	book := func() string { return "book " + strconv.Itoa(n) }
	hears(t, heard, book(), 5*time.Second)
	for range 3 {
		time.Sleep(400 * time.Millisecond) // past the limits
		h.record(&machine.Noted{Text: "elsewhere"})
		n++
		hears(t, heard, book(), time.Second)
	}
}

// TestStreamsOfOneDevice: the oldest makes room, one that went away counts no
// more, and none outlives the server.
func TestStreamsOfOneDevice(t *testing.T) {
	h := newHouse(t)
	s := served(t, h)
	first, _ := stream(t, s)
	book := "book " + strconv.Itoa(h.view().Machine.Entries)
	hears(t, first, book, 5*time.Second)
	_, away := stream(t, s)
	away()
	time.Sleep(200 * time.Millisecond)
	var last <-chan string
	for range mostStreams - 1 {
		last, _ = stream(t, s)
		hears(t, last, book, 5*time.Second)
	}
	select {
	case said, open := <-first:
		t.Fatalf("the first stream was ended while there was room: %q, open %v", said, open)
	case <-time.After(100 * time.Millisecond):
	}
	newest, _ := stream(t, s)
	hears(t, newest, book, 5*time.Second)
	hears(t, first, "enough", time.Second)
	begun := time.Now()
	ctx, cancel := context.WithTimeout(t.Context(), 5*time.Second)
	defer cancel()
	if err := s.Config.Shutdown(ctx); err != nil || time.Since(begun) > 2*time.Second {
		t.Errorf("the server stopped after %s: %v", time.Since(begun), err)
	}
}
