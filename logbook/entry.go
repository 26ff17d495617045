package logbook

import (
	"fmt"
	"slices"
	"strconv"
	"strings"
	"time"

	q "ampstead/quantity"
	"ampstead/store"
)

// Entry is a reading as a person types it: numbers in the base unit (V, A, °C, h,
// Ah) or with a unit, with a decimal point or comma. Empty is not read.
type Entry struct {
	ID      string
	Taken   string // empty is now
	Groups  []string
	Bank    string
	Current string
	Temps   string // one or more, with spaces or semicolons between
	Rested  string // hours
	Counter string
	Meter   string
	Note    string
}

// Mistake is a field of an entry that cannot be read.
type Mistake struct {
	Field   string // as keep.Doubt names it: "groups.3", "bank_v", "taken"
	Message string
}

func (m *Mistake) Error() string { return m.Field + ": " + m.Message }

// Mistakes are all of an entry.
type Mistakes []*Mistake

func (m Mistakes) Error() string {
	var list []string
	for _, one := range m {
		list = append(list, one.Error())
	}
	return strings.Join(list, "; ")
}

// reader collects what is wrong while an entry is read.
type reader struct {
	sys   q.System // unit of a bare temperature
	wrong Mistakes
}

// Reading turns the entry into a reading, its ID from its content where none is
// given. now is in the zone that times are typed in. Errors: Mistakes.
func (e Entry) Reading(now time.Time, sys q.System) (store.Reading, error) {
	r := &reader{sys: sys}
	out := store.Reading{ID: e.ID, Version: 1, Taken: r.instant(e.Taken, now), Meter: strings.TrimSpace(e.Meter), Note: strings.TrimSpace(e.Note)}
	for i, text := range e.Groups {
		out.Groups = append(out.Groups, r.number("groups."+strconv.Itoa(i+1), q.Volts, text))
	}
	if !slices.ContainsFunc(out.Groups, func(v *float64) bool { return v != nil }) {
		out.Groups = nil
	}
	out.BankV, out.Amps = r.number("bank_v", q.Volts, e.Bank), r.number("current_a", q.Amperes, e.Current)
	out.CountAh, out.RestH = r.number("counter_ah", q.AmpereHours, e.Counter), r.hours(e.Rested)
	for _, text := range splitValues(e.Temps) {
		if v := r.temperature(text); v != nil {
			out.TempsC = append(out.TempsC, *v)
		}
	}
	if len(r.wrong) > 0 {
		return store.Reading{}, r.wrong
	}
	if out.ID == "" {
		out.ID = ContentID(out)
	}
	return out, nil
}

func (r *reader) fail(field, format string, args ...any) {
	r.wrong = append(r.wrong, &Mistake{field, fmt.Sprintf(format, args...)})
}

// number reads a value, nil when there is none.
func (r *reader) number(field string, d *q.Dimension, text string) *float64 {
	v, ok, err := value(d, text, d.Base)
	if err != nil {
		r.fail(field, "%v", err)
	}
	if !ok || err != nil {
		return nil
	}
	return &v
}

func (r *reader) temperature(text string) *float64 {
	unit := q.Celsius.Base
	if r.sys == q.US {
		unit = "°F"
	}
	v, ok, err := value(q.Celsius, text, unit)
	if err != nil {
		r.fail("temperatures_c", "%v", err)
	}
	if !ok || err != nil {
		return nil
	}
	return &v
}

func (r *reader) hours(text string) *float64 {
	v := r.number("rested_h", q.Hours, text)
	if v != nil && *v < 0 {
		r.fail("rested_h", "a rest cannot be shorter than nothing")
		return nil
	}
	return v
}

// value reads a number with its unit, or without one in the unit given. A comma
// is a decimal comma: no cell has thousands of volts.
func value(d *q.Dimension, text, unit string) (v float64, given bool, err error) {
	text = bare(text)
	if text == "" {
		return 0, false, nil
	}
	if v, err = d.Parse(text + " " + unit); err == nil {
		return v, true, nil
	}
	if v, err = d.Parse(text); err == nil {
		return v, true, nil
	}
	return 0, false, fmt.Errorf("%q cannot be read; expected a number such as %q", text, strings.Fields(d.Example)[0])
}

// bare trims a number and makes its comma a point, and its typeset minus one that
// programs know.
func bare(text string) string {
	return strings.NewReplacer(",", ".", "−", "-", "\u00a0", " ").Replace(strings.TrimSpace(text))
}

// forms of a time, as a form, a person or a table gives it; without a zone it is
// the one of the reader.
var forms = []string{time.RFC3339, "2006-01-02T15:04:05", "2006-01-02T15:04", "2006-01-02 15:04:05", "2006-01-02 15:04", time.DateOnly}

// noon stands for a date without a time.
const noon = 12 * time.Hour

func (r *reader) instant(text string, now time.Time) time.Time {
	text = strings.TrimSpace(text)
	if text == "" {
		return now
	}
	at, ok := readInstant(text, now.Location())
	if !ok {
		r.fail("taken", "%q cannot be read; expected a time such as 2026-11-20 17:30", text)
	}
	return at
}

// Instant reads a time as forms, commands and tables give it. A date alone is its
// noon.
func Instant(text string, zone *time.Location) (time.Time, bool) {
	return readInstant(strings.TrimSpace(text), zone)
}

func readInstant(text string, zone *time.Location) (time.Time, bool) {
	for _, form := range forms {
		at, err := time.ParseInLocation(form, text, zone)
		if err != nil {
			continue
		}
		if form == time.DateOnly {
			at = at.Add(noon)
		}
		return at, true
	}
	return time.Time{}, false
}
