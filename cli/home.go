package cli

import (
	"context"
	"errors"

	"ampstead/drill"
	"ampstead/finding"
	"ampstead/fit"
	"ampstead/home"
	"ampstead/logbook"
	"ampstead/prove"
	"ampstead/rig"
	"ampstead/shelf"
	"ampstead/travel"
	"ampstead/wire"
)

type homeCommand struct {
	stageFlags `embed:""`
	bookFlags  `embed:""`
	All        bool `help:"Also reckon the year, play the drills and read the newest log of a test, which takes some seconds."`
}

// Run says where the rig stands.
func (c *homeCommand) Run(r *run) error {
	now, err := c.clock()
	if err != nil {
		return err
	}
	file, fitted, err := c.compute()
	if err != nil {
		return err
	}
	g := &gathering{r: r, known: home.Known{File: file, Fit: fitted, Now: now, Units: system(file.Rig), Runs: map[string]home.Run{}}}
	steps := []func() error{g.wire, func() error { return g.keep(c.Store) }}
	if c.All {
		steps = append(steps, g.travel, g.drill)
	}
	for _, step := range append(steps, func() error { return g.prove(c.All) }) {
		if err := step(); err != nil {
			return err
		}
	}
	return c.print(r, file, home.Of(g.known))
}

func (c *homeCommand) print(r *run, file *rig.File, res *home.Result) error {
	var found []finding.Finding
	for _, f := range res.Findings {
		found = append(found, f.Finding)
	}
	if c.JSON {
		out := newReport("home", file, found, nil)
		out.Home = res
		if err := writeJSON(r.Stdout, out); err != nil {
			return err
		}
	} else {
		(&homeText{w: r.Stdout, res: res, file: file}).print()
	}
	return stopIfAny(found)
}

// gathering collects what is known of a rig.
type gathering struct {
	r     *run
	known home.Known
}

// lacks notes why a stage has no result; what is no mistake in the rig is an error.
func (g *gathering) lacks(stage string, err error) error {
	var in *fit.InputError
	if errors.As(err, &in) {
		g.known.Runs[stage] = home.Run{Path: in.Path, Why: in.Message}
		return nil
	}
	return err
}

func (g *gathering) wire() (err error) {
	if g.known.Wire, err = wire.Run(g.known.File.Rig, g.known.Fit, wire.Options{}); err != nil {
		g.known.Wire = nil
		return g.lacks("wire", err)
	}
	return nil
}

// keep reads the logbook, where one was begun.
func (g *gathering) keep(server string) error {
	if err := logbook.CheckServer(server); err != nil {
		return badInput(err)
	}
	var log logbook.Log
	if logbook.There(g.known.File, server) {
		book, err := logbook.Open(g.r.ctx, g.known.File, server, true)
		if err != nil {
			return bookError(err)
		}
		defer book.Close()
		if log, err = logbook.Read(g.r.ctx, book); err != nil {
			return bookError(err)
		}
	}
	res, err := log.Keep(g.r.ctx, g.known.File, g.known.Fit, g.known.Now, false)
	if err != nil {
		return g.lacks("keep", err)
	}
	g.known.Kept = res
	return nil
}

func (g *gathering) travel() error {
	bar := newProgress(g.r.Stderr, "years")
	res, err := travel.Run(g.r.ctx, g.known.File.Rig, travel.Options{Years: homeYears, Progress: bar.tell})
	bar.end()
	if err != nil {
		return g.lacks("travel", err)
	}
	g.known.Travel = res
	return nil
}

// homeYears is how many weather years are reckoned, as travel does by itself.
const homeYears = 10

func (g *gathering) drill() error {
	bar := newProgress(g.r.Stderr, "runs")
	res, err := drill.Run(g.r.ctx, g.known.File.Rig, drill.Options{Progress: bar.tell})
	bar.end()
	if err != nil {
		return g.lacks("drill", err)
	}
	g.known.Drill = res
	return nil
}

// prove names the newest log that is kept, and reads it where that is wanted.
func (g *gathering) prove(read bool) error {
	on := shelf.Of(g.known.File.Path)
	logs, err := on.Logs()
	if err != nil || len(logs) == 0 {
		return badInput(err)
	}
	g.known.Log = logs[0].Name
	if !read {
		return nil
	}
	g.known.Proof, err = readKept(g.r.ctx, on, g.known.Log, shelf.Known(g.known.File.Rig, g.known.Fit))
	if err != nil {
		g.known.Runs["prove"] = home.Run{Why: err.Error()}
	}
	return g.r.ctx.Err()
}

func readKept(ctx context.Context, on shelf.Shelf, name string, known prove.Options) (*prove.Result, error) {
	layout, err := on.Layout()
	if err != nil {
		return nil, err
	}
	file, err := on.Open(name)
	if err != nil {
		return nil, err
	}
	defer file.Close()
	return prove.Run(ctx, name, file, layout, known)
}
