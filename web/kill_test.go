package web

import (
	"bufio"
	"context"
	"fmt"
	"math/rand/v2"
	"net"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"sync"
	"testing"
	"time"
)

// childVariable makes the test program a page server for the rig it names.
const childVariable = "AMPSTEAD_WEB_CHILD"

func TestMain(m *testing.M) {
	if rig := os.Getenv(childVariable); rig != "" {
		fmt.Fprintln(os.Stderr, serveAsChild(rig))
		os.Exit(1)
	}
	os.Exit(m.Run())
}

// serveAsChild serves a rig and prints its address.
func serveAsChild(rig string) error {
	config := Config{Path: rig, Version: "test"}
	standIns(&config)
	handler, err := New(config)
	if err != nil {
		return err
	}
	ln, err := net.Listen("tcp", "127.0.0.1:0")
	if err != nil {
		return err
	}
	fmt.Printf("http://%s\n", ln.Addr())
	return Serve(context.Background(), ln, handler)
}

// server is a page server in a process of its own.
type server struct {
	cmd *exec.Cmd
	at  string
}

func startServer(t *testing.T, rig, temp string) *server {
	t.Helper()
	program, err := os.Executable()
	if err != nil {
		t.Fatal(err)
	}
	cmd := exec.Command(program)
	cmd.Env = append(os.Environ(), childVariable+"="+rig, "TMPDIR="+temp)
	cmd.Stderr = os.Stderr
	out, err := cmd.StdoutPipe()
	if err != nil {
		t.Fatal(err)
	}
	if err := cmd.Start(); err != nil {
		t.Fatal(err)
	}
	at, err := bufio.NewReader(out).ReadString('\n')
	if err != nil {
		t.Fatal(err)
	}
	return &server{cmd, strings.TrimSpace(at)}
}

// wait collects a server that was killed.
func (s *server) wait() { _ = s.cmd.Wait() }

// writers are visitors that edit and write readings without pause, and keep count of
// what they were told is stored.
type writers struct {
	watts []int // by lamp: the last that was acknowledged
	ids   []string
}

const killedLamps = 4

// until lets them write until the server is gone, which is a while after the first of
// them was told that something is stored.
func (w *writers) until(s *server, round int, while time.Duration) {
	var all sync.WaitGroup
	begun := sync.OnceFunc(func() { time.AfterFunc(while, func() { _ = s.cmd.Process.Kill() }) })
	for lamp := range killedLamps {
		all.Go(func() {
			c := &client{at: s.at}
			defer c.http.CloseIdleConnections()
			for n := w.watts[lamp] + 1; c.edit(lampPath(lamp), watts(n)) == nil; n++ {
				w.watts[lamp] = n
				if round%4 != 0 { // in every fourth round a reading is waited for
					begun()
				}
			}
		})
	}
	all.Go(func() {
		c := &client{at: s.at}
		defer c.http.CloseIdleConnections()
		for n := 0; ; n++ {
			id := fmt.Sprintf("k%03d-%05d", round, n)
			if c.add(id, time.Date(2026, 10, 1, 0, round, n, 0, time.UTC), 47) != nil {
				return
			}
			w.ids = append(w.ids, id)
			begun()
		}
	})
	all.Wait()
}

// The page server is killed (-9) again and again while visitors edit and write
// readings. The file is whole each time, everything acknowledged is in it and in the
// logbook, and nothing half-written lies about once it runs again.
func TestServerKilledWhileVisitorsWrite(t *testing.T) {
	kills := 32
	if testing.Short() {
		kills = 5
	}
	folder, temp := t.TempDir(), t.TempDir()
	path := filepath.Join(folder, "rig.yaml")
	if err := os.WriteFile(path, []byte(lampRig(t, killedLamps)), 0o644); err != nil {
		t.Fatal(err)
	}
	rng := rand.New(rand.NewPCG(21, 22))
	w := &writers{watts: make([]int, killedLamps)}
	for round := range kills {
		s := startServer(t, folder, temp)
		if left := halfWritten(t, folder); len(left) > 0 {
			t.Fatalf("after %d kills and a new start there is %v", round, left)
		}
		w.until(s, round, time.Duration(rng.IntN(60))*time.Millisecond)
		s.wait()
		for lamp, got := range lampWatts(t, path, killedLamps) {
			if got != w.watts[lamp] && got != w.watts[lamp]+1 {
				t.Fatalf("kill %d: lamp %d draws %d W, acknowledged were %d", round, lamp, got, w.watts[lamp])
			}
			w.watts[lamp] = max(w.watts[lamp], got)
		}
	}
	stored := map[string]int{}
	if len(w.ids) > 0 {
		stored = readingIDs(t, path)
	}
	for _, id := range w.ids {
		if stored[id] != 1 {
			t.Errorf("reading %s was acknowledged and is there %d times", id, stored[id])
		}
	}
	edits := 0
	for _, n := range w.watts {
		edits += n
	}
	t.Logf("%d kills, %d edits and %d readings acknowledged, none lost", kills, edits, len(w.ids))
	if edits+len(w.ids) < kills || edits == 0 || len(w.ids) == 0 {
		t.Error("killed before enough was stored: the test tells nothing")
	}
}

// halfWritten lists what a writer leaves that was stopped half way.
func halfWritten(t *testing.T, folder string) (left []string) {
	t.Helper()
	err := filepath.WalkDir(folder, func(path string, d os.DirEntry, err error) error {
		if err == nil && strings.Contains(d.Name(), "half-written") {
			left = append(left, path)
		}
		return err
	})
	if err != nil {
		t.Fatal(err)
	}
	return left
}
