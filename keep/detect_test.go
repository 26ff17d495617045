package keep

import (
	"fmt"
	"os"
	"slices"
	"strings"
	"testing"

	"ampstead/fit"
	"ampstead/internal/golden"
	"ampstead/rig"
)

// fullTables is the environment variable that makes the tests run all simulated
// logs of docs/keep.md, some minutes, instead of a few; with -update they are
// written.
const fullTables = "AMPSTEAD_KEEP_TABLES"

var (
	rhythms = []struct {
		name string
		days float64
	}{{"weekly", 7}, {"fortnightly", 14}, {"monthly", 30}, {"quarterly", 91}}
	meterErrors = []float64{0.001, 0.005, 0.010}
)

const (
	beforeDays = 182.0 // of the log before a leak sets in
	watchedFor = 728.0 // days after it
	quietYears = 4
)

// detects returns the days from a leak's onset until it is told, or the group is
// found below its limit, and whether that was within the days watched; wrong is
// whether another group was told first.
func detects(t testing.TB, r *rig.Rig, f *fit.Result, ma, errorV, every float64, seed uint64) (days float64, seen, wrong bool) {
	l := logOf{leakMA: map[int]float64{4: ma}, begins: int(beforeDays / every), every: every, errorV: errorV, stepV: 0.001, seed: seed}
	l.visits = l.begins + int(watchedFor/every) + 1
	list := l.readings(t, f)
	for n := l.begins + 1; n <= len(list); n++ {
		s := drifting(r, f, list[:n], l.meters())
		gone := slices.ContainsFunc(s.beyond(), func(o outside) bool { return o.group == 5 })
		for _, g := range s.res.Groups {
			if !g.Drifts && !(gone && g.Number == 5) {
				continue
			}
			if g.Number != 5 {
				return 0, false, true
			}
			// The leak is there since the visit before the first that can show it.
			return float64(n-l.begins) * every, true, false
		}
	}
	return watchedFor, false, false
}

// quiet returns how many of a log's looks told a drift though there is none, as
// separate alarms.
func quiet(t testing.TB, r *rig.Rig, f *fit.Result, errorV, every float64, seed uint64) (alarms int) {
	l := logOf{every: every, visits: int(quietYears * 365 / every), errorV: errorV, stepV: 0.001, seed: seed}
	list := l.readings(t, f)
	was := false
	for n := leastTold; n <= len(list); n++ {
		is := slices.ContainsFunc(drifting(r, f, list[:n], l.meters()).res.Groups, func(g Group) bool { return g.Drifts || g.Step != nil })
		if is && !was {
			alarms++
		}
		was = is
	}
	return alarms
}

func TestALeakIsToldSoon(t *testing.T) {
	r, f := example(t, "curlew")
	for _, c := range []struct{ ma, errorV, every, within float64 }{{5, 0.001, 14, 56}, {20, 0.005, 14, 70}, {10, 0.010, 7, 200}} {
		for seed := range uint64(3) {
			days, seen, wrong := detects(t, r, f, c.ma, c.errorV, c.every, seed)
			if !seen || wrong || days > c.within {
				t.Errorf("%g mA with %g V every %g days: told %v after %g days, another group %v", c.ma, c.errorV, c.every, seen, days, wrong)
			}
		}
	}
}

func TestAQuietLogStaysQuiet(t *testing.T) {
	r, f := example(t, "curlew")
	for seed := range uint64(3) {
		if n := quiet(t, r, f, 0.005, 30, seed); n > 0 {
			t.Errorf("seed %d: %d false alarms", seed, n)
		}
	}
}

func TestDetectionTable(t *testing.T) {
	if os.Getenv(fullTables) == "" {
		t.Skip("set " + fullTables + "=1 to run all simulated logs")
	}
	r, f := example(t, "curlew")
	var text strings.Builder
	const seeds = 10
	text.WriteString("| leak | meter | " + strings.Join(named(), " | ") + " |\n|---|---|---|---|---|---|\n")
	for _, ma := range leaks {
		for _, errorV := range meterErrors {
			fmt.Fprintf(&text, "| %g mA | %g mV |", ma, 1000*errorV)
			for _, every := range rhythms {
				var days []float64
				missed, wrongs := 0, 0
				for seed := range uint64(seeds) {
					d, seen, wrong := detects(t, r, f, ma, errorV, every.days, seed)
					if wrong {
						wrongs++
						continue
					}
					if !seen {
						missed++
					}
					days = append(days, d)
				}
				fmt.Fprintf(&text, " %s |", cellOf(days, missed, wrongs))
			}
			text.WriteString("\n")
		}
	}
	golden.Check(t, "detection.md", []byte(text.String()))
}

func named() (list []string) {
	for _, r := range rhythms {
		list = append(list, r.name)
	}
	return list
}

// cellOf writes the middle and the slowest of some detections.
func cellOf(days []float64, missed, wrongs int) string {
	slices.Sort(days)
	text := fmt.Sprintf("%.0f (%.0f)", middle(days), days[len(days)-1])
	if missed > 0 {
		text = fmt.Sprintf("%.0f (%d of %d not)", middle(days), missed, len(days))
	}
	if 2*missed > len(days) {
		text = fmt.Sprintf("%d of %d not", missed, len(days))
	}
	if wrongs > 0 {
		text += fmt.Sprintf(", %d times another group first", wrongs)
	}
	return text
}

func TestFalseAlarmTable(t *testing.T) {
	if os.Getenv(fullTables) == "" {
		t.Skip("set " + fullTables + "=1 to run all simulated logs")
	}
	r, f := example(t, "curlew")
	var text strings.Builder
	const seeds = 12
	total := 0
	text.WriteString("| meter | " + strings.Join(named(), " | ") + " |\n|---|---|---|---|---|\n")
	for _, errorV := range meterErrors {
		fmt.Fprintf(&text, "| %g mV |", 1000*errorV)
		for _, every := range rhythms {
			n := 0
			for seed := range uint64(seeds) {
				n += quiet(t, r, f, errorV, every.days, 100+seed)
			}
			total += n
			fmt.Fprintf(&text, " %d |", n)
		}
		text.WriteString("\n")
	}
	years := seeds * quietYears * len(meterErrors) * len(rhythms)
	fmt.Fprintf(&text, "\nIn all %d in %d years of twelve groups, each visit looked at as it came.\n", total, years)
	golden.Check(t, "alarms.md", []byte(text.String()))
}
