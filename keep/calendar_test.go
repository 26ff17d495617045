package keep

import (
	"fmt"
	"strings"
	"testing"
	"time"
	"unicode/utf8"

	"ampstead/rig"

	"pgregory.net/rapid"
)

// parsed is an iCalendar file read strictly: CRLF at every line's end, lines of 75
// octets, unfolded and unescaped, components closed in order. It returns each
// event's properties.
func parsed(text string) (events []map[string]string, err error) {
	if !strings.HasSuffix(text, "\r\n") || strings.Count(text, "\n") != strings.Count(text, "\r\n") || strings.Count(text, "\r") != strings.Count(text, "\r\n") {
		return nil, fmt.Errorf("lines do not end in CR LF")
	}
	for _, line := range strings.Split(text, "\r\n") {
		if len(line) > 75 || !utf8.ValidString(line) {
			return nil, fmt.Errorf("line of %d octets, or cut inside a character: %q", len(line), line)
		}
	}
	var open []string
	for _, line := range strings.Split(strings.TrimSuffix(strings.ReplaceAll(text, "\r\n ", ""), "\r\n"), "\r\n") {
		name, value, ok := strings.Cut(line, ":")
		if !ok || name == "" {
			return nil, fmt.Errorf("no property: %q", line)
		}
		switch name {
		case "BEGIN":
			open = append(open, value)
			if value == "VEVENT" {
				events = append(events, map[string]string{})
			}
		case "END":
			if len(open) == 0 || open[len(open)-1] != value {
				return nil, fmt.Errorf("%s ends out of order", value)
			}
			open = open[:len(open)-1]
		default:
			if open[len(open)-1] == "VEVENT" {
				if events[len(events)-1][name] != "" {
					return nil, fmt.Errorf("%s twice", name)
				}
				events[len(events)-1][name] = value
			}
		}
	}
	if len(open) > 0 {
		return nil, fmt.Errorf("%v not closed", open)
	}
	return events, nil
}

// plain undoes the escapes; an unescaped separator is an error.
func plain(text string) (string, error) {
	var b strings.Builder
	for k := 0; k < len(text); k++ {
		switch {
		case text[k] == ',' || text[k] == ';':
			return "", fmt.Errorf("%q stands bare", text[k])
		case text[k] != '\\':
			b.WriteByte(text[k])
		case k+1 == len(text):
			return "", fmt.Errorf("ends in an escape")
		default:
			k++
			b.WriteByte(map[byte]byte{'n': '\n', '\\': '\\', ',': ',', ';': ';'}[text[k]])
		}
	}
	return b.String(), nil
}

func TestCalendar(t *testing.T) {
	r, _ := example(t, "curlew")
	res := &Result{Next: Visit{Date: "2027-01-10", Why: "every 14 days, or sooner; see \\ the log"},
		Today: []Task{{ID: "drift-4", Do: "follow group 4", Why: "it leaks 5 mA ± 0.3 mA; " + strings.Repeat("über ", 30), By: "2027-02-28"}, {ID: "balance", Do: "no date"}}}
	stamp := time.Date(2026, 12, 27, 18, 30, 5, 0, time.FixedZone("", 3600))
	events, err := parsed(string(Calendar(res, r, stamp)))
	if err != nil {
		t.Fatal(err)
	}
	if len(events) != 2 {
		t.Fatalf("%d events", len(events))
	}
	e := events[0]
	if e["DTSTAMP"] != "20261227T173005Z" || e["DTSTART;VALUE=DATE"] != "20270110" || e["DTEND;VALUE=DATE"] != "20270111" || e["SUMMARY"] != "Curlew: read the groups" {
		t.Errorf("%v", e)
	}
	if got, err := plain(e["DESCRIPTION"]); got != res.Next.Why || err != nil {
		t.Error(got, err)
	}
	if got, err := plain(events[1]["DESCRIPTION"]); got != res.Today[0].Why || err != nil || events[1]["DTSTART;VALUE=DATE"] != "20270228" {
		t.Error(got, err)
	}
}

// A later file moves the entry, it does not add one.
func TestUIDsStay(t *testing.T) {
	r, _ := example(t, "curlew")
	uid := func(r *rig.Rig, date string, stamp time.Time) string {
		events, err := parsed(string(Calendar(&Result{Next: Visit{Date: date}}, r, stamp)))
		if err != nil || len(events) != 1 {
			t.Fatal(err, events)
		}
		return events[0]["UID"]
	}
	a, b := uid(r, "2027-01-10", start), uid(r, "2027-03-01", start.AddDate(0, 1, 0))
	other := *r
	other.About.Name = "Dipper"
	if a != b || a == uid(&other, "2027-01-10", start) || a == "" {
		t.Error(a, b)
	}
}

// Whatever a rig is called and a task says, the file stays in form.
func TestCalendarStaysInForm(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		r := &rig.Rig{About: rig.About{Name: rapid.String().Draw(rt, "name")}}
		res := &Result{Next: Visit{Date: "2027-01-10", Why: rapid.String().Draw(rt, "why")},
			Today: []Task{{ID: "a", By: "2027-01-01", Do: strings.Repeat(rapid.String().Draw(rt, "do"), 9)}}}
		events, err := parsed(string(Calendar(res, r, start)))
		if err != nil {
			rt.Fatal(err)
		}
		for _, e := range events {
			for _, key := range []string{"SUMMARY", "DESCRIPTION"} {
				if _, err := plain(e[key]); err != nil {
					rt.Fatal(err)
				}
			}
		}
	})
}
