package prove

import "math"

// markPulses calls a short load a pulse when nothing stronger goes the same way
// beside it.
func markPulses(list []segment) {
	for k := range list {
		seg := &list[k]
		if seg.Kind == kindRest || seg.Kind == kindHold || seg.lasts() > longestPulseS {
			continue
		}
		before, after := neighbour(list, k, -1), neighbour(list, k, +1)
		if before == nil && after == nil || seg.below(before) || seg.below(after) {
			continue
		}
		seg.Kind = kindPulse
	}
}

// neighbour is the segment beside list[k] that hangs together with it.
func neighbour(list []segment, k, way int) *segment {
	if n := k + way; n >= 0 && n < len(list) && list[n].island == list[k].island {
		return &list[n]
	}
	return nil
}

// below tells whether other goes the same way with at least this current.
func (seg *segment) below(other *segment) bool {
	return other != nil && other.Kind != kindRest && other.MeanA*seg.MeanA > 0 && math.Abs(other.MeanA) >= math.Abs(seg.MeanA)
}

// settle fills in the numbers of every segment and takes what the meter counted
// at rest out of the running charge: it is offset, not charge.
func settle(list []segment) {
	var ah, wh float64
	for k := range list {
		seg := &list[k]
		own := seg.own()
		start, first, last := seg.points[0], own[0], own[len(own)-1]
		early, earlyWh := seg.early()
		seg.From, seg.To = start.t, last.t
		seg.FromV, seg.ToV = first.v, last.v
		seg.ChargeAh, seg.EnergyWh = last.ah-start.ah-early, last.wh-start.wh-earlyWh
		seg.TempC = meanTemp(own)
		if seg.first > 0 {
			seg.points[0].ah, seg.points[0].wh = start.ah-ah, start.wh-wh
		}
		ah, wh = ah+early, wh+earlyWh
		for k := range own {
			if seg.Kind == kindRest {
				own[k].ah, own[k].wh = first.ah, first.wh
			}
			own[k].ah, own[k].wh = own[k].ah-ah, own[k].wh-wh
		}
		if seg.Kind == kindRest {
			seg.driftAh = last.ah - first.ah
			ah, wh = ah+seg.driftAh, wh+last.wh-first.wh
		}
	}
}

// early is the charge and energy that the straight line from a rest to the first
// row of a load counts too much when the rest was logged at a slower pace: the
// load then began with its first row.
func (seg *segment) early() (ah, wh float64) {
	own := seg.own()
	if seg.Kind == kindRest || seg.first == 0 || len(own) < 2 {
		return 0, 0
	}
	opening, usual := own[0].t-seg.points[0].t, own[1].t-own[0].t
	if opening <= eventTimes*usual || math.Abs(seg.points[0].a) > 0.1*math.Abs(own[0].a) {
		return 0, 0
	}
	hours := (opening - usual) / 3600
	return hours * own[0].a / 2, hours * own[0].a * own[0].v / 2
}

// meanTemp is the mean temperature, 0 when there is none: as left out of JSON.
func meanTemp(p []sample) float64 {
	sum, n := 0.0, 0.0
	for _, s := range p {
		if !math.IsNaN(s.tempC) {
			sum, n = sum+s.tempC, n+1
		}
	}
	if n == 0 {
		return 0
	}
	return sum / n
}
