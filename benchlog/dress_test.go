package benchlog

import (
	"archive/zip"
	"bytes"
	"compress/gzip"
	"compress/zlib"
	"fmt"
	"math"
	"strconv"
	"strings"
	"testing"
	"time"
	"unicode/utf16"

	"pgregory.net/rapid"

	_ "ampstead/internal/fixedseed"
)

// log is a test of a pack in SI, from which files of all kinds are written.
type log struct {
	time, volts, amps []float64
	groups, temps     [][]float64 // by column
}

// drawLog makes a rest, a discharge, a rest, a charge with a tail at constant
// voltage, and a rest.
func drawLog(t *rapid.T) log {
	var l log
	groups := rapid.SampledFrom([]int{0, 0, 2, 3, 6, 14}).Draw(t, "groups")
	temps := rapid.IntRange(0, 2).Draw(t, "temps")
	step := rapid.SampledFrom([]float64{1, 10}).Draw(t, "step")
	load := rapid.SampledFrom([]float64{2, 20, 75}).Draw(t, "load")
	first := rapid.SampledFrom([]float64{0, 1, 36000}).Draw(t, "first")
	rest := rapid.IntRange(3, 30).Draw(t, "rest")
	l.groups, l.temps = make([][]float64, groups), make([][]float64, temps)
	series := rapid.SampledFrom([]int{1, 4, 7}).Draw(t, "series")
	if groups > 0 {
		series = groups
	}
	soc, heat, tail := 0.85, 0.0, 1.0
	for i := range 2*rest + 250 {
		a := 0.0
		switch {
		case i >= rest && i < rest+100:
			a = -load
		case i >= 2*rest+100 && i < 2*rest+175:
			a = load * 0.8
		case i >= 2*rest+175 && i < 2*rest+200:
			tail *= 0.9
			a = load * 0.8 * tail
		}
		soc += 0.5 * a / load / 100
		heat += a * a / load / load * 0.04
		l.add(first+step*float64(i), 3.3+soc, 0.12*a/load, a, heat, series)
	}
	return l
}

func (l *log) add(at, open, drop, amps, heat float64, series int) {
	l.time = append(l.time, at)
	l.amps = append(l.amps, round(amps, 3))
	l.volts = append(l.volts, round(float64(series)*(open+drop), 3))
	for g := range l.groups {
		l.groups[g] = append(l.groups[g], round(open+drop*(1+0.05*float64(g))-0.004*float64(g), 3))
	}
	for k := range l.temps {
		l.temps[k] = append(l.temps[k], round(22.5+heat+float64(k), 1))
	}
}

func round(v float64, places int) float64 {
	p := math.Pow(10, float64(places))
	return math.Round(v*p) / p
}

// dress is how a log is written.
type dress struct {
	separator, mark string
	names           func(role Role, n int, unit string) string
	unitLine        bool
	headerless      bool
	milliV, milliA  bool
	temp            string // unit
	time            string
	flip            bool
	preamble        string
	ending          string
	order           []int
}

// nameStyles write the name of a column in the ways of many loggers.
var nameStyles = map[string]func(role Role, n int, unit string) string{
	"snake": func(role Role, n int, unit string) string {
		return map[Role]string{Time: "time", Voltage: "voltage", Current: "current", GroupV: fmt.Sprintf("group%d", n), Temperature: fmt.Sprintf("temperature%d", n)}[role] + "_" + strings.ToLower(strings.Trim(unit, "°"))
	},
	"round brackets": func(role Role, n int, unit string) string {
		return map[Role]string{Time: "Test_Time", Voltage: "Voltage", Current: "Current", GroupV: fmt.Sprintf("Cell Voltage %d", n), Temperature: fmt.Sprintf("Temperature %d", n)}[role] + "(" + unit + ")"
	},
	"square brackets": func(role Role, n int, unit string) string {
		return map[Role]string{Time: "Elapsed time", Voltage: "Pack voltage", Current: "Pack current", GroupV: fmt.Sprintf("Cell %02d", n), Temperature: fmt.Sprintf("Temp %d", n)}[role] + " [" + unit + "]"
	},
	"slash": func(role Role, n int, unit string) string {
		return map[Role]string{Time: "t", Voltage: "U", Current: "I", GroupV: fmt.Sprintf("U%d", n), Temperature: fmt.Sprintf("T%d", n)}[role] + " / " + unit
	},
	"german": func(role Role, n int, unit string) string {
		return map[Role]string{Time: "Zeit", Voltage: "Gesamtspannung", Current: "Strom", GroupV: fmt.Sprintf("Zelle %d", n), Temperature: fmt.Sprintf("Temperatur %d", n)}[role] + " [" + unit + "]"
	},
	"french": func(role Role, n int, unit string) string {
		return map[Role]string{Time: "Temps", Voltage: "Tension", Current: "Courant", GroupV: fmt.Sprintf("Cellule %d", n), Temperature: fmt.Sprintf("Température %d", n)}[role] + " (" + unit + ")"
	},
	"spanish": func(role Role, n int, unit string) string {
		return map[Role]string{Time: "Tiempo", Voltage: "Voltaje", Current: "Corriente", GroupV: fmt.Sprintf("Celda %d", n), Temperature: fmt.Sprintf("Temperatura %d", n)}[role] + " (" + unit + ")"
	},
	"short without units": func(role Role, n int, _ string) string {
		return map[Role]string{Time: "Time", Voltage: "Vbat", Current: "Ibat", GroupV: fmt.Sprintf("c%02d", n), Temperature: fmt.Sprintf("ntc%d", n)}[role]
	},
	"numbered without units": func(role Role, n int, _ string) string {
		return map[Role]string{Time: "timestamp", Voltage: "battery voltage", Current: "current", GroupV: fmt.Sprintf("V%d", n), Temperature: fmt.Sprintf("T%d", n)}[role]
	},
	"camel": func(role Role, n int, unit string) string {
		return map[Role]string{Time: "TotalTime", Voltage: "PackVoltage", Current: "PackCurrent", GroupV: fmt.Sprintf("VCell%d", n), Temperature: fmt.Sprintf("TempCell%d", n)}[role] + " " + unit
	},
}

func drawDress(t *rapid.T, l log) dress {
	d := dress{
		separator:  rapid.SampledFrom([]string{",", ";", "\t", "|", " "}).Draw(t, "separator"),
		mark:       ".",
		headerless: rapid.IntRange(0, 4).Draw(t, "headerless") == 0,
		flip:       rapid.Bool().Draw(t, "flip"),
		preamble:   rapid.SampledFrom([]string{"", "", "Device: logger 7\r\nSerial: 00123\r\n\r\n", "# logger 7\n# channels 4\n", "Log of 2024-03-01\n"}).Draw(t, "preamble"),
		ending:     rapid.SampledFrom([]string{"\n", "\r\n", "\r"}).Draw(t, "ending"),
		temp:       rapid.SampledFrom([]string{"°C", "°F", "K"}).Draw(t, "temp"),
		time:       rapid.SampledFrom([]string{"s", "s", "ms", "min", "h", "clock", "iso", "dmy", "mdy", "d/m/y", "epoch"}).Draw(t, "time"),
	}
	if d.separator != "," && rapid.Bool().Draw(t, "comma") {
		d.mark = ","
	}
	style := rapid.SampledFrom([]string{"snake", "round brackets", "square brackets", "slash", "german", "french", "spanish", "short without units", "numbered without units", "camel"}).Draw(t, "style")
	d.names = nameStyles[style]
	d.milliV = rapid.IntRange(0, 3).Draw(t, "mV") == 0
	d.milliA = rapid.IntRange(0, 3).Draw(t, "mA") == 0 && (d.milliV || !strings.Contains(style, "without"))
	if strings.Contains(style, "without") || d.headerless {
		d.milliA = d.milliA && d.milliV && math.Abs(l.amps[len(l.amps)/3]) > 1
		if d.time == "min" || d.time == "h" {
			d.time = "s"
		}
		d.temp = "°C"
	}
	if d.separator == " " && d.ending == "\r" {
		d.ending = "\n"
	}
	d.unitLine = !d.headerless && rapid.IntRange(0, 5).Draw(t, "units") == 0 && style == "german"
	n := 3 + len(l.groups) + len(l.temps)
	d.order = make([]int, n)
	for i := range d.order {
		d.order[i] = i
	}
	if rapid.Bool().Draw(t, "shuffle") {
		d.order = rapid.Permutation(d.order).Draw(t, "order")
	}
	return d
}

// columns returns role, number and unit of each column in the log's own order.
func (d *dress) column(l log, i int) (role Role, n int, unit string) {
	switch g := len(l.groups); {
	case i == 0:
		return Time, 0, d.time
	case i == 1:
		return Voltage, 0, pick(d.milliV, "mV", "V")
	case i == 2:
		return Current, 0, pick(d.milliA, "mA", "A")
	case i < 3+g:
		return GroupV, i - 2, pick(d.milliV, "mV", "V")
	default:
		return Temperature, i - 2 - g, d.temp
	}
}

func pick(yes bool, a, b string) string {
	if yes {
		return a
	}
	return b
}

func (d *dress) value(l log, i, row int) string {
	role, n, unit := d.column(l, i)
	v := 0.0
	switch role {
	case Time:
		return d.moment(l.time[row])
	case Voltage:
		v = l.volts[row]
	case Current:
		v = l.amps[row]
		if d.flip {
			v = -v
		}
	case GroupV:
		v = l.groups[n-1][row]
	case Temperature:
		v = l.temps[n-1][row]
		switch unit {
		case "°F":
			return d.decimal(v*9/5+32, 2)
		case "K":
			return d.decimal(v+273.15, 2)
		}
		return d.decimal(v, 1)
	}
	if strings.HasPrefix(unit, "m") {
		return d.decimal(v*1000, 0)
	}
	return d.decimal(v, 3)
}

func (d *dress) decimal(v float64, places int) string {
	s := strconv.FormatFloat(v, 'f', places, 64)
	return strings.Replace(s, ".", d.mark, 1)
}

func (d *dress) moment(s float64) string {
	at := time.Date(2024, 3, 4, 0, 0, 0, 0, time.UTC).Add(time.Duration(s * float64(time.Second)))
	switch d.time {
	case "ms":
		return d.decimal(s*1000, 0)
	case "min":
		return d.decimal(s/60, 6)
	case "h":
		return d.decimal(s/3600, 8)
	case "clock":
		return fmt.Sprintf("%02d:%02d:%02d", int(s)/3600, int(s)/60%60, int(s)%60)
	case "iso":
		return at.Format("2006-01-02T15:04:05")
	case "dmy":
		return at.Format("02.01.2006 15:04:05")
	case "mdy":
		return at.Format("01/02/2006 03:04:05 PM")
	case "d/m/y":
		return at.Format("2/1/2006 15:04:05")
	case "epoch":
		return strconv.FormatInt(at.Unix(), 10)
	}
	return d.decimal(s, 1)
}

// write puts a log on paper.
func (d *dress) write(l log) string {
	var b strings.Builder
	line := func(field func(i int) string) {
		for k, i := range d.order {
			if k > 0 {
				b.WriteString(d.separator)
			}
			b.WriteString(field(i))
		}
		b.WriteString(d.ending)
	}
	b.WriteString(strings.NewReplacer("\r\n", d.ending, "\n", d.ending).Replace(d.preamble))
	if !d.headerless {
		line(func(i int) string {
			role, n, unit := d.column(l, i)
			if role == Time && len(unit) > 3 {
				return d.quote(strings.NewReplacer("()", "", "[]", "", " / ", "", "_clock", "").Replace(d.names(role, n, "")))
			}
			if d.unitLine {
				unit = ""
			}
			return d.quote(strings.NewReplacer("()", "", "[]", "").Replace(d.names(role, n, unit)))
		})
		if d.unitLine {
			line(func(i int) string {
				_, _, unit := d.column(l, i)
				return pick(len(unit) > 3, "", unit)
			})
		}
	}
	for row := range l.time {
		line(func(i int) string { return d.quote(d.value(l, i, row)) })
	}
	return b.String()
}

// quote puts in quotes what would fall apart.
func (d *dress) quote(s string) string {
	s = strings.TrimRight(s, "_ ")
	if d.separator == " " && strings.Contains(s, " ") {
		return `"` + s + `"`
	}
	return s
}

// coats are encodings and packings around the text.
var coats = map[string]func(string) string{
	"plain":  func(s string) string { return s },
	"bom":    func(s string) string { return "\ufeff" + s },
	"latin1": func(s string) string { return string(narrow(s)) },
	"utf16": func(s string) string {
		var b bytes.Buffer
		b.Write([]byte{0xFF, 0xFE})
		for _, u := range utf16.Encode([]rune(s)) {
			b.Write([]byte{byte(u), byte(u >> 8)})
		}
		return b.String()
	},
	"gzip": func(s string) string {
		var b bytes.Buffer
		z := gzip.NewWriter(&b)
		z.Write([]byte(s))
		z.Close()
		return b.String()
	},
	"zlib": func(s string) string {
		var b bytes.Buffer
		z := zlib.NewWriter(&b)
		z.Write([]byte(s))
		z.Close()
		return b.String()
	},
	"zip": func(s string) string {
		var b bytes.Buffer
		z := zip.NewWriter(&b)
		w, _ := z.Create("log.csv")
		w.Write([]byte(s))
		z.Close()
		return b.String()
	},
}

func narrow(s string) []byte {
	var b []byte
	for _, r := range s {
		b = append(b, byte(r))
	}
	return b
}

// TestAnyDress reads one log in many dresses; the rows must be the same.
func TestAnyDress(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		l := drawLog(t)
		d := drawDress(t, l)
		coat := rapid.SampledFrom([]string{"plain", "bom", "latin1", "utf16", "gzip", "zlib", "zip"}).Draw(t, "coat")
		text := d.write(l)
		rows, sum := readDressed(t, coats[coat](text), text)
		if sum.UnreadAll > 0 || len(rows)+sum.Repeated != len(l.time) {
			t.Fatalf("%d rows, unread %d %+v\n%s\n%s", len(rows), sum.UnreadAll, sum.Unread, sum.Layout.Line, beginningOf(text))
		}
		for i := range rows {
			if why := differs(l, i, &rows[i], d.headerless); why != "" {
				t.Fatalf("row %d: %s\n%s\n%s\n%+v", i, why, sum.Layout.Line, beginningOf(text), sum.Layout.Columns)
			}
		}
	})
}

func beginningOf(text string) string { return text[:min(len(text), 500)] }

// differs compares a row with the log; anyOrder lets groups and temperatures
// stand in the order of the file where no header numbers them.
func differs(l log, i int, r *Row, anyOrder bool) string {
	close := func(a, b, tol float64) bool { return math.Abs(a-b) <= tol }
	switch {
	case !close(r.Time, l.time[i]-l.time[0], 1e-3):
		return fmt.Sprintf("time %g, want %g", r.Time, l.time[i]-l.time[0])
	case !close(r.Volts, l.volts[i], 1e-6):
		return fmt.Sprintf("volts %g, want %g", r.Volts, l.volts[i])
	case !close(r.Amps, l.amps[i], 1e-6):
		return fmt.Sprintf("amps %g, want %g", r.Amps, l.amps[i])
	case len(r.Groups) != len(l.groups) || len(r.TempsC) != len(l.temps):
		return fmt.Sprintf("%d groups and %d temperatures, want %d and %d", len(r.Groups), len(r.TempsC), len(l.groups), len(l.temps))
	}
	if why := sameSet("groups", r.Groups, l.groups, i, anyOrder); why != "" {
		return why
	}
	return sameSet("temperatures", r.TempsC, l.temps, i, true)
}

func sameSet(what string, got []float64, want [][]float64, i int, anyOrder bool) string {
	for k := range want {
		found := false
		for j := range got {
			found = found || (anyOrder || j == k) && math.Abs(got[j]-want[k][i]) < 0.01
		}
		if !found {
			return fmt.Sprintf("%s %v, want %d to be %g", what, got, k, want[k][i])
		}
	}
	return ""
}
