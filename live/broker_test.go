package live

import (
	"context"
	"io"
	"log/slog"
	"net"
	"net/url"
	"os"
	"strings"
	"sync"
	"testing"
	"time"

	"github.com/eclipse/paho.golang/autopaho"
	"github.com/eclipse/paho.golang/paho"
	mqtt "github.com/mochi-mqtt/server/v2"
	"github.com/mochi-mqtt/server/v2/listeners"
	"github.com/mochi-mqtt/server/v2/packets"

	"ampstead/rig"
	"ampstead/store"
)

// patience bounds what a test waits for; nothing waits so long unless it fails.
const patience = 20 * time.Second

// broker is an embedded one on a free port of this machine.
type broker struct {
	*mqtt.Server
	address string
	end     func()
}

func startBroker(t testing.TB, address string, password string) *broker {
	t.Helper()
	ln, err := net.Listen("tcp", address)
	if err != nil {
		t.Fatal(err)
	}
	s := mqtt.New(&mqtt.Options{InlineClient: true, Logger: slog.New(slog.NewTextHandler(io.Discard, nil))})
	if err := s.AddHook(&doorman{password: password}, nil); err != nil {
		t.Fatal(err)
	}
	if err := s.AddListener(listeners.NewNet("tcp", ln)); err != nil {
		t.Fatal(err)
	}
	if err := s.Serve(); err != nil {
		t.Fatal(err)
	}
	b := &broker{s, ln.Addr().String(), sync.OnceFunc(func() { s.Close() })}
	t.Cleanup(b.end)
	return b
}

// doorman lets in who knows the password; everyone when there is none.
type doorman struct {
	mqtt.HookBase
	password string
}

func (d *doorman) Provides(b byte) bool {
	return b == mqtt.OnConnectAuthenticate || b == mqtt.OnACLCheck
}

func (d *doorman) OnConnectAuthenticate(_ *mqtt.Client, pk packets.Packet) bool {
	return d.password == "" || string(pk.Connect.Password) == d.password
}

func (d *doorman) OnACLCheck(*mqtt.Client, string, bool) bool { return true }

func (b *broker) url() string { return "mqtt://" + b.address }

func (b *broker) say(t testing.TB, topic, payload string) {
	t.Helper()
	if err := b.Publish(topic, []byte(payload), false, 0); err != nil {
		t.Fatal(err)
	}
}

// memory is a logbook that keeps samples in memory and fails when told to.
type memory struct {
	mu      sync.Mutex
	samples []store.Sample
	fail    error
	calls   int
}

func (m *memory) AddSamples(_ context.Context, s []store.Sample) error {
	m.mu.Lock()
	defer m.mu.Unlock()
	m.calls++
	if m.fail != nil {
		return m.fail
	}
	m.samples = append(m.samples, s...)
	return nil
}

func (m *memory) setFail(err error) {
	m.mu.Lock()
	defer m.mu.Unlock()
	m.fail = err
}

func (m *memory) series(name string) (values []float64) {
	m.mu.Lock()
	defer m.mu.Unlock()
	for _, s := range m.samples {
		if s.Series == name {
			values = append(values, s.Value)
		}
	}
	return values
}

// bench runs a monitor by a clock of its own.
type bench struct {
	*Monitor
	t     testing.TB
	ticks chan time.Time
	stop  func()

	mu    sync.Mutex
	now   time.Time
	lines []string
}

// newBench prepares a monitor of the example rig; change may edit its rig and
// options.
func newBench(t testing.TB, change func(*Options)) *bench {
	t.Helper()
	r, fitted := curlew(t)
	b := &bench{t: t, ticks: make(chan time.Time), now: time.Now()}
	r.Live = &rig.Live{Topics: []rig.LiveTopic{{Topic: "bms/cell/+", Gives: rig.GivesGroupVoltage, Unit: "mV"}, {Topic: "bms/pack", Gives: rig.GivesBankVoltage, Path: "v"},
		{Topic: "bms/pack", Gives: rig.GivesCurrent, Path: "i"}, {Topic: "bms/t/+", Gives: rig.GivesTemperature}}}
	o := Options{Rig: r, Fitted: fitted, Ticks: b.ticks, Now: b.clock, Say: b.hearSay, retry: time.Millisecond,
		Wait: func(ctx context.Context, _ time.Duration) error { return ctx.Err() }}
	change(&o)
	var err error
	if b.Monitor, err = New(o); err != nil {
		t.Fatal(err)
	}
	return b
}

func (b *bench) run() {
	ctx, cancel := context.WithCancel(context.Background())
	over := make(chan error, 1)
	go func() { over <- b.Run(ctx) }()
	b.stop = sync.OnceFunc(func() {
		cancel()
		if err := <-over; err != nil {
			b.t.Error(err)
		}
	})
	b.t.Cleanup(b.stop)
}

func (b *bench) clock() time.Time {
	b.mu.Lock()
	defer b.mu.Unlock()
	return b.now
}

func (b *bench) pass(d time.Duration) {
	b.mu.Lock()
	defer b.mu.Unlock()
	b.now = b.now.Add(d)
}

func (b *bench) hearSay(line string) {
	b.mu.Lock()
	defer b.mu.Unlock()
	b.lines = append(b.lines, line)
}

func (b *bench) said() string {
	b.mu.Lock()
	defer b.mu.Unlock()
	return strings.Join(b.lines, "\n")
}

// until ticks the monitor until its state is as wanted.
func (b *bench) until(what string, ok func(State) bool) State {
	b.t.Helper()
	late := time.After(patience)
	for {
		s, newer := b.State()
		if ok(s) {
			return s
		}
		select {
		case b.ticks <- b.clock():
		case <-newer:
		case <-late:
			b.t.Fatalf("waited in vain until %s; state %+v; said:\n%s", what, s, b.said())
		}
	}
}

func (b *bench) connected() {
	b.t.Helper()
	b.until("connected", func(s State) bool { return s.Connected })
}

// publisher is a client that sends to any broker.
func publisher(t testing.TB, address string) func(topic, payload string) {
	t.Helper()
	u, err := url.Parse(address)
	if err != nil {
		t.Fatal(err)
	}
	ctx, cancel := context.WithTimeout(context.Background(), 10*patience)
	t.Cleanup(cancel)
	cm, err := autopaho.NewConnection(ctx, autopaho.ClientConfig{ServerUrls: []*url.URL{u}, KeepAlive: keepAlive, CleanStartOnInitialConnection: true, ConnectTimeout: connectTime})
	if err != nil {
		t.Fatal(err)
	}
	if err := cm.AwaitConnection(ctx); err != nil {
		t.Fatal(err)
	}
	return func(topic, payload string) {
		t.Helper()
		if _, err := cm.Publish(ctx, &paho.Publish{QoS: 1, Topic: topic, Payload: []byte(payload)}); err != nil {
			t.Fatal(err)
		}
	}
}

// realBroker is the address of one that runs outside of the tests.
func realBroker(t testing.TB) string {
	t.Helper()
	address := os.Getenv("AMPSTEAD_MQTT")
	if address == "" {
		t.Skip("AMPSTEAD_MQTT does not name a broker; .ci/mosquitto starts one")
	}
	return address
}
