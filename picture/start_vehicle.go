package picture

import "math"

// vehicle draws body, cab and wheels.
func (d *scene) vehicle() {
	l, r, top, foot := d.left, d.right, d.roof, d.floor
	brow := d.cab + 8
	nose := top + 0.5*(foot-top)
	body := (&trace{}).move(d.rear-d.wheel-5, foot).to(l+4, foot).bend(l, foot, l, foot-4).to(l, top+10).bend(l, top, l+10, top).
		to(brow, top).bend(brow+12, top, brow+18, top+12).to(r-26, nose-8).bend(r-2, nose, r, nose+18).to(r, foot-6).bend(r, foot, r-5, foot).
		to(d.front+d.wheel+5, foot)
	d.arch(body, d.front, foot)
	body.to(d.rear+d.wheel+5, foot)
	d.arch(body, d.rear, foot)
	d.path("bare", body.close())
	d.path("axis", body)
	// The windscreen and the partition behind the seats.
	d.path("hair", (&trace{}).move(d.cab, top+1).to(d.cab, foot))
	d.path("axis", (&trace{}).move(brow+1, top+14).to(brow+12, top+14).to(r-34, nose-9).to(brow+1, nose-9).close())
	for _, x := range []float64{d.rear, d.front} {
		d.dot("bare", x, foot+2, d.wheel)
		d.dot("frame", x, foot+2, d.wheel*0.42)
	}
	d.line("axis", 0, d.ground, d.width, d.ground)
}

// arch draws a wheel arch, from its front end to its rear one.
func (d *scene) arch(t *trace, x, foot float64) {
	t.bend(x+d.wheel+4, foot-d.wheel-4, x, foot-d.wheel-4).bend(x-d.wheel-4, foot-d.wheel-4, x-d.wheel-5, foot)
}

// roofPanels draws the panels, at most a dozen, and their label above.
func (d *scene) roofPanels() {
	p := d.s.Solar
	if p.None {
		return
	}
	n := max(1, min(12, d.s.Panels))
	from, to := d.left+14, d.cab-4
	step := math.Min((to-from)/float64(n), 74)
	from = to - step*float64(n)
	pen := d.pen(p)
	for i := range n {
		x := from + step*float64(i)
		d.path(pen, (&trace{}).move(x+2, d.roof-4).to(x+5, d.roof-12).to(x+step-2, d.roof-12).to(x+step-5, d.roof-4).close())
	}
	d.line(pen, from+8, d.roof-4, from+8, d.roof)
	d.line(pen, to-10, d.roof-4, to-10, d.roof)
	d.say(p, d.width-4, 18, d.width*0.45, "end")
}

// outside draws the alternator under the bonnet and the lead of the hook-up, with
// their labels below the ground.
func (d *scene) outside() {
	y := d.ground + 16
	half := d.width/2 - 8
	if p := d.s.Mains; !p.None {
		x := d.left - 9
		d.path(d.pen(p), (&trace{}).move(d.left, d.shelfY+10).bend(x, d.shelfY+12, x, d.shelfY+24).to(x, d.ground))
		d.rect(d.pen(p), box{x - 3, d.ground - 14, 6, 9})
		d.say(p, 0, y, half, "start")
	}
	if p := d.s.Alternator; !p.None {
		x, cy := d.right-17, d.floor-30
		d.dot(d.pen(p), x, cy, 9)
		d.path(d.pen(p), (&trace{}).move(x-5, cy).bend(x-2.5, cy-6, x, cy).bend(x+2.5, cy+6, x+5, cy))
		if p.Given {
			d.line("leader", x, cy+9, x, d.ground+4)
		}
		d.say(p, d.width, y, half, "end")
	}
}
