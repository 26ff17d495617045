package travel

import (
	"context"

	"ampstead/fit"
	"ampstead/rig"
)

// study is one run: what is asked for, the weather and the rig.
type study struct {
	o     Options
	fit   *fit.Result
	route *route
	skies *skies
	world *world
	alone *world // the same with nobody at the switch, where that differs
	tried []variant

	years []*yearTally // by weather year
	left  *yearTally   // the first year of alone
	runs  [][]*yearTally
}

// Run reckons the years of a rig. It changes nothing in r. Errors: *fit.InputError
// for a value it cannot work with; ctx's error when it is cancelled, and then no
// result.
func Run(ctx context.Context, r *rig.Rig, o Options) (*Result, error) {
	s, err := prepare(r, o)
	if err != nil {
		return nil, err
	}
	if err := s.reckon(ctx); err != nil {
		return nil, err
	}
	return s.result(), nil
}

func prepare(r *rig.Rig, o Options) (*study, error) {
	if o.StepS <= 0 {
		o.StepS = 60
	}
	if o.StepS < 1 || o.StepS > 3600 || o.StepS*float64(int(3600/o.StepS+0.5)) != 3600 {
		return nil, &fit.InputError{Path: "step", Message: "the step does not divide an hour", Expected: "1 s to 1 h, a whole number of which makes an hour", Example: "60 s"}
	}
	if o.StepS > 60 && o.StepS != 60*float64(int(o.StepS/60)) {
		return nil, &fit.InputError{Path: "step", Message: "the step is no whole number of minutes", Expected: "whole minutes, or less than one", Example: "300 s"}
	}
	r, err := withPlaces(r)
	if err != nil {
		return nil, err
	}
	res, err := fit.Run(r)
	if err != nil {
		return nil, err
	}
	s := &study{o: o, fit: res}
	if s.route, err = routeOf(r, o.Weather != nil); err != nil {
		return nil, err
	}
	if s.skies, err = skiesOf(s.route, o); err != nil {
		return nil, err
	}
	if s.world, err = newWorld(r, res, s.route, s.o); err != nil {
		return nil, err
	}
	if err := s.leaveAlone(); err != nil {
		return nil, err
	}
	if o.Limits {
		s.tried, err = s.variants(r)
	}
	return s, err
}

// leaveAlone prepares the rig as it does by itself, where a person is needed to
// keep its sources out of the frost.
func (s *study) leaveAlone() error {
	a, err := s.world.assemble(startSoC, 15)
	if err != nil || a.Unlocked == nil {
		return err
	}
	alone := *s.world
	alone.alone = true
	s.alone = &alone
	return nil
}

// result puts together what the years came to.
func (s *study) result() *Result {
	first := s.years[0]
	s.harm(first)
	res := &Result{
		Year: first.Year, Months: monthsOf(s.route, first), Stays: s.stays(first), Bands: bandsOf(s.years),
		Weather: s.skies.describe(s.o), Limits: s.limits(), Days: s.days(), Span: first.span, Assumed: s.world.assumed,
		Figures: figuresUsed(),
	}
	res.Findings = s.findings(res)
	return res
}

// harm takes what would have been charged in frost from the year nobody watched.
func (s *study) harm(y *yearTally) {
	if s.left == nil {
		return
	}
	y.FrostChargeAh, y.ColdExcessAh = s.left.FrostChargeAh, s.left.ColdExcessAh
	y.ColdestCharge = min(y.ColdestCharge, s.left.ColdestCharge)
	for d := range y.days {
		y.days[d].FrostChargeAh, y.days[d].ColdExcessAh = s.left.days[d].FrostChargeAh, s.left.days[d].ColdExcessAh
	}
}

// figuresUsed names the figures behind the models of a year.
func figuresUsed() []string {
	return []string{"sun-position", "plane-irradiance", "panel-power", "heat-loss", "rest-voltage", "resistance-at", "rc-relaxation", "charge-limit"}
}
