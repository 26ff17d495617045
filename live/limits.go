package live

import (
	"math"
	"time"

	"ampstead/fit"
	q "ampstead/quantity"
	"ampstead/rig"
)

// limits are those of the rig's cell meter. Infinity is none.
type limits struct {
	groups     int
	high, low  float64 // V of a group
	spread     float64 // V between the highest and the lowest
	hot, frost float64 // °C
	chargeA    float64 // more than this is charging, A
	basis      string  // where high and low come from
}

// chargeShare is the current taken as charging, as a share of the capacity in one
// hour: above what a current sensor makes up at rest. Ours.
const chargeShare = 0.005

// limitsOf takes each limit as the meter is set, else as fit would set it. Where
// no meter is, groups are held against the safe window itself.
func limitsOf(r *rig.Rig, fitted *fit.Result) limits {
	l := limits{groups: fitted.Cell.Series, high: math.Inf(1), low: math.Inf(-1), spread: math.Inf(1), hot: math.Inf(1),
		frost: fitted.Kind.ChargeMinC.Value, chargeA: math.Max(0.2, chargeShare*fitted.Cell.Capacity), basis: "the cell meter's alarm"}
	for i := range r.Protection.Meters {
		m := &r.Protection.Meters[i]
		at := "protection.meters." + m.Name
		l.high = math.Min(l.high, chosen(m.AlarmHigh, fitted, at+".alarm_high", l.high))
		l.low = math.Max(l.low, chosen(m.AlarmLow, fitted, at+".alarm_low", l.low))
		l.spread = math.Min(l.spread, chosen(m.Spread, fitted, at+".spread", l.spread))
		l.hot = math.Min(l.hot, chosen(m.Hot, fitted, at+".hot", l.hot))
	}
	if len(r.Protection.Meters) == 0 {
		l.high, l.low, l.hot, l.basis = fitted.Window.CellHighV, fitted.Window.CellLowV, fitted.Kind.AlarmC.Value, "the safe window"
	}
	return l
}

// chosen is a setting as it is, else as fit recommends it, else otherwise.
func chosen[Q q.Quantity](set rig.Setting[Q], fitted *fit.Result, path string, otherwise float64) float64 {
	if set.On() {
		return float64(set.Value)
	}
	for _, s := range fitted.Settings {
		if v, ok := s.Value.(float64); ok && s.Path == path {
			return v
		}
	}
	return otherwise
}

// seconds is the last duration given.
func seconds(otherwise time.Duration, given ...*q.Duration) time.Duration {
	for _, d := range given {
		if d != nil {
			otherwise = time.Duration(float64(*d) * float64(time.Second))
		}
	}
	return otherwise
}

// Line is a limit to draw into the chart of a series.
type Line struct {
	V    float64 // SI
	Name string
}

// Lines are the limits by which alarms of a series are judged.
func Lines(r *rig.Rig, fitted *fit.Result, series string) (list []Line) {
	l := limitsOf(r, fitted)
	add := func(v float64, name string) {
		if !math.IsInf(v, 0) {
			list = append(list, Line{v, name})
		}
	}
	n := float64(l.groups)
	_, group := numberIn(series, "group_", "_v")
	_, sensor := numberIn(series, "temperature_", "_c")
	switch {
	case group:
		add(l.high, "high limit")
		add(l.low, "low limit")
	case series == BankVoltage:
		add(l.high*n, "high limit")
		add(l.low*n, "low limit")
	case sensor:
		add(l.hot, "hot limit")
		add(l.frost, "no charging below")
	}
	return list
}
