package picture

import (
	"fmt"
	"math"
	"strconv"
	"strings"

	"ampstead/choose"
	q "ampstead/quantity"
)

// Compare draws the batteries side by side: one small panel for each of usable
// energy, hours short, mass, price of what is delivered, and years.
func Compare(res *choose.Result, o Options) string {
	c, height := compare(res, o)
	return c.finish(o, height, "The batteries side by side", describeCompare(res, o))
}

// trait is what a panel compares.
type trait struct {
	title, unit string
	of          func(c *choose.Candidate) reach
	text        func(r reach) string
	least       bool // the least is best
}

// reach is a value with how far it may be off; unknown values are not drawn, and
// of open ones only the least is known.
type reach struct {
	middle, low, high float64
	known, open       bool
	lacks             string // what stands in its place where it is not known
}

func sure(v float64) reach {
	return reach{middle: v, low: v, high: v, known: sound(v) && v > 0, lacks: "not known"}
}

func traits(res *choose.Result, sys q.System) []trait {
	weight := q.Kilograms.Show(1, sys)
	mass := func(c *choose.Candidate) reach { v, _ := q.Kilograms.In(c.MassKg, weight); return sure(v) }
	whole := func(r reach) string { return tickText(math.Round(r.middle), 1) }
	return []trait{
		{"Usable energy", "kWh", func(c *choose.Candidate) reach {
			return bandOf(c.UsableWh/1000, c.UsableLow/1000, c.UsableHigh/1000)
		}, func(r reach) string { return strconv.FormatFloat(r.middle, 'f', 1, 64) }, false},
		{"Short on this route", "h a year", func(c *choose.Candidate) reach {
			r := sure(c.ShortHours)
			r.known = sound(c.ShortHours) && c.ShortHours >= 0
			return r
		}, whole, true},
		{"Years until its first end", "", yearsReach, yearsWords, false},
		{"Price of what it delivers", strings.TrimSpace(currencyOf(res) + " a kWh"), delivered,
			func(r reach) string { return strconv.FormatFloat(r.middle, 'f', 2, 64) }, true},
		{"Mass", weight, mass, whole, true},
	}
}

// delivered is the price of a kWh that a battery gives over its life.
func delivered(c *choose.Candidate) reach {
	r := sure(c.PerDelivered)
	if c.Life != nil && c.DeliveredWh <= 0 {
		r.lacks = "gives none"
	}
	return r
}

func bandOf(middle, low, high float64) reach {
	r := sure(middle)
	if sound(low) && sound(high) && low >= 0 && low <= middle && high >= middle {
		r.low, r.high = low, high
	}
	return r
}

// yearsReach is the end that comes first.
func yearsReach(c *choose.Candidate) reach {
	r := bandOf(c.ByCapacity, c.Range.CapacityLow, c.Range.CapacityHigh)
	open := beyond(c, "by capacity")
	if other := beyond(c, "by function"); !other && (open || c.ByFunction < c.ByCapacity) {
		r, open = bandOf(c.ByFunction, c.Range.FunctionLow, c.Range.FunctionHigh), other
	}
	r.open, r.known = open, sound(r.middle) && r.middle >= 0 && c.Life != nil
	return r
}

// beyond reports whether the middle of an end was not reached.
func beyond(c *choose.Candidate, end string) bool {
	if c.Life == nil {
		return false
	}
	for _, s := range c.Life.Beyond {
		if strings.HasPrefix(s, end+", middle:") {
			return true
		}
	}
	return false
}

func yearsWords(r reach) string {
	if r.open {
		return "over " + tickText(math.Floor(r.middle), 1)
	}
	switch {
	case r.middle < 0.05:
		return "0"
	case r.middle < 9.95:
		return strconv.FormatFloat(r.middle, 'f', 1, 64)
	}
	return tickText(math.Round(r.middle), 1)
}

func compare(res *choose.Result, o Options) (*canvas, float64) {
	c := newCanvas("compare", o)
	if len(res.Candidates) == 0 {
		return c, caption(c, 0, "There is no battery to compare.")
	}
	b := &abreast{c: c, res: res, o: o, names: 168}
	list := traits(res, o.Units)
	if o.narrow() {
		b.names = 128
		return c, b.stacked(list)
	}
	return c, b.wide(list)
}

// abreast is the comparison while it is drawn.
type abreast struct {
	c     *canvas
	res   *choose.Result
	o     Options
	names float64 // px for the batteries' names
}

// wide sets all panels side by side beside one column of names.
func (b *abreast) wide(list []trait) float64 {
	gap := 22.0
	each := (b.c.width - b.names - gap*float64(len(list)-1)) / float64(len(list))
	top := 0.0
	for i, t := range list {
		l := b.headOf(t, each)
		l.draw(b.c, b.names+float64(i)*(each+gap), 0)
		top = math.Max(top, l.height)
	}
	tops, foot := b.rows(top + 10)
	for i, t := range list {
		left := b.names + float64(i)*(each+gap)
		b.panel(t, left, left+each, tops)
	}
	return foot
}

// stacked sets the panels one below another, each with its names.
func (b *abreast) stacked(list []trait) float64 {
	y := 0.0
	for _, t := range list {
		l := b.headOf(t, b.c.width)
		l.draw(b.c, 0, y)
		tops, foot := b.rows(y + l.height + 4)
		b.panel(t, b.names, b.c.width, tops)
		y = foot + 16
	}
	return y - 12
}

func (b *abreast) headOf(t trait, wide float64) label {
	if t.unit == "" {
		return newLabel(words{}, 0, wide, words{strong, t.title})
	}
	return newLabel(words{}, 0, wide, words{strong, t.title}, words{small, t.unit})
}

// rows writes the names and returns the middles of the rows.
func (b *abreast) rows(y float64) (middles []float64, foot float64) {
	for i := range b.res.Candidates {
		l := newLabel(words{}, 0, b.names-14, words{plain, b.res.Candidates[i].Name})
		tall := math.Max(26, l.height+8)
		l.draw(b.c, 0, y+(tall-l.height)/2)
		middles = append(middles, y+tall/2)
		y += tall
	}
	return middles, y
}

// panel draws one property of all batteries.
func (b *abreast) panel(t trait, left, right float64, rows []float64) {
	var list []reach
	most, text := 0.0, 0.0
	for i := range b.res.Candidates {
		r := t.of(&b.res.Candidates[i])
		list = append(list, r)
		if r.known {
			most, text = math.Max(most, r.high), math.Max(text, strong.measure(t.text(r)))
		}
	}
	x := linear{0, math.Max(most, 1e-9), left + 1, math.Max(left+20, right-text-16)}
	best := bestOf(list, t.least)
	b.c.line("axis", left, rows[0]-13, left, rows[len(rows)-1]+13)
	for i, r := range list {
		b.bar(t, x, rows[i], r, i == best)
	}
}

// bestOf is the one that is best, -1 where two are alike or one is known.
func bestOf(list []reach, least bool) int {
	best, known, alike := -1, 0, false
	for i, r := range list {
		if !r.known {
			continue
		}
		known++
		switch {
		case best < 0 || least && r.middle < list[best].middle || !least && r.middle > list[best].middle:
			best, alike = i, false
		case r.middle == list[best].middle:
			alike = true
		}
	}
	if known < 2 || alike {
		return -1
	}
	return best
}

// bar draws one value with how far it may be off, and its number beyond it.
func (b *abreast) bar(t trait, x linear, y float64, r reach, best bool) {
	if !r.known {
		b.c.text(small, x.p0+7, y+4, "start", small.longest(x.p1-x.p0, r.lacks, "–"))
		return
	}
	s, class := plain, "tone"
	if best {
		s, class = hot, "hot"
	}
	end := x.at(r.middle)
	b.c.rect(class, box{x.p0, y - 6, end - x.p0, 12})
	if r.high > r.low {
		low, high := x.at(math.Max(0, r.low)), x.at(r.high)
		b.c.path("reach", (&trace{}).move(low, y).to(high, y).move(low, y-4).to(low, y+4).move(high, y-4).to(high, y+4))
		end = math.Max(end, high)
	}
	b.c.text(s, end+8, y+4, "start", t.text(r))
}

func describeCompare(res *choose.Result, o Options) string {
	text := ""
	for i := range res.Candidates {
		c := &res.Candidates[i]
		var parts []string
		for _, t := range traits(res, o.Units) {
			if r := t.of(c); r.known {
				parts = append(parts, fmt.Sprintf("%s %s %s", strings.ToLower(t.title), t.text(r), t.unit))
			}
		}
		text += c.Name + ": " + strings.Join(parts, ", ") + ". "
	}
	return strings.TrimSpace(text)
}
