package web

import (
	"fmt"
	"slices"
	"strings"

	"ampstead/finding"
	"ampstead/fit"
	"ampstead/physics/cell"
	"ampstead/physics/conductor"
	"ampstead/quantity"
	"ampstead/rig"
)

// field is one labelled input.
type field struct {
	rig.Field
	ID       string
	Inner    string // the block or item inside the section that it belongs to
	Name     string // the label without that
	Shown    string // in the input: what was typed, or what the file has
	Wrong    string // why it was refused
	Conflict bool   // someone else changed it meanwhile
	Focus    bool   // to be filled in next
	Notes    notes
}

func (now *reading) field(f rig.Field, n notes) field {
	one := field{Field: f, ID: elementID(f.Path), Shown: f.Written, Notes: n}
	one.Inner, one.Name = splitLabel(f.Label)
	one.Notes.Path, one.Notes.Check, one.Notes.Remark = f.Path, f.Open, f.Remark
	one.Notes.Aside = aside(f, now.units)
	return one
}

// inSight reports whether the field is shown without being asked for.
func (f field) inSight() bool {
	return f.Given || f.Need || len(f.Notes.Findings) > 0 || f.Notes.Advice != "" || f.Wrong != ""
}

// Hint is the line that says what belongs into the field.
func (f field) Hint() string {
	hint := f.Doc
	// A value stays with its unit.
	if example := strings.ReplaceAll(f.Example, " ", "\u00a0"); example != "" && f.Options() == nil && !strings.HasSuffix(hint, "or "+example) {
		hint = strings.TrimPrefix(hint+", such as "+example, ", ")
	}
	if f.Where != "" {
		hint += "; to be read " + f.Where
	}
	return hint
}

// Blank is what stands in an empty input: what it means to leave it so.
func (f field) Blank() string {
	if f.Off {
		return "not known"
	}
	return "not given"
}

// YesNo reports a question with two answers.
func (f field) YesNo() bool { return f.Kind == "yes or no" }

// Long reports a value that wants more than one line.
func (f field) Long() bool { return f.Kind == "text" && strings.HasSuffix(f.Path, ".note") }

// Mode is the keyboard that a phone shows: digits where no unit is written.
func (f field) Mode() string {
	if f.Kind == "whole number" {
		return "numeric"
	}
	return ""
}

// option is one word to choose, and what it says.
type option struct{ Value, Text string }

// Options are the words that may stand in the file and, should it have another,
// that word; nil where anything may be typed.
func (f field) Options() []option {
	words := f.Choices
	if last := lastStep(f.Path); f.Kind == "text" && (last == "cell" || last == "like") {
		words = cell.Names()
		if last == "cell" {
			words = append(words, rig.OwnCellName)
		}
	}
	if len(words) == 0 {
		return nil
	}
	var list []option
	for _, w := range words {
		list = append(list, option{w, wordText(lastStep(f.Path), w)})
	}
	if f.Shown != "" && !slices.Contains(words, f.Shown) {
		list = append(list, option{f.Shown, f.Shown})
	}
	return list
}

// wordTexts says in plain words what a word of the file means, where it does not
// say so itself.
var wordTexts = map[string]string{
	"cell own": "own: described below", "units us": "US", "profile flooded": "flooded: lead-acid with caps", "profile agm": "agm: lead-acid, glass mat",
	"profile gel": "gel: lead-acid gel", "profile own": "own: set value by value", "senses own": "at its own terminals", "senses bank": "by wires at the bank",
	"senses bus": "at the bus bars", "thermometer own": "its own", "thermometer bank": "at the bank", "kind solar": "solar panels", "kind mains": "mains hook-up",
	"kind alternator": "the vehicle's alternator", "on bank": "the bank itself", "guards bank": "the bank: the main fuse", "guards string": "each string",
	"stops charge": "every charger", "starter_battery none": "none", "starter_battery stays": "yes, it stays", "opens bank": "the whole bank", "opens charge": "charging alone", "opens loads": "the loads alone",
}

func wordText(key, word string) string {
	if text := wordTexts[key+" "+word]; text != "" {
		return text
	}
	if key == "cell" || key == "like" {
		if c, err := cell.Lookup(word); err == nil {
			return word + ": " + c.Title
		}
	}
	return word
}

// notes is what stands beside one value: what it is in the reader's own unit, what
// the file remarks, what fit and wire found, and the recommended setting.
type notes struct {
	Path     string
	Aside    string
	Check    bool // nobody read it off a device yet
	Remark   string
	Findings []finding.Finding
	Advice   string // recommended value as it would be written; empty when it stands so
	Because  string
}

// Any reports whether there is something to say.
func (n notes) Any() bool {
	return n.Aside != "" || n.Remark != "" || len(n.Findings) > 0 || n.Advice != ""
}

// CheckText is what the mark in the file says, without its word.
func (n notes) CheckText() string {
	_, text, _ := strings.Cut(n.Remark, ":")
	return strings.TrimSpace(text)
}

// notes gathers by path what fit and wire found and what fit recommends.
func (now *reading) notes() map[string]notes {
	at := map[string]notes{}
	if now.result == nil {
		return at
	}
	for _, f := range now.found() {
		n := at[f.Where]
		n.Findings = append(n.Findings, f)
		at[f.Where] = n
	}
	for _, set := range now.result.Settings {
		if !set.Differs || set.Path == "" {
			continue
		}
		n := at[set.Path]
		n.Advice, n.Because = adviceText(set, writtenUnits(now.file)), set.Because
		at[set.Path] = n
	}
	return at
}

// adviceText writes a recommended setting as a person would into the file.
func adviceText(set fit.Setting, units quantity.System) string {
	switch v := set.Value.(type) {
	case string:
		return v
	case float64:
		if set.Dim != nil {
			return set.Dim.Text(v, units)
		}
		return strings.TrimSpace(fmt.Sprintf("%g %s", v, set.Unit))
	}
	return ""
}

// aside is a value in the reader's own unit, "" where it is written in it.
func aside(f rig.Field, units quantity.System) string {
	if f.Kind == "conductor size" {
		return sizeAside(f.Written, units)
	}
	if f.Dimension == nil || f.Written == "" {
		return ""
	}
	v, err := f.Dimension.Parse(f.Written)
	if err != nil {
		return ""
	}
	other := quantity.US
	if units == quantity.US {
		other = quantity.Metric
	}
	mine := f.Dimension.Show(v, units)
	if mine == f.Dimension.Show(v, other) || strings.HasSuffix(f.Written, mine) {
		return ""
	}
	return f.Dimension.Text(v, units)
}

func sizeAside(written string, units quantity.System) string {
	size, err := quantity.ParseSize(written)
	if err != nil || size.Gauge == quantity.MM2 || units == quantity.US {
		return ""
	}
	mm2, err := conductor.Area(size)
	if err != nil {
		return ""
	}
	return fmt.Sprintf("%.3g mm²", mm2)
}

// elementID makes an element's id of a path or title. Two of them never share
// one: what an id cannot hold is written as its number.
func elementID(path string) string {
	var out strings.Builder
	for _, c := range path {
		switch {
		case c >= 'a' && c <= 'z', c >= 'A' && c <= 'Z', c >= '0' && c <= '9', c == '.', c == '-':
			out.WriteRune(c)
		case c == ' ':
			out.WriteByte('_')
		default:
			fmt.Fprintf(&out, "_%x_", c)
		}
	}
	return out.String()
}
