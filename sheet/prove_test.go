package sheet_test

import (
	"strings"
	"testing"

	"ampstead/benchlog"
	"ampstead/finding"
	"ampstead/internal/golden"
	"ampstead/prove"
	q "ampstead/quantity"
	"ampstead/sheet"
)

// proofOf is the proof of a small module with something in every part and text
// that a page must escape.
func proofOf(t testing.TB) *prove.Result {
	leak, high, rise := 1.4, 0.024, 1.5
	return &prove.Result{
		Layout: benchlog.Layout{Line: "time in s, pack V, current A, discharge negative, 3 groups"}, Rows: 10, UnreadAll: 23, Unread: []benchlog.Unread{{Line: 7, Text: "<b>", Why: "no number"}},
		Cell: "nmc532", Series: 3, Low: 3, High: 4.2, CapacityAh: 54.9, CapacityErr: 0.31, CapacityHow: "discharge to the limit", EnergyWh: 1271, EnergyErr: 6.4,
		Resistance: 7.31e-3, ResistErr: 2.1e-4, ResistHow: "at the start of the discharge", Limiting: 1, ChargeLimit: 3, SpreadHigh: &high, RiseK: &rise,
		Groups: []prove.Group{
			{Number: 1, CapacityAh: 58.3, CapacityErr: 0.8, Ohm: 1.08e-3, OhmErr: 5e-5, OffsetAh: 3.1, OffsetErr: 0.5, Recoverable: 3.1, LostAh: 3.2, LostErr: 0.7, LeakMA: &leak, LeakErrMA: 0.3, RestV: 4.119, EndV: 3, LowEnd: true},
			{Number: 2, CapacityAh: 61.4, CapacityErr: 0.8, Ohm: 1.28e-3, OhmErr: 5e-5, OffsetErr: 0.5, LostErr: 0.7, LeakMA: &leak, LeakBound: true, RestV: 4.169, EndV: 3.516},
			{Number: 3, Ohm: 1.23e-3, RestV: 4.17, EndV: 3.519, HighEnd: true, Unknown: "its curve is flat"},
		},
		Segments: []prove.Segment{{Kind: "rest", To: 600}, {Kind: "discharge", From: 600, To: 10736, MeanA: -19.5, ChargeAh: -54.9}},
		Cycles:   []prove.Cycle{{Kind: "discharge", From: 600, To: 10736, ChargeAh: 54.9, Full: true}},
		Rests:    []prove.Rest{{Hours: 47.9, SlopeV: -0.00025, Bound: true, LeakMA: 0.9, Note: "the slope is still falling"}},
		Chart:    prove.Chart{Time: []float64{0, 600, 10736}, Volts: []float64{12.4, 12.4, 10}, Amps: []float64{0, -19.5, -19.5}, Ah: []float64{0, 0, -54.9}, Groups: [][]float64{{4.1, 4.1, 3}, {4.2, 4.2, 3.5}, {4.2, 4.2, 3.5}}},
		Warnings: []prove.Warning{{ID: "current-offset", Found: "4 mA <flow> at rest", Because: "the charge drifts by 0.2 Ah"}},
		Grade:    "derate", DerateAh: 52.1, Reasons: []string{"capacity: 84 %; good, the threshold is 80 %", "group 1 has lost 5 %"},
		NotTold:  []prove.Step{{Step: "insulation", Told: "no", Note: "measure it <before> use"}, {Step: "capacity", Told: "yes", Note: "measured"}},
		Findings: []finding.Finding{{ID: "weak-group", Severity: finding.Care, Where: "bank.series", Found: "group 1 <weak>", Because: "it ends first", Mend: "balance"}},
		Uses:     use(t),
	}
}

func TestProofAnswer(t *testing.T) {
	m := model(t, q.Metric).WithProof("test.csv", proofOf(t))
	got := strings.Join(m.Proof.Answer, "\n") + "\n" + strings.Join(m.Proof.Next, "\n") + "\n"
	got += strings.Join(m.Proof.Reasons, "\n") + "\n"
	golden.Check(t, "prove-answer.txt", []byte(got))
	for grade, want := range map[string]string{"accept": "Accept, by what this log tells", "refuse": "Refuse: do not build", "": "Undecided: this log does not tell enough", "undecided": "Undecided:"} {
		res := proofOf(t)
		res.Grade = grade
		if got := m.WithProof("", res).Proof.Answer[0]; !strings.HasPrefix(got, want) {
			t.Errorf("%q: %q", grade, got)
		}
	}
}

// A log that tells nothing must not claim anything.
func TestProofOfNothing(t *testing.T) {
	p := model(t, q.Metric).WithProof("empty.csv", &prove.Result{}).Proof
	got := strings.Join(p.Answer, " ")
	for _, want := range []string{"Undecided", "The capacity could not be had", "The resistance could not be had"} {
		if !strings.Contains(got, want) {
			t.Errorf("%q lacks %q", got, want)
		}
	}
	if p.Facts[0].Value != "–" || len(p.Groups) != 0 {
		t.Errorf("%+v", p)
	}
}

// Errors larger than what they belong to are not told as a finding of loss.
func TestImbalanceThatCannotBeTold(t *testing.T) {
	res := proofOf(t)
	res.Groups[0].OffsetErr, res.Groups[0].LostErr = 4, 4
	if got := strings.Join(model(t, q.Metric).WithProof("", res).Proof.Answer, " "); !strings.Contains(got, "cannot tell apart: 3 ± 4 Ah") {
		t.Error(got)
	}
}

func TestPlusMinus(t *testing.T) {
	for _, c := range []struct {
		v, err, times float64
		unit, want    string
	}{{54.93, 0.31, 1, "Ah", "54.9 ± 0.3 Ah"}, {1271.2, 6.4, 1, "Wh", "1271 ± 6 Wh"}, {0.00731, 0.00021, 1e3, "mΩ", "7.3 ± 0.2 mΩ"},
		{0.00108, 5e-5, 1e3, "mΩ", "1.08 ± 0.05 mΩ"}, {54.93, 0, 1, "Ah", "54.9 Ah"}, {1.5, 0, 1, "Ah", "1.50 Ah"}, {3, 12, 1, "Ah", "3 ± 12 Ah"}} {
		if got := sheet.PlusMinus(c.v, c.err, c.times, c.unit); got != c.want {
			t.Errorf("%+v: %q", c, got)
		}
	}
}

func TestProofParts(t *testing.T) {
	for _, paper := range []bool{false, true} {
		m := model(t, q.US)
		m.Paper = paper
		m = m.WithProof("my <log>.csv", proofOf(t))
		text := all(t, m)
		if err := wellFormed(text); err != nil {
			t.Error(err)
		}
		for _, want := range []string{"my &lt;log&gt;.csv", "line 7: no number: &lt;b&gt;", "and 22 more", "4 mA &lt;flow&gt; at rest", "measure it &lt;before&gt; use", "1.4 ± 0.3", "at most 1.4",
			"finding-1-prove-weak-group", "58.3 ± 0.8", "Its curve is flat.", "rest of 47.9 h", "−0.25 mV/h", "2.7 °F", "ends the discharge", "would end the charge", "tick-box"} {
			if !strings.Contains(strings.ToLower(text), strings.ToLower(want)) {
				t.Errorf("paper %t: the parts do not say %q", paper, want)
			}
		}
		if phone := strings.Contains(text, `id="losses-390-title"`); phone == paper {
			t.Errorf("paper %t: a drawing for a phone: %t", paper, phone)
		}
		if found := verdict.FindString(text); found != "" {
			t.Errorf("a verdict was given: %q", found)
		}
	}
}

func TestWithProofLeavesTheModel(t *testing.T) {
	m := model(t, q.Metric)
	sources, figures := len(m.Sources), len(m.Figures)
	with := m.WithProof("a.csv", proofOf(t))
	if m.Proof != nil || len(m.Sources) != sources || len(m.Figures) != figures {
		t.Error("the model was changed")
	}
	if len(with.Together()) != len(m.Together())+1 || len(with.Standing()) != len(m.Standing()) {
		t.Error("the finding of the proof is not among those of all stages, or stands with those of the rig")
	}
	if m.WithProof("", nil).Proof != nil {
		t.Error("no result made a proof")
	}
}
