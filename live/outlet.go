package live

import (
	"context"
	"fmt"
	"net"
	"net/netip"
	"syscall"
	"time"

	"ampstead/rig"
)

// outlet tells one listener of alarms, in order, at its own pace.
type outlet struct {
	name  string
	send  func(context.Context, Alarm) error
	queue chan Alarm
	note  func(string)
}

// retries are the pauses between attempts to tell of one alarm.
var retries = []time.Duration{2 * time.Second, 10 * time.Second, time.Minute, 5 * time.Minute}

// mostQueued is how many alarms may wait for one listener.
const mostQueued = 64

func newOutlets(m *Monitor, l *rig.Live) ([]*outlet, error) {
	var list []*outlet
	add := func(name string, send func(context.Context, Alarm) error) {
		list = append(list, &outlet{name, send, make(chan Alarm, mostQueued), m.note})
	}
	words, err := rig.Words(l.Command)
	if err != nil {
		return nil, fmt.Errorf("live.command: %w", err)
	}
	if len(words) > 0 {
		c := &command{words: words, rig: m.o.Rig.About.Name, hide: l.PasswordVariable}
		add("the alarm command", c.run)
	}
	if l.Webhook != "" {
		add("the webhook", newWebhook(l.Webhook, m.o.Rig.About.Name).post)
	}
	return list, nil
}

// offer queues an alarm; it never waits.
func (o *outlet) offer(a Alarm) {
	select {
	case o.queue <- a:
	default:
		o.note(fmt.Sprintf("%s is too far behind; it was not told: %s", o.name, a.line()))
	}
}

func (o *outlet) run(ctx context.Context, wait func(context.Context, time.Duration) error) {
	for {
		select {
		case a := <-o.queue:
			o.tell(ctx, a, wait)
		case <-ctx.Done():
			return
		}
	}
}

// tell tries until it is told, or the attempts are used up.
func (o *outlet) tell(ctx context.Context, a Alarm, wait func(context.Context, time.Duration) error) {
	for attempt := 0; ; attempt++ {
		err := o.send(ctx, a)
		switch {
		case err == nil || ctx.Err() != nil:
			return
		case attempt == len(retries):
			o.note(fmt.Sprintf("%s failed for good: %v; it was not told: %s", o.name, err, a.line()))
			return
		}
		o.note(fmt.Sprintf("%s failed: %v; again in %s", o.name, err, duration(retries[attempt])))
		if wait(ctx, retries[attempt]) != nil {
			return
		}
	}
}

// notice is what a listener is told.
type notice struct {
	Rig   string `json:"rig"`
	State string `json:"state"` // "raised" or "cleared"
	Alarm
	Note string `json:"note"`
}

func noticeOf(name string, a Alarm) notice { return notice{name, a.state(), a, Warning} }

func (a Alarm) state() string {
	if a.Raised {
		return "raised"
	}
	return "cleared"
}

// localDialer connects to this machine and the local network only. It looks at the
// address itself, after any name was looked up and for every attempt.
func localDialer() *net.Dialer {
	return &net.Dialer{Timeout: connectTime, Control: func(_, address string, _ syscall.RawConn) error {
		to, err := netip.ParseAddrPort(address)
		if err != nil {
			return err
		}
		if !rig.LocalAddress(to.Addr()) {
			return fmt.Errorf("%s is not on the local network", to.Addr())
		}
		return nil
	}}
}
