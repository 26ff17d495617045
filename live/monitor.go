package live

import (
	"context"
	"errors"
	"fmt"
	"sync"
	"time"

	"ampstead/fit"
	q "ampstead/quantity"
	"ampstead/rig"
	"ampstead/store"
)

// Book is what a monitor needs of the logbook.
type Book interface {
	AddSamples(ctx context.Context, samples []store.Sample) error
}

// Options say what is watched, and who hears of it.
type Options struct {
	Rig    *rig.Rig
	Fitted *fit.Result
	Folder string                                           // of the rig, where a relative password file starts
	Book   Book                                             // nil stores nothing
	Say    func(line string)                                // state changes in plain words; nil is nobody. Never blocks for long.
	Now    func() time.Time                                 // nil is the machine's clock
	Ticks  <-chan time.Time                                 // nil is one a second
	Wait   func(ctx context.Context, d time.Duration) error // between attempts to tell of an alarm; nil waits

	retry time.Duration // first pause before connecting again; 0 is a second
}

// Limits of what waits in memory.
const (
	mostWaiting = 4096   // messages not yet looked at
	mostPending = 200000 // values not yet stored: half an hour at a hundred a second
	mostRecent  = 50     // alarm changes to show
)

// Monitor watches one rig.
type Monitor struct {
	o       Options
	plan    *plan
	watch   *watch
	client  *client
	outlets []*outlet
	inbox   chan publication
	notes   chan string
	batch   batch
	counts  counts
	recent  []Alarm
	ended   bool
	wrong   map[string]time.Time // by topic, when it was last said

	mu      sync.Mutex
	state   State
	changed chan struct{}
}

// publication is a message as it came.
type publication struct {
	topic   string
	payload []byte
	at      time.Time
}

// Ready tells whether a rig says what to read.
func Ready(r *rig.Rig) error {
	if r.Live == nil || len(r.Live.Topics) == 0 {
		return errors.New("the rig file has no live section with topics; docs/live.md shows one")
	}
	return nil
}

// New prepares a monitor. Errors: no live section, a password that cannot be read.
func New(o Options) (*Monitor, error) {
	if err := Ready(o.Rig); err != nil {
		return nil, err
	}
	l := o.Rig.Live
	p, err := newPlan(o.Rig)
	if err != nil {
		return nil, err
	}
	units, err := q.ParseSystem(o.Rig.About.Units)
	if err != nil {
		units = q.Metric
	}
	o = o.filled()
	m := &Monitor{o: o, plan: p, inbox: make(chan publication, mostWaiting), notes: make(chan string, 64),
		wrong: map[string]time.Time{}, changed: make(chan struct{}), batch: newBatch(o.Book)}
	m.watch = newWatch(p, limitsOf(o.Rig, o.Fitted), seconds(defaultDelay, l.Delay), units, o.Now())
	if m.client, err = newClient(m, l); err != nil {
		return nil, err
	}
	m.outlets, err = newOutlets(m, l)
	m.publish()
	return m, err
}

func (o Options) filled() Options {
	if o.Now == nil {
		o.Now = time.Now
	}
	if o.Say == nil {
		o.Say = func(string) {}
	}
	if o.retry == 0 {
		o.retry = time.Second
	}
	if o.Wait == nil {
		o.Wait = waitFor
	}
	return o
}

func waitFor(ctx context.Context, d time.Duration) error {
	t := time.NewTimer(d)
	defer t.Stop()
	select {
	case <-t.C:
		return nil
	case <-ctx.Done():
		return ctx.Err()
	}
}

// Run watches until ctx is done, then stores what it has and returns nil. It may
// be run once.
func (m *Monitor) Run(ctx context.Context) error {
	ticks := m.o.Ticks
	if ticks == nil {
		t := time.NewTicker(time.Second)
		defer t.Stop()
		ticks = t.C
	}
	inner, cancel := context.WithCancel(ctx)
	var helpers sync.WaitGroup
	defer helpers.Wait()
	defer cancel()
	for _, out := range m.outlets {
		helpers.Go(func() { out.run(inner, m.o.Wait) })
	}
	defer close(m.batch.orders)
	helpers.Go(func() { m.batch.run(context.WithoutCancel(ctx)) }) // the last batch is stored after the end
	if err := m.client.start(inner); err != nil {
		return err
	}
	helpers.Go(m.client.wait)
	m.loop(ctx, ticks)
	return nil
}

// loop owns every part of the monitor that changes.
func (m *Monitor) loop(ctx context.Context, ticks <-chan time.Time) {
	for {
		select {
		case p := <-m.inbox:
			m.hear(p)
		case <-ticks:
			m.tick()
		case done := <-m.batch.done:
			m.wrote(done)
		case line := <-m.notes:
			m.o.Say(line)
		case <-m.client.moved:
			m.link()
		case <-ctx.Done():
			m.finish()
			return
		}
	}
}

func (m *Monitor) hear(p publication) {
	m.counts.Messages++
	values, wrong := m.plan.read(p.topic, p.payload)
	for _, err := range wrong {
		m.misread(p, err)
	}
	for _, v := range values {
		m.counts.Lost += m.batch.add(store.Sample{At: p.at, Series: seriesOf(v.gives, v.number), Value: v.v})
	}
	m.tell(m.watch.take(p.at, values))
}

// misread says what is wrong with a topic's messages, once a minute at most.
func (m *Monitor) misread(p publication, err error) {
	const again, most = time.Minute, 200
	m.counts.Wrong++
	m.counts.LastWrong = err.Error()
	if last, ok := m.wrong[p.topic]; ok && p.at.Sub(last) < again {
		return
	}
	if len(m.wrong) >= most {
		clear(m.wrong)
	}
	m.wrong[p.topic] = p.at
	m.o.Say("could not read " + err.Error())
}

func (m *Monitor) tick() {
	now := m.o.Now()
	if n := int(m.client.dropped.Swap(0)); n > 0 {
		m.counts.Lost += n
		m.o.Say(fmt.Sprintf("%d messages came too fast and were left out", n))
	}
	m.tell(m.watch.tick(now))
	m.batch.send()
	m.publish()
}

// wrote takes the logbook's answer to a batch.
func (m *Monitor) wrote(done written) {
	kept, lost := m.batch.settle(done)
	m.counts.Stored += kept
	m.counts.Lost += lost
	m.tell(m.watch.wrote(m.o.Now(), done.err))
	m.publish()
}

// tell gives alarms that changed to everyone: the logbook, the page, the person at
// the command line, and the outlets.
func (m *Monitor) tell(changed []Alarm) {
	if len(changed) == 0 {
		return
	}
	for _, a := range changed {
		m.counts.Lost += m.batch.add(m.watch.record(a))
		m.recent = append([]Alarm{a}, m.recent[:min(len(m.recent), mostRecent-1)]...)
		m.o.Say(a.line())
		for _, out := range m.outlets {
			out.offer(a)
		}
	}
	m.publish()
}

func (a Alarm) line() string {
	if a.Raised {
		return "ALARM " + a.Key + ": " + a.What
	}
	return "cleared " + a.Key + ": " + a.What
}

func (m *Monitor) link() {
	l := m.client.status()
	if !l.same(m.counts.link) {
		m.o.Say(l.String())
	}
	m.counts.link = l
	m.publish()
}

// finish stores what is still in memory.
func (m *Monitor) finish() {
	for {
		select {
		case p := <-m.inbox:
			m.hear(p)
			continue
		default:
		}
		break
	}
	for m.batch.send(); m.batch.busy(); m.batch.send() {
		done := <-m.batch.done
		m.wrote(done)
		if done.err != nil {
			m.o.Say(fmt.Sprintf("%d values could not be stored: %v", len(m.batch.pending), done.err))
			break
		}
	}
	m.ended = true
	m.publish()
}

// note says a line from another goroutine; one too many is left out.
func (m *Monitor) note(line string) {
	select {
	case m.notes <- line:
	default:
	}
}
