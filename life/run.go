package life

import (
	"context"

	"ampstead/fit"
	"ampstead/physics/ageing"
	"ampstead/rig"
	"ampstead/travel"
)

// study is one run.
type study struct {
	o     Options
	rig   *rig.Rig
	res   *fit.Result
	model *ageing.Model
	banks banks
	road  road

	ground *travel.Ground // the weather, made once
}

// banks are the same bank with the middle, the most and the least loss of the
// band: middle, low, high.
type banks [3]old

// Run reckons the years ahead of a rig's bank. It changes nothing in r. Errors:
// *fit.InputError for a value that fit or travel cannot work with, *Unknown for
// a model that does not exist, ctx's error when it is cancelled, and then no
// result.
func Run(ctx context.Context, r *rig.Rig, o Options) (*Result, error) {
	s, err := prepare(r, o)
	if err != nil {
		return nil, err
	}
	if err := s.travel(ctx); err != nil {
		return nil, err
	}
	hours := s.endHours()
	var p [3]*path
	for k, b := range s.banks {
		p[k] = s.road.walk(b, s.o.Years, s.o.EndShare, hours)
	}
	return s.result(p[0], p[1], p[2], hours), nil
}

func prepare(r *rig.Rig, o Options) (*study, error) {
	res, err := fit.Run(r)
	if err != nil {
		return nil, err
	}
	s := &study{o: o.whole(res), rig: r, res: res}
	if s.model, err = modelFor(res.Kind, o.Model); err != nil {
		return nil, err
	}
	spread, past := band(s.model, s.o.Multiplier, s.o.Spread), s.o.past()
	for k, multiplier := range []float64{spread.Middle, spread.High, spread.Low} {
		s.banks[k] = start(s.model.Scaled(multiplier), past)
	}
	return s, nil
}

// travel runs the years on the road: the present one, and from where that leads
// all capacities the bank can come to.
func (s *study) travel(ctx context.Context) error {
	var err error
	if s.ground, err = travel.NewGround(s.rig, travel.Options{Seed: s.o.Seed}); err != nil {
		return err
	}
	now := s.banks[0].share()
	first := &milestone{share: now, ohms: 1}
	p := &progress{tell: s.o.Progress, total: 1}
	if err := s.reach(ctx, []*milestone{first}, p); err != nil {
		return err
	}
	alone := road{first}
	middle := alone.walk(s.banks[0], s.o.Years, 0, never)
	low := alone.walk(s.banks[1], s.o.Years, 0, never)
	least := max(leastShare, low.share[len(low.share)-1])
	var ahead []*milestone
	for _, share := range rungs(now, max(now, s.banks[2].share()), least, s.o.Step) {
		m := first
		if share != now {
			m = &milestone{share: share, ohms: middle.ohmsAt(share)}
			ahead = append(ahead, m)
		}
		s.road = append(s.road, m)
	}
	p.total += len(ahead)
	if err := s.reach(ctx, ahead, p); err != nil {
		return err
	}
	s.road.settle()
	return nil
}

// year runs one year of the rig with its bank as it is at a milestone.
func (s *study) year(ctx context.Context, m *milestone) error {
	r := faded(s.rig, s.res, m.share, m.ohms)
	set, err := fit.Run(r)
	if err != nil {
		return err
	}
	res, err := s.ground.Year(ctx, r, set)
	if err != nil {
		return err
	}
	m.arrive(res)
	return nil
}

// endHours is how many hours short a year end it by function.
func (s *study) endHours() float64 {
	if s.o.EndHours > 0 {
		return s.o.EndHours
	}
	return s.road.at(s.banks[0].share()).short() + moreHours
}
