package cli

import (
	"errors"
	"fmt"
	"slices"
	"strconv"
	"strings"
	"time"

	"ampstead/logbook"
	"ampstead/quantity"
	"ampstead/store"
)

type keepDone struct {
	What      string `arg:"" help:"balanced, charged full, group exchanged, capacity test or other."`
	Rig       string `arg:"" optional:"" default:"." help:"The rig, a folder or file."`
	At        string `placeholder:"TIME" help:"When; the default is now."`
	Ah        string `placeholder:"\"0 0 -2.1 ...\"" help:"Charge added to each group, negative where it was bled, in Ah."`
	Value     string `placeholder:"Ah" help:"What a capacity test found."`
	Note      string `placeholder:"TEXT" help:"Anything worth remembering."`
	bookFlags `embed:""`
	JSON      bool `help:"Print what was stored as JSON."`
}

// doings are the words that keep understands.
var doings = []string{"balanced", "charged full", "group exchanged", "capacity test", "other"}

// Run stores what was done.
func (c *keepDone) Run(r *run) error {
	return c.with(r, stageFlags{Rig: c.Rig, JSON: c.JSON}, false, func(s *session) error {
		done, err := c.done(s)
		if err != nil {
			return badInput(err)
		}
		if err := s.book.AddDone(s.ctx, done); err != nil {
			return bookError(err)
		}
		if c.JSON {
			return s.report(struct {
				Done store.Done `json:"done"`
			}{done})
		}
		fmt.Fprintf(r.Stdout, "Stored: %s on %s. Drift is reckoned anew from there.\n", done.What, done.At.Format("2 January 2006 15:04"))
		return nil
	})
}

func (c *keepDone) done(s *session) (store.Done, error) {
	d := store.Done{At: s.now, What: strings.ToLower(strings.TrimSpace(c.What)), Note: c.Note}
	if !slices.Contains(doings, d.What) {
		return d, fmt.Errorf("%q: expected one of %s", c.What, strings.Join(doings, ", "))
	}
	if c.At != "" {
		at, ok := logbook.Instant(c.At, time.Local)
		if !ok {
			return d, fmt.Errorf("--at %q: expected a time such as 2026-11-20 17:30", c.At)
		}
		d.At = at
	}
	for i, text := range logbook.Values(c.Ah) {
		v, err := strconv.ParseFloat(strings.Replace(strings.TrimSuffix(text, " Ah"), ",", ".", 1), 64)
		if text != "" && err != nil {
			return d, fmt.Errorf("--ah, group %d: %q is no number; expected Ah for each group such as \"0 0 -2.1 0\"", i+1, text)
		}
		d.Ah = append(d.Ah, v)
	}
	if n := s.file.Rig.Bank.Series; len(d.Ah) > n {
		return d, fmt.Errorf("--ah: %d values, and the bank has %d groups", len(d.Ah), n)
	}
	v, err := numberOf(quantity.AmpereHours, strings.Replace(c.Value, ",", ".", 1))
	if err != nil {
		return d, fmt.Errorf("--value %q: %w", c.Value, err)
	}
	if c.Value != "" {
		d.Value = &v
	}
	if d.What == "capacity test" && d.Value == nil {
		return d, errors.New("a capacity test needs what it found: --value \"168 Ah\"")
	}
	d.ID = logbook.DoneID(d)
	return d, nil
}

type keepMeter struct {
	Args      []string `arg:"" optional:"" name:"name-and-rig" help:"Name of the meter, then the rig; without --step and --error only the rig, to list the meters."`
	Step      string   `placeholder:"mV" help:"The finest step it shows, such as \"1 mV\"."`
	Error     string   `placeholder:"mV" help:"How far one reading of it may be off, one standard error, such as \"5 mV\"."`
	bookFlags `embed:""`
	JSON      bool `help:"Print the meters as JSON."`
}

// Run enters a meter or lists those there are.
func (c *keepMeter) Run(r *run) error {
	set := c.Step != "" || c.Error != ""
	path, name := ".", ""
	args := c.Args
	if set {
		if len(args) == 0 {
			return badInput(errors.New("--step and --error are of a meter: name it, such as ampstead keep meter \"cell meter\" --step \"1 mV\" --error \"5 mV\""))
		}
		name, args = args[0], args[1:]
	}
	switch len(args) {
	case 0:
	case 1:
		path = args[0]
	default:
		return badInput(fmt.Errorf("%s and %s: expected one rig", args[0], args[1]))
	}
	return c.with(r, stageFlags{Rig: path, JSON: c.JSON}, !set, func(s *session) error {
		if set {
			if err := c.set(s, name); err != nil {
				return err
			}
		}
		return c.list(s)
	})
}

func (c *keepMeter) set(s *session, name string) error {
	m := store.Meter{Name: name}
	known, err := s.book.Meters(s.ctx)
	if err != nil {
		return bookError(err)
	}
	for _, k := range known {
		if k.Name == name {
			m = k
		}
	}
	for _, f := range []struct {
		flag, text string
		to         *float64
	}{{"--step", c.Step, &m.StepV}, {"--error", c.Error, &m.ErrorV}} {
		if f.text == "" {
			continue
		}
		v, err := quantity.Volts.Parse(strings.Replace(f.text, ",", ".", 1))
		if err != nil {
			return badInput(fmt.Errorf("%s %q: %w; example: %s \"5 mV\"", f.flag, f.text, err, f.flag))
		}
		*f.to = v
	}
	return bookError(s.book.SetMeter(s.ctx, m))
}

func (c *keepMeter) list(s *session) error {
	meters, err := s.book.Meters(s.ctx)
	if err != nil {
		return bookError(err)
	}
	if c.JSON {
		return s.report(struct {
			Meters []store.Meter `json:"meters"`
		}{append([]store.Meter{}, meters...)})
	}
	if len(meters) == 0 {
		fmt.Fprintln(s.Stdout, "No meter is entered: ampstead keep meter NAME --step \"1 mV\" --error \"5 mV\"")
		return nil
	}
	var tab table
	for _, m := range meters {
		tab.row(m.Name, "step "+quantity.Volts.Fixed(m.StepV, "mV", 1), "error "+quantity.Volts.Fixed(m.ErrorV, "mV", 1))
	}
	tab.print(s.Stdout)
	return nil
}
