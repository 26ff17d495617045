package travel

import (
	"fmt"
	"math"
	"sort"
	"strings"

	"ampstead/finding"
	q "ampstead/quantity"
)

// rules are the findings, by stable id.
var rules = []struct {
	id    string
	check func(*study, *Result) []finding.Finding
}{
	{"frost-unguarded", frostUnguarded},
	{"disconnected", disconnected},
	{"unserved", unserved},
	{"frost-locked", frostLocked},
	{"heater-too-low", heaterTooLow},
	{"cold-current", coldCurrent},
	{"cell-beyond-limit", cellBeyond},
	{"start-refused", startRefused},
	{"main-fuse-peak", mainFuse},
	{"held-full", heldFull},
	{"charger-limit", chargerLimit},
	{"hot-bank", hotBank},
}

func (s *study) findings(res *Result) []finding.Finding {
	list := []finding.Finding{}
	for _, r := range rules {
		for _, f := range r.check(s, res) {
			f.ID = r.id
			list = append(list, f.By(s.workings(r.id, res)...))
		}
	}
	finding.Sort(list)
	return list
}

func one(sev finding.Severity, where, found, because, mend string) []finding.Finding {
	return []finding.Finding{{Severity: sev, Where: where, Found: found, Because: because, Mend: mend}}
}

func (s *study) system() q.System {
	sys, _ := q.ParseSystem(s.world.rig.About.Units)
	return sys
}

func (s *study) degrees(c float64) string { return q.Celsius.Text(math.Round(10*c)/10, s.system()) }

func kWh(wh float64) string { return q.WattHours.Fixed(wh, "kWh", 1) }

func hours(h float64) string { return fmt.Sprintf("%.0f h", h) }

// frostUnguarded: nothing keeps some sources out of the frost.
func frostUnguarded(s *study, res *Result) []finding.Finding {
	if s.alone == nil {
		return nil
	}
	a, err := s.world.assemble(startSoC, 15)
	if err != nil {
		return nil
	}
	lock := s.lockC()
	found := fmt.Sprintf("nothing stops %s in frost. Reckoned as though someone switched them off by hand below %s: %s in the year, and %s of sun lost to frost, %s of it from November to March",
		strings.Join(a.Unlocked, ", "), s.degrees(lock), hours(res.Year.FrostLockedH), kWh(res.Year.LostFrost), kWh(darkMonths(res, func(m *Month) float64 { return m.LostFrost })))
	if res.Year.FrostChargeAh > 0 {
		found += fmt.Sprintf("; left alone they would charge %.0f Ah at or below %s", res.Year.FrostChargeAh, s.degrees(s.fit.Kind.ChargeMinC.Value))
	} else {
		found += fmt.Sprintf("; left alone they would charge with the coldest cell at %s, and this year's weather did not bring it to %s",
			s.degrees(res.Year.ColdestCharge), s.degrees(s.fit.Kind.ChargeMinC.Value))
	}
	return one(finding.Stop, "protection.cutouts", found,
		"charging a cell below its frost limit plates metallic lithium, which does not come off again and can short the cell",
		"put a cut-out on the coldest module that works the stop input of every charge source, and set the heater above it (see fit)")
}

// lockC is the frost lock fit recommends.
func (s *study) lockC() float64 {
	for _, m := range s.fit.Warmth {
		if m.Name == "frost lock" {
			return m.TempC
		}
	}
	return s.fit.Kind.ChargeMinC.Value
}

// darkMonths sums November to March.
func darkMonths(res *Result, of func(*Month) float64) float64 {
	sum := 0.0
	for _, m := range []int{11, 12, 1, 2, 3} {
		sum += of(&res.Months[m-1])
	}
	return sum
}

func disconnected(s *study, res *Result) []finding.Finding {
	h := res.Year.Disconnected
	if h < 1 {
		return nil
	}
	sev := finding.Care
	if h > 24 {
		sev = finding.Stop
	}
	return one(sev, "protection", fmt.Sprintf("the bank is cut off for %s of the year, first on %s; %s of what is asked for then goes unserved over the year",
		hours(h), firstDay(s, func(t *dayTally) bool { return t.Disconnected > 0 }), kWh(res.Year.Unserved)),
		"a disconnect is there for faults; where it opens in daily use it works as a charge or discharge limit, and may stay open for want of a way back",
		"bring charge voltages and low cuts inside it, as the settings sheet of fit shows")
}

// firstDay is the date of the first day something is true, or "".
func firstDay(s *study, is func(*dayTally) bool) string {
	for d := range s.years[0].days {
		if is(&s.years[0].days[d]) {
			return s.route.days[d].date[5:]
		}
	}
	return ""
}

func unserved(s *study, res *Result) []finding.Finding {
	y := &res.Year
	if y.UnservedH < 1 {
		return nil
	}
	sev := finding.Note
	if y.Unserved > 0.02*y.Load {
		sev = finding.Care
	}
	mend := "see what limits it: the changes are sorted by what they bring"
	if len(res.Limits) > 0 && res.Limits[0].Unserved < 0 {
		mend = fmt.Sprintf("most is brought by: %s (%+.1f kWh not served)", res.Limits[0].Change, res.Limits[0].Unserved/1000)
	}
	found := fmt.Sprintf("in %s of the year at least one appliance is not served, most in %s; %s of %s",
		hours(y.UnservedH), worstMonths(res, func(m *Month) float64 { return m.UnservedH }), kWh(y.Unserved), kWh(y.Load))
	if n := res.Bands.Years; n > 1 {
		found += fmt.Sprintf(". Over %d weather years %.0f to %.0f h", n, res.Bands.UnservedHours.Low, res.Bands.UnservedHours.High)
	}
	return one(sev, "bank", found,
		"the bank comes to its low cut while something is wanted", mend)
}

var monthNames = [12]string{"January", "February", "March", "April", "May", "June", "July", "August", "September", "October", "November", "December"}

// worstMonths names the two worst months.
func worstMonths(res *Result, of func(*Month) float64) string {
	list := make([]*Month, 12)
	for i := range res.Months {
		list[i] = &res.Months[i]
	}
	sort.SliceStable(list, func(i, j int) bool { return of(list[i]) > of(list[j]) })
	names := monthNames[list[0].Month-1]
	if of(list[1]) > 0 {
		names += " and " + monthNames[list[1].Month-1]
	}
	return names
}

func frostLocked(s *study, res *Result) []finding.Finding {
	y := &res.Year
	if s.alone != nil || y.LostFrost < 0.02*y.SunOffered && y.FrostLockedH < 48 {
		return nil
	}
	return one(finding.Care, "heater", fmt.Sprintf("frost keeps charge out for %s of the year and costs %s of sun, most in %s",
		hours(y.FrostLockedH), kWh(y.LostFrost), worstMonths(res, func(m *Month) float64 { return m.LostFrost })),
		"a bank that is locked out of the winter sun runs empty when it is needed most",
		"more insulation, or a heater set above the lock; see what limits it")
}

// heaterTooLow: the heater holds the bank where it may not be charged.
func heaterTooLow(s *study, res *Result) []finding.Finding {
	h := s.world.rig.Heater
	if h == nil || !h.On.On() || !h.Off.On() || res.Year.FrostLockedH < 1 || float64(h.Off.Value) > s.lockC()+2 {
		return nil
	}
	return one(finding.Care, "heater.on", fmt.Sprintf("it warms the bank to %s, and charge is kept out below %s: %s of heat a year that unlocks nothing",
		s.degrees(float64(h.Off.Value)), s.degrees(s.lockC()), kWh(res.Year.Heater)),
		"the heater spends energy and the sun still finds the bank locked",
		"set it above the frost lock, as the settings sheet shows")
}

func coldCurrent(s *study, res *Result) []finding.Finding {
	y := &res.Year
	if y.ColdExcessAh < 10 {
		return nil
	}
	return one(finding.Note, "charge", fmt.Sprintf("%.0f Ah of the year are charged faster than the cells bear at their temperature below %s; peak %.0f A",
		y.ColdExcessAh, s.degrees(coldC), y.ChargePeakA),
		"cold cells take a fifth of their capacity an hour at most; faster, they begin to plate",
		"limit the current of the sources together in the cold months, or warm the bank")
}

func cellBeyond(s *study, res *Result) []finding.Finding {
	y, k := &res.Year, s.fit.Kind
	var list []finding.Finding
	if y.CellHighV > k.MaxV.Value+0.001 {
		list = append(list, one(finding.Stop, "charge", fmt.Sprintf("a cell comes to %.3f V, past its limit of %.2f V, with every device at its nominal setting", y.CellHighV, k.MaxV.Value),
			"past its limit a cell plates lithium, gives off gas and can catch fire", "set the charge voltages as the settings sheet of fit shows")...)
	}
	if y.CellLowV < k.MinV.Value-0.001 {
		list = append(list, one(finding.Stop, "inverters", fmt.Sprintf("a cell is drawn to %.3f V, below its limit of %.2f V", y.CellLowV, k.MinV.Value),
			"below its limit copper goes into solution, and the cell may short when it is charged again", "set the low cuts as the settings sheet of fit shows")...)
	}
	return list
}

func startRefused(s *study, res *Result) []finding.Finding {
	var list []finding.Finding
	for _, v := range s.world.feeds {
		if w := s.years[0].refused[v]; w > 0 {
			list = append(list, one(finding.Care, "loads", fmt.Sprintf("as an appliance starts, %s is asked for %.0f W, more than it gives for a moment", v, w),
				"it trips, and everything on it stops", "start it with less else running, or choose a stronger one")...)
		}
	}
	return list
}

func mainFuse(s *study, res *Result) []finding.Finding {
	for _, f := range s.world.rig.Protection.Fuses {
		if f.Guards == "bank" && res.Year.DrawPeakA > float64(*f.Rating) {
			return one(finding.Care, "protection.fuses."+f.Name, fmt.Sprintf("the bank gives up to %.0f A, starts included; it is rated %.0f A", res.Year.DrawPeakA, float64(*f.Rating)),
				"a fuse carried past its rating ages and opens one day without a fault", "see wire for its size, or start fewer things at once")
		}
	}
	return nil
}

// muchHours is a third of the year.
const muchHours = 2900.0

func heldFull(s *study, res *Result) []finding.Finding {
	if res.Year.HoursHigh < muchHours {
		return nil
	}
	return one(finding.Note, "charge", fmt.Sprintf("the bank stands above 90 %% for %s of the year", hours(res.Year.HoursHigh)),
		"calendar ageing is fastest near full", "in the months of plenty charge less far (the gentler window of fit)")
}

func chargerLimit(s *study, res *Result) []finding.Finding {
	y := &res.Year
	if y.LostLimit < 0.03*y.SunOffered {
		return nil
	}
	return one(finding.Note, "charge", fmt.Sprintf("%s of %s of sun is lost to the chargers' current limit", kWh(y.LostLimit), kWh(y.SunOffered)),
		"the panels could give more than their charger may pass on", "where the cells take more (fit), raise its current or add a charger; in summer it may not matter")
}

func hotBank(s *study, res *Result) []finding.Finding {
	if res.Year.HoursHot < 200 {
		return nil
	}
	return one(finding.Note, "bank.box", fmt.Sprintf("the bank is above %s for %s of the year, up to %s", s.degrees(35), hours(res.Year.HoursHot), s.degrees(res.Year.BankTempMax)),
		"ageing about doubles for every 10 K", "let air at the box in summer, or shade it")
}
