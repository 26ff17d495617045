package cli

import (
	"fmt"
	"os"
	"path/filepath"

	"ampstead/fit"
	"ampstead/picture"
	"ampstead/rig"
)

type fitCommand struct {
	stageFlags `embed:""`
	Draw       string `placeholder:"FOLDER" help:"Also write the pictures as SVG files into this folder."`
}

// Run computes the fit and prints it.
func (c *fitCommand) Run(r *run) error {
	file, res, err := c.compute()
	if err != nil {
		return err
	}
	if c.Draw != "" {
		if err := c.draw(file.Rig, res); err != nil {
			return err
		}
	}
	if c.JSON {
		out := newReport("fit", file, res.Findings, res.Uses)
		out.Fit = res
		if err := writeJSON(r.Stdout, out); err != nil {
			return err
		}
		return stopIfAny(res.Findings)
	}
	t := &fitText{w: r.Stdout, res: res, sys: system(file.Rig)}
	t.print(file)
	return stopIfAny(res.Findings)
}

func (s stageFlags) compute() (*rig.File, *fit.Result, error) {
	file, err := s.open()
	if err != nil {
		return nil, nil, err
	}
	res, err := fit.Run(file.Rig)
	if err != nil {
		return nil, nil, placed(file, err)
	}
	return file, res, nil
}

func (c *fitCommand) draw(r *rig.Rig, res *fit.Result) error {
	options := picture.Options{Width: 1040, Units: system(r), Standalone: true}
	drawings := map[string]string{
		"ladder.svg":     picture.Ladder(res, options),
		"rest-curve.svg": picture.RestCurve(res, options),
		"warmth.svg":     picture.Warmth(res, options),
	}
	if err := os.MkdirAll(c.Draw, 0o755); err != nil {
		return badInput(err)
	}
	for name, svg := range drawings {
		if err := os.WriteFile(filepath.Join(c.Draw, name), []byte(svg), 0o644); err != nil {
			return badInput(fmt.Errorf("picture: %w", err))
		}
	}
	return nil
}
