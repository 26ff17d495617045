package home

import (
	"fmt"
	"math"
	"strconv"
	"strings"
	"time"
	"unicode"
	"unicode/utf8"

	"ampstead/travel"
)

// longestHead is how much of a finding stands in one line, characters.
const longestHead = 110

// headline is the first sentence or clause of a text, short enough to stand in a
// list.
func headline(text string) string {
	head := strings.TrimSuffix(text, ".")
	if utf8.RuneCountInString(head) > longestHead {
		head = outcomeFirst(head)
	}
	for _, end := range []string{". ", "; "} {
		if i := strings.Index(head, end); i >= 20 && utf8.RuneCountInString(head) > longestHead {
			head = strings.TrimSpace(head[:i])
		}
	}
	if utf8.RuneCountInString(head) <= longestHead {
		return capital(head)
	}
	runes := []rune(head)[:longestHead]
	cut := len(runes)
	for i := cut - 1; i > longestHead/2; i-- {
		if runes[i] == ' ' {
			cut = i
			break
		}
	}
	return capital(strings.TrimRight(string(runes[:cut]), " ,;:(")) + " …"
}

// outcomes begin the part of a drill's finding that says what comes of the faults
// it names before: "a; b; and 2 more: a cell is charged past its limit; worst ...".
var outcomes = []string{": a cell ", ": nothing shows it"}

// outcomeFirst turns such a finding around: what comes of it, then its first fault.
func outcomeFirst(text string) string {
	for _, mark := range outcomes {
		before, after, ok := strings.Cut(text, mark)
		first, _, several := strings.Cut(before, "; ")
		if !ok || strings.Contains(before, ". ") {
			continue
		}
		after, _, _ = strings.Cut(mark[2:]+after, ";")
		if several {
			first += ", and more"
		}
		return after + ": " + first
	}
	return text
}

func capital(text string) string {
	first, size := utf8.DecodeRuneInString(text)
	if size == 0 {
		return text
	}
	return string(unicode.ToUpper(first)) + text[size:]
}

func small(text string) string {
	first, size := utf8.DecodeRuneInString(text)
	if second, _ := utf8.DecodeRuneInString(text[size:]); size == 0 || unicode.IsUpper(second) {
		return text // nothing, or an abbreviation
	}
	return string(unicode.ToLower(first)) + text[size:]
}

func counted(n int, what string) string {
	if n == 1 {
		return "1 " + what
	}
	return strconv.Itoa(n) + " " + what + "s"
}

func verb(n int, one, many string) string {
	if n == 1 {
		return one
	}
	return many
}

// whole writes a number without decimals.
func whole(v float64) string { return strconv.FormatFloat(math.Round(v)+0, 'f', 0, 64) }

// rangeOf writes two numbers as a range of whole ones, as one when they are alike.
func rangeOf(low, high float64) string {
	if whole(low) == whole(high) {
		return whole(low)
	}
	return whole(low) + " to " + whole(high)
}

// instant reads a date, or an instant.
func instant(text string, zone *time.Location) (time.Time, bool) {
	if at, err := time.Parse(time.RFC3339, text); err == nil {
		return at.In(zone), true
	}
	at, err := time.ParseInLocation(time.DateOnly, text, zone)
	return at, err == nil
}

// days counts the midnights from one instant to another, in the zone of the second.
func days(from, to time.Time) int {
	from = from.In(to.Location())
	a := time.Date(from.Year(), from.Month(), from.Day(), 12, 0, 0, 0, time.UTC)
	b := time.Date(to.Year(), to.Month(), to.Day(), 12, 0, 0, 0, time.UTC)
	return int(math.Round(b.Sub(a).Hours() / 24))
}

// ago says how long ago a day was.
func ago(n int) string {
	switch {
	case n < 0:
		return "dated ahead of this machine's clock"
	case n == 0:
		return "today"
	case n == 1:
		return "yesterday"
	case n < 70:
		return strconv.Itoa(n) + " days ago"
	case n < 700:
		return strconv.Itoa((n+15)/30) + " months ago"
	}
	return strconv.Itoa((n+180)/365) + " years ago"
}

// dayName says a day as it is spoken of: "Thursday 3 December", with the year when
// that is not now's.
func dayName(at, now time.Time) string {
	if at.Year() != now.Year() {
		return at.Format("Monday 2 January 2006")
	}
	return at.Format("Monday 2 January")
}

// worstMonth names the month in which something is greatest; "" when none stands
// out.
func worstMonth(res *travel.Result, of func(m *travel.Month) float64) string {
	at, most, least := -1, math.Inf(-1), math.Inf(1)
	for i := range res.Months {
		v := of(&res.Months[i])
		least = math.Min(least, v)
		if v > most {
			at, most = i, v
		}
	}
	if at < 0 || most <= least {
		return ""
	}
	return time.Month(res.Months[at].Month).String()
}

func percent(fraction float64) string {
	return fmt.Sprintf("%.0f %%", math.Max(0, 100*fraction))
}
