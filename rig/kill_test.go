package rig

import (
	"bufio"
	"errors"
	"fmt"
	"math/rand/v2"
	"os"
	"os/exec"
	"strconv"
	"strings"
	"testing"
	"time"

	"ampstead/history"
)

// childVariable makes the test program a process that edits the rig file it names.
const childVariable = "AMPSTEAD_RIG_CHILD"

func TestMain(m *testing.M) {
	if path := os.Getenv(childVariable); path != "" {
		err := child(path)
		fmt.Fprintln(os.Stderr, err)
		os.Exit(1)
	}
	os.Exit(m.Run())
}

// child edits the file without end, now and then undoes and does again, and prints
// the series the file has before it writes, and again once it is saved.
func child(path string) error {
	for i := 0; ; i++ {
		f, err := Open(path)
		if err != nil {
			return err
		}
		next, save, err := childStep(f, i)
		if errors.Is(err, ErrNoUndo) || errors.Is(err, ErrNoRedo) {
			continue
		}
		if err != nil {
			return err
		}
		fmt.Println("writes", next.Rig.Bank.Series)
		if err := save(); err != nil {
			return err
		}
		fmt.Println("saved", next.Rig.Bank.Series)
	}
}

func childStep(f *File, i int) (next *File, save func() error, err error) {
	find := map[int]func(string, []byte) (*Return, error){2: UndoOf, 3: UndoOf, 4: RedoOf}[i%6]
	if find == nil {
		series := strconv.Itoa(1 + (f.Rig.Bank.Series+7)%200)
		if next, err = f.Set("bank.series", series); err != nil {
			return nil, nil, err
		}
		return next, next.Save, nil
	}
	r, err := find(f.Path, f.Text)
	if err != nil {
		return nil, nil, err
	}
	return r.File, r.Save, nil
}

// kill starts a child, kills it a while after its first save, and returns what it
// began to write last and what it said was saved.
func kill(t *testing.T, path string, after time.Duration) (begun string, done []string) {
	t.Helper()
	program, err := os.Executable()
	if err != nil {
		t.Fatal(err)
	}
	cmd := exec.Command(program)
	cmd.Env = append(os.Environ(), childVariable+"="+path)
	cmd.Stderr = os.Stderr
	out, err := cmd.StdoutPipe()
	if err != nil {
		t.Fatal(err)
	}
	if err := cmd.Start(); err != nil {
		t.Fatal(err)
	}
	var timer *time.Timer
	for lines := bufio.NewScanner(out); lines.Scan(); {
		word, series, _ := strings.Cut(lines.Text(), " ")
		if word == "writes" {
			begun = series
			continue
		}
		done = append(done, series)
		if timer == nil {
			timer = time.AfterFunc(after, func() { cmd.Process.Kill() })
		}
	}
	if err := cmd.Wait(); err == nil || err.Error() != "signal: killed" {
		t.Fatalf("the child ended by itself: %v", err)
	}
	return begun, done
}

// A process that edits is killed (-9) at random moments: while it keeps the old
// version, while it writes, between that and keeping the new one. The file is whole
// and holds what was saved last or what was being written; every version is whole;
// and everything that was said to be saved is kept or is in the file.
func TestKilledWhileEditing(t *testing.T) {
	kills := 40
	if text := os.Getenv("AMPSTEAD_KILLS"); text != "" {
		if n, err := strconv.Atoi(text); err == nil {
			kills = n
		}
	}
	if testing.Short() {
		kills = 10
	}
	rng := rand.New(rand.NewPCG(21, 22))
	var path string
	total := 0
	for k := range kills {
		if k%10 == 0 {
			path = onDisk(t, small).Path
		}
		begun, done := kill(t, path, time.Duration(rng.IntN(100_000))*time.Microsecond)
		total += len(done)
		stands(t, path, begun, done)
		undoes(t, path)
	}
	t.Logf("%d kills, %d saved, none lost", kills, total)
}

func stands(t *testing.T, path, begun string, done []string) {
	t.Helper()
	f, err := Open(path)
	if err != nil {
		t.Fatal(err)
	}
	now := strconv.Itoa(f.Rig.Bank.Series)
	if now != done[len(done)-1] && now != begun {
		t.Fatalf("the file has %s; saved last %s, then begun %s", now, done[len(done)-1], begun)
	}
	all, odd, err := history.List(path)
	if err != nil || len(odd) > 0 {
		t.Fatal(odd, err)
	}
	there := map[string]bool{now: true}
	for _, v := range all {
		there[seriesOf(t, path, v.Number)] = true
	}
	for _, series := range done {
		if !there[series] {
			t.Fatalf("%s was saved and is not kept", series)
		}
	}
}

func seriesOf(t *testing.T, path string, number int) string {
	t.Helper()
	text, err := history.Text(path, number)
	if err != nil {
		t.Fatal(err)
	}
	f, err := Parse(path, text)
	if err != nil {
		t.Fatalf("version %d: %v", number, err)
	}
	return strconv.Itoa(f.Rig.Bank.Series)
}

// undoes checks that after the kill an undo changes the file, and sweeps what the
// killed writer left.
func undoes(t *testing.T, path string) {
	t.Helper()
	before := seriesAt(t, path)
	r, err := UndoOf(path, onFile(t, path))
	if errors.Is(err, ErrNoUndo) {
		return
	}
	if err != nil {
		t.Fatal(err)
	}
	if err := r.Save(); err != nil {
		t.Fatal(err)
	}
	if got := seriesAt(t, path); got == before {
		t.Fatalf("undo left %d", got)
	}
	alone(t, path)
}
