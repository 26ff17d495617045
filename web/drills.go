package web

import (
	"context"

	"ampstead/drill"
	"ampstead/rig"
	"ampstead/sheet"
)

// drilling plays the faults: drill.Run and drill.Play, or what a test puts in
// their place.
type drilling struct {
	run  func(ctx context.Context, r *rig.Rig, o drill.Options) (*drill.Result, error)
	play func(r *rig.Rig, scene string, faults ...string) (*drill.Strip, error)
}

// drilled is a drill with the runs that the book shows.
type drilled struct {
	result *drill.Result
	strips []drill.Strip
}

// drills plays the faults of a rig in the background.
type drills struct {
	drilling
	kept[*drilled]
}

func newDrills(d drilling, q *queue) *drills {
	return &drills{d, kept[*drilled]{queue: q}}
}

// drilledFor returns the job of the drill for a reading, started when there is
// none.
func (d *drills) drilledFor(now *reading) *job[*drilled] { return d.of(now, d.playing(now)) }

// drilledUnasked is the same for a drill that nobody waits for.
func (d *drills) drilledUnasked(now *reading) *job[*drilled] { return d.unasked(now, d.playing(now)) }

func (d *drills) playing(now *reading) func(context.Context, *job[*drilled]) (*drilled, error) {
	return func(ctx context.Context, j *job[*drilled]) (*drilled, error) {
		r := now.file.Rig
		res, err := d.run(ctx, r, drill.Options{Workers: j.workers(), Progress: j.progress})
		if err != nil {
			return nil, err
		}
		strips, err := sheet.Strips(ctx, res, func(scene string, faults ...string) (*drill.Strip, error) { return d.play(r, scene, faults...) })
		return &drilled{res, strips}, err
	}
}

// with returns the model with the drill, if there is one.
func (d *drilled) with(m *sheet.Model) *sheet.Model {
	if d == nil {
		return m
	}
	return m.WithDrill(d.result, d.strips...)
}
