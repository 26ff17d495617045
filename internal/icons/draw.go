package main

import (
	"image"
	"image/color"
)

// unit is the side of the mark's own square.
const unit = 24.0

// samples of a pixel are taken in each direction, so that edges are soft.
const samples = 4

// The colours of day, as in look.css.
var (
	paper  = color.NRGBA{0xf6, 0xf2, 0xe8, 0xff}
	ink    = color.NRGBA{0x24, 0x21, 0x1c, 0xff}
	accent = color.NRGBA{0x9a, 0x3b, 0x1f, 0xff}
)

// bar is an upright rectangle of the mark.
type bar struct {
	left, top, right, bottom float64
	colour                   color.NRGBA
}

// bars of the mark, the uppermost last.
var bars = []bar{
	{4, 3, 6, 21, ink}, {18, 3, 20, 21, ink}, // posts
	{5, 6.25, 19, 7.75, ink}, {5, 16.25, 19, 17.75, ink}, // rungs
	{5, 10.75, 19, 13.25, accent},
}

// draw paints the icon.
func (i icon) draw() *image.NRGBA {
	img := image.NewNRGBA(image.Rect(0, 0, i.size, i.size))
	for y := range i.size {
		for x := range i.size {
			img.SetNRGBA(x, y, i.pixel(x, y))
		}
	}
	return img
}

// pixel is the mean of its samples; what lies outside the paper is clear.
func (i icon) pixel(x, y int) color.NRGBA {
	var r, g, b, covered int
	for n := range samples * samples {
		c, ok := i.at((float64(x)+(float64(n%samples)+.5)/samples)*unit/float64(i.size),
			(float64(y)+(float64(n/samples)+.5)/samples)*unit/float64(i.size))
		if ok {
			r, g, b, covered = r+int(c.R), g+int(c.G), b+int(c.B), covered+1
		}
	}
	if covered == 0 {
		return color.NRGBA{}
	}
	return color.NRGBA{uint8(r / covered), uint8(g / covered), uint8(b / covered), uint8(255 * covered / (samples * samples))}
}

// at is the colour at a place in units of the mark.
func (i icon) at(x, y float64) (color.NRGBA, bool) {
	if outside(x, y, i.round) {
		return color.NRGBA{}, false
	}
	x, y = (x-unit/2)/i.scale+unit/2, (y-unit/2)/i.scale+unit/2
	colour := paper
	for _, b := range bars {
		if x >= b.left && x < b.right && y >= b.top && y < b.bottom {
			colour = b.colour
		}
	}
	return colour, true
}

// outside reports whether a place is cut off by a rounded corner.
func outside(x, y, round float64) bool {
	dx := max(round-x, x-(unit-round), 0)
	dy := max(round-y, y-(unit-round), 0)
	return dx*dx+dy*dy > round*round
}
