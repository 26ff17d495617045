package choose

import (
	"context"
	"testing"

	"ampstead/fit"
	"ampstead/life"
)

// Where a bank has enough to spare, the year with what is left at its end is as
// good: the shortcut of the look ahead.
func TestRoomyBanksLoseNothing(t *testing.T) {
	list, err := dipperBatteries()
	if err != nil {
		t.Fatal(err)
	}
	o := small
	s, err := newSearcher(context.Background(), load(t, "dipper"), list, o)
	if err != nil {
		t.Fatal(err)
	}
	roomies := 0
	for _, g := range s.spread(30) {
		r := s.space.build(g)
		res, err := fit.Run(r)
		if err != nil {
			continue
		}
		trip, err := s.roads.trip(context.Background(), r, res)
		if err != nil {
			t.Fatal(err)
		}
		end := endShare(res.Kind)
		if !roomy(res, trip, end) {
			continue
		}
		if roomies++; roomies > 3 {
			break
		}
		late, err := s.roads.late(context.Background(), r, end)
		if err != nil {
			t.Fatal(err)
		}
		if late > trip.Year.UnservedH+0.5 {
			t.Errorf("%s: %.1f hours short now, %.1f at the end of its life", s.space.name(g), trip.Year.UnservedH, late)
		}
	}
	if roomies < 3 {
		t.Errorf("only %d designs with enough to spare among those tried", roomies)
	}
}

// The end by function lies before that by capacity where less capacity leaves
// too many hours short, on a straight line between the two years.
func TestLookAheadByFunction(t *testing.T) {
	list, err := dipperBatteries()
	if err != nil {
		t.Fatal(err)
	}
	s, err := newSearcher(context.Background(), load(t, "dipper"), list, small)
	if err != nil {
		t.Fatal(err)
	}
	v := s.space.base[0].variant
	ctx := context.Background()
	r := copyRig(v.rig)
	setPanels(r, 0.8)
	res, err := fit.Run(r)
	if err != nil {
		t.Fatal(err)
	}
	trip, err := s.roads.trip(ctx, r, res)
	if err != nil {
		t.Fatal(err)
	}
	late, err := s.roads.late(ctx, r, 0.7)
	if err != nil {
		t.Fatal(err)
	}
	if late <= trip.Year.UnservedH+1 {
		t.Fatalf("%g hours short now, %g at the end: this rig shows nothing", trip.Year.UnservedH, late)
	}
	ahead := func(most float64) life.Band {
		d := *s.roads
		d.most = most
		f, err := d.year(ctx, r, v, nil)
		if err != nil {
			t.Fatal(err)
		}
		return f.Years
	}
	whole, half, none := ahead(late+1), ahead((late+trip.Year.UnservedH)/2), ahead(trip.Year.UnservedH-1)
	if !(half.Middle < whole.Middle && half.Middle > 0) || none.Middle != 0 {
		t.Errorf("%g years, with half the hours %g, with fewer than now %g", whole.Middle, half.Middle, none.Middle)
	}
}

// A design that is beaten even with its years by capacity is not looked at any
// closer, and is beaten with its true ones all the more.
func TestBeatenDesignsAreLeftAlone(t *testing.T) {
	list, err := dipperBatteries()
	if err != nil {
		t.Fatal(err)
	}
	s, err := newSearcher(context.Background(), load(t, "dipper"), list, small)
	if err != nil {
		t.Fatal(err)
	}
	first, left := s.spread(16), 0
	if _, err := s.try(context.Background(), first[:8]); err != nil {
		t.Fatal(err)
	}
	for _, g := range first[8:] {
		quick, err := s.point(context.Background(), g)
		if err != nil {
			t.Fatal(err)
		}
		whole := *quick
		if whole.outcome, err = s.roads.year(context.Background(), s.space.build(g), s.space.base[g[whichBattery]].variant, nil); err != nil {
			t.Fatal(err)
		}
		if quick.Years.Middle < whole.Years.Middle || quick.Hours != whole.Hours {
			t.Errorf("%s: %+v, looked at closely %+v", s.space.name(g), quick.outcome, whole.outcome)
		}
		if beaten(quick, s.list) != beaten(&whole, s.list) {
			t.Errorf("%s is beaten only by half the look", s.space.name(g))
		}
		if quick.Years != whole.Years {
			left++
		}
	}
	t.Logf("%d of 8 were left alone to some effect", left)
}
