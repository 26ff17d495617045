package picture

import (
	"math"
	"net/url"
)

// stays names along the top where the rig stands, one bracket for each stay, in
// as many rows as keep the names apart.
func (y *ribbon) stays() float64 {
	list := stretches(y.res.Days)
	var labels []label
	var left, right []float64
	for _, s := range list {
		l := newLabel(words{}, 0, math.Min(260, y.c.width-4), words{strong, s.place}, words{small, s.dates(y.res.Days)})
		at := math.Max(0, math.Min(y.x.at(float64(s.first)), y.c.width-l.width))
		labels = append(labels, l)
		left, right = append(left, at), append(right, at+l.width)
	}
	rows := columns(left, right, 12)
	tops, foot := rowTops(rows, labels)
	for i, s := range list {
		from, to := y.x.at(float64(s.first)), y.x.at(float64(s.last+1))
		labels[i].draw(y.c, left[i], tops[rows[i]])
		line := tops[rows[i]+1] - 5
		y.c.path("line", (&trace{}).move(from+1, line-4).to(from+1, line).to(to-1, line).to(to-1, line-4))
	}
	return foot
}

// rowTops stacks rows as tall as their tallest label, with room for a bracket
// below each. The last entry is the foot.
func rowTops(rows []int, labels []label) (tops []float64, foot float64) {
	var tall []float64
	for i, r := range rows {
		for len(tall) <= r {
			tall = append(tall, 0)
		}
		tall[r] = math.Max(tall[r], labels[i].height)
	}
	tops = []float64{0}
	for _, h := range tall {
		foot += h + 14
		tops = append(tops, foot)
	}
	return tops, foot
}

// pick lays links over the picture that lead to a stretch in detail: weeks where
// there is width, months on a phone. prefix is the address up to its query.
func (y *ribbon) pick(prefix string, top, bottom float64) {
	if prefix == "" {
		return
	}
	days := y.res.Days
	starts, long := weekStarts(len(days)), "7"
	if y.narrow {
		starts, _ = monthStarts(days)
		long = "31"
	}
	for i, from := range starts {
		to := float64(len(days))
		if i+1 < len(starts) {
			to = float64(starts[i+1])
		}
		day := days[from].Date
		y.c.link(prefix+"?from="+url.QueryEscape(monthDay(day))+"&days="+long+"#week", "from "+dayWords(day)+" in detail",
			box{y.x.at(float64(from)), top, y.x.at(to) - y.x.at(float64(from)), bottom - top})
	}
}

func weekStarts(days int) []int {
	var list []int
	for d := 0; d < days; d += 7 {
		list = append(list, d)
	}
	return list
}

// link is a place to press that leads elsewhere. It is left out of the order of
// the keyboard: the same links stand beside the picture as text.
func (c *canvas) link(to, title string, r box) {
	c.b = append(c.b, `<a tabindex="-1" href="`...)
	c.b = escape(c.b, to)
	c.b = append(c.b, `">`...)
	c.b = append(c.b, `<rect class="pick"`...)
	c.attr("x", r.x)
	c.attr("y", r.y)
	c.attr("width", r.w)
	c.attr("height", r.h)
	c.b = append(c.b, `><title>`...)
	c.b = escape(c.b, title)
	c.b = append(c.b, `</title></rect></a>`...)
}
