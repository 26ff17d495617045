package keep

import (
	"context"
	"fmt"
	"math"
	"slices"
	"time"

	"ampstead/life"
	"ampstead/physics/ageing"
)

const (
	fitDays   = 180.0 // least span of capacity points for the model to be fitted to
	usualCell = 0.5   // state of charge where the log does not tell
	usualPace = 0.1   // of the capacity per hour, mean of charge and discharge in a house bank
	usualDip  = 0.3   // of the charge, the day's main cycle
)

// years runs the bank's life ahead from the capacity that the log tells, with the
// ageing model moved to the rig's own points where they say something.
func (s *study) years(ctx context.Context) error {
	o := life.Options{Capacity: s.res.Capacity.Share}
	multiplier, notes := 1.0, []string{"the log's capacities span too little time to move the model: its own band is used"}
	if s.pointDays() >= fitDays {
		band, err := s.fitted(ctx, o)
		if err != nil {
			return err
		}
		notes = []string{"the model predicts no loss for the use so far: its own band is used"}
		if (band != ageing.Band{}) {
			multiplier, o.Spread = band.Middle, band
			notes = []string{fmt.Sprintf("the model's loss is multiplied by %.2f (%.2f to %.2f), from %d capacities over %.0f days; use in between as in the year ahead, "+
				"at the charge and warmth of the log", band.Middle, band.Low, band.High, len(s.res.Capacity.Points), s.pointDays())}
		}
	}
	res, err := life.Run(ctx, s.rig, o)
	if err != nil {
		return err
	}
	s.res.Life = &Life{Model: res.Model, Multiplier: multiplier, ByCapacity: Band(res.ByCapacity), ByFunction: Band(res.ByFunction),
		FirstShort: s.calendarYear(res), Notes: append(notes, append(res.Outside, res.Beyond...)...)}
	return nil
}

// fitted weighs the rig's own capacities against the model. The zero Band: the
// model predicts no loss to compare with.
func (s *study) fitted(ctx context.Context, o life.Options) (ageing.Band, error) {
	o.Years = 1 // for the cycles of a year
	res, err := life.Run(ctx, s.rig, o)
	if err != nil {
		return ageing.Band{}, err
	}
	model, err := ageing.Lookup(res.Model)
	if err != nil {
		return ageing.Band{}, err
	}
	cycles := 0.0
	if len(res.Years) > 0 {
		cycles = res.Years[0].FullCycles
	}
	first := s.res.Capacity.Points[0]
	start := model.From(ageing.Past{Capacity: first.Ah / s.plant.ratedAh})
	var points []ageing.Point
	for _, p := range s.res.Capacity.Points[1:] {
		days := daysBetween(first.When, p.When)
		if days <= 0 {
			continue
		}
		grown := start
		grown.Add(s.stress(days, cycles))
		points = append(points, ageing.Point{Lost: (first.Ah - p.Ah) / s.plant.ratedAh, Predicted: start.Capacity() - grown.Capacity(),
			Error: math.Hypot(p.Err, first.Err) / s.plant.ratedAh})
	}
	if !slices.ContainsFunc(points, func(p ageing.Point) bool { return p.Predicted > 0 }) {
		return ageing.Band{}, nil
	}
	return ageing.FitMultiplier(points, model.Band)
}

// stress is the use between two capacities.
func (s *study) stress(days, cyclesAYear float64) ageing.Stress {
	var socs, temps []float64
	for _, v := range s.visits {
		socs, temps = append(socs, v.soc), append(temps, v.tempC)
	}
	return ageing.Stress{Days: days, SoC: or(middle(socs), usualCell), TempC: or(middle(temps), mildC), Depth: usualDip,
		Throughput: cyclesAYear * days / daysAYear, CRate: usualPace}
}

func or(v, otherwise float64) float64 {
	if known(v) {
		return v
	}
	return otherwise
}

func (s *study) pointDays() float64 {
	p := s.res.Capacity.Points
	if len(p) == 0 {
		return 0
	}
	return daysBetween(p[0].When, p[len(p)-1].When)
}

func daysBetween(from, to string) float64 {
	a, err1 := time.Parse(time.DateOnly, from)
	b, err2 := time.Parse(time.DateOnly, to)
	if err1 != nil || err2 != nil {
		return 0
	}
	return b.Sub(a).Hours() / hoursADay
}

// calendarYear names the first short month with its year: "January 2034".
func (s *study) calendarYear(res *life.Result) string {
	var month string
	var year int
	if n, _ := fmt.Sscanf(res.FirstShort, "%s of year %d", &month, &year); n != 2 {
		return res.FirstShort
	}
	m, err := time.Parse("January", month)
	if err != nil {
		return res.FirstShort
	}
	// Year 1 is the twelve months from now.
	at := s.o.Now.Year() + year - 1
	if m.Month() < s.o.Now.Month() {
		at++
	}
	return fmt.Sprintf("%s %d", month, at)
}
