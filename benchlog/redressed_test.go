package benchlog

import (
	"bytes"
	"compress/gzip"
	"encoding/csv"
	"fmt"
	"io"
	"math"
	"os"
	"slices"
	"strconv"
	"strings"
	"testing"

	"ampstead/internal/shared"
)

// rewrites are ways to write a measured log anew; each changes the table in
// place or what is printed around it.
var rewrites = []struct {
	name      string
	separator string
	mark      string
	change    func(table [][]string)
}{
	{"discharge positive", ",", ".", func(t [][]string) { scale(t, "current_a", -1, "current_a") }},
	{"semicolon and comma", ";", ",", func([][]string) {}},
	{"millis", "\t", ".", func(t [][]string) {
		scale(t, "current_a", -1000, "I [mA]")
		scale(t, "voltage_v", 1000, "U [mV]")
		for g := range 6 {
			scale(t, fmt.Sprintf("group%d_v", g+1), 1000, fmt.Sprintf("Zelle %d (mV)", g+1))
		}
	}},
	{"columns reversed", ",", ".", func(t [][]string) {
		for _, row := range t {
			slices.Reverse(row)
		}
	}},
	{"hours", ";", ".", func(t [][]string) { scale(t, "time_s", 1.0/3600, "Elapsed (h)") }},
	{"no unit in the header", ",", ".", func(t [][]string) {
		for i, name := range t[0] {
			if stem, unit, _ := strings.Cut(name, "_"); len(unit) == 1 {
				t[0][i] = stem
			}
		}
	}},
}

func scale(table [][]string, column string, by float64, name string) {
	at := slices.Index(table[0], column)
	if at < 0 {
		return
	}
	table[0][at] = name
	for _, row := range table[1:] {
		v, _ := strconv.ParseFloat(row[at], 64)
		row[at] = strconv.FormatFloat(v*by, 'f', -1, 64)
	}
}

func loadTable(t *testing.T, name string) (text string, table func() [][]string) {
	t.Helper()
	packed, err := os.ReadFile(shared.Path(t, "data/battery/"+name+".csv.gz"))
	if err != nil {
		t.Fatal(err)
	}
	z, err := gzip.NewReader(bytes.NewReader(packed))
	if err != nil {
		t.Fatal(err)
	}
	plain, err := io.ReadAll(z)
	if err != nil {
		t.Fatal(err)
	}
	return string(plain), func() [][]string {
		rows, err := csv.NewReader(bytes.NewReader(plain)).ReadAll()
		if err != nil {
			t.Fatal(err)
		}
		return rows[:min(len(rows), 4000)]
	}
}

func printTable(table [][]string, separator, mark string) string {
	var b strings.Builder
	for i, row := range table {
		line := strings.Join(row, separator)
		if i > 0 {
			line = strings.ReplaceAll(line, ".", mark)
		}
		b.WriteString(line + "\n")
	}
	return b.String()
}

// TestMeasuredFilesRewritten reads each measured log as other loggers would
// have written it; the rows must be those of the original.
func TestMeasuredFilesRewritten(t *testing.T) {
	for _, m := range measured {
		_, table := loadTable(t, m.name)
		want, _ := readAll(t, m.name, printTable(table(), ",", "."), Options{})
		for _, w := range rewrites {
			t.Run(m.name+"/"+w.name, func(t *testing.T) {
				changed := table()
				w.change(changed)
				got, sum := readAll(t, w.name, printTable(changed, w.separator, w.mark), Options{})
				compareRows(t, got, want, sum)
			})
		}
		t.Run(m.name+"/no header", func(t *testing.T) {
			got, sum := readAll(t, "no header", printTable(table()[1:], ",", "."), Options{})
			t.Log(sum.Layout.Line)
			for i := range got {
				got[i].Line++
				got[i].ChargeAh, got[i].TempsC, got[i].Cycle = want[i].ChargeAh, want[i].TempsC, want[i].Cycle
			}
			compareRows(t, got, want, sum)
		})
	}
}

func compareRows(t *testing.T, got, want []Row, sum *Summary) {
	t.Helper()
	if len(got) != len(want) || sum.UnreadAll > 0 {
		t.Fatalf("%d rows and %d unread, want %d; %s", len(got), sum.UnreadAll, len(want), sum.Layout.Line)
	}
	for i := range got {
		g, w := &got[i], &want[i]
		same := near(g.Time, w.Time, 0.01) && near(g.Volts, w.Volts, 1e-6) && near(g.Amps, w.Amps, 1e-6) &&
			g.Cycle == w.Cycle && len(g.Groups) == len(w.Groups) && len(g.TempsC) == len(w.TempsC) && near(g.ChargeAh, w.ChargeAh, 1e-6)
		for k := range g.Groups {
			same = same && near(g.Groups[k], w.Groups[k], 1e-6)
		}
		if !same {
			t.Fatalf("row %d is %+v, want %+v\n%s (%s)\n%+v", i, *g, *w, sum.Layout.Line, sum.Layout.SignHow, sum.Layout.Columns)
		}
	}
}

func near(a, b, tol float64) bool {
	return math.Abs(a-b) <= tol || math.IsNaN(a) && math.IsNaN(b)
}

// TestHeadersOverMeasuredRows puts other headers over measured rows, with the
// current as it was and turned round.
func TestHeadersOverMeasuredRows(t *testing.T) {
	tests := []struct{ name, header, roles string }{
		{"ev2013-6group-discharge-130a", "Timestamp,Pack V,Pack A,Cell 1 V,Cell 2 V,Cell 3 V,Cell 4 V,Cell 5 V,Cell 6 V,Temp A,Temp B,Temp C,Ah,Wh", "tvigggggg°°°qw"},
		{"ev2013-6group-discharge-130a", "Zeit (s),Ubatt (V),Ibatt (A),Uz1,Uz2,Uz3,Uz4,Uz5,Uz6,Tz1,Tz2,Tz3,Q,Energie", "tvigggggg°°°qw"},
		{"ev2013-6group-discharge-130a", "t,Utot,Itot,S1,S2,S3,S4,S5,S6,TC1,TC2,TC3,Ah out,Wh out", "tvigggggg°°°-w"},
		{"ev2013-6group-discharge-130a", "Time,Ch0,Ch1,Ch2,Ch3,Ch4,Ch5,Ch6,Ch7,Ch8,Ch9,Ch10,Ch11,Ch12", "tvigggggg°°°q."},
		{"ev2013-6group-discharge-130a", "run_s,u_term,i_load,cell[0],cell[1],cell[2],cell[3],cell[4],cell[5],temp[0],temp[1],temp[2],Q_Ah,E_Wh", "tvigggggg°°°qw"},
		{"ev2013-6group-discharge-130a", "Sekunden,Spannung,Stromstärke,Zellspannung 1,Zellspannung 2,Zellspannung 3,Zellspannung 4,Zellspannung 5,Zellspannung 6,Temp. 1,Temp. 2,Temp. 3,Kapazität,Energie", "tvigggggg°°°qw"},
		{"ev2013-6group-discharge-130a", "elapsed,V_pack,I_pack,V_cell_1,V_cell_2,V_cell_3,V_cell_4,V_cell_5,V_cell_6,T_cell_1,T_cell_2,T_cell_3,cap,energy", "tvigggggg°°°qw"},
		{"ev2013-6group-discharge-130a", "Time [s],Module voltage [V],Module current [A],G1 [V],G2 [V],G3 [V],G4 [V],G5 [V],G6 [V],Sensor 1 [°C],Sensor 2 [°C],Sensor 3 [°C],Charge [Ah],Energy [Wh]", "tvigggggg°°°qw"},
		{"ev2013-6group-discharge-130a", "seconds,volts,amps,v_g1,v_g2,v_g3,v_g4,v_g5,v_g6,deg_c_1,deg_c_2,deg_c_3,amp_hours,watt_hours", "tvigggggg°°°qw"},
		{"ev2013-6group-discharge-130a", "temps_s,tension_v,courant_a,element1_v,element2_v,element3_v,element4_v,element5_v,element6_v,temp1,temp2,temp3,capacite_ah,energie_wh", "tvigggggg°°°qw"},
		{"ev2013-6group-discharge-130a", "SECS,VOLTS,AMPS,CELLV1,CELLV2,CELLV3,CELLV4,CELLV5,CELLV6,TMP1,TMP2,TMP3,AMPHRS,WATTHRS", "tvigggggg°°°qw"},
		{"ev2013-6group-discharge-130a", "a,b,c,d,e,f,g,h,i,j,k,l,m,n", "tvigggggg°°°q."},
		{"nasa-b0005-discharge", "cycle,time_s,voltage_v,Load current (A),temperature_c", "ctvi°"},
		{"nasa-b0005-discharge", "Cyc#,Time,Voltage,Current,Temperature", "ctvi°"},
		{"nasa-b0005-discharge", "n,t,U,I,T", ".tvi°"},
	}
	for _, tt := range tests {
		_, table := loadTable(t, tt.name)
		for _, sign := range []float64{1, -1} {
			rows := table()
			scale(rows, "current_a", sign, "current_a")
			rows[0] = strings.Split(tt.header, ",")
			got, sum := readAll(t, tt.header, printTable(rows, ",", "."), Options{})
			if roles := rolesOf(sum.Layout); roles != tt.roles {
				t.Errorf("%s\n got %s\nwant %s", tt.header, roles, tt.roles)
			}
			if got[25].Amps > -1 {
				t.Errorf("%s: %g A while discharging; %s (%s)", tt.header, got[25].Amps, sum.Layout.Line, sum.Layout.SignHow)
			}
		}
	}
}
