package picture

import (
	"math"

	"ampstead/fit"
)

// rooms works out what the upper and the lower end of the scale must show: the
// way from the daily window to harm, a strip of harm, every recommended bar, and
// today's marks unless they lie so far out that they would flatten the rest.
func rooms(res *fit.Result, lanes []lane) (up, down room, middle float64) {
	lim := limitsOf(res)
	dailyLow, dailyHigh := daily(res, lim)
	middle = (dailyLow + dailyHigh) / 2
	up = room{low: dailyHigh, high: lim.high}
	down = room{low: lim.low, high: dailyLow}
	farHigh := lim.high + 0.6*(lim.high-dailyHigh)
	farLow := lim.low - 0.6*(dailyLow-lim.low)
	for _, l := range lanes {
		for _, r := range l.rungs {
			if r.at > farHigh || r.at < farLow {
				continue
			}
			low, high := r.reach()
			low, high = math.Max(low, farLow), math.Min(high, farHigh)
			if r.at >= middle {
				up.low, up.high = math.Min(up.low, math.Max(low, middle)), math.Max(up.high, high)
			} else {
				down.low, down.high = math.Min(down.low, low), math.Max(down.high, math.Min(high, middle))
			}
		}
	}
	up.high = math.Max(up.high+0.03*(up.high-up.low), lim.high+0.2*(lim.high-up.low))
	up.low -= 0.06 * (up.high - up.low)
	down.low = math.Min(down.low-0.03*(down.high-down.low), lim.low-0.14*(down.high-lim.low))
	down.high += 0.06 * (down.high - down.low)
	return up, down, middle
}

// daily is the daily window, kept inside the limits so that there is a scale to
// draw even when a rig's own numbers make no sense.
func daily(res *fit.Result, lim limits) (low, high float64) {
	low, high = res.Daily.CellLowV, res.Daily.CellHighV
	span := lim.high - lim.low
	if !(high < lim.high && high > low) {
		high = math.Max(lim.high-0.1*span, (lim.high+math.Min(low, lim.high))/2)
	}
	if !(low > lim.low && low < high) {
		low = math.Min(lim.low+0.1*span, (lim.low+high)/2)
	}
	return low, high
}

// reach is the range of voltage a rung's bars and mark take.
func (r rung) reach() (low, high float64) {
	low, high = r.at, r.at
	for _, b := range r.bars {
		low, high = math.Min(low, b.low), math.Max(high, b.high)
	}
	return low, high
}
