package cli

import (
	"fmt"
	"io"
	"math"
	"time"

	"ampstead/quantity"
	"ampstead/rig"
	"ampstead/travel"
)

// travelText prints a year on the road for a terminal.
type travelText struct {
	w   io.Writer
	res *travel.Result
	sys quantity.System
}

func (t *travelText) print(file *rig.File) {
	fmt.Fprintf(t.w, "%s\n%s, %d weather years, seed %d\n\n", file.Rig.About.Name, t.res.Weather.Source, t.res.Weather.Years, t.res.Weather.Seed)
	printFindings(t.w, file, t.res.Findings)
	t.year()
	t.months()
	t.bands()
	t.limits()
	t.basis()
	printCautions(t.w)
}

func (t *travelText) year() {
	y := &t.res.Year
	var tab table
	tab.row("THE YEAR", "", "")
	for _, row := range [][]string{
		{"sun", t.kWh(y.SunOffered), fmt.Sprintf("offered by the panels; %s caught, %s lost to a full bank, %s to frost, %s to current limits, %s while switched off",
			t.kWh(y.SunCaught), t.kWh(y.LostFull), t.kWh(y.LostFrost), t.kWh(y.LostLimit), t.kWh(y.LostStopped))},
		{"mains", t.kWh(y.Mains), ""}, {"alternator", t.kWh(y.Alternator), ""},
		{"appliances", t.kWh(y.Load), fmt.Sprintf("asked for; %s not served, in %s", t.kWh(y.Unserved), hoursText(y.UnservedH))},
		{"on the way", t.kWh(y.Overhead), "idle draw and losses of converters and inverters"},
		{"heater", t.kWh(y.Heater), fmt.Sprintf("frost kept charge out for %s", hoursText(y.FrostLockedH))},
		{"charge", percent(y.SoCMin), fmt.Sprintf("at the lowest; below %s for one hour in twenty; %.0f full cycles", percent(y.SoCP5), y.FullCycles)},
		{"bank", t.degrees(y.BankTempMin), fmt.Sprintf("at the coldest, %s at the hottest; coldest cell while charging %s", t.degrees(y.BankTempMax), t.degrees(y.ColdestCharge))},
		{"cells", volts(y.CellLowV, 3), fmt.Sprintf("to %s; up to %.0f A in and %.0f A out", volts(y.CellHighV, 3), y.ChargePeakA, y.DrawPeakA)},
	} {
		tab.row(row...)
	}
	tab.print(t.w)
}

func (t *travelText) months() {
	fmt.Fprintln(t.w)
	var tab table
	tab.row("MONTHS", "sun offered", "caught", "full", "frost", "mains", "asked for", "not served", "heater", "lowest", "coldest")
	for i := range t.res.Months {
		m := &t.res.Months[i]
		tab.row(time.Month(m.Month).String()[:3], t.kWh(m.SunOffered), t.kWh(m.SunCaught), t.kWh(m.LostFull), t.kWh(m.LostFrost), t.kWh(m.Mains+m.Alternator),
			t.kWh(m.Load), hoursText(m.UnservedH), t.kWh(m.Heater), percent(m.SoCMin), t.degrees(m.BankTempMin))
	}
	tab.print(t.w)
}

func (t *travelText) bands() {
	b := &t.res.Bands
	fmt.Fprintln(t.w)
	var tab table
	tab.row(fmt.Sprintf("OVER %d YEARS", b.Years), "low", "middle", "high")
	for _, row := range []struct {
		name string
		is   travel.Range
		show func(float64) string
	}{
		{"hours not served", b.UnservedHours, hoursText}, {"sun caught", b.SunCaught, t.kWh}, {"lowest charge", b.SoCMin, percent},
		{"lost to frost", b.LostFrost, t.kWh}, {"hours locked by frost", b.FrostLockedH, hoursText}, {"heater", b.Heater, t.kWh},
	} {
		tab.row(row.name, row.show(row.is.Low), row.show(row.is.Middle), row.show(row.is.High))
	}
	tab.print(t.w)
}

func (t *travelText) limits() {
	if len(t.res.Limits) == 0 {
		return
	}
	fmt.Fprintln(t.w)
	var tab table
	tab.row("WHAT MORE WOULD BRING, a year", "not served", "", "sun caught", "lowest", "what it is")
	for _, l := range t.res.Limits {
		tab.row(l.Change, fmt.Sprintf("%+.0f h", l.UnservedHours), t.change(l.Unserved), t.change(l.SunCaught), fmt.Sprintf("%+.1f %%", 100*l.SoCMin), l.Why)
	}
	tab.print(t.w)
}

func (t *travelText) basis() {
	fmt.Fprintln(t.w, "\nWHAT THIS RESTS ON")
	for _, n := range t.res.Weather.Notes {
		fmt.Fprintf(t.w, "  %s\n", n)
	}
	for _, a := range t.res.Assumed {
		fmt.Fprintf(t.w, "  %s\n", a)
	}
	fmt.Fprintf(t.w, "  the energy books close to %.1e of what moved\n", t.res.Year.Error)
}

func (t *travelText) kWh(wh float64) string    { return quantity.WattHours.Fixed(wh, "kWh", 1) }
func (t *travelText) change(wh float64) string { return fmt.Sprintf("%+.1f kWh", wh/1000) }

func (t *travelText) degrees(c float64) string {
	unit := "°C"
	if t.sys == quantity.US {
		unit = "°F"
	}
	return quantity.Celsius.Fixed(c, unit, 0)
}

func hoursText(h float64) string   { return fmt.Sprintf("%.0f h", h) }
func percent(share float64) string { return fmt.Sprintf("%.0f %%", math.Round(100*share)+0) }
