package prove

import (
	"math"
)

// The kinds of segment.
const (
	kindRest      = "rest"
	kindDischarge = "discharge"
	kindCharge    = "charge"
	kindHold      = "hold"
	kindPulse     = "pulse"
)

const (
	longestPulseS = 120   // a load longer than this is no pulse
	alikeShare    = 0.03  // of the current: neighbours closer than this are one stretch
	holdBand      = 0.004 // of the voltage: what a constant voltage may wander
	taperShare    = 0.97  // of the charging current: below it tapers
)

// finish closes the last run and returns the segments of the whole log, with the
// offset of the current at rest taken out of the running charge.
func (in *intake) finish() []segment {
	if len(in.runs) == 0 {
		return nil
	}
	in.last().close()
	in.counter.finish()
	quiet := in.quietBelow()
	runs := join(in.runs, quiet, 0)
	runs = joinRamps(runs, quiet)
	runs = joinLevels(runs, quiet)
	list := make([]segment, 0, len(runs))
	for k := range runs {
		list = append(list, split(&runs[k], quiet)...)
	}
	markPulses(list)
	settle(list)
	return list
}

// joinRamps gives a short run between two currents to the one it leads to: a
// step that took more than one row.
func joinRamps(runs []run, quiet float64) []run {
	kept := runs[:0]
	for k := range runs {
		r := runs[k]
		for n := len(kept); n > 0; n = len(kept) {
			if !ramp(kept, &r, quiet) {
				break
			}
			short := kept[n-1]
			kept = kept[:n-1]
			short.absorb(&r)
			short.level, short.levelRows = r.level, r.levelRows
			r = short
		}
		kept = append(kept, r)
	}
	return kept
}

// ramp tells whether the last run kept only leads over to next.
func ramp(kept []run, next *run, quiet float64) bool {
	n := len(kept)
	r := &kept[n-1]
	if r.island != next.island || r.rows > 3 || r.rows > 1 && r.to-r.from > 2 || math.Abs(r.mean()) < quiet {
		return false
	}
	before := 0.0
	switch {
	case n > 1 && kept[n-2].island == r.island:
		before = kept[n-2].mean()
	case r.based:
		before = r.points[0].a
	}
	m, to := r.mean(), next.mean()
	return math.Abs(to) >= quiet && (before < m && m < to || to < m && m < before)
}

// joinLevels joins neighbours that charge or discharge alike, and what follows a
// charge with less current though the voltage did not fall: its limit was reached.
func joinLevels(runs []run, quiet float64) []run {
	kept := runs[:0]
	for _, r := range runs {
		if n := len(kept); n > 0 && oneLevel(&kept[n-1], &r, quiet) {
			kept[n-1].absorb(&r)
			continue
		}
		kept = append(kept, r)
	}
	return kept
}

func oneLevel(a, b *run, quiet float64) bool {
	ma, mb := a.mean(), b.mean()
	if a.island != b.island || math.Abs(ma) < quiet || math.Abs(mb) < quiet || ma*mb < 0 {
		return false
	}
	if math.Abs(ma-mb) < alikeShare*math.Max(math.Abs(ma), math.Abs(mb)) {
		return true
	}
	end, start := a.points[len(a.points)-1], b.own()[0]
	return ma > 0 && start.a < end.a && start.v > (1-holdBand/4)*end.v
}

// split makes a segment of a run, or two where charging goes over to holding a
// voltage.
func split(r *run, quiet float64) []segment {
	seg := segment{points: r.points, first: len(r.points) - len(r.own()), island: r.island, off: r.off}
	seg.Rows, seg.Cycle, seg.MeanA = r.rows, r.cycle, r.mean()
	switch {
	case math.Abs(seg.MeanA) < quiet:
		seg.Kind = kindRest
	case seg.MeanA < 0:
		seg.Kind = kindDischarge
	default:
		if seg.Kind = kindCharge; seg.lasts() > longestPulseS {
			return seg.splitHold()
		}
	}
	return []segment{seg}
}

// splitHold divides a charge where its voltage is reached and its current begins
// to taper.
func (seg segment) splitHold() []segment {
	p := seg.points
	end := p[len(p)-1]
	from := len(p)
	for from > seg.first && math.Abs(p[from-1].v-end.v) <= holdBand*end.v {
		from--
	}
	full := 0.0
	for _, s := range p[seg.first:] {
		full = math.Max(full, s.a)
	}
	for from < len(p) && p[from].a > taperShare*full {
		from++
	}
	if len(p)-from < 3 || !(end.a < taperShare*p[min(from, len(p)-1)].a) {
		return []segment{seg}
	}
	if from <= seg.first+1 {
		seg.Kind = kindHold
		return []segment{seg}
	}
	return seg.cut(from, kindHold)
}

// cut divides a segment before points[k]; the second part gets the kind given.
// Rows are shared out by time, since not every row is kept.
func (seg segment) cut(k int, kind string) []segment {
	p := seg.points
	a, b := seg, seg
	a.points, b.points = p[:k:k], append([]sample{p[k-1]}, p[k:]...)
	b.first, b.Kind, b.off = 1, kind, sumOff{}
	share := (p[k-1].t - p[0].t) / math.Max(p[len(p)-1].t-p[0].t, 1e-9)
	a.Rows = min(max(int(share*float64(seg.Rows)), 1), seg.Rows-1)
	b.Rows = seg.Rows - a.Rows
	a.MeanA, b.MeanA = meanA(a.own()), meanA(b.own())
	return []segment{a, b}
}

// meanA is the mean current over time, A.
func meanA(p []sample) float64 {
	n := len(p)
	if hours := (p[n-1].t - p[0].t) / 3600; hours > 0 {
		return (p[n-1].ah - p[0].ah) / hours
	}
	return p[0].a
}
