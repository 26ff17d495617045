package cli

import (
	"fmt"
	"time"

	"ampstead/logbook"
	"ampstead/quantity"
	"ampstead/rig"
)

// shortestKept is the least age at which raw live values may go: the page draws
// the last days from them.
const shortestKept = 14 * 24 * time.Hour

type keepThin struct {
	Rig       string `arg:"" optional:"" default:"." help:"The rig, a folder or file."`
	Older     string `default:"365 d" help:"How old raw live values must be to go, such as '90 d'; at least 14 d."`
	bookFlags `embed:""`
	JSON      bool `help:"Print what was done as JSON."`
}

// thinning is what the command did.
type thinning struct {
	Before time.Time `json:"before"`
	Hours  int64     `json:"series_hours"` // hours of one series that went
}

// Run drops old raw live values; their minutes, hours and days stay, and so does
// every reading.
func (c *keepThin) Run(r *run) error {
	seconds, err := quantity.Seconds.Parse(c.Older)
	age := time.Duration(seconds * float64(time.Second))
	if err != nil || age < shortestKept {
		return badInput(fmt.Errorf("--older %q: expected an age of at least 14 d, such as 90 d", c.Older))
	}
	if file, err := rig.Open(c.Rig); err == nil && !logbook.There(file, c.Store) {
		fmt.Fprintln(r.Stdout, "There is no logbook yet; nothing was done.")
		return nil
	}
	return c.with(r, stageFlags{Rig: c.Rig, JSON: c.JSON}, false, func(s *session) error {
		done := thinning{Before: s.now.Add(-age)}
		if done.Hours, err = s.book.Thin(s.ctx, done.Before); err != nil {
			return bookError(err)
		}
		if c.JSON {
			return s.report(done)
		}
		fmt.Fprintf(r.Stdout, "Raw live values from before %s are gone: %d hours, counted for each series. Their minutes, hours and days stay, and every reading.\nThe file does not shrink; the room is used again.\n",
			done.Before.In(s.now.Location()).Format("2 January 2006"), done.Hours)
		return nil
	})
}
