// Command icons draws Ampstead's mark as the PNG files that a phone puts on its home
// screen: go run ./internal/icons web/static. The mark is two posts and three rungs,
// the middle one in the accent, as in mark.svg.
//
// May import: nothing of ours.
package main

import (
	"bytes"
	"fmt"
	"image"
	"image/png"
	"os"
	"path/filepath"
)

// icon is one file.
type icon struct {
	file  string
	size  int     // pixels
	round float64 // radius of the corners, in units of the mark
	scale float64 // of the mark on its paper
}

// icons are what the manifest and the pages name. A maskable icon may be cut to a
// circle of 40 % of its width around the middle (W3C Web App Manifest), so its mark
// is drawn smaller; the touch icon is rounded by the phone.
var icons = []icon{
	{"icon-192.png", 192, 3, 1},
	{"icon-512.png", 512, 3, 1},
	{"icon-maskable-512.png", 512, 0, .72},
	{"icon-touch-180.png", 180, 0, .86},
}

func main() {
	if len(os.Args) != 2 {
		fmt.Fprintln(os.Stderr, "usage: icons FOLDER")
		os.Exit(2)
	}
	for _, i := range icons {
		if err := i.write(os.Args[1]); err != nil {
			fmt.Fprintln(os.Stderr, "icons:", err)
			os.Exit(3)
		}
	}
}

func (i icon) write(folder string) error {
	data, err := encode(i.draw())
	if err != nil {
		return err
	}
	return os.WriteFile(filepath.Join(folder, i.file), data, 0o644)
}

func encode(img image.Image) ([]byte, error) {
	var b bytes.Buffer
	err := (&png.Encoder{CompressionLevel: png.BestCompression}).Encode(&b, img)
	return b.Bytes(), err
}
