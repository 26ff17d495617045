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
	put  tolerance.Place // how it was placed; empty as set today
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
// out as fits, or the gentler one that is preferred, and no farther out than
// raise (V on the device). A device that cannot be set so gently takes the
// nearest it can while that still fits.
func (m *limiter) place(limit, raise float64) {
	m.put = tolerance.Place{Limit: limit, Step: m.step, Gentle: m.gentle, Raise: raise, Least: m.least, Most: m.most}
	m.th.Setting, m.fits = m.put.Settle(m.th)
}

// pushed reports whether the outer layers, not the cell's life, decide the setting.
func (m *limiter) pushed() bool { return m.gentle != 0 && m.gentler(m.fits, m.gentle) == m.fits }
