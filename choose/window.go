package choose

import (
	"cmp"
	"context"
	"fmt"
	"math"
	"runtime"
	"slices"
	"sync"

	"ampstead/fit"
	"ampstead/life"
	"ampstead/physics/cell"
	"ampstead/rig"
	"ampstead/travel"
)

// What the windows tried leave out at top and bottom, as shares of the charge,
// from the widest that fits; ours.
var (
	leftAbove = []float64{0, 0.05, 0.1, 0.2, 0.3}
	leftBelow = []float64{0, 0.08}
)

// A recommended window leaves no more hours short than this beyond today's, now
// and after ten years; ours.
const moreShort, moreShortLate = 6.0, 24.0

// lateYears is how far ahead hours short are looked at.
const lateYears = 10

// sameYears are years of life that no person would tell apart.
const sameYears = 0.1

// windows compares daily windows of a rig's own bank: years of life against hours
// short. r has every setting open, fitted is what fit found of it. It returns the
// windows from the widest on and the name of the recommended one: the longest life
// among those that keep the hours short; none for lead-acid. Errors: as fit and
// travel.
func windows(ctx context.Context, r *rig.Rig, fitted *fit.Result, o Options) ([]WindowChoice, string, error) {
	if fitted.Kind.Family == cell.LeadAcid {
		return []WindowChoice{}, "", nil
	}
	ground, err := travel.NewGround(r, travel.Options{Seed: o.Seed})
	if err != nil {
		return nil, "", err
	}
	w := &windower{rig: r, ground: ground, now: fitted.Cell.Capacity / fitted.Cell.RatedAh}
	list, err := w.grid(fitted)
	if err != nil {
		return nil, "", err
	}
	if err := w.run(ctx, list, o.Workers); err != nil {
		return nil, "", err
	}
	return list, pick(list), nil
}

// windower tries windows on one rig.
type windower struct {
	rig    *rig.Rig
	ground *travel.Ground
	now    float64 // capacity over rated
}

// grid is the windows to try, today's first.
func (w *windower) grid(fitted *fit.Result) ([]WindowChoice, error) {
	list := []WindowChoice{windowChoice(fitted)}
	plain := *w.rig
	plain.Bank.Daily = nil
	res, err := fit.Run(&plain)
	if err != nil {
		return nil, err
	}
	high, low := widest(res)
	curve := res.Kind.Curve
	for _, above := range leftAbove {
		for _, below := range leftBelow {
			top, bottom := curve.Voltage(curve.SoC(high)-above), curve.Voltage(curve.SoC(low)+below)
			one, err := w.fitted(top, bottom)
			if err != nil {
				return nil, err
			}
			if !slices.ContainsFunc(list, one.same) {
				list = append(list, one)
			}
		}
	}
	return list, nil
}

// widest is the fullest daily window that fits, V per cell.
func widest(res *fit.Result) (high, low float64) {
	high, low = res.Daily.CellHighV, res.Daily.CellLowV
	for _, c := range res.Choices {
		if c.Name == "fuller" {
			high, low = c.CellHighV, c.CellLowV
		}
	}
	return high, low
}

// fitted is what fit makes of a window that is wanted.
func (w *windower) fitted(top, bottom float64) (WindowChoice, error) {
	res, err := fit.Run(w.with(top, bottom))
	if err != nil {
		return WindowChoice{}, err
	}
	return windowChoice(res), nil
}

func (w *windower) with(top, bottom float64) *rig.Rig {
	r := *w.rig
	r.Bank.Daily = daily(top, bottom)
	return &r
}

func windowChoice(res *fit.Result) WindowChoice {
	d := res.Daily
	return WindowChoice{Name: fmt.Sprintf("%.2f to %.2f V a cell", d.CellLowV, d.CellHighV), LowV: d.CellLowV, HighV: d.CellHighV, UsableWh: d.UsableWh}
}

// Set is the window as changes of the rig file, for fit to follow.
func (c *WindowChoice) Set() map[string]string {
	d := daily(c.HighV, c.LowV)
	return map[string]string{"bank.daily.high": fmt.Sprintf("%.3f V", float64(*d.High)), "bank.daily.low": fmt.Sprintf("%.3f V", float64(*d.Low))}
}

// same reports whether two windows differ by less than can be set.
func (c WindowChoice) same(o WindowChoice) bool { return c.Name == o.Name }

// run works the windows out, each in its own place.
func (w *windower) run(ctx context.Context, list []WindowChoice, workers int) error {
	ctx, cancel := context.WithCancelCause(ctx)
	defer cancel(nil)
	if workers <= 0 {
		workers = runtime.GOMAXPROCS(0)
	}
	jobs := make(chan int)
	var all sync.WaitGroup
	for range min(workers, len(list)) {
		all.Go(func() {
			for k := range jobs {
				if err := w.try(ctx, &list[k], k == 0); err != nil {
					cancel(err)
				}
			}
		})
	}
	for k := range list {
		select {
		case jobs <- k:
		case <-ctx.Done():
		}
	}
	close(jobs)
	all.Wait()
	return context.Cause(ctx)
}

// try works one window out: a year now, and a year with what ten such years leave.
func (w *windower) try(ctx context.Context, c *WindowChoice, today bool) error {
	r := w.rig
	if !today {
		r = w.with(c.HighV, c.LowV)
	}
	res, err := fit.Run(r)
	if err != nil {
		return err
	}
	trip, err := w.ground.Year(ctx, r, res)
	if err != nil {
		return err
	}
	c.ShortHours = trip.Year.UnservedH
	o := life.Options{Capacity: w.now, EndShare: endShare(res.Kind)}
	if c.ByCapacity, err = life.Years(res.Kind, trip, w.now, o); err != nil {
		return err
	}
	left, err := w.leftAfter(lateYears, res.Kind, trip)
	if err != nil {
		return err
	}
	late := &roads{ground: w.ground}
	c.ShortLate, err = late.late(ctx, r, left)
	return err
}

// leastLeft is the least capacity a bank is looked at with, share of rated.
const leastLeft = 0.3

// leftAfter is the share of the rated capacity left after some years like this
// one, to a thousandth.
func (w *windower) leftAfter(years float64, k *cell.Cell, trip *travel.Result) (float64, error) {
	low, high := leastLeft, w.now
	for high-low > 0.001 {
		middle := (low + high) / 2
		band, err := life.Years(k, trip, w.now, life.Options{Capacity: w.now, EndShare: middle})
		if err != nil {
			return 0, err
		}
		if band.Middle > years {
			high = middle
		} else {
			low = middle
		}
	}
	return high, nil
}

// pick marks and names the recommended window, and puts them in order: the widest
// first.
func pick(list []WindowChoice) string {
	today, best := list[0], 0
	for k, c := range list {
		if c.ShortHours > today.ShortHours+moreShort || c.ShortLate > today.ShortLate+moreShortLate {
			continue
		}
		b := list[best]
		longer := c.ByCapacity.Middle - b.ByCapacity.Middle
		if longer > sameYears || math.Abs(longer) <= sameYears && c.UsableWh > b.UsableWh {
			best = k
		}
	}
	list[best].Pick = true
	name := list[best].Name
	slices.SortStableFunc(list, func(a, b WindowChoice) int {
		return cmp.Or(cmp.Compare(b.HighV, a.HighV), cmp.Compare(a.LowV, b.LowV))
	})
	return name
}
