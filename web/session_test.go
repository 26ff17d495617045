package web

import (
	"net/http"
	"strings"
	"testing"
	"time"
)

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

func TestSessionsAreBounded(t *testing.T) {
	s := newSessions(time.Now)
	for range 3 * mostSessions {
		s.open()
	}
	if len(s.ends) > mostSessions {
		t.Errorf("%d sessions", len(s.ends))
	}
}

// A token that someone had before a login is worth nothing after it.
func TestLoginMakesANewSession(t *testing.T) {
	v := visit(t, "curlew", shared)
	v.cookies = v.try(phrase).Cookies()
	before := v.cookies
	v.cookies = v.try(phrase).Cookies()
	if v.cookies[0].Value == before[0].Value {
		t.Fatal("the same token again")
	}
	if status, _ := v.get("/"); status != http.StatusOK {
		t.Errorf("the new session: %d", status)
	}
	v.cookies = before
	if status, _ := v.get("/"); status != http.StatusSeeOther {
		t.Errorf("the old session: %d", status)
	}
}

// What the server keeps of a session opens nothing.
func TestOnlyDigestsAreKept(t *testing.T) {
	s := newSessions(time.Now)
	token := s.open()
	for id := range s.ends {
		if strings.Contains(string(id[:]), token) || strings.Contains(token, string(id[:])) {
			t.Error("the token itself is kept")
		}
	}
	if len(token) < 26 || s.open() == token {
		t.Errorf("token %q", token)
	}
}

func TestSessionsEndOneByOne(t *testing.T) {
	v := visit(t, "curlew", shared)
	one := v.try(phrase).Cookies()
	v.cookies = nil
	other := v.try(phrase).Cookies()
	v.cookies = one
	v.post("/logout", nil)
	if status, _ := v.get("/"); status != http.StatusSeeOther {
		t.Errorf("after leaving: %d", status)
	}
	v.cookies = other
	if status, _ := v.get("/"); status != http.StatusOK {
		t.Errorf("another one's session: %d", status)
	}
}

// A clock that jumps lets nobody in for longer, and nobody in who was out.
func TestSessionsWhenTheClockJumps(t *testing.T) {
	now := time.Date(2026, 11, 20, 8, 0, 0, 0, time.UTC)
	s := newSessions(func() time.Time { return now })
	r := httptestGet("/")
	r.AddCookie(&http.Cookie{Name: sessionCookie, Value: s.open()})
	now = now.AddDate(-6, 0, 0)
	if !s.valid(r) {
		t.Fatal("set back by years: the session is over")
	}
	now = now.Add(sessionLength + time.Second)
	if s.valid(r) {
		t.Error("set back by years: the session lasts for years")
	}
	now = now.AddDate(-6, 0, 0)
	if s.valid(r) {
		t.Error("an ended session came back")
	}
	now = now.AddDate(30, 0, 0)
	again := httptestGet("/")
	again.AddCookie(&http.Cookie{Name: sessionCookie, Value: s.open()})
	if !s.valid(again) {
		t.Error("no session after a jump ahead")
	}
}
