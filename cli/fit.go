package cli

import (
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
	if err := c.draw(file.Rig, res); err != nil {
		return err
	}
	if c.JSON {
		out := newReport("fit", file, res.Findings, res.Uses)
		out.Fit = res
		if err := writeJSON(r.Stdout, out); err != nil {
			return err
		}
		return stopIfAny(res.Findings)
	}
	t := &fitText{w: c.out(r, file.Rig), res: res, sys: system(file.Rig)}
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
	o := picture.Options{Width: picture.Desk, Units: system(r), Standalone: true}
	return writeFolder(c.Draw, map[string][]byte{
		"ladder.svg":     []byte(picture.Ladder(res, o)),
		"rest-curve.svg": []byte(picture.RestCurve(res, o)),
		"warmth.svg":     []byte(picture.Warmth(res, o)),
	})
}
