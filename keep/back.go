package keep

import (
	"fmt"
	"math"
	"strconv"

	q "ampstead/quantity"
)

const (
	changeSigma = 2.0  // a value changes when it lies so far from what the file has
	changeShare = 0.02 // and differs by so much
)

// back lists what the log would change in the rig file.
func (s *study) back() {
	s.backSpread()
	s.backCapacity()
	if len(s.usable) >= knownVisits {
		s.backGroups()
	}
}

func (s *study) change(path, now, value, why string) {
	if now != value {
		s.res.Back = append(s.res.Back, Change{Path: path, Now: now, Value: value, Why: why})
	}
}

// backSpread carries the groups' offsets to the ends of the daily window, where
// they stand furthest apart.
func (s *study) backSpread() {
	if len(s.usable) < knownVisits {
		return
	}
	high, low := s.spreadAt(s.fit.Daily.CellHighV), s.spreadAt(s.fit.Daily.CellLowV)
	why := fmt.Sprintf("from the groups' offsets, %d readings", len(s.usable))
	for _, x := range []struct {
		path string
		v    float64
		now  *q.Voltage
	}{{"bank.measured.spread_high", high.above, s.spreadNow(true)}, {"bank.measured.spread_low", low.below, s.spreadNow(false)}} {
		value := math.Max(0.001, math.Round(1000*x.v)/1000)
		if x.now != nil && math.Abs(float64(*x.now)-value) < 0.002 {
			continue
		}
		s.change(x.path, written(x.now), q.Volts.Fixed(value, "mV", 0), why)
	}
}

func (s *study) spreadNow(high bool) *q.Voltage {
	m := s.rig.Bank.Measured
	if m == nil {
		return nil
	}
	if high {
		return m.SpreadHigh
	}
	return m.SpreadLow
}

func written[Q q.Quantity](v *Q) string {
	if v == nil {
		return ""
	}
	return q.Text(*v, q.Metric)
}

type apartAt struct{ above, below float64 }

// spreadAt is how far the highest and lowest group stand from the mean when the
// bank's mean group rests at a voltage.
func (s *study) spreadAt(volt float64) apartAt {
	curve := s.plant.kind.Curve
	shared := s.plant.bankAh * (1 - curve.SoC(volt))
	volts := make([]float64, 0, s.plant.n)
	for k, o := range s.offsets() {
		soc := 1 - (shared-o)/s.plant.ah[k]
		if soc > 1 { // on along the curve, as soc reads it
			_, top := curve.Span()
			volts = append(volts, top+(soc-1)*s.plant.slope(1))
			continue
		}
		volts = append(volts, curve.Voltage(soc))
	}
	m := mean(volts)
	a := apartAt{}
	for _, v := range volts {
		a.above, a.below = math.Max(a.above, v-m), math.Max(a.below, m-v)
	}
	return a
}

func (s *study) backCapacity() {
	c := s.res.Capacity
	if c.Pairs == 0 && len(c.Points) == 0 || c.ErrAh > 0.05*c.Ah {
		return
	}
	apart := math.Abs(c.Ah - s.plant.bankAh)
	if apart < changeSigma*c.ErrAh || apart < changeShare*s.plant.bankAh {
		return
	}
	var now *q.Charge
	if m := s.rig.Bank.Measured; m != nil {
		now = m.Capacity
	}
	s.change("bank.measured.capacity", written(now), q.AmpereHours.Fixed(c.Ah, "Ah", 0), c.Basis)
}

// backGroups gives each group's standing and leak, when any is told from chance.
// All groups are written, for the file lists all or none.
func (s *study) backGroups() {
	if !s.worthWriting() {
		return
	}
	top := 0.0
	for _, o := range s.offsets() {
		top = math.Max(top, o)
	}
	for k, g := range s.res.Groups {
		path := "bank.measured.groups." + strconv.Itoa(k)
		behind, leak := s.groupNow(k)
		s.change(path+".behind", behind, q.AmpereHours.Fixed(math.Max(0, top-g.OffsetAh), "Ah", 1), "its offset, latest")
		if g.Drifts && g.DriftMA > 0 {
			s.change(path+".leak", leak, q.Amperes.Fixed(g.DriftMA/1000, "mA", 1), s.driftWords(g))
		}
		if ah, ok := s.ownCapacity(k); ok {
			now := ""
			if s.plant.own {
				now = q.AmpereHours.Text(s.plant.ah[k], q.Metric)
			}
			s.change(path+".capacity", now, q.AmpereHours.Fixed(ah, "Ah", 1), "its offset goes with the charge taken")
		}
	}
}

// worthWriting reports whether any group drifts, stepped or stands apart for sure.
func (s *study) worthWriting() bool {
	for _, g := range s.res.Groups {
		if g.Drifts || g.Step != nil || math.Abs(g.OffsetAh) > offsetTold*g.OffsetErr && g.OffsetErr > 0 && math.Abs(g.OffsetAh) > 0.005*s.plant.bankAh {
			return true
		}
	}
	return false
}

func (s *study) groupNow(k int) (behind, leak string) {
	m := s.rig.Bank.Measured
	if m == nil || k >= len(m.Groups) {
		return "", ""
	}
	return written(m.Groups[k].Behind), written(m.Groups[k].Leak)
}

// ownCapacity is a group's capacity where the log tells it from that reckoned
// with: a group of another size falls behind with the charge taken. Given for all
// groups once it shows in one, for fit takes all or none.
func (s *study) ownCapacity(k int) (ah float64, ok bool) {
	for j := range s.drawn {
		ok = ok || s.drawn[j].ok && (s.drawn[j].shape.charge || s.drawn[j].shape.bend == loss)
	}
	ah = s.plant.ah[k]
	if d := &s.drawn[k]; d.ok && d.goes() != 0 {
		ah = s.plant.sized(d.goes()) * ah / s.plant.bankAh
	}
	return ah, ok
}
