package picture

import (
	"fmt"
	"math"
	"slices"

	"ampstead/prove"
)

// rowTall is the height of the row of a group, px.
const rowTall = 28.0

// GroupResistance draws the resistance of every group with its error bar.
func GroupResistance(res *prove.Result, o Options) string {
	c, height := groupResistance(res, o)
	return c.finish(o, height, "Resistance of each group", describeGroups(res, func(g prove.Group) string {
		return fmt.Sprintf("%.2f mΩ ± %.2f", 1e3*g.Ohm, 1e3*g.OhmErr)
	}))
}

func groupResistance(res *prove.Result, o Options) (*canvas, float64) {
	c := newCanvas("resistances", o)
	list := measured(res.Groups, func(g prove.Group) bool { return g.Ohm > 0 && g.Ohm < 1 && plausible(g.OhmErr) })
	if len(list) == 0 {
		return c, caption(c, 0, "The log has no step of current that shows the resistance of single groups.")
	}
	t := newRows(c, o)
	top := t.title(0, "Resistance after 10 s, mΩ", "with one standard error to either side")
	most, text, middle := 1e-6, 0.0, 1e3*medianOhm(list)
	for _, g := range list {
		most = math.Max(most, 1e3*(g.Ohm+g.OhmErr))
		text = math.Max(text, strong.measure(withError(1e3*g.Ohm, 1e3*g.OhmErr)))
	}
	t.x = linear{0, most * 1.02, t.left, c.width - text - 12}
	foot := top + 16 + rowTall*float64(len(list))
	c.line("dash", t.x.at(middle), top+12, t.x.at(middle), foot)
	said := fmt.Sprintf("median %.2f", middle)
	c.text(small, math.Min(t.x.at(middle), c.width-small.measure(said)/2), top+8, "middle", said)
	for i, g := range list {
		t.ohm(g, top+16+rowTall*(float64(i)+0.5), middle)
	}
	return c, t.foot(foot, "")
}

// measured are the groups a picture has something to show of.
func measured(list []prove.Group, has func(prove.Group) bool) []prove.Group {
	var out []prove.Group
	for _, g := range list {
		if has(g) {
			out = append(out, g)
		}
	}
	return out
}

// plausible keeps out what is no number or could not be drawn.
func plausible(v float64) bool { return v > -1e4 && v < 1e4 }

func medianOhm(list []prove.Group) float64 {
	var all []float64
	for _, g := range list {
		all = append(all, g.Ohm)
	}
	slices.Sort(all)
	n := len(all)
	return (all[(n-1)/2] + all[n/2]) / 2
}

// rowChart is a picture of one row a group.
type rowChart struct {
	*chart
	left  float64 // px where the scales begin
	other linear  // the scale of a second column
}

func newRows(c *canvas, o Options) *rowChart {
	t := &rowChart{chart: newChart(c, 1, o)}
	t.left = 74
	t.gutterAt = c.width
	return t
}

func (t *rowChart) name(g prove.Group, y float64, marked bool) {
	s := plain
	if marked {
		s = hot
	}
	t.c.text(s, 0, y+4, "start", groupName(g.Number))
}

// ohm draws one group; it is marked when it lies above the median by more than
// two errors and a fifth.
func (t *rowChart) ohm(g prove.Group, y, middle float64) {
	at, err := 1e3*g.Ohm, 1e3*g.OhmErr
	high := at-2*err > 1.2*middle
	t.name(g, y, high)
	t.c.line("hair", t.x.p0, y, t.x.p1, y)
	t.errorBar(t.x, y, at, err, high)
	mark := "solid"
	if high {
		mark = "hot"
	}
	t.c.dot(mark, t.x.at(at), y, 4)
	t.c.text(strong, t.x.p1+10, y+4, "start", withError(at, err))
}

// errorBar is a line of one error to either side with an end stroke at each end.
func (t *rowChart) errorBar(x linear, y, at, err float64, bad bool) {
	if !(err > 0) {
		return
	}
	from, to := x.at(math.Max(x.v0, at-err)), x.at(math.Min(x.v1, at+err))
	bar := (&trace{}).move(from, y).to(to, y).move(from, y-5).to(from, y+5).move(to, y-5).to(to, y+5)
	t.c.path(marked("reach", bad), bar)
}

// withError writes a value with as many decimals as its error calls for.
func withError(v, err float64) string {
	if !(err > 0) {
		return fmt.Sprintf("%.2f", v)
	}
	decimals := max(0, min(3, int(math.Ceil(-math.Log10(err)-1e-9))))
	return fmt.Sprintf("%.*f ± %.*f", decimals, v, decimals, err)
}

func describeGroups(res *prove.Result, say func(prove.Group) string) string {
	text := ""
	for i, g := range res.Groups {
		if i == 24 {
			return text + "and more."
		}
		text += groupName(g.Number) + " " + say(g) + "; "
	}
	return text
}
