package sheet_test

import (
	"slices"
	"strings"
	"testing"

	q "ampstead/quantity"
	"ampstead/sheet"
)

func TestSettings(t *testing.T) {
	m := model(t, q.Metric)
	if len(m.Devices) != 2 || m.Devices[0].Name != "roof solar" || m.Devices[0].Changes != 2 {
		t.Fatalf("devices: %+v", m.Devices)
	}
	for _, want := range []struct{ setting, value, today string }{
		{"absorption", "49.0 V", "57.6 V"}, {"equalise", "off", "off"}, {"frost lock", "5 °C", "not given"},
	} {
		i := slices.IndexFunc(m.Devices[0].Rows, func(r sheet.Setting) bool { return r.Name == want.setting })
		row := m.Devices[0].Rows[i]
		if row.SetTo.Text != want.value || row.Today != want.today {
			t.Errorf("%s: %q, today %q; want %q, %q", want.setting, row.SetTo.Text, row.Today, want.value, want.today)
		}
	}
	text := render(t, "settings", m)
	if got := strings.Count(text, `<strong class="change">change</strong>`); got != 2 {
		t.Errorf("%d changes are marked by a word, want 2", got)
	}
}

func TestLayersFromTheTopDown(t *testing.T) {
	m := model(t, q.Metric)
	var names []string
	for _, l := range m.Layers {
		name := l.Name
		if l.Member {
			name = "also " + l.Device
		}
		names = append(names, name)
	}
	want := []string{"harm high", "alarm high", "also second meter", "daily low", "harm low"}
	if !slices.Equal(names, want) {
		t.Errorf("layers %q, want %q", names, want)
	}
	if m.Layers[1].Over != "12 mV" || m.Layers[3].Over != "" {
		t.Errorf("crossings %q and %q, want 12 mV and none", m.Layers[1].Over, m.Layers[3].Over)
	}
	if len(m.Absent) != 7 || m.Absent[0] != "disconnect high" {
		t.Errorf("absent today: %q", m.Absent)
	}
}

func TestFindings(t *testing.T) {
	m := model(t, q.Metric)
	if got := m.Tally(); got != "1 to stop for, 1 worth mending" {
		t.Errorf("tally %q", got)
	}
	if m.Stops() != 1 {
		t.Errorf("%d stops, want 1", m.Stops())
	}
	for i, want := range []string{"roof solar, equalise", "mains inverter, low cut"} {
		if got := m.Findings[i].Place; got != want {
			t.Errorf("place %q, want %q", got, want)
		}
	}
	if got := m.Findings[0].Line; got != "rig.yaml, line 9" {
		t.Errorf("line %q, want rig.yaml, line 9", got)
	}
	text := render(t, "findings", m)
	for _, want := range []string{"stop: do not connect", "care: worth mending", "<article"} {
		if !strings.Contains(text, want) {
			t.Errorf("findings lack %q", want)
		}
	}
}

func TestRests(t *testing.T) {
	var assumed []string
	for _, r := range model(t, q.Metric).Rests {
		if r.Assumed {
			assumed = append(assumed, r.What)
		}
	}
	want := []string{"resistance of the bank", "rest-voltage curve and limits"}
	if !slices.Equal(assumed, want) {
		t.Errorf("assumed %q, want %q", assumed, want)
	}
}

func TestFiguresOnceEach(t *testing.T) {
	m := model(t, q.Metric)
	if len(m.Figures) != 1 || len(m.Figures[0].Uses) != 1 {
		t.Fatalf("the same use twice shows as %d figures", len(m.Figures))
	}
	if got, want := len(m.Figures[0].Uses[0]), len(m.Figures[0].Terms); got != want {
		t.Errorf("a use has %d columns, its head %d", got, want)
	}
}

func TestSources(t *testing.T) {
	m := model(t, q.Metric)
	if !slices.IsSortedFunc(m.Sources, func(a, b sheet.Reference) int {
		return strings.Compare(strings.ToLower(a.Text), strings.ToLower(b.Text))
	}) {
		t.Error("sources are not in order")
	}
	has := func(key string) bool {
		return slices.ContainsFunc(m.Sources, func(r sheet.Reference) bool { return r.Key == key })
	}
	for _, c := range sheet.Cautions() {
		for _, s := range c.Sources {
			if !has(s.Key) {
				t.Errorf("source %s of caution %q is not listed", s.Key, c.Heading)
			}
		}
	}
	if !has("mohtat-2020") {
		t.Error("the source of the cell's limits is not listed")
	}
	text := render(t, "sources", m)
	for _, want := range []string{"from memory", "common practice, no source", "second hand"} {
		if !strings.Contains(text, want) {
			t.Errorf("sources lack the standing %q", want)
		}
	}
}

func TestCautions(t *testing.T) {
	var all strings.Builder
	for _, c := range sheet.Cautions() {
		if c.ID == "" || c.Heading == "" || len(c.Text)+len(c.Steps) == 0 {
			t.Errorf("caution %+v says nothing", c)
		}
		all.WriteString(c.Heading + strings.Join(c.Text, " ") + strings.Join(c.Steps, " "))
	}
	for _, want := range []string{"fault current", "no test here shows", "without Ampstead", "local codes", "licensed", "fire service",
		"lithium-ion", "Do not open", "Do not breathe", "hours later", "IEC 62619:2022", "never be called compliant", "IEC 63338", "traceability"} {
		if !strings.Contains(all.String(), want) {
			t.Errorf("the cautions do not say %q", want)
		}
	}
	if short := sheet.CautionsShort(); len(short) > 2 {
		t.Errorf("the short form has %d lines, want at most 2", len(short))
	}
}
