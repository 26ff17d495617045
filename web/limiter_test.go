package web

import (
	"fmt"
	"net/http"
	"net/netip"
	"testing"
	"time"
)

func TestWrongPassphrasesAreSlowedDown(t *testing.T) {
	v := visit(t, "curlew", shared)
	for i := range freeTries {
		if res := v.try("wrong"); res.StatusCode != http.StatusUnauthorized {
			t.Fatalf("try %d: %d", i, res.StatusCode)
		}
	}
	res := v.try(phrase)
	if res.StatusCode != http.StatusTooManyRequests || res.Header.Get("Retry-After") == "" {
		t.Fatalf("right passphrase within the wait: %d", res.StatusCode)
	}
	v.from = "127.0.0.9:1" // another machine is not slowed down
	if res := v.try(phrase); res.StatusCode != http.StatusSeeOther {
		t.Errorf("from elsewhere: %d", res.StatusCode)
	}
	v.from = "127.0.0.1:2"
	v.clock = v.clock.Add(2 * time.Second)
	if res := v.try(phrase); res.StatusCode != http.StatusSeeOther {
		t.Errorf("after the wait: %d", res.StatusCode)
	}
}

func TestWaitDoublesAndIsForgotten(t *testing.T) {
	now := time.Date(2026, 11, 20, 8, 0, 0, 0, time.UTC)
	l := newLimiter(func() time.Time { return now })
	from := netip.MustParsePrefix("10.0.0.7/32")
	for range freeTries {
		l.take(from)
	}
	for _, want := range []time.Duration{1, 2, 4, 8, 16, 32, 64, 128, 256, 512, 900, 900} {
		wait := l.take(from)
		if wait != want*time.Second {
			t.Fatalf("wait %v, want %v s", wait, int(want))
		}
		now = now.Add(wait)
		if again := l.take(from); again != 0 {
			t.Fatalf("after the wait: %v", again)
		}
	}
	now = now.Add(forgetAfter)
	if wait := l.take(from); wait != 0 {
		t.Errorf("after %v: wait %v", forgetAfter, wait)
	}
}

func TestLimiterStaysSmallUnderManyAddresses(t *testing.T) {
	now := time.Date(2026, 11, 20, 8, 0, 0, 0, time.UTC)
	l := newLimiter(func() time.Time { return now })
	for i := range 3 * mostTracked {
		now = now.Add(time.Millisecond)
		addr := netip.AddrFrom4([4]byte{10, byte(i >> 16), byte(i >> 8), byte(i)})
		l.take(netip.PrefixFrom(addr, 32))
	}
	if len(l.tries) > mostTracked {
		t.Errorf("%d addresses kept", len(l.tries))
	}
}

func TestAddressesOfOneNetworkCountTogether(t *testing.T) {
	r := httptestGet("/")
	same := map[netip.Prefix]bool{}
	for i := range 4 {
		r.RemoteAddr = fmt.Sprintf("[2001:db8::%d%%eth0]:9", i+1)
		same[address(r)] = true
	}
	if len(same) != 1 {
		t.Errorf("%v", same)
	}
	r.RemoteAddr = "[::ffff:10.0.0.1]:5"
	if got := address(r).String(); got != "10.0.0.1/32" {
		t.Errorf("mapped address: %s", got)
	}
}

// machine is the nth address of a crowd.
func machine(n int) netip.Prefix {
	return netip.PrefixFrom(netip.AddrFrom4([4]byte{10, byte(n >> 16), byte(n >> 8), byte(n)}), 32)
}

// Many addresses at once get no more tries than a few a minute together; someone
// who was in before gets theirs, and a stranger waits seconds, not hours.
func TestManyAddressesAtOnce(t *testing.T) {
	now := time.Date(2026, 11, 20, 8, 0, 0, 0, time.UTC)
	start := now
	l := newLimiter(func() time.Time { return now })
	friend := machine(1 << 20)
	l.take(friend)
	l.forgive(friend)
	looked, n := 0, 0
	for now.Before(start.Add(10 * time.Minute)) {
		for range 200 {
			n++
			if l.take(machine(n)) == 0 {
				looked++
			}
		}
		now = now.Add(time.Second)
	}
	if most := triesAtOnce + int(10*time.Minute/tryEvery); looked > most {
		t.Errorf("%d tries were looked at in ten minutes, want at most %d", looked, most)
	}
	if wait := l.take(friend); wait != 0 {
		t.Errorf("someone who was in before waits %v", wait)
	}
	now = start.Add(10 * time.Minute)
	if wait := l.take(machine(1 << 19)); wait > tryEvery {
		t.Errorf("a newcomer waits %v", wait)
	}
}

// Being sent away because others try counts as no try of one's own.
func TestOthersTriesAreNotMine(t *testing.T) {
	now := time.Date(2026, 11, 20, 8, 0, 0, 0, time.UTC)
	l := newLimiter(func() time.Time { return now })
	for n := range triesAtOnce {
		l.take(machine(n))
	}
	mine := machine(99)
	for range 50 {
		if wait := l.take(mine); wait <= 0 || wait > tryEvery {
			t.Fatalf("wait %v", wait)
		}
	}
	now = now.Add(tryEvery)
	if wait := l.take(mine); wait != 0 {
		t.Errorf("after the wait: %v", wait)
	}
}

func TestKnownAddressesAreBounded(t *testing.T) {
	l := newLimiter(time.Now)
	for n := range 3 * mostKnown {
		l.forgive(machine(n))
		l.forgive(machine(n))
	}
	if len(l.friends) != mostKnown {
		t.Errorf("%d known", len(l.friends))
	}
}

// However the clock jumps, nobody waits longer than the longest wait, and nobody
// gets more than a handful of tries by it.
func TestLimiterWhenTheClockJumps(t *testing.T) {
	for _, jump := range []time.Duration{-20 * 365 * 24 * time.Hour, -time.Hour, -time.Second} {
		now := time.Date(2026, 11, 20, 8, 0, 0, 0, time.UTC)
		l := newLimiter(func() time.Time { return now })
		for range 60 { // until the waits are at their longest
			now = now.Add(l.take(machine(1)))
		}
		now = now.Add(jump)
		wait := l.take(machine(1))
		if wait <= 0 || wait > longestWait {
			t.Errorf("jump %v: wait %v", jump, wait)
		}
		now = now.Add(longestWait)
		if wait := l.take(machine(1)); wait != 0 {
			t.Errorf("jump %v: still waits %v", jump, wait)
		}
		looked := 0
		for n := range 1000 {
			now = now.Add(-time.Minute)
			if l.take(machine(n+2)) == 0 {
				looked++
			}
		}
		if looked > triesAtOnce {
			t.Errorf("jumps back gave %d tries", looked)
		}
	}
}
