package cli

import (
	"bytes"
	"context"
	"io"
	"net/http"
	"net/http/cookiejar"
	"net/url"
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"sync"
	"testing"

	"ampstead/secret"
)

// waitingWriter tells when a text was written to it.
type waitingWriter struct {
	mu   sync.Mutex
	text bytes.Buffer
	want string
	seen chan struct{}
	once sync.Once
}

func (w *waitingWriter) Write(p []byte) (int, error) {
	w.mu.Lock()
	defer w.mu.Unlock()
	w.text.Write(p)
	if strings.Contains(w.text.String(), w.want) {
		w.once.Do(func() { close(w.seen) })
	}
	return len(p), nil
}

func (w *waitingWriter) String() string {
	w.mu.Lock()
	defer w.mu.Unlock()
	return w.text.String()
}

// servedOnLAN runs serve --lan until ask is done, and returns what it printed.
func servedOnLAN(t *testing.T, folder string, ask func(at string)) (out, errs string) {
	t.Helper()
	ctx, cancel := context.WithCancel(context.Background())
	stdout := &waitingWriter{want: "Stop it with Ctrl-C", seen: make(chan struct{})}
	var stderr bytes.Buffer
	p := Program{Args: []string{"serve", folder, "--lan", "--port", "0", "--name", "van.example"}, Stdin: strings.NewReader(""), Stdout: stdout, Stderr: &stderr}
	ended := make(chan int, 1)
	go func() { ended <- p.Run(ctx) }()
	select {
	case <-stdout.seen:
	case code := <-ended:
		t.Fatalf("ended with %d: %s", code, stderr.String())
	}
	ask(regexp.MustCompile(`http://127\.0\.0\.1:\d+/`).FindString(stdout.String()))
	cancel()
	<-ended
	return stdout.String(), stderr.String()
}

func fetch(t *testing.T, c *http.Client, r *http.Request) (int, string) {
	t.Helper()
	res, err := c.Do(r)
	if err != nil {
		t.Fatal(err)
	}
	defer res.Body.Close()
	body, err := io.ReadAll(res.Body)
	if err != nil {
		t.Fatal(err)
	}
	return res.StatusCode, string(body)
}

// A passphrase is given once; from then on its hash on this machine lets people in,
// and neither output nor disk ever holds the passphrase.
func TestServeOnTheNetwork(t *testing.T) {
	const phrase = "bone folder on the sill"
	root := t.TempDir()
	t.Setenv(secret.FolderVariable, filepath.Join(root, "own"))
	folder := filepath.Join(root, "rig")
	if err := unpack("curlew", folder); err != nil {
		t.Fatal(err)
	}
	for _, given := range []string{phrase, ""} {
		t.Setenv(passphraseVariable, given)
		out, errs := servedOnLAN(t, folder, func(at string) { enters(t, at, phrase) })
		if strings.Contains(out+errs, phrase) || strings.Contains(out+errs, "argon2id") {
			t.Errorf("printed %s%s", out, errs)
		}
	}
	err := filepath.WalkDir(root, func(path string, d os.DirEntry, err error) error {
		if err != nil || d.IsDir() {
			return err
		}
		text, err := os.ReadFile(path)
		if bytes.Contains(text, []byte(phrase)) {
			t.Errorf("%s holds the passphrase", path)
		}
		return err
	})
	if err != nil {
		t.Fatal(err)
	}
}

// enters gives the passphrase to the page and looks at the rig.
func enters(t *testing.T, at, phrase string) {
	t.Helper()
	jar, err := cookiejar.New(nil)
	if err != nil {
		t.Fatal(err)
	}
	c := &http.Client{Jar: jar}
	defer c.CloseIdleConnections()
	get := func(host string) (int, string) {
		r, err := http.NewRequest(http.MethodGet, at+"fit", nil)
		if err != nil {
			t.Fatal(err)
		}
		r.Host = host
		return fetch(t, c, r)
	}
	if status, body := get(""); status != http.StatusOK || strings.Contains(body, "Curlew") || !strings.Contains(body, "assphrase") {
		t.Errorf("before the passphrase: %d", status)
	}
	for _, given := range []string{"bone folder on the shelf", phrase} {
		res, err := c.PostForm(at+"login", url.Values{"passphrase": {given}, "next": {"/fit"}})
		if err != nil {
			t.Fatal(err)
		}
		res.Body.Close()
		if status, body := get(""); strings.Contains(body, "Curlew") != (given == phrase) {
			t.Errorf("after %q: %d", given, status)
		}
	}
	if status, _ := get("van.example"); status != http.StatusOK {
		t.Errorf("by the name that was given: %d", status)
	}
	if status, _ := get("rebound.example"); status != http.StatusMisdirectedRequest {
		t.Errorf("by another name: %d", status)
	}
}
