package keep

import (
	"fmt"
	"math"
	"time"
)

// Visits; ours.
const (
	mostDays    = 90.0
	leastDays   = 1.0
	firstDays   = 7.0  // until there are readings enough for a slope
	watchDays   = 14.0 // while a drift is followed
	doubtDays   = 2.0  // to repeat a doubtful reading
	beforeShare = 0.5  // of the time left to a limit
	knownVisits = 4
)

// next chooses the day of the next visit.
func (s *study) next() {
	days, why := s.nextIn()
	days = math.Max(leastDays, math.Min(mostDays, math.Floor(days)))
	from := s.o.Now
	if n := len(s.visits); n > 0 {
		from = s.visits[n-1].reading.Taken
	}
	date := from.Add(time.Duration(days * hoursADay * float64(time.Hour)))
	if tomorrow := s.o.Now.AddDate(0, 0, 1); date.Before(tomorrow) && day(date) < day(tomorrow) {
		date = tomorrow
	}
	s.res.Next = Visit{Date: day(date), Why: why}
}

// nextIn is in how many days after the last reading, and why: the soonest of
// what asks for one.
func (s *study) nextIn() (days float64, why string) {
	if len(s.usable) < knownVisits {
		return firstDays, fmt.Sprintf("%d of the first %d readings that tell the groups' charges: weekly until a slope can be drawn", len(s.usable), knownVisits)
	}
	days, why = mostDays, fmt.Sprintf("nothing drifts and nothing could go far unseen: every %.0f days at the longest", mostDays)
	sooner := func(d float64, because string) {
		if d < days {
			days, why = d, because
		}
	}
	if unseen := s.unseenDays(); unseen < mostDays {
		sooner(unseen, fmt.Sprintf("a leak just too small to see yet, %s, would use half the room to an alarm in %.0f days", milliamps(s.res.SmallestLeakMA), unseen))
	}
	if g := s.worst(); g != nil {
		left := s.daysTo(g.Reached)
		because := fmt.Sprintf("group %d reaches an alarm about %s: look again at half time", g.Number, g.Reached)
		if left < leastDays {
			because = fmt.Sprintf("group %d stands so far off that it sets off an alarm before the others reach the daily limit", g.Number)
		}
		sooner(beforeShare*left, because)
	}
	if s.unread() != nil {
		sooner(doubtDays, "to see what the levelling did")
	}
	if g := s.drifting(); g != nil {
		sooner(math.Max(watchDays, s.every()), fmt.Sprintf("group %d drifts: its slope is followed", g.Number))
	}
	if len(s.doubtful()) > 0 {
		sooner(doubtDays, "the last reading is doubtful: repeat it")
	}
	return days, why
}

// unseenDays is how long a leak of the smallest size that shows takes to use half
// of the room that the lowest group has left.
func (s *study) unseenDays() float64 {
	low, _ := s.margins()
	least := 0.0
	for _, o := range s.offsets() {
		least = math.Min(least, o)
	}
	if s.res.SmallestLeakMA == 0 {
		return mostDays
	}
	return beforeShare * math.Max(0, low+least) / (s.res.SmallestLeakMA / 1000) / hoursADay
}

// daysTo counts from the last reading.
func (s *study) daysTo(date string) float64 {
	t, err := time.Parse(time.DateOnly, date)
	if err != nil {
		return mostDays
	}
	return t.Sub(s.visits[len(s.visits)-1].reading.Taken).Hours() / hoursADay
}

// drifting is the group that drifts fastest, nil when none does.
func (s *study) drifting() *Group {
	var worst *Group
	for k := range s.res.Groups {
		g := &s.res.Groups[k]
		if g.Drifts && (worst == nil || math.Abs(g.DriftMA) > math.Abs(worst.DriftMA)) {
			worst = g
		}
	}
	return worst
}

func milliamps(v float64) string { return fmt.Sprintf("%.2g mA", math.Abs(v)) }
