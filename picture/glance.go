package picture

import (
	"fmt"
	"math"
	"time"

	"ampstead/travel"
)

// The heights of the parts of a glance, px. They do not hang on what was reckoned,
// so that the picture has its place on a page before the year is known.
const (
	glanceTall  = 128.0
	glanceStrip = 12.0
	glanceRows  = 3 // of names of stays
	glanceTitle = "State of charge, %"
)

// Glance draws the year small, to stand on the rig's first page: the state of
// charge, the days that came short, those on which frost kept sun out, and the
// stays. Without a result it draws the same sheet with nothing on it: both are of
// one size.
func Glance(res *travel.Result, o Options) string {
	c, height := glance(res, o)
	if !reckoned(res) {
		return c.finish(o, height, "The year, not reckoned yet", "The months without anything in them.")
	}
	return c.finish(o, height, "The year at a glance", describeYear(res, o)+" "+glanceStays(res))
}

func reckoned(res *travel.Result) bool { return res != nil && len(res.Days) > 0 }

func glance(res *travel.Result, o Options) (*canvas, float64) {
	c := newCanvas("glance", o)
	days := blankDays()
	if reckoned(res) {
		days = res.Days
	}
	g := &glimpsed{ribbon: &ribbon{chart: newChart(c, len(days), o), res: res}, days: days}
	g.gutter = 66
	if c.width >= 480 {
		g.gutter = 92
	}
	g.gutterAt = c.width - g.gutter
	g.x.p0, g.x.p1 = axisWide-4, g.gutterAt-10
	b := band{0, 1, strong.leading() + 8, strong.leading() + 8 + glanceTall}
	c.text(strong, 0, strong.leading()-4, "start", glanceTitle)
	if reckoned(res) {
		g.charged(b)
	} else {
		g.axis(b, 34, percentTick)
	}
	foot := g.strip(b.bottom+12, "short", "hot", func(d *travel.Day) float64 { return d.Unserved })
	foot = g.strip(foot+8, "frost", "tone", func(d *travel.Day) float64 { return d.LostFrost })
	first, names := monthStarts(days)
	g.names(foot+2, first, names)
	return c, g.placed(foot + 24)
}

// glimpsed is a glance while it is drawn.
type glimpsed struct {
	*ribbon
	days []travel.Day
}

// blankDays are the days of a year nothing is known of.
func blankDays() []travel.Day {
	first := time.Date(2027, 1, 1, 0, 0, 0, 0, time.UTC) // a year without a leap day, like all here
	list := make([]travel.Day, 365)
	for i := range list {
		list[i].Date = first.AddDate(0, 0, i).Format(time.DateOnly)
	}
	return list
}

// charged draws the state of charge of every day over the band of all years.
func (g *glimpsed) charged(b band) {
	lowest, on := 2.0, 0
	for i, d := range g.days {
		if d.SoCLow < lowest {
			lowest, on = d.SoCLow, i
		}
	}
	begin := strong.measure(glanceTitle) + 10
	day := dayWords(g.days[on].Date)
	g.c.text(plain, begin, strong.leading()-4, "start", plain.longest(g.c.width-begin, "lowest "+charge(lowest)+" on "+day, charge(lowest)+", "+day, charge(lowest)))
	own := g.coarse(func(d *travel.Day) float64 { return d.SoCLow }, func(d *travel.Day) float64 { return d.SoCHigh })
	notes := []note{{b.y((own.low[len(own.x)-1] + own.high[len(own.x)-1]) / 2), []words{{plain, "each day"}}}}
	if g.res.Bands.Years > 1 {
		all := g.coarse(func(d *travel.Day) float64 { return d.SoCBandLow }, func(d *travel.Day) float64 { return d.SoCBandHigh })
		g.c.path("wash", all.area(b))
		notes = append(notes, note{b.y(all.low[len(all.x)-1]), []words{{small, allYears(g.res.Bands.Years)}}})
	}
	g.axis(b, 34, percentTick)
	g.bounds(b.top, b.bottom)
	g.c.path("tone", own.area(b))
	g.c.path("fine", own.edge(b, own.low))
	g.c.dot("hot", g.x.at(float64(on)+0.5), b.y(lowest), 3.2)
	g.notes(b, notes)
}

// glanceColumn is the least width of a column of days, px: coarser than in the
// ribbon, for a page that is to come quickly.
const glanceColumn = 3.5

func (g *glimpsed) coarse(low, high func(d *travel.Day) float64) strand {
	return gatherBy(glanceColumn, len(g.days), g.x, func(i int) float64 { return low(&g.days[i]) }, func(i int) float64 { return high(&g.days[i]) })
}

func allYears(n int) string {
	if n < 10 {
		return fmt.Sprintf("all %d years", n)
	}
	return "8 years in 10"
}

// strip draws a row with a mark for each day on which something was lost, and says
// beside it on how many.
func (g *glimpsed) strip(top float64, name, class string, of func(d *travel.Day) float64) float64 {
	bottom := top + glanceStrip
	g.c.line("hair", g.x.p0, bottom, g.x.p1, bottom)
	n, p := 0, &pen{}
	for i := 0; i < len(g.days); i++ {
		if of(&g.days[i]) < leastWh {
			continue
		}
		from := i
		for i+1 < len(g.days) && of(&g.days[i+1]) >= leastWh {
			i++
		}
		n += i - from + 1
		left, right := g.x.at(float64(from)), math.Min(g.x.at(float64(i+1)), g.x.p1)
		right = math.Max(right, left+1.2)
		p.lift(left, bottom).draw(left, top).draw(right, top).draw(right, bottom)
	}
	g.c.path(class, &p.trace)
	g.c.text(tick, g.x.p0-6, bottom-1, "end", name)
	if reckoned(g.res) {
		g.c.text(tick, g.gutterAt, bottom-1, "start", counted(n, "day"))
	}
	return bottom
}

// placed names the stays below the months, each from where it begins, in at most
// three rows; a name there is no room for is left to the table of stays.
func (g *glimpsed) placed(top float64) float64 {
	foot := top + 8 + glanceRows*(tick.leading()+1)
	if !reckoned(g.res) {
		return foot
	}
	list := stretches(g.days)
	var left, right []float64
	for _, s := range list {
		wide := tick.measure(s.place)
		at := math.Max(0, math.Min(g.x.at(float64(s.first)), g.c.width-wide))
		left, right = append(left, at), append(right, at+wide)
	}
	rows := columns(left, right, 8)
	for i, s := range list {
		from, to := g.x.at(float64(s.first)), g.x.at(float64(s.last+1))
		g.c.path("line", (&trace{}).move(from+1, top+4).to(from+1, top).to(to-1, top))
		if rows[i] < glanceRows && tick.measure(s.place) <= g.c.width {
			g.c.text(tick, left[i], top+6+tick.leading()*float64(rows[i]+1), "start", s.place)
		}
	}
	return foot
}

// glanceStays says in words where the rig stands when.
func glanceStays(res *travel.Result) string {
	text := "Stays:"
	for i, s := range stretches(res.Days) {
		if i > 0 {
			text += ","
		}
		text += " " + s.place + " " + s.dates(res.Days)
	}
	return text + "."
}
