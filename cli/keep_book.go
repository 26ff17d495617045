package cli

import (
	"bytes"
	"errors"
	"fmt"
	"time"

	"ampstead/examples"
	"ampstead/fit"
	"ampstead/keep"
	"ampstead/logbook"
	"ampstead/rig"
	"ampstead/sheet"
	"ampstead/store"
)

// keptLog puts the logbook into the book: what it tells, or a sheet to fill in
// where none was begun. The years ahead come with the year on the road.
func (c *bookCommand) keptLog(r *run, file *rig.File, fitted *fit.Result, m *sheet.Model) (*sheet.Model, *keep.Result, error) {
	if !c.Keep {
		return m, nil, nil
	}
	if err := logbook.CheckServer(c.Store); err != nil {
		return nil, nil, badInput(err)
	}
	book, err := logbook.Open(r.ctx, file, c.Store, true)
	if err != nil {
		return nil, nil, bookError(err)
	}
	defer book.Close()
	log, err := logbook.Read(r.ctx, book)
	if err != nil {
		return nil, nil, bookError(err)
	}
	now := time.Now()
	res, err := log.Keep(r.ctx, file, fitted, now, c.Travel && len(log.Readings) > 0)
	var lacking *fit.InputError
	if errors.As(err, &lacking) {
		fmt.Fprintf(r.Stderr, "ampstead: the book is without the years ahead: %s: %s\n", lacking.Path, lacking.Message)
		res, err = log.Keep(r.ctx, file, fitted, now, false)
	}
	if err != nil {
		return nil, nil, placed(file, err)
	}
	return m.WithLog(res, logbook.In(log.Readings, now.Location())), res, nil
}

// exampleMeter is the one the invented log was read with.
var exampleMeter = store.Meter{Name: "cell meter", StepV: 0.001, ErrorV: 0.002}

// seedLog begins the logbook of an example with the invented log that comes with
// it, moved by whole weeks so that its last visit lies in the week past. A logbook
// that is there is left alone.
func seedLog(r *run, name string, file *rig.File) error {
	table, ok := examples.Log(name)
	if !ok || logbook.There(file, "") {
		return nil
	}
	now := time.Now()
	rows, err := logbook.ReadTable(bytes.NewReader(table), now.Location())
	if err != nil || len(rows) == 0 {
		return err
	}
	weeks := int(now.Sub(rows[len(rows)-1].Taken).Hours() / (7 * 24))
	for i := range rows {
		rows[i].Taken = rows[i].Taken.AddDate(0, 0, 7*weeks)
		rows[i].ID = logbook.ContentID(rows[i])
	}
	book, err := logbook.Open(r.ctx, file, "", false)
	if err != nil {
		return bookError(err)
	}
	defer book.Close()
	if err := book.SetMeter(r.ctx, exampleMeter); err != nil {
		return bookError(err)
	}
	if _, err := logbook.Import(r.ctx, book, rows); err != nil {
		return bookError(err)
	}
	fmt.Fprintf(r.Stdout, "%s has an invented log of %d visits: ampstead keep %s\n", file.Rig.About.Name, len(rows), file.Path)
	return nil
}
