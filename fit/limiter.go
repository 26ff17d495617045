package fit

import (
	"ampstead/figure"
	"ampstead/physics/tolerance"
)

// limiter is one voltage threshold of one device: a member of a layer.
type limiter struct {
	layer   string // DailyHigh, ...
	kind    string // "solar charger"
	device  string
	setting string // as the rig file calls it, with spaces
	path    string // in the rig file
	th      tolerance.Threshold
	step    float64
	// least and most are what the device can be set to, 0 where not known.
	least, most float64
	// gentle is the setting preferred for a long life, 0 when there is none.
	gentle float64
	// fits is the setting farthest towards harm that crosses no outer layer.
	fits float64
	hows []figure.Use
}

// cellSet is the setting over the groups in series, V per cell.
func (m *limiter) cellSet() float64 { return m.th.Setting / m.th.Series }

func (m *limiter) band() tolerance.Band { return tolerance.BandOf(m.th) }

// inward rounds a setting to the device's step, away from harm.
func (m *limiter) inward(setting float64) float64 {
	if m.th.High {
		return floorTo(setting, m.step)
	}
	return ceilTo(setting, m.step)
}

// gentler returns the setting that is farther from harm.
func (m *limiter) gentler(a, b float64) float64 {
	if m.th.High {
		return min(a, b)
	}
	return max(a, b)
}

// place chooses the setting inside limit (V at the cell nearest to harm): as far
// out as fits, or the gentler one that is preferred. A device that cannot be set
// so gently takes the nearest it can while that still fits.
func (m *limiter) place(limit float64) {
	room := limit + reserve
	if m.th.High {
		room = limit - reserve
	}
	m.fits = m.inward(tolerance.Farthest(m.th, room))
	m.th.Setting = m.fits
	if m.gentle != 0 {
		m.th.Setting = m.gentler(m.fits, m.inward(m.gentle))
	}
	if m.most != 0 && m.th.Setting > m.most {
		m.th.Setting = floorTo(m.most, m.step)
	}
	if reachable := ceilTo(m.least, m.step); m.th.Setting < reachable && m.gentler(reachable, m.fits) == reachable {
		m.th.Setting = reachable
	}
}

// pushed reports whether the outer layers, not the cell's life, decide the setting.
func (m *limiter) pushed() bool { return m.gentle != 0 && m.gentler(m.fits, m.gentle) == m.fits }
