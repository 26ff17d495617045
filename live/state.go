package live

import (
	"time"

	q "ampstead/quantity"
	"ampstead/rig"
)

// State is what a monitor knows at one moment.
type State struct {
	At        time.Time `json:"at"`
	Connected bool      `json:"connected"`
	Broker    string    `json:"broker"`
	Trouble   string    `json:"trouble,omitempty"` // why it is not connected
	Values    []Value   `json:"values"`
	Alarms    []Alarm   `json:"alarms"` // that stand
	Recent    []Alarm   `json:"recent"` // changes since the start, newest first
	Messages  int       `json:"messages"`
	Wrong     int       `json:"not_understood"`
	LastWrong string    `json:"last_not_understood,omitempty"`
	Stored    int       `json:"stored"`
	Lost      int       `json:"lost"`
	Ended     bool      `json:"ended"`
	Warning   string    `json:"warning"`
}

// Value is the latest of a series, in SI.
type Value struct {
	Series string       `json:"series"`
	Title  string       `json:"title"`
	Value  float64      `json:"value"`
	At     time.Time    `json:"at"`
	Stale  bool         `json:"stale"` // its source has gone silent
	Dim    *q.Dimension `json:"-"`
}

// counts are what a monitor adds up.
type counts struct {
	Messages, Wrong, Stored, Lost int
	LastWrong                     string
	link                          link
}

// State is the latest state, and a channel that is closed when there is a newer.
func (m *Monitor) State() (State, <-chan struct{}) {
	m.mu.Lock()
	defer m.mu.Unlock()
	return m.state, m.changed
}

// publish makes what the loop knows the latest state. States are never changed
// once out.
func (m *Monitor) publish() {
	now := m.o.Now()
	c := m.counts
	next := State{At: now, Connected: c.link.up, Broker: m.client.address, Trouble: c.link.trouble, Values: m.watch.values(now),
		Alarms: m.watch.raised(), Recent: append([]Alarm(nil), m.recent...), Messages: c.Messages, Wrong: c.Wrong, LastWrong: c.LastWrong,
		Stored: c.Stored, Lost: c.Lost, Ended: m.ended, Warning: Warning}
	m.mu.Lock()
	defer m.mu.Unlock()
	m.state = next
	close(m.changed)
	m.changed = make(chan struct{})
}

// values lists what was heard: the whole bank first, then groups, then sensors.
func (w *watch) values(at time.Time) []Value {
	var list []Value
	add := func(gives string, number int, h *heard) {
		if h.at.IsZero() {
			return
		}
		series := seriesOf(gives, number)
		title, dim, _ := Describe(series)
		list = append(list, Value{series, title, h.v, h.at, !w.fresh(h, at), dim})
	}
	for i, gives := range [...]string{bankAt: rig.GivesBankVoltage, currentAt: rig.GivesCurrent, socAt: rig.GivesSoC, counterAt: rig.GivesCounter} {
		add(gives, 0, &w.single[i])
	}
	for k := range w.groups {
		add(rig.GivesGroupVoltage, k+1, &w.groups[k])
	}
	for k := range w.temps {
		add(rig.GivesTemperature, k+1, &w.temps[k])
	}
	return list
}
