package ageing

import (
	"math"
	"slices"
	"testing"

	"ampstead/internal/near"
	"ampstead/internal/shared"
	"ampstead/physics/cell"
)

// compared says which open data a model is held against: its own chemistry where
// there is some, else the nearest. What a model does not cover is left out.
var compared = map[string][]string{
	"schmalstieg":     {ofNMC},
	"schmalstieg-nca": {ofNCA},
	"naumann":         {ofLFP},
	"wang2011":        {ofLFP},
	"wang2014":        {ofNCA, ofLCO},
	"xu":              {ofNMC, ofNCA, ofLFP},
}

// against reports whether a condition counts for a model's spread.
func (m *Model) against(p measured) bool {
	switch {
	case m.Covers == "cycling only" && p.storage(), m.Covers == "storage only" && !p.storage():
		return false
	}
	return slices.Contains(compared[m.Name], p.chemistry)
}

// judged is a model's answer to a measured condition.
type judged struct {
	measured
	predicted float64 // capacity
	loss      float64 // measured over predicted loss
	life      float64 // predicted over measured time to the measured loss
	growth    float64 // predicted resistance factor, 0 when the model has none
}

func judge(m *Model, p measured) judged {
	l := m.Start()
	l.Add(p.whole)
	j := judged{measured: p, predicted: l.Capacity(), loss: p.lost / (1 - l.Capacity())}
	step := m.law.add(p.whole.whole())
	j.life = stretch(p.lost, func(f float64) float64 {
		_, _, total := m.law.lost(step.times(f))
		return total
	})
	if factor, ok := l.Resistance(); ok {
		j.growth = factor
	}
	return j
}

// familyOf is the cell library's name of a chemistry.
var familyOf = map[string]cell.Family{ofNMC: cell.NMC, ofNCA: cell.NCA, ofLFP: cell.LFP}

// byLikeness reports whether none of the data is of a chemistry it was fitted to.
func (m *Model) byLikeness() bool {
	return !slices.ContainsFunc(compared[m.Name], func(chemistry string) bool { return m.Fitted(familyOf[chemistry]) })
}

// spreadOf is the band by the rule of Band.
func spreadOf(m *Model, data []measured) Band {
	var loss []float64
	for _, p := range data {
		if m.against(p) && !p.early {
			loss = append(loss, judge(m, p).loss)
		}
	}
	if !m.byLikeness() {
		return Band{percentile(loss, 0.1), median(loss), percentile(loss, 0.9)}
	}
	return Band{slices.Min(loss), median(loss), slices.Max(loss)}
}

// TestSpreadComesFromTheComparison holds the bands in the code to the open data.
func TestSpreadComesFromTheComparison(t *testing.T) {
	data := openData(t)
	for name := range compared {
		m := model(t, name)
		want := spreadOf(m, data)
		near.Equal(t, name+" low", m.Band.Low, want.Low, 0.0051)
		near.Equal(t, name+" middle", m.Band.Middle, want.Middle, 0.0051)
		near.Equal(t, name+" high", m.Band.High, want.High, 0.0051)
	}
}

// TestKnownAnswersOfTheData are the published or stated ends of the sets.
func TestKnownAnswersOfTheData(t *testing.T) {
	_, cells := group(shared.Rows(t, "data/battery/ageing-nmc-sanyo-24cells.csv"), func(r map[string]string) string { return r["cell"] })
	full, days := crossings(t, cells, 0.8, "efc"), crossings(t, cells, 0.8, "days")
	near.Equal(t, "full equivalents to 80 %", mean(full), 621, 1)
	near.Equal(t, "days to 80 %", mean(days), 70, 1)
	near.Equal(t, "equal cells, from", slices.Min(full), 540, 1)
	near.Equal(t, "to", slices.Max(full), 721, 1)
	near.Equal(t, "large cell", largeCell(t).whole.Throughput, 306*0.94, 306*0.06)
	if got := endOfLife(t).whole.Throughput; !(got > 90 && got < 115) {
		t.Errorf("125 falling cycles are %g full equivalents", got)
	}
	near.Equal(t, "conditions of the digitised table", float64(len(digitised(t))), 17, 0)
}

func mean(list []float64) float64 {
	sum := 0.0
	for _, v := range list {
		sum += v
	}
	return sum / float64(len(list))
}

// TestEveryLithiumCellIsCompared: a first model without a comparison would have
// no spread.
func TestEveryLithiumCellIsCompared(t *testing.T) {
	for _, name := range cell.Names() {
		c, err := cell.Lookup(name)
		if err != nil {
			t.Fatal(err)
		}
		if m := For(c)[0]; c.Family != cell.LeadAcid && compared[m.Name] == nil {
			t.Errorf("%s of %s is held against nothing", m.Name, name)
		}
	}
}

// rms is of the errors in capacity, in percentage points.
func rms(list []judged) float64 {
	sum := 0.0
	for _, j := range list {
		e := 100 * (j.predicted - (1 - j.lost))
		sum += e * e
	}
	return math.Sqrt(sum / float64(len(list)))
}
