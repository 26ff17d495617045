package live

import (
	"bufio"
	"context"
	"fmt"
	"os"
	"os/exec"
	"testing"
	"time"

	"ampstead/examples"
	"ampstead/fit"
	"ampstead/rig"
	"ampstead/store"
)

// beMonitor makes this test program a monitor that prints how many values are
// stored, until it is killed.
func beMonitor(broker, folder string) error {
	text, err := examples.Read("curlew")
	if err != nil {
		return err
	}
	file, err := rig.Parse("rig.yaml", text)
	if err != nil {
		return err
	}
	fitted, err := fit.Run(file.Rig)
	if err != nil {
		return err
	}
	book, err := store.Open(context.Background(), folder, store.Options{})
	if err != nil {
		return err
	}
	file.Rig.Live = &rig.Live{Broker: broker, Topics: []rig.LiveTopic{{Topic: "bms/cell/+", Gives: rig.GivesGroupVoltage, Unit: "mV"}}}
	ticks := time.NewTicker(20 * time.Millisecond)
	m, err := New(Options{Rig: file.Rig, Fitted: fitted, Book: book, Ticks: ticks.C})
	if err != nil {
		return err
	}
	go func() {
		for told := -1; ; {
			s, newer := m.State()
			if s.Connected && s.Stored > told {
				told = s.Stored
				fmt.Println(told)
			}
			<-newer
		}
	}()
	return m.Run(context.Background())
}

// What the monitor said was stored is there after it was killed.
func TestKilledInTheMiddle(t *testing.T) {
	broker := startBroker(t, "127.0.0.1:0", "")
	folder := t.TempDir()
	for round := range 5 {
		before := storedIn(t, folder)
		told := killAfter(t, broker, folder, 40+25*round)
		if now := storedIn(t, folder); now < before+told {
			t.Fatalf("%d stored before, %d more were acknowledged, %d are there", before, told, now)
		}
	}
}

// killAfter sends values until so many are acknowledged, and kills the monitor
// while more are on their way.
func killAfter(t *testing.T, broker *broker, folder string, most int) (told int) {
	t.Helper()
	ctx, cancel := context.WithTimeout(t.Context(), patience)
	defer cancel()
	cmd := exec.CommandContext(ctx, os.Args[0], "monitor", broker.url(), folder)
	cmd.Stderr = os.Stderr
	out, err := cmd.StdoutPipe()
	if err != nil {
		t.Fatal(err)
	}
	if err := cmd.Start(); err != nil {
		t.Fatal(err)
	}
	lines := bufio.NewScanner(out)
	for lines.Scan() && told < most {
		if _, err := fmt.Sscan(lines.Text(), &told); err != nil {
			t.Fatal(err)
		}
		for n := range 12 { // one of each group: the logbook keeps one value of a millisecond
			broker.say(t, fmt.Sprintf("bms/cell/%d", n+1), "3712")
		}
	}
	if err := cmd.Process.Kill(); err != nil {
		t.Fatal(err)
	}
	_ = cmd.Wait() // it was killed
	if told < most {
		t.Fatalf("the monitor ended after %d", told)
	}
	return told
}

func storedIn(t *testing.T, folder string) (n int) {
	t.Helper()
	book, err := store.Open(t.Context(), folder, store.Options{})
	if err != nil {
		t.Fatal(err)
	}
	defer book.Close()
	if err := book.Check(t.Context()); err != nil {
		t.Fatal(err)
	}
	for k := 1; k <= 12; k++ {
		list, _, err := book.Chart(t.Context(), Group(k), time.Now().Add(-24*time.Hour), time.Now().Add(time.Hour), 1)
		if err != nil {
			t.Fatal(err)
		}
		for _, b := range list {
			n += b.N
		}
	}
	return n
}
