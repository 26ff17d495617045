package prove

import (
	"fmt"
	"math"

	q "ampstead/quantity"
)

const (
	offsetMatters = 0.003 // of the capacity, over the whole log
	sumAtRest     = 0.003 // of the voltage: groups against terminals
	sumUnderLoad  = 0.02
	notAtOnce     = 0.01  // of the voltage, one row against the usual difference
	counterOff    = 0.005 // of the charge
	longTimes     = 5     // the usual interval
	longMatters   = 0.01  // of the capacity
	stillShare    = 0.001 // of the voltage: what moves less carries no load
	overshotV     = 0.05  // V beyond a limit of one cell
)

// checkLog says what is wrong with the log and its sensors.
func (s *study) checkLog() {
	s.checkRows()
	s.checkOffset()
	s.checkSum()
	s.checkCounter()
	s.checkGaps()
	s.checkGrain()
	s.checkSigns()
	s.checkLimits()
	if s.in.warmth.rows == 0 {
		s.warn("temperature-missing", "no column of temperature", "Resistance is not carried to 25 °C: 10 K colder is about a third more.")
	}
	if low, high := s.voltSpan(); len(s.jumps) == 0 && s.size == 0 || high-low < stillShare*high {
		s.warn("no-load", "no current flows in this log", "Neither capacity nor resistance can be had from it.")
	}
}

func (s *study) warnLeads(shown, model float64) {
	s.warn("sense-through-leads", fmt.Sprintf("the voltage jumps by %s for each ampere when the current starts, %.0f times what such cells show",
		q.Ohms.Text(shown, q.Metric), shown/model),
		"The voltage was sensed through leads that carry the current. Charge is right; resistance and rest voltage under load are not told from this log.")
}

// checkRows hands on what the reader found.
func (s *study) checkRows() {
	if n := s.sum.Repeated; n > 0 {
		s.warn("repeated-rows", fmt.Sprintf("%d rows repeat the one before; they count once", n), "Harmless, unless rows are missing elsewhere for it.")
	}
	if n := len(s.sum.Steps); n > 0 {
		s.warn("clock-step", fmt.Sprintf("the clock goes back or jumps %d times, first at line %d by %s", n, s.sum.Steps[0].Line, q.Seconds.Text(s.sum.Steps[0].Seconds, q.Metric)),
			"Charge and energy around it rest on a guess of the time between.")
	}
	if n := s.in.skipped; n > 0 {
		s.warn("rows-without-reading", fmt.Sprintf("%d rows lack a voltage or a current", n), "The rows on both sides are joined by a straight line.")
	}
}

// checkOffset tells a current at rest that matters over the length of the log.
func (s *study) checkOffset() {
	o := s.offset()
	hours := s.longestIsland() / 3600
	ah := o.amps * hours
	if o.hours < 0.1 || s.sizeAh() == 0 || math.Abs(ah) < offsetMatters*s.sizeAh() {
		return
	}
	s.warn("current-offset", fmt.Sprintf("the current reads %+.1f mA on average over %.1f h of rest", 1000*o.amps, o.hours),
		fmt.Sprintf("Counted on, that is %s over the longest stretch of this log. It is left out at rest and stays in the error under load.", ahText(math.Abs(ah))))
}

// longestIsland is the longest time that hangs together, s.
func (s *study) longestIsland() float64 {
	longest, from := 0.0, s.segs[0].From
	for k := range s.segs {
		if k > 0 && s.segs[k].island != s.segs[k-1].island {
			from = s.segs[k].From
		}
		longest = max(longest, s.segs[k].To-from)
	}
	return longest
}

// checkSum compares the groups with the terminals.
func (s *study) checkSum() {
	var quiet, load sumOff
	volts := 0.0
	for k := range s.segs {
		seg := &s.segs[k]
		if volts = max(volts, seg.ToV); seg.load() {
			load = load.and(seg.off)
		} else {
			quiet = quiet.and(seg.off)
		}
	}
	if s.groups == 0 || s.groups != s.series {
		return
	}
	text := func(v float64) string { return q.Volts.Text(v, q.Metric) }
	switch usual := load.mean(); {
	case math.Abs(quiet.mean()) > sumAtRest*volts:
		s.warn("group-sum", fmt.Sprintf("the groups add up to %s more than the terminals show at rest", text(quiet.mean())),
			"A channel or the terminal voltage is out of calibration: differences between groups of that size mean nothing.")
	case math.Abs(usual) > sumUnderLoad*volts:
		s.warn("group-sum", fmt.Sprintf("the groups add up to %s more than the terminals show under load", text(usual)),
			"A channel reads wrong, a group is missing, or its leads carry current.")
	case math.Abs(load.worst-usual) > notAtOnce*volts:
		s.warn("not-simultaneous", fmt.Sprintf("the groups add up to %s more than the terminals at %s, %s on average", text(load.worst), q.Seconds.Text(load.worstAt, q.Metric), text(usual)),
			"The channels are not sampled at one instant: where the current changes quickly groups cannot be compared row by row.")
	}
}

// checkCounter compares the logger's own count of charge.
func (s *study) checkCounter() {
	c := &s.in.counter
	if c.ours == 0 || math.Abs(c.theirs/c.ours-1) <= counterOff || c.stretches > 1000 {
		return
	}
	s.warn("counter", fmt.Sprintf("the logger counted %s where its own current adds up to %s", ahText(c.theirs), ahText(c.ours)),
		"One of the two is wrong by the difference; the integral is used here.")
}

// checkGaps names intervals much longer than usual that moved much charge.
func (s *study) checkGaps() {
	usual := s.in.pace.typical()
	n, ah, longest := 0, 0.0, 0.0
	for _, i := range s.in.pace.long {
		if i.seconds > longTimes*usual && math.Abs(i.ah) > longMatters*s.sizeAh() {
			n++
			ah += math.Abs(i.ah)
			longest = max(longest, i.seconds)
		}
	}
	if n == 0 {
		return
	}
	s.warn("gap", fmt.Sprintf("%d stretches without rows while current flowed, the longest %s; they are bridged by %s", n, q.Seconds.Text(longest, q.Metric), ahText(ah)),
		"What flowed in between is assumed to run straight from the row before to the row after.")
}

// checkGrain tells a voltage read too coarsely for a resistance.
func (s *study) checkGrain() {
	step := s.in.grain.volts.step()
	if s.res.Resistance == 0 || s.leads {
		return
	}
	most := 0.0
	for k := range s.jumps {
		most = max(most, math.Abs(s.jumps[k].Amps))
	}
	if share := step / (most * s.res.Resistance); share > 0.05 {
		s.warn("voltage-resolution", fmt.Sprintf("the voltage is read in steps of %s, %.0f %% of the drop at %s", q.Volts.Text(step, q.Metric), 100*share, q.Amperes.Text(most, q.Metric)),
			"The resistance of the whole is no surer than that.")
	}
}

// checkSigns tells a current whose sign the voltage contradicts.
func (s *study) checkSigns() {
	wrong := 0
	for k := range s.jumps {
		if s.jumps[k].first.ohm < 0 {
			wrong++
		}
	}
	if wrong > 0 && 2*wrong >= len(s.jumps) {
		s.warn("current-sign", fmt.Sprintf("in %d of %d steps the voltage moves against the current", wrong, len(s.jumps)),
			"The sign of the current is the other way round, or the two were not logged together. Give the sign.")
	}
}

// checkLimits tells cells that stood beyond their limits.
func (s *study) checkLimits() {
	low, high := math.Inf(1), math.Inf(-1)
	for k := range s.segs {
		for _, p := range s.segs[k].own() {
			l, h := s.cellSpan(p)
			low, high = min(low, l), max(high, h)
		}
	}
	given, top := orElse(s.o.LowV, s.kind.MinV.Value), orElse(s.o.HighV, s.kind.MaxV.Value)
	text := func(v float64) string { return q.Volts.Text(v, q.Metric) }
	if low < given-overshotV {
		s.warn("limit-overshot", fmt.Sprintf("a cell went down to %s, below the limit of %s", text(low), text(given)),
			"The capacity counts to where the discharge ended, so it is more than that limit would give; time below it harms the cell.")
	}
	if high > top+overshotV/2 {
		s.warn("limit-overshot", fmt.Sprintf("a cell went up to %s, above the limit of %s", text(high), text(top)),
			"Time above it ages the cell and can plate lithium; the capacity counts what flowed there too.")
	}
}
