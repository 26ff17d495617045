package prove_test

import (
	"bytes"
	"context"
	"errors"
	"fmt"
	"strings"
	"testing"

	"ampstead/benchlog"
	"ampstead/fit"
	"ampstead/internal/near"
	"ampstead/prove"
)

// The faults of the measured files, by SOURCES.md, and that nothing else is
// said of them.
func TestFaultsOfTheFiles(t *testing.T) {
	cases := []struct {
		file       string
		said       []string
		notSaid    []string
		resistance bool
	}{
		{slowModule, []string{"voltage-resolution", "not-half-full"}, []string{"group-sum", "not-simultaneous", "sense-through-leads", "current-offset", "counter", "limit-overshot", "current-sign"}, true},
		{fastModule, []string{"not-simultaneous"}, []string{"group-sum", "sense-through-leads", "counter", "voltage-resolution", "current-sign"}, true},
		{pulseCell, []string{"temperature-missing"}, []string{"sense-through-leads", "current-offset", "counter", "not-half-full", "current-sign", "gap"}, true},
		{slowCycles, []string{"sense-through-leads"}, []string{"current-offset", "counter"}, false},
		{longRest, []string{"sense-through-leads", "current-offset"}, []string{"counter"}, false},
		{nasa, []string{"limit-overshot"}, []string{"sense-through-leads", "current-offset", "gap", "clock-step"}, true},
		{lfpCharges, []string{"limit-overshot"}, []string{"sense-through-leads", "counter", "current-sign", "gap"}, false},
		{smallPulse, nil, []string{"sense-through-leads", "current-sign", "limit-overshot"}, true},
		{smallSlow, []string{"limit-overshot", "not-half-full"}, []string{"sense-through-leads", "gap", "current-offset"}, true},
	}
	for _, c := range cases {
		res := run(t, c.file, cellOf[c.file])
		for _, id := range c.said {
			if !warned(res, id) {
				t.Errorf("%s: no %s in %+v", c.file, id, res.Warnings)
			}
		}
		for _, id := range c.notSaid {
			if warned(res, id) {
				t.Errorf("%s: %s in %+v", c.file, id, res.Warnings)
			}
		}
		if c.resistance != (res.Resistance > 0) {
			t.Errorf("%s: resistance %g Ω by %q", c.file, res.Resistance, res.ResistHow)
		}
	}
}

// The current shows +4 mA through 48 h of rest: 0.22 Ah that never flowed.
func TestOffsetAtRestIsNotCounted(t *testing.T) {
	res := run(t, longRest, cellOf[longRest])
	rest := res.Segments[2]
	if rest.Kind != "rest" {
		t.Fatalf("third segment is %+v", rest)
	}
	near.Equal(t, "counted by the meter", rest.ChargeAh, 0.22, 0.01)
	ah := res.Chart.Ah
	near.Equal(t, "charge at the end", ah[len(ah)-1], 29.84-29.36, 0.03)
	near.Equal(t, "hours of rest", (rest.To-rest.From)/3600, 48.08, 0.1)
}

// A part of a charge on the flat part of the curve tells no capacity.
func TestPartOnTheFlatCurveIsRefused(t *testing.T) {
	for _, share := range [][2]float64{{0.2, 0.6}, {0, 0.5}, {0.3, 0.9}} {
		all := lines(t, lfpCharges)
		one := []string{all[0]}
		n := 124 // rows of the first charge
		one = append(one, all[1+int(share[0]*float64(n)):1+int(share[1]*float64(n))]...)
		res := runText(t, "part.csv", joined(one), prove.Options{Cell: "lfp"})
		if res.CapacityAh != 0 || res.CapacityHow != "none" || !warned(res, "flat-curve") {
			t.Errorf("%v of a charge: %g Ah by %q, %+v", share, res.CapacityAh, res.CapacityHow, res.Warnings)
		}
	}
}

// A row a minute: 10 s cannot be read any more, charge still can.
func TestSlowLoggerSaysSo(t *testing.T) {
	all := lines(t, slowModule)
	slow := all[:1:1]
	next := 0.0
	for _, line := range all[1:] {
		text, _, _ := strings.Cut(line, ",")
		if at := number(t, text); at >= next {
			slow = append(slow, line)
			next = at + 60
		}
	}
	res := runText(t, "slow.csv", joined(slow), prove.Options{Cell: "lmo-blend-pouch"})
	if !warned(res, "sampling-too-slow") || strings.HasPrefix(res.ResistHow, "10 s") {
		t.Errorf("resistance by %q, %+v", res.ResistHow, res.Warnings)
	}
	near.Relative(t, "capacity", res.CapacityAh, 54.90, 0.01)
}

func TestGapsAreBridgedAndTold(t *testing.T) {
	all := lines(t, slowModule)
	gone := append(append([]string{}, all[:5000]...), all[5600:]...)
	res := runText(t, "gap.csv", joined(gone), prove.Options{Cell: "lmo-blend-pouch"})
	near.Relative(t, "capacity", res.CapacityAh, 54.90, 0.005)
	if !warned(res, "gap") {
		t.Errorf("no gap in %+v", res.Warnings)
	}
}

func TestCounterThatDisagrees(t *testing.T) {
	all := lines(t, fastModule)
	list := all[:1:1]
	for _, line := range all[1:] {
		f := strings.Split(line, ",")
		f[12] = fmt.Sprintf("%.2f", 1.02*number(t, f[12]))
		list = append(list, strings.Join(f, ","))
	}
	res := runText(t, "counter.csv", joined(list), prove.Options{Cell: "lmo-blend-pouch"})
	if !warned(res, "counter") {
		t.Errorf("no counter in %+v", res.Warnings)
	}
	near.Relative(t, "capacity", res.CapacityAh, 55.40, 0.005)
}

func TestGroupThatReadsWrong(t *testing.T) {
	all := lines(t, fastModule)
	list := all[:1:1]
	for _, line := range all[1:] {
		f := strings.Split(line, ",")
		f[4] = fmt.Sprintf("%.3f", number(t, f[4])+0.08)
		list = append(list, strings.Join(f, ","))
	}
	if res := runText(t, "sum.csv", joined(list), prove.Options{Cell: "lmo-blend-pouch"}); !warned(res, "group-sum") {
		t.Errorf("no group-sum in %+v", res.Warnings)
	}
}

func TestOptionsThatMakeNoSense(t *testing.T) {
	cases := []struct {
		o    prove.Options
		path string
	}{
		{prove.Options{}, "cell"},
		{prove.Options{Cell: "unobtainium"}, "cell"},
		{prove.Options{Cell: "nmc532", LowV: 20}, "low"},
		{prove.Options{Cell: "nmc532", HighV: 2}, "high"},
		{prove.Options{Cell: "nmc532", HighV: 25}, "high"},
		{prove.Options{Cell: "nmc532", Groups: -1}, "groups"},
		{prove.Options{Cell: "nmc532", Groups: 3}, "groups"},  // the log has six columns
		{prove.Options{Cell: "nmc532", Groups: 14}, "groups"}, // 1.8 V a cell
		{prove.Options{Cell: "lfp"}, "groups"},                // 4.15 V a cell
		{prove.Options{Cell: "nmc532", RatedAh: -1}, "rated"},
	}
	for _, c := range cases {
		_, err := prove.Run(context.Background(), fastModule, bytes.NewReader(log(t, fastModule)), benchlog.Options{}, c.o)
		var input *fit.InputError
		if !errors.As(err, &input) || input.Path != c.path || input.Message == "" || input.Expected == "" {
			t.Errorf("%+v: %v; want an input error at %s", c.o, err, c.path)
		}
	}
}

func TestLogWithoutLoad(t *testing.T) {
	res := runText(t, "rest.csv", joined(lines(t, slowModule)[:20]), prove.Options{Cell: "lmo-blend-pouch"})
	if !warned(res, "no-load") || res.CapacityAh != 0 || res.Resistance != 0 {
		t.Errorf("%g Ah, %g Ω, %+v", res.CapacityAh, res.Resistance, res.Warnings)
	}
}
