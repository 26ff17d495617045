package travel

import (
	"context"
	"math"
	"slices"

	"ampstead/assembly"
	"ampstead/device"
	"ampstead/engine"
	"ampstead/habit"
	"ampstead/rig"
)

// longest is the longest step, s.
const longest = 60.0 * longMinutes

// warmUpDays of December come before the year and are not counted.
const warmUpDays = 10

// startSoC is the state of charge they start from.
const startSoC = 0.7

// roomLeastC is the least the living room is held at, °C.
const roomLeastC = 16.0

// drive is one year in the making.
type drive struct {
	w      *world
	a      *assembly.Assembly
	sky    []daySky
	light  *light
	span   *spanner
	strain *strain // of the first year only

	demand  *habit.Day
	offers  [][minutes]float64 // W the panels of each source could give
	air     [25]float64        // °C at the full hours of the day
	books   *ledger
	out     *yearTally
	counted bool
	today   *day
	place   *place
	start   engine.Books // when the year began

	held        []hold    // by relay
	isSource    []bool    // by part
	frostGuards [][]int   // by source: cut-outs that can keep it out
	most        []float64 // W each source is offered at most in the next minutes
	ohm         float64   // of bank and main cable, cold
	steep       float64   // V of the bank for the whole charge
	heaterW     float64
	heater      *device.Heater
	heatK       float64 // K for each second of heating
	highestCut  float64 // low cut of a converter or inverter
	idleW       float64 // of all converters and inverters
}

// run steps a rig through a year. Cancelling ctx ends it early with its error.
func (w *world) run(ctx context.Context, sky []daySky, l *light, number int, wish *SpanWish) (*yearTally, error) {
	first := yearDays - warmUpDays
	r := &drive{w: w, sky: sky, light: l, out: &yearTally{refused: map[string]float64{}}}
	air, _ := sky[first].hours.Air(float64(sky[first].first))
	var err error
	if r.a, err = w.assemble(startSoC, r.bankAir(first, air)); err != nil {
		return nil, err
	}
	if r.span, err = newSpanner(wish, w.stepS); err != nil {
		return nil, err
	}
	if number == 0 && !w.alone {
		r.strain = newStrain(w.rig.Bank.Series, w.fit.Cell.RatedAh, w.fit.Cell.Capacity)
	}
	r.wire()
	r.begin()
	for d := first; d < yearDays; d++ {
		r.day(d, number, -1)
	}
	r.open()
	for d := range yearDays {
		if ctx.Err() != nil {
			return nil, ctx.Err()
		}
		r.day(d, number, d)
	}
	r.close()
	return r.out, nil
}

// begin makes room for what a day offers and asks for.
func (r *drive) begin() {
	r.demand = habit.NewDay(len(r.w.feeds))
	r.offers = make([][minutes]float64, len(r.w.arrays))
}

// bankAir is the air around the bank's box.
func (r *drive) bankAir(d int, air float64) float64 {
	p := &r.w.route.places[r.w.route.days[d].place]
	return max(p.coldest, min(p.hottest, air))
}

// day steps through a day of the route; into is the day it is booked on, or -1.
func (r *drive) day(d, number, into int) {
	r.today = &r.w.route.days[d]
	r.place = &r.w.route.places[r.today.place]
	r.counted = into >= 0
	if r.strain != nil {
		r.strain.turn(r.today.month)
	}
	t := newDayTally()
	r.prepare(d, number)
	r.books = newLedger(r, &t)
	for m := 0; m < minutes; {
		n, each := r.stretch(m)
		r.block(d, m, n, each)
		m += n
	}
	r.books.endDay()
	if r.counted {
		r.out.days[into] = t
	}
}

// prepare works out what the day offers and asks for.
func (r *drive) prepare(d, number int) {
	s := &r.sky[d]
	room := [24]float64{}
	for h := range r.air {
		r.air[h], _ = s.hours.Air(float64(s.first + h))
	}
	for h := range room {
		room[h] = max(roomLeastC, (r.air[h]+r.air[h+1])/2)
	}
	date := habit.Date{Day: number*yearDays + d, Month: r.today.month, Weekday: r.today.weekday, South: s.hours.Place.Latitude < 0}
	r.demand.Fill(r.w.loads, r.w.seed, date, room[:])
	from := d * minutes
	plane, cell := r.light.plane[from:from+minutes], r.light.cell[from:from+minutes]
	for i := range r.offers {
		r.offer(&r.w.arrays[i], &r.offers[i], plane, cell)
	}
}

func (r *drive) offer(a *array, out *[minutes]float64, plane, cell []float32) {
	if len(a.strings) == 0 {
		return
	}
	for m := range out {
		out[m] = 0
		if plane[m] > 0 {
			out[m] = a.watts(float64(plane[m]), float64(cell[m]))
		}
	}
}

func (r *drive) driving(m int) bool {
	return m >= setOff && float64(m-setOff)*60 < r.today.driving
}

// block takes some minutes in steps of a length.
func (r *drive) block(d, m, n int, each float64) {
	r.supply(m, n)
	r.ask(m, n)
	r.byHand()
	hour := m / 60
	part := (float64(m%60) + float64(n)/2) / 60
	air := r.air[hour] + part*(r.air[min(hour+1, 24)]-r.air[hour])
	r.a.Engine.SurroundingC = r.bankAir(d, air)
	r.books.air(air)
	before := r.books.t.Energies
	seconds := float64(60 * n)
	steps := int(math.Ceil(seconds / each))
	for range steps {
		r.a.Engine.Step(seconds / float64(steps))
		r.books.step(seconds / float64(steps))
	}
	if r.counted {
		r.surges(m, n)
		r.span.note(r, &before, d, m, n, air)
	}
}

// wire finds out which parts are sources and which cut-outs can keep each out.
func (r *drive) wire() {
	r.isSource = make([]bool, len(r.a.Engine.Names()))
	r.held = make([]hold, len(r.a.Relays))
	r.most = make([]float64, len(r.a.Chargers))
	r.ohm, r.steep = coldOhm*r.w.fit.Cell.Ohm, steep*float64(r.w.rig.Bank.Series)
	if h := r.w.rig.Heater; h != nil {
		r.heaterW = float64(*h.Power)
		r.heater = r.a.Pad
		r.heatK = r.heaterW / r.a.HeatJPerK
	}
	for i := range r.a.Converters {
		r.knows(r.a.Converters[i].Device)
	}
	for i := range r.a.Inverters {
		r.knows(&r.a.Inverters[i].Device.Converter)
	}
	for i := range r.a.Chargers {
		c := &r.a.Chargers[i]
		r.isSource[c.Part] = true
		var guards []int
		for _, g := range r.a.Guards {
			if slices.Contains(g.Stops, c.Source.Name) || r.cutsCharge(g.Stops) {
				guards = append(guards, g.Part)
			}
		}
		r.frostGuards = append(r.frostGuards, guards)
	}
}

func (r *drive) knows(c *device.Converter) {
	r.idleW += c.IdleW
	r.highestCut = max(r.highestCut, c.LowCutV)
}

// cutsCharge reports whether a contactor between sources and bank is among names.
func (r *drive) cutsCharge(names []string) bool {
	for _, c := range r.w.rig.Protection.Contactors {
		if c.Opens != "loads" && slices.Contains(names, c.Name) {
			return true
		}
	}
	return false
}

// Mains and its chargers; ours. A charger draws more than it gives.
const (
	mainsV          = 230.0
	mainsVUS        = 120.0
	mainsEfficiency = 0.88 // of a mains charger
	powerFactor     = 0.95
	unboundedW      = 1e12
)

// supply sets what each source can draw on in the next minutes.
func (r *drive) supply(m, n int) {
	for i := range r.a.Chargers {
		c := &r.a.Chargers[i]
		c.Device.SupplyW = 0
		switch c.Source.Kind {
		case "solar":
			r.books.offered[i] = mean(r.offers[i][m : m+n])
			c.Device.SupplyW = r.books.offered[i] * c.Efficiency
		case "mains":
			c.Device.SupplyW = hookupWatts(r.place, r.w.rig)
		case "alternator":
			if r.driving(m) {
				c.Device.SupplyW = unboundedW
			}
		}
	}
}

// hookupWatts is what a charger makes of the mains current allowed, W.
func hookupWatts(p *place, r *rig.Rig) float64 {
	volts := mainsV
	if r.About.Units == "us" {
		volts = mainsVUS
	}
	return p.mainsA * volts * mainsEfficiency * powerFactor
}

func mean(x []float64) float64 {
	if len(x) == 1 {
		return x[0]
	}
	sum := 0.0
	for _, v := range x {
		sum += v
	}
	return sum / float64(len(x))
}

// ask sets what the appliances ask of what feeds them in the next minutes.
func (r *drive) ask(m, n int) {
	k := 2
	for i := range r.a.Converters {
		r.a.Converters[i].Device.DemandW = mean(r.demand.Watts[k][m : m+n])
		k++
	}
	for i := range r.a.Inverters {
		v := r.a.Inverters[i].Device
		v.DemandW = mean(r.demand.Watts[k][m : m+n])
		if r.w.sleeps {
			v.IdleW = r.books.idle[i]
			if v.DemandW == 0 {
				v.IdleW = 0
			}
		}
		k++
	}
	for i := range r.a.Direct {
		x := &r.a.Direct[i]
		x.Device.W = mean(r.demand.Watts[directFeed(x)][m : m+n])
	}
}

// directFeed is the feed of loads on the bank, before or behind the disconnect.
func directFeed(x *assembly.Direct) int {
	if x.BankSide {
		return 1
	}
	return 0
}
