package store

import (
	"fmt"
	"math"
	"regexp"
	"strings"
	"time"
	"unicode/utf8"
)

const (
	mostGroups = 512
	mostTemps  = 64
	mostNote   = 4000 // characters
	mostName   = 64
	mostValue  = 1e6 // V, A, °C, h or Ah; beyond is a slip of the pen or of a program
)

var (
	idPattern = regexp.MustCompile(`^[A-Za-z0-9_-]{1,64}$`)
	earliest  = time.Date(1990, 1, 1, 0, 0, 0, 0, time.UTC)
)

// milli cuts a time to what the logbook keeps: UTC, whole milliseconds.
func milli(t time.Time) time.Time { return time.UnixMilli(t.UnixMilli()).UTC() }

// clean checks a reading and brings it to the form it is kept in.
func (b *Book) clean(r Reading) (Reading, error) {
	if r.Entered.IsZero() {
		r.Entered = b.now()
	}
	if r.Groups == nil {
		r.Groups = []*float64{}
	}
	if len(r.TempsC) == 0 {
		r.TempsC = nil
	}
	r.Taken, r.Entered = milli(r.Taken), milli(r.Entered)
	return r, firstOf(
		checkID(r.ID),
		checkVersion(r.Version),
		b.checkTime("taken", r.Taken),
		b.checkTime("entered", r.Entered),
		checkOptional("groups_v", mostGroups, r.Groups...),
		checkOptional("bank_v", 1, r.BankV),
		checkOptional("current_a", 1, r.Amps),
		checkOptional("rested_h", 1, r.RestH),
		checkOptional("counter_ah", 1, r.CountAh),
		checkValues("temperatures_c", mostTemps, r.TempsC...),
		checkText("meter", r.Meter, mostName),
		checkNote(r.Note),
		checkSomething(r),
	)
}

func firstOf(errs ...error) error {
	for _, err := range errs {
		if err != nil {
			return err
		}
	}
	return nil
}

func checkID(id string) error {
	if !idPattern.MatchString(id) {
		return &Invalid{"id", fmt.Sprintf("%.80q is no ID", id), "1 to 64 of a-z A-Z 0-9 - _"}
	}
	return nil
}

func checkVersion(version int) error {
	if version < 1 || version > math.MaxInt32 {
		return &Invalid{"version", fmt.Sprintf("%d is no version", version), "the version that is corrected, 1 or more"}
	}
	return nil
}

// checkTime allows a day ahead for clocks and time zones set wrong by hours, and
// refuses those set wrong by years.
func (b *Book) checkTime(field string, t time.Time) error {
	if t.Before(earliest) || t.After(b.now().Add(24*time.Hour)) {
		return &Invalid{field, t.Format(time.RFC3339) + " cannot be right", "a time from 1990 to now"}
	}
	return nil
}

func checkOptional(field string, most int, values ...*float64) error {
	if len(values) > most {
		return tooMany(field, len(values), most)
	}
	for i, v := range values {
		if v == nil {
			continue
		}
		if err := checkNumber(numbered(field, i, most), *v); err != nil {
			return err
		}
	}
	return nil
}

func checkValues(field string, most int, values ...float64) error {
	if len(values) > most {
		return tooMany(field, len(values), most)
	}
	for i, v := range values {
		if err := checkNumber(numbered(field, i, most), v); err != nil {
			return err
		}
	}
	return nil
}

func tooMany(field string, n, most int) error {
	return &Invalid{field, fmt.Sprintf("has %d values", n), fmt.Sprintf("at most %d", most)}
}

func numbered(field string, i, most int) string {
	if most == 1 {
		return field
	}
	return fmt.Sprintf("%s.%d", field, i+1)
}

func checkNumber(field string, v float64) error {
	if !(math.Abs(v) <= mostValue) { // also NaN
		return &Invalid{field, fmt.Sprintf("%g cannot be right", v), "a number within ±1 000 000"}
	}
	return nil
}

func checkNote(note string) error { return checkText("note", note, mostNote) }

func checkText(field, text string, most int) error {
	if !utf8.ValidString(text) || strings.ContainsRune(text, 0) {
		return &Invalid{field, "holds bytes that are no text", "text in UTF-8"}
	}
	if n := utf8.RuneCountInString(text); n > most {
		return &Invalid{field, fmt.Sprintf("has %d characters", n), fmt.Sprintf("at most %d", most)}
	}
	return nil
}

func checkSomething(r Reading) error {
	for _, v := range append([]*float64{r.BankV, r.Amps, r.CountAh}, r.Groups...) {
		if v != nil {
			return nil
		}
	}
	if len(r.TempsC) > 0 || r.Note != "" {
		return nil
	}
	return &Invalid{"groups_v", "the reading holds no value and no note", "at least one"}
}
