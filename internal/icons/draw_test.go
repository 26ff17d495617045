package main

import (
	"bytes"
	"image"
	"image/png"
	"math"
	"os"
	"path/filepath"
	"testing"
)

// The files beside the pages are what this draws.
func TestFilesAreWhatIsDrawn(t *testing.T) {
	for _, i := range icons {
		data, err := os.ReadFile(filepath.Join("../../web/static", i.file))
		if err != nil {
			t.Fatal(err)
		}
		img, err := png.Decode(bytes.NewReader(data))
		if err != nil {
			t.Fatal(err)
		}
		want := i.draw()
		if img.Bounds() != want.Bounds() {
			t.Fatalf("%s is %v, want %v", i.file, img.Bounds(), want.Bounds())
		}
		if x, y, ok := differ(img, want); ok {
			t.Errorf("%s differs at %d, %d; run go run ./internal/icons web/static", i.file, x, y)
		}
		if len(data) > 8<<10 {
			t.Errorf("%s is %d bytes, want at most 8 KB", i.file, len(data))
		}
	}
}

func differ(a, b image.Image) (x, y int, ok bool) {
	for y := range a.Bounds().Dy() {
		for x := range a.Bounds().Dx() {
			r, g, bl, al := a.At(x, y).RGBA()
			r2, g2, b2, a2 := b.At(x, y).RGBA()
			if r != r2 || g != g2 || bl != b2 || al != a2 {
				return x, y, true
			}
		}
	}
	return 0, 0, false
}

// The mark of the maskable icon lies within the circle that is never cut off, and
// its paper reaches every corner.
func TestMaskable(t *testing.T) {
	for _, i := range icons {
		if i.file != "icon-maskable-512.png" {
			continue
		}
		img := i.draw()
		half := float64(i.size) / 2
		for y := range i.size {
			for x := range i.size {
				c := img.NRGBAAt(x, y)
				if c.A != 255 {
					t.Fatalf("%d, %d is clear", x, y)
				}
				if away := math.Hypot(float64(x)+.5-half, float64(y)+.5-half); c != paper && away > .4*float64(i.size) {
					t.Fatalf("the mark reaches %d, %d, %.0f px from the middle", x, y, away)
				}
			}
		}
		return
	}
	t.Fatal("no maskable icon")
}
