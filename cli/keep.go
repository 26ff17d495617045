package cli

import (
	"errors"
	"fmt"
	"time"

	"ampstead/fit"
	"ampstead/keep"
	"ampstead/logbook"
	"ampstead/rig"
	"ampstead/store"
)

// keepCommand is the logbook: without a further word it says how the bank is doing.
type keepCommand struct {
	Show     keepShow     `cmd:"" default:"withargs" help:"How the bank is doing, what to do today, and when to come back."`
	Add      keepAdd      `cmd:"" help:"Enter a reading; a value that looks like a slip is asked back."`
	List     keepList     `cmd:"" help:"List the readings, or every version of one."`
	Correct  keepCorrect  `cmd:"" help:"Correct a reading by a new version, or withdraw it; the old versions stay."`
	Done     keepDone     `cmd:"" help:"Enter what was done: balanced, charged full, group exchanged, capacity test, other."`
	Meter    keepMeter    `cmd:"" help:"Enter a meter with its step and error, or list them."`
	Import   keepImport   `cmd:"" help:"Take in readings from a table; the same table can be given again."`
	Export   keepExport   `cmd:"" help:"Write out everything, all versions, as CSV or JSON."`
	Backup   keepBackup   `cmd:"" help:"Copy the logbook to a new file, also while others write."`
	Thin     keepThin     `cmd:"" help:"Drop old raw live values; their minutes, hours and days stay, and every reading."`
	Calendar keepCalendar `cmd:"" help:"Write the next visit and what has a date as an iCalendar file."`
	Accept   keepAccept   `cmd:"" help:"Show what the log would change in rig.yaml; --write does it."`
	Live     keepLive     `cmd:"" help:"Read from the MQTT broker of the rig file, store the values, tell of alarms. It protects nothing."`
}

// bookFlags are what every command of the logbook takes.
type bookFlags struct {
	Store string `placeholder:"URL" help:"A logbook on a PostgreSQL server, postgres://..., instead of the one in the rig's folder."`
	Now   string `placeholder:"TIME" help:"Reckon as if it were this time, such as 2026-11-20 17:30."`
}

// session is a logbook that is open, with its rig.
type session struct {
	*run
	file   *rig.File
	fitted *fit.Result
	book   *store.Book
	now    time.Time
	store  string
}

// clock reads --now.
func (f bookFlags) clock() (time.Time, error) {
	if f.Now == "" {
		return time.Now(), nil
	}
	at, ok := logbook.Instant(f.Now, time.Local)
	if !ok {
		return at, badInput(fmt.Errorf("--now %q: expected a time such as 2026-11-20 17:30", f.Now))
	}
	return at, nil
}

// begin opens rig and logbook; the caller closes it.
func (f bookFlags) begin(r *run, s stageFlags, readOnly bool) (*session, error) {
	now, err := f.clock()
	if err != nil {
		return nil, err
	}
	if err := logbook.CheckServer(f.Store); err != nil {
		return nil, badInput(err)
	}
	file, fitted, err := s.compute()
	if err != nil {
		return nil, err
	}
	out := &session{run: r, file: file, fitted: fitted, now: now, store: f.Store}
	out.book, err = logbook.Open(r.ctx, file, f.Store, readOnly)
	return out, bookError(err)
}

// bookError tells what the person can mend from a failure of the machine.
func bookError(err error) error {
	var invalid *store.Invalid
	for _, theirs := range []error{store.ErrDamaged, store.ErrNewer, store.ErrChanged, store.ErrConflict, store.ErrUnknown, store.ErrReadOnly} {
		if errors.Is(err, theirs) {
			return badInput(err)
		}
	}
	if errors.As(err, &invalid) {
		return badInput(err)
	}
	return err
}

func (s *session) close() { _ = s.book.Close() } // what was stored is on the disk already

// keep reads the logbook and reckons.
func (s *session) keep(life bool) (logbook.Log, *keep.Result, error) {
	log, err := logbook.Read(s.ctx, s.book)
	if err != nil {
		return log, nil, bookError(err)
	}
	res, err := log.Keep(s.ctx, s.file, s.fitted, s.now, life)
	if err != nil {
		return log, nil, placed(s.file, err)
	}
	return log, res, nil
}

// with opens a logbook for one command and closes it again.
func (f bookFlags) with(r *run, s stageFlags, readOnly bool, do func(*session) error) error {
	open, err := f.begin(r, s, readOnly)
	if err != nil {
		return err
	}
	defer open.close()
	return do(open)
}

// keepShow is the stage itself.
type keepShow struct {
	stageFlags `embed:""`
	bookFlags  `embed:""`
	Life       bool   `help:"Also run the years ahead: how long until the year leaves you short."`
	Draw       string `placeholder:"FOLDER" help:"Also write the pictures as SVG files into this folder."`
}

// Run reckons and prints.
func (c *keepShow) Run(r *run) error {
	return c.with(r, c.stageFlags, true, func(s *session) error {
		log, res, err := s.keep(c.Life)
		if err != nil {
			return err
		}
		if err := drawKeep(c.Draw, res, system(s.file.Rig)); err != nil {
			return err
		}
		if c.JSON {
			return s.report(res)
		}
		if len(log.Readings) == 0 {
			sayBegin(s)
			return nil
		}
		t := &keepText{w: c.out(r, s.file.Rig), res: res, sys: system(s.file.Rig)}
		t.print(s.file, log, s.fitted)
		return stopIfAny(res.Findings)
	})
}

// report prints what keep found as JSON, with own further keys of a command.
func (s *session) report(own any) error {
	res, ok := own.(*keep.Result)
	if w, is := own.(interface{ result() *keep.Result }); is {
		res, ok = w.result(), true
	}
	out := newReport("keep", s.file, nil, nil)
	if ok && res != nil {
		out = newReport("keep", s.file, res.Findings, res.Uses)
	}
	out.Keep = own
	if err := writeJSON(s.Stdout, out); err != nil {
		return err
	}
	return stopIfAny(out.Findings)
}
