package picture

import (
	"math"

	"ampstead/start"
)

// wiring draws the bus bar with what comes to it: from the bank by way of switch
// and fuse, from the roof, from the engine and from the hook-up.
func (d *scene) wiring() {
	s := d.s
	mid := d.bankY + d.tall/2
	end := d.bankEnd()
	d.line(d.pen(s.Fuse), end, mid, d.spine, mid)
	if !s.Solar.None {
		d.line(d.pen(s.Solar), d.spine, d.roof, d.spine, d.shelfY+8)
	}
	if !s.Alternator.None {
		d.path(d.pen(s.Alternator), (&trace{}).move(d.spine, mid).to(d.right-17, mid).to(d.right-17, d.floor-39))
	}
	if !s.Mains.None {
		d.path(d.pen(s.Mains), (&trace{}).move(d.left, d.shelfY+10).to(d.spine, d.shelfY+10))
	}
	d.line("rung", d.spine, d.shelfY+4, d.spine, mid+6)
	d.fuse(end, mid)
}

// fuse draws the main fuse and the heavy switch in the main cable.
func (d *scene) fuse(from, y float64) {
	room := d.spine - from
	if p := d.s.Fuse; !p.None {
		x := from + 0.3*room
		d.rect("bare", box{x - 8, y - 4, 16, 8})
		d.rect(d.pen(p), box{x - 8, y - 4, 16, 8})
		d.say(p, d.spine-6, y-10, room-4, "end")
	}
	if p := d.s.Relay; !p.None && (p.Given || p.Asked) {
		x := from + 0.72*room
		d.rect("bare", box{x - 7, y - 8, 14, 12})
		d.path(d.pen(p), (&trace{}).move(x-7, y).to(x+6, y-7))
		d.dot(d.pen(p), x-7, y, 1.6)
		d.dot(d.pen(p), x+7, y, 1.6)
	}
}

// rows is how many modules are drawn one behind the other.
func (d *scene) rows() int { return max(1, min(3, d.s.Modules)) }

// cells is how many groups are drawn; of more only as many as can be told apart.
func (d *scene) cells() (n int, wide float64) {
	room := 0.62 * (d.spine - d.left - 16)
	n = max(1, min(d.s.Series, 32))
	return n, math.Min(0.73*d.tall, room/float64(n))
}

func (d *scene) bankLeft() float64 { return d.left + 14 }

func (d *scene) bankEnd() float64 {
	n, wide := d.cells()
	return d.bankLeft() + wide*float64(n) + 3*float64(d.rows()-1)
}

// bank draws the groups as cells in a row, modules one behind the other, and
// what is known of them below.
func (d *scene) bank() {
	s := d.s
	n, wide := d.cells()
	pen := d.pen(join(s.Battery, s.Groups))
	for row := d.rows() - 1; row >= 0; row-- {
		x, y := d.bankLeft()+3*float64(row), d.bankY-3*float64(row)
		d.rect("bare", box{x, y, wide * float64(n), d.tall})
		d.rect(pen, box{x, y, wide * float64(n), d.tall})
	}
	t := &trace{}
	for i := range n {
		x := d.bankLeft() + wide*float64(i)
		if i > 0 {
			t.move(x, d.bankY).to(x, d.bankY+d.tall)
		}
	}
	d.path(pen, t)
	if p := s.Meter; !p.None && (p.Given || p.Asked) {
		d.taps(p, n, wide)
	}
	if p := s.Pad; !p.None && p.Given {
		d.line(d.pen(p), d.bankLeft(), d.bankY+d.tall+3, d.bankLeft()+wide*float64(n), d.bankY+d.tall+3)
	}
	if s.Kept.Given && s.Cold || s.Kept.Asked {
		d.rect(d.pen(s.Kept), box{d.bankLeft() - 6, d.bankY - 10, d.bankEnd() - d.bankLeft() + 12, d.tall + 17})
	}
	d.captions()
}

// join is two answers about one thing: drawn in ink when either is given, in the
// accent when either is asked.
func join(a, b start.Part) start.Part {
	return start.Part{Given: a.Given || b.Given, Open: a.Open || b.Open, Asked: a.Asked || b.Asked}
}

// taps are the thin wires of what watches the groups.
func (d *scene) taps(p start.Part, n int, wide float64) {
	t := &trace{}
	for i := range n {
		x := d.bankLeft() + wide*(float64(i)+0.5)
		t.move(x, d.bankY+3).to(x, d.bankY-5)
	}
	t.move(d.bankLeft()+wide*0.5, d.bankY-5).to(d.bankLeft()+wide*(float64(n)-0.5), d.bankY-5)
	d.path(d.pen(p), t)
}

// captions are the lines below the bank.
func (d *scene) captions() {
	s := d.s
	list := []start.Part{s.Groups, s.Capacity, s.Kept}
	if !s.Groups.Given {
		list[0] = s.Battery
	}
	d.flow(list, d.bankLeft(), d.bankY+d.tall+21, d.spine-d.left-20)
}

// flow writes parts one after another, each in its own hand, on two lines at most.
func (d *scene) flow(list []start.Part, left, y, width float64) {
	x, end := left, left+width
	for _, p := range list {
		if p.Text == "" || p.None {
			continue
		}
		st := d.hand(p)
		if wide := st.measure(p.Text); x > left && x+wide > end {
			x, y, end = left, y+st.leading(), left
		}
		d.text(st, x, y, "start", st.fitted(p.Text, width))
		x += st.measure(p.Text) + 12
	}
}

// household draws the inverter and what runs.
func (d *scene) household() {
	s := d.s
	y := d.shelfY
	x := d.left + 14
	edge := d.spine - 12
	if p := s.Inverter; !p.None {
		wide := 78.0
		b := box{edge - wide, d.roof + 16, wide, y - d.roof - 18}
		d.rect(d.pen(p), b)
		d.line(d.pen(p), edge, y-8, d.spine, y-8)
		d.wave(d.pen(p), b)
		d.wrapped(p, b.x+6, b.y+14, wide-12, 2)
		edge = b.x - 10
	}
	if p := s.Loads; !p.None {
		d.line(d.pen(p), x, y+4, d.spine, y+4)
		d.wrapped(p, x, d.roof+22, edge-x, int((y-d.roof-20)/aside.leading()))
	}
}

// wave is the sign of alternating current.
func (d *scene) wave(pen string, b box) {
	x, y := b.x+b.w-20, b.y+b.h-9
	d.path(pen, (&trace{}).move(x, y).bend(x+3.5, y-8, x+7, y).bend(x+10.5, y+8, x+14, y))
}

// wrapped writes a part's text on up to so many lines.
func (d *scene) wrapped(p start.Part, x, y, width float64, most int) {
	st := d.hand(p)
	lines := st.wrap(p.Text, width)
	if len(lines) > most && most > 0 {
		lines = lines[:most]
		lines[most-1] = st.fitted(lines[most-1]+" …", width)
	}
	for _, line := range lines {
		d.text(st, x, y, "start", line)
		y += st.leading()
	}
}

// road draws the two places below the vehicle and returns the picture's height.
func (d *scene) road(y float64) float64 {
	s := d.s
	guards := s.Guards
	if guards.Text != "" && !guards.None {
		guards.Text = "watched by " + guards.Text
		st := d.hand(guards)
		for _, line := range st.wrap(guards.Text, d.width) {
			d.text(st, 0, y+12, "start", line)
			y += st.leading()
		}
		y += 4
	}
	y += 18
	half := d.width / 2
	d.line(d.pen(s.Summer), 8, y, half+8, y)
	foot := d.stop(s.Winter, "winter", s.WinterCold, 0, y, half-16)
	if s.OnePlace && s.Summer.Given {
		d.dot(d.pen(s.Summer), half+8, y, 4)
		d.text(d.hand(s.Summer), half, y+20, "start", "all year")
		return math.Max(foot, y+28)
	}
	return math.Max(foot, d.stop(s.Summer, "summer", s.SummerCold, half, y, half-4))
}

// stop draws one place on the road and returns where its words end.
func (d *scene) stop(p start.Part, season, cold string, x, y, width float64) float64 {
	d.dot(d.pen(p), x+8, y, 4)
	st := d.hand(p)
	if !p.Given {
		st = small
		if p.Asked {
			st = alert
		}
		d.text(st, x, y+20, "start", season)
		return y + 28
	}
	y += 20
	for _, line := range st.wrap(season+": "+p.Text, width) {
		d.text(st, x, y, "start", line)
		y += st.leading()
	}
	d.text(small, x, y, "start", small.fitted(cold, width))
	return y + 8
}
