package ageing

import (
	"errors"
	"math"
)

// Band is a multiplier on a model's loss. For a model used on the chemistry it
// was fitted to, Low and High are the tenth and ninetieth percentile and Middle
// the median of measured loss over predicted loss, over the conditions compared;
// for one used by likeness Low and High are the extremes.
type Band struct {
	Low, Middle, High float64
}

// Point is one capacity test of a rig's own.
type Point struct {
	Lost      float64 // measured since the model was started, fraction of new
	Predicted float64 // by the model with multiplier 1, for the use in between
	Error     float64 // standard error of the measured loss; 0: 0.01
}

// FitMultiplier weighs capacity tests against what is known beforehand, the
// model's Band (the zero Band: nothing), and returns the multiplier with its
// range of two standard errors. The tests speak by the size of the loss they
// saw: a year of 1 % loss measured to 1 % hardly moves the band.
// Errors: no test in which the model predicts a loss.
func FitMultiplier(points []Point, before Band) (Band, error) {
	weight, sum := 0.0, 0.0
	for _, p := range points {
		err := p.Error
		if err <= 0 {
			err = 0.01
		}
		weight += p.Predicted * p.Predicted / (err * err)
		sum += p.Predicted * p.Lost / (err * err)
	}
	if !(weight > 0) {
		return Band{}, errors.New("no capacity test in which the model predicts a loss")
	}
	if before.High > before.Low {
		sigma := (before.High - before.Low) / (2 * tenth)
		weight += 1 / (sigma * sigma)
		sum += before.Middle / (sigma * sigma)
	}
	middle, sigma := sum/weight, 1/math.Sqrt(weight)
	return Band{Low: max(0, middle-2*sigma), Middle: max(0, middle), High: max(0, middle+2*sigma)}, nil
}

// tenth is how many standard deviations the tenth percentile of a normal
// distribution lies from its middle.
const tenth = 1.2816
