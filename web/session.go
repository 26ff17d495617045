package web

import (
	"crypto/rand"
	"crypto/sha256"
	"crypto/subtle"
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

// open starts a session and returns its token.
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
	return ok && s.now().Before(end)
}

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

// samePassphrase compares in a time that tells nothing of either's length or text.
func samePassphrase(given, want string) bool {
	g, w := sha256.Sum256([]byte(given)), sha256.Sum256([]byte(want))
	return subtle.ConstantTimeCompare(g[:], w[:]) == 1
}
