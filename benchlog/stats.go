package benchlog

import (
	"math"
	"slices"
)

// stats is what the head of a file shows of a column.
type stats struct {
	n, numbers, clocks, dates, moments, words int
	values                                    []float64 // one a row, NaN where there is no number
	min, max, median                          float64   // of the numbers
	step                                      float64   // median of the steps between rows that are not zero, without sign
	rises, falls                              int       // steps up and down
	leap                                      float64   // the largest of them, without sign
	whole                                     bool      // every number is whole
	unit                                      string    // what stands behind the numbers
}

func statsOf(p *sample, column int) stats {
	s := stats{min: math.Inf(1), max: math.Inf(-1), whole: true, median: math.NaN(), values: make([]float64, len(p.rows))}
	for i, row := range p.rows {
		s.values[i] = math.NaN()
		if column < len(row) {
			s.take(row[column], p.shape.mark, i)
		}
	}
	s.finish()
	return s
}

func (s *stats) take(field []byte, mark byte, row int) {
	k := kindOf(field, mark)
	if k == isAbsent {
		return
	}
	s.n++
	switch k {
	case isClock:
		s.clocks++
	case isDate:
		s.dates++
	case isMoment:
		s.moments++
	case isNumber:
		v, rest, _ := number(field, mark)
		s.numbers++
		s.values[row] = v
		s.whole = s.whole && v == math.Trunc(v)
		if len(rest) > 0 {
			s.unit = text(rest)
		}
	default:
		s.words++
	}
}

func (s *stats) finish() {
	var sorted, steps []float64
	last := math.NaN()
	for _, v := range s.values {
		if math.IsNaN(v) {
			continue
		}
		sorted = append(sorted, v)
		switch d := v - last; {
		case d > 0:
			s.rises++
			steps = append(steps, d)
		case d < 0:
			s.falls++
			steps = append(steps, -d)
		}
		if last == last {
			s.leap = max(s.leap, math.Abs(v-last))
		}
		last = v
	}
	s.median, s.step = medianOf(sorted), medianOf(steps)
	if len(sorted) > 0 {
		s.min, s.max = sorted[0], sorted[len(sorted)-1]
	}
}

// medianOf sorts its argument.
func medianOf(list []float64) float64 {
	if len(list) == 0 {
		return math.NaN()
	}
	slices.Sort(list)
	return list[len(list)/2]
}

// numeric reports whether nearly all of a column that is there is numbers.
func (s *stats) numeric() bool { return s.numbers > 0 && s.numbers >= s.n-s.n/10 }

// timely reports whether a column is clocks, dates or both.
func (s *stats) timely() bool {
	return s.clocks+s.dates+s.moments > 0 && s.clocks+s.dates+s.moments >= s.n-s.n/10
}

// constant reports whether a column has one value only.
func (s *stats) constant() bool { return s.rises+s.falls == 0 }
