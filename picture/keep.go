package picture

import (
	"math"
	"slices"
	"time"

	"ampstead/keep"
)

// logTime turns instants of the logbook into days since its first one.
type logTime struct{ first, last time.Time }

func newLogTime(instants []string) (logTime, bool) {
	var l logTime
	for _, text := range instants {
		at, ok := readInstant(text)
		if !ok {
			continue
		}
		if l.first.IsZero() || at.Before(l.first) {
			l.first = at
		}
		if at.After(l.last) {
			l.last = at
		}
	}
	return l, !l.first.IsZero()
}

// readInstant reads a date or an instant; what lies too far away to be drawn is
// none.
func readInstant(text string) (time.Time, bool) {
	for _, form := range []string{time.RFC3339, time.DateOnly} {
		if at, err := time.Parse(form, text); err == nil && at.Year() > 1900 && at.Year() < 2200 {
			return at, true
		}
	}
	return time.Time{}, false
}

// days is how long after the first instant one lies; NaN when it is none.
func (l logTime) days(text string) float64 {
	at, ok := readInstant(text)
	if !ok {
		return math.NaN()
	}
	return at.Sub(l.first).Hours() / 24
}

func (l logTime) span() float64 { return l.last.Sub(l.first).Hours() / 24 }

// calendarSteps are the distances of ticks on a time axis: days, or months.
var calendarSteps = []struct{ days, months int }{{1, 0}, {2, 0}, {7, 0}, {14, 0}, {0, 1}, {0, 2}, {0, 3}, {0, 6}, {0, 12}, {0, 24}, {0, 60}, {0, 120}}

// dated is a tick of a time axis.
type dated struct {
	at   float64 // days since the first instant
	text string
}

// ticks lists the dates between from and to, days since the first instant, at
// least room days apart.
func (l logTime) ticks(from, to, room float64) []dated {
	step := calendarSteps[len(calendarSteps)-1]
	for _, s := range calendarSteps {
		if float64(s.days)+30.4*float64(s.months) >= room {
			step = s
			break
		}
	}
	begin := l.first.Add(time.Duration(from * 24 * float64(time.Hour)))
	at := time.Date(begin.Year(), begin.Month(), 1, 0, 0, 0, 0, time.UTC)
	if step.months > 1 {
		at = time.Date(begin.Year()-begin.Year()%max(1, step.months/12), 1, 1, 0, 0, 0, 0, time.UTC)
	}
	var list []dated
	for ; len(list) < 40; at = at.AddDate(0, step.months, step.days) {
		days := at.Sub(l.first).Hours() / 24
		if days > to {
			break
		}
		if days >= from {
			list = append(list, dated{days, tickDate(at, step.months, len(list) == 0)})
		}
	}
	return list
}

// tickDate names a tick: by day, by month, or by year where a year begins.
func tickDate(at time.Time, months int, first bool) string {
	switch {
	case months == 0:
		return at.Format("2 Jan")
	case months >= 12 || at.Month() == time.January:
		return at.Format("2006")
	case first:
		return at.Format("Jan 2006")
	}
	return at.Format("Jan")
}

// dateRoom is the room the longest date takes on the axis, px.
var dateRoom = tick.measure("May 2026") + 12

// dates draws the time axis below the panels.
func (t *chart) dates(l logTime, y float64) float64 {
	perPx := (t.x.v1 - t.x.v0) / (t.x.p1 - t.x.p0)
	lines := (&trace{}).move(t.x.p0, y).to(t.x.p1, y)
	for _, d := range l.ticks(t.x.v0, t.x.v1, dateRoom*perPx) {
		x := t.x.at(d.at)
		lines.move(x, y).by(0, 4)
		if half := tick.measure(d.text) / 2; x-half > 0 && x+half < t.c.width {
			t.c.text(tick, x, y+17, "middle", d.text)
		}
	}
	t.c.path("axis", lines)
	return y + 24
}

// logChart is a chart over the time of the logbook, with a little room to either
// side so that no mark lies on the frame.
func logChart(c *canvas, o Options, from, to float64) *chart {
	t := newChart(c, 1, o)
	pad := math.Max(0.5, 0.02*(to-from))
	t.x.v0, t.x.v1 = from-pad, to+pad
	return t
}

// trendOf keeps the points of the trend that count and can be placed, by time.
func trendOf(res *keep.Result) []keep.Point {
	var list []keep.Point
	for _, p := range res.Trend {
		if _, ok := readInstant(p.Taken); ok && p.Weight > 0 {
			list = append(list, p)
		}
	}
	slices.SortStableFunc(list, func(a, b keep.Point) int {
		x, _ := readInstant(a.Taken)
		y, _ := readInstant(b.Taken)
		return x.Compare(y)
	})
	return list
}
