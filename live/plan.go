package live

import (
	"errors"
	"fmt"
	"math"
	"strconv"
	"strings"
	"time"

	"ampstead/rig"
)

// Silence and delay where the rig file gives none; ours.
const (
	defaultSilent = 5 * time.Minute
	defaultDelay  = 10 * time.Second
)

// mostPayload bounds a message, bytes.
const mostPayload = 64 << 10

// mostSensors bounds the temperature sensors.
const mostSensors = 64

// plan is how messages become values.
type plan struct {
	sources []source
	groups  int // in series
}

// source is one item of the rig's topics.
type source struct {
	topic       rig.LiveTopic
	levels      []string
	steps       []string // of the path; nil is none
	times, plus float64
	first       int
	silent      time.Duration
	low, high   float64 // a value outside cannot be
}

// value is what a message said, in SI.
type value struct {
	source int
	gives  string
	number int // of the group or sensor; 0 where there is one only
	v      float64
}

// Plausible ranges in SI; ours. Outside is a sensor's code for "no reading" or a
// wrong unit.
var plausible = map[string][2]float64{
	rig.GivesBankVoltage:  {-1, 1500},
	rig.GivesGroupVoltage: {-1, 6},
	rig.GivesCurrent:      {-5000, 5000},
	rig.GivesTemperature:  {-60, 150},
	rig.GivesCounter:      {-1e5, 1e5},
	rig.GivesSoC:          {-0.2, 1.5},
}

func newPlan(r *rig.Rig) (*plan, error) {
	p := &plan{groups: r.Bank.Series}
	for i := range r.Live.Topics {
		t := r.Live.Topics[i]
		times, plus, err := t.ToSI()
		if err != nil {
			return nil, fmt.Errorf("topic %s: %w", t.Topic, err)
		}
		s := source{topic: t, levels: strings.Split(t.Topic, "/"), steps: pathSteps(t.Path), times: times, plus: plus,
			first: 1, silent: seconds(defaultSilent, r.Live.Silent, t.Silent), low: plausible[t.Gives][0], high: plausible[t.Gives][1]}
		if t.First != nil {
			s.first = *t.First
		}
		p.sources = append(p.sources, s)
	}
	return p, nil
}

// read turns one message into values. wrong says what of it could not be read.
func (p *plan) read(topic string, payload []byte) (values []value, wrong []error) {
	m := message{topic: topic, payload: payload}
	for i := range p.sources {
		s := &p.sources[i]
		marks, ok := match(s.levels, topic)
		if !ok {
			continue
		}
		found, err := m.find(s.steps)
		if err == nil {
			values, err = s.add(values, i, p.groups, marks, found)
		}
		if err != nil {
			wrong = append(wrong, fmt.Errorf("%s, for the %s: %w", clip(topic), s.topic.Gives, err))
		}
	}
	return values, wrong
}

func (s *source) add(values []value, index, groups int, marks []string, found []item) ([]value, error) {
	var failed error
	for _, it := range found {
		number := 0
		v, there, err := it.number()
		if err == nil && there && s.topic.Numbered() {
			number, err = s.numberOf(it, marks, groups)
		}
		if err == nil && there {
			v = math.Round((v*s.times+s.plus)*1e9) / 1e9 // 3800 mV is 3.8 V, not a digit more
			if !(v >= s.low && v <= s.high) {
				err = fmt.Errorf("%.6g %s cannot be", v, s.topic.Dimension().Base)
			}
		}
		switch {
		case err != nil:
			failed = err
		case there:
			values = append(values, value{index, s.topic.Gives, number, v})
		}
	}
	return values, failed
}

// numberOf tells which group or sensor: as the file says, by the place in a list,
// by the key in the message, or by what stands for a wildcard of the topic.
func (s *source) numberOf(it item, marks []string, groups int) (int, error) {
	n, ok := s.topic.Number, true
	switch {
	case n != 0:
	case it.index > 0:
		n = it.index
	default:
		n, ok = s.counted(append(marks[:len(marks):len(marks)], it.key))
	}
	most := groups
	if s.topic.Gives == rig.GivesTemperature {
		most = mostSensors
		if !ok {
			n, ok = 1, true // one sensor needs no number
		}
	}
	switch {
	case !ok:
		return 0, errors.New("it does not tell which group")
	case n < 1 || n > most:
		return 0, fmt.Errorf("number %d is not among 1 to %d", n, most)
	}
	return n, nil
}

// counted reads the number at the end of the last name that has one.
func (s *source) counted(names []string) (int, bool) {
	for i := len(names) - 1; i >= 0; i-- {
		name := names[i]
		digits := name[len(strings.TrimRight(name, "0123456789")):]
		if n, err := strconv.Atoi(digits); err == nil && n < math.MaxInt32 {
			return n - s.first + 1, true
		}
	}
	return 0, false
}

// match reports whether a topic fits a filter (MQTT 5.0, 4.7), and what stands for
// its wildcards.
func match(filter []string, topic string) (marks []string, ok bool) {
	if strings.HasPrefix(topic, "$") && (filter[0] == "+" || filter[0] == "#") {
		return nil, false
	}
	rest, more := topic, true
	for _, level := range filter {
		if level == "#" {
			if more {
				marks = append(marks, strings.Split(rest, "/")...)
			}
			return marks, true
		}
		if !more {
			return nil, false
		}
		var here string
		here, rest, more = strings.Cut(rest, "/")
		switch level {
		case "+":
			marks = append(marks, here)
		case here:
		default:
			return nil, false
		}
	}
	return marks, !more
}

// clip shortens what strangers wrote for a message to a person.
func clip(text string) string {
	const most = 60
	clean := strings.Map(func(r rune) rune {
		if r < ' ' || r == 0x7f || r == '\uFFFD' {
			return '?'
		}
		return r
	}, strings.ToValidUTF8(text, "?"))
	if list := []rune(clean); len(list) > most {
		return string(list[:most]) + "…"
	}
	return clean
}
