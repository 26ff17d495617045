package cli

import (
	"errors"
	"io"
	"os"
	"path/filepath"
	"strings"
	"time"

	"ampstead/benchlog"
	"ampstead/fit"
	"ampstead/prove"
	"ampstead/quantity"
	"ampstead/rig"
)

func (p *proof) measure() ([]proven, error) {
	var all []proven
	for _, path := range p.logs {
		res, err := p.one(path)
		if err != nil {
			return nil, err
		}
		all = append(all, proven{path, res})
	}
	if p.c.Remember {
		if err := p.shelf.SetLayout(p.layout); err != nil {
			return nil, badInput(err)
		}
	}
	return all, nil
}

// one streams a log through the analysis; what has been read of it is shown on
// standard error.
func (p *proof) one(path string) (*prove.Result, error) {
	file, err := os.Open(path)
	if err != nil {
		return nil, badInput(&logProblem{File: path, Message: "cannot be opened: " + reason(err), Expected: "a log of a meter", Example: "test.csv"})
	}
	defer file.Close()
	bar := newProgress(p.Stderr, "MB of "+filepath.Base(path))
	defer bar.end()
	total := 0
	if info, err := file.Stat(); err == nil {
		total = megabytes(info.Size())
	}
	counted := &counter{from: file, tell: func(read int64) { bar.tell(megabytes(read), total) }}
	res, err := prove.Run(p.ctx, path, counted, p.layout, p.known)
	if err != nil {
		return nil, p.blame(path, err)
	}
	return res, nil
}

func megabytes(n int64) int { return int((n + 1<<19) >> 20) }

// counter tells how much was read through it.
type counter struct {
	from io.Reader
	read int64
	tell func(read int64)
}

func (c *counter) Read(b []byte) (int, error) {
	n, err := c.from.Read(b)
	c.read += int64(n)
	c.tell(c.read)
	return n, err
}

// reason drops operation and path from an error of the file system.
func reason(err error) string {
	var at *os.PathError
	if errors.As(err, &at) {
		return at.Err.Error()
	}
	return err.Error()
}

// blame says of an error whether the log, a flag or the rig is at fault.
func (p *proof) blame(path string, err error) error {
	var in *fit.InputError
	var log *benchlog.Error
	switch {
	case errors.As(err, &log):
		return badInput(&logProblem{File: log.File, Line: log.Line, Column: log.Column, Message: log.Message, Expected: log.Expected, Example: log.Example})
	case errors.As(err, &in) && p.file != nil && strings.Contains(in.Path, "."):
		return placed(p.file, err)
	case errors.As(err, &in) && in.Path == "log":
		return badInput(&logProblem{File: path, Message: in.Message, Expected: in.Expected, Example: in.Example})
	case errors.As(err, &in):
		return badInput(&logProblem{File: path, Path: "--" + in.Path, Message: in.Message, Expected: in.Expected, Example: in.Example})
	}
	return err
}

// logProblem is a problem of a log, which need not have a line.
type logProblem rig.Problem

func (p *logProblem) Error() string {
	if p.Line > 0 {
		return (*rig.Problem)(p).Error()
	}
	text := p.File + ": "
	if p.Path != "" {
		text = p.Path + ": " // a flag
	}
	text += p.Message
	if hint := (*rig.Problem)(p).Hint(); hint != "" {
		text += "; " + hint
	}
	return text
}

func (p *logProblem) Unwrap() error { return (*rig.Problem)(p) }

// numberOf reads a quantity with its unit, or a bare number in the base unit.
func numberOf(d *quantity.Dimension, text string) (float64, error) {
	if text == "" {
		return 0, nil
	}
	if v, err := d.Parse(text + " " + d.Base); err == nil {
		return v, nil
	}
	return d.Parse(text)
}

// today is the day a test is dated with.
func today() string { return time.Now().Format(time.DateOnly) }
