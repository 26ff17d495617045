package fit_test

import (
	"encoding/json"
	"reflect"
	"sort"
	"testing"

	"ampstead/examples"
	"ampstead/figure"
	"ampstead/finding"
	"ampstead/fit"
	"ampstead/internal/golden"
	"ampstead/rig"
)

// planted is every mistake in the drafted rig; nothing else may be found.
var planted = []string{
	"stop lead-acid-profile charge.roof solar.settings.profile",
	"stop charge-beyond-harm charge.roof solar.settings.absorption",
	"stop compensation-in-cold charge.roof solar.settings.compensation",
	"stop equalise-on charge.roof solar.settings.equalise",
	"stop float-too-high charge.roof solar.settings.float",
	"care float-too-high charge.mains charger.settings.float",
	"stop no-frost-lock charge.roof solar.settings.frost_lock",
	"stop no-frost-lock charge.mains charger.settings.frost_lock",
	"stop no-frost-lock charge.alternator charger.settings.frost_lock",
	"care heater-order heater.on",
	"stop relay-beyond-harm protection.relays.guard relay.high",
	"stop relay-beyond-harm protection.relays.guard relay.low",
	"care low-cut-below-inverter protection.relays.guard relay.low",
	"care alarm-after-disconnect protection.meters.cell meter.alarm_high",
	"care alarm-after-disconnect protection.meters.cell meter.alarm_low",
	"care no-low-cut converters.12 V converter.low_cut",
	"care set-point-too-fine charge.alternator charger.settings.restart",
	"stop alternator-unloaded charge.alternator charger.starter_battery",
	"care charge-rate charge",
	"care no-string-fuse protection.fuses",
	"stop interrupt-rating protection.fuses.main fuse.interrupt",
}

func listed(list []finding.Finding) []string {
	lines := []string{}
	for _, f := range list {
		lines = append(lines, string(f.Severity)+" "+f.ID+" "+f.Where)
	}
	sort.Strings(lines)
	return lines
}

func TestDraftHasEveryPlantedMistakeAndNoOther(t *testing.T) {
	want := append([]string{}, planted...)
	sort.Strings(want)
	if got := listed(run(t, load(t, "curlew-draft")).Findings); !reflect.DeepEqual(got, want) {
		t.Errorf("found:\n%v\nwant:\n%v", got, want)
	}
}

func TestMendedRigsHaveNothingToMend(t *testing.T) {
	for _, name := range []string{"curlew", "dipper"} {
		res := run(t, load(t, name))
		for _, f := range res.Findings {
			if f.Severity != finding.Note {
				t.Errorf("%s: %s %s at %s: %s", name, f.Severity, f.ID, f.Where, f.Found)
			}
		}
		for _, s := range res.Settings {
			if s.Differs {
				t.Errorf("%s: %s is %v, recommended is %v", name, s.Path, s.Today, s.Value)
			}
		}
	}
}

// Mending the draft's settings alone leaves only what needs other devices.
func TestDraftSetAsRecommendedStillNeedsItsDevicesChanged(t *testing.T) {
	r := load(t, "curlew-draft")
	apply(t, r, run(t, r))
	want := []string{
		"care no-string-fuse protection.fuses",
		"note charge-rate charge",
		"stop alternator-unloaded charge.alternator charger.starter_battery",
		"stop interrupt-rating protection.fuses.main fuse.interrupt",
		"stop no-frost-lock charge.alternator charger.settings.frost_lock",
		"stop no-frost-lock charge.mains charger.settings.frost_lock",
		"stop no-frost-lock charge.roof solar.settings.frost_lock",
	}
	if got := listed(run(t, r).Findings); !reflect.DeepEqual(got, want) {
		t.Errorf("found:\n%v\nwant:\n%v", got, want)
	}
}

func TestEveryFindingIsWhole(t *testing.T) {
	for _, f := range run(t, load(t, "curlew-draft")).Findings {
		if f.ID == "" || f.Where == "" || f.Found == "" || f.Because == "" || f.Mend == "" {
			t.Errorf("not whole: %+v", f)
		}
	}
}

func TestGolden(t *testing.T) {
	for _, name := range examples.Names() {
		res := run(t, load(t, name))
		for k := range res.Findings {
			res.Findings[k].Workings = nil // long, and held to account by TestNumbersOfFindingsAreWorkedOut
		}
		text, err := json.MarshalIndent(struct {
			Findings []finding.Finding `json:"findings"`
			Used     []string          `json:"figures_used"`
			Fit      *fit.Result       `json:"fit"`
		}{res.Findings, figure.Names(res.Uses), res}, "", "  ")
		if err != nil {
			t.Fatal(err)
		}
		golden.Check(t, name+".json", append(text, '\n'))
	}
}

func TestRunChangesNothing(t *testing.T) {
	r := load(t, "curlew-draft")
	first := run(t, r)
	if !reflect.DeepEqual(r, load(t, "curlew-draft")) {
		t.Error("the rig was changed")
	}
	if second := run(t, r); !reflect.DeepEqual(listed(first.Findings), listed(second.Findings)) {
		t.Error("a second run finds something else")
	}
}

// Every recommended value belongs to a field of the rig file, so a page can
// offer to write it there.
func TestSettingsHaveAPlaceInTheFile(t *testing.T) {
	for _, name := range examples.Names() {
		text, err := examples.Read(name)
		if err != nil {
			t.Fatal(err)
		}
		f, err := rig.Parse(name, text)
		if err != nil {
			t.Fatal(err)
		}
		fields := map[string]bool{}
		for _, x := range rig.Fields(f) {
			fields[x.Path] = true
		}
		for _, s := range run(t, f.Rig).Settings {
			if !fields[s.Path] {
				t.Errorf("%s: %s is no field of the rig file", name, s.Path)
			}
			if s.Because == "" || (s.Unit == "") != (s.Dim == nil) && s.Value != fit.Off {
				t.Errorf("%s: %s lacks a reason or a unit: %+v", name, s.Path, s)
			}
		}
	}
}

func BenchmarkCurlew(b *testing.B) {
	r := load(b, "curlew")
	for b.Loop() {
		if _, err := fit.Run(r); err != nil {
			b.Fatal(err)
		}
	}
}
