package keep

import (
	"fmt"
	"math"
	"slices"

	"ampstead/rig"
)

// When levelling is worth it and when not to start; ours.
const (
	gainWanted = 0.01 // of the usable energy
	offsetTold = 3.0  // sigma
	stillShare = 0.01 // of the capacity per hour: more is under load
	coldC      = 5.0
	staleDays  = 30.0
)

// balance says what levelling the groups would take and bring.
func (s *study) balance() {
	b := &s.res.Balance
	b.BleedAh, b.AddAh, b.Not = make([]float64, s.plant.n), make([]float64, s.plant.n), []string{}
	if len(s.usable) == 0 || len(s.res.Groups) < 2 {
		b.Not = append(b.Not, "no reading tells how the groups stand")
		return
	}
	offsets := s.offsets()
	low, high := slices.Min(offsets), slices.Max(offsets)
	for k, o := range offsets {
		b.BleedAh[k], b.AddAh[k] = o-low, high-o
		s.res.Groups[k].BleedAh = o - low
	}
	b.Hours = levelHours(s.rig.Bank.Balancer, offsets)
	now, level := s.energy(offsets), s.energy(make([]float64, len(offsets)))
	b.GainWh = math.Max(0, level-now)
	b.Wanted = b.GainWh > gainWanted*level && s.spreadTold(offsets) && s.unread() == nil
	b.Not = s.notNow()
}

// offsets are the groups' as drawn; a group never read is taken as level.
func (s *study) offsets() []float64 {
	list := make([]float64, len(s.res.Groups))
	for k, g := range s.res.Groups {
		list[k] = g.OffsetAh
	}
	return list
}

// spreadTold reports whether the highest stands above the lowest by more than
// their errors.
func (s *study) spreadTold(offsets []float64) bool {
	top, bottom := 0, 0
	for k, o := range offsets {
		if o > offsets[top] {
			top = k
		}
		if o < offsets[bottom] {
			bottom = k
		}
	}
	err := math.Hypot(s.res.Groups[top].OffsetErr, s.res.Groups[bottom].OffsetErr)
	return offsets[top]-offsets[bottom] > offsetTold*err
}

// energy is what the string gives between the daily limits, Wh: it is charged
// until the first group is at the upper one and gives until the first is at the
// lower.
func (s *study) energy(offsets []float64) float64 {
	curve := s.plant.kind.Curve
	full, empty := curve.SoC(s.fit.Daily.CellHighV), curve.SoC(s.fit.Daily.CellLowV)
	top, bottom := math.Inf(-1), math.Inf(1)
	for k, o := range offsets {
		top = math.Max(top, s.plant.ah[k]*(1-full)+o)
		bottom = math.Min(bottom, s.plant.ah[k]*(1-empty)+o)
	}
	if bottom <= top {
		return 0
	}
	wh := 0.0
	for k, o := range offsets {
		ah := s.plant.ah[k]
		wh += ah * curve.Energy(1-(bottom-o)/ah, 1-(top-o)/ah)
	}
	return wh
}

// levelHours is how long the rig's balancer takes, 0 without one.
func levelHours(b *rig.Balancer, offsets []float64) float64 {
	if b == nil {
		return 0
	}
	from := slices.Min(offsets)
	switch b.Kind {
	case "charger":
		from = slices.Max(offsets)
	case "transfer":
		from = mean(offsets)
	}
	most, sum := 0.0, 0.0
	for _, o := range offsets {
		each := math.Abs(o - from)
		most, sum = math.Max(most, each), sum+each
	}
	if b.AtOnce > 0 {
		most = math.Max(most, sum/float64(b.AtOnce))
	}
	return most / float64(*b.Current)
}

// notNow lists why levelling should wait.
func (s *study) notNow() []string {
	list := []string{}
	last, v := s.latest(), s.visits[len(s.visits)-1]
	if known(v.amps) && math.Abs(v.amps) > stillShare*s.plant.bankAh {
		list = append(list, fmt.Sprintf("under load of %s at the last reading", s.amps(v.amps)))
	}
	if v != last && v.weight == 0 {
		list = append(list, "the last reading tells no charges: "+firstOf(v.why))
	}
	if known(v.tempC) && v.tempC < coldC {
		list = append(list, fmt.Sprintf("cold: %s", s.degrees(v.tempC)))
	}
	if old := s.o.Now.Sub(last.reading.Taken).Hours() / hoursADay; old > staleDays {
		list = append(list, fmt.Sprintf("the last reading that tells the charges is %.0f days old", old))
	}
	return list
}

func firstOf(list []string) string {
	if len(list) == 0 {
		return "no group was read"
	}
	return list[0]
}
