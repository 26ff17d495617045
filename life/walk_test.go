package life

import (
	"testing"

	"ampstead/internal/near"
	"ampstead/physics/ageing"

	_ "ampstead/internal/fixedseed"

	"pgregory.net/rapid"
)

// Storage alone does not depend on the capacity: the years ahead are the ageing
// model's own.
func TestStorageIsTheModelsOwn(t *testing.T) {
	m := model(t, "schmalstieg")
	p := lane(1, 0.02, 0, 0, 0, 0).walk(start(m, ageing.Past{}), 10, 0.7, 24)
	alone := m.Start()
	for n := range 11 {
		near.Equal(t, "share", p.share[n], alone.Capacity(), 1e-12)
		alone.Add(ageing.Stress{Days: 365.25, SoC: 0.5, CellV: 3.7, TempC: 25})
	}
}

// With use, each year's depth and rate grow as the capacity falls, from the
// nearest year on the road there is.
func TestUseFeedsBack(t *testing.T) {
	m := model(t, "schmalstieg")
	p := lane(1, 0.02, 100, 0).walk(start(m, ageing.Past{}), 8, 0.7, 24)
	alone, fed := m.Start(), m.Start()
	for range 8 {
		by := 1 / fed.Capacity()
		one := ageing.Stress{Days: 365.25, SoC: 0.5, CellV: 3.7, RmsV: 3.72, TempC: 25, Depth: 0.3, Throughput: 100, CRate: 0.1}
		alone.Add(one)
		one.Depth, one.CRate = one.Depth*by, one.CRate*by
		fed.Add(one)
	}
	near.Equal(t, "with feedback", p.share[8], fed.Capacity(), 1e-9)
	if p.share[8] >= alone.Capacity() {
		t.Errorf("fading is not fed back: %g, without it %g", p.share[8], alone.Capacity())
	}
}

func TestEnds(t *testing.T) {
	m := model(t, "schmalstieg")
	for _, row := range []struct {
		about    string
		hours    []float64
		function bool
	}{
		{"never short", []float64{0, 0, 0, 0, 0, 0}, false},
		{"short for good", []float64{0, 10, 20, 30, 40, 50}, true},
		{"short by chance: a smaller bank is not", []float64{0, 50, 0, 50, 0, 0}, false},
	} {
		p := lane(1, 0.06, 100, row.hours...).walk(start(m, ageing.Past{}), 30, 0.7, 24)
		if p.functionEnd != row.function {
			t.Errorf("%s: end by function %v after %g years", row.about, p.functionEnd, p.functionAt)
		}
		if !p.capacityEnd || p.capacityAt <= 0 {
			t.Errorf("%s: no end by capacity", row.about)
		}
		if row.function && (p.share[int(p.functionAt)] < 0.75 || p.share[int(p.functionAt)+1] > 0.95) {
			t.Errorf("%s: ended after %g years, with %g left", row.about, p.functionAt, p.share[int(p.functionAt)])
		}
	}
}

// A bank that starts with more never ends sooner, by capacity or by function,
// however the hours short jump about.
func TestMoreCapacityNeverEndsSooner(t *testing.T) {
	m := model(t, "schmalstieg")
	rapid.Check(t, func(t *rapid.T) {
		hours := rapid.SliceOfN(rapid.Float64Range(0, 100), 12, 12).Draw(t, "hours")
		limit := rapid.Float64Range(1, 100).Draw(t, "limit")
		a, b := rapid.Float64Range(0.7, 1).Draw(t, "a"), rapid.Float64Range(0.7, 1).Draw(t, "b")
		d := lane(1, 0.06, 60, hours...)
		less := d.walk(start(m, ageing.Past{Capacity: min(a, b)}), 30, 0.6, limit)
		more := d.walk(start(m, ageing.Past{Capacity: max(a, b)}), 30, 0.6, limit)
		if !less.functionEnd && !less.worn && more.functionEnd && more.functionAt < 30 {
			t.Errorf("more ends by function, less does not")
		}
		if less.functionEnd && more.functionEnd && more.functionAt < less.functionAt-1e-9 {
			t.Errorf("by function %g years with more, %g with less", more.functionAt, less.functionAt)
		}
		if more.capacityAt < less.capacityAt-1e-9 {
			t.Errorf("by capacity %g years with more, %g with less", more.capacityAt, less.capacityAt)
		}
	})
}

func TestDeliveredEndsWithTheEarlierEnd(t *testing.T) {
	m := model(t, "schmalstieg")
	p := lane(1, 0.06, 100, 0, 0, 0, 0, 0, 0).walk(start(m, ageing.Past{}), 30, 0.7, 24)
	near.Equal(t, "delivered", p.delivered(), 12000*p.capacityAt, 1e-6)
	if gave := lane(1, 0.06, 100, 50, 50).walk(start(m, ageing.Past{}), 30, 0.7, 24).delivered(); gave != 0 {
		t.Errorf("a bank that is short from the start delivers %g Wh", gave)
	}
}

func TestRungs(t *testing.T) {
	list := rungs(0.9, 1, 0.5, 0.1)
	if list[0] < 1 || list[len(list)-1] > 0.5 || list[len(list)-2] <= 0.5 {
		t.Errorf("rungs %v do not span 1 to 0.5", list)
	}
	near.Equal(t, "now is one of them", list[1], 0.9, 1e-12)
	if one := rungs(0.4, 0.4, 0.5, 0.02); len(one) != 1 || one[0] != 0.4 {
		t.Errorf("rungs below the least: %v", one)
	}
}

func TestSecondLife(t *testing.T) {
	use := ageing.VehicleUse(8, 600)
	for _, row := range []struct {
		about string
		o     Options
		basis string
		wide  bool
	}{
		{"new", Options{}, "new", false},
		{"measured", Options{Capacity: 0.82}, "measured", false},
		{"measured, with its past", Options{Capacity: 0.82, Use: use}, "measured", false},
		{"stated use", Options{Use: use}, "stated use", true},
	} {
		b, err := Start(nmc(t), row.o)
		if err != nil {
			t.Fatal(err)
		}
		if wide := b.High-b.Low > 0.01; wide != row.wide || b.Low > b.Middle+1e-9 || b.Middle > b.High+1e-9 {
			t.Errorf("%s: starts at %+v", row.about, b)
		}
		if row.o.Capacity > 0 {
			near.Equal(t, row.about, b.Middle, row.o.Capacity, 1e-9)
		}
		m := start(model(t, "schmalstieg"), row.o.past())
		if m.Basis() != row.basis {
			t.Errorf("%s: basis %q", row.about, m.Basis())
		}
	}
}

func TestMoreThanRated(t *testing.T) {
	b := start(model(t, "schmalstieg"), ageing.Past{Capacity: 1.04})
	near.Equal(t, "share", b.share(), 1.04, 1e-12)
}

func TestBandFollowsTheLog(t *testing.T) {
	m := model(t, "schmalstieg")
	for _, row := range []struct {
		about      string
		multiplier float64
		own        ageing.Band
		want       ageing.Band
	}{
		{"nothing known", 0, ageing.Band{}, m.Band},
		{"a multiplier moves the model's band", 2 * m.Band.Middle, ageing.Band{}, ageing.Band{Low: 2 * m.Band.Low, Middle: 2 * m.Band.Middle, High: 2 * m.Band.High}},
		{"a band of one's own", 1, ageing.Band{Low: 0.9, Middle: 1, High: 1.1}, ageing.Band{Low: 0.9, Middle: 1, High: 1.1}},
	} {
		got := band(m, row.multiplier, row.own)
		near.Equal(t, row.about+", low", got.Low, row.want.Low, 1e-12)
		near.Equal(t, row.about+", middle", got.Middle, row.want.Middle, 1e-12)
		near.Equal(t, row.about+", high", got.High, row.want.High, 1e-12)
	}
}
