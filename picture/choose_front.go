package picture

import (
	"fmt"
	"math"
	"strconv"
	"strings"

	"ampstead/choose"
	q "ampstead/quantity"
)

// FrontView says how a trade-off front is looked at.
type FrontView struct {
	Across, Up string                   // of FrontAxes; others count as the first that are known
	Picked     string                   // name of the design that is chosen; empty for none
	Link       func(name string) string // where a press on a design leads; nil for nowhere
}

// Front draws the trade-off front of a search: every design that no other beats in
// everything, over two of price, mass, hours short and years.
func Front(res *choose.Result, v FrontView, o Options) string {
	c, height := front(res, v, o)
	return c.finish(o, height, "Rigs that no other beats in everything", describeFront(res))
}

func front(res *choose.Result, v FrontView, o Options) (*canvas, float64) {
	c := newCanvas("front", o)
	if len(res.Front) == 0 {
		return c, caption(c, 0, "No design was searched for.")
	}
	across := axisOf(v.Across, res, "")
	up := axisOf(v.Up, res, across.key)
	f := &frontier{scatter: scatter{c: c}, res: res, view: v, across: across, up: up, o: o}
	f.roots = (across.key == "short" || up.key == "short") && f.spreads()
	top := f.head()
	f.scale(top)
	foot := f.axes(capital(across.titled(res, o.Units)), f.marksAcross(), f.marksUp())
	f.stand()
	f.points()
	return c, f.foot(foot)
}

// frontier is the front while it is drawn.
type frontier struct {
	scatter
	res        *choose.Result
	view       FrontView
	across, up frontAxis
	o          Options
	unsaid     []string
	roots      bool // hours are drawn by their square roots
}

func (f *frontier) head() float64 {
	l := newLabel(words{}, 0, f.c.width, words{strong, capital(f.up.titled(f.res, f.o.Units))}, words{small, f.better()})
	l.draw(f.c, 0, 0)
	return l.height + 14
}

// better says where on the plot good designs lie.
func (f *frontier) better() string {
	up, faint := "lower", ""
	if f.res.Search != nil && len(f.res.Search.Cloud) > len(f.res.Front) {
		faint = ", faint are rigs that these beat"
	}
	if f.up.better == "up" {
		up = "higher"
	}
	across := "further left"
	if f.across.better == "up" {
		across = "further right"
	}
	if f.roots {
		faint += "; the hours stand wider apart towards none"
	}
	return up + " and " + across + " is better; the numbers are those of the table" + faint
}

func (f *frontier) scale(top float64) {
	var xs, ys []float64
	for i := range f.res.Front {
		x, y := f.at(&f.res.Front[i])
		xs, ys = append(xs, x), append(ys, y)
	}
	if d := f.stands(); d != nil {
		x, y := f.at(d)
		xs, ys = append(xs, x), append(ys, y)
	}
	tall := 360.0
	if f.o.narrow() {
		tall = 380
	}
	f.x.v0, f.x.v1 = reachOf(finite(xs))
	low, high := reachOf(finite(ys))
	if f.roots && f.up.key == "short" {
		low, high = 0, math.Max(1, high)
	}
	if low == 0 {
		low = -0.07 * high // room for the names of the best, at the foot
	}
	f.y = band{low, high, top, top + tall}
	left := 20.0
	for _, m := range f.marksUp() {
		left = math.Max(left, tick.measure(m.text))
	}
	f.x.p0, f.x.p1 = left+12, f.c.width-18
}

func finite(list []float64) []float64 {
	out := list[:0]
	for _, v := range list {
		if sound(v) {
			out = append(out, v)
		}
	}
	return out
}

// at is a design's place on the scales.
func (f *frontier) at(d *choose.Design) (x, y float64) {
	return f.on(f.across, d), f.on(f.up, d)
}

// on is a design's place on one scale.
func (f *frontier) on(a frontAxis, d *choose.Design) float64 {
	v := a.shown(a.of(d), f.o.Units)
	if f.roots && a.key == "short" {
		return math.Sqrt(v)
	}
	return v
}

// stands is the rig as it is in the file; nil when it is not known, or is one of
// the designs.
func (f *frontier) stands() *choose.Design {
	if f.res.Search == nil {
		return nil
	}
	for i := range f.res.Front {
		if asItStands(&f.res.Front[i]) {
			return nil
		}
	}
	return f.res.Search.Stands
}

func asItStands(d *choose.Design) bool { return d.Candidate == choose.Own && len(d.Set) == 0 }

// stand marks the rig as it stands by a ring.
func (f *frontier) stand() {
	d := f.stands()
	if d == nil {
		return
	}
	if x, y := f.at(d); sound(x) && sound(y) {
		f.c.dot("bare", f.x.at(x), f.y.y(y), 8)
		f.taken(f.x.at(x), f.y.y(y), 8)
	}
}

// cloud draws the designs that others beat, faint and beside the names.
func (f *frontier) cloud() {
	if f.res.Search == nil {
		return
	}
	for _, s := range f.res.Search.Cloud {
		x, y := f.at(&choose.Design{Price: s.Price, MassKg: s.MassKg, ShortHours: s.ShortHours, Years: s.Years})
		if sound(x) && sound(y) && x >= f.x.v0 && x <= f.x.v1 && f.y.holds(y) && f.blank(f.x.at(x), f.y.y(y)) {
			f.c.dot("tone", f.x.at(x), f.y.y(y), 1.8)
		}
	}
}

// points draws the designs; those that are best at something, and the chosen one,
// are named first.
func (f *frontier) points() {
	rank := f.named()
	for _, i := range rank {
		d := &f.res.Front[i]
		x, y := f.at(d)
		if !sound(x) || !sound(y) {
			continue
		}
		px, py := f.x.at(x), f.y.y(y)
		f.taken(px, py, f.wide(d))
		class := "solid"
		if d.Name == f.view.Picked {
			class = "hot"
			f.c.path("strong", (&trace{}).move(px-10, py).arc(10, px+10, py).arc(10, px-10, py))
		}
		f.c.dot(class, px, py, 5)
	}
	f.nameStand()
	for _, i := range rank {
		f.label(i)
	}
	f.cloud()
	for i := range f.res.Front {
		f.press(&f.res.Front[i])
	}
}

// blank reports whether there is neither text nor a mark at a place.
func (f *frontier) blank(x, y float64) bool {
	for _, t := range f.c.texts {
		if t.overlaps(box{x, y, 0, 0}, 4) {
			return false
		}
	}
	for _, d := range f.dots {
		if d.overlaps(box{x, y, 0, 0}, 1) {
			return false
		}
	}
	return true
}

func (f *frontier) nameStand() {
	d := f.stands()
	if d == nil {
		return
	}
	if x, y := f.at(d); sound(x) && sound(y) {
		f.name(f.x.at(x), f.y.y(y), 8, newLabel(words{}, 0, 130, words{plain, "the rig as it stands"}))
	}
}

// named is the order in which labels are set.
func (f *frontier) named() []int {
	var first, second, third []int
	for i := range f.res.Front {
		switch d := &f.res.Front[i]; {
		case d.Name == f.view.Picked:
			first = append(first, i)
		case plainWhy(d) || asItStands(d):
			second = append(second, i)
		default:
			third = append(third, i)
		}
	}
	return append(append(first, second...), third...)
}

// wide is the radius of a design's mark.
func (f *frontier) wide(d *choose.Design) float64 {
	if d.Name == f.view.Picked {
		return 10
	}
	return 5
}

// label names a design by its number, as the table does, and says what it is best
// at where that is short.
func (f *frontier) label(i int) {
	d := &f.res.Front[i]
	x, y := f.at(d)
	if !sound(x) || !sound(y) {
		return
	}
	s, wide := strong, 190.0
	if d.Name == f.view.Picked {
		s = hot
	}
	if f.o.narrow() {
		wide = 118
	}
	no := strconv.Itoa(i + 1)
	if asItStands(d) {
		f.name(f.x.at(x), f.y.y(y), f.wide(d), newLabel(words{}, 0, wide, words{s, no + ": the rig as it stands"}), newLabel(words{}, 0, wide, words{s, no}))
		return
	}
	list := []label{newLabel(words{}, 0, wide, words{s, no})}
	if plainWhy(d) {
		why := words{s, no + ": " + d.Why}
		list = append([]label{newLabel(words{}, 0, wide, why)}, list...)
		if !f.o.narrow() {
			list = append([]label{newLabel(words{}, 0, wide, why, words{small, batteryOf(d) + ", " + short(figures(d.Years, 2)) + " years"})}, list...)
		}
	}
	if !f.name(f.x.at(x), f.y.y(y), f.wide(d), list...) && plainWhy(d) {
		f.unsaid = append(f.unsaid, no+" is "+d.Why)
	}
}

// batteryOf is what a design's modules are.
func batteryOf(d *choose.Design) string {
	if d.Candidate == choose.Own {
		return "own modules"
	}
	return d.Candidate
}

// plainWhy reports whether a design is best at something outright.
func plainWhy(d *choose.Design) bool {
	return d.Why != "" && len(d.Why) <= 44 && !strings.Contains(d.Why, " of the ")
}

func (f *frontier) press(d *choose.Design) {
	if f.view.Link == nil || f.view.Link(d.Name) == "" {
		return
	}
	x, y := f.at(d)
	if !sound(x) || !sound(y) {
		return
	}
	f.c.link(f.view.Link(d.Name), designWords(d, f.res, f.o.Units), box{f.x.at(x) - 14, f.y.y(y) - 14, 28, 28})
}

func (f *frontier) foot(y float64) float64 {
	if len(f.unsaid) == 0 {
		return y
	}
	return caption(f.c, y, capital(listing(f.unsaid))+".")
}

// designWords says what a design is.
func designWords(d *choose.Design, res *choose.Result, sys q.System) string {
	mass := q.Kilograms.Text(math.Round(d.MassKg), sys)
	text := fmt.Sprintf("%s: %.0f %s, %s, %.0f h short a year, %s years", d.Name, d.Price, currencyOf(res), mass, d.ShortHours, short(figures(d.Years, 2)))
	if d.Why != "" {
		text += "; " + d.Why
	}
	return text
}

func describeFront(res *choose.Result) string {
	text := ""
	for i := range res.Front {
		text += designWords(&res.Front[i], res, q.Metric) + ". "
	}
	return text
}
