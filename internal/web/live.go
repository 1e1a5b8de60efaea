package web

import (
	"fmt"
	"net"
	"net/http"
	"sync"
	"time"
)

const (
	mostStreams = 4                // open at a time on one device: a browser has six lines to a box, and needs some to record
	beatEvery   = 15 * time.Second // so that a line that broke is noticed
	lookEvery   = 2 * time.Second  // for what a command beside the server wrote
	streamRoom  = 30 * time.Second // for one write to a slow line
)

// livePage tells a page how many entries the book has, now and at each change,
// until the page goes away. The event "enough" ends the oldest stream of a
// device that opens too many.
func livePage(v *visit) error {
	end, leave := v.live.enter(v.streamKey())
	defer leave()
	v.live.endWith(v.r)
	line := http.NewResponseController(v.w)
	_ = line.SetReadDeadline(time.Time{}) // a stream outlives what a request may take
	head := v.w.Header()
	head.Set("Content-Type", "text/event-stream")
	head.Set("Cache-Control", "no-store")
	say := func(text string) bool {
		_ = line.SetWriteDeadline(time.Now().Add(streamRoom))
		_, err := fmt.Fprint(v.w, text)
		return err == nil && line.Flush() == nil
	}
	beat, look := time.NewTicker(beatEvery), time.NewTicker(lookEvery)
	defer beat.Stop()
	defer look.Stop()
	told := -1
	for ok := say("retry: 2000\n\n"); ok; {
		changed, stop := v.bench.Changed()
		view, err := v.bench.View(v.r.Context())
		if err != nil {
			stop()
			return nil // the head has left; the page comes back by itself
		}
		if n := view.Machine.Entries; n != told {
			told = n
			ok = say(fmt.Sprintf("event: book\ndata: %d\n\n", n))
		}
		select {
		case <-changed:
		case <-look.C:
			ok = v.stillIn()
		case <-beat.C:
			ok = ok && say(": here\n\n")
		case <-end:
			say("event: enough\ndata:\n\n")
			ok = false
		case <-v.r.Context().Done():
			ok = false
		}
		stop()
	}
	return nil
}

// streamKey is the device that listens.
func (v *visit) streamKey() string {
	host, _, _ := net.SplitHostPort(v.r.RemoteAddr)
	return v.device() + " " + host
}

// streams are those open now, by device, the oldest first.
type streams struct {
	mu   sync.Mutex
	open map[string][]chan struct{}
	once sync.Once
}

// enter opens a stream; the channel is closed when it has to make room. The
// function returned ends it.
func (s *streams) enter(device string) (<-chan struct{}, func()) {
	s.mu.Lock()
	defer s.mu.Unlock()
	if s.open == nil {
		s.open = map[string][]chan struct{}{}
	}
	mine := make(chan struct{})
	list := append(s.open[device], mine)
	if len(list) > mostStreams {
		close(list[0])
		list = list[1:]
	}
	s.open[device] = list
	return mine, func() { s.leave(device, mine) }
}

func (s *streams) leave(device string, mine chan struct{}) {
	s.mu.Lock()
	defer s.mu.Unlock()
	list := s.open[device]
	for i, ch := range list {
		if ch == mine {
			s.open[device] = append(list[:i:i], list[i+1:]...)
		}
	}
	if len(s.open[device]) == 0 {
		delete(s.open, device)
	}
}

// endWith ends all streams when the server shuts down, which else waits for
// them.
func (s *streams) endWith(r *http.Request) {
	server, ok := r.Context().Value(http.ServerContextKey).(*http.Server)
	if !ok {
		return
	}
	s.once.Do(func() { server.RegisterOnShutdown(s.endAll) })
}

func (s *streams) endAll() {
	s.mu.Lock()
	defer s.mu.Unlock()
	for device, list := range s.open {
		for _, ch := range list {
			close(ch)
		}
		delete(s.open, device)
	}
}
