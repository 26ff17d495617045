package start

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"ampstead/quantity"
	"ampstead/rig"
)

// The marks by which a person finds what is still open in a new file.
const (
	MarkUnknown = "NOT KNOWN" // answered "I do not know"
	MarkCheck   = "CHECK"     // asked of nobody
)

// Text writes the rig file that follows from the answers, its stays in that
// year and the next. Errors: *Problem for an answer that is not valid.
func Text(a Answers, year int) ([]byte, error) {
	tidied, err := CheckAll(a)
	if err != nil {
		return nil, err
	}
	p, list := follow(tidied)
	w := &writer{plan: p, questions: list}
	w.head(tidied)
	w.about()
	w.route(year)
	w.bank()
	w.charge()
	w.supplies()
	w.habits()
	w.guard()
	return []byte(w.String()), nil
}

// writer writes the sections of the file.
type writer struct {
	strings.Builder
	plan      *plan
	questions []Question
}

const pageWide = 79

// remark writes a comment, wrapped.
func (w *writer) remark(indent int, text string) {
	lead := strings.Repeat(" ", indent) + "# "
	line := ""
	for _, word := range strings.Fields(text) {
		if line != "" && len([]rune(lead+line+" "+word)) > pageWide {
			w.WriteString(lead + line + "\n")
			line = ""
		}
		if line != "" {
			line += " "
		}
		line += word
	}
	w.WriteString(lead + line + "\n")
}

// set writes a key with its value; comment may be empty.
func (w *writer) set(indent int, key, value, comment string) {
	text := strings.Repeat(" ", indent) + key + ":"
	if value != "" {
		text += " " + value
	}
	if comment != "" {
		pad := max(1, 34-len([]rune(text)))
		text += strings.Repeat(" ", pad) + "# " + comment
	}
	w.WriteString(text + "\n")
}

// unknown writes what "I do not know" led to, above the value it is about.
func (w *writer) unknown(indent int, keys ...string) {
	for _, key := range keys {
		q, _, asked := Find(w.questions, key)
		if asked && !w.plan.known[key] {
			w.remark(indent, MarkUnknown+": "+strings.ToLower(q.Short)+". "+q.Unknown)
		}
	}
}

func check(text string) string { return MarkCheck + ": " + text }

func (w *writer) head(a Answers) {
	w.remark(0, "A rig file for Ampstead, written from the answers below. Text after a hash sign is a comment.")
	w.remark(0, MarkUnknown+" marks what was answered with I do not know; "+MarkCheck+" marks a usual value that nobody asked for: read yours off the device and write it in.")
	w.WriteString("#\n# The answers:\n")
	for i := range w.questions {
		q := &w.questions[i]
		answer := a[q.Key]
		if answer == "" || answer == Unknown {
			answer = "I do not know"
			if q.Taken != "" {
				answer += "  (taken as " + q.means(w.plan) + ")"
			}
		} else if meaning := q.means(w.plan); meaning != answer {
			answer += "  (" + meaning + ")"
		}
		w.WriteString(fmt.Sprintf("#   %-18s%s\n", q.Short, answer))
	}
	w.WriteString("\n")
}

func (w *writer) about() {
	w.set(0, "about", "", "")
	w.unknown(2, "name", "units")
	w.set(2, "name", rig.Scalar(w.plan.name), "")
	units := "metric"
	if w.plan.units == quantity.US {
		units = "us"
	}
	w.set(2, "units", units, "")
}

func (w *writer) route(year int) {
	p := w.plan
	w.WriteString("\nroute:\n")
	w.unknown(2, "winter", "summer", "coldest")
	if p.sameSummer {
		w.stay("All year", p.winter, slices.Concat(p.winter.winterMonths(), p.winter.summerMonths()), fmt.Sprintf("%d-10-01", year), fmt.Sprintf("%d-09-30", year+1))
		return
	}
	winter, summer, months := cold(year), warm(year), april
	if p.winter.latitude < 0 {
		winter, summer, months = summer, winter, october
	}
	w.stay("Winter", p.winter, p.winter.winterMonths(), winter[0], winter[1])
	w.stay("Summer", p.summer, months, summer[0], summer[1])
}

// cold is the half of the year from October, warm the one from April.
func cold(year int) [2]string {
	return [2]string{fmt.Sprintf("%d-10-01", year), fmt.Sprintf("%d-03-31", year+1)}
}

func warm(year int) [2]string {
	return [2]string{fmt.Sprintf("%d-04-01", year+1), fmt.Sprintf("%d-09-30", year+1)}
}

func (w *writer) stay(name string, at *place, months []int, from, to string) {
	p := w.plan
	w.set(2, "- name", name, at.name)
	w.set(4, "from", from, check("your dates"))
	w.set(4, "to", to, "")
	w.set(4, "latitude", quantity.DegreesNorth.Text(at.latitude, p.units), "")
	w.set(4, "longitude", quantity.DegreesEast.Text(at.longitude, p.units), "")
	if !math.IsNaN(at.elevation) {
		w.set(4, "elevation", quantity.Metres.Fixed(at.elevation, "m", 0), "")
	}
	w.set(4, "coldest", p.degrees(p.bankCold(at, months)), "of the battery; "+w.coldBecause())
	w.set(4, "coldest_air", p.degrees(at.coldNight(months)), "reckoned from the built-in climate")
	w.set(4, "hottest", p.degrees(math.Max(at.hotDay(months), p.bankCold(at, months)+1)), check("reckoned from the built-in climate; a closed van gets warmer"))
	if slices.Contains(p.sources, "mains") {
		w.set(4, "hookup", "no", check("yes where you plug in"))
	}
}

func (w *writer) coldBecause() string {
	switch {
	case !w.plan.known["coldest"]:
		return "no warmth is counted on"
	case w.plan.keeps == "heated":
		return "heated while somebody lives there"
	case w.plan.keeps == "cold":
		return "unheated: as cold as the night"
	}
	return "as answered for winter"
}

func (w *writer) bank() {
	p := w.plan
	w.WriteString("\nbank:\n")
	w.unknown(2, "battery", "groups", "capacity", "modules")
	w.set(2, "cell", p.battery.cell, p.battery.short)
	w.set(2, "series", fmt.Sprint(p.series), "about "+volts(p.nominal()))
	w.set(2, "cells_per_group", "1", "a group counts as one cell of its whole capacity")
	w.set(2, "strings", fmt.Sprint(p.modules), "side by side")
	w.set(2, "cell_capacity", ampHours(p.ah), "when new")
	if p.battery.used {
		w.remark(2, fmt.Sprintf("%s: a used module is reckoned at %.0f %% of its label (common practice, no source) until a test is written in here, with estimated taken out.", MarkCheck, 100*usedShare))
		w.set(2, "measured", "", "")
		w.set(4, "estimated", "yes", "")
		w.set(4, "capacity", ampHours(usedShare*p.ah*float64(p.modules)), "of the whole bank")
	}
	if p.battery == &unknownBattery {
		high, low := unknownLimits()
		w.remark(2, MarkUnknown+": iron-phosphate only stands in. When you know the cell, write its name in above and take these limits out.")
		w.set(2, "limits", "", "")
		w.set(4, "max_voltage", fmt.Sprintf("%.2f V", high), "the most an iron-phosphate cell bears")
		w.set(4, "min_voltage", fmt.Sprintf("%.2f V", low), "the least a nickel cell bears")
	}
}
