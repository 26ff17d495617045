package compare

import (
	"context"
	"encoding/json"
	"errors"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"ampstead/finding"
	"ampstead/internal/example"
	_ "ampstead/internal/fixedseed"
	"ampstead/internal/golden"
	q "ampstead/quantity"
	"ampstead/rig"
)

func run(t testing.TB, a, b *rig.File, o Options) *Result {
	t.Helper()
	res, err := Run(context.Background(), a, b, o)
	if err != nil {
		t.Fatal(err)
	}
	return res
}

// with is the file with values set: path, value, path, value.
func with(t testing.TB, f *rig.File, pairs ...string) *rig.File {
	t.Helper()
	var changes []rig.Change
	for i := 0; i < len(pairs); i += 2 {
		changes = append(changes, rig.Change{Path: pairs[i], Value: pairs[i+1]})
	}
	g, err := f.Make(changes...)
	if err != nil {
		t.Fatal(err)
	}
	return g
}

func row(t testing.TB, res *Result, stage, key string) Row {
	t.Helper()
	for _, r := range res.Rows {
		if r.Stage == stage && r.Key == key {
			return r
		}
	}
	t.Fatalf("no row %s %s", stage, key)
	return Row{}
}

func ids(list []finding.Finding) string {
	var all []string
	for _, f := range list {
		all = append(all, f.ID)
	}
	return strings.Join(all, " ")
}

func TestARigAgainstItself(t *testing.T) {
	for _, name := range []string{"curlew-draft", "curlew", "dipper"} {
		f := example.File(t, name)
		res := run(t, f, f, Options{})
		if len(res.Changes)+len(res.Findings.Gone)+len(res.Findings.New)+len(res.Findings.Changed)+len(res.Missing) > 0 || !res.Same {
			t.Errorf("%s: %+v", name, res)
		}
		if len(res.Rows) < 40 || len(res.Stages) != 2 {
			t.Errorf("%s: %d rows of %v", name, len(res.Rows), res.Stages)
		}
		for _, r := range res.Rows {
			if r.Differs() {
				t.Errorf("%s: %+v", name, r)
			}
		}
	}
}

func TestOneEditAndWhatItDid(t *testing.T) {
	was := example.File(t, "curlew-draft")
	is := with(t, was, "charge.roof solar.settings.equalise", "off")
	res := run(t, was, is, Options{})
	want := rig.Changed{Path: "charge.roof solar.settings.equalise", Label: "roof solar: settings, equalise", Was: "62.0 V", Is: "off"}
	if len(res.Changes) != 1 || res.Changes[0] != want {
		t.Errorf("changes %+v", res.Changes)
	}
	if got := ids(res.Findings.Gone); got != "equalise-on" || len(res.Findings.New) > 0 {
		t.Errorf("gone %q, new %q", got, ids(res.Findings.New))
	}
	if res.Was.Stop != res.Is.Stop+1 {
		t.Errorf("stop %d, then %d", res.Was.Stop, res.Is.Stop)
	}
	if r := row(t, res, Fit, "settings_that_differ"); r.Turn != Gained || r.Was.Number != r.Is.Number+1 {
		t.Errorf("%+v", r)
	}
}

func TestTheDraftAgainstTheMended(t *testing.T) {
	res := run(t, example.File(t, "curlew-draft"), example.File(t, "curlew"), Options{})
	for _, list := range [][]finding.Finding{res.Findings.Gone, res.Findings.New} {
		for i := range list {
			list[i].Workings = nil // checked where they are made
		}
	}
	for i := range res.Findings.Changed {
		res.Findings.Changed[i].Was.Workings, res.Findings.Changed[i].Is.Workings = nil, nil
	}
	text, err := json.MarshalIndent(res, "", "  ")
	if err != nil {
		t.Fatal(err)
	}
	golden.Check(t, "curlew.json", append(text, '\n'))
}

// Two different rigs, one of them in US units: what only one has is new or gone.
func TestTwoRigs(t *testing.T) {
	res := run(t, example.File(t, "curlew"), example.File(t, "dipper"), Options{})
	if res.Was.Name != "Curlew" || res.Is.Name != "Dipper" || len(res.Changes) < 20 {
		t.Errorf("%s, %s, %d changes", res.Was.Name, res.Is.Name, len(res.Changes))
	}
	turns := map[Turn]int{}
	for _, r := range res.Rows {
		turns[r.Turn]++
		if (r.Turn == Came) != (r.WasText(q.Metric) == "" && r.Is.Known) {
			t.Errorf("%+v", r)
		}
	}
	if turns[Came] == 0 || turns[Went] == 0 || turns[Gained] == 0 || turns[Lost] == 0 {
		t.Errorf("turns %v", turns)
	}
	if r := row(t, res, Fit, "daily_usable_energy_wh"); r.Turn != Lost || !strings.HasPrefix(r.ChangeText(q.US), "-") || !strings.HasSuffix(r.ChangeText(q.US), " kWh") {
		t.Errorf("%+v %s", r, r.ChangeText(q.US))
	}
}

// Turned round, what went has come, and what got better has got worse.
func TestTurnedRound(t *testing.T) {
	base := example.File(t, "curlew-draft")
	paths := []string{"charge.roof solar.settings.absorption", "charge.roof solar.settings.float", "protection.relays.guard relay.high", "protection.meters.cell meter.alarm_high"}
	opposite := map[Turn]Turn{Kept: Kept, Gained: Lost, Lost: Gained, Other: Other, Came: Went, Went: Came, Missing: Missing}
	rapid.Check(t, func(rt *rapid.T) {
		path := rapid.SampledFrom(paths).Draw(rt, "path")
		value := rapid.SampledFrom([]string{"", "off", "49.2 V", "50.4 V", "3.9 V", "4.1 V", "57.6 V"}).Draw(rt, "value")
		is, err := base.Make(rig.Change{Path: path, Value: value})
		if err != nil {
			return // a value that does not belong there
		}
		there, back := run(t, base, is, Options{}), run(t, is, base, Options{})
		if ids(there.Findings.Gone) != ids(back.Findings.New) || ids(there.Findings.New) != ids(back.Findings.Gone) {
			rt.Fatalf("%s %s: gone %s, new %s; back: gone %s, new %s", path, value, ids(there.Findings.Gone), ids(there.Findings.New), ids(back.Findings.Gone), ids(back.Findings.New))
		}
		if len(there.Rows) != len(back.Rows) || len(there.Changes) != len(back.Changes) {
			rt.Fatalf("%s %s: %d and %d rows", path, value, len(there.Rows), len(back.Rows))
		}
		for _, r := range there.Rows {
			if turned := row(t, back, r.Stage, r.Key); turned.Turn != opposite[r.Turn] {
				rt.Fatalf("%s %s: %+v, and back %+v", path, value, r, turned)
			}
		}
	})
}

func TestAStageThatCannotBeReckonedForOne(t *testing.T) {
	was := example.File(t, "curlew")
	text := string(was.Text)
	for strings.Contains(text, "cell: nmc532") {
		text = strings.Replace(text, "cell: nmc532", "cell: unheard-of", 1)
	}
	is, err := rig.Parse("other", []byte(text))
	if err != nil {
		t.Fatal(err)
	}
	res := run(t, was, is, Options{Travel: true, Drill: true})
	if len(res.Stages)+len(res.Rows) > 0 || len(res.Missing) != 1 || res.Missing[0].Side != "is" || res.Missing[0].Path != "bank.cell" || res.Missing[0].Stage != Fit {
		t.Errorf("%+v", res.Missing)
	}
	if len(res.Changes) == 0 || res.Findings.New == nil {
		t.Errorf("%d changes", len(res.Changes))
	}
}

func TestTravelWithoutARoute(t *testing.T) {
	was := example.File(t, "curlew")
	is := was
	for range was.Rig.Route {
		var err error
		if is, err = is.Remove("route.0"); err != nil {
			t.Fatal(err)
		}
	}
	res := run(t, is, is, Options{Travel: true})
	if len(res.Stages) != 2 || len(res.Missing) != 2 || res.Missing[0].Stage != Travel || res.Missing[0].Message == "" {
		t.Errorf("%v, missing %+v", res.Stages, res.Missing)
	}
}

func TestCancel(t *testing.T) {
	ctx, cancel := context.WithCancel(context.Background())
	cancel()
	f := example.File(t, "dipper")
	if _, err := Run(ctx, f, f, Options{Travel: true}); !errors.Is(err, context.Canceled) {
		t.Errorf("err = %v", err)
	}
}

// A year and the single faults of a small change: more insulation.
func TestTravelAndDrill(t *testing.T) {
	if testing.Short() {
		t.Skip("plays two drills")
	}
	was := example.File(t, "dipper")
	is := with(t, was, "loads.0.power", "900 W", "loads.0.hours", "6 h")
	last := 0
	res := run(t, was, is, Options{Travel: true, Drill: true, Years: 1, Progress: func(done, total int) {
		if done < last || done > total || total != 100 {
			t.Errorf("progress %d of %d after %d", done, total, last)
		}
		last = done
	}})
	if strings.Join(res.Stages, " ") != "fit wire travel drill" || last != 100 || len(res.Notes) != 2 {
		t.Fatalf("%v, %d, %v", res.Stages, last, res.Notes)
	}
	served := row(t, res, Travel, "unserved_wh")
	if served.Turn != Lost || served.Is.Number <= served.Was.Number {
		t.Errorf("%+v", served)
	}
	days := row(t, res, Travel, "days_short")
	if days.Is.Number <= days.Was.Number || days.Is.Number > 365 {
		t.Errorf("%+v", days)
	}
	if harm := row(t, res, Drill, "harm"); !harm.Was.Known || harm.Was.Number > row(t, res, Drill, "runs").Was.Number {
		t.Errorf("%+v", harm)
	}
}

func TestShow(t *testing.T) {
	num := func(v float64) Value { return Value{Known: true, Number: v} }
	word := Value{Known: true, Word: "off"}
	for _, c := range []struct {
		row             Row
		was, is, change string
		turn            Turn
	}{
		{Row{Was: num(5200), Is: num(5480), Better: More, show: energy}, "5.2 kWh", "5.48 kWh", "+0.28 kWh", Gained},
		{Row{Was: num(5200), Is: num(980), Better: More, show: energy}, "5.2 kWh", "980 Wh", "-4.22 kWh", Lost},
		{Row{Was: num(4.083), Is: num(4.084), show: volts}, "4.083 V", "4.084 V", "+0.001 V", Other},
		{Row{Was: num(4.083), Is: num(4.08301), Better: More, show: volts}, "4.083 V", "4.083 V", "", Kept},
		{Row{Was: num(0), Is: num(0.02), Better: Less, show: volts}, "0 V", "20 mV", "+20 mV", Lost},
		{Row{Was: num(10), Is: num(12.5), show: degrees}, "50.0 °F", "54.5 °F", "+4.5 °F", Other},
		{Row{Was: num(3), Is: num(0), Better: Less, show: count}, "3", "0", "-3", Gained},
		{Row{Was: num(0.42), Is: num(0.5), Better: More, show: share}, "42.0 %", "50.0 %", "+8.0 %", Gained},
		{Row{Was: num(12.4), Is: num(110.2), Better: Less, show: hours}, "12 h", "110 h", "+98 h", Lost},
		{Row{Was: word, Is: num(54), show: volts}, "off", "54 V", "", Other},
		{Row{Was: word, Is: word, show: volts}, "off", "off", "", Kept},
		{Row{Is: num(54), Better: More, show: volts}, "", "54 V", "", Came},
		{Row{Was: word}, "off", "", "", Went},
		{Row{}, "", "", "", Missing},
	} {
		c.row.Turn = c.row.turn()
		if c.row.WasText(q.US) != c.was || c.row.IsText(q.US) != c.is || c.row.ChangeText(q.US) != c.change || c.row.Turn != c.turn {
			t.Errorf("got %q, %q, %q, %s; want %q, %q, %q, %s", c.row.WasText(q.US), c.row.IsText(q.US), c.row.ChangeText(q.US), c.row.Turn, c.was, c.is, c.change, c.turn)
		}
	}
	metric := Row{Was: num(10), Is: num(12.5), show: degrees, Turn: Other}
	if got := metric.ChangeText(q.Metric); got != "+2.5 K" {
		t.Errorf("got %q", got)
	}
}

func TestValueAsJSON(t *testing.T) {
	text, err := json.Marshal([]Value{{}, {Known: true, Number: 4.08}, {Known: true, Word: "off"}})
	if err != nil || string(text) != `[null,4.08,"off"]` {
		t.Errorf("%s, %v", text, err)
	}
}

func BenchmarkRun(b *testing.B) {
	was, is := example.File(b, "curlew-draft"), example.File(b, "curlew")
	for b.Loop() {
		run(b, was, is, Options{})
	}
}
