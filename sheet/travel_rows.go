package sheet

import (
	"ampstead/finding"
	"fmt"
	"math"
	"strconv"
	"time"

	q "ampstead/quantity"
	"ampstead/travel"
)

func text(n uint64) string { return strconv.FormatUint(n, 10) }

func counted(n int, what string) string {
	if n == 1 {
		return "1 " + what
	}
	return strconv.Itoa(n) + " " + what + "s"
}

// energy writes an amount to three figures; nothing below a watt-hour.
func energy(wh float64, sys q.System) string {
	if math.Abs(wh) < 1 {
		return "0"
	}
	scale := math.Pow(10, 3-math.Ceil(math.Log10(math.Abs(wh))))
	return q.WattHours.Text(math.Round(wh*scale)/scale, sys)
}

// kWh writes an amount of a table whose head names the unit; a dash for nothing.
func kWh(wh float64) string {
	if math.Abs(wh) < 50 {
		return "–"
	}
	return strconv.FormatFloat(wh/1000, 'f', 1, 64)
}

func hoursText(h float64) string {
	if h < 0.5 {
		return "–"
	}
	return whole(h)
}

func degrees(c float64, sys q.System) string {
	unit := q.Celsius.Show(0, sys)
	v, _ := q.Celsius.In(c, unit)
	return whole(v) + " " + unit
}

func charge(fraction float64) string {
	if fraction < -0.0005 {
		return "past empty"
	}
	return percent(math.Max(0, fraction))
}

var monthDays = [...]int{31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31}

func monthRows(res *travel.Result, sys q.System) []MonthRow {
	var list []MonthRow
	for _, m := range res.Months {
		row := MonthRow{Name: time.Month(m.Month).String(), From: fmt.Sprintf("%02d-01", m.Month), Offered: kWh(m.SunOffered), Caught: kWh(m.SunCaught),
			Full: kWh(m.LostFull), Frost: kWh(m.LostFrost), Other: kWh(m.LostLimit + m.LostStopped + m.Conversion), Brought: kWh(m.Mains + m.Alternator),
			Asked: kWh(m.Load), Unserved: kWh(m.Unserved), Hours: hoursText(m.UnservedH), Heater: kWh(m.Heater), Locked: hoursText(m.FrostLockedH),
			Lowest: charge(m.SoCMin), Coldest: degrees(m.BankTempMin, sys), Short: m.UnservedH >= 0.5}
		if m.Month >= 1 && m.Month <= len(monthDays) {
			row.Days = strconv.Itoa(monthDays[m.Month-1])
		}
		list = append(list, row)
	}
	return list
}

func stayRows(res *travel.Result, sys q.System) []StayRow {
	var list []StayRow
	for _, s := range res.Stays {
		row := StayRow{Name: s.Name, Dates: dayText(s.From) + " to " + dayText(s.To), Unserved: hoursText(s.UnservedH), Frost: kWh(s.LostFrost), Lowest: charge(s.SoCMin), Sun: "–"}
		if s.Latitude != 0 || s.Longitude != 0 {
			row.Place = q.DegreesNorth.Text(s.Latitude, sys) + ", " + q.DegreesEast.Text(s.Longitude, sys)
		}
		if s.Days > 0 {
			row.Sun = kWh(s.SunOffered / float64(s.Days))
		}
		list = append(list, row)
	}
	return list
}

func dayText(date string) string {
	t, err := readDay(date)
	if err != nil {
		return date
	}
	return t.Format("2 Jan")
}

func limitRows(res *travel.Result, sys q.System) []LimitRow {
	var list []LimitRow
	for _, l := range res.Limits {
		list = append(list, LimitRow{Change: l.Change, Why: finding.Sentence(l.Why), Hours: signed(l.UnservedHours, 0), Energy: signed(l.Unserved/1000, 1),
			Frost: signed(l.LostFrost/1000, 1), Heater: signed(l.Heater/1000, 1), Low: signed(100*l.SoCMin, 0)})
	}
	return list
}

// signed writes a change with its sign; a dash when it rounds to none.
func signed(v float64, decimals int) string {
	text := strconv.FormatFloat(math.Abs(v), 'f', decimals, 64)
	if n, _ := strconv.ParseFloat(text, 64); n == 0 {
		return "–"
	}
	if v < 0 {
		return "−" + text
	}
	return "+" + text
}

// reached lists what the first year came to.
func reached(res *travel.Result, sys q.System) []Reached {
	y := &res.Year
	return []Reached{
		{"lowest state of charge", charge(y.SoCMin), "below " + charge(y.SoCP5) + " for one hour in twenty"},
		{"bank temperature", degrees(y.BankTempMin, sys) + " to " + degrees(y.BankTempMax, sys), whole(y.HoursHot) + " h above " + degrees(35, sys)},
		{"coldest cell while charging", degrees(y.ColdestCharge, sys), ""},
		{"cell voltage", between(round(y.CellLowV, 2), round(y.CellHighV, 2), 2), "lowest to highest"},
		{"highest voltage on the bus", volts(round(y.BusHighV, 1), 1), ""},
		{"charge current", b0(y.ChargePeakA), "the most at once"},
		{"discharge current", b0(y.DrawPeakA), "the most at once, appliances starting included"},
		{"full cycles", whole(y.FullCycles), "charge taken out, over capacity"},
		{"above 90 % charged", whole(y.HoursHigh) + " h", "ageing while it rests is fastest there"},
		{"heater", energy(y.Heater, sys), ""},
		{"bank cut off from the bus", whole(y.Disconnected) + " h", ""},
		{"energy books close to", strconv.FormatFloat(y.Error, 'e', 0, 64), "the largest gap, as a share"},
	}
}

func b0(a float64) string { return q.Amperes.Fixed(a, "A", 0) }

func round(v float64, decimals int) float64 {
	p := math.Pow10(decimals)
	return math.Round(v*p) / p
}
