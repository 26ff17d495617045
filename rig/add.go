package rig

import (
	"fmt"
	"math"
	"strconv"
	"strings"
)

// Types of which more than one key or item comes or goes at a time.
const (
	ownShape     = "OwnCell"
	pointShape   = "CurvePoint"
	readingShape = "GroupReading"
)

// exampleMark stands behind a value that a new item began with.
const exampleMark = checkMark + ": an example"

// Add returns a new file with what an Addition of that path offers, and the path
// of what was added. Values by key are written as given; what else must be there
// gets an example, marked as one by a comment where there is room for it. The
// error is Errors when a value or the file that would result is not valid.
func (f *File) Add(path string, values map[string]string) (*File, string, error) {
	g, p := f.aim(path)
	if p != nil {
		return nil, "", Errors{p}
	}
	if !g.field.deep() || g.item {
		return nil, "", Errors{f.Problem(path, "nothing can be added here", "a list, or a block that is not there yet", "charge")}
	}
	next, at, examples, p := f.begun(path, g, values)
	if p != nil {
		return nil, "", Errors{p}
	}
	next, err := next.whole(f)
	if err != nil {
		return nil, "", err
	}
	marked := next.mark(examples)
	marked.disk = f.disk
	return marked, at, nil
}

// begun adds by the rules of the type; examples are the paths that were given by nobody.
func (f *File) begun(path string, g *target, values map[string]string) (next *File, at string, examples []string, p *Problem) {
	switch {
	case g.field.kind == block && len(g.rest) == 0 && g.last(f.tree.root).kind != empty:
		return nil, "", nil, f.Problem(path, "this is there already", "", "")
	case g.field.inner.title == readingShape:
		return f.addReadings(path, g)
	case g.field.inner.title == pointShape:
		return f.addPoints(path, g)
	case g.field.inner.title == ownShape:
		return f.addOwn(path, values)
	}
	keys, p := f.starting(path, g.field, values)
	if p != nil {
		return nil, "", nil, p
	}
	if next, p = f.plant(path, g, []sprout{{keys: keys}}, atEnd); p != nil {
		return nil, "", nil, p
	}
	at = next.lastOf(path)
	for _, k := range keys {
		if strings.TrimSpace(values[k.key]) == "" && k.key != "name" {
			examples = append(examples, join(at, k.key))
		}
	}
	return next, at, examples, nil
}

// lastOf is the path of the last item of a list, or of the block itself.
func (f *File) lastOf(path string) string {
	if n := f.tree.at(path); n != nil && n.kind == list && len(n.steps) > 0 {
		return join(path, n.steps[len(n.steps)-1])
	}
	return path
}

// addOwn begins a cell of its own, like the library cell that was there.
func (f *File) addOwn(path string, values map[string]string) (next *File, at string, examples []string, p *Problem) {
	cell := join(outer(path), "cell")
	like := values["like"]
	if like == "" {
		like = f.textAt(cell)
	}
	if like == "" || like == OwnCellName {
		like = rigShape.field("bank").inner.field("own").inner.field("like").eg
	}
	if next, p = f.change(cell, OwnCellName); p != nil {
		return nil, "", nil, p
	}
	g, p := next.aim(path)
	if p != nil {
		return nil, "", nil, p
	}
	next, p = next.plant(path, g, []sprout{{keys: []sprout{{key: "like", value: like}}}}, atEnd)
	return next, path, nil, p
}

// addReadings begins a reading for each group: fewer are no reading of the bank.
func (f *File) addReadings(path string, g *target) (next *File, at string, examples []string, p *Problem) {
	if len(g.rest) == 0 && len(g.last(f.tree.root).items) > 0 {
		return nil, "", nil, f.Problem(path, "every group has its reading already", "", "")
	}
	capacity := f.bankCapacity()
	items := make([]sprout, max(1, f.Rig.Bank.Series))
	for i := range items {
		items[i] = sprout{keys: []sprout{{key: "capacity", value: capacity}}}
	}
	if next, p = f.plant(path, g, items, atEnd); p != nil {
		return nil, "", nil, p
	}
	for i := range items {
		examples = append(examples, fmt.Sprintf("%s.%d.capacity", path, i))
	}
	return next, path, examples, nil
}

// bankCapacity is the measured capacity as written, else the rated one.
func (f *File) bankCapacity() string {
	if m := f.textAt("bank.measured.capacity"); m != "" {
		return m
	}
	b := &f.Rig.Bank
	field := rigShape.field("bank").inner.field("cell_capacity")
	if b.CellCapacity == nil {
		return field.eg
	}
	rated := float64(*b.CellCapacity) * float64(max(1, b.CellsPerGroup)) * float64(max(1, b.Strings))
	return strconv.FormatFloat(rated, 'f', -1, 64) + " " + field.dim.Base
}

// addPoints begins a curve by its two ends, or puts a point into its widest gap.
func (f *File) addPoints(path string, g *target) (next *File, at string, examples []string, p *Problem) {
	var points []sprout
	behind := atEnd
	if old := f.curveAt(path); len(old) < 2 {
		points = []sprout{f.point(0, f.limitOr(path, "min_voltage")), f.point(1, f.limitOr(path, "max_voltage"))}
	} else {
		behind = widest(old)
		a, b := old[behind], old[behind+1]
		points = []sprout{f.point((a.soc+b.soc)/2, strconv.FormatFloat((a.volt+b.volt)/2, 'f', 3, 64)+" V")}
	}
	if next, p = f.plant(path, g, points, behind); p != nil {
		return nil, "", nil, p
	}
	for i := range points {
		at = fmt.Sprintf("%s.%d", path, behind+1+i)
		examples = append(examples, at+".voltage")
	}
	return next, at, examples, nil
}

func (f *File) point(soc float64, volt string) sprout {
	share := strconv.FormatFloat(math.Round(1e4*soc)/100, 'f', -1, 64) + " %"
	return sprout{keys: []sprout{{key: "soc", value: share}, {key: "voltage", value: volt}}, flow: true}
}

// limitOr is the limit beside a curve as written, else its example.
func (f *File) limitOr(curve, key string) string {
	if v := f.textAt(join(outer(curve), key)); v != "" {
		return v
	}
	return rigShape.field("bank").inner.field("own").inner.field(key).eg
}

type curvePoint struct{ soc, volt float64 }

// curveAt reads the points of a curve, none when one of them cannot be read.
func (f *File) curveAt(path string) []curvePoint {
	n := f.tree.at(path)
	if n == nil || n.kind != list {
		return nil
	}
	shape := rigShape.field("bank").inner.field("own").inner.field("curve").inner
	var all []curvePoint
	for i := range n.items {
		at := fmt.Sprintf("%s.%d", path, i)
		soc, err := shape.field("soc").dim.Parse(f.textAt(at + ".soc"))
		volt, err2 := shape.field("voltage").dim.Parse(f.textAt(at + ".voltage"))
		if err != nil || err2 != nil {
			return nil
		}
		all = append(all, curvePoint{soc, volt})
	}
	return all
}

// widest is the number of the point before the widest gap in charge.
func widest(points []curvePoint) int {
	at := 0
	for i := 0; i+1 < len(points); i++ {
		if points[i+1].soc-points[i].soc > points[at+1].soc-points[at].soc {
			at = i
		}
	}
	return at
}
