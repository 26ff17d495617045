package prove

import "math"

// jump is a step of current with what came of it.
type jump struct {
	Pulse
	base     sample
	island   int
	soc      float64 // NaN when it cannot be told
	fromRest bool
	toRest   bool
	ohms     [3]float64 // at the times of readAt
	first    reached    // the earliest reading after the step
	point    sample     // at 10 s
}

// reached is a resistance at a time of its own, when a slow logger has no other.
type reached struct{ seconds, ohm float64 }

// readAt are the times after a step at which resistance is read, s.
var readAt = [3]float64{1, 10, 30}

const (
	leastStep = 0.05 // of the largest current: smaller steps say little
	gainDoubt = 0.005
)

// jumpsOf finds every step of current between two segments.
func (s *study) jumpsOf() []jump {
	list := []jump{}
	least := math.Max(leastStep*s.in.scale, 6*s.in.noise)
	for k := 1; k < len(s.segs); k++ {
		before, after := &s.segs[k-1], &s.segs[k]
		if after.first == 0 || before.island != after.island || after.Kind == kindHold && before.Kind == kindCharge {
			continue
		}
		j := s.jumpAt(before, after)
		if math.Abs(j.Amps) >= least {
			list = append(list, j)
		}
	}
	return list
}

func (s *study) jumpAt(before, after *segment) jump {
	base := lastSteady(before, after)
	j := jump{base: base, soc: math.NaN(), island: after.island, fromRest: !before.load(), toRest: !after.load()}
	own := after.own()
	j.At, j.TempC = base.t, numberOr(base.tempC, 0)
	j.Amps = soon(own, base.t).a - base.a
	j.first = reached{own[0].t - base.t, ohmOf(base, own[0])}
	for k, t := range readAt {
		p, ok := at(own, base.t, t)
		if !ok {
			continue
		}
		j.ohms[k] = ohmOf(base, p)
		if t == 10 {
			j.point = p
			j.Err10 = s.ohmErr(j.Amps, j.ohms[k], s.in.grain.volts.step(), own[0].t-base.t)
			j.Groups = groupOhms(base, p)
		}
	}
	j.Ohm1, j.Ohm10, j.Ohm30 = j.ohms[0], j.ohms[1], j.ohms[2]
	return j
}

// soon is the sample in which a step is over: 1 s after it, or the first.
func soon(own []sample, start float64) sample {
	k := 0
	for k < len(own)-1 && own[k].t-start < 1 {
		k++
	}
	return own[k]
}

// lastSteady is the last sample before the step. Where the voltage was read
// later than the current, it has moved already in the row that still shows the
// old current: then it is the row before.
func lastSteady(before, after *segment) sample {
	base := after.points[0]
	own := before.own()
	n := len(own) - 2
	if n < 0 || own[n+1].t != base.t {
		return base
	}
	moved, all := math.Abs(base.v-own[n].v), math.Abs(after.own()[0].v-own[n].v)
	if moved > 0.25*all && base.t-own[n].t < 2 {
		return own[n]
	}
	return base
}

// at reads the log a time after a step, between its samples: they must lie close
// enough for a straight line to hold.
func at(own []sample, start, seconds float64) (sample, bool) {
	k := 0
	for k < len(own) && own[k].t-start < seconds {
		k++
	}
	switch {
	case k == len(own):
		last := own[k-1]
		return last, last.t-start >= 0.93*seconds
	case k == 0:
		return own[0], own[0].t-start <= 1.3*seconds
	}
	a, b := own[k-1], own[k]
	if b.t-start > 3*(a.t-start) {
		return nearer(a, b, start, seconds)
	}
	return mixed(a, b, (start+seconds-a.t)/(b.t-a.t)), true
}

// nearer takes the sample that is within a third of the time asked for, if any.
func nearer(a, b sample, start, seconds float64) (sample, bool) {
	if a.t-start >= 0.7*seconds {
		return a, true
	}
	return b, b.t-start <= 1.3*seconds
}

// mixed goes a share of the way from a to b.
func mixed(a, b sample, share float64) sample {
	mix := func(x, y float64) float64 { return x + share*(y-x) }
	m := sample{t: mix(a.t, b.t), v: mix(a.v, b.v), a: mix(a.a, b.a), ah: mix(a.ah, b.ah), wh: mix(a.wh, b.wh), tempC: mix(a.tempC, b.tempC)}
	for k := range a.groups {
		m.groups = append(m.groups, mix(a.groups[k], b.groups[k]))
	}
	return m
}

// ohmOf is what two samples show, 0 where the current is the same.
func ohmOf(a, b sample) float64 {
	if a.a == b.a {
		return 0
	}
	return (b.v - a.v) / (b.a - a.a)
}

func groupOhms(a, b sample) []float64 {
	var list []float64
	for k := range a.groups {
		list = append(list, numberOr(ohmOf(sample{v: a.groups[k], a: a.a}, sample{v: b.groups[k], a: b.a}), 0))
	}
	return list
}

// ohmErr is the standard error of a resistance: two readings of the resolution
// or noise of the voltmeter, the gain of the current sensor, and the moment of
// the step, which lies somewhere between two rows.
func (s *study) ohmErr(amps, ohm, resolution, interval float64) float64 {
	reading := math.Max(resolution/math.Sqrt(12), s.in.noiseV) * math.Sqrt2 / math.Abs(amps)
	late := 0.15 * ohm * math.Min(interval/10, 1)
	return math.Sqrt(reading*reading + gainDoubt*gainDoubt*ohm*ohm + late*late)
}

func numberOr(v, other float64) float64 {
	if math.IsNaN(v) {
		return other
	}
	return v
}
