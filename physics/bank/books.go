package bank

import "math"

// tally sums what crosses the bank's borders, in J and A·s.
type tally struct {
	terminal, heat, leak, links, heater, lost, shift float64
	in, out, seconds                                 float64
	stored, relax, warmth                            float64 // when the books were opened
}

// book enters a step: the energy (J) that went under the rest-voltage curves,
// the mean voltage over the slow branches, and the powers (W) of heat and leaks.
func (b *Bank) book(stored, slow, heat, leak float64) {
	t, dt, amps := &b.tally, b.dt, b.amps
	terminal := stored + (leak+(slow+b.ohm*amps)*amps)*dt
	t.terminal += terminal
	t.heat += heat * dt
	t.leak += leak * dt
	t.links += b.linksOhm * amps * amps * dt
	t.seconds += dt
	charge := amps * dt
	if charge > 0 {
		t.in += charge
	} else {
		t.out -= charge
	}
	b.mean = b.end
	if charge > least || charge < -least {
		b.mean = terminal / charge
	}
}

// least is the charge (A·s) of a step below which its mean voltage is taken as
// that at its end.
const least = 1e-3

// Books are the energies and charges since the books were opened. Each is
// summed or taken from the state by its own formula, none as what remains:
//
//	TerminalWh = StoredWh + RelaxWh − ShiftWh + HeatWh + LeakWh + LinksWh
//	HeatWh + LeakWh + HeaterWh = WarmthWh + LostWh
type Books struct {
	Seconds    float64
	InAh       float64 // charged at the terminals
	OutAh      float64 // discharged
	TerminalWh float64 // net energy taken in at the terminals
	StoredWh   float64 // rise of the energy under the rest-voltage curve
	RelaxWh    float64 // rise of the energy in the slow branches
	ShiftWh    float64 // the part of that which came from resistance changing with temperature, a trait of the model
	HeatWh     float64 // made in the resistances of the groups
	LeakWh     float64 // lost through the leaks, as heat
	LinksWh    float64 // made in joints and links, outside the groups
	HeaterWh   float64 // put in by the heater
	LostWh     float64 // to the surroundings
	WarmthWh   float64 // rise of the heat held in the groups
}

// OpenBooks starts the books afresh.
func (b *Bank) OpenBooks() {
	b.tally = tally{stored: b.stored(), relax: b.relaxed(), warmth: b.warmth()}
}

// Books returns the books since they were opened.
func (b *Bank) Books() Books {
	t := &b.tally
	return Books{
		Seconds: t.seconds, InAh: t.in / 3600, OutAh: t.out / 3600,
		TerminalWh: t.terminal / 3600,
		StoredWh:   (b.stored() - t.stored) / 3600,
		RelaxWh:    (b.relaxed() - t.relax) / 3600,
		ShiftWh:    t.shift / 3600,
		HeatWh:     t.heat / 3600, LeakWh: t.leak / 3600, LinksWh: t.links / 3600,
		HeaterWh: t.heater / 3600, LostWh: t.lost / 3600,
		WarmthWh: (b.warmth() - t.warmth) / 3600,
	}
}

// Gap returns by how much the electrical books fail to close, as a fraction of
// the energy that moved, or of a milliwatt-hour when less did.
func (k Books) Gap() float64 {
	moved := math.Abs(k.StoredWh) + k.HeatWh + math.Abs(k.LeakWh) + k.LinksWh
	return gap(k.TerminalWh-k.StoredWh-k.RelaxWh+k.ShiftWh-k.HeatWh-k.LeakWh-k.LinksWh, moved)
}

// HeatGap is the same for the books of heat.
func (k Books) HeatGap() float64 {
	moved := k.HeatWh + math.Abs(k.LeakWh) + k.HeaterWh + math.Abs(k.LostWh) + math.Abs(k.WarmthWh)
	return gap(k.HeatWh+k.LeakWh+k.HeaterWh-k.WarmthWh-k.LostWh, moved)
}

func gap(left, moved float64) float64 { return math.Abs(left) / max(moved, 1e-3) }

func (b *Bank) stored() float64 {
	sum := 0.0
	for i := range b.groups {
		g := &b.groups[i]
		sum += g.capacity * b.table.restAt(g.soc).integral(g.soc)
	}
	return sum
}

func (b *Bank) relaxed() float64 {
	sum := 0.0
	for k := range b.branches {
		r := &b.branches[k]
		sum += 0.5 * r.tau * r.slow * r.j * r.j
	}
	return sum
}

func (b *Bank) warmth() float64 {
	sum := b.waiting
	for i := range b.groups {
		sum += b.groups[i].warmth * b.temps[i]
	}
	return sum
}
