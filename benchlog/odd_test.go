package benchlog

import (
	"bytes"
	"compress/gzip"
	"context"
	"errors"
	"fmt"
	"math"
	"strings"
	"testing"
	"testing/iotest"
)

// cycle writes rows of a rest, a discharge, a rest, a charge and a rest of one
// cell, as format says: time, voltage, current (charge positive), state.
func cycle(header string, row func(i int, v, a float64, state string) string) string {
	b := strings.Builder{}
	b.WriteString(header)
	soc := 0.8
	for i := range 250 {
		a, state := 0.0, "Rest"
		switch {
		case i >= 10 && i < 100:
			a, state = -2, "CC_DChg"
		case i >= 120 && i < 220:
			a, state = 1.5, "CC_Chg"
		}
		soc += a * 0.002
		b.WriteString(row(i, 3.3+0.9*soc+0.03*a, a, state) + "\n")
	}
	return b.String()
}

func TestSigns(t *testing.T) {
	abs := math.Abs
	tests := []struct {
		name, text, sign, how string
		o                     Options
	}{
		{name: "charge positive", text: cycle("t_s,v,a\n", func(i int, v, a float64, _ string) string { return fmt.Sprintf("%d,%.3f,%.2f", i, v, a) }),
			sign: chargePositive, how: "voltage falls while current is negative"},
		{name: "discharge positive", text: cycle("t_s,v,a\n", func(i int, v, a float64, _ string) string { return fmt.Sprintf("%d,%.3f,%.2f", i, v, -a) }),
			sign: dischargePositive, how: "voltage falls while current is positive"},
		{name: "given", text: cycle("t_s,v,a\n", func(i int, v, a float64, _ string) string { return fmt.Sprintf("%d,%.3f,%.2f", i, v, -a) }),
			sign: dischargePositive, how: "given", o: Options{Sign: "discharge"}},
		{name: "no sign, by voltage", text: cycle("t_s,v,a\n", func(i int, v, a float64, _ string) string { return fmt.Sprintf("%d,%.3f,%.2f", i, v, abs(a)) }),
			sign: noSign, how: "each stretch by whether the voltage rises or falls"},
		{name: "no sign, by state", text: cycle("t_s,v,a,Step type\n", func(i int, v, a float64, s string) string { return fmt.Sprintf("%d,%.1f,%.2f,%s", i, v, abs(a), s) }),
			sign: noSign, how: "each stretch by the column that names what is done"},
		{name: "no sign, no rest between", text: cycle("t_s,v,a\n", func(i int, v, a float64, _ string) string {
			if a == 0 && i > 50 {
				a = -2
				v -= 0.06
			}
			return fmt.Sprintf("%d,%.3f,%.2f", i, v, abs(a))
		}), sign: noSign, how: "each stretch by whether the voltage rises or falls"},
		{name: "two columns", text: cycle("t_s;Spannung [V];Ladestrom [A];Entladestrom [A]\n", func(i int, v, a float64, _ string) string {
			return fmt.Sprintf("%d;%.3f;%.2f;%.2f", i, v, max(a, 0), max(-a, 0))
		}), sign: chargePositive, how: "a column for each direction"},
		{name: "state of charge", text: cycle("t_s,v,a,SoC (%)\n", func(i int, v, a float64, _ string) string {
			soc := 80 - 0.2*float64(min(max(i-10, 0), 90)) + 0.15*float64(min(max(i-120, 0), 100))
			return fmt.Sprintf("%d,3.3,%.2f,%.1f", i, -a, soc)
		}), sign: dischargePositive, how: "the state of charge"},
		{name: "header", text: cycle("t_s,v,discharge current (A)\n", func(i int, _, a float64, _ string) string { return fmt.Sprintf("%d,3.3,%.2f", i, -a) }),
			sign: dischargePositive, how: "header"},
		{name: "header that says what is positive", text: cycle("t_s,v,\"current (A, + = charge)\"\n", func(i int, v, a float64, _ string) string { return fmt.Sprintf("%d,%.3f,%.2f", i, v, a) }),
			sign: chargePositive, how: "header"},
		{name: "voltage against a misleading header", text: cycle("t_s,v,discharge current (A)\n", func(i int, v, a float64, _ string) string { return fmt.Sprintf("%d,%.3f,%.2f", i, v, a) }),
			sign: chargePositive, how: "voltage falls while current is negative"},
		{name: "nothing", text: cycle("t_s,v,a\n", func(i int, _, a float64, _ string) string { return fmt.Sprintf("%d,3.3,%.2f", i, a) }),
			sign: chargePositive, how: "assumed: nothing in the file tells it"},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			rows, sum := readAll(t, tt.name, tt.text, tt.o)
			if sum.Layout.Sign != tt.sign || sum.Layout.SignHow != tt.how {
				t.Errorf("sign %q by %q, want %q by %q (%s)", sum.Layout.Sign, sum.Layout.SignHow, tt.sign, tt.how, sum.Layout.Line)
			}
			for i, want := range map[int]float64{5: 0, 11: -2, 60: -2, 99: -2, 121: 1.5, 180: 1.5, 219: 1.5} {
				if rows[i].Amps != want {
					t.Errorf("row %d: %g A, want %g", i, rows[i].Amps, want)
				}
			}
		})
	}
}

// timed makes a log of which only the times are given.
func timed(header string, times ...string) string {
	b := strings.Builder{}
	b.WriteString(header + ";volts;amps\n")
	for i, at := range times {
		fmt.Fprintf(&b, "%s;%.4f;-2.0\n", at, 3.9-0.001*float64(i))
	}
	return b.String()
}

func TestTimes(t *testing.T) {
	hour := func(from, to int, format string) (list []string) {
		for s := from; s < to; s++ {
			list = append(list, fmt.Sprintf(format, s/3600, s/60%60, s%60))
		}
		return list
	}
	count := func(from, n int) (list []string) {
		for i := range n {
			list = append(list, fmt.Sprint(from+i))
		}
		return list
	}
	tests := []struct {
		name, text     string
		last           float64 // s
		restarts, gaps int
		steps          int
		repeated       int
		words          string
	}{
		{name: "restart", text: timed("time_s", append(count(0, 30), count(0, 30)...)...), last: 58, restarts: 1, words: "s"},
		{name: "restart at one", text: timed("time_s", append(count(1, 30), count(1, 30)...)...), last: 59, restarts: 1, words: "s"},
		{name: "clock set back", text: timed("time_s", append(count(1000, 100), count(1040, 30)...)...), last: 129, steps: 1, words: "s"},
		{name: "gap", text: timed("time_s", append(count(0, 30), count(5000, 30)...)...), last: 5029, gaps: 1, words: "s"},
		{name: "another pace", text: timed("time_s", append(count(0, 30), "90", "150", "210", "270")...), last: 270, words: "s"},
		{name: "midnight", text: timed("Uhrzeit", append(hour(86390, 86400, "%02d:%02d:%02d"), hour(0, 10, "%02d:%02d:%02d")...)...), last: 19, words: "clock"},
		{name: "long clock", text: timed("time", hour(90000, 90020, "%02d:%02d:%02d")...), last: 19, words: "clock"},
		{name: "day or month found late", text: timed("date", append(hour(86390, 86400, "05/06/2024 %02d:%02d:%02d"), hour(0, 10, "05/07/2024 %02d:%02d:%02d")...)...), last: 19, words: "date and clock, month before day"},
		{name: "day first by its size", text: timed("date", hour(0, 10, "25/06/2024 %02d:%02d:%02d")...), last: 9, words: "date and clock, day before month"},
		{name: "half days", text: timed("date", append(hour(46790, 46800, "05/06/2024 %02d:%02d:%02d PM"), hour(3600, 3610, "05/06/2024 %02d:%02d:%02d PM")...)...), last: 19, words: "date and clock, month before day"},
		{name: "summer time ends", text: timed("date", append(hour(10790, 10800, "2024-10-27 %02d:%02d:%02d"), hour(7200, 7210, "2024-10-27 %02d:%02d:%02d")...)...), last: 19, steps: 1, words: "date and clock"},
		{name: "summer time begins", text: timed("date", append(hour(7190, 7200, "2024-03-31 %02d:%02d:%02d"), hour(10800, 10810, "2024-03-31 %02d:%02d:%02d")...)...), last: 19, steps: 1, words: "date and clock"},
		{name: "clock set after the start", text: timed("date", "2000-01-01 00:00:01", "2000-01-01 00:00:02", "2000-01-01 00:00:03", "2024-03-31 10:00:00", "2024-03-31 10:00:01"), last: 4, steps: 1, words: "date and clock"},
		{name: "minutes and seconds", text: timed("time", "00:00", "00:30", "01:00", "01:30"), last: 90, words: "min:s"},
		{name: "epoch ms", text: timed("timestamp", "1711872000000", "1711872001000", "1711872002500"), last: 2.5, words: "ms since 1970"},
		{name: "days", text: timed("date", "45382.0000000", "45382.0001157", "45382.0002315"), last: 20.0016, words: "days since 1900"},
		{name: "days and clock", text: timed("time", "0d 23:59:59", "1d 00:00:00", "1d 00:00:02"), last: 3, words: "clock"},
		{name: "zone", text: timed("time", "2024-03-31T10:00:00+01:00", "2024-03-31T10:00:01+01:00", "2024-03-31T09:00:03Z"), last: 3, words: "date and clock"},
		{name: "date and clock apart", text: timed("Date;Time", "31/03/2024;11:59:59 PM", "01/04/2024;12:00:00 AM", "01/04/2024;12:00:01 AM"), last: 2, words: "date and clock, day before month"},
		{name: "seconds rather than a date", text: timed("Date;Elapsed (s)", "31/03/2024 10:00:00;0.0", "31/03/2024 10:00:00;0.4", "31/03/2024 10:00:01;0.8"), last: 0.8, words: "s"},
		{name: "date rather than step time", text: timed("Date Time;Step Time (s)", "2024-03-31 10:00:00;0", "2024-03-31 10:00:05;5", "2024-03-31 10:00:06;0", "2024-03-31 10:00:09;3"), last: 9, words: "date and clock"},
		{name: "late row", text: timed("time_s", "0", "1", "2", "4", "3", "5", "6"), last: 6, steps: 1, words: "s"},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			rows, sum := readAll(t, tt.name, tt.text, Options{})
			if len(rows) == 0 {
				t.Fatal("no rows")
			}
			if got := rows[len(rows)-1].Time; math.Abs(got-tt.last) > 1e-3 {
				t.Errorf("the last row is at %g s, want %g", got, tt.last)
			}
			if sum.Restarts != tt.restarts || len(sum.Gaps) != tt.gaps || len(sum.Steps) != tt.steps || sum.Layout.Time != tt.words || sum.UnreadAll > 0 {
				t.Errorf("%d restarts, gaps %v, steps %v, time %q, unread %v", sum.Restarts, sum.Gaps, sum.Steps, sum.Layout.Time, sum.Unread)
			}
			for i := 1; i < len(rows); i++ {
				if rows[i].Time < rows[i-1].Time {
					t.Fatalf("time falls at line %d", rows[i].Line)
				}
			}
		})
	}
}

// TestBlockWrittenTwice repeats a stretch of rows, as loggers do that lost
// their place; it must not be counted twice.
func TestBlockWrittenTwice(t *testing.T) {
	text := cycle("t_s,v,a\n", func(i int, v, a float64, _ string) string { return fmt.Sprintf("%d,%.4f,%.2f", i, v, a) })
	lines := strings.SplitAfter(text, "\n")
	twice := strings.Join(lines[:60], "") + strings.Join(lines[30:], "")
	want, _ := readAll(t, "once", text, Options{})
	got, sum := readAll(t, "twice", twice, Options{})
	if len(got) != len(want) || sum.Repeated != 30 || len(sum.Steps) > 0 || sum.Restarts > 0 {
		t.Errorf("%d rows, %d repeated, steps %v; want %d rows and 30 repeated", len(got), sum.Repeated, sum.Steps, len(want))
	}
}

func TestRowsThatCannotBeRead(t *testing.T) {
	lines := strings.SplitAfter(cycle("t_s,v,a,t1\n", func(i int, v, a float64, _ string) string { return fmt.Sprintf("%d,%.3f,%.2f,25", i, v, a) }), "\n")
	lines[40] = "39,3.9,abc,25\n"
	lines[41] = "40,3.9\n"
	lines[42] = "t_s,v,a,t1\n"
	lines[43] = "42,--,OL,NaN\n"
	lines[44] = ",3.9,-2,25\n"
	lines[45] = "# a remark\n"
	lines[46] = "45,3.9,-2,25,7,8\n"
	lines = append(lines, "End of test\n", "999,3.")
	rows, sum := readAll(t, "bad", strings.Join(lines, ""), Options{})
	want := []Unread{{41, "39,3.9,abc,25", `a is "abc", not a number`}, {42, "40,3.9", "it has 2 fields instead of 4"}, {43, "t_s,v,a,t1", "the line of names again"},
		{45, ",3.9,-2,25", "it has no time"}, {47, "45,3.9,-2,25,7,8", "it has 6 fields instead of 4"}, {252, "End of test", "it has 1 field instead of 4"}, {253, "999,3.", "it has 2 fields instead of 4"}}
	if fmt.Sprint(sum.Unread) != fmt.Sprint(want) || sum.UnreadAll != len(want) {
		t.Errorf("unread %v,\nwant %v", sum.Unread, want)
	}
	if len(rows) != 250-6 {
		t.Errorf("%d rows", len(rows))
	}
	for _, r := range rows {
		if r.Line == 44 && !(math.IsNaN(r.Volts) && math.IsNaN(r.Amps) && math.IsNaN(r.TempsC[0])) {
			t.Errorf("absent values were read as %+v", r)
		}
	}
}

// TestBrokenStream reads a packed file that ends in its middle, and a reader
// that fails.
func TestBrokenStream(t *testing.T) {
	text := cycle("t_s,v,a\n", func(i int, v, a float64, _ string) string {
		return fmt.Sprintf("%d,%.6f,%.4f", i, v+1e-6*float64(i*i%977), a)
	})
	var b bytes.Buffer
	z := gzip.NewWriter(&b)
	z.Write([]byte(text))
	z.Close()
	rows, sum := readAll(t, "cut", b.String()[:b.Len()*2/3], Options{})
	if last := sum.Unread[len(sum.Unread)-1]; len(rows) < 50 || !strings.Contains(last.Why, "breaks off") {
		t.Errorf("%d rows, unread %v", len(rows), sum.Unread)
	}
	layout, err := Recognise("cut", b.Bytes()[:b.Len()/2], Options{})
	if err != nil || layout.Line != "time in s, voltage V, current A, discharge negative" {
		t.Errorf("%q, %v", layout.Line, err)
	}
	if _, err := Read(context.Background(), "fails", iotest.ErrReader(errors.New("the cable is out")), Options{}, func(*Row) error { return nil }); err == nil {
		t.Error("no error of a reader that fails")
	}
	stop := errors.New("stop")
	if _, err := Read(context.Background(), "stopped", strings.NewReader(text), Options{}, func(*Row) error { return stop }); err != stop {
		t.Errorf("the visitor's error came back as %v", err)
	}
	ctx, cancel := context.WithCancel(context.Background())
	cancel()
	if _, err := Read(ctx, "cancelled", &synthetic{n: 20000}, Options{}, func(*Row) error { return nil }); !errors.Is(err, context.Canceled) {
		t.Errorf("cancelled: %v", err)
	}
}

func TestValuesWithUnits(t *testing.T) {
	rows, sum := readAll(t, "units", "time,value,load\n0 s,3.70 V,0 mA\n1 s,950 mV,1.5 A\n2 s,1'003.5 mV,-2.5e0 A\n3 s,3.71V,\u22121.0A\n", Options{Columns: map[string]string{"value": "voltage V", "load": "current A"}, Sign: "charge"})
	for i, want := range [][2]float64{{3.7, 0}, {0.95, 1.5}, {1.0035, -2.5}, {3.71, -1}} {
		if !near(rows[i].Volts, want[0], 1e-9) || !near(rows[i].Amps, want[1], 1e-9) {
			t.Errorf("row %d: %g V, %g A, want %v (%s)", i, rows[i].Volts, rows[i].Amps, want, sum.Layout.Line)
		}
	}
}

// TestHeadersOfManyForms: what stands above the rows in odd ways.
func TestHeadersOfManyForms(t *testing.T) {
	rows := ""
	for i := range 20 {
		rows += fmt.Sprintf("%d,%.3f,-2.0,%s\n", i, 3.9-0.004*float64(i), pick(i%5 == 0, "25.0", ""))
	}
	blanks := strings.ReplaceAll(strings.ReplaceAll(rows, ",\n", ",--\n"), ",", "   ")
	const want = "time in s, voltage V, current A, discharge negative, 1 temperature"
	for name, text := range map[string]string{
		"names over two lines":   "\"Time\n(s)\",\"Voltage\n(V)\",\"Current\n(A)\",\"Temp\n(C)\"\n" + rows,
		"units below":            "Time,Voltage,Current,Temperature\ns,V,A,°C\n" + rows,
		"units in brackets":      "Time,Voltage,Current,Temperature\n[s],[V],[A],[°C]\n" + rows,
		"rule below":             "Time,Voltage,Current,Temperature\n----,----,----,----\n" + rows,
		"comment":                "# time_s,voltage_v,current_a,temperature_c\n" + rows,
		"separator named":        "sep=,\ntime_s,voltage_v,current_a,temperature_c\n" + rows,
		"device lines":           "Model,X-7\nSerial,1234\nCapacity,2.0,Ah\n\ntime_s,voltage_v,current_a,temperature_c\n" + rows,
		"ends left off":          "time_s,voltage_v,current_a,temperature_c\n" + strings.ReplaceAll(rows, ",\n", "\n"),
		"separator at the end":   "time_s,voltage_v,current_a,temperature_c,\n" + strings.ReplaceAll(rows, "\n", ",\n"),
		"blanks":                 "Time (s)  Voltage (V)  Current (A)  Temperature (C)\n" + blanks,
		"blanks, brackets apart": "Time (s) Voltage (V) Current (A) Temp (C)\n" + blanks,
		"quoted numbers":         "time_s,voltage_v,current_a,temperature_c\n" + `"` + strings.ReplaceAll(strings.ReplaceAll(strings.TrimSuffix(rows, "\n"), ",", `","`), "\n", "\"\n\"") + "\"\n",
	} {
		got, sum := readAll(t, name, text, Options{})
		if sum.Layout.Line != want || len(got) != 20 || sum.UnreadAll > 0 {
			t.Errorf("%s: %q, %d rows, unread %v", name, sum.Layout.Line, len(got), sum.Unread)
		}
	}
}

// TestUnitsByMagnitude: headers without units.
func TestUnitsByMagnitude(t *testing.T) {
	text := cycle("time,voltage,current,capacity_ah,temp\n", func(i int, v, a float64, _ string) string {
		ah := -2*float64(min(max(i-9, 0), 90))/3600 + 1.5*float64(min(max(i-119, 0), 100))/3600
		return fmt.Sprintf("%d,%.1f,%.0f,%.6f,298.15", i, v*1000, a*1000/10, ah/10)
	})
	_, sum := readAll(t, "magnitudes", text, Options{})
	if want := "time in s, voltage mV, current mA, discharge negative, 1 temperature in K"; sum.Layout.Line != want {
		t.Errorf("%q, want %q", sum.Layout.Line, want)
	}
}
