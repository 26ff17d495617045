package cli

import (
	"errors"
	"fmt"
	"strings"

	"ampstead/logbook"
	"ampstead/sheet"
	"ampstead/store"
)

type keepCorrect struct {
	ID         string `arg:"" name:"id" help:"ID of the reading; ampstead keep list shows it."`
	Rig        string `arg:"" optional:"" default:"." help:"The rig, a folder or file."`
	entryFlags `embed:""`
	bookFlags  `embed:""`
	Withdraw   bool `help:"Take the reading out of the log; its versions stay."`
	Version    int  `placeholder:"N" help:"The version that is corrected; the default is the latest."`
	JSON       bool `help:"Print the result as JSON (docs/json.md)."`
}

// Run stores the next version of a reading.
func (c *keepCorrect) Run(r *run) error {
	return c.with(r, stageFlags{Rig: c.Rig, JSON: c.JSON}, false, func(s *session) error {
		versions, err := s.book.Versions(s.ctx, c.ID)
		if err != nil {
			return bookError(err)
		}
		if len(versions) == 0 {
			return badInput(fmt.Errorf("%s: no such reading; ampstead keep list shows the IDs", c.ID))
		}
		latest := versions[len(versions)-1]
		if c.Version == 0 {
			c.Version = latest.Version
		}
		if c.Withdraw {
			return c.withdraw(s)
		}
		return c.correct(s, latest)
	})
}

func (c *keepCorrect) withdraw(s *session) error {
	if c.Groups+c.Bank+c.Current+c.Rested+c.Counter+c.Meter+c.Taken != "" || len(c.Temp) > 0 {
		return badInput(errors.New("--withdraw takes no values: give it with --note at most"))
	}
	if err := s.book.Withdraw(s.ctx, c.ID, c.Version, c.Note); err != nil {
		return bookError(err)
	}
	if c.JSON {
		versions, err := s.book.Versions(s.ctx, c.ID)
		if err != nil {
			return bookError(err)
		}
		return s.report(struct {
			Versions []store.Reading `json:"versions"`
		}{versions})
	}
	fmt.Fprintf(s.Stdout, "Withdrawn: %s. Its earlier versions stay: ampstead keep list --id %s\n", c.ID, c.ID)
	return nil
}

// correct puts what was given over the latest version.
func (c *keepCorrect) correct(s *session, latest store.Reading) error {
	given, err := readEntry(s, c.entry(logbook.Values(c.Groups)))
	if err != nil {
		return err
	}
	next := over(latest, given, c.entryFlags)
	next.Version = c.Version
	if !c.Sure {
		log, err := logbook.Read(s.ctx, s.book)
		if err != nil {
			return bookError(err)
		}
		if err := askBack(s.file.Rig, without(log.Readings, c.ID), next); err != nil {
			return err
		}
	}
	stored, err := s.book.Correct(s.ctx, next)
	if err != nil {
		return bookError(err)
	}
	return s.sayStored(stored, true, c.JSON)
}

// over takes from given what the flags name.
func over(r, given store.Reading, f entryFlags) store.Reading {
	r.Entered = given.Entered // when it is stored
	if f.Groups != "" {
		r.Groups = given.Groups
	}
	if f.Taken != "" {
		r.Taken = given.Taken
	}
	if len(f.Temp) > 0 {
		r.TempsC = given.TempsC
	}
	for _, one := range []struct {
		text     string
		to, from *(*float64)
	}{{f.Bank, &r.BankV, &given.BankV}, {f.Current, &r.Amps, &given.Amps}, {f.Rested, &r.RestH, &given.RestH}, {f.Counter, &r.CountAh, &given.CountAh}} {
		if one.text != "" {
			*one.to = *one.from
		}
	}
	if f.Meter != "" {
		r.Meter = given.Meter
	}
	if f.Note != "" {
		r.Note = given.Note
	}
	return r
}

func without(list []store.Reading, id string) []store.Reading {
	var out []store.Reading
	for _, r := range list {
		if r.ID != id {
			out = append(out, r)
		}
	}
	return out
}

type keepList struct {
	Rig       string `arg:"" optional:"" default:"." help:"The rig, a folder or file."`
	bookFlags `embed:""`
	ID        string `name:"id" placeholder:"ID" help:"All versions of this reading, withdrawn or not."`
	JSON      bool   `help:"Print the result as JSON (docs/json.md)."`
}

// Run lists readings.
func (c *keepList) Run(r *run) error {
	return c.with(r, stageFlags{Rig: c.Rig, JSON: c.JSON}, true, func(s *session) error {
		list, err := s.book.Readings(s.ctx)
		if c.ID != "" {
			list, err = s.book.Versions(s.ctx, c.ID)
		}
		if err != nil {
			return bookError(err)
		}
		if c.ID != "" && len(list) == 0 {
			return badInput(fmt.Errorf("%s: no such reading; ampstead keep list shows the IDs", c.ID))
		}
		if c.JSON {
			return s.report(struct {
				Readings []store.Reading `json:"readings"`
			}{append([]store.Reading{}, list...)})
		}
		s.print(list)
		return nil
	})
}

// print lists readings, the version where it is not the first.
func (s *session) print(list []store.Reading) {
	if len(list) == 0 {
		sayBegin(s)
		return
	}
	var tab table
	for _, r := range list {
		r.Taken = r.Taken.In(s.now.Location())
		row := sheet.RowOf(r, system(s.file.Rig))
		id := row.ID
		switch {
		case r.Gone:
			id += fmt.Sprintf(" v%d withdrawn", row.Version)
		case row.Version > 1:
			id += fmt.Sprintf(" v%d", row.Version)
		}
		tab.row(row.When, id, given("bank", row.Bank)+given("apart", row.Apart)+given("rested", row.Rested)+strings.Join(row.Groups, " ")+given("", row.Note))
	}
	tab.print(s.Stdout)
}

// given writes a value after its name, nothing when there is none.
func given(name, text string) string {
	switch {
	case text == "":
		return ""
	case name == "":
		return "; " + text
	}
	return name + " " + text + "; "
}
