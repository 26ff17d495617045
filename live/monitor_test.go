package live

import (
	"context"
	"encoding/json"
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"ampstead/rig"
	"ampstead/store"
)

func value1(s State, series string) float64 {
	for _, v := range s.Values {
		if v.Series == series && !v.Stale {
			return v.Value
		}
	}
	return -1
}

// flow is a whole story against any broker: values arrive, an alarm comes and
// goes, all of it is in the logbook when the monitor has ended.
func flow(t *testing.T, address string, publish func(topic, payload string)) {
	folder := t.TempDir()
	book, err := store.Open(t.Context(), folder, store.Options{})
	if err != nil {
		t.Fatal(err)
	}
	defer book.Close()
	b := newBench(t, func(o *Options) { o.Book = book; o.Rig.Live.Broker = address })
	b.run()
	b.connected()
	for n := 1; n <= 12; n++ {
		publish(fmt.Sprintf("bms/cell/%d", n), "3712")
	}
	publish("bms/pack", `{"v":44.5,"i":-3}`)
	publish("bms/t/1", "12.5")
	b.until("all came", func(s State) bool { return len(s.Values) == 15 && s.Stored >= 15 })
	b.pass(time.Second)
	publish("bms/cell/4", "4180")
	b.until("group 4 came", func(s State) bool { return value1(s, Group(4)) == 4.18 })
	b.pass(11 * time.Second)
	s := b.until("raised", func(s State) bool { return len(s.Alarms) == 2 })
	if s.Alarms[0].Key != "group high" || !strings.HasPrefix(s.Alarms[0].What, "group 4 at 4.180 V") || s.Alarms[1].Key != "spread" {
		t.Errorf("%+v", s.Alarms)
	}
	publish("bms/cell/4", "3712")
	b.until("group 4 is back", func(s State) bool { return value1(s, Group(4)) == 3.712 })
	b.pass(11 * time.Second)
	b.until("cleared", func(s State) bool { return len(s.Alarms) == 0 && len(s.Recent) == 4 })
	b.stop()
	if s, _ := b.State(); !s.Ended || s.Lost != 0 || s.Wrong != 0 {
		t.Errorf("%+v", s)
	}
	for series, want := range map[string]int{Group(4): 3, Group(12): 1, BankVoltage: 1, Current: 1, Temperature(1): 1, "alarm_group_high": 2} {
		list, _, err := book.Chart(t.Context(), series, b.clock().Add(-time.Hour), b.clock().Add(time.Hour), 100)
		stored := 0
		for _, bucket := range list {
			stored += bucket.N
		}
		if err != nil || stored != want {
			t.Errorf("%s: %d in the logbook, want %d (%v)", series, stored, want, err)
		}
	}
}

func TestFlow(t *testing.T) {
	b := startBroker(t, "127.0.0.1:0", "")
	flow(t, b.url(), publisher(t, b.url()))
}

func TestFlowOnARealBroker(t *testing.T) {
	address := realBroker(t)
	flow(t, address, publisher(t, address))
}

func TestBrokerComesBack(t *testing.T) {
	first := startBroker(t, "127.0.0.1:0", "")
	b := newBench(t, func(o *Options) { o.Rig.Live.Broker = first.url() })
	b.run()
	b.connected()
	first.say(t, "bms/cell/1", "3700")
	b.until("heard", func(s State) bool { return value1(s, Group(1)) == 3.7 })
	first.end()
	b.until("lost", func(s State) bool { return !s.Connected })
	b.pass(6 * time.Minute)
	b.until("silent", func(s State) bool { return len(s.Alarms) == 4 })
	second := startBroker(t, first.address, "")
	b.connected()
	second.say(t, "bms/cell/1", "3800")
	b.until("heard again", func(s State) bool { return value1(s, Group(1)) == 3.8 })
	for _, want := range []string{"connected to the broker", "lost the broker", "ALARM silent group voltage bms/cell/+: no group voltage from"} {
		if !strings.Contains(b.said(), want) {
			t.Errorf("%q was not said:\n%s", want, b.said())
		}
	}
}

// What a broker kept from earlier is not taken for a value of now.
func TestKeptMessagesAreLeftOut(t *testing.T) {
	broker := startBroker(t, "127.0.0.1:0", "")
	if err := broker.Publish("bms/cell/1", []byte("3700"), true, 0); err != nil {
		t.Fatal(err)
	}
	b := newBench(t, func(o *Options) { o.Rig.Live.Broker = broker.url() })
	b.run()
	b.connected()
	broker.say(t, "bms/cell/2", "3700")
	if s := b.until("heard", func(s State) bool { return value1(s, Group(2)) == 3.7 }); value1(s, Group(1)) != -1 || s.Messages != 1 {
		t.Errorf("%+v", s)
	}
}

func TestBadMessages(t *testing.T) {
	broker := startBroker(t, "127.0.0.1:0", "")
	b := newBench(t, func(o *Options) { o.Rig.Live.Broker = broker.url() })
	b.run()
	b.connected()
	for _, bad := range []string{"", "offline", "{", "[[[[", "NaN", "65535", strings.Repeat("9", 10000), "\x00\xff", `{"a":1}`} {
		broker.say(t, "bms/cell/1", bad)
	}
	broker.say(t, "bms/cell/1", "3701")
	s := b.until("the good one", func(s State) bool { return value1(s, Group(1)) == 3.701 })
	if s.Wrong != 9 || s.Messages != 10 {
		t.Errorf("%d of %d not understood, %s", s.Wrong, s.Messages, s.LastWrong)
	}
	if n := strings.Count(b.said(), "could not read"); n != 1 {
		t.Errorf("said %d times", n)
	}
}

// A logbook that cannot be written loses nothing, and is an alarm.
func TestLogbookFails(t *testing.T) {
	broker := startBroker(t, "127.0.0.1:0", "")
	book := &memory{fail: store.ErrFull}
	b := newBench(t, func(o *Options) { o.Rig.Live.Broker = broker.url(); o.Book = book })
	b.run()
	b.connected()
	broker.say(t, "bms/cell/1", "3700")
	broker.say(t, "bms/cell/2", "3710")
	b.until("heard", func(s State) bool { return value1(s, Group(2)) == 3.71 })
	b.until("tried", func(State) bool { book.mu.Lock(); defer book.mu.Unlock(); return book.calls > 1 })
	b.pass(11 * time.Second)
	b.until("alarm", func(s State) bool { return len(s.Alarms) == 1 && s.Alarms[0].Key == "logbook" })
	book.setFail(nil)
	s := b.until("stored", func(s State) bool { return s.Stored >= 3 })
	if fmt.Sprint(book.series(Group(1)), book.series(Group(2)), book.series("alarm_logbook")) != "[3.7] [3.71] [1]" || s.Lost != 0 {
		t.Errorf("%+v lost %d", book.samples, s.Lost)
	}
}

func TestMemoryIsBounded(t *testing.T) {
	b := newBatch(&memory{})
	for range mostPending {
		b.add(store.Sample{})
	}
	if b.add(store.Sample{}) != 1 {
		t.Error("more than there is room for")
	}
	b.send()
	<-b.orders
	b.add(store.Sample{})
	if kept, lost := b.settle(written{errors.New("busy")}); kept != 0 || lost != 1 || len(b.pending) != mostPending {
		t.Errorf("%d kept, %d lost, %d wait", kept, lost, len(b.pending))
	}
	b.send()
	<-b.orders
	if kept, lost := b.settle(written{&store.Invalid{}}); kept != 0 || lost != mostBatch || b.busy() {
		t.Errorf("%d kept, %d lost", kept, lost)
	}
}

// No secret reaches what people or files get to see.
func TestSecretsStaySecret(t *testing.T) {
	const password, token = "hedgehog-in-june", "t0k3n-of-the-hook"
	folder := t.TempDir()
	if err := os.WriteFile(filepath.Join(folder, "secret"), []byte(password+"\n"), 0o600); err != nil {
		t.Fatal(err)
	}
	strict := startBroker(t, "127.0.0.1:0", password)
	b := newBench(t, func(o *Options) {
		o.Folder = folder
		l := o.Rig.Live
		l.Broker, l.User, l.PasswordFile, l.Webhook = strict.url(), "ann", "secret", "http://127.0.0.1:1/"+token
	})
	b.run()
	b.connected()
	b.pass(6 * time.Minute)
	b.until("the webhook has failed", func(State) bool { return strings.Contains(b.said(), "the webhook failed for good") })

	t.Setenv("BROKER_SECRET", password+"x")
	refused := newBench(t, func(o *Options) {
		o.Rig.Live.Broker, o.Rig.Live.User, o.Rig.Live.PasswordVariable = strict.url(), "ann", "BROKER_SECRET"
	})
	refused.run()
	refused.until("refused", func(s State) bool { return strings.Contains(s.Trouble, "refused us") })
	for _, b := range []*bench{b, refused} {
		b.stop()
		s, _ := b.State()
		text, err := json.Marshal(s)
		if all := string(text) + b.said(); err != nil || strings.Contains(all, "hedgehog") || strings.Contains(all, token) {
			t.Errorf("a secret in %s (%v)", all, err)
		}
	}
}

func TestPasswordErrors(t *testing.T) {
	folder := t.TempDir()
	long := filepath.Join(folder, "long")
	if err := os.WriteFile(long, make([]byte, mostPassword+1), 0o600); err != nil {
		t.Fatal(err)
	}
	for _, l := range []rig.Live{{PasswordVariable: "NO_SUCH_VARIABLE_HERE"}, {PasswordFile: "missing"}, {PasswordFile: long}} {
		if _, err := passwordOf(&l, folder); err == nil || !strings.HasPrefix(err.Error(), "live.password_") {
			t.Errorf("%+v: %v", l, err)
		}
	}
}

func TestNoLiveSection(t *testing.T) {
	r, fitted := curlew(t)
	r.Live = nil
	if _, err := New(Options{Rig: r, Fitted: fitted}); err == nil {
		t.Error("a rig without live topics is watched")
	}
}

// A broker elsewhere is not called, whatever the rig says.
func TestFarBrokerIsNotCalled(t *testing.T) {
	b := newBench(t, func(o *Options) { o.Rig.Live.Broker = "mqtt://192.0.2.7:1883" })
	b.run()
	b.until("refused", func(s State) bool { return strings.Contains(s.Trouble, "192.0.2.7 is not on the local network") })
}

// The monitor ends while the broker is away, and while the logbook hangs.
func TestEndsAtAnyTime(t *testing.T) {
	b := newBench(t, func(o *Options) { o.Rig.Live.Broker = "mqtt://127.0.0.1:1"; o.Book = &memory{fail: store.ErrBusy} })
	b.run()
	b.until("trouble", func(s State) bool { return s.Trouble != "" })
	b.pass(6 * time.Minute)
	b.until("silent", func(s State) bool { return len(s.Alarms) >= 4 })
	b.stop()
	if !strings.Contains(b.said(), "values could not be stored") {
		t.Error(b.said())
	}
}

func BenchmarkMessage(b *testing.B) {
	bench := newBench(b, func(o *Options) { o.Rig.Live.Broker = "mqtt://127.0.0.1:1" })
	p := publication{"bms/cell/4", []byte("3712"), morning}
	for b.Loop() {
		bench.hear(p)
	}
}

// BenchmarkThroughBroker sends a message to the embedded broker and counts until
// the logbook has taken all of them.
func BenchmarkThroughBroker(b *testing.B) {
	broker := startBroker(b, "127.0.0.1:0", "")
	book, err := store.Open(context.Background(), b.TempDir(), store.Options{})
	if err != nil {
		b.Fatal(err)
	}
	defer book.Close()
	bench := newBench(b, func(o *Options) { o.Rig.Live.Broker = broker.url(); o.Book = book; o.Now = time.Now })
	bench.run()
	bench.connected()
	sent := 0
	for b.Loop() {
		for n := range 100 {
			broker.say(b, fmt.Sprintf("bms/cell/%d", 1+(sent+n)%12), "3712")
		}
		sent += 100
		bench.until("heard", func(s State) bool { return s.Messages+s.Lost >= sent })
	}
	s := bench.until("stored", func(s State) bool { return s.Stored > 0 })
	b.ReportMetric(float64(sent)/b.Elapsed().Seconds(), "messages/s")
	b.ReportMetric(float64(s.Lost), "lost")
}
