package start

import (
	"strings"
	"testing"

	"ampstead/finding"
	"ampstead/internal/golden"
	"ampstead/quantity"
	"ampstead/rig"
)

func TestFileIsAsExpected(t *testing.T) {
	for name, a := range map[string]Answers{
		"nothing-known.yaml": unknown(),
		"heron.yaml":         heron(),
		"wren.yaml": {"name": "Wren: it's #2", "units": "us", "winter": "desert-southwest", "summer": "same", "coldest": "14 °F", "battery": "iron",
			"groups": "8", "capacity": "2.6 kWh", "charge": "solar", "panels": "400 W", "chargers": "lithium", "inverter": "none", "loads": "lights, laptop, kettle", "guards": "board, pad"},
		"acid.yaml": {"name": "Old van", "winter": "35 S 139 E", "summer": "same", "battery": "lead-sealed", "groups": "12 V", "capacity": "110 Ah", "charge": "none", "loads": "none", "fuse": "100 A"},
	} {
		text, err := Text(a, 2026)
		if err != nil {
			t.Fatal(name, err)
		}
		golden.Check(t, name, text)
	}
}

// The sentence beside "I do not know" stands in the file where the value is.
func TestWhatIsNotKnownStaysVisible(t *testing.T) {
	text, err := Text(unknown(), 2026)
	if err != nil {
		t.Fatal(err)
	}
	for _, q := range Unanswered(unknown()) {
		plain := strings.Join(strings.Fields(strings.ReplaceAll(string(text), "#", " ")), " ")
		if !strings.Contains(plain, MarkUnknown+": "+strings.ToLower(q.Short)+". "+q.Unknown) {
			t.Errorf("%s: %q is not in the file", q.Key, q.Unknown)
		}
	}
}

func TestNothingKnownIsCautious(t *testing.T) {
	out, err := Finish(unknown(), "rig.yaml", 2026)
	if err != nil {
		t.Fatal(err)
	}
	found := map[string]bool{}
	for _, f := range out.Findings {
		if f.Severity == finding.Stop {
			found[f.ID] = true
		}
	}
	for _, id := range []string{"lead-acid-profile", "no-frost-lock", "no-disconnect", "no-main-fuse"} {
		if !found[id] {
			t.Errorf("no stop finding %s", id)
		}
	}
	if l := out.File.Rig.Bank.Limits; l == nil || float64(*l.MaxVoltage) != 3.6 || float64(*l.MinVoltage) != 3 || out.File.Rig.Bank.Cell != "lfp" {
		t.Errorf("limits of an unknown cell: %+v", l)
	}
	if first := out.Next[0]; !strings.HasPrefix(first.Do, "Connect nothing yet") || first.Stage != "fit" {
		t.Errorf("first step: %+v", first)
	}
	if len(out.Open) != len(Questions(unknown())) {
		t.Errorf("%d of %d questions are open", len(out.Open), len(Questions(unknown())))
	}
}

func TestAnswersReachTheRig(t *testing.T) {
	out, err := Finish(heron(), "rig.yaml", 2026)
	if err != nil {
		t.Fatal(err)
	}
	r := out.File.Rig
	b := &r.Bank
	switch {
	case r.About.Name != "Heron" || b.Cell != "nmc532" || b.Series != 12 || b.Strings != 2 || float64(*b.CellCapacity) != 94:
		t.Errorf("bank: %+v", b)
	case !b.Measured.Estimated || !about(float64(*b.Measured.Capacity), 0.8*188):
		t.Errorf("estimate: %v", *b.Measured.Capacity)
	case len(r.Charge) != 3 || r.Charge[0].Settings.Profile != "agm" || r.Charge[0].Settings.Absorption.Given:
		t.Errorf("charge: %+v", r.Charge)
	case len(r.Inverters) != 1 || float64(*r.Inverters[0].Power) != 3000 || len(r.Converters) != 1:
		t.Errorf("supplies: %+v %+v", r.Inverters, r.Converters)
	case len(r.Loads) != 6 || r.Loads[5].Name != "sewing machine" || float64(*r.Loads[5].Hours) != 7200:
		t.Errorf("loads: %+v", r.Loads)
	case r.Protection.Meters[0].Watches != 24 || r.Protection.Relays[0].High.Given || len(r.Protection.Cutouts) != 1:
		t.Errorf("protection: %+v", r.Protection)
	case float64(*r.Protection.Fuses[0].Rating) != 150:
		t.Errorf("fuse: %+v", r.Protection.Fuses)
	case len(r.Route) != 2 || r.Route[0].From.String() != "2026-10-01" || r.Route[1].To.String() != "2027-09-30":
		t.Errorf("route: %+v", r.Route)
	}
	watts := 0.0
	for _, s := range r.Charge[0].Panels {
		watts += float64(s.Series*s.Parallel) * float64(*s.Power)
	}
	if watts != 1320 {
		t.Errorf("%v W on the roof", watts)
	}
}

func about(a, b float64) bool { return a-b < 0.1 && b-a < 0.1 }

func TestSouthernWinterIsInTheMiddleOfTheYear(t *testing.T) {
	a := with(heron(), Answers{"winter": "south-australia", "summer": "NZCH"})
	out, err := Finish(a, "rig.yaml", 2026)
	if err != nil {
		t.Fatal(err)
	}
	r := out.File.Rig.Route
	if r[0].From.String() != "2027-04-01" || r[1].From.String() != "2026-10-01" {
		t.Errorf("winter from %s, summer from %s", r[0].From, r[1].From)
	}
}

func TestQuestionsFollowTheAnswers(t *testing.T) {
	for name, c := range map[string]struct {
		a       Answers
		without []string
	}{
		"nothing charges it": {Answers{"charge": "none"}, []string{"panels", "chargers"}},
		"no sun":             {Answers{"charge": "mains"}, []string{"panels"}},
		"lead-acid":          {Answers{"charge": "solar", "battery": "lead-wet"}, []string{"chargers", "guards"}},
		"all of it":          {heron(), nil},
	} {
		asked := Questions(c.a)
		if len(asked) != len(Keys())-len(c.without) {
			t.Errorf("%s: %d questions", name, len(asked))
		}
		for _, key := range c.without {
			if _, _, ok := Find(asked, key); ok {
				t.Errorf("%s: %s is asked", name, key)
			}
		}
	}
}

// Each question says why it is asked and what not knowing leads to, and its own
// example, choices and offers are answers to it.
func TestQuestionsHaveAllTheyNeed(t *testing.T) {
	for _, a := range []Answers{{}, heron(), {"battery": "lead-wet"}, {"battery": "iron", "units": "us"}} {
		for _, q := range Questions(a) {
			if q.Short == "" || q.Ask == "" || q.Why == "" || q.Unknown == "" || q.Example == "" || q.Sensible == "" {
				t.Errorf("%s: %+v", q.Key, q)
			}
			if len(q.Choices) == 0 && q.Typed == "" {
				t.Errorf("%s cannot be answered", q.Key)
			}
			offers := append(values(q.Choices), q.Sensible)
			if q.Taken != "" {
				offers = append(offers, q.Taken)
			}
			if !strings.Contains(q.Example, " or ") {
				offers = append(offers, q.Example)
			} else {
				offers = append(offers, strings.Split(q.Example, " or ")...)
			}
			for _, text := range offers {
				if _, err := Check(a, q.Key, text); err != nil {
					t.Errorf("%s: %q is no answer: %v", q.Key, text, err)
				}
			}
		}
	}
}

func TestRefusesOneClearError(t *testing.T) {
	for want, c := range map[string]struct{ key, text string }{
		`groups: "12 volts of it" has a unit "volts of it" that is not known here`:                {"groups", "12 volts of it"},
		`groups: 201 groups are out of reach; expected a whole number from 1 to 200; example: 12`: {"groups", "201"},
		`groups: no whole number of cells makes 46 V`:                                             {"groups", "46 V"},
		`groups: 1 in series is only 3.7 V; expected 2 or more`:                                   {"groups", "1"},
		`inverter: 20 kW is 457 A at the 43.8 V of this battery; expected at most 17.52 kW`:       {"inverter", "20 kW"},
		`groups: "44.4" is no whole number and has no unit`:                                       {"groups", "44.4"},
		`capacity: "94" is neither a charge nor an energy`:                                        {"capacity", "94"},
		`capacity: 9000 Ah is out of reach`:                                                       {"capacity", "9000 Ah"},
		`coldest: "cold night" does not start with a number; expected a temperature`:              {"coldest", "cold night"},
		`battery: "lipo" is none of the choices`:                                                  {"battery", "lipo"},
		`charge: "wind" is none of the choices`:                                                   {"charge", "wind"},
		`loads: "press 800" is not understood; expected what it is, its watts`:                    {"loads", "lights, press 800"},
		`winter: no weather station is called "Nowhere-on-Sea"`:                                   {"winter", "Nowhere-on-Sea"},
		`winter: there is no climate for this place`:                                              {"winter", "0 N 140 W"},
		`winter: several places are called "Athens"`:                                              {"winter", "Athens"},
		`modules: "none" is out of reach`:                                                         {"modules", "none"},
		`panels: 99 panels of 330 W are out of reach`:                                             {"panels", "99 x 330 W"},
		`inverter: "strong" does not start with a number`:                                         {"inverter", "strong"},
		`fuse: 1 mA is out of reach`:                                                              {"fuse", "1 mA"},
		`name: there is no answer`:                                                                {"name", "  "},
		`colour: this is not a question`:                                                          {"colour", "red"},
	} {
		_, err := Check(heron(), c.key, c.text)
		if err == nil || !strings.HasPrefix(err.Error(), want) {
			t.Errorf("%s %q: %v", c.key, c.text, err)
		}
	}
	// At the bank's 640 V it would be 31 A; at the 12 V a converter makes of it, it is not.
	_, err := Check(Answers{"battery": "iron", "groups": "200", "inverter": "none"}, "loads", "mill 20 kW 24 h")
	if err == nil || !strings.HasPrefix(err.Error(), "loads: 20 kW is 1667 A at the 12 V it runs on; expected at most 2400 W") {
		t.Error(err)
	}
	for want, a := range map[string]Answers{
		"panels: after the other answers this is not asked": {"charge": "none", "panels": "300 W"},
		"colour: this is not a question":                    {"colour": "red"},
	} {
		if _, err := CheckAll(a); err == nil || !strings.HasPrefix(err.Error(), want) {
			t.Errorf("%v: %v", a, err)
		}
	}
}

func TestSeveralPlacesAreOffered(t *testing.T) {
	_, err := Check(Answers{}, "winter", "Athens")
	p, ok := err.(*Problem)
	if !ok || len(p.Perhaps) < 2 {
		t.Fatalf("%v", err)
	}
	for _, c := range p.Perhaps {
		if got, err := Check(Answers{}, "winter", c.Value); err != nil || got != c.Value && got != c.Label {
			t.Errorf("%s: %s, %v", c.Label, got, err)
		}
	}
}

func TestLabelsCountGroups(t *testing.T) {
	for label, c := range map[string]struct {
		battery string
		want    int
	}{
		"44 V": {"module-flat", 12}, "43.8 V": {"module-flat", 12}, "22.2 V": {"module-flat", 6}, "25.2 V": {"module-round", 7}, "51.8 V": {"module-flat", 14},
		"7.4 V": {"module-flat", 2}, "12.8 V": {"iron", 4}, "24 V": {"iron", 8}, "25.6 V": {"iron", 8}, "51.2 V": {"iron", 16},
		"12 V": {"lead-wet", 6}, "48 V": {"lead-sealed", 24}, "44.4 V": {"?", 12}, "12": {"iron", 12},
	} {
		b := findBattery(c.battery)
		if got, err := b.groups(label); err != nil || got != c.want {
			t.Errorf("%s of %s: %d groups, %v; want %d", label, c.battery, got, err, c.want)
		}
	}
	_, err := findBattery("iron").groups("48 V")
	if p, ok := err.(*Problem); !ok || len(p.Perhaps) != 2 {
		t.Errorf("48 V of iron-phosphate: %v", err)
	}
}

func TestPlacesByPosition(t *testing.T) {
	for text, want := range map[string][2]float64{
		"37.2 °N 7.4 °W": {37.2, -7.4}, "37.2 n, 7.4 w": {37.2, -7.4}, "-35 139": {-35, 139}, "68.4, 17.3": {68.4, 17.3},
	} {
		p, _, err := findPlace(text)
		if err != nil || p.latitude != want[0] || p.longitude != want[1] {
			t.Errorf("%s: %+v, %v", text, p, err)
		}
	}
}

// A string of panels must come above the bank, and all panels must be in it.
func TestPanelsAreLaidOut(t *testing.T) {
	for _, bank := range []float64{14, 29, 58} {
		for count := range 9 {
			a := lay(count, 330, bank)
			if count > 0 && (a.series*a.parallel != count || a.each != 330) {
				t.Errorf("%d panels became %d × %d of %v W", count, a.series, a.parallel, a.each)
			}
			if count == 0 && (a.watts() < 329 || a.watts() > 331 || peakShare*a.open*float64(a.series) < bank) {
				t.Errorf("330 W became %+v below %v V", a, bank)
			}
		}
	}
}

func TestKeepDropsWhatNoLongerApplies(t *testing.T) {
	a := with(heron(), Answers{"battery": "lead-wet", "groups": "43 V", "fuse": "thick"})
	kept := Keep(a)
	for _, key := range []string{"groups", "chargers", "guards", "fuse"} {
		if kept[key] != "" {
			t.Errorf("%s is kept: %s", key, kept[key])
		}
	}
	if kept["capacity"] != "94 Ah" {
		t.Error("the rest is lost")
	}
}

func TestReviewSaysHowAnswersWereTaken(t *testing.T) {
	lines := map[string]Line{}
	for _, line := range Review(with(heron(), Answers{"fuse": Unknown, "modules": ""})) {
		lines[line.Key] = line
	}
	for key, want := range map[string]string{"groups": "12 in series, about 43.8 V", "panels": "4 × 330 W, 1320 W in all", "capacity": "94 Ah, about 4.1 kWh", "fuse": "none", "charge": "solar, alternator and mains"} {
		if lines[key].Meaning != want {
			t.Errorf("%s: %q, want %q", key, lines[key].Meaning, want)
		}
	}
	if !lines["fuse"].Open || lines["modules"].Open || lines["modules"].Answer != "" {
		t.Errorf("fuse %+v, modules %+v", lines["fuse"], lines["modules"])
	}
}

func TestSketchShowsWhatIsAnswered(t *testing.T) {
	s := Draw(with(heron(), Answers{"fuse": Unknown, "inverter": "none", "guards": ""}), "guards")
	switch {
	case s.Series != 12 || s.Modules != 2 || s.Panels != 4 || !s.Cold:
		t.Errorf("%+v", s)
	case s.Groups.Text != "12 groups, 43.8 V" || s.Capacity.Text != "94 Ah × 2":
		t.Errorf("bank: %q %q", s.Groups.Text, s.Capacity.Text)
	case !s.Fuse.Open || s.Fuse.Text == "" || !s.Fuse.None && s.Fuse.Text != "0 A fuse?":
		t.Errorf("fuse: %+v", s.Fuse)
	case !s.Inverter.None || !s.Guards.Asked || s.Guards.Given:
		t.Errorf("inverter %+v, guards %+v", s.Inverter, s.Guards)
	case !strings.Contains(s.Said, "Main fuse: not known, taken as none"):
		t.Errorf("said: %s", s.Said)
	}
	if empty := Draw(Answers{}, ""); empty.Said != "Nothing is answered yet." || empty.Groups.Text != "" {
		t.Errorf("empty: %+v", empty)
	}
}

func TestFahrenheitForThoseWhoReadIt(t *testing.T) {
	text, err := Text(Answers{"units": "us", "coldest": "-10 °C"}, 2026)
	if err != nil || !strings.Contains(string(text), "coldest: 14 °F") {
		t.Errorf("%v\n%s", err, text)
	}
	if _, err := rig.Parse("rig.yaml", text); err != nil {
		t.Error(err)
	}
	if p := newPlan(); p.units != quantity.Metric {
		t.Error("metric is not what is taken")
	}
}
