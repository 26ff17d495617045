package cli

import (
	"context"
	"errors"
	"fmt"

	"ampstead/disk"
	"ampstead/fit"
	"ampstead/keep"
	"ampstead/rig"
)

// errStop ends a run that worked but reports a stop finding.
var errStop = errors.New("a stop finding")

// inputError marks what the person can mend: usage or a file.
type inputError struct{ cause error }

func (e *inputError) Error() string { return e.cause.Error() }
func (e *inputError) Unwrap() error { return e.cause }

func badInput(err error) error {
	if err == nil {
		return nil
	}
	return &inputError{err}
}

// failureReport is what --json prints instead of a result.
type failureReport struct {
	Error *rig.Problem   `json:"error"`
	More  []*rig.Problem `json:"more,omitempty"` // further mistakes in the same file

	Doubts []keep.Doubt `json:"doubts,omitempty"` // values of a reading that look like slips
}

func errorReport(err error) failureReport {
	var several rig.Errors
	if errors.As(err, &several) && len(several) > 0 {
		return failureReport{Error: several[0], More: several[1:]}
	}
	var doubts *doubtful
	if errors.As(err, &doubts) {
		return failureReport{Error: &rig.Problem{Message: "values that look like slips; nothing was stored; --sure stores them as they are"}, Doubts: doubts.list}
	}
	var one *rig.Problem
	if errors.As(err, &one) {
		return failureReport{Error: one}
	}
	return failureReport{Error: &rig.Problem{Message: plainly(err)}}
}

// plainly adds to an error of the disk what a person can do about it.
func plainly(err error) string {
	if why := disk.Why(err); why != "" {
		return err.Error() + ": " + why
	}
	return err.Error()
}

// explain prints err for a person.
func (p *Program) explain(err error) {
	if errors.Is(err, context.Canceled) {
		fmt.Fprintln(p.Stderr, "ampstead: interrupted; nothing was left half-written")
		return
	}
	var several rig.Errors
	if !errors.As(err, &several) {
		fmt.Fprintln(p.Stderr, "ampstead:", plainly(err))
		return
	}
	for _, one := range several {
		fmt.Fprintln(p.Stderr, one)
	}
	if len(several) > 1 {
		fmt.Fprintf(p.Stderr, "%d mistakes; nothing was computed\n", len(several))
	}
}

// placed gives an input error of a stage its place in the rig file.
func placed(f *rig.File, err error) error {
	var in *fit.InputError
	if errors.As(err, &in) {
		return badInput(f.Problem(in.Path, in.Message, in.Expected, in.Example))
	}
	return err
}
