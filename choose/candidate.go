package choose

import (
	"context"

	"ampstead/finding"
	"ampstead/life"
	"ampstead/physics/cell"
	"ampstead/rig"
	"ampstead/travel"
)

// lifeStep is how far apart the capacities are at which a candidate's year on
// the road is run. Against 2 % steps the example rigs' years by capacity moved
// by less than 0.3 %; by function, where hours short jump about, by up to 5 %.
const lifeStep = 0.08

// usualYears is how many weather years each candidate travels.
const usualYears = 3

// judge is what all candidates are judged by.
type judge struct {
	o        Options
	endHours float64 // hours short a year that end a life by function
}

// candidate works out everything about one battery. The rig and settings of v
// are its own, so that many run at once.
func (j *judge) candidate(ctx context.Context, v *variant) (*Candidate, []finding.Finding, error) {
	years := j.o.Years
	if years <= 0 {
		years = usualYears
	}
	trip, err := travel.Run(ctx, v.rig, travel.Options{Years: years, Seed: j.o.Seed, Workers: 1})
	if err != nil {
		return nil, nil, err
	}
	from := v.from
	from.Seed, from.Step, from.Workers, from.EndHours = j.o.Seed, lifeStep, 1, j.endHours
	ahead, err := life.Run(ctx, v.rigAsSold(), from)
	if err != nil {
		return nil, nil, err
	}
	c := v.candidate()
	v.onTheRoute(c, trip)
	v.ahead(c, ahead)
	c.Remarks, c.Ask = remarks(v), asks(v)
	return c, v.findings(c), nil
}

// rigAsSold is the rig with what is measured of the battery and no estimate, so
// that life begins from its past.
func (v *variant) rigAsSold() *rig.Rig {
	if v.from.Capacity > 0 {
		return v.rig
	}
	r := *v.rig
	r.Bank.Measured = nil
	return &r
}

// candidate is what is known without travelling.
func (v *variant) candidate() *Candidate {
	b, res := &v.rig.Bank, v.res
	c := &Candidate{
		Name: v.name, Kind: v.kind(), Cell: b.Cell, Family: string(res.Kind.Family), Series: b.Series, Strings: max(1, b.Strings),
		Fits: v.fits, Misfits: v.misfits, LowV: res.Window.BankLowV, HighV: res.Window.BankHighV,
		CapacityAh: res.Cell.Capacity, Basis: v.basis,
		MassKg: v.bill.massKg, VolumeL: v.bill.litres, Price: v.bill.price, FetchCost: v.bill.fetch, Currency: v.bill.currency,
		ColdChargeC: res.Kind.ChargeMinC.Value,
	}
	v.usable(c)
	return c
}

// kind is what a candidate is sold as; the rig's own bank by what the file says
// of it.
func (v *variant) kind() string {
	if v.cand != nil {
		return v.cand.Kind
	}
	return "the rig's own bank"
}

// usable is the energy of the daily window, and price, mass and volume for each
// kWh of it.
func (v *variant) usable(c *Candidate) {
	wh := v.res.Daily.UsableWh
	c.UsableWh = wh
	c.UsableLow, c.UsableHigh = wh*v.least()/v.share.Middle, wh*v.share.High/v.share.Middle
	if wh > 0 {
		c.PerUsable, c.MassPer, c.VolumePer = 1000*v.bill.cost()/wh, 1000*c.MassKg/wh, 1000*c.VolumeL/wh
	}
}

// onTheRoute is what the year on the road does to it.
func (v *variant) onTheRoute(c *Candidate, trip *travel.Result) {
	b := &trip.Bands
	c.FrostHours, c.FrostWh, c.HeaterWh = b.FrostLockedH.Middle, b.LostFrost.Middle, b.Heater.Middle
	c.ShortHours, c.Unserved, c.SoCMin = b.UnservedHours.Middle, b.Unserved.Middle, b.SoCMin.Low
	if h := v.rig.Heater; h != nil && v.res.Kind.Family != cell.LeadAcid && c.FrostHours > coldHours {
		c.Misfits = append(c.Misfits, Misfit{Device: h.Name, Mend: "a stronger pad, or more insulation: travel shows what each brings",
			Found: hoursText(c.FrostHours) + " a year frost still keeps the charge out of this battery"})
	}
}

// coldHours of locked charge a year show that the heater does not keep up.
const coldHours = 24

// ahead is its life.
func (v *variant) ahead(c *Candidate, l *life.Result) {
	c.Life = l
	c.ByCapacity, c.ByFunction = l.ByCapacity.Middle, l.ByFunction.Middle
	c.Range = LifeRange{CapacityLow: l.ByCapacity.Low, CapacityHigh: l.ByCapacity.High, FunctionLow: l.ByFunction.Low, FunctionHigh: l.ByFunction.High}
	if c.DeliveredWh = l.DeliveredWh.Middle; c.DeliveredWh > 0 {
		c.PerDelivered = 1000 * v.bill.cost() / c.DeliveredWh
	}
}
