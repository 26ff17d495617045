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
	Years                   life.Band // to the earlier of both ends; by capacity alone where it is beaten even so
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

// year runs a rig whose battery has a past. beaten says whether a design is of no
// more interest even if the end by function comes as late as that by capacity; it
// may be nil.
func (d *roads) year(ctx context.Context, r *rig.Rig, v *variant, beaten func(outcome) bool) (outcome, error) {
	res, err := fit.Run(r)
	if err != nil {
		return outcome{Failed: true}, nil
	}
	trip, err := d.trip(ctx, r, res)
	if err != nil {
		return outcome{}, err
	}
	f := outcome{Hours: trip.Year.UnservedH, SoCMin: trip.Year.SoCMin, UsableWh: res.Daily.UsableWh}
	end := endShare(res.Kind)
	if f.Hours > d.most || v.share.Middle <= end {
		return f, nil
	}
	if f.Years, err = years(v, res, trip, end); err != nil {
		return f, err
	}
	if roomy(res, trip, end) || beaten != nil && beaten(f) {
		return f, nil
	}
	share, err := d.enough(ctx, r, v, res, trip)
	if err == nil && share > end {
		f.Years, err = years(v, res, trip, share)
	}
	return f, err
}

// years is a quick estimate of those until a share of the rated capacity is left:
// the year repeats itself.
func years(v *variant, res *fit.Result, trip *travel.Result, share float64) (life.Band, error) {
	o := v.from
	o.EndShare = share
	return life.Years(res.Kind, trip, v.share.Middle, o)
}

// enough is the share of the rated capacity that keeps the hours short within what
// ends a life by function, at least that at the end by capacity. The year is run
// once more with that; hours short go straight with the capacity in between.
func (d *roads) enough(ctx context.Context, r *rig.Rig, v *variant, res *fit.Result, trip *travel.Result) (float64, error) {
	now, end, hours := v.share.Middle, endShare(res.Kind), trip.Year.UnservedH
	late, err := d.late(ctx, r, end)
	if err != nil || late <= d.most {
		return end, err
	}
	return now - (now-end)*(d.most-hours)/(late-hours), nil
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
	trip, err := d.ground.BriskYear(ctx, aged, res) // its hours are only interpolated from
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
