package web

import (
	"bytes"
	"compress/gzip"
	"context"
	"errors"
	"io"
	"net/http"
	"net/http/httptest"
	"strconv"
	"strings"
	"sync/atomic"
	"testing"
)

// packed asks a site as a browser does.
func (v *visitor) packed(path string, more ...string) *http.Response {
	v.t.Helper()
	r := httptestGet(path)
	r.Header.Set("Accept-Encoding", "gzip, deflate, br")
	for i := 0; i+1 < len(more); i += 2 {
		r.Header.Set(more[i], more[i+1])
	}
	return v.do(r)
}

func unpack(t testing.TB, res *http.Response) string {
	t.Helper()
	zipped, err := gzip.NewReader(res.Body)
	if err != nil {
		t.Fatal(err)
	}
	text, err := io.ReadAll(zipped)
	if err != nil {
		t.Fatal(err)
	}
	return string(text)
}

// Every page unpacks to what a visitor without gzip gets, and says that it varies.
func TestPackedPagesAreTheSame(t *testing.T) {
	v := visit(t, "curlew")
	for _, path := range append([]string{"/static/style.css", "/static/keep.js", "/keep/readings.csv", "/wire/parts.csv"}, allPages...) {
		plain, body := v.do(httptestGet(path)), ""
		if _, body = v.read(plain); plain.Header.Get("Content-Encoding") != "" {
			t.Errorf("%s is packed for one who cannot unpack it", path)
		}
		res := v.packed(path)
		if res.Header.Get("Vary") != "Accept-Encoding" || plain.Header.Get("Vary") != "Accept-Encoding" {
			t.Errorf("%s varies by %q", path, res.Header.Get("Vary"))
		}
		if res.Header.Get("Content-Encoding") != "gzip" {
			if len(body) >= compressFrom {
				t.Errorf("%s of %d bytes is not packed", path, len(body))
			}
			continue
		}
		got := unpack(t, res)
		if path == "/keep" { // its form has another ID each time
			got, body = got[:200], body[:200]
		}
		if got != body {
			t.Errorf("%s unpacks to %d bytes instead of %d", path, len(got), len(body))
		}
	}
}

func TestTakesGzip(t *testing.T) {
	for header, want := range map[string]bool{
		"": false, "gzip": true, "br, GZIP ": true, "gzip;q=0": false, "gzip; q=0.0, br": false, "gzip;q=0.5": true, "deflate": false, "gzip;q=x": false, "x-gzip": false,
	} {
		if got := takesGzip(header); got != want {
			t.Errorf("%q: %v", header, got)
		}
	}
}

// What must not be packed passes byte for byte.
func TestPackedPassesWhatIsNoText(t *testing.T) {
	long := strings.Repeat("a row of numbers\n", 200)
	for name, c := range map[string]struct {
		kind, coding string
		status       int
		body         string
		want         string
	}{
		"page":         {"text/html; charset=utf-8", "", 200, long, "gzip"},
		"error page":   {"text/html", "", 422, long, "gzip"},
		"short":        {"text/html", "", 200, "short", ""},
		"database":     {"application/vnd.sqlite3", "", 200, long, ""},
		"events":       {"text/event-stream", "", 200, long, ""},
		"packed by us": {"text/css", "br", 200, long, "br"},
		"a part":       {"text/css", "", 206, long, ""},
		"not told":     {"", "", 200, long, "gzip"},
		"nothing":      {"text/html", "", 204, "", ""},
	} {
		h := compress(http.HandlerFunc(func(w http.ResponseWriter, _ *http.Request) {
			if c.kind != "" {
				w.Header().Set("Content-Type", c.kind)
			}
			if c.coding != "" {
				w.Header().Set("Content-Encoding", c.coding)
			}
			w.Header().Set("ETag", `"x"`)
			w.WriteHeader(c.status)
			_, _ = io.WriteString(w, c.body)
		}))
		r := httptestGet("/")
		r.Header.Set("Accept-Encoding", "gzip")
		w := httptest.NewRecorder()
		h.ServeHTTP(w, r)
		res := w.Result()
		if got := res.Header.Get("Content-Encoding"); got != c.want || res.StatusCode != c.status {
			t.Errorf("%s: coding %q, status %d", name, got, res.StatusCode)
		}
		if weak := res.Header.Get("ETag") == `W/"x"`; weak != (c.want == "gzip") {
			t.Errorf("%s: tag %s", name, res.Header.Get("ETag"))
		}
		if c.want != "gzip" {
			if body, _ := io.ReadAll(res.Body); string(body) != c.body {
				t.Errorf("%s was changed", name)
			}
		} else if unpack(t, res) != c.body {
			t.Errorf("%s unpacks to something else", name)
		}
	}
}

// A kept style sheet is asked about and not sent again, whichever form was kept.
func TestPackedAssetIsKept(t *testing.T) {
	v := visit(t, "dipper")
	res := v.packed("/static/style.css")
	again := v.packed("/static/style.css", "If-None-Match", res.Header.Get("ETag"))
	if body, _ := io.ReadAll(again.Body); again.StatusCode != http.StatusNotModified || len(body) != 0 {
		t.Errorf("status %d with %d bytes", again.StatusCode, len(body))
	}
}

// An answer that is flushed part by part arrives part by part, and one whose maker
// gives up does not look whole.
func TestPackedStreams(t *testing.T) {
	next := make(chan struct{})
	var gone atomic.Bool
	server := httptest.NewServer(compress(http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		w.Header().Set("Content-Type", "text/html")
		_, _ = io.WriteString(w, strings.Repeat("first ", 400))
		if err := http.NewResponseController(w).Flush(); err != nil {
			t.Error(err)
		}
		<-next
		if r.URL.Path == "/gone" {
			gone.Store(true)
			panic(http.ErrAbortHandler)
		}
		_, _ = io.WriteString(w, "second")
	})))
	defer server.Close()
	ask := func(path string) (*http.Response, *gzip.Reader) {
		r, err := http.NewRequestWithContext(context.Background(), http.MethodGet, server.URL+path, nil)
		if err != nil {
			t.Fatal(err)
		}
		r.Header.Set("Accept-Encoding", "gzip") // said by hand, so that the client leaves the body packed
		res, err := http.DefaultClient.Do(r)
		if err != nil {
			t.Fatal(err)
		}
		zipped, err := gzip.NewReader(res.Body)
		if err != nil {
			t.Fatal(err)
		}
		return res, zipped
	}
	res, zipped := ask("/whole")
	first := make([]byte, 2400)
	if _, err := io.ReadFull(zipped, first); err != nil || !bytes.HasPrefix(first, []byte("first first")) {
		t.Fatalf("%q %v", first[:10], err)
	}
	next <- struct{}{}
	if rest, err := io.ReadAll(zipped); err != nil || string(rest) != "second" {
		t.Errorf("%q %v", rest, err)
	}
	res.Body.Close()
	res, zipped = ask("/gone")
	next <- struct{}{}
	if _, err := io.ReadAll(zipped); !errors.Is(err, io.ErrUnexpectedEOF) || !gone.Load() {
		t.Errorf("an answer that broke off ends with %v", err)
	}
	res.Body.Close()
}

// BenchmarkCompress is the price of one large page at each level, and its size.
func BenchmarkCompress(b *testing.B) {
	v := visit(b, "curlew")
	_, body := v.get("/fit")
	for _, level := range []int{1, compressLevel, 6, 9} {
		b.Run("level "+strconv.Itoa(level), func(b *testing.B) {
			var out bytes.Buffer
			packer, err := gzip.NewWriterLevel(&out, level)
			if err != nil {
				b.Fatal(err)
			}
			for b.Loop() {
				out.Reset()
				packer.Reset(&out)
				_, _ = io.WriteString(packer, body)
				_ = packer.Close()
			}
			b.ReportMetric(float64(out.Len()), "bytes")
		})
	}
}
