package sheet

import (
	"ampstead/finding"
	"fmt"
	"math"
	"strconv"

	"ampstead/figure"
	q "ampstead/quantity"
	"ampstead/wire"
)

func (w *wireRows) contactors() []Sheetlet {
	var list []Sheetlet
	for _, k := range w.res.Contactors {
		s := Sheetlet{Name: k.Name, Rows: w.duty(k)}
		if p := w.res.PreCharge; p != nil && p.Contactor == k.Name {
			s.Rows = append(s.Rows, w.preCharge(p)...)
		}
		list = append(list, s)
	}
	if h := w.res.Heater; h != nil {
		list = append(list, Sheetlet{Name: h.Name, Rows: w.heater(h)})
	}
	return list
}

// duty is what a contactor sees against what it bears.
func (w *wireRows) duty(k wire.Contactor) []Known {
	way := "equal in both directions"
	if k.Polarised {
		way = "polarised: breaks far less in the other direction, and the bank's current flows both ways"
	}
	return []Known{
		{"carries for long", w.number(w.amps(k.CurrentA), k.How), "rated " + w.given(k.ContinuousA) + "; " + w.amps(k.Charge) + " charging, " + w.amps(k.Discharge) + " drawing"},
		{"carries for seconds", w.number(w.amps(k.SurgeA), nil), ""},
		{"may be told to open at", w.number(w.amps(k.BreakNeedA), nil), "breaks " + w.given(k.BreakA) + " at " + tenths(w.res.TopV) + "; " + way},
		{"coil", w.number(q.Watts.Text(k.CoilW, w.sys), nil), q.WattHours.Text(k.CoilWhDay, w.sys) + " a day"},
	}
}

func (w *wireRows) given(a float64) string {
	if a == 0 {
		return "not given"
	}
	return w.amps(a)
}

// preCharge is the resistor that fills the capacitors.
func (w *wireRows) preCharge(p *wire.PreCharge) []Known {
	resistor := "in the file"
	if p.GivenOhm == 0 {
		resistor = "proposed: the file has none"
	}
	filled := "capacitance as the file says"
	if p.Assumed {
		filled = "capacitance assumed"
	}
	return []Known{
		{"pre-charge resistor", w.number(short(p.Ohm)+" Ω", about(p.How, "resistance_ohm")), resistor},
		{"capacitors it fills", w.number(short(p.CapacitanceF*1000)+" mF", nil), filled},
		{"time to " + percent(p.Fraction), w.number(fmt.Sprintf("%.2f s", p.TimeS), named(p.How, "pre-charge-time")), ""},
		{"power at first", w.number(short(p.PeakW)+" W", named(p.How, "pre-charge")), "at " + w.amps(p.PeakA)},
		{"energy of one pulse", w.number(short(p.EnergyJ)+" J", named(p.How, "pre-charge")), "buy one that bears " + short(p.PulseRatingJ) + " J"},
		{"step left as it closes", w.number(short(p.StepV)+" V", named(p.How, "closing-current")), w.amps(p.InrushA) + " for an instant; without pre-charge " + w.amps(p.WithoutA)},
	}
}

func (w *wireRows) heater(h *wire.Heater) []Known {
	list := []Known{{"power", w.number(q.Watts.Text(h.PowerW, w.sys), named(h.How, "input-current")), w.amps(h.CurrentA) + " from " + h.Supply}}
	if h.DensityWCM2 > 0 {
		list = append(list, Known{"on each cm²", w.number(strconv.FormatFloat(h.DensityWCM2, 'f', 3, 64)+" W", nil), short(h.MostWCM2) + " W is the most"})
	} else {
		list = append(list, Known{"area", Number{Text: "not known"}, "its power asks for " + short(h.LeastCM2) + " cm² or more"})
	}
	if h.FuseA > 0 {
		list = append(list, Known{"fuse", Number{Text: short(h.FuseA) + " A"}, ""})
	}
	return list
}

func (w *wireRows) strings() []StringRow {
	var list []StringRow
	for i := range w.res.Strings {
		s := &w.res.Strings[i]
		layout := fmt.Sprintf("%d in series", s.Series)
		if s.Parallel > 1 {
			layout += fmt.Sprintf(", %d in parallel", s.Parallel)
		}
		cold := named(s.How, "panel-cold-voltage")
		row := StringRow{Name: s.Name, Charger: s.Charger, Layout: layout, Coldest: w.celsius(s.ColdestC), Open: tenths(s.OpenV),
			Table: w.number(tenths(s.TableV), nth(cold, 0)), Coefficient: w.number(tenths(s.CoefficientV), nth(cold, 1)), Limit: "not given", Most: "not known", Passes: s.Passes}
		if s.ColdestAt != "" {
			row.Coldest += ", " + s.ColdestAt
		}
		if s.LimitV > 0 {
			row.Limit, row.Most = tenths(s.LimitV), strconv.Itoa(s.MostSeries)
		}
		list = append(list, row)
	}
	return list
}

func nth(uses []figure.Use, i int) []figure.Use {
	if i < len(uses) {
		return uses[i : i+1]
	}
	return nil
}

func (w *wireRows) arrays() []string {
	var list []string
	for _, a := range w.res.Arrays {
		if a.ShortA == 0 {
			continue
		}
		text := fmt.Sprintf("%s: %s into a short, %s with a quarter for bright sun, and %s for conductor and fuse", a.Charger, w.amps(a.ShortA), w.amps(a.DesignA), w.amps(a.CableA))
		if a.LimitA > 0 {
			text += "; its input takes " + w.amps(a.LimitA)
		}
		list = append(list, finding.Sentence(text))
	}
	return list
}

// short writes a number with one decimal at most.
func short(v float64) string { return strconv.FormatFloat(math.Round(v*10)/10+0, 'f', -1, 64) }
