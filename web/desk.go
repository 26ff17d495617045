package web

import (
	"crypto/sha256"
	"encoding/hex"
	"errors"
	"fmt"
	"html/template"
	"os"
	"path/filepath"
	"sync"

	"ampstead/fit"
	"ampstead/quantity"
	"ampstead/rig"
	"ampstead/sheet"
	"ampstead/wire"
)

// desk holds the rig file as it lies on disk. One lock covers every read and
// every read-change-save, so two visitors cannot overwrite each other.
type desk struct {
	path string
	mu   sync.Mutex
	last *reading
}

// reading is one content of the file with all that follows from it, in one
// system of units. It never changes once made; what only some pages need is
// made when first asked for.
type reading struct {
	file     *rig.File  // nil when it cannot be read as a rig
	text     []byte     // as on disk
	stamp    string     // tells contents apart
	problems rig.Errors // why there is no file or no result
	missing  error      // the file is not there at all
	units    quantity.System
	result   *fit.Result
	wired    *wire.Result // nil when it could not be reckoned
	unwired  *rig.Problem // and why
	since    *since       // what the edit that led here did to the findings; nil when none did
	formed   sync.Once
	editable rig.Form // what can be edited in it

	mu     sync.Mutex
	other  *reading // the same in the other units
	model  *sheet.Model
	books  map[string][]byte // by date
	live   map[string]string // parts of the form by element id
	fit    template.HTML     // body of the fit page
	wiring template.HTML     // body of the wire page
	all    *sheet.Model      // with the wiring
}

func newDesk(path string) *desk {
	if info, err := os.Stat(path); err == nil && info.IsDir() {
		path = filepath.Join(path, rig.FileName)
	}
	return &desk{path: path}
}

// read returns the file as it is now, computed afresh only when it changed.
func (d *desk) read() *reading {
	d.mu.Lock()
	defer d.mu.Unlock()
	return d.readLocked()
}

func (d *desk) readLocked() *reading {
	text, err := readBounded(d.path)
	if err != nil {
		return &reading{missing: err}
	}
	if d.last == nil || d.last.stamp != stampOf(text) {
		d.last = newReading(d.path, text)
	}
	return d.last
}

func readBounded(path string) ([]byte, error) {
	info, err := os.Stat(path)
	if err != nil {
		return nil, err
	}
	if info.IsDir() || info.Size() > maxText {
		return nil, fmt.Errorf("%s is no rig file", filepath.Base(path))
	}
	return os.ReadFile(path)
}

func stampOf(text []byte) string {
	sum := sha256.Sum256(text)
	return hex.EncodeToString(sum[:12])
}

func newReading(path string, text []byte) *reading {
	file, err := rig.Open(path)
	if err != nil {
		return &reading{text: text, stamp: stampOf(text), problems: problemsOf(path, err)}
	}
	return readingOf(file) // what Open read is what counts
}

func readingOf(file *rig.File) *reading {
	now := &reading{file: file, text: file.Text, stamp: stampOf(file.Text), units: writtenUnits(file)}
	result, err := fit.Run(file.Rig)
	if err != nil {
		now.problems = rig.Errors{fitProblem(file, err)}
		return now
	}
	now.result = result
	now.reckonWire(file.Rig)
	return now
}

// writtenUnits are the units the file is kept in.
func writtenUnits(file *rig.File) quantity.System {
	units, err := quantity.ParseSystem(file.Rig.About.Units)
	if err != nil {
		return quantity.Metric
	}
	return units
}

// in returns the reading with its texts in the given units.
func (now *reading) in(units quantity.System) *reading {
	if now.result == nil || units == now.units {
		return now
	}
	now.mu.Lock()
	defer now.mu.Unlock()
	if now.other != nil {
		return now.other
	}
	// The stage writes numbers into its sentences in the rig's own units, so it
	// is asked again about a rig that wants the others.
	wants := *now.file.Rig
	wants.About.Units = map[quantity.System]string{quantity.Metric: "metric", quantity.US: "us"}[units]
	result, err := fit.Run(&wants)
	if err != nil {
		return now // it ran before: units alone cannot stop it
	}
	now.other = &reading{file: now.file, text: now.text, stamp: now.stamp, units: units, result: result, since: now.since}
	now.other.reckonWire(&wants)
	return now.other
}

// problemsOf turns what the reader said into a list with places.
func problemsOf(path string, err error) rig.Errors {
	var many rig.Errors
	if errors.As(err, &many) {
		return many
	}
	var one *rig.Problem
	if errors.As(err, &one) {
		return rig.Errors{one}
	}
	return rig.Errors{{File: path, Message: err.Error()}}
}

func fitProblem(file *rig.File, err error) *rig.Problem {
	var in *fit.InputError
	if errors.As(err, &in) {
		return file.Problem(in.Path, in.Message, in.Expected, in.Example)
	}
	return &rig.Problem{File: file.Path, Message: err.Error()}
}

// name is the rig's name, or "" while it cannot be read.
func (now *reading) name() string {
	if now.file == nil {
		return ""
	}
	return now.file.Rig.About.Name
}

// sheet returns the parts shared by page and book. There must be a result.
func (now *reading) sheet() *sheet.Model {
	now.mu.Lock()
	defer now.mu.Unlock()
	if now.model == nil {
		now.model = sheet.New(now.file, now.result, now.units)
	}
	return now.model
}
