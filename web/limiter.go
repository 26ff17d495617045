package web

import (
	"net"
	"net/http"
	"net/netip"
	"sync"
	"time"
)

// How wrong passphrases are slowed down: a few free tries an address, then a wait
// that doubles with each further one.
const (
	freeTries   = 4
	longestWait = 15 * time.Minute
	forgetAfter = 2 * time.Hour
	mostTracked = 1024
)

// How many tries are looked at altogether, whoever sends them: each costs memory
// and most of a second. Addresses that gave the right passphrase before have a share
// of their own, so that a flood from others does not keep them out.
const (
	triesAtOnce = 10
	tryEvery    = 3 * time.Second // 20 a minute
	mostKnown   = 64
)

// limiter counts tries per address and altogether.
type limiter struct {
	now   func() time.Time
	mu    sync.Mutex
	tries map[netip.Prefix]*tried

	strangers, known share
	friends          []netip.Prefix // gave the right passphrase, the latest last
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
// count before the passphrase is looked at, so that many at once gain nothing; one
// that is not looked at because others fill the share does not count.
func (l *limiter) take(from netip.Prefix) time.Duration {
	l.mu.Lock()
	defer l.mu.Unlock()
	now := l.now()
	t := l.entry(from, now)
	if wait := t.until.Sub(now); wait > 0 {
		return wait
	}
	if wait := l.shareOf(from).take(now); wait > 0 {
		return wait
	}
	t.count++
	t.last = now
	if over := t.count - freeTries; over >= 0 {
		t.until = now.Add(backoff(over))
	}
	return 0
}

func (l *limiter) shareOf(from netip.Prefix) *share {
	for _, f := range l.friends {
		if f == from {
			return &l.known
		}
	}
	return &l.strangers
}

// forgive forgets the tries of an address that gave the right passphrase, and knows
// it from then on.
func (l *limiter) forgive(from netip.Prefix) {
	l.mu.Lock()
	defer l.mu.Unlock()
	delete(l.tries, from)
	if l.shareOf(from) == &l.known {
		return
	}
	if l.friends = append(l.friends, from); len(l.friends) > mostKnown {
		l.friends = l.friends[1:]
	}
}

func (l *limiter) entry(from netip.Prefix, now time.Time) *tried {
	t := l.tries[from]
	if t != nil && now.Before(t.last) {
		// The clock was set back: what remains of a wait starts from now, so that
		// nobody waits for the old time to come again.
		t.until, t.last = now.Add(min(max(0, t.until.Sub(t.last)), longestWait)), now
	}
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

// share lets triesAtOnce tries pass at once, and then one every tryEvery.
type share struct {
	used int       // of triesAtOnce
	at   time.Time // when used was last lowered
}

// take uses one, or returns how long until there is one. A clock that is set back
// takes nothing away and gives nothing.
func (s *share) take(now time.Time) time.Duration {
	if now.Before(s.at) {
		s.at = now
	}
	if back := min(now.Sub(s.at)/tryEvery, triesAtOnce); back > 0 {
		s.used = max(0, s.used-int(back))
		s.at = s.at.Add(back * tryEvery)
	}
	if s.used == 0 {
		s.at = now
	}
	if s.used >= triesAtOnce {
		return tryEvery - now.Sub(s.at)
	}
	s.used++
	return 0
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
