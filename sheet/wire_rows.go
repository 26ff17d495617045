package sheet

import (
	"ampstead/finding"
	"fmt"
	"html/template"
	"math"
	"strconv"
	"strings"

	"ampstead/figure"
	q "ampstead/quantity"
	"ampstead/wire"
)

// wireRows puts a wiring into words.
type wireRows struct {
	res *wire.Result
	sys q.System
}

// html passes on a drawing, which escapes the texts it carries.
func html(drawing string) template.HTML { return template.HTML(drawing) }

func (w *wireRows) amps(a float64) string {
	if math.Abs(a) >= 1000 {
		return q.Amperes.Fixed(a, "kA", 1)
	}
	return strconv.FormatFloat(math.Round(a*10)/10+0, 'f', -1, 64) + " A"
}

func (w *wireRows) metres(m float64) string {
	unit, decimals := q.Metres.Show(m, w.sys), 2
	v, _ := q.Metres.In(m, unit)
	if w.sys == q.US {
		decimals = 1
	}
	scale := math.Pow10(decimals)
	return strconv.FormatFloat(math.Round(v*scale)/scale+0, 'f', -1, 64) + " " + unit
}

// tenths writes a voltage as far as a wiring cares.
func tenths(v float64) string { return q.Volts.Fixed(v, "V", 1) }

func (w *wireRows) celsius(c float64) string { return q.Celsius.Text(math.Round(c), w.sys) }

func (w *wireRows) number(text string, uses []figure.Use) Number {
	return Number{Text: text, How: explain(uses, w.sys)}
}

// named keeps the uses of the figures named.
func named(uses []figure.Use, names ...string) []figure.Use {
	var kept []figure.Use
	for _, u := range uses {
		for _, n := range names {
			if u.Figure != nil && u.Figure.Name == n {
				kept = append(kept, u)
			}
		}
	}
	return kept
}

func (w *wireRows) lead() []string {
	r := w.res
	list := []string{fmt.Sprintf("The bank goes from %s to %s. A dead short at its terminals, full and warm, draws up to %s; every fuse beside it must interrupt that, at %s.",
		tenths(r.LowV), tenths(r.TopV), w.amps(r.ShortA), tenths(r.TopV))}
	if r.StringShortA > 0 && r.StringShortA < r.ShortA {
		list = append(list, "One string alone draws up to "+w.amps(r.StringShortA)+".")
	}
	return list
}

func (w *wireRows) circuits() []CircuitRow {
	var list []CircuitRow
	for i := range w.res.Circuits {
		list = append(list, w.circuit(&w.res.Circuits[i]))
	}
	return list
}

func (w *wireRows) circuit(c *wire.Circuit) CircuitRow {
	row := CircuitRow{Name: c.Name, Ends: c.From + " to " + c.To, Proposed: c.Proposed, Length: w.metres(c.LengthM), Current: w.amps(c.CurrentA),
		Size: c.Size, Insulation: w.celsius(c.InsulationC), Decided: c.DecidedBy, Way: way(c),
		Ampacity: w.number(w.amps(c.AmpacityA), named(c.How, "conductor", "conductor-temperature")),
		Drop:     w.number(drop(c), named(c.How, "voltage-drop")),
		Needs:    w.number(c.SmallestSize, named(c.How, "conductor-for-drop"))}
	if c.LengthAssumed {
		row.Length += ", assumed"
	}
	if row.Ends == row.Name {
		row.Ends = ""
	}
	if c.Count > 1 {
		row.Ends += fmt.Sprintf(", %d runs side by side", c.Count)
	}
	for _, n := range c.Rules {
		row.Small = row.Small || n.Rule == c.DecidedBy && c.SmallestSize != c.Size && w.small(c)
	}
	w.guard(c, &row)
	return row
}

// small reports whether a finding says that the cable is too small.
func (w *wireRows) small(c *wire.Circuit) bool {
	for _, f := range w.res.Findings {
		if f.ID == "cable-too-small" && c.Path != "" && strings.HasPrefix(f.Where, c.Path+".") {
			return true
		}
	}
	return c.SmallestSize == ""
}

// drop is the voltage lost in a run.
func drop(c *wire.Circuit) string {
	return together(q.Volts.Fixed(c.DropV, "V", 2)) + ", " + together(q.Percent.Fixed(c.DropPercent, "%", 1))
}

// way is what is lost all the way from the bank, where that is more.
func way(c *wire.Circuit) string {
	if c.WayPercent-c.DropPercent < 0.05 {
		return ""
	}
	return together(q.Percent.Fixed(c.WayPercent, "%", 1)) + " from the bank"
}

// together keeps a value with its unit.
func together(s string) string { return strings.ReplaceAll(s, " ", "\u00a0") }

// guard says what protects a run.
func (w *wireRows) guard(c *wire.Circuit, row *CircuitRow) {
	if c.FuseA == 0 {
		row.Fuse.Text = "none needed"
		return
	}
	text := together(strconv.FormatFloat(c.FuseA, 'f', -1, 64)+" A") + " " + together(c.FuseClass)
	switch {
	case c.FuseProposed:
		row.Stands = "to add"
	case c.FuseShared:
		row.Stands = "shared: " + c.FuseName
	}
	row.Fuse = w.number(text, named(c.How, "fuse-size"))
	if c.InterruptA >= 1 {
		row.Interrupt = w.number(w.amps(c.InterruptA), named(c.How, "short-circuit", "withstand-time"))
	}
}

func (w *wireRows) order() []string {
	var list []string
	for _, p := range w.res.Coordination {
		list = append(list, finding.Sentence(fmt.Sprintf("%s behind %s: %s", p.Outer, p.Inner, p.Why)))
	}
	return list
}

func (w *wireRows) parts() []PartRow {
	var list []PartRow
	for _, p := range w.res.Parts {
		quantity := strconv.FormatFloat(p.Quantity, 'f', -1, 64)
		switch {
		case p.Unit == "m":
			quantity = w.metres(p.Quantity)
		case p.Unit != "piece":
			quantity += " " + p.Unit
		}
		list = append(list, PartRow{Item: p.Item, Spec: p.Spec, Quantity: quantity, For: strings.Join(p.For, ", "), Have: p.Have})
	}
	return list
}

// points groups the measurements by what is closed after them.
func (w *wireRows) points() []Point {
	var list []Point
	for i, s := range w.res.Steps {
		if n := len(list); n == 0 || list[n-1].Before != s.Before {
			list = append(list, Point{Before: s.Before})
		}
		last := &list[len(list)-1]
		row := StepRow{Number: i + 1, Where: s.Where, What: s.What, Why: s.Why, Range: w.between(s)}
		row.Expected = Number{Text: "–"}
		if aimed(s) {
			row.Expected = Number{Text: w.reading((s.Low+s.High)/2, s.Unit, s.High), How: explain(s.How, w.sys)}
		}
		last.Steps = append(last.Steps, row)
	}
	return list
}

// aimed reports whether a sound rig shows the middle of the range, and its ends
// only for want of accuracy: a range of volts that is wide is that of a bank.
func aimed(s wire.Step) bool {
	return !s.AtLeast && s.Low > 0 && (s.High-s.Low < 0.12*s.High || s.High < 1)
}

func (w *wireRows) between(s wire.Step) string {
	size := math.Max(math.Abs(s.Low), math.Abs(s.High))
	if s.AtLeast {
		return w.reading(s.Low, s.Unit, size) + " or more"
	}
	low := w.reading(s.Low, s.Unit, size)
	if unit := " " + lastWord(low); strings.HasSuffix(w.reading(s.High, s.Unit, size), unit) {
		low = strings.TrimSuffix(low, unit)
	}
	return low + " to " + w.reading(s.High, s.Unit, size)
}

func lastWord(s string) string { return s[strings.LastIndexByte(s, ' ')+1:] }

// reading writes a value as a meter shows it that has a range of size.
func (w *wireRows) reading(v float64, unit string, size float64) string {
	switch {
	case unit == "°C":
		return w.celsius(v)
	case unit == "V" && size < 1:
		return q.Volts.Fixed(v, "mV", 0)
	}
	decimals := 0
	if size < 100 {
		decimals = 1
	}
	if size < 10 {
		decimals = 2
	}
	scale := math.Pow10(decimals)
	return strconv.FormatFloat(math.Round(v*scale)/scale+0, 'f', -1, 64) + " " + unit
}
