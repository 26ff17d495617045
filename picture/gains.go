package picture

import (
	"fmt"
	"math"
	"strings"

	"ampstead/travel"
)

// Gains draws what limits the rig: for each change that was tried, the energy
// that is no longer asked for in vain.
func Gains(res *travel.Result, o Options) string {
	c, height := gains(res, o)
	return c.finish(o, height, "What limits the rig", describeGains(res))
}

func gains(res *travel.Result, o Options) (*canvas, float64) {
	c := newCanvas("gains", o)
	if len(res.Limits) == 0 {
		return c, caption(c, 0, "No change was tried.")
	}
	g := gainOf(res.Limits)
	low, high := 0.0, 0.0
	for _, l := range res.Limits {
		low, high = math.Min(low, g.gain(l)), math.Max(high, g.gain(l))
	}
	text := g.widest(res.Limits)
	l := newLabel(words{}, 0, c.width, words{strong, g.title})
	l.draw(c, 0, 0)
	left, y := 0.0, l.height+8
	if !o.narrow() {
		left = math.Min(300, widestChange(res.Limits)+14)
	}
	x := linear{low, math.Max(high, low+1e-9), left, c.width - text}
	if low < 0 {
		x.p0 += text
	}
	for _, l := range res.Limits {
		y = g.row(c, x, y, left, l)
	}
	return c, y + 4
}

// gain is what the changes are measured by, in whole units.
type gain struct {
	title string
	of    func(l travel.Limit) float64
	saved func(v float64) string
}

// gainOf takes the energy not served, in kWh, or, when no change moves that, the
// lowest state of charge.
func gainOf(list []travel.Limit) gain {
	for _, l := range list {
		if math.Abs(l.Unserved) >= 500 {
			return gain{"Energy asked for and not served in a year, by each change", func(l travel.Limit) float64 { return -l.Unserved / 1000 }, energySaved}
		}
	}
	return gain{"Lowest state of charge of the year", func(l travel.Limit) float64 { return 100 * l.SoCMin }, pointsGained}
}

func energySaved(v float64) string {
	switch {
	case v > 0:
		return fmt.Sprintf("%.0f kWh less", v)
	case v < 0:
		return fmt.Sprintf("%.0f kWh more", -v)
	}
	return "no change"
}

func pointsGained(v float64) string {
	switch {
	case v > 0:
		return fmt.Sprintf("%.0f points higher", v)
	case v < 0:
		return fmt.Sprintf("%.0f points lower", -v)
	}
	return "no change"
}

func (g gain) gain(l travel.Limit) float64 {
	if v := math.Round(g.of(l)); !math.IsNaN(v) && !math.IsInf(v, 0) {
		return v
	}
	return 0
}

func (g gain) widest(list []travel.Limit) float64 {
	most := 0.0
	for _, l := range list {
		most = math.Max(most, strong.measure(g.saved(g.gain(l))))
	}
	return most + 16
}

func widestChange(list []travel.Limit) float64 {
	most := 0.0
	for _, l := range list {
		most = math.Max(most, plain.measure(capital(l.Change)))
	}
	return most
}

// row draws one change: its name, a bar, and what it brings at the bar's end.
func (g gain) row(c *canvas, x linear, y, left float64, l travel.Limit) float64 {
	wide := left - 14
	if left == 0 {
		wide = c.width
	}
	name := newLabel(words{}, 0, wide, words{plain, capital(l.Change)})
	name.draw(c, 0, y)
	bar := y + 9
	if left == 0 {
		bar = y + name.height + 9
	}
	v := g.gain(l)
	from, to := math.Min(x.at(0), x.at(v)), math.Max(x.at(0), x.at(v))
	if v < 0 {
		c.rect("bare", box{from, bar - 6, to - from, 12})
		c.text(strong, from-7, bar+4, "end", g.saved(v))
	} else {
		c.rect("tone", box{from, bar - 6, to - from, 12})
		c.text(strong, to+7, bar+4, "start", g.saved(v))
	}
	c.line("axis", x.at(0), bar-10, x.at(0), bar+10)
	return math.Max(bar+15, y+name.height+6)
}

func describeGains(res *travel.Result) string {
	g := gainOf(res.Limits)
	var list []string
	for _, l := range res.Limits {
		list = append(list, l.Change+": "+g.saved(g.gain(l)))
	}
	return strings.Join(list, "; ") + "."
}
