package sun

import (
	"errors"
	"fmt"

	"ampstead/figure"
	"ampstead/quantity"
	"ampstead/source"
)

// DiffuseShare answers how much of the light comes from the sky.
var DiffuseShare = &figure.Figure{
	Name:    "diffuse-share",
	Answers: "How much of the light on level ground comes from the sky and not from the sun itself?",
	Inputs: []figure.Input{
		{Name: "clearness", Dim: quantity.Plain, Doc: "clearness index: light on the ground over light outside the air, 0 to 1"},
		{Name: "period", Doc: "hour, day or month", Default: "hour", Example: "day"},
		{Name: "sunset-angle", Dim: quantity.Degrees, Doc: "hour angle of sunset, for day and month; figure solar-day", Default: "90 °"},
	},
	Outputs: []figure.Output{{Key: "share_fraction", Dim: quantity.Fraction, Doc: "diffuse over global"}},
	Equation: "hour: 1 - 0.09·kt to 0.22, 0.9511 - 0.1604·kt + 4.388·kt² - 16.638·kt³ + 12.336·kt⁴ to 0.80, then 0.165; " +
		"day: sunset to 81.4°: 1 - 0.2727·K + 2.4495·K² - 11.9514·K³ + 9.3879·K⁴ to 0.715, then 0.143; later: 1 + 0.2832·K - 2.5557·K² + 0.8448·K³ to 0.722, then 0.175; " +
		"month: 1.391 - 3.560·K + 4.189·K² - 2.137·K³, later sunset 1.311 - 3.022·K + 3.427·K² - 1.821·K³",
	Source:  source.Erbs1982,
	Range:   "fitted on stations of the United States; single hours scatter by 0.1 and more; the daily and monthly forms are remembered; month: clearness counts as 0.3 to 0.8",
	Compute: computeDiffuse,
	Checks: []figure.Check{
		check(source.SunTables, "hour at the first knee", "share_fraction", 236.27819/241.051, 2e-6, "clearness=0.22"),
		check(source.SunTables, "hour, half clear", "share_fraction", 131.12836/198.935, 2e-6, "clearness=0.49999915"),
		check(source.SunTables, "hour, clear", "share_fraction", 0.165, 1e-6, "clearness=0.81"),
		check(source.ErbsDaily, "day of winter", "share_fraction", 0.569, 5e-4, "clearness=0.5", "period=day", "sunset-angle=70 °"),
		check(source.ErbsDaily, "day of summer", "share_fraction", 0.608, 5e-4, "clearness=0.5", "period=day", "sunset-angle=100 °"),
	},
}

func computeDiffuse(a figure.Args) (figure.Results, error) {
	if err := errors.Join(inside(a, "clearness", 0, 1), inside(a, "sunset-angle", 0, 180)); err != nil {
		return nil, err
	}
	kt, sunset, share := a.Num("clearness"), a.Num("sunset-angle"), 0.0
	switch a.Text("period") {
	case "hour":
		share = HourlyDiffuse(kt)
	case "day":
		share = DailyDiffuse(kt, sunset)
	case "month":
		share = MonthlyDiffuse(kt, sunset)
	default:
		return nil, fmt.Errorf("period %q: expected hour, day or month", a.Text("period"))
	}
	return figure.Results{"share_fraction": share}, nil
}
