package web

import (
	"crypto/rand"
	"crypto/sha256"
	"net/http"
	"sync"
	"time"
)

const (
	sessionCookie = "ampstead_session"
	sessionLength = 30 * 24 * time.Hour
	mostSessions  = 64
)

// sessions remembers who gave the passphrase. Only digests are kept.
type sessions struct {
	now  func() time.Time
	mu   sync.Mutex
	ends map[[sha256.Size]byte]time.Time
}

func newSessions(now func() time.Time) *sessions {
	return &sessions{now: now, ends: map[[sha256.Size]byte]time.Time{}}
}

// open starts a session and returns its token. The oldest one ends when there are
// too many.
func (s *sessions) open() string {
	token := rand.Text()
	s.mu.Lock()
	defer s.mu.Unlock()
	for len(s.ends) >= mostSessions {
		s.dropOldest()
	}
	s.ends[sha256.Sum256([]byte(token))] = s.now().Add(sessionLength)
	return token
}

func (s *sessions) dropOldest() {
	var oldest [sha256.Size]byte
	var first time.Time
	for id, end := range s.ends {
		if first.IsZero() || end.Before(first) {
			oldest, first = id, end
		}
	}
	delete(s.ends, oldest)
}

// valid reports whether the request carries an open session.
func (s *sessions) valid(r *http.Request) bool {
	c, err := r.Cookie(sessionCookie)
	if err != nil {
		return false
	}
	id := sha256.Sum256([]byte(c.Value))
	s.mu.Lock()
	defer s.mu.Unlock()
	end, ok := s.ends[id]
	if !ok {
		return false
	}
	now := s.now()
	if !now.Before(end) {
		delete(s.ends, id)
		return false
	}
	if latest := now.Add(sessionLength); end.After(latest) {
		s.ends[id] = latest // the clock was set back: a session gains nothing by it
	}
	return true
}

// close ends the session that the request carries, if any.
func (s *sessions) close(r *http.Request) {
	c, err := r.Cookie(sessionCookie)
	if err != nil {
		return
	}
	s.mu.Lock()
	defer s.mu.Unlock()
	delete(s.ends, sha256.Sum256([]byte(c.Value)))
}

// sessionFor makes the cookie; it is marked secure where the connection is.
func sessionFor(r *http.Request, token string, age time.Duration) *http.Cookie {
	return &http.Cookie{
		Name: sessionCookie, Value: token, Path: "/", MaxAge: int(age.Seconds()),
		HttpOnly: true, SameSite: http.SameSiteStrictMode, Secure: r.TLS != nil,
	}
}
