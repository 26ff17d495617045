package travel

import (
	"cmp"
	"math"
	"slices"

	"ampstead/physics/ageing"
	"ampstead/physics/bank"
)

// MonthStress is what a month puts the cells through, for the ageing models.
type MonthStress struct {
	Days       float64
	SoC        float64        // mean state of charge, fraction
	CellV      float64        // mean rest voltage, V
	RmsV       float64        // quadratic mean of the voltage at the terminals, each ampere-hour counting alike, V
	TempC      float64        // mean of the cells, °C
	EffectiveC float64        // the steady temperature that ages a cell as much, by Arrhenius with agingK
	BusyC      float64        // mean while current flows, each ampere-hour counting alike, °C
	Throughput float64        // Ah discharged over rated Ah
	GaveWh     float64        // what the bank gave at its terminals
	CRate      float64        // current over capacity, each ampere-hour counting alike, 1/h
	Cycles     []ageing.Cycle // of the state of charge by rainflow, equal ones together, smallest first
	Warmth     []Warmth       // how long it was how warm, coldest first
}

// Warmth is some time at a temperature.
type Warmth struct{ TempC, Days float64 }

// agingK is the activation temperature of EffectiveC, K: that of calendar loss in
// Schmalstieg et al. 2014. The ageing models do not use it; see Stress.
const agingK = 6976

// Stress is the year as the ageing models take it. Time is handed over by
// temperature, for each model has an activation of its own and holds its terms
// somewhere; use comes apart from it, at the temperature it happened at.
func (r *Result) Stress() []ageing.Stress {
	var list []ageing.Stress
	for _, m := range r.Months {
		s := m.Stress
		for _, w := range s.Warmth {
			list = append(list, ageing.Stress{Days: w.Days, SoC: s.SoC, CellV: s.CellV, TempC: w.TempC})
		}
		if s.Throughput > 0 {
			list = append(list, ageing.Stress{SoC: s.SoC, CellV: s.CellV, RmsV: s.RmsV, TempC: s.BusyC,
				Throughput: s.Throughput, CRate: s.CRate, Cycles: s.Cycles})
		}
	}
	return list
}

// How finely stress is sorted. Within warmK Arrhenius is straight to 0.2 %.
const (
	warmK       = 3.0
	warmLow     = -45.0 // °C
	warmBins    = 45
	countedStep = 0.01 // of the state of charge, for counting cycles
)

// strain gathers the stress of a year, month by month.
type strain struct {
	months  [12]strainMonth
	now     *strainMonth
	counter ageing.Counter
	cells   float64
	rated   float64 // Ah
	ah      float64 // capacity now
}

type strainMonth struct {
	seconds, soc, rest    float64 // sums over time
	moved, square, volts2 float64 // A·s of either sign; weighted by it: current, voltage²
	warm                  float64 // °C weighted by it
	out, gave             float64 // A·s and W·s discharged
	bins                  [warmBins]Warmth
	cycles                map[[2]float64]float64 // by range and mean
}

func newStrain(series int, rated, now float64) *strain {
	s := &strain{cells: float64(series), rated: rated, ah: now, counter: ageing.Counter{Step: countedStep}}
	for k := range s.months {
		s.months[k].cycles = map[[2]float64]float64{}
	}
	return s
}

// turn goes on to a month, 1 to 12.
func (s *strain) turn(month int) { s.now = &s.months[month-1] }

// step takes the bank's last step of dt seconds.
func (s *strain) step(b *bank.Bank, soc, tempC, dt float64) {
	m, amps := s.now, b.Amps()
	m.seconds += dt
	m.soc += soc * dt
	m.rest += b.RestVolts() * dt
	bin := &m.bins[min(max(int((tempC-warmLow)/warmK), 0), warmBins-1)]
	bin.Days += dt
	bin.TempC += tempC * dt
	volts := b.MeanVolts()
	if amps < 0 {
		amps = -amps
		m.out += amps * dt
		m.gave += amps * volts * dt
	}
	moved := amps * dt
	m.moved += moved
	m.square += amps * moved
	m.volts2 += volts * volts * moved
	m.warm += tempC * moved
	s.counter.Add(soc, s.count)
}

func (s *strain) count(c ageing.Cycle) { s.now.cycles[[2]float64{c.Range, c.Mean}] += c.Count }

// end closes the year: ranges that no cycle has closed count as halves.
func (s *strain) end() [12]MonthStress {
	s.counter.Finish(s.count)
	var list [12]MonthStress
	for k := range s.months {
		list[k] = s.months[k].total(s)
	}
	return list
}

func (m *strainMonth) total(s *strain) MonthStress {
	if m.seconds == 0 {
		return MonthStress{}
	}
	t := MonthStress{Days: m.seconds / 86400, SoC: m.soc / m.seconds, CellV: m.rest / m.seconds / s.cells,
		Throughput: m.out / 3600 / s.rated, GaveWh: m.gave / 3600, Cycles: m.counted()}
	t.Warmth, t.TempC, t.EffectiveC = m.warmth()
	t.BusyC = t.TempC
	if m.moved > 0 {
		t.RmsV = math.Sqrt(m.volts2/m.moved) / s.cells
		t.CRate = m.square / m.moved / s.ah
		t.BusyC = m.warm / m.moved
	}
	return t
}

// warmth sums up the temperatures.
func (m *strainMonth) warmth() (list []Warmth, mean, effective float64) {
	pace := 0.0
	for _, bin := range m.bins {
		if bin.Days == 0 {
			continue
		}
		w := Warmth{TempC: bin.TempC / bin.Days, Days: bin.Days / 86400}
		list = append(list, w)
		mean += bin.TempC / m.seconds
		pace += bin.Days / m.seconds * math.Exp(-agingK/(w.TempC+273.15))
	}
	return list, mean, -agingK/math.Log(pace) - 273.15
}

// counted lists the cycles in an order of their own, not the map's.
func (m *strainMonth) counted() []ageing.Cycle {
	list := make([]ageing.Cycle, 0, len(m.cycles))
	for k, n := range m.cycles {
		list = append(list, ageing.Cycle{Range: k[0], Mean: k[1], Count: n, From: k[1] + k[0]/2, To: k[1] - k[0]/2})
	}
	slices.SortFunc(list, func(a, b ageing.Cycle) int {
		return cmp.Or(cmp.Compare(a.Range, b.Range), cmp.Compare(a.Mean, b.Mean))
	})
	return list
}
