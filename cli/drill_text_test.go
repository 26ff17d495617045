package cli

import (
	"bytes"
	"strings"
	"testing"

	"ampstead/drill"
	"ampstead/examples"
	"ampstead/internal/drillsample"
	"ampstead/internal/golden"
	"ampstead/rig"
)

func exampleFile(t *testing.T) *rig.File {
	t.Helper()
	text, err := examples.Read("curlew")
	if err != nil {
		t.Fatal(err)
	}
	file, err := rig.Parse("rig.yaml", text)
	if err != nil {
		t.Fatal(err)
	}
	return file
}

func TestDrillText(t *testing.T) {
	var out bytes.Buffer
	file := exampleFile(t)
	text := &drillText{w: &out, res: drillsample.Result(), sys: system(file.Rig)}
	text.print(file)
	golden.Check(t, "drill-sample.golden", out.Bytes())
	for i, line := range strings.Split(out.String(), "\n") {
		if n := len([]rune(line)); n > textWidth {
			t.Errorf("line %d is %d characters long: %s", i+1, n, line)
		}
	}
}

func TestRunText(t *testing.T) {
	var out bytes.Buffer
	printRun(&out, exampleFile(t), drillsample.Frost())
	golden.Check(t, "drill-run.golden", out.Bytes())
}

// A trace keeps its columns when a series is short or has no number.
func TestTraceCSV(t *testing.T) {
	s := &drill.Strip{Time: []float64{0, 1.5}, HighV: []float64{4.1}, BankA: []float64{-3, 2}}
	want := "time_s,highest_cell_v,lowest_cell_v,bank_a,bus_v,coldest_c,hottest_c,soc\n0.000,4.1000,,-3.000,,,,\n1.500,,,2.000,,,,\n"
	if got := string(traceCSV(s)); got != want {
		t.Errorf("got %q\nwant %q", got, want)
	}
}

func TestDrillFlags(t *testing.T) {
	for _, c := range []struct {
		c    drillCommand
		want string
	}{
		{drillCommand{}, ""}, {drillCommand{Scene: "a"}, ""}, {drillCommand{Fault: "x", Second: "y", Scene: "a", Trace: "-"}, ""}, {drillCommand{List: true}, ""},
		{drillCommand{List: true, NoPairs: true}, "--list"}, {drillCommand{Fault: "x"}, "--fault needs --scene"}, {drillCommand{Second: "x", Scene: "a"}, "--second needs --fault"},
		{drillCommand{Fault: "x", Second: "x", Scene: "a"}, "same fault"}, {drillCommand{Trace: "f.csv"}, "--trace"}, {drillCommand{Scene: "a", NoPairs: true}, "--no-pairs"},
		{drillCommand{Scene: "a", Trace: "-", stageFlags: stageFlags{JSON: true}}, "--trace -"},
	} {
		err := c.c.check()
		if c.want == "" && err != nil || c.want != "" && (err == nil || !strings.Contains(err.Error(), c.want)) {
			t.Errorf("%+v: %v, want %q", c.c, err, c.want)
		}
	}
}
