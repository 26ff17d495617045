package choose

import (
	"context"

	"ampstead/fit"
	"ampstead/life"
	"ampstead/physics/cell"
	"ampstead/rig"
	"ampstead/travel"
)

// outcome is what a year and a look ahead say of a design.
type outcome struct {
	Hours, SoCMin, UsableWh float64
	Years                   life.Band // the earlier of both ends
	Failed                  bool      // no devices can be set for it
}

// roads runs years on one route.
type roads struct {
	ground *travel.Ground
	brisk  bool    // quickly, not every minute by itself
	most   float64 // hours short a year that end a life by function
}

// trip runs the year of a rig.
func (d *roads) trip(ctx context.Context, r *rig.Rig, res *fit.Result) (*travel.Result, error) {
	if d.brisk {
		return d.ground.BriskYear(ctx, r, res)
	}
	return d.ground.Year(ctx, r, res)
}

// year runs a rig whose battery has a past.
func (d *roads) year(ctx context.Context, r *rig.Rig, v *variant) (outcome, error) {
	res, err := fit.Run(r)
	if err != nil {
		return outcome{Failed: true}, nil
	}
	trip, err := d.trip(ctx, r, res)
	if err != nil {
		return outcome{}, err
	}
	f := outcome{Hours: trip.Year.UnservedH, SoCMin: trip.Year.SoCMin, UsableWh: res.Daily.UsableWh}
	f.Years, err = d.ahead(ctx, r, v, res, trip)
	return f, err
}

// ahead is a quick estimate of the years to the earlier end. By capacity: the year
// repeats itself. By function: the year is run once more with what is left at the
// end by capacity; hours short go straight with the capacity in between.
func (d *roads) ahead(ctx context.Context, r *rig.Rig, v *variant, res *fit.Result, trip *travel.Result) (life.Band, error) {
	now, o := v.share.Middle, v.from
	o.EndShare = endShare(res.Kind)
	hours := trip.Year.UnservedH
	if hours > d.most || now <= o.EndShare {
		return life.Band{}, nil
	}
	if !roomy(res, trip, o.EndShare) {
		late, err := d.late(ctx, r, o.EndShare)
		if err != nil {
			return life.Band{}, err
		}
		if late > d.most {
			o.EndShare = now - (now-o.EndShare)*(d.most-hours)/(late-hours)
		}
	}
	return life.Years(res.Kind, trip, now, o)
}

// endShare is where life ends by capacity, as package life has it.
func endShare(k *cell.Cell) float64 {
	if k.Family == cell.LeadAcid {
		return 0.8
	}
	return 0.7
}

// late is how many hours short the year is with less capacity, share of rated. A
// bank that no device can be set for any more leaves the whole year short.
func (d *roads) late(ctx context.Context, r *rig.Rig, share float64) (float64, error) {
	aged, err := life.Aged(r, share, 1)
	if err != nil {
		return 0, err
	}
	res, err := fit.Run(aged)
	if err != nil {
		return 8760, nil
	}
	trip, err := d.trip(ctx, aged, res)
	if err != nil {
		return 0, err
	}
	return trip.Year.UnservedH, nil
}

// spare is the charge, as a share of the capacity, that must be left above the
// low cut for sag and cold; ours.
const spare = 0.1

// roomy reports whether a bank has so much to spare that the capacity it loses
// brings no hour short: what it was ever drawn down from its daily top, in Ah,
// stays the same however large it is, and still leaves enough.
func roomy(res *fit.Result, trip *travel.Result, share float64) bool {
	drawn := max(0, res.Daily.HighSoC-trip.Year.SoCMin) * res.Cell.Capacity
	return res.Daily.HighSoC-drawn/(share*res.Cell.RatedAh) > res.Daily.LowSoC+spare
}
