package door

import (
	"sync"
	"time"

	"golang.org/x/time/rate"
)

// Pace holds each of many callers, and all of them together, to so many calls a
// second with a burst in hand. It is safe for use by several goroutines.
type Pace struct {
	each  rate.Limit
	burst int
	all   *rate.Limiter // nil: no limit on all together

	mu sync.Mutex
	by map[string]*rate.Limiter
}

// mostCallers is how many callers a Pace remembers.
const mostCallers = 1024

// NewPace gives each caller so many calls a second and a burst.
func NewPace(each float64, burst int) *Pace {
	return &Pace{each: rate.Limit(each), burst: burst, by: map[string]*rate.Limiter{}}
}

// Together also holds all callers together.
func (p *Pace) Together(all float64, burst int) *Pace {
	p.all = rate.NewLimiter(rate.Limit(all), burst)
	return p
}

// Wait takes one call of a caller and gives 0, or takes none and gives how long
// the caller has to wait.
func (p *Pace) Wait(caller string, now time.Time) time.Duration {
	p.mu.Lock()
	defer p.mu.Unlock()
	own := p.by[caller]
	if own == nil {
		if len(p.by) >= mostCallers {
			p.forget(now)
		}
		own = rate.NewLimiter(p.each, p.burst)
		p.by[caller] = own
	}
	if wait := take(own, now); wait > 0 || p.all == nil {
		return wait
	}
	return take(p.all, now)
}

// forget drops callers with a full burst in hand, whom a new limiter would treat
// alike; all of them where none is, as the limit on all together still stands.
func (p *Pace) forget(now time.Time) {
	for caller, l := range p.by {
		if l.TokensAt(now) >= float64(p.burst) {
			delete(p.by, caller)
		}
	}
	if len(p.by) >= mostCallers {
		clear(p.by)
	}
}

func take(l *rate.Limiter, now time.Time) time.Duration {
	r := l.ReserveN(now, 1)
	wait := r.DelayFrom(now)
	if wait > 0 {
		r.CancelAt(now)
	}
	return wait
}
