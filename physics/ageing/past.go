package ageing

import "math"

// daysAYear is the mean year of the calendar.
const daysAYear = 365.25

// Past is what is known of a used cell.
type Past struct {
	Capacity   float64 // measured, fraction of new; 0: not measured
	Resistance float64 // measured, factor on new; 0: not measured
	Use        Stress  // its whole past as stated; no days and no throughput: not known
}

// VehicleUse is the past of a cell from a road vehicle when only years and full
// equivalents are stated: 25 °C, 60 % charge in the mean, cycles a third deep at
// a third of the capacity per hour. Common practice, no source; hot climates and
// fast charging make it worse. Without full equivalents it takes 60 a year.
func VehicleUse(years, fullCycles float64) Stress {
	if fullCycles == 0 {
		fullCycles = 60 * years
	}
	return Stress{Days: years * daysAYear, SoC: 0.6, TempC: 25, Depth: 1.0 / 3, Throughput: fullCycles, CRate: 1.0 / 3}
}

// From is a used cell. A measured capacity counts: the cell is aged along its
// stated use, or a vehicle's when none is stated, until it has lost as much.
// Without a measurement it is aged by the stated use alone; its true state then
// lies anywhere in the model's band (take m.Scaled of the band's ends).
func (m *Model) From(p Past) Life {
	l := m.Start()
	stated := p.Use.Days > 0 || p.Use.Throughput > 0 || len(p.Use.Cycles) > 0
	if stated {
		l.Add(p.Use)
		l.basis = "stated use"
	}
	if p.Capacity > 0 {
		l.past = m.agedTo(1-p.Capacity, l.past)
		l.basis = "measured"
	}
	if p.Resistance > 1 {
		l.past = m.grownTo(p.Resistance-1, l.past)
	}
	return l
}

// worn is the loss at which a measured start ends: below a tenth of its capacity
// no model says anything of a cell.
const worn = 0.9

// agedTo stretches a past until it has cost the loss.
func (m *Model) agedTo(loss float64, past amounts) amounts {
	total := func(a amounts) float64 {
		_, _, lost := m.law.lost(a)
		return m.scale * lost
	}
	if total(past) == 0 {
		use := VehicleUse(1, 0)
		past = m.law.add(use)
	}
	if loss <= 0 {
		return amounts{}
	}
	return past.times(stretch(min(loss, worn), func(f float64) float64 { return total(past.times(f)) }))
}

// grownTo stretches the resistance's share of a past alone.
func (m *Model) grownTo(growth float64, past amounts) amounts {
	if _, _, ok := m.law.grown(past); !ok {
		return past
	}
	if past.calendarRes+past.cyclingRes == 0 {
		use := VehicleUse(1, 0)
		step := m.law.add(use)
		past.calendarRes, past.cyclingRes = step.calendarRes, step.cyclingRes
	}
	f := stretch(growth, func(f float64) float64 {
		calendar, cycling, _ := m.law.grown(past.times(f))
		return m.scale * (calendar + cycling)
	})
	past.calendarRes *= f
	past.cyclingRes *= f
	return past
}

// stretch finds the factor at which a rising function reaches a value.
func stretch(want float64, at func(f float64) float64) float64 {
	low, high := -200.0, 200.0 // powers of two
	for range 100 {
		mid := (low + high) / 2
		if at(math.Exp2(mid)) < want {
			low = mid
		} else {
			high = mid
		}
	}
	return math.Exp2((low + high) / 2)
}
