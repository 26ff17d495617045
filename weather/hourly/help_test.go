package hourly

import (
	"bytes"
	"compress/gzip"
	"errors"
	"io"
	"os"
	"strings"
	"testing"

	"ampstead/internal/shared"
	"ampstead/weather"
)

// text returns a shared weather file, unpacked.
func text(t testing.TB, name string) string {
	t.Helper()
	raw, err := os.ReadFile(shared.Path(t, "data/weather/"+name))
	if err != nil {
		t.Fatal(err)
	}
	if !strings.HasSuffix(name, ".gz") {
		return string(raw)
	}
	z, err := gzip.NewReader(bytes.NewReader(raw))
	if err != nil {
		t.Fatal(err)
	}
	out, err := io.ReadAll(z)
	if err != nil {
		t.Fatal(err)
	}
	return string(out)
}

func must(t testing.TB, name string) *weather.Hours {
	t.Helper()
	h, err := Read(name, strings.NewReader(text(t, name)))
	if err != nil {
		t.Fatal(err)
	}
	return h
}

// refused reads a damaged text and returns the error's parts.
func refused(t testing.TB, text string) *Error {
	t.Helper()
	_, err := Read("x", strings.NewReader(text))
	var e *Error
	if !errors.As(err, &e) {
		t.Fatalf("got %v, not an Error", err)
	}
	return e
}

// change replaces one line, counting from 1.
func change(text string, line int, by func(string) string) string {
	lines := strings.SplitAfter(text, "\n")
	lines[line-1] = by(lines[line-1])
	return strings.Join(lines, "")
}
