package choose

import (
	"context"
	"errors"
	"fmt"
	"strings"

	"ampstead/fit"
	"ampstead/life"
	"ampstead/physics/ageing"
	"ampstead/physics/cell"
	q "ampstead/quantity"
	"ampstead/rig"
)

// Own is the name of the rig's own bank among the candidates.
const Own = "as it stands"

// variant is a rig with one of the batteries in it.
type variant struct {
	name  string
	sys   q.System
	cand  *rig.Candidate // nil for the rig's own bank
	rig   *rig.Rig       // every setting open, devices that must go exchanged, the battery as it is today
	res   *fit.Result    // of rig
	from  life.Options   // the battery's past
	share life.Band      // capacity today over rated
	basis string
	bill  bill

	misfits []Misfit
	fits    bool
	beyond  []string // devices it can destroy
	assumed []string
}

// variants are the rig's own bank and its candidates, in the order of the file.
func variants(ctx context.Context, r *rig.Rig) ([]variant, error) {
	list := make([]variant, 0, len(r.Candidates)+1)
	for k := -1; k < len(r.Candidates); k++ {
		var c *rig.Candidate
		if k >= 0 {
			c = &r.Candidates[k]
		}
		if err := ctx.Err(); err != nil {
			return nil, err
		}
		v, err := variantOf(r, c)
		if err != nil {
			return nil, err
		}
		list = append(list, *v)
	}
	return list, nil
}

func variantOf(r *rig.Rig, c *rig.Candidate) (*variant, error) {
	v := &variant{name: Own, cand: c}
	v.sys, _ = q.ParseSystem(r.About.Units) // anything else was refused by the reader
	if c != nil {
		v.name = c.Name
	}
	swapped, err := with(r, c)
	if err != nil {
		return nil, err
	}
	res, err := fit.Run(swapped)
	if err != nil {
		return nil, placed(err, c)
	}
	v.past(res)
	if v.share, err = life.Start(res.Kind, v.from); err != nil {
		return nil, err
	}
	if v.rig = swapped; v.from.Capacity == 0 {
		if v.rig, err = life.Aged(swapped, v.share.Middle, 1); err != nil {
			return nil, err
		}
	}
	b := compare(r, v.rig, res)
	v.misfits, v.fits, v.beyond = b.list, b.fits(), b.beyond
	v.rig = exchanged(v.rig, res)
	if v.res, err = fit.Run(v.rig); err != nil {
		return nil, placed(err, c)
	}
	if v.res.Kind.Family == cell.LeadAcid {
		v.assume("%s: it is taken to give back every ampere-hour it took in, at any current; really it gives 85 to 95 %%", v.name)
	}
	v.bill = billOf(r, c)
	v.assumed = append(v.assumed, v.bill.assumed...)
	return v, nil
}

// placed points an error about the bank at the candidate it came from.
func placed(err error, c *rig.Candidate) error {
	var e *fit.InputError
	if c == nil || !errors.As(err, &e) {
		return err
	}
	own := *e
	if rest, ok := strings.CutPrefix(e.Path, "bank."); ok {
		own.Path = "candidates." + c.Name + "." + rest
	}
	return &own
}

// Taken of a vehicle when a candidate does not say; source.VehiclePast.
const (
	fullRange = 200e3 // m on a full charge
	aYear     = 13e3 * 1000.0
	someYears = 8
)

// past finds out where the battery's life begins.
func (v *variant) past(res *fit.Result) {
	c := v.cand
	measured := res.Cell.Basis != "rated" // or estimated
	switch {
	case measured:
		v.from.Capacity, v.basis = res.Cell.Capacity/res.Cell.RatedAh, res.Cell.Basis
	case c == nil || c.State == nil && c.Kind != "salvaged module":
		v.basis = "rated"
	case c.State == nil || c.State.Years == 0 && c.State.Distance == nil:
		v.from.Use, v.basis = ageing.VehicleUse(someYears, 0), fmt.Sprintf("nothing stated: as after %d years in a vehicle, wide band", someYears)
		v.assume("%s: neither years nor distance are stated; %d years in a vehicle are taken", v.name, someYears)
	default:
		v.stated(c.State)
	}
	if c != nil && c.State != nil && measured && c.State.Years > 0 {
		v.from.Use = ageing.VehicleUse(float64(c.State.Years), v.cycles(c.State))
	}
}

// stated takes years and distance, one from the other where only one is given.
func (v *variant) stated(s *rig.State) {
	years := float64(s.Years)
	var words []string
	if s.Years > 0 {
		words = append(words, fmt.Sprintf("%d years", s.Years))
	}
	if s.Distance != nil {
		words = append(words, q.Metres.Text(float64(*s.Distance), v.sys))
		if s.Years == 0 {
			years = max(1, float64(*s.Distance)/aYear)
			v.assume("%s: its years are not stated; %.0f years are taken, at %s a year", v.name, years, q.Metres.Text(aYear, v.sys))
		}
	}
	v.from.Use = ageing.VehicleUse(years, v.cycles(s))
	v.basis = "from " + strings.Join(words, " and ") + ", wide band"
}

// cycles are the full equivalents of a distance, 0 when none is stated.
func (v *variant) cycles(s *rig.State) float64 {
	if s.Distance == nil {
		return 0
	}
	each := fullRange
	if s.Range != nil {
		each = float64(*s.Range)
	} else {
		v.assume("%s: how far its vehicle went on a charge is not stated; %s is taken", v.name, q.Metres.Text(each, v.sys))
	}
	return float64(*s.Distance) / each
}

func (v *variant) assume(format string, args ...any) {
	v.assumed = append(v.assumed, fmt.Sprintf(format, args...))
}
