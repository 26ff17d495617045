package cli

import (
	"fmt"
	"io"
	"strings"

	"ampstead/finding"
	"ampstead/fit"
	"ampstead/quantity"
	"ampstead/rig"
	"ampstead/sheet"
)

// fitText prints a fit for a terminal.
type fitText struct {
	w   io.Writer
	res *fit.Result
	sys quantity.System
}

func (t *fitText) print(file *rig.File) {
	t.head(file)
	printFindings(t.w, file, t.res.Findings)
	t.windows()
	t.layers()
	t.settings()
	printCautions(t.w)
}

func (t *fitText) head(file *rig.File) {
	c := t.res.Cell
	basis := c.Basis
	if !c.Measured {
		basis += ", not measured"
	}
	fmt.Fprintf(t.w, "%s\n%d groups in series, %d in parallel, %s; %s (%s), spread between groups %s\n\n",
		file.Rig.About.Name, c.Series, c.Parallel, c.Title, quantity.AmpereHours.Text(c.Capacity, t.sys), basis, c.SpreadHow)
}

func (t *fitText) windows() {
	var tab table
	tab.row("WINDOW", "a cell", "the bank", "charge", "energy")
	for _, row := range []struct {
		name string
		win  fit.Window
	}{{"never outside", t.res.Window}, {"day by day", t.res.Daily}} {
		tab.row(row.name,
			volts(row.win.CellLowV, 3)+" to "+volts(row.win.CellHighV, 3), volts(row.win.BankLowV, 1)+" to "+volts(row.win.BankHighV, 1),
			quantity.AmpereHours.Text(row.win.UsableAh, t.sys), quantity.WattHours.Text(row.win.UsableWh, t.sys))
	}
	tab.print(t.w)
}

func (t *fitText) layers() {
	fmt.Fprintln(t.w)
	var tab table
	tab.row("LAYERS, highest first", "device", "set", "acts between, per cell", "margin outward")
	for i := len(t.res.Layers) - 1; i >= 0; i-- {
		l := t.res.Layers[i]
		tab.row(l.Name, l.Device, volts(l.DeviceSetV, 2), volts(l.LowV, 3)+" to "+volts(l.HighV, 3), fmt.Sprintf("%.0f mV", l.MarginMV))
	}
	tab.print(t.w)
}

// settings prints a table a device; a star marks what differs today.
func (t *fitText) settings() {
	for i := 0; i < len(t.res.Settings); {
		device := t.res.Settings[i].Device
		fmt.Fprintf(t.w, "\n%s (%s)\n", strings.ToUpper(device), t.res.Settings[i].Kind)
		var tab table
		tab.row("  setting", "set to", "today", "why")
		for ; i < len(t.res.Settings) && t.res.Settings[i].Device == device; i++ {
			s := t.res.Settings[i]
			tab.row(mark(s.Differs)+s.Setting, sheet.Value(s, s.Value, t.sys), sheet.Value(s, s.Today, t.sys), s.Because)
		}
		tab.print(t.w)
	}
}

func mark(differs bool) string {
	if differs {
		return "* "
	}
	return "  "
}

func volts(v float64, decimals int) string { return quantity.Volts.Fixed(v, "V", decimals) }

// printFindings lists findings, most urgent first, each with its line.
func printFindings(w io.Writer, file *rig.File, list []finding.Finding) {
	if len(list) == 0 {
		fmt.Fprintf(w, "FINDINGS: none from the rules checked here. What no rule checks is not covered.\n\n")
		return
	}
	fmt.Fprintf(w, "FINDINGS: %d stop, %d care, %d note\n", finding.Count(list, finding.Stop), finding.Count(list, finding.Care), finding.Count(list, finding.Note))
	for _, f := range list {
		place := f.Where
		if line := lineOf(file, f.Where); line > 1 {
			place = fmt.Sprintf("%s (line %d)", f.Where, line)
		}
		fmt.Fprintf(w, "\n%-5s %s  [%s]\n", f.Severity, place, f.ID)
		for _, part := range [][2]string{{"found", f.Found}, {"why", f.Because}, {"mend", f.Mend}} {
			fmt.Fprintf(w, "      %-6s %s\n", part[0], wrap(part[1], 13))
		}
		if e, ok := w.(explaining); ok {
			printWorkings(e, f)
		}
	}
	fmt.Fprintln(w)
}

// lineOf is the line of a path, 0 without a file.
func lineOf(file *rig.File, path string) int {
	if file == nil {
		return 0
	}
	return file.Line(path)
}

func printCautions(w io.Writer) {
	fmt.Fprintln(w)
	printLines(w, sheet.CautionsShort())
}
