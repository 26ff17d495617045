package sheet_test

import (
	"testing"

	"ampstead/figure"
	"ampstead/finding"
	"ampstead/fit"
	"ampstead/physics/cell"
	q "ampstead/quantity"
	"ampstead/rig"
	"ampstead/sheet"
	"ampstead/source"
)

// span is a figure of the test's own, so that what is expected stands here.
var span = &figure.Figure{Name: "series-span", Answers: "What does the bank span?",
	Inputs:   []figure.Input{{Name: "cell"}, {Name: "series", Dim: q.Plain, Doc: "groups in series"}, {Name: "ambient", Dim: q.Celsius, Default: "25 °C"}},
	Outputs:  []figure.Output{{Key: "low_v", Dim: q.Volts}, {Key: "high_v", Dim: q.Volts}},
	Equation: "V_bank = n · V_cell", Range: "one to 200 groups", Source: source.Source{Key: "test-memory", Text: "Remembered table", Standing: source.Memory},
	Compute: func(a figure.Args) (figure.Results, error) {
		return figure.Results{"low_v": 3 * a.Num("series"), "high_v": 4.1 * a.Num("series")}, nil
	}}

func use(t testing.TB) []figure.Use {
	t.Helper()
	u, err := span.Use(figure.T("cell", "nmc532"), figure.N("series", 12.0), figure.N("ambient", 5.0))
	if err != nil {
		t.Fatal(err)
	}
	return []figure.Use{u, u}
}

const rigText = `about: {name: "Curlew <bindery>", note: retired library}
bank: {cell: nmc532, series: 12, cells_per_group: 1, strings: 2, cell_capacity: 94 Ah}
charge:
  - name: roof solar
    kind: solar
    limit: 45 A
    step: 0.1 V
    settings:
      equalise: 62.0 V
inverters:
  - {name: mains inverter, power: 3000 W, input_low: 38 V, input_high: 66 V, low_cut: 40 V}
protection:
  meters:
    - {name: cell meter, watches: 24}
`

// sample is a small result with something in every part and text that a page
// must escape.
func sample(t testing.TB) (*rig.File, *fit.Result) {
	t.Helper()
	how := use(t)
	file, err := rig.Parse("/home/someone/curlew/rig.yaml", []byte(rigText))
	if err != nil {
		t.Fatal(err)
	}
	window := fit.Window{CellLowV: 3.2, CellHighV: 4.1, BankLowV: 38.4, BankHighV: 49.2, BankNominalV: 44.4, LowSoC: 0.05, HighSoC: 0.92, UsableAh: 146, UsableWh: 6520, How: how}
	kind, err := cell.Lookup("nmc532")
	if err != nil {
		t.Fatal(err)
	}
	return file, &fit.Result{
		Kind:   kind,
		Cell:   fit.CellInfo{Name: "nmc532", Title: "nickel-manganese-cobalt 532", Family: "nickel-manganese-cobalt", Series: 12, Parallel: 2, Capacity: 168, RatedAh: 188, Measured: true, Ohm: 0.0062, SpreadHi: 0.006, SpreadLo: 0.025, SpreadHow: "measured"},
		Window: window, Daily: window,
		Layers: []fit.Layer{
			{Name: fit.HarmLow, Side: "low", SetV: 3},
			{Name: fit.DailyLow, Side: "low", Device: "mains inverter", Setting: "low cut", SetV: 3.4, LowV: 3.35, HighV: 3.45, DeviceSetV: 40.8, MarginMV: 42, LikelyMV: 60},
			{Name: fit.AlarmHigh, Side: "high", Device: "cell meter", Setting: "alarm high", SetV: 4.13, LowV: 4.12, HighV: 4.14, DeviceSetV: 4.13, MarginMV: -12, LikelyMV: 8,
				Members: []fit.Layer{{Name: fit.AlarmHigh, Device: "cell meter", Setting: "alarm high", DeviceSetV: 4.13}, {Name: fit.AlarmHigh, Device: "second meter", Setting: "alarm high", SetV: 4.14, DeviceSetV: 4.14}}},
			{Name: fit.HarmHigh, Side: "high", SetV: 4.2},
		},
		Today: []fit.Layer{{Name: fit.HarmHigh, SetV: 4.2}},
		Settings: []fit.Setting{
			{Device: "roof solar", Kind: "solar charger", Setting: "absorption", Value: 49.0, Unit: "V", Today: 57.6, Because: "4.08 V a cell", Differs: true, Dim: q.Volts, How: how},
			{Device: "roof solar", Kind: "solar charger", Setting: "equalise", Value: "off", Today: "off", Dim: q.Volts},
			{Device: "roof solar", Kind: "solar charger", Setting: "frost lock", Value: 5.0, Unit: "°C", Today: "not given", Differs: true, Dim: q.Celsius},
			{Device: "cell meter", Kind: "cell meter", Setting: "alarm high", Value: 4.13, Unit: "V", Today: 4.13, Dim: q.Volts},
		},
		Choices:  []fit.Choice{{Name: "fuller", CellLowV: 3, CellHighV: 4.15, UsableWh: 7100, EnergyShare: 1.09, MeanStress: 1.31, Why: "more, sooner worn", How: how}},
		Warmth:   []fit.Mark{{Name: "charging stops", Device: "frost switch", TempC: 4, LowC: 2, HighC: 6, Because: "plating"}},
		Findings: []finding.Finding{{ID: "equalise-on", Severity: finding.Stop, Where: "charge.roof solar.settings.equalise", Found: "62.0 V <script>alert(1)</script>", Because: "harm", Mend: "off"}, {ID: "fine-step", Severity: finding.Care, Where: "inverters.mains inverter.low_cut", Found: "x"}},
		Uses:     how,
	}
}

func model(t testing.TB, sys q.System) *sheet.Model {
	file, res := sample(t)
	m := sheet.New(file, res, sys)
	m.Date, m.Version = "2026-10-01", "0.1"
	return m
}
