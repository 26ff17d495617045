package logbook_test

import (
	"bytes"
	"context"
	"errors"
	"reflect"
	"slices"
	"strings"
	"testing"
	"time"

	"pgregory.net/rapid"

	_ "ampstead/internal/fixedseed"
	"ampstead/logbook"
	q "ampstead/quantity"
	"ampstead/store"
)

var noon = time.Date(2026, 11, 20, 12, 0, 0, 0, time.UTC)

func values(list []*float64) []any {
	var out []any
	for _, v := range list {
		if v == nil {
			out = append(out, nil)
		} else {
			out = append(out, *v)
		}
	}
	return out
}

func TestValues(t *testing.T) {
	for text, want := range map[string][]string{
		"3.91 3.92 3.93":         {"3.91", "3.92", "3.93"},
		"3,91 3,92 3,93":         {"3,91", "3,92", "3,93"},
		"3.91,3.92, 3.93":        {"3.91", "3.92", "3.93"},
		"3.91 3.92 3,93":         {"3.91", "3.92", "3,93"},
		"3,91; 3,92;3,93":        {"3,91", "3,92", "3,93"},
		"3.91\n3.92\r\n3.93\n":   {"3.91", "3.92", "3.93"},
		"1: 3.91\n2: 3.92\n":     {"3.91", "3.92"},
		"1\t3,91\n2\t3,92":       {"3,91", "3,92"},
		"3.91 - 3.93":            {"3.91", "", "3.93"},
		"3.91 V 3920 mV\n3.93 V": {"3.91 V", "3920 mV", "3.93 V"},
		"1 2\n3 4":               {"1", "2", "3", "4"},
		"":                       nil, " \n ": nil,
	} {
		if got := logbook.Values(text); !slices.Equal(got, want) {
			t.Errorf("%q gives %q, want %q", text, got, want)
		}
	}
}

func TestEntry(t *testing.T) {
	e := logbook.Entry{Groups: []string{"3,91", "3910 mV", "", " 3.9 V"}, Bank: "47,2", Current: "−1.5", Temps: "18; 17,5 °C 68 °F", Rested: "30 min", Counter: "-12,5", Meter: " bench ", Taken: "2026-11-19 18:30"}
	r, err := e.Reading(noon, q.Metric)
	if err != nil {
		t.Fatal(err)
	}
	if got := values(r.Groups); !reflect.DeepEqual(got, []any{3.91, 3.91, nil, 3.9}) {
		t.Errorf("groups %v", got)
	}
	if *r.BankV != 47.2 || *r.Amps != -1.5 || *r.RestH != 0.5 || *r.CountAh != -12.5 || r.Meter != "bench" || !r.Taken.Equal(time.Date(2026, 11, 19, 18, 30, 0, 0, time.UTC)) {
		t.Errorf("%+v", r)
	}
	if len(r.TempsC) != 3 || r.TempsC[1] != 17.5 || r.TempsC[2] < 19.9 || r.TempsC[2] > 20.1 {
		t.Errorf("temperatures %v", r.TempsC)
	}
	again, _ := e.Reading(noon.Add(time.Hour), q.Metric)
	if again.ID != r.ID || r.ID == "" {
		t.Errorf("IDs %q and %q of the same content", r.ID, again.ID)
	}
	e.Groups[0] = "3.92"
	if other, _ := e.Reading(noon, q.Metric); other.ID == r.ID {
		t.Error("one ID for two readings")
	}
	if us, _ := (logbook.Entry{Temps: "68", Note: "x"}).Reading(noon, q.US); us.TempsC[0] < 19.9 || us.TempsC[0] > 20.1 {
		t.Errorf("68 in US units is %v °C", us.TempsC)
	}
}

func TestEntryNamesWhatIsWrong(t *testing.T) {
	e := logbook.Entry{Groups: []string{"3.9", "three"}, Bank: "3 A", Current: "x", Temps: "18 warm", Rested: "-1", Counter: "?", Taken: "soon"}
	_, err := e.Reading(noon, q.Metric)
	var wrong logbook.Mistakes
	if !errors.As(err, &wrong) {
		t.Fatalf("%v", err)
	}
	var fields []string
	for _, m := range wrong {
		fields = append(fields, m.Field)
	}
	want := []string{"taken", "groups.2", "bank_v", "current_a", "counter_ah", "rested_h", "temperatures_c"}
	if !slices.Equal(fields, want) {
		t.Errorf("fields %v, want %v", fields, want)
	}
}

func TestReadTable(t *testing.T) {
	table := "\xef\xbb\xbfDate;Group 1 mV;group_2_v;g3;Pack V;Temperature 1;temperature 2 °C;Rest;Note\r\n2026-11-01 10:00;3910;3,92;3.93;47,1;18;17,5;8 h;\"a; b\"\r\n\r\n2026-11-02;;;3,9;;;;;\r\n"
	list, err := logbook.ReadTable(strings.NewReader(table), time.UTC)
	if err != nil {
		t.Fatal(err)
	}
	if len(list) != 2 {
		t.Fatalf("%d readings", len(list))
	}
	r := list[0]
	if got := values(r.Groups); !reflect.DeepEqual(got, []any{3.91, 3.92, 3.93}) || *r.BankV != 47.1 || len(r.TempsC) != 2 || *r.RestH != 8 || r.Note != "a; b" {
		t.Errorf("%v %+v", got, r)
	}
	if got := values(list[1].Groups); !reflect.DeepEqual(got, []any{nil, nil, 3.9}) || list[1].Taken.Hour() != 12 {
		t.Errorf("%v at %v", got, list[1].Taken)
	}
}

func TestReadTableSaysWhere(t *testing.T) {
	for table, want := range map[string]logbook.TableError{
		"":                                   {},
		"taken,group 1\n":                    {},
		"taken,colour\n2026-11-01,3\n":       {Line: 1, Column: 2},
		"group 1\n3.9\n":                     {Line: 1, Column: 1},
		"taken\n2026-11-01\n":                {Line: 1, Column: 1},
		"taken,group 0\n2026-11-01,3\n":      {Line: 1, Column: 2},
		"taken,g1\n2026-11-01,3.9\nsoon,3\n": {Line: 3, Column: 1},
		"taken,g1\n2026-11-01,3.9,7\n":       {Line: 2, Column: 3},
		"taken,g1\n,3.9\n":                   {Line: 2, Column: 1},
		"taken,g1,version\n2026-11-01,3,0\n": {Line: 2, Column: 3},
	} {
		_, err := logbook.ReadTable(strings.NewReader(table), time.UTC)
		var at *logbook.TableError
		if !errors.As(err, &at) || at.Line != want.Line || at.Column != want.Column || at.Message == "" {
			t.Errorf("%q: %v", table, err)
		}
	}
}

func open(t *testing.T) *store.Book {
	t.Helper()
	b, err := store.Open(context.Background(), t.TempDir(), store.Options{Now: func() time.Time { return noon }})
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { b.Close() })
	return b
}

func ptr(v float64) *float64 { return &v }

// Everything written out and taken in elsewhere is the same logbook, corrections
// and what was withdrawn included; taking it in again changes nothing.
func TestExportIsReadBack(t *testing.T) {
	ctx, from := context.Background(), open(t)
	first := store.Reading{ID: "a", Taken: noon.Add(-48 * time.Hour), Groups: []*float64{ptr(3.91), nil, ptr(3.905)}, TempsC: []float64{18, 17.5}, RestH: ptr(8), Note: "with; \"signs\", and\nlines"}
	second := store.Reading{ID: "b", Taken: noon.Add(-24 * time.Hour), BankV: ptr(47.1), Amps: ptr(-0.2), CountAh: ptr(12.25), Meter: "bench"}
	if _, err := from.AddAll(ctx, []store.Reading{first, second}); err != nil {
		t.Fatal(err)
	}
	first.Version, first.Groups[1] = 1, ptr(3.912)
	if _, err := from.Correct(ctx, first); err != nil {
		t.Fatal(err)
	}
	if err := from.Withdraw(ctx, "b", 1, "read under load"); err != nil {
		t.Fatal(err)
	}
	whole, err := logbook.ReadWhole(ctx, from, "Wren")
	if err != nil {
		t.Fatal(err)
	}
	var table bytes.Buffer
	if err := whole.WriteTable(&table); err != nil {
		t.Fatal(err)
	}
	to := open(t)
	for i, want := range []logbook.Imported{{Rows: 4, Fresh: 2, Changes: 2}, {Rows: 4, Known: 4}} {
		rows, err := logbook.ReadTable(bytes.NewReader(table.Bytes()), time.UTC)
		if err != nil {
			t.Fatal(err)
		}
		got, err := logbook.Import(ctx, to, rows)
		if err != nil || got != want {
			t.Fatalf("time %d: %+v, %v", i+1, got, err)
		}
	}
	again, err := logbook.ReadWhole(ctx, to, "Wren")
	if err != nil {
		t.Fatal(err)
	}
	for i := range again.Readings {
		again.Readings[i].Entered = whole.Readings[i].Entered
	}
	if !reflect.DeepEqual(whole, again) {
		t.Errorf("\n%+v\n%+v", whole.Readings, again.Readings)
	}
}

func TestLast(t *testing.T) {
	l := logbook.Log{Readings: []store.Reading{{Groups: []*float64{ptr(3.9), ptr(3.8)}, Meter: "a"}, {Groups: []*float64{nil, ptr(3.7), ptr(3.6)}}}}
	if got := values(l.Last(2)); !reflect.DeepEqual(got, []any{3.9, 3.7}) || l.Meter() != "a" {
		t.Errorf("%v, meter %q", got, l.Meter())
	}
}

// Whatever is pasted, nothing is invented: every value given back stood there.
func TestValuesStoodThere(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		text := rapid.StringOf(rapid.RuneFrom([]rune("0123456789.,;- \t\nVm:x"))).Draw(t, "text")
		for _, v := range logbook.Values(text) {
			for _, part := range strings.Fields(v) {
				if !strings.Contains(text, part) {
					t.Fatalf("%q is not in %q", part, text)
				}
			}
		}
	})
}

func FuzzReadTable(f *testing.F) {
	f.Add("taken;group 1\n2026-11-01;3,9\n")
	f.Add("id,version,taken,g1 mV,withdrawn\na,2,2026-11-01T10:00:00Z,3900,yes\n")
	f.Fuzz(func(t *testing.T, table string) {
		list, err := logbook.ReadTable(strings.NewReader(table), time.UTC)
		if (err == nil) != (len(list) > 0) {
			t.Fatalf("%d readings and error %v", len(list), err)
		}
		for _, r := range list {
			if r.ID == "" || r.Taken.IsZero() || r.Version < 1 {
				t.Fatalf("%+v", r)
			}
		}
	})
}
