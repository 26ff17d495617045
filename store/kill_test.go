package store

import (
	"bufio"
	"context"
	"fmt"
	"math/rand/v2"
	"os"
	"os/exec"
	"strconv"
	"strings"
	"testing"
	"time"
)

// childVariable makes the test program a process that writes to the logbook it
// names.
const childVariable = "AMPSTEAD_STORE_CHILD"

func TestMain(m *testing.M) {
	if where := os.Getenv(childVariable); where != "" {
		if err := child(where, os.Args[1], must(strconv.Atoi(os.Args[2]))); err != nil {
			fmt.Fprintln(os.Stderr, err)
			os.Exit(1)
		}
		return
	}
	os.Exit(m.Run())
}

// child adds visits and live values until it has done so many, and prints each
// once it is acknowledged.
func child(where, prefix string, most int) error {
	ctx := context.Background()
	b, err := Open(ctx, where, Options{Rig: "curlew", Now: testClock})
	if err != nil {
		return err
	}
	for i := range most {
		r := childVisit(prefix, i)
		if _, _, err := b.Add(ctx, r); err != nil {
			return err
		}
		fmt.Println(r.ID)
		if i%4 == 3 {
			if err := b.AddSamples(ctx, childSamples(prefix, i)); err != nil {
				return err
			}
			fmt.Println("live", prefix, i)
		}
	}
	return b.Close()
}

func childVisit(prefix string, i int) Reading {
	r := visit(i)
	r.ID = fmt.Sprintf("%s-%d", prefix, i)
	r.Note = strings.Repeat(r.ID+" ", 200) // some visits spread over more than a page
	return r
}

func childSamples(prefix string, i int) []Sample {
	var list []Sample
	for k := range 20 {
		list = append(list, Sample{yearStart.Add(time.Duration(20*i+k) * time.Second), prefix, float64(k)})
	}
	return list
}

func startChild(t testing.TB, where, prefix string, most int) (*exec.Cmd, *bufio.Scanner) {
	t.Helper()
	cmd := exec.Command(must(os.Executable()), prefix, strconv.Itoa(most))
	cmd.Env = append(os.Environ(), childVariable+"="+where)
	cmd.Stderr = os.Stderr
	out, err := cmd.StdoutPipe()
	if err != nil {
		t.Fatal(err)
	}
	if err := cmd.Start(); err != nil {
		t.Fatal(err)
	}
	return cmd, bufio.NewScanner(out)
}

// acknowledged is what children said they had stored.
type acknowledged struct {
	visits map[string]Reading
	live   map[string]int // samples by series
}

func (a *acknowledged) note(line, prefix string) {
	if strings.HasPrefix(line, "live ") {
		a.live[prefix] += 20
		return
	}
	i := must(strconv.Atoi(line[strings.LastIndexByte(line, '-')+1:]))
	a.visits[line] = childVisit(prefix, i)
}

// kill starts a child, kills it a while after its start or, begun, after its first
// entry, and takes down what it said.
func (a *acknowledged) kill(t *testing.T, where, prefix string, begun bool, after time.Duration) {
	cmd, lines := startChild(t, where, prefix, 1_000_000)
	if begun && lines.Scan() {
		a.note(lines.Text(), prefix)
	}
	timer := time.AfterFunc(after, func() { cmd.Process.Kill() })
	defer timer.Stop()
	for lines.Scan() {
		a.note(lines.Text(), prefix)
	}
	if err := cmd.Wait(); err == nil || err.Error() != "signal: killed" {
		t.Fatalf("the child ended by itself: %v", err)
	}
}

// holds opens the logbook and looks for every acknowledged entry, once and whole.
func (a *acknowledged) holds(t *testing.T, p place) {
	t.Helper()
	ctx := context.Background()
	b, err := Open(ctx, p.where, Options{Rig: "curlew", Now: testClock})
	if err != nil {
		t.Fatal(err)
	}
	defer b.Close()
	if err := b.Check(ctx); err != nil {
		t.Fatal(err)
	}
	found := map[string]Reading{}
	for _, r := range readings(t, b) {
		if _, twice := found[r.ID]; twice {
			t.Fatalf("%s twice", r.ID)
		}
		found[r.ID] = r
	}
	for id, want := range a.visits {
		if got, there := found[id]; !there || !sameContent(got, must(b.first(want))) {
			t.Fatalf("%s was acknowledged; there: %v, %+v", id, there, got)
		}
	}
	for series, want := range a.live {
		raw, minute := countIn(t, b, series, 2*time.Hour, 2000), countIn(t, b, series, 1000*time.Hour, 2000)
		if raw < want || raw != minute {
			t.Fatalf("live %s: %d acknowledged, %d values, %d in the sums", series, want, raw, minute)
		}
	}
}

func countIn(t *testing.T, b *Book, series string, long time.Duration, points int) (n int) {
	list, _ := chartOf(t, b, series, yearStart, yearStart.Add(long), points)
	for _, c := range list {
		n += c.N
	}
	return n
}

// A process that writes is killed (-9) at random moments: while it makes the
// logbook, in the middle of an entry, between two. Whatever it said was stored is
// there, once and whole.
func TestKilledWhileWriting(t *testing.T) {
	kills := 200
	if text := os.Getenv("AMPSTEAD_KILLS"); text != "" {
		kills = must(strconv.Atoi(text))
	}
	if testing.Short() {
		kills = 20
	}
	rng := rand.New(rand.NewPCG(11, 12))
	const perFolder = 10 // then a new one, so that making it is met too
	total := 0
	for round := 0; round < kills; round += perFolder {
		p := place{where: t.TempDir()}
		a := &acknowledged{visits: map[string]Reading{}, live: map[string]int{}}
		for k := range min(perFolder, kills-round) {
			a.kill(t, p.where, fmt.Sprintf("k%d", k), k%2 == 1, time.Duration(rng.IntN(40_000))*time.Microsecond)
			a.holds(t, p)
		}
		total += len(a.visits)
	}
	t.Logf("%d kills, %d acknowledged visits, none lost", kills, total)
	if total == 0 {
		t.Error("killed before anything was stored: the test tells nothing")
	}
}

func TestKilledWhileWritingToAServer(t *testing.T) {
	p := place{server(t), true}
	rng := rand.New(rand.NewPCG(13, 14))
	a := &acknowledged{visits: map[string]Reading{}, live: map[string]int{}}
	for k := range 10 {
		a.kill(t, p.where, fmt.Sprintf("k%d", k), k%2 == 1, time.Duration(rng.IntN(60_000))*time.Microsecond)
		a.holds(t, p)
	}
}

func TestTwoProcessesWrite(t *testing.T) {
	onBoth(t, func(t *testing.T, p place) {
		a := &acknowledged{visits: map[string]Reading{}, live: map[string]int{}}
		one, lines := startChild(t, p.where, "one", 60) // both also race to make the logbook
		two, others := startChild(t, p.where, "two", 60)
		for lines.Scan() {
			a.note(lines.Text(), "one")
		}
		for others.Scan() {
			a.note(others.Text(), "two")
		}
		if err, err2 := one.Wait(), two.Wait(); err != nil || err2 != nil {
			t.Fatal(err, err2)
		}
		if len(a.visits) != 120 {
			t.Errorf("%d acknowledged, want 120", len(a.visits))
		}
		a.holds(t, p)
	})
}
