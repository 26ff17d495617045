package live

import (
	"fmt"
	"strings"
	"time"

	q "ampstead/quantity"
	"ampstead/rig"
	"ampstead/store"
)

// How far back inside its limit a value must come before an alarm clears; ours,
// about what a group moves when its current stops.
const (
	backV      = 0.02 // V of a group
	backSpread = 0.2  // of the limit
	backK      = 2.0  // °C
)

// watch holds the latest values and every alarm. It is pure: times come with what
// it is told.
type watch struct {
	limits limits
	plan   *plan
	delay  time.Duration
	units  q.System
	begun  time.Time

	single [4]heard // what there is one of
	groups []heard
	temps  []heard             // as many as the highest number heard
	seen   []map[int]time.Time // by source and number: when it was last heard
	limit  []*latch            // by rule
	silent []*latch            // by source
	disk   *latch
}

// heard is the latest value of a series.
type heard struct {
	v      float64
	at     time.Time
	source int
}

// Places in watch.single.
const (
	bankAt = iota
	currentAt
	socAt
	counterAt
)

func newWatch(p *plan, l limits, delay time.Duration, units q.System, begun time.Time) *watch {
	w := &watch{limits: l, plan: p, delay: delay, units: units, begun: begun, groups: make([]heard, p.groups),
		seen: make([]map[int]time.Time, len(p.sources)), disk: &latch{key: "logbook", series: "alarm_logbook"}}
	for _, r := range rules {
		w.limit = append(w.limit, &latch{key: r.key, series: "alarm_" + strings.ReplaceAll(r.key, " ", "_")})
	}
	for i, s := range p.sources {
		w.seen[i] = map[int]time.Time{}
		w.silent = append(w.silent, &latch{key: "silent " + s.topic.Gives + " " + s.topic.Topic, series: fmt.Sprintf("alarm_silent_%d", i+1)})
	}
	w.expect()
	return w
}

// expect enters what must come, so that it is missed when it never does. How many
// sensors of temperature there are, only their messages tell; and where several
// topics give groups, which gives which.
func (w *watch) expect() {
	givers := 0
	for _, s := range w.plan.sources {
		if s.topic.Gives == rig.GivesGroupVoltage {
			givers++
		}
	}
	for i, s := range w.plan.sources {
		switch {
		case !s.topic.Numbered() || s.topic.Number > 0:
			w.seen[i][s.topic.Number] = w.begun
		case s.topic.Gives == rig.GivesGroupVoltage && givers == 1:
			for n := range w.plan.groups {
				w.seen[i][n+1] = w.begun
			}
		}
	}
}

// take takes the values of one message and returns the alarms that changed.
func (w *watch) take(at time.Time, values []value) []Alarm {
	for _, v := range values {
		*w.slot(v.gives, v.number) = heard{v.v, at, v.source}
		w.seen[v.source][v.number] = at
	}
	if len(values) == 0 {
		return nil
	}
	return w.judge(at)
}

func (w *watch) slot(gives string, number int) *heard {
	switch gives {
	case rig.GivesGroupVoltage:
		return &w.groups[number-1]
	case rig.GivesTemperature:
		for len(w.temps) < number {
			w.temps = append(w.temps, heard{})
		}
		return &w.temps[number-1]
	case rig.GivesCurrent:
		return &w.single[currentAt]
	case rig.GivesSoC:
		return &w.single[socAt]
	case rig.GivesCounter:
		return &w.single[counterAt]
	}
	return &w.single[bankAt]
}

func (w *watch) judge(at time.Time) (changed []Alarm) {
	for i, r := range rules {
		if v, say := r.look(w, at); w.limit[i].judge(at, v, say, w.delay) {
			changed = append(changed, w.limit[i].alarm())
		}
	}
	return changed
}

// tick judges what time alone changes.
func (w *watch) tick(at time.Time) []Alarm {
	changed := w.judge(at)
	for i, l := range w.silent {
		if v, say := w.silence(i, at); l.judge(at, v, say, 0) {
			changed = append(changed, l.alarm())
		}
	}
	return changed
}

// silence looks for what a source has not told for too long.
func (w *watch) silence(source int, at time.Time) (verdict, func() string) {
	s := &w.plan.sources[source]
	topic := clip(s.topic.Topic)
	for _, last := range w.seen[source] {
		if at.Sub(last) >= s.silent {
			return beyond, func() string { return "no " + w.missing(source, at) + " from " + topic + " for " + duration(s.silent) }
		}
	}
	if len(w.seen[source]) == 0 && at.Sub(w.begun) >= s.silent {
		return beyond, func() string { return "nothing from " + topic + " for " + duration(s.silent) }
	}
	return within, func() string { return topic + " speaks again" }
}

func (w *watch) missing(source int, at time.Time) string {
	s := &w.plan.sources[source]
	var names []string
	for n := range max(len(w.groups), mostSensors) + 1 {
		if last, ok := w.seen[source][n]; ok && at.Sub(last) >= s.silent {
			title, _, _ := Describe(seriesOf(s.topic.Gives, n))
			names = append(names, title)
		}
	}
	if len(names) > 1 && len(names) == len(w.seen[source]) {
		return s.topic.Gives // all of them
	}
	return strings.Join(names, ", ")
}

func duration(d time.Duration) string { return q.Seconds.Text(d.Seconds(), q.Metric) }

// wrote notes whether the logbook takes what it is given.
func (w *watch) wrote(at time.Time, err error) []Alarm {
	v, say := within, func() string { return "the logbook is written again" }
	if err != nil {
		v, say = beyond, func() string { return "the logbook cannot be written: " + err.Error() }
	}
	if w.disk.judge(at, v, say, w.delay) {
		return []Alarm{w.disk.alarm()}
	}
	return nil
}

// record is an alarm's change as the logbook keeps it: 1 raised, 0 cleared.
func (w *watch) record(a Alarm) store.Sample {
	s := store.Sample{At: a.At}
	if a.Raised {
		s.Value = 1
	}
	for _, l := range w.latches() {
		if l.key == a.Key {
			s.Series = l.series
		}
	}
	return s
}

// latches lists all alarms, those of limits first.
func (w *watch) latches() []*latch {
	list := append([]*latch{}, w.limit...)
	return append(append(list, w.silent...), w.disk)
}

// raised lists the alarms that stand.
func (w *watch) raised() (list []Alarm) {
	for _, l := range w.latches() {
		if l.up {
			list = append(list, l.alarm())
		}
	}
	return list
}
