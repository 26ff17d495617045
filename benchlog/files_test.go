package benchlog

import (
	"context"
	"math"
	"os"
	"strings"
	"testing"

	"ampstead/internal/shared"
)

// measured are the measured logs and what is in them. The charge is the
// trapezoidal integral of the whole file over each stretch between restarts,
// computed from the files by another program.
var measured = []struct {
	name     string
	line     string
	roles    string // first letters, see letters
	rows     int
	restarts int
}{
	{"ev2013-6group-discharge-130a", "time in s, pack V, current A, discharge negative, 6 groups (group1_v to group6_v), 3 temperatures", "tvigggggg°°°qw", 2209, 0},
	{"ev2013-6group-discharge-19.5a", "time in s, pack V, current A, discharge negative, 6 groups (group1_v to group6_v), 3 temperatures", "tvigggggg°°°qw", 13870, 0},
	{"ev2013-cell-48h-rest-a", "time in s, voltage V, current A, discharge negative", "tvi#q", 5133, 0},
	{"ev2013-cell-c15-cycles-a", "time in s, voltage V, current A, discharge negative", "tvi#q", 6711, 0},
	{"ev2013-cell-hppc-25c", "time in s, voltage V, current A, discharge negative", "tvi.#qw", 13248, 0},
	{"lfp102-cell1-charges", "time in s, voltage V, current A, discharge negative, 1 temperature", "ctvi°+", 12428, 118},
	{"lgm50-discharge-0.1c-25c", "time in s, voltage V, current A, discharge negative, 1 temperature", "tvi°", 1323, 0},
	{"lgm50-pulse-25c-cells123", "time in s, voltage V, current A, discharge negative, 1 temperature", "..%tvi°", 3230, 26},
	{"nasa-b0005-discharge", "time in s, voltage V, current A, discharge negative, 1 temperature", "ctvi°", 8281, 27},
}

var letters = map[Role]string{Time: "t", Voltage: "v", Current: "i", GroupV: "g", Temperature: "°", Charge: "q", ChargeIn: "+",
	ChargeOut: "-", Energy: "w", Power: "p", Cycle: "c", Step: "#", SoC: "%", Ignored: "."}

func rolesOf(l Layout) string {
	var s strings.Builder
	for _, c := range l.Columns {
		s.WriteString(letters[c.Role])
	}
	return s.String()
}

// readAll reads everything; rows are copied.
func readAll(t testing.TB, name string, text string, o Options) ([]Row, *Summary) {
	t.Helper()
	var rows []Row
	sum, err := Read(context.Background(), name, strings.NewReader(text), o, func(r *Row) error {
		rows = append(rows, copyRow(r))
		return nil
	})
	if err != nil {
		t.Fatalf("%s: %v\n%s", name, err, text[:min(len(text), 600)])
	}
	return rows, sum
}

func copyRow(r *Row) Row {
	c := *r
	c.Groups = append([]float64(nil), r.Groups...)
	c.TempsC = append([]float64(nil), r.TempsC...)
	return c
}

func TestMeasuredFiles(t *testing.T) {
	for _, tt := range measured {
		t.Run(tt.name, func(t *testing.T) {
			text, err := os.ReadFile(shared.Path(t, "data/battery/"+tt.name+".csv.gz"))
			if err != nil {
				t.Fatal(err)
			}
			rows, sum := readAll(t, tt.name, string(text), Options{})
			l := sum.Layout
			if l.Line != tt.line {
				t.Errorf("line %q, want %q", l.Line, tt.line)
			}
			if got := rolesOf(l); got != tt.roles {
				t.Errorf("roles %s, want %s", got, tt.roles)
			}
			if l.Sign != chargePositive || l.SignHow == "header" || strings.HasPrefix(l.SignHow, "assumed") {
				t.Errorf("sign %q by %q", l.Sign, l.SignHow)
			}
			if l.Packing != "gzip" || l.Separator != "comma" || l.Decimal != "point" || l.Header != 1 || l.Time != "s" {
				t.Errorf("layout %+v", l)
			}
			if len(rows)+sum.Repeated != tt.rows || sum.UnreadAll != 0 || sum.Restarts != tt.restarts || len(sum.Steps) != 0 {
				t.Errorf("%d rows + %d repeated, %d unread, %d restarts, %d steps; want %d rows and %d restarts", len(rows), sum.Repeated, sum.UnreadAll, sum.Restarts, len(sum.Steps), tt.rows, tt.restarts)
			}
			t.Log(l.SignHow, sum.Gaps, sum.Repeated)
		})
	}
}

// TestKnownCharges integrates what was read against the known answers.
func TestKnownCharges(t *testing.T) {
	for name, want := range map[string]float64{"ev2013-6group-discharge-130a": -55.40, "ev2013-6group-discharge-19.5a": -54.90} {
		text, err := os.ReadFile(shared.Path(t, "data/battery/"+name+".csv.gz"))
		if err != nil {
			t.Fatal(err)
		}
		rows, _ := readAll(t, name, string(text), Options{})
		sum := 0.0
		for i := 1; i < len(rows); i++ {
			sum += (rows[i].Time - rows[i-1].Time) * (rows[i].Amps + rows[i-1].Amps) / 7200
		}
		if math.Abs(sum-want) > 0.005*math.Abs(want) {
			t.Errorf("%s: %.2f Ah, want %.2f", name, sum, want)
		}
	}
}

// readDressed is readAll for a property test.
func readDressed(t interface{ Fatalf(string, ...any) }, packed, text string) ([]Row, *Summary) {
	var rows []Row
	sum, err := Read(context.Background(), "dressed", strings.NewReader(packed), Options{}, func(r *Row) error {
		rows = append(rows, copyRow(r))
		return nil
	})
	if err != nil {
		t.Fatalf("%v\n%s", err, text[:min(len(text), 600)])
	}
	return rows, sum
}
