package habit

// Date is a day of the calendar as habits see it.
type Date struct {
	Day     int  // of the run, for repeatable chance
	Month   int  // 1 to 12
	Weekday int  // 0 is Sunday
	South   bool // of the equator: seasons are turned round
}

// due reports whether an appliance is used on a day. Habits of every so many days
// fall by chance, as often in the long run.
func (a *Appliance) due(d Date, chance float64) bool {
	if !inSeason(a.Season, d) {
		return false
	}
	weekend := d.Weekday == 0 || d.Weekday == 6
	switch a.Days {
	case "weekdays":
		return !weekend
	case "weekends":
		return weekend
	case "one in two":
		return chance < 1.0/2
	case "one in three":
		return chance < 1.0/3
	case "one in seven":
		return chance < 1.0/7
	}
	return true
}

// inSeason reports whether a month lies in a season, by whole months: winter is
// December to February in the north, the cold half October to March.
func inSeason(season string, d Date) bool {
	m := d.Month - 1
	if d.South {
		m = (m + 6) % 12
	}
	switch season {
	case "spring":
		return m >= 2 && m <= 4
	case "summer":
		return m >= 5 && m <= 7
	case "autumn":
		return m >= 8 && m <= 10
	case "winter":
		return m == 11 || m <= 1
	case "cold half":
		return m >= 9 || m <= 2
	case "warm half":
		return m >= 3 && m <= 8
	}
	return true
}

// window is the part of the day in minutes after midnight in which an appliance
// is used; it may run past midnight.
func window(when string) (from, to float64) {
	switch when {
	case "morning":
		return 6 * 60, 10 * 60
	case "midday":
		return 11 * 60, 15 * 60
	case "evening":
		return 17 * 60, 23 * 60
	case "night":
		return 22 * 60, 30 * 60
	case "daylight":
		return 9 * 60, 16 * 60
	}
	return 7 * 60, 23 * 60
}
