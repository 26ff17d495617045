package keep

import (
	"fmt"
	"hash/fnv"
	"strings"
	"time"
	"unicode/utf8"

	"ampstead/rig"
)

// lineOctets is the longest line of an iCalendar file, its end left out;
// RFC 5545, 3.1.
const lineOctets = 75

// Calendar writes the next visit and the dated tasks as an iCalendar file
// (RFC 5545), stamped with the time given. Each entry keeps its UID from file to
// file, so that a calendar that reads a newer one moves the entry.
func Calendar(res *Result, r *rig.Rig, stamp time.Time) []byte {
	c := &calendar{rig: r.About.Name, stamp: stamp.UTC().Format("20060102T150405Z")}
	c.line("BEGIN:VCALENDAR")
	c.line("VERSION:2.0")
	c.line("PRODID:-//Ampstead//keep//EN")
	c.line("CALSCALE:GREGORIAN")
	c.line("METHOD:PUBLISH")
	c.event("next-visit", res.Next.Date, c.rig+": read the groups", res.Next.Why)
	for _, t := range res.Today {
		c.event(t.ID, t.By, c.rig+": "+t.Do, t.Why)
	}
	c.line("END:VCALENDAR")
	return []byte(c.text.String())
}

type calendar struct {
	text  strings.Builder
	rig   string
	stamp string
}

// event writes one that takes a whole day, with an alarm at nine in the morning.
// Without a date there is none.
func (c *calendar) event(id, date, summary, description string) {
	at, err := time.Parse(time.DateOnly, date)
	if err != nil {
		return
	}
	c.line("BEGIN:VEVENT")
	c.line("UID:" + c.uid(id))
	c.line("DTSTAMP:" + c.stamp)
	c.line("DTSTART;VALUE=DATE:" + at.Format("20060102"))
	c.line("DTEND;VALUE=DATE:" + at.AddDate(0, 0, 1).Format("20060102"))
	c.line("SUMMARY:" + escaped(summary))
	c.line("DESCRIPTION:" + escaped(description))
	c.line("TRANSP:TRANSPARENT")
	c.line("BEGIN:VALARM")
	c.line("ACTION:DISPLAY")
	c.line("DESCRIPTION:" + escaped(summary))
	c.line("TRIGGER:PT9H")
	c.line("END:VALARM")
	c.line("END:VEVENT")
}

// uid is the same for one entry of one rig in every file.
func (c *calendar) uid(id string) string {
	h := fnv.New64a()
	_, _ = h.Write([]byte(c.rig)) // a hash takes everything
	return fmt.Sprintf("%s-%016x@ampstead.invalid", id, h.Sum64())
}

// escaped writes text as RFC 5545, 3.3.11 wants it; control characters, which it
// forbids, are left out.
func escaped(text string) string {
	clean := strings.Map(func(r rune) rune {
		if r != '\n' && r != '\t' && (r < ' ' || r == 0x7f) {
			return -1
		}
		return r
	}, strings.ToValidUTF8(text, "?"))
	return strings.NewReplacer(`\`, `\\`, ";", `\;`, ",", `\,`, "\n", `\n`).Replace(clean)
}

// line ends a line as the format does, folded between characters when it is long.
func (c *calendar) line(text string) {
	room := lineOctets
	for len(text) > room {
		cut := room
		for !utf8.RuneStart(text[cut]) {
			cut--
		}
		c.text.WriteString(text[:cut] + "\r\n ")
		text, room = text[cut:], lineOctets-1
	}
	c.text.WriteString(text + "\r\n")
}
