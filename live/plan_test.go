package live

import (
	"fmt"
	"slices"
	"strings"
	"testing"

	"ampstead/rig"
)

func planOf(t testing.TB, groups int, topics ...rig.LiveTopic) *plan {
	t.Helper()
	p, err := newPlan(&rig.Rig{Bank: rig.Bank{Series: groups}, Live: &rig.Live{Topics: topics}})
	if err != nil {
		t.Fatal(err)
	}
	return p
}

// told writes values as the tests name them.
func told(values []value) string {
	var list []string
	for _, v := range values {
		list = append(list, fmt.Sprintf("%s=%.6g", seriesOf(v.gives, v.number), v.v))
	}
	slices.Sort(list)
	return strings.Join(list, " ")
}

func TestMessagesBecomeValues(t *testing.T) {
	zero := 0
	bank := rig.LiveTopic{Topic: "house/bank", Gives: rig.GivesBankVoltage}
	cells := rig.LiveTopic{Topic: "bms/cell/+/voltage", Gives: rig.GivesGroupVoltage, Unit: "mV"}
	in := func(t rig.LiveTopic, path string) rig.LiveTopic { t.Path = path; return t }
	group := func(topic, path string) rig.LiveTopic {
		return rig.LiveTopic{Topic: topic, Gives: rig.GivesGroupVoltage, Path: path}
	}
	for _, c := range []struct {
		name           string
		topic          rig.LiveTopic
		at, payload    string
		want, complain string
	}{
		{"a plain number", bank, "house/bank", " 44.12\n", "bank_v=44.12", ""},
		{"a number in quotes", bank, "house/bank", `"44.12"`, "bank_v=44.12", ""},
		{"another topic", bank, "house/bank/x", "44.12", "", ""},
		{"words", bank, "house/bank", "offline", "", `"offline" is neither a number nor JSON`},
		{"nothing", bank, "house/bank", "", "", `"" is neither a number nor JSON`},
		{"not a number", bank, "house/bank", "NaN", "", "NaN V cannot be"},
		{"endless", bank, "house/bank", "-inf", "", "-Inf V cannot be"},
		{"null is no value and no mistake", bank, "house/bank", "null", "", ""},
		{"an object without a path", bank, "house/bank", `{"v":44}`, "", "it has keys of its own; path must say which"},
		{"true", bank, "house/bank", `true`, "", "true is no number"},
		{"broken JSON", in(bank, "v"), "house/bank", `{"v":44`, "", "is neither a number nor JSON"},
		{"a path", in(bank, "dc.v"), "house/bank", `{"dc":{"v":44.5,"i":3}}`, "bank_v=44.5", ""},
		{"a path to nothing", in(bank, "dc.u"), "house/bank", `{"dc":{"v":44.5}}`, "", "there is nothing at its path"},
		{"a pointer", in(bank, "/dc/a~1b/1"), "house/bank", `{"dc":{"a/b":[1,44.5]}}`, "bank_v=44.5", ""},
		{"groups by topic", cells, "bms/cell/7/voltage", "3712", "group_7_v=3.712", ""},
		{"groups by a word with a number", cells, "bms/cell/cell07/voltage", "3712", "group_7_v=3.712", ""},
		{"groups from zero", rig.LiveTopic{Topic: "c/+", Gives: rig.GivesGroupVoltage, First: &zero}, "c/0", "3.7", "group_1_v=3.7", ""},
		{"groups behind a hash", group("bms/#", ""), "bms/3", "3.7", "group_3_v=3.7", ""},
		{"no such group", cells, "bms/cell/13/voltage", "3712", "", "number 13 is not among 1 to 12"},
		{"huge number", cells, "bms/cell/99999999999999999999/voltage", "3712", "", "it does not tell which group"},
		{"which group", cells, "bms/cell/sum/voltage", "3712", "", "it does not tell which group"},
		{"a list", group("cells", ""), "cells", "[3.71, null, 3.73]", "group_1_v=3.71 group_3_v=3.73", ""},
		{"a list in an object", group("cells", "v"), "cells", `{"v":[3.71,"3.72"]}`, "group_1_v=3.71 group_2_v=3.72", ""},
		{"objects in a list", group("cells", "*.v"), "cells", `[{"v":3.71},{"v":3.72}]`, "group_1_v=3.71 group_2_v=3.72", ""},
		{"keys with numbers", group("cells", "u.*"), "cells", `{"u":{"c01":3.71,"c12":3.72}}`, "group_12_v=3.72 group_1_v=3.71", ""},
		{"one bad among good", group("cells", ""), "cells", "[3.71, 65.535]", "group_1_v=3.71", "65.535 V cannot be"},
		{"too long a list", group("cells", ""), "cells", "[1,1,1,1,1,1,1,1,1,1,1,1,1]", "group_10_v=1 group_11_v=1 group_12_v=1 group_1_v=1 group_2_v=1 group_3_v=1 group_4_v=1 group_5_v=1 group_6_v=1 group_7_v=1 group_8_v=1 group_9_v=1", "number 13"},
		{"one sensor", rig.LiveTopic{Topic: "box/t", Gives: rig.GivesTemperature, Unit: "°F"}, "box/t", "41", "temperature_1_c=5", ""},
		{"sensors by topic", rig.LiveTopic{Topic: "box/+/t", Gives: rig.GivesTemperature}, "box/2/t", "-3.5", "temperature_2_c=-3.5", ""},
		{"current the other way", rig.LiveTopic{Topic: "i", Gives: rig.GivesCurrent, Sign: "discharge"}, "i", "12", "current_a=-12", ""},
		{"counter", rig.LiveTopic{Topic: "ah", Gives: rig.GivesCounter}, "ah", "-12.5", "counter_ah=-12.5", ""},
		{"state of charge", rig.LiveTopic{Topic: "s", Gives: rig.GivesSoC}, "s", "87", "soc_fraction=0.87", ""},
		{"a huge message", bank, "house/bank", strings.Repeat(" ", mostPayload) + "44", "", "the message has 65538 bytes"},
	} {
		values, wrong := planOf(t, 12, c.topic).read(c.at, []byte(c.payload))
		if got := told(values); got != c.want {
			t.Errorf("%s: %q, want %q", c.name, got, c.want)
		}
		if got := fmt.Sprint(wrong); c.complain == "" && len(wrong) > 0 || !strings.Contains(got, c.complain) {
			t.Errorf("%s: complains %q, want %q", c.name, got, c.complain)
		}
	}
}

// One message may feed many values, and its JSON is read once.
func TestOneMessageManyValues(t *testing.T) {
	p := planOf(t, 2, rig.LiveTopic{Topic: "bms", Gives: rig.GivesBankVoltage, Path: "pack.v"}, rig.LiveTopic{Topic: "bms", Gives: rig.GivesCurrent, Path: "pack.i"},
		rig.LiveTopic{Topic: "+", Gives: rig.GivesGroupVoltage, Path: "cells"}, rig.LiveTopic{Topic: "bms", Gives: rig.GivesTemperature, Path: "t"})
	values, wrong := p.read("bms", []byte(`{"pack":{"v":7.4,"i":-2},"cells":[3.7,3.7]}`))
	if got := told(values); got != "bank_v=7.4 current_a=-2 group_1_v=3.7 group_2_v=3.7" || len(wrong) != 1 {
		t.Errorf("%s, %v", got, wrong)
	}
}

// The examples of the standard, MQTT 5.0 section 4.7.1 and 4.7.2.
func TestTopicFilters(t *testing.T) {
	for _, c := range []struct {
		filter, topic string
		marks         string
		ok            bool
	}{
		{"sport/tennis/player1/#", "sport/tennis/player1", "", true},
		{"sport/tennis/player1/#", "sport/tennis/player1/ranking", "ranking", true},
		{"sport/tennis/player1/#", "sport/tennis/player1/score/wimbledon", "score wimbledon", true},
		{"sport/#", "sport", "", true},
		{"#", "a/b", "a b", true},
		{"sport/tennis/+", "sport/tennis/player1", "player1", true},
		{"sport/tennis/+", "sport/tennis/player1/ranking", "", false},
		{"sport/+", "sport", "", false},
		{"sport/+", "sport/", "", true},
		{"+/+", "/finance", " finance", true},
		{"/+", "/finance", "finance", true},
		{"+", "/finance", "", false},
		{"#", "$SYS/x", "", false},
		{"+/monitor/Clients", "$SYS/monitor/Clients", "", false},
		{"$SYS/#", "$SYS/x", "x", true},
		{"a/b", "a/b/c", "", false},
		{"a/b/c", "a/b", "", false},
		{"a", "A", "", false},
	} {
		marks, ok := match(strings.Split(c.filter, "/"), c.topic)
		if ok != c.ok || ok && strings.Join(marks, " ") != c.marks {
			t.Errorf("%s on %s: %v %q", c.filter, c.topic, ok, marks)
		}
	}
}

func TestDescribe(t *testing.T) {
	for series, want := range map[string]string{"bank_v": "bank", "current_a": "current", "group_12_v": "group 12", "temperature_1_c": "sensor 1", "soc_fraction": "state of charge",
		"group_0_v": "", "group_01_v": "", "group_1_c": "", "alarm_group_high": "", "": ""} {
		if title, dim, ok := Describe(series); title != want || ok != (want != "") || ok && dim == nil {
			t.Errorf("%s: %q", series, title)
		}
	}
}

// FuzzMessage: whatever comes, values are numbers that can be, of series there are.
func FuzzMessage(f *testing.F) {
	for _, s := range []string{"3.7", "[3.7,3.8]", `{"cells":[{"v":3.7}]}`, `{"cells":{"c1":{"v":"3.7"}}}`, "{", "1e999", "\xff"} {
		f.Add("bms/cell/1/voltage", []byte(s), "cells.*.v")
	}
	f.Fuzz(func(t *testing.T, topic string, payload []byte, path string) {
		p := planOf(t, 4, rig.LiveTopic{Topic: "bms/#", Gives: rig.GivesGroupVoltage, Path: path}, rig.LiveTopic{Topic: "bms/+/+/voltage", Gives: rig.GivesTemperature},
			rig.LiveTopic{Topic: "+/cell/#", Gives: rig.GivesCurrent, Path: path})
		values, wrong := p.read(topic, payload)
		for _, v := range values {
			r := plausible[v.gives]
			title, _, ok := Describe(seriesOf(v.gives, v.number))
			if !(v.v >= r[0] && v.v <= r[1]) || !ok {
				t.Errorf("%s = %v", title, v.v)
			}
		}
		for _, err := range wrong {
			if len(err.Error()) > 1000 {
				t.Errorf("a long complaint: %v", err)
			}
		}
	})
}
