package prove

import (
	"fmt"
	"strings"
	"testing"

	"ampstead/internal/golden"
)

// graded grades a whole of 60 Ah rated with what a row changes of a sound one.
func graded(t *testing.T, change func(*study)) *Result {
	t.Helper()
	kind := lookup(t, "nmc532")
	leak := 0.1
	s := &study{kind: kind, series: 2, groups: 2, o: Options{RatedAh: 60}, res: &Result{
		Kind: kind, Low: 3, High: 4.2, CapacityAh: 55, CapacityErr: 0.5, Resistance: 2 * kind.ResistanceOhm(60, 25), ResistErr: 1e-5, Efficiency: 0.999,
		Pulses: []Pulse{{SoC: 0.5, Amps: -20}},
		Groups: []Group{{Number: 1, CapacityAh: 55, CapacityErr: 0.5, LostAh: 1, LostErr: 0.5, Ohm: 1e-3, OhmErr: 2e-5},
			{Number: 2, CapacityAh: 56, CapacityErr: 0.5, Ohm: 1e-3, OhmErr: 2e-5, LeakMA: &leak, LeakErrMA: 0.1}},
	}}
	s.segs = []segment{{Segment: Segment{Kind: kindRest}, points: []sample{{v: 8, groups: []float64{4, 4}}, {v: 6.4, groups: []float64{3.1, 3.3}}}}}
	change(s)
	s.grade()
	return s.res
}

// Each row moves one figure over a threshold of the table.
func TestGrade(t *testing.T) {
	for _, row := range []struct {
		name   string
		change func(*study)
		want   string
		reason string
	}{
		{"sound", func(s *study) {}, "accept", "good"},
		{"70 % of rated", func(s *study) { s.res.CapacityAh = 42 }, "derate", "70.0 %"},
		{"50 % of rated", func(s *study) { s.res.CapacityAh = 30 }, "refuse", "worse than 60.0 %"},
		{"80 % within its error", func(s *study) { s.res.CapacityAh = 48.3 }, "undecided", "spans the threshold of 80.0 %"},
		{"undecided between good and poor, poor for another reason", func(s *study) { s.res.CapacityAh, s.res.Groups[0].LostAh = 48.3, 9 }, "derate", "group 1"},
		{"a group that lost a third", func(s *study) { s.res.Groups[0].LostAh = 28 }, "refuse", "group 1, 33.7 %"},
		{"resistance threefold", func(s *study) { s.res.Resistance *= 3.2 }, "refuse", "resistance over"},
		{"a bad joint", func(s *study) { s.res.Groups[1].Ohm = 2e-3 }, "derate", "group 2, 1.33"},
		{"a leak of 5 % a month", func(s *study) { leak := 4.1; s.res.Groups[1].LeakMA = &leak }, "derate", "group 2, 5.4 %"},
		{"2 % do not come back", func(s *study) { s.res.Efficiency = 0.98 }, "derate", "does not come back"},
		{"down to 1.8 V", func(s *study) { s.segs[0].points[1].groups[0] = 1.8 }, "derate", "group 1, 1.8 V"},
		{"reversed", func(s *study) { s.segs[0].points[1].groups[0] = -0.4 }, "refuse", "group 1, -"},
		{"over-charged", func(s *study) { s.segs[0].points[1].groups[1] = 4.6 }, "refuse", "group 2, 0.4 V"},
		{"no capacity", func(s *study) { s.res.CapacityAh = 0 }, "undecided", "could not be measured"},
		{"no resistance", func(s *study) { s.res.Resistance = 0 }, "undecided", "not told"},
		{"rated not known", func(s *study) { s.o.RatedAh = 0 }, "accept", "not given"},
		{"resistance of the empty end only", func(s *study) { s.res.Resistance *= 5; s.res.Pulses[0].SoC = 0.02 }, "undecided", "not told"},
	} {
		res := graded(t, row.change)
		if res.Grade != row.want || !strings.Contains(strings.Join(res.Reasons, "\n"), row.reason) {
			t.Errorf("%s: %s, want %s for %q:\n%s", row.name, res.Grade, row.want, row.reason, strings.Join(res.Reasons, "\n"))
		}
	}
}

// A module is counted on for what its weakest group surely gives.
func TestDerated(t *testing.T) {
	res := graded(t, func(s *study) { s.res.CapacityAh, s.res.CapacityErr, s.res.Groups[0].CapacityAh = 42, 1, 40 })
	if res.DerateAh != 39.5 {
		t.Errorf("derated to %v Ah, want 40 less its error of 0.5", res.DerateAh)
	}
}

// The rows of 1.5 and 2 V stand for lithium; a lead-acid cell lives there.
func TestLeadAcidIsNotGradedByLithiumVoltages(t *testing.T) {
	res := graded(t, func(s *study) { s.kind = lookup(t, "lead-acid-flooded"); s.segs[0].points[1].groups[0] = 1.9 })
	if strings.Contains(strings.Join(res.Reasons, "\n"), "lowest voltage") {
		t.Error(res.Reasons)
	}
}

// No log tells of history, damage or insulation, and the checklist says so.
func TestStepsThatNoLogTells(t *testing.T) {
	kind := lookup(t, "nmc532")
	s := &study{kind: kind, series: 2, res: &Result{RiseK: pointer(3), Resistance: 1e-3, CapacityAh: 50,
		Cycles: []Cycle{{Kind: "charge", Full: true}, {Kind: "discharge", Full: true}}, Rests: []Rest{{Hours: 48, LeakMA: 3, Bound: true}}}}
	told := map[string]string{}
	for _, step := range s.steps() {
		first, _, _ := strings.Cut(step.Step, " ")
		told[strings.Trim(first, ":")] = step.Told
	}
	for step, want := range map[string]string{"history": no, "visual": no, "insulation": no, "capacity": yes, "internal": partly, "full": yes, "self-discharge": partly, "grading": no} {
		if told[step] != want {
			t.Errorf("%s: told %q, want %q", step, told[step], want)
		}
	}
	if !strings.Contains(fmt.Sprint(s.steps()[0]), "does not meet IEC 63338:2024") {
		t.Error("a module without history does not meet IEC 63338")
	}
}

const gradingHead = `# How a used module is graded

Worse than the first figure a module is derated, worse than the second refused. A
figure whose standard error spans a threshold leaves the grade undecided. What a
log does not tell is not graded. Written by ` + "`go test ./prove -run Thresholds -update`" + `; do not edit.

| figure | derated | refused | why | where the threshold comes from |
|---|---|---|---|---|
`

// docs/grading.md is the table itself.
func TestThresholdsInDocs(t *testing.T) {
	var b strings.Builder
	b.WriteString(gradingHead)
	for _, row := range Thresholds() {
		sign := "above"
		if row.Falling {
			sign = "below"
		}
		fmt.Fprintf(&b, "| %s | %s %s | %s %s | %s | %s (%s) |\n", row.What, sign, row.text(row.Derate), sign, row.text(row.Refuse), row.Because, row.Source.Text, row.Source.Standing)
	}
	golden.Check(t, "../../docs/grading.md", []byte(b.String()))
}

func TestThresholdsAreOrdered(t *testing.T) {
	for _, row := range Thresholds() {
		if row.Falling != (row.Refuse < row.Derate) || row.Because == "" || row.Source.Text == "" {
			t.Errorf("%+v", row)
		}
	}
}
