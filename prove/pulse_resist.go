package prove

import (
	"fmt"
	"math"
	"sort"

	"ampstead/figure"
	"ampstead/physics/cell"
	"ampstead/physics/measure"
	q "ampstead/quantity"
)

const (
	alikeSoC    = 0.01 // steps this close in charge count as one place
	latestSteps = 3    // the latest steps of one place that are averaged
)

// setResistance lists the steps and takes the resistance of the whole from the
// cleanest ones nearest half full.
func (s *study) setResistance(spans []span) {
	s.placeJumps(spans)
	s.res.Pulses = make([]Pulse, 0, len(s.jumps))
	s.res.ResistHow = howNone
	if s.leads {
		return
	}
	for k := range s.jumps {
		if j := &s.jumps[k]; j.ohms != [3]float64{} {
			s.res.Pulses = append(s.res.Pulses, j.Pulse)
		}
	}
	for k, seconds := range [3]float64{10, 30, 1} {
		index := [3]int{1, 2, 0}[k]
		if chosen := s.choose(func(j *jump) float64 { return j.ohms[index] }); len(chosen) > 0 {
			s.takeResistance(chosen, index, seconds)
			return
		}
	}
	if chosen := s.choose(func(j *jump) float64 { return j.first.ohm }); len(chosen) > 0 {
		s.takeResistance(chosen, -1, chosen[0].first.seconds)
	}
}

// choose picks the cleanest steps nearest half full, the latest few of them.
func (s *study) choose(ohm func(*jump) float64) []*jump {
	most := 0.0
	var list []*jump
	for k := range s.jumps {
		if j := &s.jumps[k]; ohm(j) > 0 {
			list = append(list, j)
			most = max(most, math.Abs(j.Amps))
		}
	}
	if len(list) == 0 {
		return nil
	}
	sort.SliceStable(list, func(a, b int) bool { return list[a].score(most) < list[b].score(most) })
	n := 1
	for n < len(list) && list[n].score(most) < list[0].score(most)+alikeSoC {
		n++
	}
	alike := list[:n]
	sort.SliceStable(alike, func(a, b int) bool { return alike[a].At < alike[b].At })
	return alike[max(n-latestSteps, 0):]
}

// takeResistance averages the steps chosen and carries them to 25 °C.
func (s *study) takeResistance(chosen []*jump, index int, seconds float64) {
	var ohms, errs []float64
	for _, j := range chosen {
		raw := j.first.ohm
		if index >= 0 {
			raw = j.ohms[index]
		}
		err := s.ohmErr(j.Amps, raw, s.in.grain.volts.step(), j.first.seconds)
		at25 := s.to25(raw, j.base.tempC)
		ohms, errs = append(ohms, at25), append(errs, err*at25/raw)
	}
	s.use(chosen[0])
	mean, spread := meanAndSpread(ohms)
	s.res.Resistance = mean
	s.res.ResistErr = math.Hypot(math.Hypot(rootMeanSquare(errs), spread), s.awayFromHalf(chosen[0].soc)*mean)
	s.res.ResistHow = s.howResistance(chosen, seconds)
	if seconds != 10 {
		s.warn("sampling-too-slow", fmt.Sprintf("no reading lies near 10 s after a step; the first comes after %s", q.Seconds.Text(chosen[0].first.seconds, q.Metric)),
			fmt.Sprintf("Resistance is told at %s instead, which is more than at 10 s. Log every second for a minute around a step.", q.Seconds.Text(seconds, q.Metric)))
	}
}

// awayFromHalf is the share by which a resistance may differ from that at half
// full, told from where its step stands: near the ends it rises by up to a third,
// and steeply at the very bottom (pouch pulse test).
func (s *study) awayFromHalf(soc float64) float64 {
	share := 0.0
	switch {
	case math.IsNaN(soc):
		return 0.10
	case soc < 0.08:
		share = 0.40
	case soc < 0.20 || soc > 0.92:
		share = 0.12
	default:
		return 0
	}
	s.warn("not-half-full", fmt.Sprintf("the step that tells resistance was made at %.0f %% charge", 100*soc),
		"About half full it is likely to be less; its error says so. A step of 10 s at half charge tells it.")
	return share
}

// to25 carries a resistance to 25 °C by the cell's law. Without a sensor it stays.
func (s *study) to25(ohm, tempC float64) float64 {
	if math.IsNaN(tempC) {
		return ohm
	}
	return ohm / s.kind.ResistanceFactor(tempC)
}

// use keeps the figures behind the resistance.
func (s *study) use(j *jump) {
	if j.Ohm10 == 0 {
		return
	}
	s.apply(measure.StepResistance, figure.N("before", j.base.v), figure.N("after", j.point.v), figure.N("step", j.point.a-j.base.a),
		figure.N("reading-error", math.Max(s.in.grain.volts.step()/math.Sqrt(12), s.in.noiseV)))
	if t := j.base.tempC; !math.IsNaN(t) {
		s.apply(cell.ResistanceAt, figure.N("resistance", s.to25(j.Ohm10, t)), figure.N("temperature", t), figure.T("cell", s.kind.Name))
	}
}

// apply keeps a figure that explains a number already found; where its inputs lie
// outside its range the number stands without it.
func (s *study) apply(f *figure.Figure, in ...figure.Arg) { _, _ = s.figures.Try(f, in...) }

func (s *study) howResistance(chosen []*jump, seconds float64) string {
	j := chosen[len(chosen)-1]
	text := fmt.Sprintf("%s after a step of %s", q.Seconds.Text(seconds, q.Metric), q.Amperes.Text(math.Abs(j.Amps), q.Metric))
	if len(chosen) > 1 {
		text += fmt.Sprintf(", mean of %d", len(chosen))
	}
	if !math.IsNaN(j.soc) {
		text += fmt.Sprintf(", at %.0f %% charge", 100*j.SoC)
	} else {
		text += ", charge unknown"
	}
	if t := j.base.tempC; !math.IsNaN(t) {
		return text + fmt.Sprintf(", carried from %.1f to 25 °C", t)
	}
	return text + ", temperature unknown"
}

func meanAndSpread(list []float64) (mean, spread float64) {
	for _, v := range list {
		mean += v / float64(len(list))
	}
	for _, v := range list {
		spread += square(v-mean) / float64(len(list))
	}
	return mean, math.Sqrt(spread)
}

func rootMeanSquare(list []float64) float64 {
	sum := 0.0
	for _, v := range list {
		sum += v * v / float64(len(list))
	}
	return math.Sqrt(sum)
}

func middleOf(list []float64) float64 {
	if len(list) == 0 {
		return 0
	}
	sorted := append([]float64(nil), list...)
	sort.Float64s(sorted)
	n := len(sorted) / 2
	if len(sorted)%2 == 1 {
		return sorted[n]
	}
	return (sorted[n-1] + sorted[n]) / 2
}
