package cli

import (
	"errors"
	"fmt"
	"io"
	"strings"

	"ampstead/keep"
	"ampstead/logbook"
	"ampstead/rig"
	"ampstead/sheet"
	"ampstead/store"
)

// entryFlags are the values of a reading, as a person gives them.
type entryFlags struct {
	Groups  string   `placeholder:"\"3.91 3.92 ...\"" help:"Voltage of every group, 1 at the negative end first; a dash for one that was not read."`
	Bank    string   `placeholder:"V" help:"Voltage of the whole bank."`
	Current string   `placeholder:"A" help:"Current while reading, positive charging; --current=-12 while discharging."`
	Temp    []string `sep:"none" placeholder:"°C" help:"Temperature of the bank. Repeatable."`
	Rested  string   `placeholder:"H" help:"Hours since the last current: 2, or \"30 min\"."`
	Counter string   `placeholder:"Ah" help:"The charge counter of a battery monitor, positive charging, as it stands."`
	Meter   string   `placeholder:"NAME" help:"Which meter; the default is the one used last."`
	Note    string   `placeholder:"TEXT" help:"Anything worth remembering."`
	Taken   string   `placeholder:"TIME" help:"When it was read; the default is now."`
	Sure    bool     `help:"Store it although a value looks like a slip."`
}

func (f entryFlags) entry(groups []string) logbook.Entry {
	return logbook.Entry{Taken: f.Taken, Groups: groups, Bank: f.Bank, Current: f.Current, Temps: strings.Join(f.Temp, ";"),
		Rested: f.Rested, Counter: f.Counter, Meter: f.Meter, Note: f.Note}
}

type keepAdd struct {
	Args       []string `arg:"" optional:"" name:"rig" help:"The rig, a folder or file; - reads the groups from standard input, a column pasted for example."`
	entryFlags `embed:""`
	bookFlags  `embed:""`
	ID         string `name:"id" placeholder:"ID" help:"ID of the reading; the default is made from what it says, so that the same one is stored once."`
	JSON       bool   `help:"Print the result as JSON (docs/json.md)."`
}

// added is the JSON of a reading that was stored.
type added struct {
	Stored store.Reading `json:"stored"`
	Fresh  bool          `json:"fresh"` // false: it was there already
	*keep.Result
}

func (a added) result() *keep.Result { return a.Result }

// Run stores a reading and says what follows from it.
func (c *keepAdd) Run(r *run) error {
	path, paste, err := rigAndDash(c.Args)
	if err != nil {
		return err
	}
	groups, err := c.groups(r, paste)
	if err != nil {
		return err
	}
	return c.with(r, stageFlags{Rig: path, JSON: c.JSON}, false, func(s *session) error { return c.store(s, groups) })
}

// rigAndDash tells the rig from the dash among the arguments.
func rigAndDash(args []string) (path string, dash bool, err error) {
	path = "."
	given := false
	for _, arg := range args {
		switch {
		case arg == "-":
			dash = true
		case given:
			return "", false, badInput(fmt.Errorf("%s and %s: expected one rig", path, arg))
		default:
			path, given = arg, true
		}
	}
	return path, dash, nil
}

// mostPaste is the most that is read of what is pasted, bytes.
const mostPaste = 64 << 10

func (c *keepAdd) groups(r *run, paste bool) ([]string, error) {
	if !paste {
		return logbook.Values(c.Groups), nil
	}
	if c.Groups != "" {
		return nil, badInput(errors.New("- and --groups both give the groups: one of them"))
	}
	text, err := io.ReadAll(io.LimitReader(r.Stdin, mostPaste))
	if err != nil {
		return nil, err
	}
	groups := logbook.Values(string(text))
	if len(groups) == 0 {
		return nil, badInput(errors.New("nothing was pasted: expected the voltage of each group, one a line"))
	}
	return groups, nil
}

func (c *keepAdd) store(s *session, groups []string) error {
	entry := c.entry(groups)
	entry.ID = c.ID
	reading, err := readEntry(s, entry)
	if err != nil {
		return err
	}
	log, err := logbook.Read(s.ctx, s.book)
	if err != nil {
		return bookError(err)
	}
	if reading.Meter == "" {
		reading.Meter = log.Meter()
	}
	if c.ID == "" {
		reading.ID = logbook.ContentID(reading)
	}
	if !c.Sure {
		if err := askBack(s.file.Rig, log.Readings, reading); err != nil {
			return err
		}
	}
	stored, fresh, err := s.book.Add(s.ctx, reading)
	if err != nil {
		return bookError(err)
	}
	return s.sayStored(stored, fresh, c.JSON)
}

// readEntry reads what was typed; what cannot be read is said by flag.
func readEntry(s *session, e logbook.Entry) (store.Reading, error) {
	reading, err := e.Reading(s.now, system(s.file.Rig))
	if err == nil {
		err = logbook.Fits(s.file.Rig, reading)
	}
	var wrong logbook.Mistakes
	if errors.As(err, &wrong) {
		var list rig.Errors
		for _, m := range wrong {
			list = append(list, &rig.Problem{Path: flagOf(m.Field), Message: m.Message})
		}
		return reading, badInput(&notStored{list})
	}
	return reading, err
}

// flagNames are the flags of the fields.
var flagNames = map[string]string{"bank_v": "--bank", "current_a": "--current", "temperatures_c": "--temp", "rested_h": "--rested", "counter_ah": "--counter", "taken": "--taken", "groups": "--groups", "meter": "--meter"}

// flagOf names a field as the command line does: "--groups, group 4".
func flagOf(field string) string {
	if n, ok := strings.CutPrefix(field, "groups."); ok {
		return "--groups, group " + n
	}
	if strings.HasPrefix(field, "temperatures.") {
		return "--temp"
	}
	if flag := flagNames[field]; flag != "" {
		return flag
	}
	return field
}

// notStored is what was wrong with a reading, field by field.
type notStored struct{ list rig.Errors }

func (e *notStored) Error() string {
	var lines []string
	for _, p := range e.list {
		lines = append(lines, p.Path+": "+p.Message)
	}
	return strings.Join(lines, "\n") + "\nNothing was stored."
}

// Unwrap gives the first for JSON, which has a place for each.
func (e *notStored) Unwrap() error { return e.list[0] }

// askBack puts the doubts there are about a reading, as an error.
func askBack(r *rig.Rig, before []store.Reading, reading store.Reading) error {
	doubts := keep.Question(r, before, reading)
	if len(doubts) == 0 {
		return nil
	}
	return badInput(&doubtful{doubts})
}

// doubtful is a reading that looks like a slip.
type doubtful struct{ list []keep.Doubt }

func (d *doubtful) Error() string {
	var lines []string
	for _, one := range d.list {
		line := flagOf(one.Field) + ": " + one.Found
		if one.Perhaps != "" {
			line += "; perhaps " + one.Perhaps + "?"
		}
		lines = append(lines, line)
	}
	return strings.Join(lines, "\n") + "\nNothing was stored. Give it again as it should be, or with --sure as it is."
}

// sayStored prints what was stored and what follows from it.
func (s *session) sayStored(reading store.Reading, fresh bool, asJSON bool) error {
	log, res, err := s.keep(false)
	if err != nil {
		return err
	}
	if asJSON {
		return s.report(added{reading, fresh, res})
	}
	reading.Taken = reading.Taken.In(s.now.Location())
	row := sheet.RowOf(reading, system(s.file.Rig))
	what := "Stored"
	switch {
	case !fresh:
		what = "It was there already"
	case reading.Version > 1:
		what = fmt.Sprintf("Stored as version %d", reading.Version)
	}
	fmt.Fprintf(s.Stdout, "%s: %s, %s, ID %s.\n", what, row.When, groupsRead(reading), reading.ID)
	model := sheet.New(s.file, s.fitted, system(s.file.Rig)).WithLog(res, log.Readings)
	printLines(s.Stdout, model.Log.Answer)
	return nil
}

func groupsRead(r store.Reading) string {
	n := 0
	for _, v := range r.Groups {
		if v != nil {
			n++
		}
	}
	if n == 1 {
		return "1 group"
	}
	return fmt.Sprintf("%d groups", n)
}
