package live

import (
	"context"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"net/http"
	"net/http/httptest"
	"os"
	"path/filepath"
	"strings"
	"sync/atomic"
	"testing"
	"time"

	"ampstead/rig"
)

// hookFile names the variable that makes this test program an alarm command: it
// appends what it is told to that file.
const hookFile = "LIVE_TEST_HOOK_FILE"

func TestMain(m *testing.M) {
	if path := os.Getenv(hookFile); path != "" && len(os.Args) > 1 && os.Args[1] == "hook" {
		os.Exit(beHook(path))
	}
	if len(os.Args) == 4 && os.Args[1] == "monitor" {
		fmt.Fprintln(os.Stderr, beMonitor(os.Args[2], os.Args[3]))
		os.Exit(1)
	}
	os.Exit(m.Run())
}

func beHook(path string) int {
	text, err := io.ReadAll(os.Stdin)
	if err != nil || os.Getenv("AMPSTEAD_STATE") == "" || os.Getenv("BROKER_SECRET") != "" || os.Getenv("AMPSTEAD_PASSPHRASE") != "" {
		return 7
	}
	f, err := os.OpenFile(path, os.O_APPEND|os.O_CREATE|os.O_WRONLY, 0o600)
	if err != nil {
		return 8
	}
	defer f.Close()
	if _, err := f.WriteString(strings.Join(os.Args[1:], "|") + " " + string(text)); err != nil {
		return 9
	}
	return 0
}

// counted makes an outlet report each attempt.
func counted(m *Monitor, n int) chan error {
	done := make(chan error, 100)
	send := m.outlets[n].send
	m.outlets[n].send = func(ctx context.Context, a Alarm) error {
		err := send(ctx, a)
		done <- err
		return err
	}
	return done
}

// raiseAndClear lets the bank voltage cross its limit and come back.
func raiseAndClear(b *bench, say func(topic, payload string)) {
	say("bms/pack", `{"v":52,"i":1}`)
	b.until("high", func(s State) bool { return value1(s, BankVoltage) == 52 })
	b.pass(11 * time.Second)
	b.until("raised", func(s State) bool { return len(s.Alarms) == 1 })
	say("bms/pack", `{"v":44,"i":1}`)
	b.until("back", func(s State) bool { return value1(s, BankVoltage) == 44 })
	b.pass(11 * time.Second)
	b.until("cleared", func(s State) bool { return len(s.Alarms) == 0 })
}

// Each change of an alarm calls the command once, with the alarm and no secret.
func TestCommandIsRunOncePerChange(t *testing.T) {
	path := filepath.Join(t.TempDir(), "told")
	t.Setenv(hookFile, path)
	t.Setenv("BROKER_SECRET", "x")
	t.Setenv("AMPSTEAD_PASSPHRASE", "y")
	broker := startBroker(t, "127.0.0.1:0", "")
	b := newBench(t, func(o *Options) {
		o.Rig.Live.Broker, o.Rig.Live.Command = broker.url(), `"`+os.Args[0]+`" hook "$HOME; true"`
		o.Rig.Live.PasswordVariable = "BROKER_SECRET"
	})
	done := counted(b.Monitor, 0)
	b.run()
	b.connected()
	raiseAndClear(b, func(topic, payload string) { broker.say(t, topic, payload) })
	for range 2 {
		if err := <-done; err != nil {
			t.Error(err)
		}
	}
	b.stop()
	text, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	lines := strings.Split(strings.TrimSpace(string(text)), "\n")
	if len(lines) != 2 || len(done) != 0 {
		t.Fatalf("told %d times: %s", len(lines), text)
	}
	for i, state := range []string{"raised", "cleared"} {
		args, told, _ := strings.Cut(lines[i], " {")
		var n notice
		if err := json.Unmarshal([]byte("{"+told), &n); err != nil || args != `hook|$HOME; true` || n.State != state || n.Key != "bank high" || n.Rig != "Curlew" || n.Note != Warning {
			t.Errorf("%s: %v", lines[i], err)
		}
	}
}

// Each change posts once; a failing server is asked again, and does not hold up
// what comes in.
func TestWebhook(t *testing.T) {
	var calls atomic.Int32
	bodies := make(chan notice, 10)
	server := httptest.NewServer(http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		if calls.Add(1) == 1 {
			w.WriteHeader(http.StatusServiceUnavailable)
			return
		}
		var n notice
		if err := json.NewDecoder(r.Body).Decode(&n); err != nil || r.Method != http.MethodPost {
			t.Error(err)
		}
		bodies <- n
	}))
	defer server.Close()
	broker := startBroker(t, "127.0.0.1:0", "")
	b := newBench(t, func(o *Options) { o.Rig.Live.Broker, o.Rig.Live.Webhook = broker.url(), server.URL+"/alarm" })
	b.run()
	b.connected()
	raiseAndClear(b, func(topic, payload string) { broker.say(t, topic, payload) })
	if first, second := <-bodies, <-bodies; first.State != "raised" || second.State != "cleared" || !strings.Contains(first.What, "bank at 52.00 V") {
		t.Errorf("%+v, %+v", first, second)
	}
	b.stop()
	if calls.Load() != 3 || !strings.Contains(b.said(), "the webhook failed: it answered 503; again in 2 s") {
		t.Errorf("%d calls; said:\n%s", calls.Load(), b.said())
	}
}

// Following an answer elsewhere, or a proxy, would leave the local network.
func TestWebhookStaysOnTheLocalNetwork(t *testing.T) {
	t.Setenv("HTTP_PROXY", "http://192.0.2.9:3128")
	var followed atomic.Bool
	server := httptest.NewServer(http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		if r.URL.Path == "/elsewhere" {
			followed.Store(true)
		}
		http.Redirect(w, r, "/elsewhere", http.StatusTemporaryRedirect)
	}))
	defer server.Close()
	for address, want := range map[string]string{
		server.URL + "/token":        "it answered 307",
		"http://192.0.2.7/token":     "192.0.2.7 is not on the local network",
		"http://[2001:db8::1]/token": "2001:db8::1 is not on the local network",
		"http://0.0.0.0/token":       "0.0.0.0 is not on the local network",
		"http://%zz/token":           "live.webhook is no address",
	} {
		err := newWebhook(address, "Curlew").post(t.Context(), Alarm{})
		if err == nil || !strings.Contains(err.Error(), want) || strings.Contains(err.Error(), "token") {
			t.Errorf("%s: %v", address, err)
		}
	}
	if followed.Load() {
		t.Error("a redirect was followed")
	}
}

// What cannot be told is given up after the last attempt, and the next goes on.
func TestOutletGivesUp(t *testing.T) {
	var said []string
	var paused []time.Duration
	tries := map[string]int{}
	o := &outlet{name: "it", queue: make(chan Alarm, mostQueued), note: func(line string) { said = append(said, line) }}
	o.send = func(_ context.Context, a Alarm) error {
		tries[a.Key]++
		if a.Key == "hot" {
			return errors.New("no")
		}
		return nil
	}
	wait := func(_ context.Context, d time.Duration) error { paused = append(paused, d); return nil }
	o.tell(t.Context(), Alarm{Key: "hot", What: "w"}, wait)
	o.tell(t.Context(), Alarm{Key: "frost"}, wait)
	if tries["hot"] != 1+len(retries) || tries["frost"] != 1 || len(paused) != len(retries) || !strings.HasSuffix(said[len(said)-1], "it was not told: cleared hot: w") {
		t.Errorf("%v %v %v", tries, paused, said)
	}
	said = nil
	for range mostQueued + 1 {
		o.offer(Alarm{Key: "hot"})
	}
	if len(said) != 1 || !strings.Contains(said[0], "too far behind") {
		t.Errorf("%q", said)
	}
}

func TestCommandFailures(t *testing.T) {
	t.Setenv(hookFile, filepath.Join(t.TempDir(), "no", "such", "folder"))
	if err := (&command{words: []string{os.Args[0], "hook"}}).run(t.Context(), Alarm{}); err == nil || err.Error() != "exit status 8" {
		t.Errorf("%v", err)
	}
	if err := (&command{words: []string{"/no/such/program"}}).run(t.Context(), Alarm{}); err == nil {
		t.Error("a missing program ran")
	}
	if _, err := newOutlets(&Monitor{o: Options{Rig: &rig.Rig{}}}, &rig.Live{Command: `"`}); err == nil {
		t.Error("an open quote is taken")
	}
}
