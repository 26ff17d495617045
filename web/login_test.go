package web

import (
	"fmt"
	"net/http"
	"net/netip"
	"net/url"
	"strings"
	"testing"
	"time"
)

const phrase = "glue pot and nipping press"

func shared(c *Config) { c.Passphrase = phrase }

func (v *visitor) try(passphrase string) *http.Response {
	v.t.Helper()
	return v.post("/login", url.Values{"passphrase": {passphrase}, "next": {"/fit"}})
}

func TestWithoutThePassphraseNothingIsShown(t *testing.T) {
	v := visit(t, "curlew-draft", shared)
	v.host = "192.168.4.1:8000"
	before := v.onDisk()
	for _, path := range allPages {
		res := v.do(httptestGet(path))
		if res.StatusCode != http.StatusSeeOther || !strings.HasPrefix(res.Header.Get("Location"), "/login?next=") {
			t.Errorf("%s: %d to %q", path, res.StatusCode, res.Header.Get("Location"))
		}
	}
	if _, body := v.get("/login?next=/fit"); strings.Contains(body, "Curlew") || !strings.Contains(body, `value="/fit"`) {
		t.Error("the login page names the rig or forgets where to go")
	}
	if res := v.post("/show", url.Values{"light": {"night"}, "back": {"/login"}}); res.Header.Get("Location") != "/login" || len(res.Cookies()) != 1 {
		t.Errorf("light cannot be chosen on the login page: %d", res.StatusCode)
	}
	if res := v.post("/rig/set", form("", equalise, "62.0 V", "off")); res.StatusCode != http.StatusUnauthorized || v.onDisk() != before {
		t.Errorf("set: %d", res.StatusCode)
	}
}

func TestPassphraseOpensAndLeavingCloses(t *testing.T) {
	v := visit(t, "curlew", shared)
	v.host = "192.168.4.1:8000"
	res := v.try(phrase)
	if res.StatusCode != http.StatusSeeOther || res.Header.Get("Location") != "/fit" {
		t.Fatalf("%d to %q", res.StatusCode, res.Header.Get("Location"))
	}
	c := res.Cookies()[0]
	if !c.HttpOnly || c.SameSite != http.SameSiteStrictMode || c.Path != "/" || len(c.Value) < 26 {
		t.Errorf("cookie %+v", c)
	}
	v.cookies = res.Cookies()
	if status, body := v.get("/"); status != http.StatusOK || !strings.Contains(body, "/logout") {
		t.Errorf("status %d", status)
	}
	v.post("/logout", nil)
	if status, _ := v.get("/"); status != http.StatusSeeOther {
		t.Errorf("after leaving: status %d", status)
	}
}

func TestSessionEnds(t *testing.T) {
	v := visit(t, "curlew", shared)
	v.cookies = v.try(phrase).Cookies()
	v.clock = v.clock.Add(sessionLength + time.Second)
	if status, _ := v.get("/"); status != http.StatusSeeOther {
		t.Errorf("status %d", status)
	}
}

func TestForgedSession(t *testing.T) {
	v := visit(t, "curlew", shared)
	for _, token := range []string{"", "x", strings.Repeat("A", 26)} {
		v.cookies = []*http.Cookie{{Name: sessionCookie, Value: token}}
		if status, _ := v.get("/"); status != http.StatusSeeOther {
			t.Errorf("%q: status %d", token, status)
		}
	}
}

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

func TestSessionsAreBounded(t *testing.T) {
	s := newSessions(time.Now)
	for range 3 * mostSessions {
		s.open()
	}
	if len(s.ends) > mostSessions {
		t.Errorf("%d sessions", len(s.ends))
	}
}

func TestShortPassphraseIsRefused(t *testing.T) {
	if _, err := New(Config{Path: t.TempDir(), Passphrase: "short"}); err == nil {
		t.Error("accepted")
	}
}
