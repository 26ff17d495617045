package rig

import (
	"fmt"
	"math"
	"strconv"
	"strings"
	"unicode/utf8"
)

// Starter writes a new rig file from a few answers: what they say, and every
// other key as a comment that says what it is. The result parses. Errors: an
// answer that is not valid, with what was expected.
func Starter(a Answers) ([]byte, error) {
	full, err := a.complete()
	if err != nil {
		return nil, err
	}
	b := &starter{}
	b.WriteString(starterHead)
	b.keys(rigShape, full.rig(), 0, true)
	text := []byte(b.String())
	if _, err := Parse(FileName, text); err != nil {
		return nil, err
	}
	return text, nil
}

const starterHead = `# A rig file for Ampstead. Everything behind a # is a comment. To use a key that
# is commented out, take its first # away and write a value with its unit.
# Values marked CHECK are only placeholders: read yours from the device.

`

// rig lays the answers out as the file's keys.
func (a Answers) rig() []sprout {
	rig := []sprout{
		{key: "about", keys: []sprout{{key: "name", value: a["name"]}, {key: "units", value: a["units"]}}},
		{key: "route", items: []sprout{{keys: []sprout{
			{key: "name", value: "First stay"}, {key: "from", value: "2026-11-01"}, {key: "to", value: "2027-02-20"},
			{key: "coldest", value: a["coldest"]}}}}},
		{key: "bank", keys: []sprout{{key: "cell", value: a["cell"]}, {key: "series", value: a["series"]},
			{key: "cells_per_group", value: a["cells-per-group"]}, {key: "strings", value: a["strings"]},
			{key: "cell_capacity", value: a["cell-capacity"]}}},
	}
	kinds, _ := sourceKinds(a["sources"])
	var sources []sprout
	for _, kind := range kinds {
		sources = append(sources, sprout{keys: []sprout{{key: "name", value: sourceNames[kind]},
			{key: "kind", value: kind}, {key: "limit", value: "30 A"}}})
	}
	if sources != nil {
		rig = append(rig, sprout{key: "charge", items: sources})
	}
	if a["inverter"] == "yes" || a["inverter"] == "true" {
		rig = append(rig, sprout{key: "inverters", items: []sprout{a.inverter()}})
	}
	return rig
}

var sourceNames = map[string]string{"solar": "roof solar", "mains": "mains charger", "alternator": "alternator charger"}

// inverter has an input range of the right order for the bank.
func (a Answers) inverter() sprout {
	series, _ := strconv.Atoi(a["series"])
	nominal := float64(series) * roughVoltage(a["cell"])
	volts := func(v float64) string { return fmt.Sprintf("%.0f V", math.Max(1, math.Round(v))) }
	return sprout{keys: []sprout{{key: "name", value: "mains inverter"}, {key: "power", value: "2000 W"},
		{key: "input_low", value: volts(0.88 * nominal)}, {key: "input_high", value: volts(math.Min(1000, 1.5*nominal))}}}
}

// roughVoltage is only for placeholders in a new file.
func roughVoltage(cell string) float64 {
	switch {
	case strings.HasPrefix(cell, "lead-acid"):
		return 2
	case strings.HasPrefix(cell, "lfp"):
		return 3.2
	}
	return 3.6
}

type starter struct{ strings.Builder }

// keys writes every key of a shape in its order: with its value when there is
// one, else, when all is set, as a comment.
func (b *starter) keys(s *shape, given []sprout, indent int, all bool) {
	for i := range s.fields {
		f := &s.fields[i]
		has := find(given, f.key)
		switch {
		case has != nil:
			b.given(f, has, indent, all)
		case all && f.fits(given):
			b.commented(f, indent, "")
		}
		if indent == 0 {
			b.WriteString("\n")
		}
	}
}

func find(given []sprout, key string) *sprout {
	for i := range given {
		if given[i].key == key {
			return &given[i]
		}
	}
	return nil
}

// fits reports whether the key belongs to the kind that is given beside it.
func (f *field) fits(given []sprout) bool {
	kind := find(given, "kind")
	return f.only == "" || kind != nil && kind.value == f.only
}

// placeholders are values that nobody answered.
var placeholders = map[string]bool{"limit": true, "from": true, "to": true, "power": true, "input_low": true, "input_high": true}

func (b *starter) given(f *field, has *sprout, indent int, all bool) {
	doc := f.doc
	if placeholders[f.key] {
		doc = "CHECK: " + doc
	}
	start := strings.Repeat(" ", indent) + f.key + ":"
	switch {
	case has.items != nil:
		b.line(start, doc)
		for i, it := range has.items {
			b.item(f.inner, it.keys, indent+2, all && i == 0)
		}
	case has.keys != nil:
		b.line(start, doc)
		b.keys(f.inner, has.keys, indent+2, all)
	default:
		b.line(start+" "+written(has.value, plain, false), doc)
	}
}

// item writes the keys of one list item and puts the dash before the first.
func (b *starter) item(s *shape, given []sprout, indent int, all bool) {
	one := &starter{}
	one.keys(s, given, indent+2, all)
	b.WriteString(strings.Repeat(" ", indent) + "- " + one.String()[indent+2:])
}

// commented writes a key that is not used yet, and the keys that go with it.
func (b *starter) commented(f *field, indent int, lead string) {
	doc := f.doc
	if f.eg != "" {
		doc += ", such as " + f.eg
	} else if f.oneof != nil {
		doc += ": " + either(f.oneof)
	}
	b.line(strings.Repeat(" ", indent)+"# "+lead+f.key+":", doc)
	if !f.deep() {
		return
	}
	lead = strings.Repeat(" ", len(lead)+2)
	dash := "- "
	for i := range f.inner.fields {
		inner := &f.inner.fields[i]
		switch {
		case f.kind == block:
			b.commented(inner, indent, lead)
		case inner.need:
			b.commented(inner, indent, lead+dash)
			dash = "  "
		}
	}
}

// line writes text with its comment in a column of its own.
func (b *starter) line(text, comment string) {
	pad := max(1, 34-utf8.RuneCountInString(text))
	b.WriteString(text + strings.Repeat(" ", pad) + "# " + comment + "\n")
}
