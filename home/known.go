package home

import (
	"time"

	"ampstead/choose"
	"ampstead/drill"
	"ampstead/fit"
	"ampstead/keep"
	"ampstead/prove"
	"ampstead/quantity"
	"ampstead/rig"
	"ampstead/travel"
	"ampstead/wire"
)

// Known is what there is of a rig. Results that are nil were not reckoned.
type Known struct {
	File     *rig.File
	Mistakes rig.Errors // why the file cannot be reckoned with; Fit is nil then
	Fit      *fit.Result
	Wire     *wire.Result
	Travel   *travel.Result
	Drill    *drill.Result
	Proof    *prove.Result
	Log      string // name of the newest log of a test that is kept, "" for none
	Kept     *keep.Result
	Choice   *choose.Result
	Runs     map[string]Run // by stage: how its result came, or why there is none

	Now   time.Time
	Units quantity.System
}

// Run is how a stage's result came about, or why there is none.
type Run struct {
	At   time.Time // when it was reckoned; zero when not known
	Say  string    // how far it is, while it is being reckoned: "3 of 40 years reckoned"
	Path string    // in the rig file: what is missing there
	Why  string    // why it cannot be reckoned; "" for none
}
