package cell

import (
	"bytes"
	"fmt"
	"sort"
	"strings"
	"testing"

	"ampstead/internal/golden"
	"ampstead/quantity"
	"ampstead/source"
)

const docsHead = `# Cells

Every cell of the library with its figures and where each comes from. This page
is written by ` + "`go test ./physics/cell -run Docs -update`" + `; do not edit it.

Voltages are per cell at 25 °C; a lead-acid cell is one of 2 V. "Standing" says
how a fact reached this program: *read in the source*, *second hand*, *derived
here*, *computed from the stated equation*, *common practice, no source*, or
*from memory, unconfirmed*. The last two are weak: check them against your
cell's own sheet. Where sources conflict the cautious side is taken and the note
says so. None of these cells is your module: a salvaged one has to be measured.

`

// TestDocs keeps docs/cells.md true.
func TestDocs(t *testing.T) {
	d := docs{used: map[string]source.Source{}}
	d.WriteString(docsHead)
	d.overview(t)
	d.group(t, "nickel and manganese cells", (*Cell).HasCalendarModel)
	d.group(t, "iron-phosphate cells", func(c *Cell) bool { return c.Family == LFP })
	d.group(t, "lead-acid cells", func(c *Cell) bool { return c.Family == LeadAcid })
	d.bibliography()
	golden.Check(t, "../../../docs/cells.md", d.Bytes())
}

type docs struct {
	bytes.Buffer
	used map[string]source.Source
}

// row is one figure of a cell as the page shows it.
type row struct {
	what, value string
	source      source.Source
	note        string
}

func (d *docs) line(format string, a ...any) { fmt.Fprintf(d, format+"\n", a...) }

// group writes what all cells of a kind share once, then each cell with what is
// its own.
func (d *docs) group(t *testing.T, title string, of func(*Cell) bool) {
	var cells []*Cell
	count := map[row]int{}
	for _, name := range Names() {
		c := find(t, name)
		if !of(c) {
			continue
		}
		cells = append(cells, c)
		for _, r := range rowsOf(c) {
			count[r]++
		}
	}
	d.line("## What all %s share\n", title)
	d.table(cells[0], func(r row) bool { return count[r] == len(cells) })
	for _, c := range cells {
		d.line("## %s\n\n%s.\n", c.Name, strings.ToUpper(c.Title[:1])+c.Title[1:])
		d.curve(c)
		d.table(c, func(r row) bool { return count[r] < len(cells) })
	}
}

func (d *docs) table(c *Cell, shown func(row) bool) {
	d.line("| figure | value | standing | source | note |\n|---|---|---|---|---|")
	for _, r := range rowsOf(c) {
		if shown(r) {
			d.row(r)
		}
	}
	d.line("")
}

func (d *docs) overview(t *testing.T) {
	d.line("| name | what it is | least | daily use | most | charge from |")
	d.line("|---|---|---|---|---|---|")
	for _, name := range Names() {
		c := find(t, name)
		d.line("| [`%s`](#%s) | %s | %s | %s – %s | %s | %s |", name, name, c.Title, fixed(c.MinV, 2, "V"),
			fixed(c.DailyLowV, 2, ""), fixed(c.DailyHighV, 2, "V"), fixed(c.MaxV, 2, "V"), fixed(c.ChargeMinC, 0, "°C"))
	}
	d.line("")
}

func fixed(k Known, decimals int, unit string) string {
	return strings.TrimSpace(strings.Replace(fmt.Sprintf("%.*f %s", decimals, k.Value, unit), "-", "−", 1))
}

func rowsOf(c *Cell) []row {
	volts := func(what string, k Known) row {
		return row{what, quantity.Volts.Text(k.Value, quantity.Metric), k.Source, k.Note}
	}
	of := func(what, value string, k Known) row { return row{what, value, k.Source, k.Note} }
	warm := func(what string, k Known) row { return of(what, fixed(k, 0, "°C"), k) }
	rows := []row{
		volts("nominal voltage", c.NominalV),
		volts("never charged above", c.MaxV),
		volts("never discharged below", c.MinV),
		volts("daily use up to", c.DailyHighV),
		volts("daily use down to", c.DailyLowV),
		of("stored at", fmt.Sprintf("%.0f %%", c.StorageSoC.Value*100), c.StorageSoC),
		volts("doubt of rest voltage", c.RestDoubtV),
		{"charge current", rates(c.ChargeRates), c.ChargeRates.Source, c.ChargeRates.Note},
		{"discharge current", rates(c.DischargeRate), c.DischargeRate.Source, c.DischargeRate.Note},
		warm("no charge at and below", c.ChargeMinC),
		warm("no charge at and above", c.ChargeMaxC),
		warm("alarm", c.AlarmC),
		warm("disconnect at the latest", c.HarmC),
		of("10 s resistance × rated capacity", fmt.Sprintf("%.3g Ω·Ah", c.ResistanceOhmAh.Value), c.ResistanceOhmAh),
		of("activation energy below 25 °C", fmt.Sprintf("%g kJ/mol", c.ColdEaJ.Value/1e3), c.ColdEaJ),
		of("activation energy above 25 °C", fmt.Sprintf("%g kJ/mol", c.WarmEaJ.Value/1e3), c.WarmEaJ),
		of("slow share of the 10 s resistance", fmt.Sprintf("%.1f %%", c.SlowShare.Value*100), c.SlowShare),
		of("its time constant", fixed(c.SlowTauS, 0, "s"), c.SlowTauS),
		of("specific heat", fixed(c.SpecificHeat, 0, "J/kg/K"), c.SpecificHeat),
	}
	return append(rows, acidRows(c.Acid)...)
}

func (d *docs) curve(c *Cell) {
	d.line("Rest voltage in V (%s). %s.\n", d.key(c.CurveSource), strings.ToUpper(c.CurveNote[:1])+c.CurveNote[1:])
	head, rule, row := "|", "|", "|"
	for _, percent := range []float64{0, 5, 10, 20, 30, 40, 50, 60, 70, 80, 90, 95, 100} {
		head += fmt.Sprintf(" %g %% |", percent)
		rule += "---|"
		row += fmt.Sprintf(" %.3f |", c.Curve.Voltage(percent/100))
	}
	d.line("%s\n%s\n%s\n", head, rule, row)
	if c.FlatTo > 0 {
		d.line("Between %.0f and %.0f %% rest voltage does not tell the state of charge.\n", c.FlatFrom*100, c.FlatTo*100)
	}
}

func acidRows(a *AcidCharge) []row {
	if a == nil {
		return nil
	}
	of := func(what, value string, k Known) row { return row{what, value, k.Source, k.Note} }
	equalise := "none"
	if a.EqualiseV.Value > 0 {
		equalise = fixed(a.EqualiseV, 2, "V")
	}
	return []row{
		of("absorption", fixed(a.AbsorptionV, 2, "V"), a.AbsorptionV),
		of("float", fixed(a.FloatV, 2, "V"), a.FloatV),
		of("equalise", equalise, a.EqualiseV),
		of("temperature compensation", fmt.Sprintf("−%.0f mV/K", -a.CompensationVPerK.Value*1e3), a.CompensationVPerK),
	}
}

// rates writes a table of current limits, knots of equal rate together.
func rates(r Rates) string {
	var parts []string
	for k := 0; k < len(r.Points); k++ {
		from := r.Points[k]
		for k+1 < len(r.Points) && r.Points[k+1].Rate == from.Rate {
			k++
		}
		at := fmt.Sprintf("%g C at %g", from.Rate, from.TempC)
		if to := r.Points[k]; to != from {
			at += fmt.Sprintf(" to %g", to.TempC)
		}
		parts = append(parts, strings.ReplaceAll(at, "-", "−")+" °C")
	}
	return strings.Join(parts, "; ")
}

func (d *docs) row(r row) {
	standing := string(r.source.Standing)
	if r.source.Weak() {
		standing = "**" + standing + "**"
	}
	d.line("| %s | %s | %s | %s | %s |", r.what, r.value, standing, d.key(r.source), r.note)
}

func (d *docs) key(s source.Source) string {
	d.used[s.Key] = s
	return fmt.Sprintf("[%s](#sources)", s.Key)
}

func (d *docs) bibliography() {
	var keys []string
	for key := range d.used {
		keys = append(keys, key)
	}
	sort.Strings(keys)
	d.line("## Sources\n\n| key | standing | source |\n|---|---|---|")
	for _, key := range keys {
		d.line("| %s | %s | %s |", key, d.used[key].Standing, d.used[key].Text)
	}
}
