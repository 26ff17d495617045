package benchlog

import (
	"context"
	"errors"
	"strings"
	"testing"
)

const short = "zeit;a1;b2;c3\n0;3,70;-2,0;21\n1;3,69;-2,0;21\n2;3,68;-2,0;22\n"

func readOnce(text string, o Options) (*Summary, error) {
	return Read(context.Background(), "log.csv", strings.NewReader(text), o, func(*Row) error { return nil })
}

func TestOptions(t *testing.T) {
	tests := []struct {
		o    Options
		line string
	}{
		{Options{Columns: map[string]string{"A1": "voltage V", "3": "current mA", "c3": "temperature °F"}, Sign: "discharge"},
			"time in s, voltage V, current mA, discharge positive, 1 temperature in °F"},
		{Options{Columns: map[string]string{"a1": "group 2 V", "c3": "group 1 mV", "b2": "current A"}, Time: "min", Sign: "charge", Groups: 2},
			"time in min, pack V as the sum of the groups, current A, discharge negative, 2 groups (c3 to a1 in V and mV)"},
		{Options{Columns: map[string]string{"zeit": "ignored", "a1": "voltage", "b2": "current"}, Time: "10 s", Sign: "charge positive", Separator: "semicolon", Decimal: "comma"},
			"10 s from row to row, voltage V, current A, discharge negative"},
	}
	for _, tt := range tests {
		sum, err := readOnce(short, tt.o)
		if err != nil {
			t.Errorf("%+v: %v", tt.o, err)
			continue
		}
		if sum.Layout.Line != tt.line {
			t.Errorf("%q, want %q", sum.Layout.Line, tt.line)
		}
	}
}

// TestErrors: what cannot be understood gives one error that says what is
// wrong, where, what was expected, and an example.
func TestErrors(t *testing.T) {
	tests := []struct {
		name, text string
		o          Options
		message    string
		line       int
		column     int
	}{
		{"separator", short, Options{Separator: "colon"}, `separator "colon" is not known`, 0, 0},
		{"decimal", short, Options{Decimal: "slash"}, `decimal "slash" is not known`, 0, 0},
		{"sign", short, Options{Sign: "up"}, `sign "up" is not known`, 0, 0},
		{"time", short, Options{Time: "fortnights"}, `time "fortnights" is not known`, 0, 0},
		{"step of nothing", short, Options{Time: "0 s"}, `time "0 s" is not known`, 0, 0},
		{"groups", short, Options{Groups: -1}, "-1 groups", 0, 0},
		{"no such column", short, Options{Columns: map[string]string{"u9": "voltage"}}, `there is no column "u9"`, 1, 0},
		{"no such role", short, Options{Columns: map[string]string{"c3": "pressure"}}, `column "c3" cannot be "pressure"`, 1, 4},
		{"wrong unit", short, Options{Columns: map[string]string{"c3": "voltage mA"}}, `column "c3" cannot be "voltage mA"`, 1, 4},
		{"group nought", short, Options{Columns: map[string]string{"c3": "group 0"}}, `column "c3" cannot be "group 0"`, 1, 4},
		{"groups missing", "time_s,v,cell1_v,cell2_v\n0,7,3.5,3.5\n1,7,3.5,3.5\n", Options{Groups: 6}, "2 groups of voltage found, 6 expected", 1, 0},
		{"no time", "voltage_v,current_a\n3.7,-2\n3.7,-2\n3.7,-2\n", Options{}, "no column of time was found", 1, 0},
		{"no voltage", "time_s,current_a\n0,-2\n1,-2\n2,-1\n", Options{}, "no column of voltage was found", 1, 0},
		{"empty", "", Options{}, "the file is empty", 0, 0},
		{"blank", "\n\n\n", Options{}, "the file is empty", 0, 0},
		{"prose", "This is a letter.\nIt holds no numbers at all, only words.\n", Options{}, "no rows of numbers were found", 1, 0},
		{"page", "<html><body><p>Hello</p></body></html>\n", Options{}, "no rows of numbers were found", 1, 0},
		{"one endless line", strings.Repeat("1,2,", 1<<18), Options{}, "no rows of numbers were found", 1, 0},
		{"header alone", "time_s,voltage_v,current_a\n", Options{}, "no rows of numbers were found", 1, 0},
		{"spreadsheet", "\xd0\xcf\x11\xe0 and so on", Options{}, "this is a spreadsheet", 0, 0},
		{"bad gzip", "\x1f\x8bnot really", Options{}, "the gzip packing is damaged", 0, 0},
		{"bad zip", "PK\x03\x04not really", Options{}, "the zip packing is damaged", 0, 0},
		{"zstandard", "\x28\xb5\x2f\xfd....", Options{}, "packed in a way that is not read here", 0, 0},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			_, err := readOnce(tt.text, tt.o)
			var e *Error
			if !errors.As(err, &e) {
				t.Fatalf("error %v", err)
			}
			if e.File != "log.csv" || !strings.Contains(e.Message, tt.message) || e.Line != tt.line || e.Column != tt.column {
				t.Errorf("%+v", e)
			}
			if e.Expected == "" || e.Example == "" {
				t.Errorf("no help in %+v", e)
			}
			if text := e.Error(); strings.Contains(text, "\n") || !strings.HasPrefix(text, "log.csv") {
				t.Errorf("%q", text)
			}
		})
	}
}
