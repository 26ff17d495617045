package cli

import (
	"errors"
	"fmt"
	"os"
	"strings"
	"time"

	"ampstead/fit"
	"ampstead/picture"
	"ampstead/rig"
	"ampstead/travel"
	"ampstead/weather"
	"ampstead/weather/hourly"
)

type travelCommand struct {
	stageFlags `embed:""`
	Years      int           `default:"10" help:"Weather years to reckon; the bands are over all of them."`
	Seed       uint64        `help:"Another seed draws other weather and other days."`
	Weather    string        `placeholder:"FILE" help:"An hourly weather file with whole years, instead of synthetic years."`
	Step       time.Duration `default:"60s" help:"Time step of sun and habits: divides an hour."`
	Span       string        `placeholder:"MM-DD" help:"With --json: also a stretch of the first year in full detail, from this day."`
	Days       int           `default:"7" help:"Days in that stretch, at most 31."`
	Draw       string        `placeholder:"FOLDER" help:"Also write the pictures as SVG files into this folder; with --span the stretch too."`
	NoLimits   bool          `help:"Leave out what more of each thing would bring."`
}

// Run reckons the years and prints them.
func (c *travelCommand) Run(r *run) error {
	file, err := c.open()
	if err != nil {
		return err
	}
	res, err := c.reckon(r, file)
	if err != nil {
		return err
	}
	if err := c.draw(file, res); err != nil {
		return err
	}
	if c.JSON {
		out := newReport("travel", file, res.Findings, nil)
		out.Figures, out.Travel = res.Figures, res
		if err := writeJSON(r.Stdout, out); err != nil {
			return err
		}
		return stopIfAny(res.Findings)
	}
	t := &travelText{w: c.out(r, file.Rig), res: res, sys: system(file.Rig)}
	t.print(file)
	return stopIfAny(res.Findings)
}

func (c *travelCommand) reckon(r *run, file *rig.File) (*travel.Result, error) {
	hours, err := c.hours()
	if err != nil {
		return nil, err
	}
	if c.Years < 1 {
		return nil, badInput(fmt.Errorf("--years %d: expected one or more", c.Years))
	}
	o := travel.Options{Years: c.Years, Seed: c.Seed, StepS: c.Step.Seconds(), Weather: hours, Limits: !c.NoLimits}
	if c.Span != "" {
		o.Span = &travel.SpanWish{From: c.Span, Days: c.Days}
	}
	bar := newProgress(r.Stderr, "years")
	o.Progress = bar.tell
	res, err := travel.Run(r.ctx, file.Rig, o)
	bar.end()
	if err != nil {
		return nil, flagged(file, err)
	}
	return res, nil
}

// flagged says of an input error whether a flag or the rig file is at fault.
func flagged(file *rig.File, err error) error {
	var in *fit.InputError
	if errors.As(err, &in) && (in.Path == "step" || in.Path == "span") {
		return badInput(fmt.Errorf("--%s: %s; expected %s; example: --%s %s", in.Path, in.Message, in.Expected, in.Path, strings.ReplaceAll(in.Example, " ", "")))
	}
	return placed(file, err)
}

// draw writes the pictures of the year.
func (c *travelCommand) draw(file *rig.File, res *travel.Result) error {
	if c.Draw == "" {
		return nil
	}
	fitted, err := fit.Run(file.Rig)
	if err != nil {
		return placed(file, err)
	}
	o := picture.Options{Width: picture.Desk, Units: system(file.Rig), Standalone: true}
	files := map[string][]byte{
		"year.svg":   []byte(picture.Year(res, fitted, o)),
		"months.svg": []byte(picture.Months(res, o)),
		"route.svg":  []byte(picture.Route(res, o)),
		"gains.svg":  []byte(picture.Gains(res, o)),
	}
	if res.Span != nil {
		files["days.svg"] = []byte(picture.Week(res, fitted, o))
	}
	return writeFolder(c.Draw, files)
}

// hours reads the weather file, if one is named.
func (c *travelCommand) hours() (*weather.Hours, error) {
	if c.Weather == "" {
		return nil, nil
	}
	f, err := os.Open(c.Weather)
	if err != nil {
		return nil, badInput(err)
	}
	defer f.Close()
	hours, err := hourly.Read(c.Weather, f)
	return hours, badInput(err)
}
