package picture

import (
	"strconv"
	"time"

	"ampstead/travel"
)

// dayWords says a date, "2027-01-17" or "01-17", as a person does: "17 Jan". What
// is no date is said as it is.
func dayWords(date string) string {
	t, ok := readDay(date)
	if !ok {
		return date
	}
	return t.Format("2 Jan")
}

func readDay(date string) (time.Time, bool) {
	if t, err := time.Parse(time.DateOnly, date); err == nil {
		return t, true
	}
	t, err := time.Parse(time.DateOnly, "2027-"+date) // a year without a leap day, like all here
	return t, err == nil
}

// monthDay is a date as the link to a span names it: "01-17".
func monthDay(date string) string {
	if len(date) == len(time.DateOnly) {
		return date[5:]
	}
	return date
}

// stretch is a run of days at one place; both ends belong to it.
type stretch struct {
	place       string
	first, last int
}

// stretches splits a year by where the rig stands.
func stretches(days []travel.Day) []stretch {
	var list []stretch
	for i, d := range days {
		if n := len(list); n > 0 && list[n-1].place == d.Place {
			list[n-1].last = i
			continue
		}
		list = append(list, stretch{d.Place, i, i})
	}
	return list
}

// dates says from when to when a stretch lasts; one that goes on over the turn of
// the year says only the end that lies in it.
func (s stretch) dates(days []travel.Day) string {
	from, to := dayWords(days[s.first].Date), dayWords(days[s.last].Date)
	opens, closes := s.first == 0, s.last == len(days)-1
	switch {
	case opens && closes:
		return "all year"
	case opens:
		return "until " + to
	case closes:
		return "from " + from
	}
	return from + " to " + to
}

// monthStarts lists the day each month begins with and what to call it.
func monthStarts(days []travel.Day) (first []int, name []string) {
	last := ""
	for i, d := range days {
		t, err := time.Parse(time.DateOnly, d.Date)
		if err != nil {
			continue
		}
		if m := t.Format("Jan"); m != last {
			first, name, last = append(first, i), append(name, m), m
		}
	}
	return first, name
}

// bandWords says what the band over the weather years holds; "" for one year.
func bandWords(years int) string {
	switch {
	case years < 2:
		return ""
	case years < 10:
		return "all " + strconv.Itoa(years) + " years lie in this"
	}
	return "8 years in 10 lie in this"
}
