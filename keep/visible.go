package keep

import (
	"math"
	"slices"
	"strings"
)

const (
	hoursADay    = 24
	defaultEvery = 14.0 // days, of a log of one visit
	visibleMost  = 1500 // visits looked ahead
	surely       = 1.28 // sigma, for a leak to show nine times in ten
	rhythmOver   = 12   // last visits the rhythm is taken from
)

// leaks are those the table of VisibleAfter is made for, mA.
var leaks = []float64{1, 2, 5, 10, 20}

// visible fills in which leak this meter and rhythm can see.
func (s *study) visible() {
	var errs []float64
	for _, g := range s.res.Groups {
		if g.DriftErr > 0 {
			errs = append(errs, g.DriftErr)
		}
	}
	if len(errs) > 0 && len(s.usable) >= leastTold {
		s.res.SmallestLeakMA = told * middle(errs)
	}
	every, sigma := s.every(), s.typicalError()
	if sigma == 0 {
		return
	}
	for _, ma := range leaks {
		s.res.VisibleAfter = append(s.res.VisibleAfter, Visible{LeakMA: ma, Days: visibleAfter(ma, sigma, every, len(s.usable))})
	}
}

// every is the rhythm: the middle of the last gaps between usable visits, days.
func (s *study) every() float64 {
	var gaps []float64
	for k := max(1, len(s.usable)-rhythmOver); k < len(s.usable); k++ {
		gaps = append(gaps, (s.usable[k].hours-s.usable[k-1].hours)/hoursADay)
	}
	if len(gaps) == 0 {
		return defaultEvery
	}
	return math.Max(middle(gaps), 1.0/hoursADay)
}

// typicalError is the error of a group's offset at one of the last visits, Ah.
func (s *study) typicalError() float64 {
	var errs []float64
	for _, t := range s.track {
		if t != nil {
			errs = append(errs, t.sigma[max(0, len(t.sigma)-rhythmOver):]...)
		}
	}
	if len(errs) == 0 {
		return 0
	}
	return middle(errs)
}

// visibleAfter is the days until a leak (mA) that sets in now stands out of the
// error of the slope behind a kink: before it lie so many readings, after it one
// every so many days, each with the error sigma (Ah).
func visibleAfter(ma, sigma, every float64, before int) float64 {
	limit, n := told, math.Max(1, float64(before))
	if before >= leastBreak-leastBehind {
		limit = toldBroken
	}
	var sum, square float64
	for k := 1; k < visibleMost; k++ {
		h := float64(k) * every * hoursADay
		n, sum, square = n+1, sum+h, square+h*h
		err := sigma * math.Sqrt(n/(n*square-sum*sum))
		if k >= leastBehind && ma/1000 > (limit+surely)*err {
			return float64(k) * every
		}
	}
	return visibleMost * every
}

// margins are the charges (Ah) by which a group may stand below or above the
// others before it sets off an alarm while they move between the daily limits.
func (s *study) margins() (low, high float64) {
	curve := s.plant.kind.Curve
	alarmLow, alarmHigh := s.alarms()
	low = s.plant.bankAh * (curve.SoC(s.fit.Daily.CellLowV) - curve.SoC(alarmLow))
	high = s.plant.bankAh * (curve.SoC(alarmHigh) - curve.SoC(s.fit.Daily.CellHighV))
	return math.Max(0, low), math.Max(0, high)
}

// alarms are the cell voltages at which an alarm goes off as recommended, else
// the ends of the safe window.
func (s *study) alarms() (low, high float64) {
	low, high = s.fit.Window.CellLowV, s.fit.Window.CellHighV
	for _, l := range s.fit.Layers {
		switch l.Name {
		case "alarm low":
			low = l.SetV
		case "alarm high":
			high = l.SetV
		}
	}
	return low, high
}

// limits fills in when a drifting group reaches an alarm.
func (s *study) limits() {
	low, high := s.margins()
	for k := range s.res.Groups {
		g := &s.res.Groups[k]
		if !g.Drifts {
			continue
		}
		left := low + g.OffsetAh
		if g.DriftMA < 0 {
			left = high - g.OffsetAh
		}
		days := math.Max(0, left) / (math.Abs(g.DriftMA) / 1000) / hoursADay
		if days < 50*365 {
			g.Reached = day(s.at(days * hoursADay))
		}
	}
}

// worst is the group that reaches a limit first, nil when none drifts to one.
func (s *study) worst() *Group {
	list := slices.Clone(s.res.Groups)
	list = slices.DeleteFunc(list, func(g Group) bool { return g.Reached == "" })
	if len(list) == 0 {
		return nil
	}
	slices.SortStableFunc(list, func(a, b Group) int { return strings.Compare(a.Reached, b.Reached) })
	return &list[0]
}
