package live

import (
	"errors"
	"strings"
	"testing"
	"time"

	"ampstead/examples"
	"ampstead/fit"
	q "ampstead/quantity"
	"ampstead/rig"
)

var morning = time.Date(2026, 12, 3, 8, 0, 0, 0, time.UTC)

// story is a watch told one thing after another.
type story struct {
	*watch
	t   *testing.T
	now time.Time
}

func begin(t *testing.T, topics ...rig.LiveTopic) *story {
	l := limits{groups: 3, high: 4.13, low: 3.2, spread: 0.1, hot: 45, frost: 0, chargeA: 0.5, basis: "the cell meter's alarm"}
	return &story{newWatch(planOf(t, 3, topics...), l, 10*time.Second, q.Metric, morning), t, morning}
}

// after lets time pass in ticks of a second, then expects these changes.
func (s *story) after(seconds int, want ...string) {
	s.t.Helper()
	var got []string
	for range seconds {
		s.now = s.now.Add(time.Second)
		for _, a := range s.tick(s.now) {
			got = append(got, a.line())
		}
	}
	s.expect(got, want)
}

func (s *story) hear(topic, payload string, want ...string) {
	s.t.Helper()
	values, wrong := s.plan.read(topic, []byte(payload))
	if len(wrong) > 0 {
		s.t.Errorf("%v", wrong)
	}
	var got []string
	for _, a := range s.take(s.now, values) {
		got = append(got, a.line())
	}
	s.expect(got, want)
}

func (s *story) expect(got, want []string) {
	s.t.Helper()
	if a, b := strings.Join(got, "\n"), strings.Join(want, "\n"); a != b {
		s.t.Errorf("at %s:\ngot  %s\nwant %s", s.now.Format(time.TimeOnly), a, b)
	}
}

var (
	cellsTopic = rig.LiveTopic{Topic: "cells", Gives: rig.GivesGroupVoltage}
	bankTopic  = rig.LiveTopic{Topic: "bank", Gives: rig.GivesBankVoltage}
	ampsTopic  = rig.LiveTopic{Topic: "amps", Gives: rig.GivesCurrent}
	boxTopic   = rig.LiveTopic{Topic: "box/+", Gives: rig.GivesTemperature}
)

func TestGroupAlarms(t *testing.T) {
	s := begin(t, cellsTopic)
	s.hear("cells", "[4.10,4.15,4.10]")
	s.after(5)
	s.hear("cells", "[4.10,4.12,4.10]") // back inside: the delay starts anew
	s.after(1)
	s.hear("cells", "[4.10,4.14,4.10]")
	s.after(9)
	s.after(1, "ALARM group high: group 2 at 4.140 V, high limit 4.130 V (the cell meter's alarm)")
	s.hear("cells", "[4.10,4.12,4.10]") // inside, not yet far enough
	s.after(30)
	s.hear("cells", "[4.10,4.10,4.10]")
	s.after(10, "cleared group high: group 1 at 4.100 V, high limit 4.130 V (the cell meter's alarm)")
	s.hear("cells", "[3.10,3.15,3.3]")
	s.after(10, "ALARM group low: group 1 at 3.100 V, low limit 3.200 V (the cell meter's alarm)", "ALARM spread: group 3 stands 200 mV above group 1, spread limit 100 mV")
	s.hear("cells", "[3.30,3.30,3.39]")
	s.after(10, "cleared group low: group 1 at 3.300 V, low limit 3.200 V (the cell meter's alarm)")
	s.hear("cells", "[3.30,3.30,3.37]")
	s.after(10, "cleared spread: group 3 stands 70 mV above group 1, spread limit 100 mV")
}

// A message raises an alarm when its time has come; no tick is needed.
func TestMessageRaises(t *testing.T) {
	s := begin(t, cellsTopic)
	s.hear("cells", "[4.2,4.2,4.2]")
	s.now = s.now.Add(10 * time.Second)
	s.hear("cells", "[4.2,4.2,4.2]", "ALARM group high: group 1 at 4.200 V, high limit 4.130 V (the cell meter's alarm)")
	if got := s.raised(); len(got) != 1 || got[0].At != s.now {
		t.Errorf("%+v", got)
	}
	if r := s.record(s.raised()[0]); r.Series != "alarm_group_high" || r.Value != 1 {
		t.Errorf("%+v", r)
	}
}

func TestBankAlarms(t *testing.T) {
	s := begin(t, bankTopic)
	s.hear("bank", "12.5")
	s.after(10, "ALARM bank high: bank at 12.50 V, high limit 12.39 V (3 groups, the cell meter's alarm)")
	s.hear("bank", "9.5")
	s.after(10, "cleared bank high: bank at 9.50 V, high limit 12.39 V (3 groups, the cell meter's alarm)",
		"ALARM bank low: bank at 9.50 V, low limit 9.60 V (3 groups, the cell meter's alarm)")
}

func TestWarmthAlarms(t *testing.T) {
	s := begin(t, boxTopic, ampsTopic)
	s.hear("box/1", "-4")
	s.hear("box/2", "46")
	s.after(10, "ALARM hot: sensor 2 at 46.0 °C, limit 45.0 °C") // cold, but no current is known
	s.hear("amps", "-20")
	s.after(10) // cold, but discharging
	s.hear("amps", "8")
	s.after(10, "ALARM frost: sensor 1 at -4.0 °C at a current of 8.0 A, no charging below 0.0 °C")
	s.hear("amps", "0.1")
	s.after(10, "cleared frost: sensor 1 at -4.0 °C at a current of 0.1 A, no charging below 0.0 °C")
	s.hear("box/2", "44")
	s.after(20)
	s.hear("box/2", "42")
	s.after(10, "cleared hot: sensor 2 at 42.0 °C, limit 45.0 °C")
}

// A dead source is an alarm, and what it last said neither raises nor clears
// anything more.
func TestSilence(t *testing.T) {
	minute := q.Duration(60)
	quiet := cellsTopic
	quiet.Silent = &minute
	s := begin(t, quiet, boxTopic)
	s.after(59)
	s.after(1, "ALARM silent group voltage cells: no group voltage from cells for 60 s")
	s.hear("cells", "[4.2,4.2,null]")
	s.after(1)
	if len(s.raised()) != 1 {
		t.Errorf("%+v", s.raised())
	}
	s.hear("cells", "[4.2,4.2,4.2]")
	s.after(1, "cleared silent group voltage cells: cells speaks again")
	s.after(9, "ALARM group high: group 1 at 4.200 V, high limit 4.130 V (the cell meter's alarm)")
	s.after(100, "ALARM silent group voltage cells: no group voltage from cells for 60 s")
	s.after(300-60-111, "ALARM silent temperature box/+: nothing from box/+ for 5 min")
	if len(s.raised()) != 3 {
		t.Errorf("an alarm cleared by silence: %+v", s.raised())
	}
}

// One group of many going silent is seen, and so is one that is never heard.
func TestOneGroupSilent(t *testing.T) {
	s := begin(t, rig.LiveTopic{Topic: "c/+", Gives: rig.GivesGroupVoltage})
	s.hear("c/1", "3.7")
	s.hear("c/2", "3.7")
	s.after(200)
	s.hear("c/1", "3.7")
	s.after(99)
	s.after(1, "ALARM silent group voltage c/+: no group 2, group 3 from c/+ for 5 min")
}

func TestTopicsThatShareTheGroups(t *testing.T) {
	one, two := cellsTopic, cellsTopic
	one.Topic, two.Topic = "front/+", "rear/+"
	s := begin(t, one, two)
	s.hear("front/1", "3.7")
	s.hear("rear/2", "3.7")
	s.after(200)
	s.hear("front/1", "3.7")
	s.after(100, "ALARM silent group voltage rear/+: no group 2 from rear/+ for 5 min")
}

func TestLogbookAlarm(t *testing.T) {
	s := begin(t, bankTopic)
	full := errors.New("no space left")
	say := func(list []Alarm) string {
		if len(list) == 0 {
			return ""
		}
		return list[0].line()
	}
	for _, c := range []struct {
		after int
		err   error
		want  string
	}{{0, full, ""}, {5, nil, ""}, {1, full, ""}, {10, full, "ALARM logbook: the logbook cannot be written: no space left"}, {1, nil, ""}, {10, nil, "cleared logbook: the logbook is written again"}} {
		s.now = s.now.Add(time.Duration(c.after) * time.Second)
		if got := say(s.wrote(s.now, c.err)); got != c.want {
			t.Errorf("%q, want %q", got, c.want)
		}
	}
}

// The limits are the meter's as it is set, and as fit would set it where it is not.
func TestLimits(t *testing.T) {
	r, fitted := curlew(t)
	l := limitsOf(r, fitted)
	m := r.Protection.Meters[0]
	if l.high != float64(m.AlarmHigh.Value) || l.low != float64(m.AlarmLow.Value) || l.groups != 12 || l.frost != fitted.Kind.ChargeMinC.Value {
		t.Errorf("%+v", l)
	}
	r.Protection.Meters[0].AlarmHigh = rig.Setting[q.Voltage]{}
	if got := limitsOf(r, fitted).high; !(got > 4 && got < fitted.Window.CellHighV) {
		t.Errorf("recommended alarm %v", got)
	}
	r.Protection.Meters = nil
	if l = limitsOf(r, fitted); l.high != fitted.Window.CellHighV || l.low != fitted.Window.CellLowV || l.basis != "the safe window" {
		t.Errorf("%+v", l)
	}
}

func curlew(t testing.TB) (*rig.Rig, *fit.Result) {
	t.Helper()
	text, err := examples.Read("curlew")
	if err != nil {
		t.Fatal(err)
	}
	f, err := rig.Parse("rig.yaml", text)
	if err != nil {
		t.Fatal(err)
	}
	fitted, err := fit.Run(f.Rig)
	if err != nil {
		t.Fatal(err)
	}
	return f.Rig, fitted
}
