package travel

import (
	"math"

	"ampstead/device"
	"ampstead/engine"
)

// ledger books a day step by step, in W·s, s and A·s.
type ledger struct {
	r       *drive
	t       *dayTally
	e       *engine.Engine
	offered []float64 // W, by charger
	gave    []float64 // Wh each charger had given before
	took    []float64 // Wh each load had taken before the day, by part
	idle    []float64 // W each inverter draws idle
	chargeC float64   // °C at and below which no charge may be
	rateAh  float64
}

func newLedger(r *drive, t *dayTally) *ledger {
	l := r.books
	if l == nil {
		l = &ledger{r: r, e: r.a.Engine, chargeC: r.w.fit.Kind.ChargeMinC.Value, rateAh: r.w.fit.Cell.Capacity}
		l.offered = make([]float64, len(r.a.Chargers))
		l.gave = make([]float64, len(r.a.Chargers))
		l.took = make([]float64, len(r.a.Engine.Names()))
		for i := range r.a.Inverters {
			l.idle = append(l.idle, r.a.Inverters[i].Device.IdleW)
		}
	}
	l.t = t
	return l
}

// step books the step just taken.
func (l *ledger) step(dt float64) {
	locked := false
	for i := range l.r.a.Chargers {
		locked = l.charger(i, dt) || locked
	}
	if locked {
		l.t.FrostLockedH += dt
	}
	l.consumers(dt)
	l.bank(dt)
}

// charger books what a source gave and why not more. It reports whether frost
// kept it out.
func (l *ledger) charger(i int, dt float64) bool {
	c := &l.r.a.Chargers[i]
	state := l.e.State(c.Part)
	if state == device.Unsupplied {
		return false
	}
	wh := l.e.PartWh(c.Part)
	gave := (wh - l.gave[i]) * 3600
	l.gave[i] = wh
	frost := l.frozen(i, state)
	switch c.Source.Kind {
	case "mains":
		l.t.Mains += gave
	case "alternator":
		l.t.Alternator += gave
	default:
		l.sun(i, gave, dt, frost, state)
	}
	return frost
}

// sun books every watt-second the panels offered once.
func (l *ledger) sun(i int, gave, dt float64, frost bool, state device.State) {
	c, t := &l.r.a.Chargers[i], l.t
	offered := l.offered[i] * dt
	lost := gave * (1/c.Efficiency - 1)
	refused := offered - gave - lost
	t.SunOffered += offered
	t.SunCaught += gave
	amps := l.e.PartA(c.Part)
	switch {
	case frost:
		t.LostFrost += refused
	case state == device.Stopped || l.cutOff():
		t.LostStopped += refused
	case amps >= c.Device.LimitA*(1-1e-9):
		t.LostLimit += refused
	case amps*l.e.PartV(c.Part) >= c.Device.SupplyW*(1-1e-6):
		lost += refused // it took all there was; the step's mean voltage is not that of its end
	default:
		t.LostFull += refused
	}
	t.Conversion += lost
}

// frozen reports whether cold keeps a source out: its own lock, or a cut-out that
// stops it or what connects it.
func (l *ledger) frozen(i int, state device.State) bool {
	if state == device.FrostLocked {
		return true
	}
	for _, g := range l.r.frostGuards[i] {
		if l.e.State(g) == device.TooCold {
			return true
		}
	}
	return false
}

// cutOff reports whether a contactor is open.
func (l *ledger) cutOff() bool {
	for _, c := range l.r.a.Contactors {
		if l.e.State(c) == device.Open {
			return true
		}
	}
	return false
}

// consumers books what the appliances asked for and got.
func (l *ledger) consumers(dt float64) {
	short := 0.0
	for i := range l.r.a.Converters {
		c := &l.r.a.Converters[i]
		short += l.consumer(c.Device.DemandW, l.delivered(c.Part, c.Device.DeliveredW), dt)
	}
	for i := range l.r.a.Inverters {
		v := &l.r.a.Inverters[i]
		short += l.consumer(v.Device.DemandW, l.delivered(v.Part, v.Device.DeliveredW), dt)
	}
	for i := range l.r.a.Direct {
		x := &l.r.a.Direct[i]
		short += l.consumer(x.Device.W, min(x.Device.W, l.e.PartA(x.Part)*l.e.PartV(x.Part)), dt)
	}
	if short > 0 {
		l.t.UnservedH += dt
	}
}

// delivered is what a converter gives as long as its side of the bus lives.
func (l *ledger) delivered(part int, watts float64) float64 {
	if l.e.PartV(part) <= 0 {
		return 0
	}
	return watts
}

// enough is the share of a demand that may be missing in the arithmetic.
const enough = 1e-9

func (l *ledger) consumer(asked, got, dt float64) (short float64) {
	if short = asked - got; short <= enough*asked {
		short, got = 0, asked
	}
	l.t.Load += asked * dt
	l.t.Served += got * dt
	l.t.Unserved += short * dt
	return short
}

// coldC is the temperature up to which the cells' current limit is watched: above
// it charge sources are sized for it.
const coldC = 16.0

// bank books the bank's own figures.
func (l *ledger) bank(dt float64) {
	b, t, y := l.r.a.Bank, l.t, &l.r.out.Year
	amps := b.Amps()
	cold, hot := b.Warmth()
	if amps > 0 {
		l.cold(amps, cold, dt)
	}
	t.tempLow, t.tempHigh = min(t.tempLow, cold), max(t.tempHigh, hot)
	soc := meanSoC(b.SoCs())
	t.socLow, t.socHigh = min(t.socLow, soc), max(t.socHigh, soc)
	if l.cutOff() {
		t.Disconnected += dt
	}
	if !l.r.counted {
		return
	}
	y.ChargePeakA, y.DrawPeakA = max(y.ChargePeakA, amps), max(y.DrawPeakA, -amps)
	l.r.out.bins[binOf(soc)] += dt
	if soc > 0.9 {
		y.HoursHigh += dt / 3600
	}
	if hot > 35 {
		y.HoursHot += dt / 3600
	}
	if s := l.r.strain; s != nil {
		s.step(b, soc, (cold+hot)/2, dt)
	}
}

// cold books charge into cold cells.
func (l *ledger) cold(amps, cold, dt float64) {
	if l.r.counted {
		l.r.out.ColdestCharge = min(l.r.out.ColdestCharge, cold)
	}
	if cold >= coldC {
		return
	}
	if cold <= l.chargeC {
		l.t.FrostChargeAh += amps * dt
	}
	l.t.ColdExcessAh += max(0, amps-l.r.w.fit.Kind.ChargeRate(cold)*l.rateAh) * dt
}

func meanSoC(socs []float64) float64 {
	sum := 0.0
	for _, s := range socs {
		sum += s
	}
	return sum / float64(len(socs))
}

func (l *ledger) air(tempC float64) {
	l.t.airLow, l.t.airHigh = min(l.t.airLow, tempC), max(l.t.airHigh, tempC)
}

// endDay books what is read from the devices' own counts once a day.
func (l *ledger) endDay() {
	all := 0.0
	for part := range l.took {
		wh := l.e.PartWh(part)
		taken := (wh - l.took[part]) * 3600
		l.took[part] = wh
		switch {
		case l.r.isSource[part]:
		case part == l.r.a.Heater:
			l.t.Heater = taken
		default:
			all += taken
		}
	}
	l.t.Overhead = all - l.t.Served
	l.t.scale(1.0 / 3600)
}

// gap is what is missing in books that should close, over what moved.
func gap(left, moved float64) float64 { return math.Abs(left) / max(moved, 1) }
