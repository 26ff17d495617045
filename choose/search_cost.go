package choose

import (
	"cmp"
	"fmt"
	"math"
	"slices"
	"strings"

	"ampstead/physics/cell"
	"ampstead/rig"
)

// What things cost and weigh where the rig file does not say; ours, no source.
// Prices are in the rig's currency, whichever it is.
const (
	panelPerW, panelKgPerW   = 0.45, 0.055
	framePerW, frameKgPerW   = 0.12, 0.012 // of what tilts the panels
	heaterPerW, heaterKgPerW = 0.5, 0.004
	foamPerM3, foamKgPerM3   = 400.0, 35.0
)

// usual is what a kWh of rated energy costs and weighs.
type usual struct{ price, kg float64 }

var usualBattery = map[string]usual{
	"salvaged module": {90, 7.5}, "new pack": {280, 9}, "lead-acid": {170, 32},
}

// tariff prices and weighs designs.
type tariff struct {
	currency          string
	panel, heat, foam float64 // for each W, W and m³
	said              []string
}

// tariffOf reads the price list of a rig; what is not there is taken and named.
func tariffOf(r *rig.Rig) *tariff {
	t := &tariff{currency: currencyOf(r)}
	t.panel = t.rate(r, panelPerW, "panels", "W", meanPanel(r), "panel", "panels")
	t.heat = t.rate(r, heaterPerW, "heater pad", "W", heaterWatts(r), "heater", "pad")
	t.foam = t.rate(r, foamPerM3, "insulation", "m³", foamOf(r.Bank.Box), "insulation", "foam")
	t.say("frames that tilt the panels: %g %s/W taken; ours, no source", framePerW, t.currency)
	t.say("panels %g kg/W, frames %g kg/W, heater pad %g kg/W, insulation %g kg/m³ taken; ours, no source", panelKgPerW, frameKgPerW, heaterKgPerW, foamKgPerM3)
	t.say("a price is that of battery and fetching, panels, frames, heater pad and insulation, all bought new or as offered; a mass likewise; all else is the same in every design")
	return t
}

func (t *tariff) say(format string, args ...any) {
	t.said = append(t.said, fmt.Sprintf(format, args...))
}

// currencyOf is the one most prices of the rig are in.
func currencyOf(r *rig.Rig) string {
	n := map[string]int{}
	for _, p := range r.Prices {
		n[p.Price.Currency]++
	}
	for _, c := range r.Candidates {
		if c.Price != nil {
			n[c.Price.Currency]++
		}
	}
	best := ""
	for c := range n {
		if best == "" || cmp.Or(cmp.Compare(n[c], n[best]), strings.Compare(best, c)) > 0 {
			best = c
		}
	}
	return cmp.Or(best, "EUR")
}

// rate is the price for each unit of something: of the price list, whose price
// pays for so many units, else what is usual.
func (t *tariff) rate(r *rig.Rig, usual float64, what, unit string, units float64, words ...string) float64 {
	for _, p := range r.Prices {
		if units > 0 && p.Price.Currency == t.currency && says(p.Item, words) {
			t.say("%s: %.4g %s/%s, from %q in the price list", what, p.Price.Amount/units, t.currency, unit, p.Item)
			return p.Price.Amount / units
		}
	}
	t.say("%s: %g %s/%s taken; ours, no source", what, usual, t.currency, unit)
	return usual
}

func says(item string, words []string) bool {
	return slices.ContainsFunc(strings.Fields(strings.ToLower(item)), func(w string) bool { return slices.Contains(words, w) })
}

// meanPanel is the rated power of one panel, the mean of all, W.
func meanPanel(r *rig.Rig) float64 {
	n := 0
	for _, c := range r.Charge {
		for _, p := range c.Panels {
			n += p.Series * max(1, p.Parallel)
		}
	}
	if n == 0 {
		return 0
	}
	return panelWatts(r) / float64(n)
}

func heaterWatts(r *rig.Rig) float64 {
	if r.Heater == nil {
		return 0
	}
	return float64(*r.Heater.Power)
}

// foamOf is the insulation around a box, m³.
func foamOf(b *rig.Box) float64 {
	if b == nil {
		return 0
	}
	l, w, h := float64(*b.Length), float64(*b.Width), float64(*b.Height)
	return 2 * (l*w + l*h + w*h) * thickness(b)
}

// inCurrency leaves out candidates that are priced in another currency.
func (t *tariff) inCurrency(list []variant) []variant {
	return slices.DeleteFunc(slices.Clone(list), func(v variant) bool {
		if v.cand == nil || v.bill.currency == "" || v.bill.currency == t.currency {
			return false
		}
		t.say("%s is left out: its price is in %s, the others' in %s", v.name, v.bill.currency, t.currency)
		return true
	})
}

func (t *tariff) batteries(s *space) {
	for k := range s.base {
		t.battery(&s.base[k])
	}
}

// battery fills in price and mass of one that states none.
func (t *tariff) battery(b *base) {
	kwh := b.res.Cell.RatedAh * b.res.Kind.NominalV.Value * float64(b.res.Cell.Series) / 1000
	u := usualBattery[b.sort()]
	bill := b.bill
	if bill.price == 0 || bill.currency != t.currency {
		bill.price = math.Round(u.price * kwh)
		t.say("%s: no price is given; %g %s for a rated kWh taken; ours, no source", b.name, u.price, t.currency)
	}
	if bill.massKg == 0 {
		bill.massKg = u.kg * kwh
		t.say("%s: no mass is given; %g kg for a rated kWh taken; ours, no source", b.name, u.kg)
	}
	for _, m := range b.misfits {
		if m.Exchange {
			t.say("%s: %s must be exchanged for it; that price is not counted", b.name, m.Device)
		}
	}
	b.cost = bill
}

// sort is what a battery is sold as; the rig's own by its chemistry.
func (b *base) sort() string {
	switch {
	case b.cand != nil:
		return b.cand.Kind
	case b.res.Kind.Family == cell.LeadAcid:
		return "lead-acid"
	}
	return "salvaged module"
}

// total is price and mass of a design.
func (t *tariff) total(s *space, g genes, r *rig.Rig) (price, kg float64) {
	b := &s.base[g[whichBattery]]
	modules := float64(s.modules[g[howManyModules]]) / float64(max(1, b.rig.Bank.Strings))
	price, kg = b.cost.price*modules+b.cost.fetch, b.cost.massKg*modules
	add := func(n, each, kgEach float64) { price, kg = price+n*each, kg+n*kgEach }
	watts := panelWatts(r)
	add(watts, t.panel, panelKgPerW)
	if s.tilts[g[howTilted]] > 0 {
		add(watts, framePerW, frameKgPerW)
	}
	add(heaterWatts(r), t.heat, heaterKgPerW)
	add(foamOf(r.Bank.Box), t.foam, foamKgPerM3)
	return price, kg
}
