package cli

import (
	"fmt"
	"io"
	"strings"
	"text/tabwriter"

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
	basis := "rated, not measured"
	if c.Measured {
		basis = "measured"
	}
	fmt.Fprintf(t.w, "%s\n%d groups in series, %d in parallel, %s; %s (%s), spread between groups %s\n\n",
		file.Rig.About.Name, c.Series, c.Parallel, c.Title, quantity.AmpereHours.Text(c.Capacity, t.sys), basis, c.SpreadHow)
}

func (t *fitText) windows() {
	w := t.table("WINDOW", "a cell", "the bank", "charge", "energy")
	for _, row := range []struct {
		name string
		win  fit.Window
	}{{"never outside", t.res.Window}, {"day by day", t.res.Daily}} {
		fmt.Fprintf(w, "%s\t%s to %s\t%s to %s\t%s\t%s\n", row.name,
			volts(row.win.CellLowV, 3), volts(row.win.CellHighV, 3), volts(row.win.BankLowV, 1), volts(row.win.BankHighV, 1),
			quantity.AmpereHours.Text(row.win.UsableAh, t.sys), quantity.WattHours.Text(row.win.UsableWh, t.sys))
	}
	w.Flush()
}

func (t *fitText) layers() {
	fmt.Fprintln(t.w)
	w := t.table("LAYERS, highest first", "device", "set", "acts between, per cell", "margin outward")
	for i := len(t.res.Layers) - 1; i >= 0; i-- {
		l := t.res.Layers[i]
		fmt.Fprintf(w, "%s\t%s\t%s\t%s to %s\t%.0f mV\n", l.Name, l.Device, volts(l.DeviceSetV, 2), volts(l.LowV, 3), volts(l.HighV, 3), l.MarginMV)
	}
	w.Flush()
}

func (t *fitText) settings() {
	device := ""
	var w *tabwriter.Writer
	for _, s := range t.res.Settings {
		if s.Device != device {
			if w != nil {
				w.Flush()
			}
			device = s.Device
			fmt.Fprintln(t.w)
			w = t.table(strings.ToUpper(device)+" ("+s.Kind+")", "set to", "today", "why")
		}
		fmt.Fprintf(w, "%s%s\t%s\t%s\t%s\n", mark(s.Differs), s.Setting, t.value(s, s.Value), t.value(s, s.Today), s.Because)
	}
	if w != nil {
		w.Flush()
	}
}

func mark(differs bool) string {
	if differs {
		return "* "
	}
	return "  "
}

func (t *fitText) value(s fit.Setting, v any) string {
	return sheet.Value(s, v, t.sys)
}

func (t *fitText) table(heads ...string) *tabwriter.Writer {
	w := tabwriter.NewWriter(t.w, 0, 4, 2, ' ', 0)
	fmt.Fprintln(w, strings.Join(heads, "\t"))
	return w
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
		if line := file.Line(f.Where); line > 1 {
			place = fmt.Sprintf("%s (line %d)", f.Where, line)
		}
		fmt.Fprintf(w, "\n%-5s %s  [%s]\n      found  %s\n      why    %s\n      mend   %s\n",
			f.Severity, place, f.ID, f.Found, f.Because, f.Mend)
	}
	fmt.Fprintln(w)
}

func printCautions(w io.Writer) {
	fmt.Fprintln(w)
	for _, line := range sheet.CautionsShort() {
		fmt.Fprintln(w, line)
	}
}
