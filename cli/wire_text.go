package cli

import (
	"fmt"
	"io"
	"strconv"
	"strings"

	"ampstead/quantity"
	"ampstead/rig"
	"ampstead/wire"
)

// wireText prints the wiring for a terminal.
type wireText struct {
	w   io.Writer
	res *wire.Result
	sys quantity.System
}

func (t *wireText) print(file *rig.File) {
	fmt.Fprintf(t.w, "%s\n%s to %s, a dead short at the bank's terminals draws up to %s\n\n", file.Rig.About.Name,
		volts(t.res.LowV, 1), volts(t.res.TopV, 1), kiloamps(t.res.ShortA))
	printFindings(t.w, file, t.res.Findings)
	t.conductors()
	t.fuses()
	t.switches()
	t.roof()
	t.supplies()
	t.parts()
	t.steps()
	printList(t.w, "ASSUMED, because the file does not say", t.res.Assumed)
	printCautions(t.w)
}

func (t *wireText) amps(v float64) string { return quantity.Amperes.Text(rounded(v), t.sys) }

// rounded keeps three significant digits: enough for a person to choose by.
func rounded(v float64) float64 {
	short, _ := strconv.ParseFloat(strconv.FormatFloat(v, 'g', 3, 64), 64)
	return short
}

func kiloamps(v float64) string { return quantity.Amperes.Fixed(v, "kA", 1) }

func (t *wireText) conductors() {
	fmt.Fprintln(t.w, "CONDUCTORS, out and back of the same size; + is proposed, not in the file")
	var tab table
	tab.row("  run", "length", "current", "size", "carries", "drop", "smallest, decided by")
	for _, c := range t.res.Circuits {
		tab.row(plus(c.Proposed)+c.Name, quantity.Metres.Text(c.LengthM, t.sys), t.amps(c.CurrentA), c.Size, t.amps(c.AmpacityA),
			volts(c.DropV, 2)+" "+quantity.Percent.Fixed(c.WayPercent, "%", 1), strings.TrimSpace(c.SmallestSize+", "+c.DecidedBy))
	}
	tab.print(t.w)
}

func plus(proposed bool) string {
	if proposed {
		return "+ "
	}
	return "  "
}

func (t *wireText) fuses() {
	printTitle(t.w, "FUSES")
	var tab table
	tab.row("  fuse", "number", "rating", "between", "must interrupt", "class")
	for _, f := range t.res.Fuses {
		tab.row(plus(f.Proposed)+f.Name, strconv.Itoa(f.Count), t.amps(f.RatingA), t.amps(f.LeastA)+" and "+t.amps(f.MostA),
			t.mustInterrupt(f), f.Class)
	}
	tab.print(t.w)
	for _, p := range t.res.Coordination {
		if !p.Proposed {
			fmt.Fprintf(t.w, "  %s\n", wrap(p.Outer+" behind "+p.Inner+": "+p.Why, 2))
		}
	}
}

// mustInterrupt is a fuse's short; behind a converter there is none to speak of.
func (t *wireText) mustInterrupt(f wire.Fuse) string {
	if f.NeededA == 0 {
		return "what its converter gives"
	}
	return kiloamps(f.NeededA) + " at " + volts(f.VoltageNeededV, 1)
}

func (t *wireText) switches() {
	for _, c := range t.res.Contactors {
		printTitle(t.w, "CONTACTOR: "+c.Name)
		fmt.Fprintf(t.w, "  sees %s charging, %s drawing, %s for seconds; may be told to open at %s; carries %s, breaks %s\n",
			t.amps(c.Charge), t.amps(c.Discharge), t.amps(c.SurgeA), t.amps(c.BreakNeedA), t.amps(c.ContinuousA), t.amps(c.BreakA))
	}
	if p := t.res.PreCharge; p != nil {
		fmt.Fprintf(t.w, "  pre-charge %s: %s to %.0f %%, %s at first, pulse of %s; %s left as it closes; what is behind it switched off\n", quantity.Ohms.Text(p.Ohm, t.sys),
			quantity.Seconds.Text(rounded(p.TimeS), t.sys), 100*p.Fraction, quantity.Watts.Text(rounded(p.PeakW), t.sys),
			quantity.Joules.Text(rounded(p.EnergyJ), t.sys), volts(p.StepV, 1))
	}
	if h := t.res.Heater; h != nil && h.DensityWCM2 > 0 {
		fmt.Fprintf(t.w, "  %s: %.3f W/cm² where %g is the most\n", h.Name, h.DensityWCM2, h.MostWCM2)
	}
}

func (t *wireText) roof() {
	if len(t.res.Strings) == 0 {
		return
	}
	printTitle(t.w, "PANEL STRINGS")
	var tab table
	tab.row("  string", "at 25 °C", "coldest", "by table", "by coefficient", "input bears", "in series at most")
	for _, x := range t.res.Strings {
		tab.row("  "+x.Name, volts(x.OpenV, 1), quantity.Celsius.Text(x.ColdestC, t.sys)+" "+x.ColdestAt, volts(x.TableV, 1), volts(x.CoefficientV, 1),
			volts(x.LimitV, 0), strconv.Itoa(x.MostSeries))
	}
	tab.print(t.w)
	for _, a := range t.res.Arrays {
		fmt.Fprintf(t.w, "  %s: %s into a short, %s with the quarter for bright sun; its input takes %s\n", a.Charger, t.amps(a.ShortA), t.amps(a.DesignA), t.amps(a.LimitA))
	}
}

func (t *wireText) supplies() {
	printTitle(t.w, "CONVERTERS AND INVERTERS")
	var tab table
	tab.row("  supply", "gives", "for seconds", "asked for", "hardest start", "draws from the bank")
	for _, x := range t.res.Supplies {
		tab.row("  "+x.Name, t.watts(x.RatedW), t.watts(x.SurgeW), t.watts(x.DemandW), t.watts(x.StartW), t.amps(x.InputA)+", "+t.amps(x.SurgeA)+" for seconds")
	}
	tab.print(t.w)
}

func (t *wireText) watts(v float64) string { return quantity.Watts.Text(rounded(v), t.sys) }

func (t *wireText) parts() {
	printTitle(t.w, "PARTS; * is in the file and stays")
	var tab table
	for _, p := range t.res.Parts {
		mark := "  "
		if p.Have {
			mark = "* "
		}
		tab.row(mark+p.Item, t.quantity(p), p.Spec+": "+strings.Join(p.For, ", "))
	}
	tab.print(t.w)
}

func (t *wireText) quantity(p wire.Part) string {
	if p.Unit == "m" {
		return quantity.Metres.Text(p.Quantity, t.sys)
	}
	return strconv.FormatFloat(p.Quantity, 'f', -1, 64)
}

func (t *wireText) steps() {
	printTitle(t.w, "BEFORE CLOSING ANYTHING, in this order")
	for k, s := range t.res.Steps {
		fmt.Fprintf(t.w, "%3d. %s\n", k+1, wrap(fmt.Sprintf("before %s: %s: %s: %s", s.Before, s.Where, s.What, t.expected(s)), 5))
	}
}

// expected writes the range a sound rig shows.
func (t *wireText) expected(s wire.Step) string {
	if s.AtLeast {
		return measured(s.Low, s.Unit) + " or more"
	}
	return fmt.Sprintf("%s to %s", measured(s.Low, s.Unit), measured(s.High, s.Unit))
}

// measured writes a reading as a meter shows it.
func measured(v float64, unit string) string {
	if unit == "V" && v < 1 && v > -1 && v != 0 {
		return quantity.Volts.Fixed(v, "mV", 0)
	}
	return strconv.FormatFloat(rounded(v), 'f', -1, 64) + " " + unit
}
