package engine

import "ampstead/device"

// Event is a device that changed what it does, with what was true as it did: of a
// contactor that opens, BankA is the current it broke.
type Event struct {
	Time                            float64 // s since the run began
	Part                            int     // index into Names
	Was, State                      device.State
	Alarm                           device.Alarm
	BankV, BusV, BankA, LowV, HighV float64
}

// Log keeps the latest events in a ring of fixed size.
type Log struct {
	ring  []Event
	total int
}

// NewLog makes a log for the latest n events.
func NewLog(n int) *Log { return &Log{ring: make([]Event, max(1, n))} }

func (l *Log) add(e Event) {
	l.ring[l.total%len(l.ring)] = e
	l.total++
}

// Len returns how many events are kept.
func (l *Log) Len() int { return min(l.total, len(l.ring)) }

// Lost returns how many older events were overwritten.
func (l *Log) Lost() int { return l.total - l.Len() }

// At returns a kept event, 0 the oldest.
func (l *Log) At(i int) Event { return l.ring[(l.Lost()+i)%len(l.ring)] }

// Clear forgets all events.
func (l *Log) Clear() { l.total = 0 }

// Sample is one line of a trace.
type Sample struct {
	Time, BankV, BusV, BankA float64
	LowV, HighV              float64 // of a group
	ColdC, HotC              float64
	LowSoC, HighSoC          float64
}

// Trace takes samples into the caller's buffer until it is full.
type Trace struct {
	Samples []Sample // its capacity is the buffer; New never grows it
	EveryS  float64  // between samples; 0 samples every step
	Missed  int      // samples that found the buffer full
	next    float64
}

func (t *Trace) record(e *Engine) {
	s := &e.sense
	if s.Time < t.next-1e-6 {
		return
	}
	t.next = s.Time + t.EveryS
	if len(t.Samples) == cap(t.Samples) {
		t.Missed++
		return
	}
	low, high := extent(e.Bank.SoCs())
	t.Samples = append(t.Samples, Sample{
		Time: s.Time, BankV: s.BankV, BusV: s.BusV, BankA: s.BankA,
		LowV: s.LowV, HighV: s.HighV, ColdC: s.ColdC, HotC: s.HotC, LowSoC: low, HighSoC: high,
	})
}

func extent(x []float64) (low, high float64) {
	low, high = x[0], x[0]
	for _, v := range x {
		low, high = min(low, v), max(high, v)
	}
	return low, high
}

// Extremes are the worst values of a run and when they were.
type Extremes struct {
	HighV, HighAt float64 // highest group voltage
	LowV, LowAt   float64
	HotC, HotAt   float64
	ColdC, ColdAt float64
	BusV, BusAt   float64 // highest bus voltage
}

func (x *Extremes) begin(s *device.Sense) {
	*x = Extremes{
		HighV: s.HighV, HighAt: s.Time, LowV: s.LowV, LowAt: s.Time,
		HotC: s.HotC, HotAt: s.Time, ColdC: s.ColdC, ColdAt: s.Time, BusV: s.BusV, BusAt: s.Time,
	}
}

func (x *Extremes) note(s *device.Sense) {
	if s.HighV > x.HighV {
		x.HighV, x.HighAt = s.HighV, s.Time
	}
	if s.LowV < x.LowV {
		x.LowV, x.LowAt = s.LowV, s.Time
	}
	if s.HotC > x.HotC {
		x.HotC, x.HotAt = s.HotC, s.Time
	}
	if s.ColdC < x.ColdC {
		x.ColdC, x.ColdAt = s.ColdC, s.Time
	}
	if s.BusV > x.BusV {
		x.BusV, x.BusAt = s.BusV, s.Time
	}
}
