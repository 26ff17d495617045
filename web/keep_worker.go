package web

import (
	"bytes"
	"net/http"
	"time"
)

// keepWorker serves the worker that keeps the page for readings. It lies at the
// root because a worker may only serve what lies below it.
func (s *site) keepWorker(w http.ResponseWriter, r *http.Request) {
	a := s.assets["keep-worker.js"]
	w.Header().Set("Content-Type", a.kind)
	w.Header().Set("Cache-Control", "no-cache")
	http.ServeContent(w, r, "", time.Time{}, bytes.NewReader(a.body))
}
