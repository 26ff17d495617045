package web

import (
	"compress/gzip"
	"mime"
	"net/http"
	"strconv"
	"strings"
	"sync"
)

const (
	// compressFrom is the fewest bytes that are worth packing: less fits into one
	// packet of the network anyhow.
	compressFrom = 1024
	// compressLevel packs pages as they are made. The figures of the last kilobytes
	// grow dear above it; see BenchmarkCompress.
	compressLevel = 3
)

// compressible are the kinds of answers that shrink. What is packed already, and
// streams of events, pass as they are.
var compressible = map[string]bool{
	"text/html": true, "text/css": true, "text/javascript": true, "text/plain": true, "text/csv": true, "text/calendar": true,
	"image/svg+xml": true, "application/json": true, "application/manifest+json": true,
}

var packers = sync.Pool{New: func() any {
	packer, err := gzip.NewWriterLevel(nil, compressLevel)
	if err != nil {
		panic(err) // the level above is none
	}
	return packer
}}

// compress packs answers for visitors who take gzip. Our pages hold no secret that an
// attacker could guess from their packed length: sessions are cookies, and changes are
// guarded by origin instead of by a token in the page.
func compress(next http.Handler) http.Handler {
	return http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		w.Header().Add("Vary", "Accept-Encoding")
		if r.Method == http.MethodHead || !takesGzip(r.Header.Get("Accept-Encoding")) {
			next.ServeHTTP(w, r)
			return
		}
		packed := &packedWriter{ResponseWriter: w}
		next.ServeHTTP(packed, r)
		packed.finish() // not reached when the handler gave up: the answer then ends short
	})
}

// takesGzip reads an Accept-Encoding header; a weight of 0 is a refusal.
func takesGzip(header string) bool {
	for one := range strings.SplitSeq(header, ",") {
		name, weight, weighed := strings.Cut(strings.TrimSpace(one), ";")
		if !strings.EqualFold(strings.TrimSpace(name), "gzip") {
			continue
		}
		if !weighed {
			return true
		}
		_, number, _ := strings.Cut(weight, "=")
		q, err := strconv.ParseFloat(strings.TrimSpace(number), 64)
		return err == nil && q > 0
	}
	return false
}

// packedWriter decides with the first bytes of an answer whether it is packed.
type packedWriter struct {
	http.ResponseWriter
	status  int // told by the handler, and not sent yet
	decided bool
	packer  *gzip.Writer // nil while nothing is packed
}

// Unwrap lets a http.ResponseController reach the connection.
func (p *packedWriter) Unwrap() http.ResponseWriter { return p.ResponseWriter }

func (p *packedWriter) WriteHeader(status int) {
	switch {
	case p.decided:
	case status < http.StatusOK:
		p.ResponseWriter.WriteHeader(status)
	case p.status == 0:
		p.status = status
	}
}

func (p *packedWriter) Write(b []byte) (int, error) {
	if !p.decided {
		p.decide(b)
	}
	if p.packer != nil {
		return p.packer.Write(b)
	}
	return p.ResponseWriter.Write(b)
}

// FlushError sends what was written so far; an answer that is flushed before its first
// byte is a stream, and is not packed.
func (p *packedWriter) FlushError() error {
	if !p.decided {
		p.send()
	}
	if p.packer != nil {
		if err := p.packer.Flush(); err != nil {
			return err
		}
	}
	return http.NewResponseController(p.ResponseWriter).Flush()
}

// decide looks at the head of the answer and its first bytes, and sends the head.
func (p *packedWriter) decide(first []byte) {
	h := p.Header()
	if h.Get("Content-Type") == "" {
		h.Set("Content-Type", http.DetectContentType(first))
	}
	if p.worth(h, len(first)) {
		h.Set("Content-Encoding", "gzip")
		h.Del("Content-Length")
		h.Del("Accept-Ranges")
		if tag := h.Get("ETag"); strings.HasPrefix(tag, `"`) {
			h.Set("ETag", "W/"+tag) // the same content, but not the same bytes
		}
		p.packer = packers.Get().(*gzip.Writer)
		p.packer.Reset(p.ResponseWriter)
	}
	p.send()
}

func (p *packedWriter) worth(h http.Header, first int) bool {
	if p.status != 0 && (p.status == http.StatusPartialContent || p.status == http.StatusNoContent || p.status == http.StatusNotModified) {
		return false
	}
	kind, _, err := mime.ParseMediaType(h.Get("Content-Type"))
	if err != nil || !compressible[kind] || h.Get("Content-Encoding") != "" {
		return false
	}
	if whole, err := strconv.Atoi(h.Get("Content-Length")); err == nil {
		return whole >= compressFrom
	}
	return first >= compressFrom
}

func (p *packedWriter) send() {
	p.decided = true
	if p.status != 0 {
		p.ResponseWriter.WriteHeader(p.status)
	}
}

// finish ends the answer.
func (p *packedWriter) finish() {
	if !p.decided {
		p.send()
	}
	if p.packer == nil {
		return
	}
	_ = p.packer.Close() // a visitor who left is no failure of ours
	p.packer.Reset(nil)
	packers.Put(p.packer)
	p.packer = nil
}
