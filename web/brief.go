package web

import "strings"

// briefs say in one line what a closed section holds: pieces with values in braces,
// each left out when one of its values is not given, or is off where it has no = behind it.
var briefs = map[string]string{
	"about":                 "{name}|{units}",
	"route":                 "{from} to {to}|coldest {coldest}|hottest {hottest}",
	"bank":                  "{cell}|{series} in series|{strings} strings|{cell_capacity} a cell|measured {measured.capacity}",
	"charge":                "{kind}|up to {limit}|charges to {settings.absorption}|float {settings.float=}|no charge below {settings.frost_lock}",
	"converters":            "{power}|gives {output}|from {input_low} to {input_high}|stops below {low_cut}",
	"inverters":             "{power}|from {input_low} to {input_high}|stops below {low_cut}",
	"loads":                 "{power}|{hours} a day|{duty} of the time|on {on}",
	"protection.relays":     "drives {drives}|opens above {high}|below {low}",
	"protection.contactors": "opens {opens}|carries {continuous}|breaks {break}",
	"protection.meters":     "{watches} groups|warns above {alarm_high}|below {alarm_low}",
	"protection.cutouts":    "stops {stops}|below {below}|above {above}",
	"protection.fuses":      "guards {guards}|{rating}|{class}|interrupts {interrupt}",
	"heater":                "{power}|on below {on}|off above {off}",
	"cables":                "{from} to {to}|{length}|{size}",
	"prices":                "{price}|{quantity} of it",
	"candidates":            "{cell}|{series} in series|{cell_capacity} a cell|{price}",
	"live":                  "{broker}",
}

// briefOf says in one line what is in a section.
func briefOf(s section) string {
	given := map[string]string{}
	for _, f := range s.fields {
		if f.Given {
			given[strings.TrimPrefix(f.Path, s.Path+".")] = f.Written
		}
	}
	var parts []string
	for piece := range strings.SplitSeq(briefOfGroup(s.Path), "|") {
		if text, ok := filled(piece, given); ok {
			parts = append(parts, text)
		}
	}
	return strings.Join(parts, " · ")
}

func briefOfGroup(path string) string {
	for at := path; at != ""; at = outerPath(at) {
		if b, ok := briefs[at]; ok {
			return b
		}
	}
	return ""
}

// filled puts values into the braces of a piece.
func filled(piece string, given map[string]string) (string, bool) {
	var out strings.Builder
	for {
		before, rest, more := strings.Cut(piece, "{")
		out.WriteString(before)
		if !more {
			return out.String(), true
		}
		key, after, _ := strings.Cut(rest, "}")
		key, evenOff := strings.CutSuffix(key, "=")
		value := given[key]
		if value == "" || !evenOff && (value == "off" || value == "none") {
			return "", false
		}
		out.WriteString(strings.ReplaceAll(value, " ", "\u00a0"))
		piece = after
	}
}
