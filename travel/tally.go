package travel

import "math"

// add sums another span's energies into e.
func (e *Energies) add(o *Energies) {
	e.SunOffered += o.SunOffered
	e.SunCaught += o.SunCaught
	e.LostFull += o.LostFull
	e.LostFrost += o.LostFrost
	e.LostLimit += o.LostLimit
	e.LostStopped += o.LostStopped
	e.Conversion += o.Conversion
	e.Mains += o.Mains
	e.Alternator += o.Alternator
	e.Load += o.Load
	e.Served += o.Served
	e.Unserved += o.Unserved
	e.Overhead += o.Overhead
	e.UnservedH += o.UnservedH
	e.Heater += o.Heater
	e.FrostLockedH += o.FrostLockedH
	e.FrostChargeAh += o.FrostChargeAh
	e.ColdExcessAh += o.ColdExcessAh
	e.Disconnected += o.Disconnected
}

// scale turns sums in W·s, s and A·s into Wh, h and Ah.
func (e *Energies) scale(by float64) {
	for _, v := range []*float64{
		&e.SunOffered, &e.SunCaught, &e.LostFull, &e.LostFrost, &e.LostLimit, &e.LostStopped, &e.Conversion,
		&e.Mains, &e.Alternator, &e.Load, &e.Served, &e.Unserved, &e.Overhead, &e.UnservedH, &e.Heater,
		&e.FrostLockedH, &e.FrostChargeAh, &e.ColdExcessAh, &e.Disconnected,
	} {
		*v *= by
	}
}

// dayTally is what a day came to.
type dayTally struct {
	Energies
	socLow, socHigh   float64
	tempLow, tempHigh float64
	airLow, airHigh   float64
}

func newDayTally() dayTally {
	inf := math.Inf(1)
	return dayTally{socLow: inf, socHigh: -inf, tempLow: inf, tempHigh: -inf, airLow: inf, airHigh: -inf}
}

// socBins is how finely the state of charge is sorted for its percentile.
const socBins = 1000

// yearTally is what a year came to, day by day.
type yearTally struct {
	days [yearDays]dayTally
	Year
	bins    [socBins + 1]float64 // s at each state of charge
	refused map[string]float64   // W asked for by appliances that start, beyond what feeds them, by feed
	span    *Span
	stress  [12]MonthStress // of the first year
}

// percentile is the state of charge it is below for a share of the time.
func (y *yearTally) percentile(share float64) float64 {
	total := 0.0
	for _, s := range y.bins {
		total += s
	}
	sum := 0.0
	for k, s := range y.bins {
		if sum += s; sum >= share*total && total > 0 {
			return float64(k) / socBins
		}
	}
	return 1
}

func binOf(soc float64) int { return int(max(0, min(1, soc)) * socBins) }
