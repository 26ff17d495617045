package picture

import q "ampstead/quantity"

// The widths, in CSS pixels, that page and book draw for.
const (
	Desk  = 1040
	Phone = 390
)

// Options says how a picture is to be drawn.
type Options struct {
	Width      int      // CSS px the picture is shown at; text is sized for it. 0 means Desk; below 320 counts as 320
	Units      q.System // of the temperatures; volts are volts everywhere
	Standalone bool     // a file of its own: with namespace, size and the style sheet inside
	Pick       string   // address a press on the year, or on a run of a drill, leads to, up to its query; empty for none
	Low        bool     // of a run's strip: lower panels, so that two stand on a sheet of paper
	Key        string   // tells drawings of one kind on one page apart: letters and digits
}

const (
	leastWidth  = 320
	narrowBelow = 860 // lanes are stacked instead of side by side
)

func (o Options) width() float64 {
	if o.Width == 0 {
		return Desk
	}
	return float64(max(o.Width, leastWidth))
}

func (o Options) narrow() bool { return o.width() < narrowBelow }
