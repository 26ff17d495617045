package prove

import (
	"fmt"
	"strings"
	"testing"

	"ampstead/examples"
	"ampstead/internal/near"
	"ampstead/physics/cell"
	"ampstead/rig"
)

func proven(t *testing.T) *Result {
	t.Helper()
	kind := lookup(t, "nmc532")
	leak, high := 0.7, 0.0125
	return &Result{Kind: kind, Series: 2, CapacityAh: 83.62, CapacityErr: 0.9, CapacityHow: "discharge to the limit", Resistance: 0.01234, ResistErr: 0.0002, SpreadHigh: &high,
		Pulses: []Pulse{{TempC: 10, Groups: []float64{0.001, 0.001}}},
		Groups: []Group{
			{Number: 1, CapacityAh: 84, CapacityErr: 0.8, Ohm: 0.001, OhmErr: 0.00004, OffsetAh: 2.07, OffsetErr: 0.3, LeakMA: &leak, LeakErrMA: 0.1},
			{Number: 2, CapacityAh: 85, CapacityErr: 0.9, Ohm: 0.001, OhmErr: 0.0004, OffsetAh: 0.1, OffsetErr: 0.3},
		}}
}

func values(list []Change) map[string]string {
	m := map[string]string{}
	for _, c := range list {
		m[strings.TrimPrefix(c.Path, "bank.measured.")] = c.Value
	}
	return m
}

func TestChangesAreWhatWasMeasuredWell(t *testing.T) {
	got := values(Changes(proven(t), 2, 1, "2026-09-12"))
	for key, want := range map[string]string{
		"date": "2026-09-12", "capacity": "83.6 Ah", "resistance": "12.34 mΩ", "spread_high": "12.5 mV",
		"groups.0.capacity": "84.0 Ah", "groups.0.behind": "2.1 Ah", "groups.0.leak": "0.70 mA", "groups.1.behind": "",
	} {
		if got[key] != want {
			t.Errorf("%s = %q, want %q", key, got[key], want)
		}
	}
	for _, key := range []string{"groups.0.resistance", "groups.1.resistance", "spread_low", "groups.1.leak"} {
		if v, there := got[key]; there {
			t.Errorf("%s = %q was not measured well enough to write", key, v)
		}
	}
}

// A group's resistance is carried from the log's 10 °C to the 25 °C of a rig file.
func TestChangesAreOfRoomTemperature(t *testing.T) {
	res := proven(t)
	res.Groups[1].OhmErr = 0.00004
	got := values(Changes(res, 2, 1, "2026-09-12"))["groups.0.resistance"]
	ohm, err := cell.ResistanceAt.Read([]string{"cell=nmc532", "resistance=1 mΩ", "temperature=10 °C"})
	if err != nil {
		t.Fatal(err)
	}
	if want := fmt.Sprintf("%.3f mΩ", 1/ohm.Num("factor")); got != want {
		t.Errorf("resistance %s, want %s", got, want)
	}
}

func TestChangesOfEqualStrings(t *testing.T) {
	got := values(Changes(proven(t), 2, 2, "2026-09-12"))
	if got["capacity"] != "167.2 Ah" || got["resistance"] != "6.17 mΩ" || got["groups.0.leak"] != "1.40 mA" {
		t.Errorf("two strings: %v", got)
	}
	if _, there := got["spread_high"]; there {
		t.Error("the spread of one string is not that of two tied together")
	}
}

func TestChangesOfAPartOfTheBank(t *testing.T) {
	if list := Changes(proven(t), 12, 1, "2026-09-12"); list != nil {
		t.Errorf("one of six modules is not the bank: %v", list)
	}
	if list := Changes(&Result{Series: 1, CapacityHow: "none"}, 1, 1, "2026-09-12"); list != nil {
		t.Errorf("nothing measured: %v", list)
	}
}

// The rig file takes the changes and reads them back.
func TestChangesFitARigFile(t *testing.T) {
	text, err := examples.Read("curlew")
	if err != nil {
		t.Fatal(err)
	}
	f, err := rig.Parse("rig.yaml", text)
	if err != nil {
		t.Fatal(err)
	}
	res := proven(t)
	for len(res.Groups) < f.Rig.Bank.Series {
		res.Groups = append(res.Groups, res.Groups[0])
	}
	res.Series = len(res.Groups)
	var list []rig.Change
	for _, c := range Changes(res, f.Rig.Bank.Series, 2, "2026-09-12") {
		if c.Value != "" {
			list = append(list, rig.Change{Path: c.Path, Value: c.Value})
		}
	}
	g, err := f.SetAll(list...)
	if err != nil {
		t.Fatal(err)
	}
	m := g.Rig.Bank.Measured
	if len(m.Groups) != f.Rig.Bank.Series || m.Groups[0].Leak == nil || m.Groups[1].Behind != nil {
		t.Fatalf("groups %+v", m.Groups)
	}
	near.Equal(t, "leak", float64(*m.Groups[0].Leak), 0.0014, 1e-9)
	near.Equal(t, "behind", float64(*m.Groups[0].Behind), 4.1, 1e-9)
}
