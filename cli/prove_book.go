package cli

import (
	"errors"
	"fmt"

	"ampstead/fit"
	"ampstead/prove"
	"ampstead/rig"
	"ampstead/shelf"
)

// proof reads the newest log kept with the rig for the book, and makes its test
// plan; nothing when that is not wanted. A log that cannot be read is left out,
// which is said on stderr.
func (c *bookCommand) proof(r *run, file *rig.File, res *fit.Result) (log string, told *prove.Result, plan *prove.Plan, err error) {
	if !c.Prove {
		return "", nil, nil, nil
	}
	known := shelf.Known(file.Rig, res)
	var lacking *fit.InputError
	plan, err = shelf.Plan(known, shelf.Gear{})
	if errors.As(err, &lacking) {
		fmt.Fprintf(r.Stderr, "ampstead: the book is without a test plan: %s: %s\n", lacking.Path, lacking.Message)
	} else if err != nil {
		return "", nil, nil, err
	}
	on := shelf.Of(file.Path)
	kept, err := on.Logs()
	if err != nil || len(kept) == 0 {
		return "", nil, plan, badInput(err)
	}
	layout, err := on.Layout()
	if err != nil {
		return "", nil, nil, badInput(err)
	}
	log = kept[0].Name
	p := &proof{run: r, c: &proveCommand{}, file: file, layout: layout, known: known}
	told, err = p.one(on.Path(log))
	if input := new(inputError); errors.As(err, &input) {
		fmt.Fprintf(r.Stderr, "ampstead: the book is without the test of the module: %v\n", err)
		return "", nil, plan, nil
	}
	return log, told, plan, err
}
