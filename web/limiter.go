package web

import (
	"net"
	"net/http"
	"net/netip"
	"sync"
	"time"
)

// How wrong passphrases are slowed down: a few free tries, then a wait that
// doubles with each further one.
const (
	freeTries   = 4
	longestWait = 15 * time.Minute
	forgetAfter = 2 * time.Hour
	mostTracked = 1024
)

// limiter counts tries per address.
type limiter struct {
	now   func() time.Time
	mu    sync.Mutex
	tries map[netip.Prefix]*tried
}

type tried struct {
	count int
	last  time.Time
	until time.Time // no try is looked at before
}

func newLimiter(now func() time.Time) *limiter {
	return &limiter{now: now, tries: map[netip.Prefix]*tried{}}
}

// take uses up one try. It returns how long to wait when none is left. Tries
// count before the passphrase is looked at, so that many at once gain nothing.
func (l *limiter) take(from netip.Prefix) time.Duration {
	l.mu.Lock()
	defer l.mu.Unlock()
	now := l.now()
	t := l.entry(from, now)
	if wait := t.until.Sub(now); wait > 0 {
		return wait
	}
	t.count++
	t.last = now
	if over := t.count - freeTries; over >= 0 {
		t.until = now.Add(backoff(over))
	}
	return 0
}

// forgive forgets the tries of an address that gave the right passphrase.
func (l *limiter) forgive(from netip.Prefix) {
	l.mu.Lock()
	defer l.mu.Unlock()
	delete(l.tries, from)
}

func (l *limiter) entry(from netip.Prefix, now time.Time) *tried {
	t := l.tries[from]
	if t != nil && now.Sub(t.last) < forgetAfter {
		return t
	}
	if t == nil && len(l.tries) >= mostTracked {
		l.drop(now)
	}
	t = &tried{last: now}
	l.tries[from] = t
	return t
}

// drop makes room: everything old, or else the entry unused for longest.
func (l *limiter) drop(now time.Time) {
	var oldest netip.Prefix
	for from, t := range l.tries {
		if now.Sub(t.last) >= forgetAfter {
			delete(l.tries, from)
			continue
		}
		if o := l.tries[oldest]; o == nil || t.last.Before(o.last) {
			oldest = from
		}
	}
	if len(l.tries) >= mostTracked {
		delete(l.tries, oldest)
	}
}

func backoff(over int) time.Duration {
	if over > 10 {
		return longestWait
	}
	return min(time.Second<<over, longestWait)
}

// address is who a request came from. One machine holds many IPv6 addresses of
// one network, so those count together.
func address(r *http.Request) netip.Prefix {
	host, _, err := net.SplitHostPort(r.RemoteAddr)
	if err != nil {
		host = r.RemoteAddr
	}
	addr, err := netip.ParseAddr(host)
	if err != nil {
		return netip.Prefix{}
	}
	addr = addr.Unmap().WithZone("")
	bits := addr.BitLen()
	if addr.Is6() {
		bits = 64
	}
	prefix, _ := addr.Prefix(bits)
	return prefix
}
