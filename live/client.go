package live

import (
	"context"
	"crypto/rand"
	"crypto/tls"
	"errors"
	"fmt"
	"net"
	"net/url"
	"os"
	"path/filepath"
	"strings"
	"sync"
	"sync/atomic"
	"time"

	"github.com/eclipse/paho.golang/autopaho"
	"github.com/eclipse/paho.golang/packets"
	"github.com/eclipse/paho.golang/paho"

	"ampstead/rig"
)

const (
	keepAlive     = 20 // s
	connectTime   = 10 * time.Second
	subscribeTime = 10 * time.Second
	mostBackoff   = 60 * time.Second
	mostPassword  = 4 << 10 // bytes
)

// client keeps a connection to the broker and hands messages to the monitor.
type client struct {
	m       *Monitor
	address string // for people
	config  autopaho.ClientConfig
	manager *autopaho.ConnectionManager
	dropped atomic.Int64  // messages that found no room
	moved   chan struct{} // the status changed
	once    atomic.Bool   // it has been connected

	mu   sync.Mutex
	link link
}

// link is how the connection stands.
type link struct {
	up      bool
	begun   bool // it was tried
	trouble string
}

func (l link) same(o link) bool { return l == o }

func (l link) String() string {
	switch {
	case l.up:
		return "connected to the broker"
	case l.trouble != "":
		return "not connected to the broker: " + l.trouble
	}
	return "lost the broker"
}

func newClient(m *Monitor, l *rig.Live) (*client, error) {
	u, err := url.Parse(l.Broker)
	if err != nil {
		return nil, errors.New("live.broker is no address")
	}
	u.User = nil // a secret has no place there; the rig file's check says so
	password, err := passwordOf(l, m.o.Folder)
	if err != nil {
		return nil, err
	}
	c := &client{m: m, address: u.Scheme + "://" + u.Host, moved: make(chan struct{}, 1)}
	c.config = autopaho.ClientConfig{
		ServerUrls: []*url.URL{u}, KeepAlive: keepAlive, CleanStartOnInitialConnection: true, ConnectTimeout: connectTime,
		ConnectUsername: l.User, ConnectPassword: password,
		ReconnectBackoff: c.backoff, AttemptConnection: dialBroker, ConnectPacketBuilder: bounded,
		OnConnectionUp:   func(cm *autopaho.ConnectionManager, _ *paho.Connack) { c.subscribe(cm, l) },
		OnConnectionDown: func() bool { c.set(link{}); return true },
		OnConnectError:   func(err error) { c.set(link{trouble: plainTrouble(err)}) },
		ClientConfig: paho.ClientConfig{ClientID: "ampstead-" + strings.ToLower(rand.Text()[:10]),
			OnPublishReceived: []func(paho.PublishReceived) (bool, error){c.received}},
	}
	return c, nil
}

// passwordOf reads the broker's password. It never stands in an error.
func passwordOf(l *rig.Live, folder string) ([]byte, error) {
	if name := l.PasswordVariable; name != "" {
		if text := os.Getenv(name); text != "" {
			return []byte(text), nil
		}
		return nil, fmt.Errorf("live.password_variable: the environment variable %s is not set", name)
	}
	if l.PasswordFile == "" {
		return nil, nil
	}
	path := l.PasswordFile
	if !filepath.IsAbs(path) {
		path = filepath.Join(folder, path)
	}
	text, err := os.ReadFile(path)
	if err != nil {
		return nil, fmt.Errorf("live.password_file: %w", err)
	}
	if len(text) == 0 || len(text) > mostPassword {
		return nil, fmt.Errorf("live.password_file: %s has %d bytes, not 1 to %d", l.PasswordFile, len(text), mostPassword)
	}
	return []byte(strings.TrimRight(string(text), "\r\n")), nil
}

// bounded tells the broker what is too large to send here.
func bounded(p *paho.Connect, _ *url.URL) (*paho.Connect, error) {
	most := uint32(2 * mostPayload)
	if p.Properties == nil {
		p.Properties = &paho.ConnectProperties{}
	}
	p.Properties.MaximumPacketSize = &most
	return p, nil
}

// dialBroker connects within the local network only.
func dialBroker(ctx context.Context, _ autopaho.ClientConfig, u *url.URL) (net.Conn, error) {
	ctx, cancel := context.WithTimeout(ctx, connectTime)
	defer cancel()
	if u.Scheme != "mqtts" {
		return localDialer().DialContext(ctx, "tcp", hostPort(u, "1883"))
	}
	d := tls.Dialer{NetDialer: localDialer(), Config: &tls.Config{MinVersion: tls.VersionTLS12, ServerName: u.Hostname()}}
	conn, err := d.DialContext(ctx, "tcp", hostPort(u, "8883"))
	if err != nil {
		return nil, err
	}
	return packets.NewThreadSafeConn(conn), nil
}

func hostPort(u *url.URL, port string) string {
	if u.Port() != "" {
		port = u.Port()
	}
	return net.JoinHostPort(u.Hostname(), port)
}

// backoff waits longer each time, so that a broker that turns us away at once is
// not asked without pause.
func (c *client) backoff(attempt int) time.Duration {
	if attempt == 0 && !c.once.Swap(true) {
		return 0
	}
	return min(mostBackoff, c.m.o.retry<<min(attempt, 10))
}

func (c *client) start(ctx context.Context) (err error) {
	c.manager, err = autopaho.NewConnection(ctx, c.config)
	return err
}

// wait returns when the connection has been closed for good.
func (c *client) wait() { <-c.manager.Done() }

// subscribe asks for every topic. Messages that the broker keeps for newcomers are
// not wanted: their values may be hours old.
func (c *client) subscribe(cm *autopaho.ConnectionManager, l *rig.Live) {
	var wanted []paho.SubscribeOptions
	seen := map[string]bool{}
	for _, t := range l.Topics {
		if !seen[t.Topic] {
			wanted = append(wanted, paho.SubscribeOptions{Topic: t.Topic, RetainHandling: 2})
		}
		seen[t.Topic] = true
	}
	go func() { // the caller must not wait
		ctx, cancel := context.WithTimeout(context.Background(), subscribeTime)
		defer cancel()
		if _, err := cm.Subscribe(ctx, &paho.Subscribe{Subscriptions: wanted}); err != nil {
			c.set(link{trouble: "it refused a topic: " + plainTrouble(err)})
			return
		}
		c.set(link{up: true})
	}()
}

func (c *client) received(p paho.PublishReceived) (bool, error) {
	if p.Packet.Retain {
		return true, nil
	}
	select {
	case c.m.inbox <- publication{p.Packet.Topic, p.Packet.Payload, c.m.o.Now()}:
	default:
		c.dropped.Add(1)
	}
	return true, nil
}

func (c *client) set(l link) {
	l.begun = true
	c.mu.Lock()
	c.link = l
	c.mu.Unlock()
	select {
	case c.moved <- struct{}{}:
	default: // it is told already
	}
}

func (c *client) status() link {
	c.mu.Lock()
	defer c.mu.Unlock()
	return c.link
}

// plainTrouble is an error without the wrapping that repeats the address.
func plainTrouble(err error) string {
	var refused *autopaho.ConnackError
	if errors.As(err, &refused) {
		return fmt.Sprintf("it refused us, reason 0x%02x", refused.ReasonCode)
	}
	var op *net.OpError
	if errors.As(err, &op) {
		return op.Err.Error()
	}
	return clip(err.Error())
}
