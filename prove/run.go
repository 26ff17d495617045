package prove

import (
	"context"
	"io"

	"ampstead/benchlog"
)

// Run measures a log and judges what was tested. One pass, in bounded memory.
// Errors: *fit.InputError for an option that does not fit the log or the cell,
// *benchlog.Error for a log that cannot be understood.
func Run(ctx context.Context, name string, log io.Reader, layout benchlog.Options, o Options) (*Result, error) {
	s, err := newStudy(o)
	if err != nil {
		return nil, err
	}
	if s.sum, err = benchlog.Read(ctx, name, log, layout, s.take); err != nil {
		return nil, err
	}
	if err := s.measure(); err != nil {
		return nil, err
	}
	if err := s.judge(); err != nil {
		return nil, err
	}
	s.res.Uses = s.figures.Uses
	return s.res, s.figures.Err
}

// progressEvery is how many rows pass between two calls of Progress.
const progressEvery = 20000

func (s *study) take(row *benchlog.Row) error {
	if s.o.Progress != nil && s.in.rows%progressEvery == 0 {
		s.o.Progress(s.in.rows)
	}
	return s.in.take(row)
}

// measure works up what the pass over the rows has left.
func (s *study) measure() error {
	s.segs = s.in.finish()
	if err := s.setSeries(); err != nil {
		return err
	}
	s.setLimits()
	s.jumps = s.jumpsOf()
	spans := s.spansOf()
	s.findOhm(spans)
	s.res.Cycles = s.capacities(spans)
	s.extrapolateParts(spans)
	s.setCapacity()
	s.setEfficiency(spans)
	s.setResistance(spans)
	s.report()
	s.checkLog()
	s.res.Chart = s.chart()
	return nil
}

// report copies what is shown as it was found.
func (s *study) report() {
	r := s.res
	r.Layout, r.Rows, r.Unread, r.UnreadAll = s.sum.Layout, s.sum.Rows, s.sum.Unread, s.sum.UnreadAll
	r.Segments = make([]Segment, len(s.segs))
	for k := range s.segs {
		r.Segments[k] = s.segs[k].Segment
	}
	if rise, ok := s.in.warmth.rise(); ok {
		r.RiseK = &rise
	}
}
