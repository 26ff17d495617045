package home_test

import (
	"encoding/json"
	"slices"
	"strings"
	"testing"
	"time"

	"ampstead/choose"
	"ampstead/finding"
	"ampstead/fit"
	"ampstead/home"
	"ampstead/internal/drillsample"
	"ampstead/internal/example"
	"ampstead/internal/keepsample"
	"ampstead/keep"
	"ampstead/prove"
	"ampstead/rig"
	"ampstead/travel"
	"ampstead/wire"
)

var now = time.Date(2026, 11, 20, 8, 0, 0, 0, time.UTC)

// known is an example rig with what is quick to reckon, and an empty logbook.
func known(t testing.TB, name string) home.Known {
	t.Helper()
	return knownOf(t, example.File(t, name))
}

func knownOf(t testing.TB, file *rig.File) home.Known {
	t.Helper()
	fitted, err := fit.Run(file.Rig)
	if err != nil {
		t.Fatal(err)
	}
	wired, err := wire.Run(file.Rig, fitted, wire.Options{})
	if err != nil {
		t.Fatal(err)
	}
	return home.Known{File: file, Fit: fitted, Wire: wired, Kept: &keep.Result{}, Now: now, Runs: map[string]home.Run{}}
}

func acts(r *home.Result) string {
	var list []string
	for _, a := range r.Today {
		list = append(list, strings.TrimSpace(a.Do+" "+a.Why))
	}
	return strings.Join(list, "\n")
}

// visited is a logbook of 12 groups with its next visit on a date.
func visited(date string, tasks ...keep.Task) *keep.Result {
	res := keepsample.Result(12, 3)
	res.To, res.Today, res.Next, res.Findings = "2026-11-08T10:00:00Z", tasks, keep.Visit{Date: date, Why: "a leak of 2 mA would show by then"}, nil
	for i := range res.Groups {
		res.Groups[i].Drifts = false
	}
	return res
}

func shortYear() *travel.Result {
	res := &travel.Result{Bands: travel.Bands{Years: 10, UnservedHours: travel.Range{Low: 12.4, Middle: 30, High: 61}}}
	for m := range 12 {
		month := travel.Month{Month: m + 1}
		month.UnservedH = map[int]float64{0: 40, 11: 12}[m]
		res.Months = append(res.Months, month)
	}
	return res
}

func calmYear() *travel.Result {
	res := &travel.Result{Bands: travel.Bands{Years: 10, SoCMin: travel.Range{Low: 0.31, High: 0.4}}}
	for m := range 12 {
		res.Months = append(res.Months, travel.Month{Month: m + 1, SoCMin: 0.5 - 0.1*float64(m%2)})
	}
	res.Months[1].SoCMin = 0.31
	return res
}

func TestEachStageSaysHowItStands(t *testing.T) {
	tests := []struct {
		name, rig, stage string
		change           func(*home.Known)
		state            string
		standing         home.Standing
	}{
		{"lead-acid settings", "curlew-draft", "fit", nil, "12 to stop for: profile flooded, made for lead-acid", home.Stop},
		{"settings counted", "curlew-draft", "fit", nil, "25 of 46 settings differ", home.Stop},
		{"as advised", "curlew", "fit", nil, "all 52 settings on the devices are as advised", home.Done},
		{"interrupt rating", "curlew-draft", "wire", nil, "8 to stop for: main fuse interrupts 2.5 kA", home.Stop},
		{"wiring", "dipper", "wire", nil, "against a short of 8.5 kA", home.Done},
		{"wiring that lacks", "dipper", "wire", func(k *home.Known) {
			k.Wire, k.Runs["wire"] = nil, home.Run{Path: "bank.strings", Why: "it is not known how many strings there are"}
		}, "cannot be reckoned yet: it is not known", home.Lacking},
		{"no drill", "curlew", "drill", nil, "not played yet", home.Open},
		{"a drill that runs", "curlew", "drill", func(k *home.Known) { k.Runs["drill"] = home.Run{Say: "40 of 8000 runs played."} }, "40 of 8000 runs played.", home.Running},
		{"a drill", "curlew", "drill", func(k *home.Known) { k.Drill = drillsample.Result() }, "reach harm", home.Stop},
		{"a drill without harm", "curlew", "drill", func(k *home.Known) {
			k.Drill = drillsample.Result()
			k.Drill.Findings, k.Drill.Tolerant = nil, true
			for i := range k.Drill.Single {
				k.Drill.Single[i].Outcome, k.Drill.Single[i].Silent = "caught", false
			}
		}, "none reaches harm", home.Done},
		{"no year", "dipper", "travel", nil, "the year was not reckoned yet", home.Open},
		{"no route", "dipper", "travel", func(k *home.Known) { k.Runs["travel"] = home.Run{Path: "route", Why: "there is no route"} }, "cannot be reckoned yet: there is no route", home.Lacking},
		{"a year that failed", "dipper", "travel", func(k *home.Known) { k.Runs["travel"] = home.Run{Why: "no such station"} }, "could not be reckoned: no such station", home.Lacking},
		{"a short year", "dipper", "travel", func(k *home.Known) {
			k.Travel = shortYear()
			k.Travel.Findings = []finding.Finding{{ID: "unserved", Severity: finding.Care}}
		}, "short 12 to 61 hours a year, most in January", home.Mend},
		{"a calm year", "dipper", "travel", func(k *home.Known) { k.Travel = calmYear() }, "no hour short in 10 weather years; the bank comes down to 31 % in February", home.Done},
		{"measured by hand", "curlew", "prove", nil, "no log kept; the file says 168 Ah were measured on 12 September 2026", home.Done},
		{"not measured", "curlew", "prove", func(k *home.Known) { k.File.Rig.Bank.Measured = nil }, "no log kept: the bank's health is not measured", home.Open},
		{"estimated", "curlew", "prove", func(k *home.Known) { k.File.Rig.Bank.Measured.Estimated = true }, "the bank's health is not measured", home.Open},
		{"a log not read", "curlew", "prove", func(k *home.Known) { k.Log = "a.csv" }, "the log a.csv is kept and was not read yet", home.Open},
		{"a log that refuses", "curlew", "prove", func(k *home.Known) { k.Log, k.Proof = "a.csv", &prove.Result{Grade: "refuse"} }, "refused", home.Stop},
		{"a log that accepts", "curlew", "prove", func(k *home.Known) { k.Log, k.Proof = "a.csv", &prove.Result{Grade: "accept", CapacityAh: 171.2} }, "accepted on what the log shows, 171 Ah, by the log a.csv", home.Done},
		{"batteries not compared", "dipper", "choose", nil, "3 other batteries in the file, not compared yet", home.Open},
		{"no battery to compare", "dipper", "choose", func(k *home.Known) { k.File.Rig.Candidates = nil }, "no other battery is in the file", home.Open},
		{"batteries compared", "dipper", "choose", func(k *home.Known) { k.Choice = &choose.Result{} }, "compared with 3 other batteries", home.Done},
		{"a battery that is forbidden", "dipper", "choose", func(k *home.Known) {
			k.Choice = &choose.Result{Findings: []finding.Finding{{ID: "x", Severity: finding.Stop, Found: "too many volts"}}}
		}, "compared with 3 other batteries", home.Mend},
		{"empty logbook", "curlew", "keep", nil, "no reading in the logbook yet", home.Open},
		{"logbook not read", "curlew", "keep", func(k *home.Known) { k.Kept, k.Runs["keep"] = nil, home.Run{Why: "the file is damaged"} }, "could not be reckoned: the file is damaged", home.Lacking},
		{"a visit to come", "curlew", "keep", func(k *home.Known) { k.Kept = visited("2026-12-03") }, "last reading 12 days ago; next visit Thursday 3 December", home.Done},
		{"a visit today", "curlew", "keep", func(k *home.Known) { k.Kept = visited("2026-11-20") }, "next visit Friday 20 November", home.Due},
		{"a visit missed", "curlew", "keep", func(k *home.Known) { k.Kept = visited("2026-11-13") }, "the visit of Friday 13 November is overdue", home.Due},
		{"a drifting group", "curlew", "keep", func(k *home.Known) { k.Kept = visited("2026-12-03"); k.Kept.Groups[3].Drifts = true }, "group 4 drifts", home.Done},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			k := known(t, tt.rig)
			if tt.change != nil {
				tt.change(&k)
			}
			s := home.Of(k).Stage(tt.stage)
			if !strings.Contains(s.State, tt.state) || s.Standing != tt.standing {
				t.Errorf("%s: %q (%s), want %q (%s)", tt.stage, s.State, s.Standing, tt.state, tt.standing)
			}
			if s.Next.Do == "" || s.Next.Stage == "" || s.Question == "" {
				t.Errorf("%s says nothing of what comes next: %+v", tt.stage, s)
			}
		})
	}
}

func TestTodayIsOrderedByUrgency(t *testing.T) {
	tests := []struct {
		name, rig string
		change    func(*home.Known)
		want      []string // the beginnings of the acts
	}{
		{"a draft", "curlew-draft", nil, []string{"Leave the bank disconnected", "Mend the first: set the profile", "Of 10 things worth mending, the first:", "Set 7 devices by their sheets", "Read every group with the cell meter"}},
		{"mended", "dipper", nil, []string{"Read every group with the cell meter", "Print the book"}},
		{"a cell out of its limits comes before all", "curlew-draft", func(k *home.Known) {
			k.Kept = visited("2026-12-03", keep.Task{ID: "limit-3", Urgency: "now", Do: "stop charging", Why: "group 3 stands at 4.31 V"})
		}, []string{"Stop charging.", "Disconnect the bank", "Mend the first:"}},
		{"this week", "dipper", func(k *home.Known) {
			k.Kept = visited("2026-12-03", keep.Task{ID: "balance", Urgency: "next visit", Do: "level the groups"}, keep.Task{ID: "drift-4", Urgency: "this week", Do: "follow group 4"})
		}, []string{"Follow group 4.", "Print the book", "Level the groups."}},
		{"a visit missed", "dipper", func(k *home.Known) { k.Kept = visited("2026-11-13") }, []string{"Read every group: the visit of Friday 13 November is overdue.", "Print the book"}},
		{"a visit to come", "dipper", func(k *home.Known) { k.Kept = visited("2026-12-03") }, []string{"Print the book", "Come back on Thursday 3 December"}},
		{"no route", "dipper", func(k *home.Known) {
			k.Runs["travel"], k.Runs["drill"] = home.Run{Path: "route", Why: "there is no route"}, home.Run{Path: "route", Why: "there is no route"}
		}, []string{"Give “route” in the rig: without it drill and travel cannot be reckoned.", "Read every group", "Print the book"}},
		{"never tested", "dipper", func(k *home.Known) { k.File.Rig.Bank.Measured = nil }, []string{"Test the module before it is built in", "Read every group", "Print the book"}},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			k := known(t, tt.rig)
			if tt.change != nil {
				tt.change(&k)
			}
			r := home.Of(k)
			if len(r.Today) > 5 || len(r.Today) < len(tt.want) {
				t.Fatalf("%d acts:\n%s", len(r.Today), acts(r))
			}
			for i, want := range tt.want {
				if !strings.HasPrefix(r.Today[i].Do, want) {
					t.Errorf("act %d is %q, want %q; all:\n%s", i+1, r.Today[i].Do, want, acts(r))
				}
			}
		})
	}
}

// The book is for a rig that nothing forbids to connect.
func TestNoBookWhileThereIsSomethingToStopFor(t *testing.T) {
	k := known(t, "dipper")
	k.Drill = drillsample.Result() // one finding to stop for, of a fault
	r := home.Of(k)
	if strings.Contains(acts(r), "Print the book") || !strings.Contains(acts(r), "Leave the bank disconnected") {
		t.Errorf("today:\n%s", acts(r))
	}
	if f := r.Findings[0]; f.Severity != finding.Stop || !slices.Equal(f.By, []string{"drill"}) {
		t.Errorf("first finding %s by %v", f.Severity, f.By)
	}
}

// What two stages found alike stands there once, with both names.
func TestFindingsOfTwoStagesStandOnce(t *testing.T) {
	r := home.Of(known(t, "curlew-draft"))
	n := 0
	for _, f := range r.Findings {
		if f.ID == "interrupt-rating" {
			n++
			if !slices.Equal(f.By, []string{"fit", "wire"}) {
				t.Errorf("found by %v", f.By)
			}
		}
		if f.Head == "" || len([]rune(f.Head)) > 115 {
			t.Errorf("%s: headline %q", f.ID, f.Head)
		}
	}
	if n != 1 {
		t.Errorf("it stands %d times", n)
	}
}

func TestWhatWasNotAskedIsSaid(t *testing.T) {
	k := known(t, "dipper")
	if got := home.Of(k).Unsaid; !slices.Equal(got, []string{"prove", "drill", "travel", "keep"}) {
		t.Errorf("not asked yet: %v", got)
	}
	k.Drill, k.Travel, k.Proof, k.Kept = drillsample.Result(), calmYear(), &prove.Result{Grade: "accept"}, visited("2026-12-03")
	if got := home.Of(k).Unsaid; len(got) != 0 {
		t.Errorf("not asked yet: %v", got)
	}
}

func TestDamagedFile(t *testing.T) {
	k := home.Known{Now: now, Mistakes: rig.Errors{{Line: 6, Path: "bank.series", Message: "it is no whole number", Expected: "a number"}, {Line: 9}}}
	r := home.Of(k)
	if r.Damage == nil || r.Damage.Line != 6 || r.Damage.More != 1 || len(r.Stages) != 7 {
		t.Fatalf("%+v", r.Damage)
	}
	if want := "Mend the rig file: the first mistake is in line 6: it is no whole number."; r.Today[0].Do != want {
		t.Errorf("%q", r.Today[0].Do)
	}
	if s := r.Stage("fit"); s.Standing != home.Lacking {
		t.Errorf("fit stands %s", s.Standing)
	}
	if r := home.Of(home.Known{Now: now}); r.Damage == nil || len(r.Today) != 1 {
		t.Error("without any reason it says nothing")
	}
}

// Whatever is known, it promises nothing and can be sent as JSON.
func TestItNeverPromises(t *testing.T) {
	for _, name := range []string{"curlew", "curlew-draft", "dipper"} {
		k := known(t, name)
		k.Drill, k.Travel, k.Kept = drillsample.Result(), calmYear(), visited("2026-12-03")
		text, err := json.Marshal(home.Of(k))
		if err != nil {
			t.Fatal(err)
		}
		for _, promise := range []string{"is safe", "are safe", "safe to"} {
			if strings.Contains(strings.ToLower(string(text)), promise) {
				t.Errorf("%s promises %q", name, promise)
			}
		}
		var back home.Result
		if err := json.Unmarshal(text, &back); err != nil || len(back.Stages) != 7 || back.Stages[2].Standing == "" {
			t.Errorf("%s: %v", name, err)
		}
	}
}

func BenchmarkOf(b *testing.B) {
	k := known(b, "curlew-draft")
	k.Drill, k.Travel, k.Kept = drillsample.Result(), calmYear(), visited("2026-12-03")
	b.ReportAllocs()
	for b.Loop() {
		home.Of(k)
	}
}
