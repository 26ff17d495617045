package assembly

import (
	"ampstead/device"
	"ampstead/engine"
	"ampstead/fit"
	"ampstead/physics/cell"
	q "ampstead/quantity"
	"ampstead/rig"
)

// Habits of charge sources that a file does not state; ours.
const (
	controllerEfficiency = 0.97
	holdS                = 60.0         // a tail current or a low voltage lasts so long before it counts
	equaliseS            = 2 * 3600.0   // an equalise charge
	equaliseEveryS       = 30 * 86400.0 // once a month, by itself
	acidAbsorptionS      = 2 * 3600.0
	frostBackK           = 2.0 // a frost lock lets go this much above where it locks
)

// acidCells names the library cell whose voltages a lead-acid profile brings.
var acidCells = map[string]string{"flooded": "lead-acid-flooded", "agm": "lead-acid-agm", "gel": "lead-acid-agm"}

func (b *builder) charger(src *rig.Source) error {
	d := &device.Charger{
		LimitA: float64(*src.Limit), TailS: holdS, RestartS: holdS, Probe: probe(src.Thermometer),
		AtBank: src.Senses == "bank", NewEachDay: src.Kind == "solar",
	}
	b.profile(d, src)
	b.chargeSettings(d, src)
	ohm, err := b.ownOhm(src.Name)
	if err != nil {
		return err
	}
	b.out.Chargers = append(b.out.Chargers, Charger{Source: src, Device: d, Efficiency: controllerEfficiency})
	b.add(engine.Part{Name: src.Name, Role: engine.Source, Device: d, Ohm: ohm})
	return nil
}

// profile fills in what a lead-acid profile brings by itself; what the file
// states replaces it.
func (b *builder) profile(d *device.Charger, src *rig.Source) {
	LeadAcid(d, src.Settings.Profile, b.rig, b.fit)
}

// LeadAcid sets a charger to what a lead-acid profile (flooded, agm or gel)
// brings by itself on the bank of a rig; any other profile leaves it as it is.
func LeadAcid(d *device.Charger, profile string, r *rig.Rig, res *fit.Result) {
	c, err := cell.Lookup(acidCells[profile])
	if err != nil || c.Acid == nil {
		return
	}
	cells := acidCount(r, res)
	d.AbsorptionV, d.FloatV = c.Acid.AbsorptionV.Value*cells, c.Acid.FloatV.Value*cells
	d.EqualiseV = c.Acid.EqualiseV.Value * cells
	d.CompensationVPerK = c.Acid.CompensationVPerK.Value * cells
	d.AbsorptionS = acidAbsorptionS
	d.RestartV = d.FloatV - 0.05*cells
	d.TailA = 0.02 * res.Cell.Capacity
}

// acidCount is the number of 2 V cells a charger takes the bank for: that of a
// lead-acid bank, else of the 12 V battery multiple nearest in voltage.
func acidCount(r *rig.Rig, res *fit.Result) float64 {
	if res.Kind.Family == cell.LeadAcid {
		return float64(r.Bank.Series)
	}
	blocks := int(res.Window.BankNominalV/12.6 + 0.5)
	return 6 * float64(max(1, blocks))
}

func (b *builder) chargeSettings(d *device.Charger, src *rig.Source) {
	set, path := &src.Settings, "charge."+src.Name+".settings."
	acid := acidCells[set.Profile] != "" && b.fit.Kind.Family != cell.LeadAcid
	keep(&d.AbsorptionV, b, set.Absorption, path+"absorption", acid)
	keep(&d.AbsorptionS, b, set.AbsorptionTime, path+"absorption_time", acid)
	keep(&d.TailA, b, set.Tail, path+"tail", acid)
	keep(&d.FloatV, b, set.Float, path+"float", acid)
	keep(&d.EqualiseV, b, set.Equalise, path+"equalise", acid)
	keep(&d.CompensationVPerK, b, set.Compensation, path+"compensation", acid)
	keep(&d.RestartV, b, set.Restart, path+"restart", acid)
	current := d.LimitA
	keep(&current, b, set.Current, path+"current", false)
	if current > 0 {
		d.LimitA = min(d.LimitA, current)
	}
	d.FrostC, d.FrostLock = setting(b, set.FrostLock, path+"frost_lock")
	d.FrostBackK = frostBackK
	d.EqualiseS, d.EqualiseEveryS = equaliseS, equaliseEveryS
}

// keep sets a device's value, or leaves what its lead-acid profile brought when
// the file is silent.
func keep[Q q.Quantity](to *float64, b *builder, set rig.Setting[Q], path string, profile bool) {
	if profile && !set.Given {
		return
	}
	*to = value(b, set, path)
}

// probe is where a charger's thermometer sits.
func probe(where string) device.Probe {
	switch where {
	case "bank":
		return device.AtGroup(0)
	case "own":
		return device.AtOutside
	}
	return device.NoProbe
}
