package drill

import (
	"context"
	"fmt"
	"math"
	"slices"
	"strings"

	"ampstead/fit"
	q "ampstead/quantity"
)

// A set-point is drifted by up to driftMost times its device's tolerance either
// way, and the border is looked for to a share driftFine of the tolerance; ours.
const (
	driftMost = 5.0
	driftFine = 0.25
)

// watched are the settings of which the margin is reported: those that limit,
// stop or warn.
var watched = []string{"absorption", "float", "frost lock", "low cut", "high", "low", "alarm high", "alarm low", "hot", "below", "above", "on", "off"}

// setPoint is one of them.
type setPoint struct {
	fit.Setting
	value, tol float64
}

// setPoints lists those that are on, as the rig is set today.
func (s *study) setPoints() []setPoint {
	var list []setPoint
	for _, set := range s.fit.Settings {
		value, on := set.Today.(float64)
		if set.Today == notGiven {
			value, on = set.Value.(float64)
		}
		if !on || !slices.Contains(watched, set.Setting) {
			continue
		}
		if tol := toleranceOf(s.rig, set, value); tol > 0 {
			list = append(list, setPoint{set, value, tol})
		}
	}
	return list
}

// notGiven is the word fit has for a setting the file does not state; the engine
// then sets what fit advises.
const notGiven = "not given"

// margins drifts every set-point up and down until a single fault ends worse.
func (s *study) margins(ctx context.Context) error {
	for _, p := range s.setPoints() {
		m := Margin{Device: p.Device, Setting: p.Setting.Setting, Path: p.Path, Value: p.value, Unit: unitOf(p.Dim), Range: driftMost * p.tol, Tol: p.tol}
		var err error
		if m.Down, m.DownTo, err = s.drift(ctx, p, -1); err != nil {
			return err
		}
		if m.Up, m.UpTo, err = s.drift(ctx, p, +1); err != nil {
			return err
		}
		m.Value, m.Down, m.Up = tidy(m.Value), tidy(m.Down), tidy(m.Up)
		m.Range, m.Tol = tidy(m.Range), tidy(m.Tol)
		s.out.Margins = append(s.out.Margins, m)
	}
	return nil
}

// tidy drops the dust of floating point.
func tidy(v float64) float64 { return math.Round(v*1e6) / 1e6 }

func unitOf(d *q.Dimension) string {
	if d == nil {
		return ""
	}
	return d.Base
}

// drift finds how far a set-point can move one way (-1 is down) with no single
// fault ending worse, and what changes beyond. The far end of the range is tried
// first; when something is worse there the border is halved down to, playing only
// the runs that were.
func (s *study) drift(ctx context.Context, p setPoint, way float64) (free float64, change string, err error) {
	runs := s.touched(p, way)
	good, bad := 0.0, driftMost*p.tol
	for step := bad; len(runs) > 0; step = (good + bad) / 2 {
		worse, what, err := s.drifted(ctx, p, way*step, runs)
		switch {
		case err != nil:
			return 0, "", err
		case len(worse) > 0:
			bad, change, runs = step, what, worse
		case step == bad:
			return bad, "", nil
		default:
			good = step
		}
		if bad-good <= driftFine*p.tol {
			return good, change, nil
		}
	}
	return bad, "", nil
}

// drifted plays runs with a set-point moved by some amount, and returns those
// that end worse and what became of the first of them.
func (s *study) drifted(ctx context.Context, p setPoint, by float64, runs []harmRun) (worse []harmRun, what string, err error) {
	r := copyOf(s.rig)
	writers(r)[p.Path](p.value + by)
	on, err := s.on(r)
	if err != nil {
		return nil, "", err
	}
	outs := make([]Outcome, len(runs))
	s.pool.plan(len(runs))
	err = s.pool.each(ctx, len(runs), func(k int) (err error) {
		outs[k], err = on.replay(runs[k])
		return err
	})
	for k, o := range outs {
		how := worsened(runs[k].out, o, warns(p))
		if how == "" {
			continue
		}
		if what == "" {
			what = s.sentence(runs[k], how)
		}
		worse = append(worse, runs[k])
	}
	return worse, what, err
}

// warns reports whether a set-point is that of an alarm.
func warns(p setPoint) bool { return strings.HasPrefix(p.Path, "protection.meters.") }

func (s *study) sentence(h harmRun, how string) string {
	name := "nothing wrong"
	if h.a >= 0 {
		name = s.faults[h.a].Name
	}
	return fmt.Sprintf("%s, in %s: %s", name, s.scenes[h.scene].Name, how)
}

// badness ranks verdicts for a set-point: that a layer acts is no worse than that
// none had to.
var badness = map[Verdict]int{None: 0, Nuisance: 0, Caught: 0, Near: 1, Harm: 2}

// worsened says how a run became worse, "" when it did not: nearer to harm, power
// lost where nothing is wrong, or, of an alarm, a fault it no longer tells of.
func worsened(before, after Outcome, alarm bool) string {
	switch {
	case badness[after.Outcome] > badness[before.Outcome]:
		return fmt.Sprintf("%s becomes %s", before.Outcome, after.Outcome)
	case after.LostPower && !before.LostPower && after.Fault == "":
		return "power is lost needlessly"
	case alarm && after.Silent && !before.Silent:
		return "nothing warns any more"
	}
	return ""
}
