package picture

import (
	"math"
	"strconv"

	"ampstead/fit"
	"ampstead/travel"
)

// Week draws a stretch of the year in full detail: state of charge, the sun
// offered and caught with the power the appliances took, and the temperature of
// the bank.
func Week(res *travel.Result, set *fit.Result, o Options) string {
	c, height := week(res, set, o)
	return c.finish(o, height, "Some days in detail", describeWeek(res.Span, o))
}

func week(res *travel.Result, set *fit.Result, o Options) (*canvas, float64) {
	c := newCanvas("week", o)
	s := res.Span
	if s == nil || len(s.SoC) == 0 || !(s.StepS > 0) {
		return c, caption(c, 0, "No days were chosen.")
	}
	w := &detail{chart: newChart(c, 1, o), span: s, days: float64(len(s.SoC)) * s.StepS / 86400}
	w.x.v1 = w.days
	foot := w.charge(0)
	foot = w.power(foot + 16)
	foot = w.warmth(foot+16, frostOf(set))
	w.dates(foot)
	return c, foot + 22
}

// detail is the picture while it is drawn; its time axis counts days.
type detail struct {
	*chart
	span *travel.Span
	days float64
}

// dates writes the days below the panels: in the middle of each, or, where they
// are too many, every so many days from midnight on.
func (w *detail) dates(y float64) {
	first, known := readDay(w.span.From)
	each := (w.x.p1 - w.x.p0) / w.days
	every := math.Max(1, math.Ceil((tick.measure("30 Mar")+8)/each))
	for d := 0.0; d < w.days; d += every {
		text := strconv.Itoa(int(d) + 1)
		if known {
			text = first.AddDate(0, 0, int(d)).Format("2 Jan")
		}
		left, wide := w.x.at(d), tick.measure(text)
		if every == 1 {
			left += (each - wide) / 2
		}
		if left+wide <= w.x.p1+2 {
			w.c.text(tick, left, y+14, "start", text)
		}
	}
}

func (w *detail) strand(values []float64) strand {
	n := len(w.span.SoC)
	at := func(i int) float64 {
		if i < len(values) {
			return values[i]
		}
		return 0
	}
	return gather(n, w.x, at, at)
}

func (w *detail) midnights(b band) {
	var list []int
	for d := 1; float64(d) < w.days; d++ {
		list = append(list, d)
	}
	w.marksOf("dash", list, b.top, b.bottom)
}

func (w *detail) charge(top float64) float64 {
	s := w.strand(w.span.SoC)
	low, high := s.extent()
	top = w.title(top, "State of charge", charge(low)+" to "+percent(high))
	b := band{0, 1, top, top + 130}
	w.axis(b, 30, percentTick)
	w.midnights(b)
	w.c.path("curve", s.course(b))
	w.notes(b, []note{{b.y(s.low[len(s.low)-1]), []words{{plain, "the bank"}}}})
	return b.bottom
}

// power draws the sun offered as a pale area, what of it was caught darker on it,
// and the appliances as a line.
func (w *detail) power(top float64) float64 {
	offered, caught, load := w.strand(w.span.OfferW), w.strand(w.span.SunW), w.strand(w.span.LoadW)
	_, most := offered.extent()
	_, peak := load.extent()
	top = w.title(top, "Power, kW", "sun up to "+watts(most, w.units)+", appliances up to "+watts(peak, w.units))
	b := band{0, math.Max(1, 1.04*math.Max(most, peak)), top, top + 150}
	w.c.path("wash", offered.floor(b))
	w.axis(b, 34, func(v, every float64) string { return tickText(v/1000, every/1000) })
	w.midnights(b)
	w.c.path("hair", offered.edge(b, offered.high))
	w.c.path("tone", caught.floor(b))
	w.c.path("fine", load.course(b))
	w.notes(b, w.powerNotes(b, offered, caught, load))
	return b.bottom
}

// powerNotes name the three at the height of their peaks of the last day.
func (w *detail) powerNotes(b band, offered, caught, load strand) []note {
	last := max(0, len(load.x)-int(float64(len(load.x))/math.Max(1, w.days)))
	peak := func(s strand) float64 {
		most := 0.0
		for _, v := range s.high[last:] {
			most = math.Max(most, v)
		}
		return b.y(most)
	}
	return []note{{peak(offered), []words{{small, w.either("the sun offered", "sun offered")}}},
		{peak(caught), []words{{plain, w.either("caught from it", "caught")}}},
		{peak(load), []words{{strong, w.either("appliances", "in use")}}}}
}

func (w *detail) either(full, brief string) string {
	if w.narrow {
		return brief
	}
	return full
}

func (w *detail) warmth(top, frost float64) float64 {
	bank, air := w.strand(w.span.TempC), w.strand(w.span.AirC)
	low, high := bank.extent()
	top = w.title(top, "Temperature", "bank "+degrees(low, w.units)+" to "+degrees(high, w.units))
	airLow, airHigh := air.extent()
	scale := w.warm(math.Min(low, airLow), math.Max(high, airHigh), top, 120)
	bank, air = scale.turn(bank), scale.turn(air)
	notes := w.frost(scale, frost)
	w.axis(scale.band, 28, func(v, every float64) string { return tickText(v, every) + "°" })
	w.midnights(scale.band)
	if len(notes) > 0 {
		w.c.line("strong", w.x.p0, notes[0].at, w.x.p1, notes[0].at)
	}
	w.c.path("dash", air.edge(scale.band, air.high))
	w.c.path("curve", bank.edge(scale.band, bank.high))
	last := len(bank.x) - 1
	notes = append(notes, note{scale.y(bank.high[last]), []words{{plain, "the bank"}}},
		note{scale.y(air.high[last]), []words{{small, w.either("the air outside", "air outside")}}})
	w.notes(scale.band, notes)
	return scale.bottom
}

func describeWeek(s *travel.Span, o Options) string {
	if s == nil {
		return ""
	}
	low, high := 1.0, 0.0
	for _, v := range s.SoC {
		low, high = math.Min(low, v), math.Max(high, v)
	}
	return "From " + dayWords(s.From) + ": state of charge between " + charge(low) + " and " + percent(high) + "."
}
