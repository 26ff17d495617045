package picture

import (
	"fmt"
	"math"
	"strconv"

	"ampstead/fit"
	"ampstead/travel"
)

// Year draws the first weather year as a ribbon of days: the stays along the
// top, the state of charge from lowest to highest of each day with the band over
// all years, what was not served and what frost kept out, and the temperature of
// the bank. set gives the frost line and may be nil.
func Year(res *travel.Result, set *fit.Result, o Options) string {
	c, height := year(res, set, o)
	return c.finish(o, height, "The year on the road, day by day", describeYear(res, o))
}

func year(res *travel.Result, set *fit.Result, o Options) (*canvas, float64) {
	c := newCanvas("year", o)
	if len(res.Days) == 0 {
		return c, caption(c, 0, "No day was reckoned.")
	}
	y := &ribbon{chart: newChart(c, len(res.Days), o), res: res}
	foot := y.stays()
	top := foot
	foot = y.charge(foot + 14)
	foot = y.bars(foot+16, "Not served", y.unserved(), "hot", func(d *travel.Day) float64 { return d.Unserved })
	foot = y.bars(foot+16, "Kept out by frost", y.frozen(), "tone", func(d *travel.Day) float64 { return d.LostFrost })
	foot = y.warmth(foot+16, frostOf(set))
	first, names := monthStarts(res.Days)
	y.names(foot, first, names)
	y.pick(o.Pick, top, foot)
	return c, foot + 22
}

// ribbon is the year's picture while it is drawn.
type ribbon struct {
	*chart
	res *travel.Result
}

func (y *ribbon) strand(low, high func(d *travel.Day) float64) strand {
	days := y.res.Days
	return gather(len(days), y.x, func(i int) float64 { return low(&days[i]) }, func(i int) float64 { return high(&days[i]) })
}

// charge draws the panel of the state of charge.
func (y *ribbon) charge(top float64) float64 {
	lowest, on := 2.0, 0
	for i, d := range y.res.Days {
		if d.SoCLow < lowest {
			lowest, on = d.SoCLow, i
		}
	}
	top = y.title(top, "State of charge", "lowest "+charge(lowest)+" on "+dayWords(y.res.Days[on].Date))
	own := y.strand(func(d *travel.Day) float64 { return d.SoCLow }, func(d *travel.Day) float64 { return d.SoCHigh })
	all := y.strand(func(d *travel.Day) float64 { return d.SoCBandLow }, func(d *travel.Day) float64 { return d.SoCBandHigh })
	b := band{0, 1, top, top + 200}
	last := len(own.x) - 1
	notes := []note{{b.y((own.low[last] + own.high[last]) / 2), []words{{plain, y.wording("each day, lowest to highest", "each day")}}}}
	if within := bandWords(y.res.Bands.Years); within != "" {
		y.c.path("wash", all.area(b))
		notes = append(notes, note{b.y(all.low[last]), []words{{small, within}}})
	}
	y.axis(b, 34, percentTick)
	y.bounds(b.top, b.bottom)
	y.c.path("tone", own.area(b))
	y.c.path("fine", own.edge(b, own.low))
	y.c.dot("hot", y.x.at(float64(on)+0.5), b.y(lowest), 3.2)
	y.notes(b, notes)
	return b.bottom
}

func (y *ribbon) wording(full, brief string) string {
	if y.narrow {
		return brief
	}
	return full
}

// bounds draws where the rig moves on.
func (y *ribbon) bounds(top, bottom float64) {
	var list []int
	for _, s := range stretches(y.res.Days) {
		list = append(list, s.first)
	}
	y.marksOf("dash", list, top, bottom)
}

func (y *ribbon) unserved() string {
	sum, days := y.tally(func(d *travel.Day) float64 { return d.Unserved })
	if days == 0 {
		return "on no day of this year"
	}
	return energy(sum, y.units) + " on " + counted(days, "day") + y.upTo(func(d *travel.Day) float64 { return d.Unserved })
}

func (y *ribbon) frozen() string {
	sum, days := y.tally(func(d *travel.Day) float64 { return d.LostFrost })
	if days == 0 {
		return "nothing in this year"
	}
	return energy(sum, y.units) + " of sun on " + counted(days, "day") + y.upTo(func(d *travel.Day) float64 { return d.LostFrost })
}

func (y *ribbon) upTo(of func(d *travel.Day) float64) string {
	most := 0.0
	for i := range y.res.Days {
		most = math.Max(most, of(&y.res.Days[i]))
	}
	return ", up to " + energy(most, y.units) + " on one"
}

// tally sums what days have of something and counts those that have any.
func (y *ribbon) tally(of func(d *travel.Day) float64) (sum float64, days int) {
	for i := range y.res.Days {
		if v := of(&y.res.Days[i]); v >= leastWh {
			sum, days = sum+v, days+1
		}
	}
	return sum, days
}

// leastWh is the least energy of a day that is worth a bar.
const leastWh = 1.0

func counted(n int, what string) string {
	if n == 1 {
		return "1 " + what
	}
	return strconv.Itoa(n) + " " + what + "s"
}

// bars draws a low panel with one bar for each day; nothing but its title when
// there is none to draw.
func (y *ribbon) bars(top float64, name, said, class string, of func(d *travel.Day) float64) float64 {
	top = y.title(top, name, said)
	most := 0.0
	for i := range y.res.Days {
		most = math.Max(most, of(&y.res.Days[i]))
	}
	if most < leastWh {
		return top - 9
	}
	b := band{0, most, top, top + 34}
	each, p := y.x.at(1)-y.x.at(0), &pen{}
	for i := range y.res.Days {
		if v := of(&y.res.Days[i]); v >= leastWh {
			left := y.x.at(float64(i))
			p.lift(left, b.bottom).draw(left, math.Min(b.y(v), b.bottom-1)).draw(left+each, math.Min(b.y(v), b.bottom-1)).draw(left+each, b.bottom)
		}
	}
	y.c.path(class, &p.trace)
	y.c.line("axis", y.x.p0, b.bottom, y.x.p1, b.bottom)
	return b.bottom
}

// warmth draws the panel of the bank's temperature over the air's.
func (y *ribbon) warmth(top, frost float64) float64 {
	bank := y.strand(func(d *travel.Day) float64 { return d.TempLow }, func(d *travel.Day) float64 { return d.TempHigh })
	air := y.strand(func(d *travel.Day) float64 { return d.AirLow }, func(d *travel.Day) float64 { return d.AirHigh })
	low, high := math.Inf(1), math.Inf(-1)
	coldest := math.Inf(1)
	for i := range bank.x {
		low, high = math.Min(low, math.Min(bank.low[i], air.low[i])), math.Max(high, math.Max(bank.high[i], air.high[i]))
		coldest = math.Min(coldest, bank.low[i])
	}
	top = y.title(top, "Temperature", "bank never below "+degrees(coldest, y.units))
	w := y.warm(low, high, top, 130)
	last := len(bank.x) - 1
	air, bank = w.turn(air), w.turn(bank)
	y.c.path("wash", air.area(w.band))
	notes := y.frost(w, frost)
	y.axis(w.band, 30, func(v, every float64) string { return tickText(v, every) + "°" })
	y.bounds(w.top, w.bottom)
	if len(notes) > 0 {
		y.c.line("strong", y.x.p0, notes[0].at, y.x.p1, notes[0].at)
	}
	y.c.path("tone", bank.area(w.band))
	y.c.path("fine", bank.edge(w.band, bank.low))
	notes = append(notes, note{w.y((bank.low[last] + bank.high[last]) / 2), []words{{plain, "the bank"}}},
		note{w.y(air.low[last]), []words{{small, y.wording("the air outside, night to day", "air outside")}}})
	y.notes(w.band, notes)
	return w.bottom
}

func describeYear(res *travel.Result, o Options) string {
	lowest := 1.0
	for _, d := range res.Days {
		lowest = math.Min(lowest, d.SoCLow)
	}
	return fmt.Sprintf("Lowest state of charge %s, coldest bank %s, %s not served, %s of sun kept out by frost.", charge(lowest),
		degrees(res.Year.BankTempMin, o.Units), energy(res.Year.Unserved, o.Units), energy(res.Year.LostFrost, o.Units))
}
